// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/model/model.hpp>
#include <utility>

// The part of Model that knows how the parts lay when a reading was taken.
namespace trialfit::stack {

namespace {

void tidy(std::vector<job::PartId>& parts) {
    std::ranges::sort(parts);
    parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
}

}  // namespace

job::FaceRef Model::face_at(int node) const {
    const job::PartId part = owner_[at(node)];
    return {.part = part, .face = node - first_node_[at(part)]};
}

Model::Travel Model::travel(const TrialFit& fit, const Station& to) const {
    Travel journey;
    journey.position.add(to.beyond);
    int here = node(to.face);
    // A part lies on one contact only: each jam is crossed once, so that the way has an end even
    // where a part is said to rest on what it carries.
    std::vector<bool> crossed(fit.jams.size(), false);
    while (true) {
        const job::PartId part = owner_[at(here)];
        journey.way.parts.push_back(part);
        const auto jam = std::ranges::find_if(fit.jams, [&](const Jam& each) {
            return each.part == part && !crossed[static_cast<std::size_t>(&each - fit.jams.data())];
        });
        if (jam != fit.jams.end()) {
            crossed[static_cast<std::size_t>(jam - fit.jams.begin())] = true;
            journey.position.add(gap(jam->own, {.face = face_at(here)}), 1.0);
            journey.position.add(jam->against.beyond);
            journey.way.seats.push_back(part);
            here = node(jam->against.face);
            continue;
        }
        while (steps_[at(here)].up >= 0 && owner_[at(steps_[at(here)].up)] == part) {
            walk(here, steps_[at(here)].up, 1.0, journey.position);
            here = steps_[at(here)].up;
        }
        if (steps_[at(here)].up < 0) return journey;
        walk(here, steps_[at(here)].up, 1.0, journey.position);
        journey.way.seats.push_back(part);
        here = steps_[at(here)].up;
    }
}

bool Model::moves(const Form& form) const {
    return std::ranges::any_of(float_, [&](std::size_t part) {
        return form.sensitivities.coeff(play_size_[part]) != 0.0;
    });
}

Form Model::at_an_end(const Form& form, double sign) const {
    if (!moves(form)) return form;
    FormBuilder builder;
    builder.add(form, 1.0);
    for (const std::size_t p : float_) {
        const double k = form.sensitivities.coeff(play_size_[p]);
        if (k == 0.0) continue;
        builder.add(play_size_[p], -k);
        const double one = k * play_ends_[p].lo;
        const double other = k * play_ends_[p].hi;
        builder.add(total_play_[p], sign < 0.0 ? std::min(one, other) : std::max(one, other));
    }
    return unmeasured_.known(std::move(builder).build(form.sensitivities.size()));
}

Form Model::with_play_as_pushed(const TrialFit& fit, const Form& form) const {
    const auto& lay = reading_play_.at(at(fit.reading));
    const job::Pushed pushed = job_->readings.at(at(fit.reading)).pushed;
    FormBuilder builder;
    builder.add(form, 1.0);
    for (const auto& [part, size] : lay) {
        const double sensitivity = form.sensitivities.coeff(play_size_[at(part)]);
        if (sensitivity == 0.0) continue;
        builder.add(play_size_[at(part)], -sensitivity);
        double share = 1.0;
        if (pushed == job::Pushed::out) share = play_ends_[at(part)].hi;
        if (pushed == job::Pushed::in) share = play_ends_[at(part)].lo;
        builder.add(size, share * sensitivity);
    }
    return unmeasured_.known(std::move(builder).build(form.sensitivities.size()));
}

Form Model::gap(const TrialFit& fit, const Station& inboard, const Station& outboard) const {
    Form lying;
    if (fit.jams.empty()) {
        lying = gap(inboard, outboard);
    } else {
        const auto n = static_cast<Eigen::Index>(sizes_.size());
        lying = unmeasured_.known(difference(std::move(travel(fit, outboard).position).build(n),
                                             std::move(travel(fit, inboard).position).build(n)));
    }
    return with_play_as_pushed(fit, lying);
}

Form Model::misfit(const TrialFit& fit) const {
    const job::Reading& reading = job_->readings.at(at(fit.reading));
    FormBuilder builder;
    builder.add(gap(fit, {.face = reading.from}, {.face = reading.to}), 1.0);
    builder.add(reading_size(fit.reading), -1.0);
    return std::move(builder).build(static_cast<Eigen::Index>(sizes_.size()));
}

Model::Way Model::way_by_seats(int from, int to) const {
    Way way;
    const int meeting = meeting_of(from, to);
    for (int here : {from, to}) {
        for (; here != meeting; here = steps_[at(here)].up) {
            const job::PartId part = owner_[at(here)];
            way.parts.push_back(part);
            if (owner_[at(steps_[at(here)].up)] != part) way.seats.push_back(part);
        }
    }
    way.parts.push_back(owner_[at(meeting)]);
    tidy(way.seats);
    tidy(way.parts);
    return way;
}

Model::Way Model::way(const TrialFit& fit, job::FaceRef from, job::FaceRef to) const {
    if (fit.jams.empty()) return way_by_seats(node(from), node(to));
    Way one = travel(fit, {.face = from}).way;
    const Way other = travel(fit, {.face = to}).way;
    // What both lead over on their common way to the root cancels; the part where they meet stays.
    std::vector<job::PartId> seats;
    std::vector<job::PartId> parts;
    const auto only_in = [](const std::vector<job::PartId>& a, const std::vector<job::PartId>& b,
                            std::vector<job::PartId>& into) {
        for (const job::PartId part : a) {
            if (std::ranges::find(b, part) == b.end()) into.push_back(part);
        }
    };
    only_in(one.seats, other.seats, seats);
    only_in(other.seats, one.seats, seats);
    only_in(one.parts, other.parts, parts);
    only_in(other.parts, one.parts, parts);
    for (const job::PartId part : one.parts) {
        if (std::ranges::find(other.parts, part) != other.parts.end()) {
            parts.push_back(part);  // the nearest common part
            break;
        }
    }
    tidy(seats);
    tidy(parts);
    return {.parts = std::move(parts), .seats = std::move(seats)};
}

bool Model::carries(job::PartId part, job::PartId other) const {
    const std::vector<job::PartId> seats =
        travel({}, {.face = {.part = other, .face = 0}}).way.seats;
    return other == part || std::ranges::find(seats, part) != seats.end();
}

Model Model::bound_by(const std::vector<Form>& closures) const {
    Model bound = *this;
    bound.closures_.insert(bound.closures_.end(), closures.begin(), closures.end());
    bound.tie();
    return bound;
}

}  // namespace trialfit::stack
