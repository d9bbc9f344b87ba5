// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <trialfit/plan/demands.hpp>
#include <trialfit/stack/index.hpp>
#include <trialfit/stack/requirements.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;
using stack::at;
using stack::Form;
using stack::FormBuilder;

constexpr double kNoLimit = std::numeric_limits<double>::infinity();

Form constant(double value, Eigen::Index sizes) {
    FormBuilder builder;
    builder.add(value);
    return std::move(builder).build(sizes);
}

// The parts' cuts, laps and seats, as far as there is anything to decide.
class Deciding {
public:
    explicit Deciding(const stack::Model& model, Demands& into)
        : model_(model), job_(model.job()), into_(into) {}

    void gather() {
        for (int p = 0; p < static_cast<int>(job_.parts.size()); ++p) {
            const job::Part& part = job_.parts[at(p)];
            for (const job::Cut& cut : part.cuts)
                add(p, cut);
            for (const job::Lap& lap : part.laps)
                into_.works.emplace_back(ConeLap{.part = p, .lap = &lap});
            const int seat = stack::holding_seat(model_, p);
            if (seat < 0) continue;
            const std::optional<job::Shims>& shims = part.seats[at(seat)].shims;
            if (shims && !shims->stock.empty()) add(p, seat, *shims);
        }
    }

private:
    void add(int p, const job::Cut& cut) {
        FaceCut face{.part = p, .cut = &cut};
        face.distance = model_.gap({.face = {.part = p, .face = cut.measure}},
                                   {.face = {.part = p, .face = cut.face}});
        const double now =
            stack::value(model_.ties().adjusted(face.distance), model_.columns().nominal);
        face.sign = now < 0.0 ? -1.0 : 1.0;
        face.now = std::abs(now);
        if (face.now - cut.keep - cut.holds < 0.0) {
            into_.notes.push_back(fmt::format(
                "{} is not considered for a cut: it is {:.6g} now, and must keep {:.6g} "
                "where the lathe holds ±{:.6g}.",
                job::name(job_, job::FaceRef{p, cut.face}), face.now, cut.keep, cut.holds));
            return;
        }
        into_.works.emplace_back(std::move(face));
    }

    void add(int p, int seat, const job::Shims& shims) {
        ShimSeat place{.part = p, .seat = seat, .shims = &shims};
        std::vector<bool> taken(model_.sizes().size(), false);
        for (const job::Given& piece : shims.fitted)
            place.pieces.push_back(form_of(p, piece, taken));
        into_.seats.push_back(std::move(place));
    }

    Form form_of(int p, const job::Given& piece, std::vector<bool>& taken) const {
        const auto sizes = static_cast<Eigen::Index>(model_.sizes().size());
        const std::string label =
            fmt::format("shim {} under {}", piece.written, job_.parts[at(p)].name);
        for (std::size_t i = 0; i < model_.sizes().size(); ++i) {
            const stack::Variable& size = model_.sizes()[i];
            if (taken[i] || size.label != label || size.at != piece.at) continue;
            taken[i] = true;
            FormBuilder builder;
            builder.add(static_cast<int>(i), 1.0);
            return std::move(builder).build(sizes);
        }
        return constant(piece.size.nominal, sizes);
    }

    const stack::Model& model_;
    const job::Job& job_;
    Demands& into_;
};

// The job with every face cut and a mark in every seat: what it takes to see how often a gap meets
// them. The marks are found again by the words that they were "written" in.
class Marked {
public:
    Marked(const stack::Model& model, const Demands& decided) : decided_(decided) {
        stack::Changes changes;
        for (std::size_t w = 0; w < decided.works.size(); ++w) {
            const auto* face = std::get_if<FaceCut>(&decided.works[w]);
            if (face == nullptr) continue;
            changes.cuts.push_back({.part = face->part,
                                    .face = face->cut->face,
                                    .measure = face->cut->measure,
                                    .size = mark(face->sign * face->now, "work", w)});
        }
        for (std::size_t q = 0; q < decided.seats.size(); ++q) {
            const ShimSeat& seat = decided.seats[q];
            double height = 0.0;
            for (const job::Given& piece : seat.shims->fitted)
                height += piece.size.nominal;
            changes.stacks.push_back(
                {.part = seat.part, .seat = seat.seat, .shims = {mark(height, "seat", q)}});
        }
        first_new_face_.reserve(model.job().parts.size());
        for (const job::Part& part : model.job().parts)
            first_new_face_.push_back(static_cast<int>(part.faces.size()));
        job_ = stack::carried_out(model, changes);
        states_ = stack::in_states(std::get<stack::Model>(stack::Model::of(job_)));
        find_columns();
    }

    [[nodiscard]] const std::vector<stack::Model>& states() const { return states_; }

