// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <trialfit/seat/changes.hpp>
#include <trialfit/seat/drawn.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check.hpp>
#include <tuple>

namespace trialfit::seat {

namespace {

using stack::CheckAnswer;
using stack::Verdict;

// One clearance or check in each of the four states of the hub.
struct Line {
    std::string name;
    stack::Bounds value;
    std::optional<double> at_least;
    std::optional<double> at_most;
    Verdict verdict = Verdict::holds;
    bool shown = true;
};
using Key = std::tuple<std::string, std::string, std::string, std::string>;
using Lines = std::map<Key, Line>;

CheckAnswer checked(const job::Job& job) {
    stack::Options options;
    options.all_pairs = true;
    auto outcome = stack::check(job, options);
    // A job whose sizes agree still agrees when one of them moves with those that it is tied to.
    if (auto* answer = std::get_if<CheckAnswer>(&outcome)) return std::move(*answer);
    return {};
}

Lines lines_of(const CheckAnswer& answer) {
    Lines lines;
    for (const stack::Clearance& each : answer.clearances)
        lines[{each.inboard, each.outboard, each.inboard_ring, each.outboard_ring}] = {
            .name = each.inboard + " to " + each.outboard,
            .value = each.gap,
            .at_least = each.at_least,
            .at_most = std::nullopt,
            .verdict = each.verdict,
            .shown = each.tightest};
    for (const stack::CheckResult& each : answer.checks)
        lines[{each.name, {}, {}, {}}] = {.name = each.name,
                                          .value = each.value,
                                          .at_least = each.at_least,
                                          .at_most = each.at_most,
                                          .verdict = each.verdict};
    return lines;
}

const Line* find(const Lines& lines, const Key& key) {
    const auto found = lines.find(key);
    return found == lines.end() ? nullptr : &found->second;
}

std::optional<Moved> moved(const Line& before, const Line* least, const Line* middle,
                           const Line* most) {
    if (least == nullptr || middle == nullptr || most == nullptr || !before.shown)
        return std::nullopt;
    Moved out{.name = before.name,
              .nominal_before = before.value.nominal,
              .worst_before = before.value.worst,
              .nominal_after = middle->value.nominal,
              .worst_after = {.lo = std::min(least->value.worst.lo, most->value.worst.lo),
                              .hi = std::max(least->value.worst.hi, most->value.worst.hi)},
              .at_least = before.at_least,
              .at_most = before.at_most,
              .verdict_before = before.verdict,
              .verdict = middle->verdict};
    const bool changes =
        std::abs(out.nominal_after - out.nominal_before) > stack::kRounding ||
        std::abs(most->value.worst.lo - before.value.worst.lo) > stack::kRounding ||
        std::abs(most->value.worst.hi - before.value.worst.hi) > stack::kRounding;
    if (!changes) return std::nullopt;
    const bool at_an_end = least->verdict != Verdict::holds || most->verdict != Verdict::holds;
    if (out.verdict == Verdict::holds && at_an_end) out.verdict = Verdict::doubtful;
    return out;
}

Seated seated(const stack::Model& model, int hub, const CheckAnswer& before,
              const CheckAnswer& most) {
    const job::Job& job = model.job();
    const auto& parts = job.parts;
    const auto rides = [&](int other) { return other == hub || model.carries(hub, other); };
    if (before.first_contact) {
        const stack::FirstContact& touch = *before.first_contact;
        for (int p = 0; p < static_cast<int>(parts.size()); ++p)
            if (parts.at(static_cast<std::size_t>(p)).name == touch.part && rides(p))
                return {
                    .verdict = Verdict::fails,
                    .why = fmt::format("{} lands on {}, {:.2f} {} before {} seats", touch.outboard,
                                       touch.inboard, touch.stands_proud.nominal,
                                       quantity::name(job.units), touch.part)};
    }
    const stack::Clearance* tightest = nullptr;
    for (const stack::Clearance& each : most.clearances) {
        const bool between = rides(each.inboard_part) != rides(each.outboard_part);
        if (!between || each.gap.worst.lo >= 0.0) continue;
        if (tightest == nullptr || each.gap.worst.lo < tightest->gap.worst.lo) tightest = &each;
    }
    if (tightest == nullptr) return {};
    return {
        .verdict = Verdict::doubtful,
        .why = fmt::format("{} may land on {} first, by up to {:.2f} {}", tightest->outboard,
                           tightest->inboard, -tightest->gap.worst.lo, quantity::name(job.units))};
}

}  // namespace

Drawn drawn(const stack::Model& model, int hub, const Estimate& draw_up) {
    const job::Job& job = model.job();
    const CheckAnswer before = checked(job);
    const CheckAnswer most = checked(drawn_up(job, hub, draw_up.greatest));
    Drawn out;
    out.seated = seated(model, hub, before, most);
    const Lines was = lines_of(before);
    const Lines at_least = lines_of(checked(drawn_up(job, hub, draw_up.least)));
    const Lines at_middle = lines_of(checked(drawn_up(job, hub, draw_up.middle)));
    const Lines at_most = lines_of(most);
    for (const auto& [key, line] : was)
        if (auto each = moved(line, find(at_least, key), find(at_middle, key), find(at_most, key)))
            out.moved.push_back(std::move(*each));
    std::stable_sort(out.moved.begin(), out.moved.end(),
                     [](const Moved& a, const Moved& b) { return a.verdict > b.verdict; });
    return out;
}

}  // namespace trialfit::seat
