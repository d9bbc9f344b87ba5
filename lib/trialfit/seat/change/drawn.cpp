// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <string>
#include <trialfit/seat/change/changes.hpp>
#include <trialfit/seat/change/drawn.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>

namespace trialfit::seat {

namespace {

using stack::CheckAnswer;
using stack::Verdict;

// One clearance or check in one of the states of the hub.
struct Line {
    std::string name;
    stack::Bounds value;
    std::optional<double> at_least;
    std::optional<double> at_most;
    bool more_than = false;
    Verdict verdict = Verdict::holds;
    bool shown = true;
};
using Lines = std::map<stack::JudgedId, Line>;

CheckAnswer checked(job::Job job, stack::Options options) {
    options.all_pairs = true;
    job.seat.reset();
    auto outcome = stack::check(job, options);
    // A job whose sizes agree still agrees when one of them moves with those that it is tied to.
    if (auto* answer = std::get_if<CheckAnswer>(&outcome)) return std::move(*answer);
    return {};
}

Lines lines_of(const CheckAnswer& answer) {
    Lines lines;
    for (const stack::Clearance& each : answer.clearances)
        lines[stack::id_of(each)] = {.name = each.inboard + " to " + each.outboard,
                                     .value = each.gap,
                                     .at_least = each.at_least,
                                     .at_most = std::nullopt,
                                     .more_than = each.more_than,
                                     .verdict = each.verdict,
                                     .shown = each.tightest};
    for (const stack::CheckResult& each : answer.checks)
        lines[each.id] = {.name = each.name,
                          .value = each.value,
                          .at_least = each.at_least,
                          .at_most = each.at_most,
                          .verdict = each.verdict};
    return lines;
}

const Line* find(const Lines& lines, const stack::JudgedId& key) {
    const auto found = lines.find(key);
    return found == lines.end() ? nullptr : &found->second;
}

// The hub's three states of one line, free of readings: at rest, and least, middle and most drawn
// up.
struct States {
    const Line* rest = nullptr;
    const Line* least = nullptr;
    const Line* middle = nullptr;
    const Line* most = nullptr;
};

stack::Range by(const stack::Range& range, const stack::Range& from, const stack::Range& to) {
    return {range.lo + to.lo - from.lo, range.hi + to.hi - from.hi};
}

Verdict verdict_of(const Moved& moved, const Line& line) {
    const auto meets = [&](double low, double high) {
        const double slack = line.more_than ? -stack::kRounding : stack::kRounding;
        return (!line.at_least || low >= *line.at_least - slack) &&
               (!line.at_most || high <= *line.at_most + stack::kRounding);
    };
    if (line.verdict == Verdict::not_judged || (!line.at_least && !line.at_most))
        return Verdict::not_judged;
    if (!meets(moved.nominal_after, moved.nominal_after)) return Verdict::fails;
    return meets(moved.worst_after.lo, moved.worst_after.hi) ? Verdict::holds : Verdict::doubtful;
}

// What the draw-up does to a line, laid on what the line is with the readings.
std::optional<Moved> moved(const Line& before, const States& of) {
    if (of.rest == nullptr || of.least == nullptr || of.middle == nullptr || of.most == nullptr ||
        !before.shown)
        return std::nullopt;
    const auto open = [](const Line* line) { return line->value.open(); };
    if (open(&before) || open(of.rest) || open(of.least) || open(of.middle) || open(of.most))
        return std::nullopt;
    const stack::Bounds& rest = of.rest->value;
    const stack::Range least = by(before.value.worst, rest.worst, of.least->value.worst);
    const stack::Range most = by(before.value.worst, rest.worst, of.most->value.worst);
    Moved out{.name = before.name,
              .nominal_before = before.value.nominal,
              .worst_before = before.value.worst,
              .nominal_after = before.value.nominal + of.middle->value.nominal - rest.nominal,
              .worst_after = {.lo = std::min(least.lo, most.lo), .hi = std::max(least.hi, most.hi)},
              .at_least = before.at_least,
              .at_most = before.at_most,
              .verdict_before = before.verdict};
    out.verdict = verdict_of(out, before);
    const bool changes = std::abs(out.nominal_after - out.nominal_before) > stack::kRounding ||
                         std::abs(most.lo - before.value.worst.lo) > stack::kRounding ||
                         std::abs(most.hi - before.value.worst.hi) > stack::kRounding;
    if (!changes) return std::nullopt;
    return out;
}

// A pair that keeps the hub from its cone, or what goes onto it from the hub.
struct Stop {
    const stack::Clearance* pair = nullptr;
    double gap = 0.0;  ///< negative
    Unseated held = Unseated::hub;
};

class Stops {
public:
    Stops(const stack::Model& model, job::PartId hub, double most)
        : model_(model), hub_(hub), most_(most) {}