    // Where an end of a ring has gone: beyond a cut face, it stays with the old one.
    [[nodiscard]] stack::Station station(int part, const job::RingEnd& end) const {
        int face = end.face;
        if (end.beyond != 0.0) {
            int old = first_new_face_[at(part)];
            for (const Work& work : decided_.works) {
                const auto* cut = std::get_if<FaceCut>(&work);
                if (cut == nullptr || cut->part != part) continue;
                if (cut->cut->face == face) {
                    face = old;
                    break;
                }
                ++old;
            }
        }
        return {.face = {.part = part, .face = face}, .beyond = end.beyond};
    }

    // How often a form meets each cut and seat, and its sensitivity to each lap.
    void read(const Form& form, Demand& into) const {
        into.by_work.assign(decided_.works.size(), 0.0);
        into.by_stack.assign(decided_.seats.size(), 0.0);
        for (Iterator it(form.sensitivities); it; ++it) {
            const auto found = columns_.find(static_cast<int>(it.index()));
            if (found == columns_.end()) continue;
            for (const Effect& effect : found->second) {
                auto& list = effect.on_seat ? into.by_stack : into.by_work;
                list[effect.index] += effect.times * it.value();
            }
        }
    }

private:
    struct Effect {
        bool on_seat = false;
        std::size_t index = 0;
        double times = 1.0;
    };

    static job::Given mark(double nominal, const char* what, std::size_t i) {
        return {.size = quantity::toleranced(nominal, -1.0, 1.0),
                .written = fmt::format("\x01{} {}", what, i),
                .at = {},
                .gauge = -1};
    }

    void find_columns() {
        const auto& sizes = states_.front().sizes();
        const auto column = [&](auto is) {
            const auto found = std::find_if(sizes.begin(), sizes.end(), is);
            return found == sizes.end() ? -1 : static_cast<int>(found - sizes.begin());
        };
        const auto marked = [&](const char* what, std::size_t i) {
            const std::string words = fmt::format("\x01{} {}", what, i);
            return column([&](const stack::Variable& size) { return size.written == words; });
        };
        for (std::size_t w = 0; w < decided_.works.size(); ++w) {
            if (const auto* lap = std::get_if<ConeLap>(&decided_.works[w])) {
                const job::FeatureRef cone{.part = lap->part, .index = lap->lap->cone};
                const std::string label = job::cone_name(job_, cone) + " diameter";
                const int dia =
                    column([&](const stack::Variable& size) { return size.label == label; });
                columns_[dia].push_back({.on_seat = false, .index = w, .times = grows(cone)});
            } else {
                columns_[marked("work", w)].push_back({.on_seat = false, .index = w});
            }
        }
        for (std::size_t q = 0; q < decided_.seats.size(); ++q)
            columns_[marked("seat", q)].push_back({.on_seat = true, .index = q});
        columns_.erase(-1);
    }

    // A hub's diameter grows when it is lapped, a shaft's shrinks.
    [[nodiscard]] double grows(job::FeatureRef cone) const {
        const auto& seats = job_.parts[at(cone.part)].seats;
        const bool hub = std::any_of(seats.begin(), seats.end(), [&](const job::Seat& seat) {
            return seat.kind == job::SeatKind::cone_on_cone && seat.own == cone.index;
        });
        return hub ? 1.0 : -1.0;
    }

    const Demands& decided_;
    std::vector<int> first_new_face_;
    job::Job job_;
    std::vector<stack::Model> states_;
    std::map<int, std::vector<Effect>> columns_;
};

Form less(const stack::Question& question, const Form& difference,
          const stack::Threshold& threshold) {
    FormBuilder builder;
    builder.add(difference, 1.0);
    builder.add(-threshold.length);
    if (threshold.share != 0.0) builder.add(*question.length, -threshold.share);
    return std::move(builder).build(difference.sensitivities.size());
}

class Asking {
public:
    Asking(const stack::Model& model, const Marked& marked, Demands& into)
        : model_(model),
          job_(model.job()),
          marked_(marked),
          states_(stack::in_states(model)),
          into_(into) {}

    void run() {
        const auto pairs =
            stack::clearances(model_, stack::Judge::worst, 1.0, std::numeric_limits<int>::max())
                .pairs;
        for (const stack::Clearance& pair : pairs)
            for (std::size_t s = 0; s < states_.size(); ++s)
                clear(pair, s);
        for (std::size_t c = 0; c < job_.checks.size(); ++c)
            for (std::size_t s = 0; s < states_.size(); ++s)
                ask(static_cast<int>(c), s);
    }

private:
    void clear(const stack::Clearance& pair, std::size_t s) {
        Demand demand;
        demand.name = pair.inboard + " to " + pair.outboard;
        demand.state = states_[s].state();
        demand.lower = pair.at_least;
        demand.upper = kNoLimit;
        demand.more_than = pair.more_than;
        const auto station = [](int part, const job::RingEnd& end) {
            return stack::Station{.face = {.part = part, .face = end.face}, .beyond = end.beyond};
        };
        demand.now = states_[s].gap(station(pair.inboard_part, pair.inboard_end),
                                    station(pair.outboard_part, pair.outboard_end));
        marked_.read(
            marked_.states()[s].gap(marked_.station(pair.inboard_part, pair.inboard_end),
                                    marked_.station(pair.outboard_part, pair.outboard_end)),
            demand);
        into_.all.push_back(std::move(demand));
    }

