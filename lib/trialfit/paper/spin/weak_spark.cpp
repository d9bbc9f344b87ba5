// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using spin::SpinAnswer;
using stack::Verdict;

std::string of_speed(const SpinAnswer& answer) {
    if (!answer.spark || answer.spark->verdict == Verdict::not_judged)
        return "Speed at the firing point: NOT JUDGED.";
    const spin::Held& held = *answer.spark;
    const std::string is =
        fmt::format("Speed at the firing point: {} rpm, {} needed",
                    both_ends(rpm_left(held.has.least), rpm_left(held.has.greatest)),
                    both_ends(rpm_needed(held.needs.least), rpm_needed(held.needs.greatest)));
    if (held.verdict == Verdict::holds) return is + ": enough.";
    const double missing = held.needs.greatest - held.has.least;
    return fmt::format("{}: {} rpm short in the worst case.", is, rpm_needed(missing));
}

// Of an energy: only less inertia helps, and the crank's own stays.
std::string lighter_mends(const SpinAnswer& answer) {
    const spin::InertiaLimit& limit = answer.needed->inertia;
    const spin::Estimate& crank = *answer.inertia.crank_kg_m2;
    if (limit.middle_kg_m2.value_or(0.0) <= crank.middle)
        return " No weight mends it, and no lighter rotor: the starter gives too little.";
    if (limit.least_kg_m2.value_or(0.0) <= crank.greatest)
        return " A weight makes it worse with this starter; a lighter rotor helps, though not in "
               "the worst case.";
    return fmt::format(
        " A weight makes it worse with this starter; {} kg cm2 less would do, even in the worst "
        "case.",
        kg_cm2_enough(answer.inertia.known_kg_m2.greatest - *limit.least_kg_m2));
}

// Of a speed: more inertia helps, as long as the starter turns faster than the spark asks for.
std::string weight_mends(const SpinAnswer& answer) {
    const spin::InertiaLimit& limit = answer.needed->inertia;
    if (!limit.middle_kg_m2)
        return " No weight mends it: the starter turns no faster than the ignition asks for.";
    if (!limit.greatest_kg_m2)
        return " A weight helps, though not in the worst case: the starter may turn no faster than "
               "the ignition asks for.";
    return fmt::format(
        " A weight of {} kg cm2 more would do, even in the worst case, if the starter still "
        "reaches its speed with it.",
        kg_cm2_enough(*limit.greatest_kg_m2 - answer.inertia.known_kg_m2.least));
}

std::string inertia_mends(const SpinAnswer& answer) {
    if (!answer.needed || answer.spark->verdict == Verdict::holds) return {};
    return answer.needed->inertia.at_most ? lighter_mends(answer) : weight_mends(answer);
}

std::string of_check(const SpinAnswer& answer, const stack::CheckResult& check,
                     std::string_view what, const plan::PlanAnswer* cheapest) {
    const std::string name = fmt::format("{} ('{}'): ", what, listed(check.name));
    if (check.verdict == Verdict::not_judged)
        return fmt::format("{}NOT JUDGED{}.", name,
                           check.not_judged_for ? ": " + words(*check.not_judged_for) : "");
    const std::vector<CheckFinding> both = sides(check, stack::Judge::worst);
    std::string out = name;
    for (const CheckFinding& each : both) {
        const int decimals = decimals_for(answer.units, {each});
        out += fmt::format("{}{} {} in the worst case, {} asked for",
                           &each == &both.front() ? "" : "; ", range(each.value.worst, decimals),
                           spoken(answer.units), needed(each, decimals));
    }
    if (check.verdict == Verdict::holds) return out + ": enough.";
    const CheckFinding& worst = *std::ranges::max_element(both, {}, &CheckFinding::verdict);
    if (const auto at = pinch(worst, worst.value.worst)) {
        const int decimals = decimals_for(answer.units, {worst});
        out += fmt::format(": {} {} {}.", enough(at->miss, decimals), spoken(answer.units),
                           at->low ? "short" : "too much");
    } else {
        out += ".";
    }
    if (const auto then = after_plan(check, cheapest))
        out += *then == Verdict::holds ? " The plan below mends it."
                                       : " The plan below does not "
                                         "mend it.";
    return out;
}

bool any_misses(const SpinAnswer& answer) {
    const auto misses = [](const stack::CheckResult& each) {
        return each.verdict != Verdict::holds && each.verdict != Verdict::not_judged;
    };
    return std::ranges::any_of(answer.over_poles, misses) ||
           std::ranges::any_of(answer.air_gaps, misses);
}

}  // namespace

std::optional<Verdict> after_plan(const stack::CheckResult& check,
                                  const plan::PlanAnswer* cheapest) {
    if (cheapest == nullptr || cheapest->plans.empty()) return std::nullopt;
    for (const stack::CheckResult& each : cheapest->plans.front().after.checks)
        if (each.name == check.name) return each.verdict;
    return std::nullopt;
}

std::optional<double> short_of(const stack::CheckResult& check) {
    if (check.verdict == Verdict::holds || check.verdict == Verdict::not_judged)
        return std::nullopt;
    std::optional<double> most;
    for (const CheckFinding& each : sides(check, stack::Judge::worst))
        if (const auto at = pinch(each, each.value.worst))
            most = std::max(most.value_or(at->miss), at->miss);
    return most;
}

Document weak_spark_section(const SpinAnswer& answer, const plan::PlanAnswer* cheapest) {
    List reasons{.mark = List::Mark::number};
    reasons.items.push_back({.text = of_speed(answer) + inertia_mends(answer)});
    const auto add = [&](const std::vector<stack::CheckResult>& all, std::string_view what,
                         std::string_view missing) {
        for (const stack::CheckResult& each : all)
            reasons.items.push_back({.text = of_check(answer, each, what, cheapest)});
        if (all.empty())
            reasons.items.push_back({.text = fmt::format("{}: not judged: {}", what, missing)});
    };
    add(answer.over_poles, "Magnets over poles", "the job has no 'overlap' check.");
    add(answer.air_gaps, "Air gap", "the job has no 'air_gap' check.");
    Document out;
    out.under(std::move(reasons));
    if (!any_misses(answer)) return out;
    const bool planned = cheapest != nullptr && !cheapest->plans.empty();
    const std::string text =
        planned && !leaves_all(cheapest->plans.front())
            ? plan_headline(*cheapest) + " How to do it, and what else would do:"
        : cheapest != nullptr ? plan_headline(*cheapest) + " What stands in the way:"
                              : "What a cut or a shim could do about gap and overlap:";
    out.under(Paragraph{.text = text, .command = "trialfit plan " + shell_word(answer.file)});
    return out;
}

}  // namespace trialfit::paper
