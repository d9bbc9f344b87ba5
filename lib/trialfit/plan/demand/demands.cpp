// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <iterator>
#include <limits>
#include <trialfit/plan/demand/decided.hpp>
#include <trialfit/plan/demand/demands.hpp>
#include <trialfit/plan/demand/marked.hpp>
#include <trialfit/plan/demand/more_demands.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

using stack::at;
using stack::Form;
using stack::FormBuilder;

constexpr double kNoLimit = std::numeric_limits<double>::infinity();

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
    Asking(const stack::Model& model, const Marked& marked, numerics::Deadline& clock,
           Demands& into)
        : model_(model),
          job_(model.job()),
          marked_(marked),
          states_(stack::in_states(model)),
          clock_(clock),
          into_(into) {}

    void run(const std::vector<stack::Clearance>& fouled) {
        // Of many rings, work may bring together some that lie clear now because of what lies
        // between: these are asked for once a plan is found to do so.
        for (const stack::Clearance& pair :
             stack::clearances(model_, stack::Judge::worst, 1.0).pairs) {
            if (clock_.stopped()) return;
            clear(pair);
        }
        for (const stack::Clearance& pair : fouled)
            clear(pair);
        for (std::size_t c = 0; c < job_.checks.size() && !clock_.stopped(); ++c)
            for (std::size_t s = 0; s < states_.size(); ++s)
                ask(static_cast<int>(c), s);
        for (const job::Check& check : model_.automatic_checks())
            for (std::size_t s = 0; s < states_.size(); ++s)
                come_home(check, s);
    }

private:
    // Skims may do away with what makes the two ends meet.
    void clear(const stack::Clearance& pair) {
        std::vector<PlanDemand> clears;
        for (std::size_t s = 0; s < states_.size(); ++s)
            clears.push_back(clearance(pair, s));
        Partings parted = partings(job_, into_, pair);
        // Tilt takes most at the outer edge of what overlaps, which a skim moves.
        for (PlanDemand& each : clears) {
            each.leans = each.drawn && parted.skims_near;
            each.over_asks = parted.left_out;
        }
        if (parted.ways.empty()) {
            std::move(clears.begin(), clears.end(), std::back_inserter(into_.all));
            return;
        }
        Either either{.ways = {std::move(clears)}, .lapses = true};
        std::move(parted.ways.begin(), parted.ways.end(), std::back_inserter(either.ways));
        into_.either.push_back(std::move(either));
    }

    [[nodiscard]] PlanDemand clearance(const stack::Clearance& pair, std::size_t s) const {
        PlanDemand demand;
        demand.of = stack::id_of(pair);
        demand.name = pair.inboard + " to " + pair.outboard;
        demand.state = states_[s].state();
        demand.lower = pair.at_least;
        demand.upper = kNoLimit;
        demand.more_than = pair.more_than;
        demand.now = stack::least_gap(states_[s], pair);
        demand.drawn = !stack::tilt_of(states_[s], pair).none();
        const stack::Model& then = marked_.states()[s];
        marked_.read(
            then.least_end(then.gap(marked_.station(pair.inboard_of.part, pair.inboard_end),
                                    marked_.station(pair.outboard_of.part, pair.outboard_end))),
            demand);
        return demand;
    }

    // That a nut comes home: like a clearance, of the program's own asking.
    void come_home(const job::Check& check, std::size_t s) {
        const stack::Question now = stack::question(states_[s], check);
        const stack::Question then = stack::question(marked_.states()[s], check);
        PlanDemand demand;
        demand.name = check.name;
        demand.state = states_[s].state();
        demand.lower = 0.0;
        demand.upper = kNoLimit;
        demand.more_than = true;
        demand.now = now.differences.front().least;
        marked_.read(then.differences.front().least, demand);
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
            into_.notes.emplace_back(AimWithoutLeast{.check = check.name});
    }

    [[nodiscard]] PlanDemand blank(int c, std::size_t s) const {
        PlanDemand demand;
        demand.name = job_.checks[at(c)].name;
        demand.of = stack::CheckId{at(c)};
        demand.state = states_[s].state();
        demand.lower = -kNoLimit;
        demand.upper = kNoLimit;
        return demand;
    }

    void ask_gap(int c, std::size_t s, const stack::Question& now, const stack::Question& then) {
        const job::Check& check = job_.checks[at(c)];
        PlanDemand demand = blank(c, s);
        const auto length = [&](const std::optional<job::Limit>& limit) {
            std::optional<double> value;
            if (limit) value = stack::threshold(states_[s], check, *limit)->length;
            return value;
        };
        demand.lower = length(check.at_least).value_or(-kNoLimit);
        demand.upper = length(check.at_most).value_or(kNoLimit);
        if (s == 0) demand.aim = length(check.aim);
        const stack::Question::Difference& gap = now.differences.front();
        // What moves is held against each limit at its own end of the movement.
        if (check.at_most && states_[s].moves(gap.stated)) {
            PlanDemand most = demand;
            most.lower = -kNoLimit;
            most.now = gap.greatest;
            marked_.read(then.differences.front().greatest, most);
            demand.upper = kNoLimit;
            if (check.at_least) most.aim.reset();
            into_.all.push_back(std::move(most));
            if (!check.at_least) return;
        }
        demand.now = gap.least;
        marked_.read(then.differences.front().least, demand);
        into_.all.push_back(std::move(demand));
    }

    // Each of the four differences must reach the threshold.
    void ask_least(int c, std::size_t s, const stack::Question& now, const stack::Question& then) {
        const job::Check& check = job_.checks[at(c)];
        const auto threshold = stack::threshold(states_[s], check, *check.at_least);
        if (!threshold) {
            if (s == 0) into_.notes.emplace_back(StrengthNotGiven{.check = check.name});
            return;
        }
        const std::size_t deciding =
            stack::deciding(states_[s], now, threshold, stack::Judge::worst, 1.0);
        for (std::size_t i = 0; i < now.differences.size(); ++i) {
            PlanDemand demand = blank(c, s);
            demand.difference = now.differences[i].words;
            demand.lower = 0.0;
            demand.together = now.differences.size() > 1;
            demand.now = less(now, now.differences[i].least, *threshold);
            marked_.read(less(then, then.differences[i].least, *threshold), demand);
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
        Either any;
        for (std::size_t i = 0; i < now.differences.size(); ++i) {
            PlanDemand demand = blank(c, s);
            demand.difference = now.differences[i].words;
            demand.upper = 0.0;
            demand.now = less(now, now.differences[i].greatest, *threshold);
            marked_.read(less(then, then.differences[i].greatest, *threshold), demand);
            any.ways.push_back({std::move(demand)});
        }
        into_.either.push_back(std::move(any));
    }

    const stack::Model& model_;
    const job::Job& job_;
    const Marked& marked_;
    std::vector<stack::Model> states_;
    numerics::Deadline& clock_;
    Demands& into_;
};

