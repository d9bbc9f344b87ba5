// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/index.hpp>
#include <trialfit/stack/radial.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

const job::Part& part_of(const Model& model, int part) {
    return model.job().parts.at(at(part));
}

const job::Ring& ring_of(const Model& model, job::FeatureRef ref) {
    return part_of(model, ref.part).rings.at(at(ref.index));
}

const job::Seat* first_seat(const job::Part& part) {
    return part.seats.empty() ? nullptr : &part.seats.front();
}

// The part whose axis a part's own is near to.
int centred_on(const job::Part& part) {
    if (part.centred) return part.centred->on;
    const job::Seat* const seat = first_seat(part);
    return seat == nullptr ? -1 : seat->against.part;
}

int sits_on(const job::Part& part) {
    const job::Seat* const seat = first_seat(part);
    return seat == nullptr ? -1 : seat->against.part;
}

// The parts from `from` up, as far as the job goes; a circle of centrings ends where it closes.
std::vector<int> upwards(const Model& model, int from, int (*up)(const job::Part&)) {
    std::vector<int> way;
    for (int part = from; part >= 0 && std::find(way.begin(), way.end(), part) == way.end();
         part = up(part_of(model, part)))
        way.push_back(part);
    return way;
}

// The parts on the way from one to the other, without the one where the two ways meet.
std::vector<int> between(const Model& model, int one, int other, int (*up)(const job::Part&)) {
    const std::vector<int> a = upwards(model, one, up);
    const std::vector<int> b = upwards(model, other, up);
    std::vector<int> way;
    for (const int part : a)
        if (std::find(b.begin(), b.end(), part) == b.end()) way.push_back(part);
    for (const int part : b)
        if (std::find(a.begin(), a.end(), part) == a.end()) way.push_back(part);
    return way;
}

// Gathers the forms of one gap at one end of the length that the rings share.
class Gatherer {
public:
    Gatherer(const Model& model, job::FeatureRef inner, job::FeatureRef outer)
        : model_(model), inner_(inner), outer_(outer) {}

    RadialQuestion gather() {
        RadialQuestion question{.inner = job::ring_name(model_.job(), inner_),
                                .outer = job::ring_name(model_.job(), outer_)};
        bool differ = false;
        for (const bool outboard : {false, true}) {
            FormBuilder away;
            eccentricities(outboard, away, differ);
            const auto n = model_.columns().nominal.size();
            const Form off = std::move(away).build(n);
            for (const double sign : {-1.0, 1.0}) {
                FormBuilder gap;
                const RadialSizes& sizes = model_.radial();
                gap.add(sizes.bore[at(outer_.part)][at(outer_.index)],
                        0.5 * model_.growth(outer_.part));
                gap.add(sizes.outside[at(inner_.part)][at(inner_.index)],
                        -0.5 * model_.growth(inner_.part));
                gap.add(off, sign);
                auto& forms = sign < 0.0 ? question.least : question.greatest;
                forms.push_back(std::move(gap).build(n));
            }
            if (!differ) break;
        }
        question.not_given = not_given();
        return question;
    }

private:
    // Height of the end of the shared length over a face: its extreme over all sizes, away from the
    // middle, so that nothing that the bounds allow is left out.
    [[nodiscard]] double height(job::FaceRef over, bool outboard) const {
        std::optional<double> end;
        for (const job::FeatureRef ref : {inner_, outer_}) {
            const job::Ring& ring = ring_of(model_, ref);
            const job::RingEnd& at_end = outboard ? ring.outboard : ring.inboard;
            const Form gap = model_.gap({.face = over},
                                        {.face = {ref.part, at_end.face}, .beyond = at_end.beyond});
            const Range range = model_.ties().extremes(gap, model_.columns());
            if (!end)
                end = outboard ? range.hi : range.lo;
            else
                end = outboard ? std::min(*end, range.hi) : std::max(*end, range.lo);
        }
        return end.value_or(0.0);
    }

    void eccentricities(bool outboard, FormBuilder& away, bool& differ) const {
        const RadialSizes& sizes = model_.radial();
        std::vector<int> way = between(model_, inner_.part, outer_.part, centred_on);
        for (const int part : way)
            if (sizes.centring[at(part)] >= 0) away.add(sizes.centring[at(part)], 0.5);
        // A ring's own part may be the one where the ways meet; its rings run out all the same.
        for (const int part : {inner_.part, outer_.part})
            if (std::find(way.begin(), way.end(), part) == way.end()) way.push_back(part);
        for (const int part : way)
            runouts(part, outboard, away, differ);
        for (const int part : between(model_, inner_.part, outer_.part, sits_on)) {
            if (sizes.face_runout[at(part)] < 0) continue;
            differ = true;
            const double lever =
                height(pivot(part), outboard) / part_of(model_, part).face_runout->dia;
            away.add(sizes.face_runout[at(part)], std::abs(lever));
        }
    }

    // Known at two heights, an axis is a straight line through both.
    void runouts(int part, bool outboard, FormBuilder& away, bool& differ) const {
        const std::vector<job::Runout>& given = part_of(model_, part).runout;
        const std::vector<int>& sizes = model_.radial().runout[at(part)];
        if (given.size() < 2) {
            for (const int size : sizes)
                away.add(size, 0.5);
            return;
        }
        differ = true;
        const job::FaceRef low{part, given[0].face};
        const double apart = value(model_.gap({.face = low}, {.face = {part, given[1].face}}),
                                   model_.columns().nominal);
        const double along = height(low, outboard) / apart;
        away.add(sizes[0], 0.5 * std::abs(1.0 - along));
        away.add(sizes[1], 0.5 * std::abs(along));
    }