    void look_at(const stack::Clearance& pair) {
        // What goes on later and lands on the hub, as a cover does, holds off itself alone.
        if (!rides(pair.outboard_of.part)) return;
        const bool both = rides(pair.inboard_of.part);
        if (pair.gap.open()) {
            if (!both) unmeasured_ = &pair;
            return;
        }
        const Unseated held = both                            ? Unseated::on_hub
                              : pair.outboard_of.part == hub_ ? Unseated::hub
                                                              : Unseated::carried;
        if (!pair.may_miss) keep({&pair, pair.gap.nominal, held}, -stack::kRounding, lands_);
        // Drawn up as far as it goes.
        keep({&pair, pair.gap.worst.lo - (both ? 0.0 : most_), held}, 0.0, may_land_);
    }

    [[nodiscard]] Seated seated() const {
        if (lands_.pair != nullptr)
            return told(Verdict::fails, lands_,
                        model_.job().parts[lands_.pair->outboard_of.part.at()].name);
        if (may_land_.pair != nullptr) return told(Verdict::doubtful, may_land_, {});
        if (unmeasured_ == nullptr) return {};
        return {.verdict = Verdict::not_judged,
                .why = LandsFirst{.outboard = unmeasured_->outboard,
                                  .inboard = unmeasured_->inboard,
                                  .by = std::nullopt,
                                  .units = model_.job().units,
                                  .part = {}}};
    }

private:
    [[nodiscard]] bool rides(job::PartId other) const {
        return other == hub_ || model_.carries(hub_, other);
    }
    // The hub's own way comes before that of what rides on it.
    static void keep(const Stop& stop, double below, Stop& best) {
        const bool worse = (stop.held == Unseated::on_hub) == (best.held == Unseated::on_hub)
                               ? stop.gap < best.gap
                               : best.held == Unseated::on_hub;
        if (stop.gap < below && (best.pair == nullptr || worse)) best = stop;
    }
    [[nodiscard]] Seated told(Verdict verdict, const Stop& stop, std::string part) const {
        return {.verdict = verdict,
                .why = LandsFirst{.outboard = stop.pair->outboard,
                                  .inboard = stop.pair->inboard,
                                  .by = -stop.gap,
                                  .units = model_.job().units,
                                  .part = std::move(part),
                                  .held = stop.held}};
    }

    const stack::Model& model_;
    job::PartId hub_;
    double most_;
    Stop lands_;
    Stop may_land_;
    const stack::Clearance* unmeasured_ = nullptr;
};

// By what else than its seat the hub may be held off, drawn up as far as it goes.
Seated seated(const stack::Model& model, job::PartId hub, const CheckAnswer& before, double most) {
    Stops stops(model, hub, most);
    for (const stack::Clearance& each : before.clearances)
        stops.look_at(each);
    return stops.seated();
}

}  // namespace

Drawn drawn(const job::Job& job, const stack::Options& options, job::PartId hub,
            const Estimate& draw_up) {
    const CheckAnswer before = checked(job, options);
    const auto built = stack::Model::of(job);
    Drawn out;
    out.seated = seated(std::get<stack::Model>(built), hub, before, draw_up.greatest);
    if (draw_up.greatest <= 0.0) return out;
    stack::Options free = options;
    free.readings.clear();
    const auto at = [&](double travel) {
        return lines_of(checked(drawn_up(job, hub, travel), free));
    };
    const Lines rest = at(0.0);
    const Lines least = at(draw_up.least);
    const Lines middle = at(draw_up.middle);
    const Lines most = at(draw_up.greatest);
    for (const auto& [key, line] : lines_of(before))
        if (auto each = moved(line, {.rest = find(rest, key),
                                     .least = find(least, key),
                                     .middle = find(middle, key),
                                     .most = find(most, key)}))
            out.moved.push_back(std::move(*each));
    std::stable_sort(out.moved.begin(), out.moved.end(),
                     [](const Moved& a, const Moved& b) { return a.verdict > b.verdict; });
    return out;
}

}  // namespace trialfit::seat
