// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using spin::SpinAnswer;
using stack::Verdict;

std::string carried(const spin::Held& held) {
    switch (held.verdict) {
        case Verdict::fails:
            return fmt::format(
                "It is not carried over the top: {} J turn it where the cylinder closes, and {} J "
                "are needed.",
                joule(held.has.middle), joule_enough(held.needs.middle));
        case Verdict::doubtful:
            return fmt::format(
                "It may not be carried over the top: {} J turn it where the cylinder closes ({} at "
                "the least), and up to {} J may be needed.",
                joule(held.has.middle), joule(held.has.least), joule_enough(held.needs.greatest));
        case Verdict::holds:
        case Verdict::not_judged:
            break;
    }
    return "It is carried over the top, even in the worst case.";
}

std::string speed_there(const spin::Estimate& has) {
    if (has.middle == 0.0) return "it stops before the firing point";
    return fmt::format("{} rpm are left at the firing point", rpm_left(has.middle));
}

std::string sparks(const spin::Held& held) {
    const std::string needs = rpm_needed(held.needs.greatest);
    switch (held.verdict) {
        case Verdict::fails:
            return fmt::format("It does not spark: {}, and the ignition sparks from {} rpm.",
                               speed_there(held.has), rpm_needed(held.needs.middle));
        case Verdict::doubtful: {
            const std::string least = held.has.least == 0.0 ? "in the worst case it stops before"
                                                            : fmt::format("in the worst case {}",
                                                                          rpm_left(held.has.least));
            return fmt::format("It may not spark: {} ({}), and up to {} rpm may be needed.",
                               speed_there(held.has), least, needs);
        }
        case Verdict::holds:
            return fmt::format(
                "It is fast enough to spark: at least {} rpm are left at the firing point, and the "
                "ignition sparks from {} rpm.",
                rpm_left(held.has.least), needs);
        case Verdict::not_judged:
            break;
    }
    return fmt::format("At the firing point {} rpm are left.",
                       both_ends(rpm_left(held.has.least), rpm_left(held.has.greatest)));
}

// Which way the inertia would have to go, where that is what decides.
std::string helps(const SpinAnswer& answer) {
    if (!answer.needed || !answer.spark || answer.spark->verdict == Verdict::holds) return {};
    const spin::InertiaLimit& limit = answer.needed->inertia;
    if (!limit.middle_kg_m2 || *limit.middle_kg_m2 == 0.0) return {};
    return limit.at_most
               ? "With this starter's energy a lighter rotor would be faster there, a heavier one "
                 "slower."
               : "At this starter's speed a heavier rotor would keep more of it, for more energy.";
}

std::string turning(const spin::Inertia& inertia) {
    return fmt::format(
        "What turns has {}{} kg cm2.", inertia.whole ? "" : "at least ",
        kg_cm2(inertia.whole ? inertia.known_kg_m2.middle : inertia.known_kg_m2.least));
}

// Other reasons for a weak spark that the job has a check of.
std::string other_checks(const SpinAnswer& answer) {
    std::string out;
    for (const auto* all : {&answer.over_poles, &answer.air_gaps})
        for (const stack::CheckResult& each : *all)
            if (each.verdict != Verdict::holds)
                out += fmt::format(" '{}': {}.", listed(each.name), loud_word(each.verdict));
    return out;
}

}  // namespace

std::string spin_headline(const SpinAnswer& answer) {
    std::string out;
    const auto say = [&out](const std::string& sentence) {
        out += (out.empty() || sentence.empty() ? "" : " ") + sentence;
    };
    const bool stops = answer.carried && answer.carried->verdict == Verdict::fails;
    if (answer.carried) say(carried(*answer.carried));
    // One that does not get over the top is not mended by its spark.
    if (answer.spark && (!stops || answer.spark->verdict != Verdict::holds))
        say(sparks(*answer.spark));
    if (!stops || answer.started->by == spin::StarterKind::speed) say(helps(answer));
    if (!answer.carried && !answer.spark) say(turning(answer.inertia));
    out += other_checks(answer);
    say(told_not_judged(words(answer.not_judged)));
    return warned(words(answer.warnings), out);
}

}  // namespace trialfit::paper