    [[nodiscard]] job::FaceRef pivot(int index) const {
        const job::Part& part = part_of(model_, index);
        const job::Seat* const seat = first_seat(part);
        if (seat == nullptr) return {index, 0};
        const bool cone = seat->kind == job::SeatKind::cone_on_cone;
        return {index, cone ? part.cones.at(at(seat->own)).at_face : seat->own};
    }

    [[nodiscard]] std::vector<std::string> not_given() const {
        std::vector<std::string> list;
        for (const int part : between(model_, inner_.part, outer_.part, centred_on)) {
            const job::Part& each = part_of(model_, part);
            const job::Seat* const seat = first_seat(each);
            const bool by_cone = seat != nullptr && seat->kind == job::SeatKind::cone_on_cone;
            if (!each.centred && !by_cone) list.push_back("what centres " + each.name);
            if (each.turns && each.runout.empty()) list.push_back("runout of " + each.name);
        }
        const bool general = model_.job().general_tolerance != 0;
        if (!general && ring_of(model_, outer_).bore_bare)
            list.push_back("limits of the bore of " + job::ring_name(model_.job(), outer_));
        if (!general && ring_of(model_, inner_).outside_bare)
            list.push_back("limits of the od of " + job::ring_name(model_.job(), inner_));
        return list;
    }

    const Model& model_;
    job::FeatureRef inner_;
    job::FeatureRef outer_;
};

std::vector<Form> negated(const std::vector<Form>& forms) {
    std::vector<Form> out;
    out.reserve(forms.size());
    for (const Form& form : forms) {
        FormBuilder builder;
        builder.add(form, -1.0);
        out.push_back(std::move(builder).build(form.sensitivities.size()));
    }
    return out;
}

Bounds greatest_of(const Model& model, const std::vector<Form>& forms, double inflate) {
    const Bounds least = least_of(model, negated(forms), inflate);
    return {.nominal = -least.nominal,
            .middle = -least.middle,
            .worst = {.lo = -least.worst.hi, .hi = -least.worst.lo},
            .rss = {.lo = -least.rss.hi, .hi = -least.rss.lo}};
}

CheckResult answer_in(const Model& model, const job::AirGap& check, Judge judge, double inflate) {
    const RadialQuestion asked = radial_question(model, check.one, check.other);
    CheckResult result;
    result.name = check.name;
    result.kind = CheckKind::air_gap;
    result.first = asked.inner;
    result.second = asked.outer;
    result.value = least_of(model, asked.least, inflate);
    result.state = model.state();
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    result.judged_margin = kInfinity;
    result.nominal_margin = kInfinity;
    if (check.at_least) {
        result.at_least = check.at_least->value;
        result.at_least_written = check.at_least->written;
        result.judged_margin = judged(result.value, judge).lo - *result.at_least;
        result.nominal_margin = result.value.nominal - *result.at_least;
        result.verdict =
            verdict(result.value, {.least = *result.at_least, .most = kInfinity}, judge);
    }
    if (check.at_most) {
        const Bounds widest = greatest_of(model, asked.greatest, inflate);
        result.greatest = widest;
        result.at_most = check.at_most->value;
        result.at_most_written = check.at_most->written;
        result.judged_margin =
            std::min(result.judged_margin, *result.at_most - judged(widest, judge).hi);
        result.nominal_margin = std::min(result.nominal_margin, *result.at_most - widest.nominal);
        result.verdict = worse(
            result.verdict, verdict(widest, {.least = -kInfinity, .most = *result.at_most}, judge));
    }
    return result;
}

}  // namespace

RadialQuestion radial_question(const Model& model, job::FeatureRef one, job::FeatureRef other) {
    const bool first_is_outer =
        ring_of(model, one).bore.size.nominal > ring_of(model, other).bore.size.nominal;
    return first_is_outer ? Gatherer(model, other, one).gather()
                          : Gatherer(model, one, other).gather();
}

Bounds least_of(const Model& model, const std::vector<Form>& forms, double inflate) {
    Bounds least = bounds(model, forms.front(), inflate);
    for (const Form& form : forms) {
        const Bounds other = bounds(model, form, inflate);
        least.nominal = std::min(least.nominal, other.nominal);
        least.middle = std::min(least.middle, other.middle);
        least.worst = {.lo = std::min(least.worst.lo, other.worst.lo),
                       .hi = std::min(least.worst.hi, other.worst.hi)};
        least.rss = {.lo = std::min(least.rss.lo, other.rss.lo),
                     .hi = std::min(least.rss.hi, other.rss.hi)};
    }
    return least;
}

CheckResult answer(const std::vector<Model>& states, const job::AirGap& check, Judge judge,
                   double inflate) {
    CheckResult deciding;
    std::vector<InState> all;
    for (const Model& model : states) {
        CheckResult here = answer_in(model, check, judge, inflate);
        all.push_back({.state = here.state, .value = here.value, .verdict = here.verdict});
        if (all.size() == 1 || std::pair{deciding.verdict, -deciding.judged_margin} <
                                   std::pair{here.verdict, -here.judged_margin})
            deciding = std::move(here);
    }
    if (!deciding.state.empty()) deciding.in_states = std::move(all);
    return deciding;
}

}  // namespace trialfit::stack