// What nothing measured fixes is not judged, whatever is cut: check says so of every plan.
void leave_open_out(const stack::Model& model, Demands& all) {
    const auto open = [&](const PlanDemand& demand) { return model.unmeasured().open(demand.now); };
    std::erase_if(all.all, open);
    std::erase_if(all.either, [&](const Either& either) {
        return std::any_of(either.ways.begin(), either.ways.end(), [&](const auto& way) {
            return std::any_of(way.begin(), way.end(), open);
        });
    });
}

}  // namespace

const NewLength* new_length(const Work& work) {
    if (const auto* cut = std::get_if<FaceCut>(&work)) return &cut->length;
    if (const auto* skim = std::get_if<RingSkim>(&work)) return &skim->length;
    if (const auto* by_hand = std::get_if<HandCentring>(&work)) return &by_hand->length;
    return nullptr;
}

quantity::Size held(const NewLength& length) {
    quantity::Size size = quantity::toleranced(length.start, -length.holds, length.holds);
    if (length.read) size.spread = {.shape = quantity::Shape::uniform};
    return size;
}

Demands demands(const stack::Model& model, const std::vector<Nesting>& nested,
                const std::vector<stack::Clearance>& fouled, numerics::Deadline& clock) {
    Demands all = decided(model);
    const Marked marked(model, all);
    Asking(model, marked, clock, all).run(fouled);
    ask_radial(model, marked, nested, all);
    ask_walls(model.job(), all);
    ask_rounding(model.job(), all);
    leave_open_out(model, all);
    tell_aims(model.job(), all);
    return all;
}

Demands demands(const stack::Model& model, const std::vector<Nesting>& nested) {
    numerics::Deadline endless({});
    return demands(model, nested, {}, endless);
}

}  // namespace trialfit::plan