    void ask(int c, std::size_t s) {
        const job::Check& check = job_.checks[at(c)];
        const stack::Question now = stack::question(states_[s], check);
        const stack::Question then = stack::question(marked_.states()[s], check);
        if (now.differences.empty() || then.differences.size() != now.differences.size()) return;
        if (now.kind == stack::CheckKind::gap) return ask_gap(c, s, now, then);
        if (check.at_least) ask_least(c, s, now, then);
        if (check.at_most) ask_most(c, s, now, then);
        if (check.aim && !check.at_least && s == 0)
            into_.notes.push_back(
                fmt::format("the aim of '{}' is not taken into account: only an at_least gives it "
                            "something to be measured by.",
                            check.name));
    }

    [[nodiscard]] Demand blank(int c, std::size_t s) const {
        Demand demand;
        demand.name = job_.checks[at(c)].name;
        demand.check = c;
        demand.state = states_[s].state();
        demand.lower = -kNoLimit;
        demand.upper = kNoLimit;
        return demand;
    }

    void ask_gap(int c, std::size_t s, const stack::Question& now, const stack::Question& then) {
        const job::Check& check = job_.checks[at(c)];
        Demand demand = blank(c, s);
        const auto length = [&](const std::optional<job::Limit>& limit) {
            std::optional<double> value;
            if (limit) value = stack::threshold(states_[s], check, *limit)->length;
            return value;
        };
        demand.lower = length(check.at_least).value_or(-kNoLimit);
        demand.upper = length(check.at_most).value_or(kNoLimit);
        if (s == 0) demand.aim = length(check.aim);
        demand.now = now.differences.front().form;
        marked_.read(then.differences.front().form, demand);
        into_.all.push_back(std::move(demand));
    }

    // Each of the four differences must reach the threshold.
    void ask_least(int c, std::size_t s, const stack::Question& now, const stack::Question& then) {
        const job::Check& check = job_.checks[at(c)];
        const auto threshold = stack::threshold(states_[s], check, *check.at_least);
        if (!threshold) {
            if (s == 0)
                into_.notes.push_back(fmt::format(
                    "'{}' is not planned for: the job does not say how strong its threads are.",
                    check.name));
            return;
        }
        const std::size_t deciding =
            stack::deciding(states_[s], now, threshold, stack::Judge::worst, 1.0);
        for (std::size_t i = 0; i < now.differences.size(); ++i) {
            Demand demand = blank(c, s);
            demand.difference = now.differences[i].words;
            demand.lower = 0.0;
            demand.now = less(now, now.differences[i].form, *threshold);
            marked_.read(less(then, then.differences[i].form, *threshold), demand);
            // The aim of a least of four is that of the one which decides as things stand.
            if (check.aim && s == 0 && i == deciding) demand.aim = aim_over(check, now, *threshold);
            into_.all.push_back(std::move(demand));
        }
    }

    // How far the aim lies above the threshold, at nominal.
    [[nodiscard]] std::optional<double> aim_over(const job::Check& check,
                                                 const stack::Question& now,
                                                 const stack::Threshold& threshold) const {
        const auto aim = stack::threshold(model_, check, *check.aim);
        if (!aim) return std::nullopt;
        double over = aim->length - threshold.length;
        if (now.length)
            over += (aim->share - threshold.share) *
                    stack::value(model_.ties().adjusted(*now.length), model_.columns().nominal);
        return over;
    }

    // One of the four differences must stay below the threshold.
    void ask_most(int c, std::size_t s, const stack::Question& now, const stack::Question& then) {
        const job::Check& check = job_.checks[at(c)];
        const auto threshold = stack::threshold(states_[s], check, *check.at_most);
        if (!threshold) return;
        std::vector<Demand> any;
        for (std::size_t i = 0; i < now.differences.size(); ++i) {
            Demand demand = blank(c, s);
            demand.difference = now.differences[i].words;
            demand.upper = 0.0;
            demand.now = less(now, now.differences[i].form, *threshold);
            marked_.read(less(then, then.differences[i].form, *threshold), demand);
            any.push_back(std::move(demand));
        }
        into_.either.push_back(std::move(any));
    }

    const stack::Model& model_;
    const job::Job& job_;
    const Marked& marked_;
    std::vector<stack::Model> states_;
    Demands& into_;
};

}  // namespace

Demands demands(const stack::Model& model) {
    Demands all;
    Deciding(model, all).gather();
    const Marked marked(model, all);
    Asking(model, marked, all).run();
    return all;
}

}  // namespace trialfit::plan
