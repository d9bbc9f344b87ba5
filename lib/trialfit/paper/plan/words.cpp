// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string_view>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/quantity/figures.hpp>

namespace trialfit::paper {

namespace {

std::string shims_in_words(const plan::StackMade& stack) {
    const std::string under = fmt::format(" under {}", spoken("the " + stack.part));
    if (stack.stack.empty())
        return fmt::format("take the {} of shims out from{}", told_stack(stack.taken_out), under);
    const bool any_new =
        std::ranges::any_of(stack.stack, [](const plan::Piece& piece) { return !piece.fitted; });
    if (!any_new) return fmt::format("leave only shims of {}{}", told_stack(stack.stack), under);
    std::vector<plan::Piece> added;
    std::ranges::copy_if(stack.stack, std::back_inserter(added),
                         [](const plan::Piece& piece) { return !piece.fitted; });
    const std::string how_many = added.size() == 1 ? "a shim" : "shims";
    if (added.size() == stack.stack.size() && !stack.taken_out.empty())
        return fmt::format("take out the {} of shims{} and fit {} of {}",
                           told_stack(stack.taken_out), under, how_many, told_stack(added));
    if (added.size() == stack.stack.size())
        return fmt::format("fit {} of {}{}", how_many, told_stack(added), under);
    std::vector<plan::Piece> there;
    std::ranges::copy_if(stack.stack, std::back_inserter(there), &plan::Piece::fitted);
    return fmt::format("add {} of {}{}, where {} {} there already", how_many, told_stack(added),
                       under, told_stack(there), there.size() == 1 ? "is" : "are");
}

std::string now_in_words(const plan::Stands& stands, const plan::PlanAnswer& answer, int decimals) {
    if (stands.odds)
        return fmt::format("; as things stand the odds of that are {}", brief(*stands.odds, 4));
    if (!stands.best) return {};
    return fmt::format("; as things stand it is {} {}", fixed(*stands.best, decimals),
                       phrase(answer.judge));
}

std::string state_in_words(const plan::Stands& stands) {
    return stands.state.empty() ? "" : fmt::format(", in the state '{}'", listed(stands.state));
}

template <typename Made>
std::string readings_in_words(const Made& made, int decimals) {
    const std::string by = made.read_by.empty() ? "" : " by " + listed(made.read_by);
    if (made.no_window)
        return fmt::format("no reading{} is sure to pass: name a finer gauge with 'read_by'", by);
    return window(made.window, decimals) + by;
}

template <typename Made>
std::string gone_already(const Made& made, std::string_view past, int decimals) {
    if (!made.may_be) return {};
    return fmt::format(
        "it may be {} as it stands: measure it first; where it is {} {} already, nothing comes off",
        fixed(*made.may_be, decimals), past, told_finish(made.finish, decimals));
}

// Of a size that may be past its finish already.
std::string measured_first(const plan::PlanMade& plan, const std::optional<double>& may_be,
                           int decimals) {
    if (!may_be) return {};
    const std::string now = fixed(*may_be, decimals);
    if (!plan.needs_metal) return fmt::format(" (it may be {} already: measure it first)", now);
    return fmt::format(" (only if it is not past that now, and it may be {}: measure it first)",
                       now);
}

}  // namespace

int plan_decimals(const plan::PlanAnswer& answer) {
    std::vector<double> written;
    double narrowest = std::numeric_limits<double>::infinity();
    for (const plan::PlanMade& plan : answer.plans)
        for (const plan::CutMade& cut : plan.cuts) {
            if (!cut.by_amount) written.push_back(cut.now);
            written.push_back(cut.keep);
            if (cut.holds > 0.0) narrowest = std::min(narrowest, cut.holds);
        }
    for (const plan::PlanMade& plan : answer.plans)
        for (const plan::SkimMade& skim : plan.skims) {
            written.push_back(skim.now);
            if (skim.holds > 0.0) narrowest = std::min(narrowest, skim.holds);
        }
    return decimals_for(answer.units, written, narrowest < 1e9 ? narrowest : 0.0);
}

std::string told_finish(double finish, int decimals) {
    constexpr int kMost = 9;
    constexpr double kNoise = 1e-9;
    int d = decimals;
    while (d < kMost && std::abs(quantity::rounded(finish, d) - finish) > kNoise)
        ++d;
    return fixed(finish, d);
}

std::string told_removal(double now, double finish, int decimals) {
    return told_finish(
        std::abs(quantity::rounded(now, decimals) - quantity::rounded(finish, decimals)), decimals);
}

std::string told_least_off(const plan::CutMade& cut, int decimals) {
    return enough(cut.no_window ? cut.remove : cut.window.lo, decimals);
}

std::string told_readings(const plan::CutMade& cut, int decimals) {
    if (cut.by_amount) return "no less than " + told_least_off(cut, decimals) + " off";
    return readings_in_words(cut, decimals);
}

std::string told_readings(const plan::SkimMade& skim, int decimals) {
    return readings_in_words(skim, decimals);
}

std::string told_stack(const std::vector<plan::Piece>& pieces) {
    std::string out;
    for (const plan::Piece& piece : pieces)
        out += (out.empty() ? "" : " + ") + brief(piece.thickness, 6);
    return out.empty() ? "none" : out;
}

std::string told_rounding(const job::Rounding& rounding) {
    const std::string step = brief(rounding.step, 6);
    switch (rounding.way) {
        case job::RoundingWay::down:
            return "down to steps of " + step;
        case job::RoundingWay::up:
            return "up to steps of " + step;
        case job::RoundingWay::nearest:
            return "to the nearest step of " + step;
        case job::RoundingWay::last_digit:
            break;
    }
    return "by its last digit, in steps of " + brief(5.0 * rounding.step, 6);
}

bool changed(const plan::StackMade& stack) {
    return !stack.taken_out.empty() ||
           std::ranges::any_of(stack.stack, [](const plan::Piece& piece) { return !piece.fitted; });
}

bool leaves_all(const plan::PlanMade& plan) {
    return plan.cuts.empty() && plan.laps.empty() && plan.skims.empty() && plan.centrings.empty() &&
           std::ranges::none_of(plan.shims, changed);
}

std::string told_works(const plan::PlanMade& plan, int decimals) {
    std::vector<std::string> works;
    for (const plan::CentringMade& centring : plan.centrings)
        works.push_back(fmt::format("centre {} by hand", spoken("the " + centring.part)));
    for (const plan::CutMade& cut : plan.cuts)
        works.push_back(
            cut.by_amount
                ? fmt::format("take {} off {}", told_finish(cut.remove, decimals), spoken(cut.face))
                : fmt::format("cut {} to {}{}", spoken(cut.face), told_finish(cut.finish, decimals),
                              measured_first(plan, cut.may_be, decimals)));
    for (const plan::LapMade& lap : plan.laps)
        works.push_back(fmt::format("lap {} off {}", brief(lap.off_diameter, 3), spoken(lap.cone)));
    for (const plan::SkimMade& skim : plan.skims)
        works.push_back(fmt::format("skim {} to {}{}", told_turned(skim),
                                    told_finish(skim.finish, decimals),
                                    measured_first(plan, skim.may_be, decimals)));
    for (const plan::StackMade& stack : plan.shims)
        if (changed(stack)) works.push_back(shims_in_words(stack));
    return joined(works);
}

std::string told_turned(const plan::SkimMade& skim) {
    return fmt::format("{} {}", spoken(skim.ring), skim.bore ? "in the bore" : "on the outside");
}

std::string told_may_be(const plan::CutMade& cut, int decimals) {
    return gone_already(cut, "below", decimals);
}

std::string told_may_be(const plan::SkimMade& skim, int decimals) {
    return gone_already(skim, skim.bore ? "above" : "below", decimals);
}

std::vector<std::string> skim_cautions(const plan::SkimMade& skim) {
    std::vector<std::string> all{
        "magnets: never turn into one, nor near the glue that holds it; a sleeve or band over them "
        "is what keeps them in, and is not to be thinned unless its maker says so",
        "laminations: a dull tool smears one sheet over the next and shorts them, and the core "
        "then runs hot; a sharp tool, light cuts, then etch or stone the burr off"};
    if (skim.turns)
        all.emplace_back(
            "it turns: have it balanced before it runs; a thinner wall bursts at a lower speed");
    all.emplace_back("the maker of the engine or the kit says whether it may be skimmed at all");
    return all;
}

std::string told_centring(const plan::CentringMade& centring, int decimals) {
    return fmt::format(
        "slacken it, even the gap up all round by feelers or a dial, tighten, and measure again; "
        "no more than {} of its {} on {} may be left, on diameter. That is worth up to {} all "
        "round",
        fixed(centring.to, decimals), fixed(centring.play, decimals), listed(centring.on),
        fixed(centring.gains, decimals));
}

std::string told_passes(const plan::Passes& passes, int decimals) {
    if (passes.rough == 0) return "one light pass";
    return fmt::format("{} of {}, then a last one of {}: measure before it",
                       passes.rough == 1 ? "1 pass" : fmt::format("{} passes", passes.rough),
                       told_finish(passes.depth, decimals), told_finish(passes.last, decimals));
}

ToldConflict told_conflict(const plan::NoPlan& why, const plan::PlanAnswer& answer) {
    ToldConflict out;
    for (const plan::Stands& each : why.immovable)
        out.stuck.push_back(told_stands(each, answer));
    if (out.stuck.empty())
        for (const plan::Stands& each : why.members)
            out.members.push_back(told_stands(each, answer));
    if (why.opposed) {
        out.meaning =
            "These two ask the opposite of the same two faces. Rings that end at both must clear "
            "each other, which the program asks by itself.";
        out.least =
            "Where the two are to press on each other, name a gap between faces at which no two "
            "rings meet: end the ring of one of them short of its face. Else ask for a gap.";
        return out;
    }
    if (out.members.size() > 1)
        out.meaning = why.irreducible ? "These conflict. Drop any one and the rest is possible."
                                      : "These conflict; perhaps not all of them matter.";
    const std::string allow =
        answer.nothing_to_change
            ? "Say in the job what may be changed: faces to turn under 'cuts', cones under 'laps', "
              "diameters under 'skims', shims with their 'stock', parts that can be shifted with "
              "'centre_to'."
            : "No single limit is enough; more than one has to give, or something else must be "
              "allowed: another cut, another seat for shims, more stock.";
    if (!why.relaxed && !why.sought && !answer.nothing_to_change)
        out.least =
            "Whether any one limit alone is enough was not found out in the time that there was.";
    else if (!why.relaxed)
        out.least = allow;
    else
        out.least = told_relaxation(*why.relaxed, why.relaxed_by, answer) +
                    (why.sought ? ""
                                : " Whether less would do was not found out in the time that "
                                  "there was.") +
                    (answer.nothing_to_change ? " " + allow : "");
    return out;
}

std::string told_stands(const plan::Stands& stands, const plan::PlanAnswer& answer) {
    using Kind = plan::Stands::Kind;
    const int decimals = decimals_for(answer.units, {stands.limit, stands.best.value_or(0.0)}, 0.0);
    const std::string limit = fixed(stands.limit, decimals);
    const std::string_view unit = spoken(answer.units);
    switch (stands.kind) {
        case Kind::clearance:
            return fmt::format("{} must be {} {} {}{}{}.", listed(stands.name, 120),
                               stands.limit > 0.0 ? "at least" : "more than", limit, unit,
                               state_in_words(stands), now_in_words(stands, answer, decimals));
        case Kind::least:
        case Kind::most: {
            std::string of;
            if (!stands.difference.empty())
                of = fmt::format(" (what is short of it: {})", listed(stands.difference, 120));
            const bool over = !stands.difference.empty();
            const std::string now =
                stands.best && over
                    ? fmt::format(
                          "; as things stand it is {} {} by {}",
                          (*stands.best < 0.0) == (stands.kind == Kind::least) ? "missed" : "met",
                          phrase(answer.judge),
                          fixed(std::max(*stands.best, -*stands.best), decimals))
                    : now_in_words(stands, answer, decimals);
            return fmt::format("'{}' asks for at {} {}{}{}{}.", listed(stands.name, 120),
                               stands.kind == Kind::least ? "least" : "most",
                               stands.written.empty() ? limit : listed(stands.written), of,
                               state_in_words(stands), now);
        }
        case Kind::keep:
            return fmt::format(
                "{} can come to {} {} and no further: what must remain, and what "
                "the lathe holds.",
                spoken(stands.name), limit, unit);
        case Kind::lap:
            return fmt::format("no more than {} {} may be lapped off {}.", brief(stands.limit, 4),
                               unit, spoken(stands.name));
        case Kind::skim:
            return fmt::format(
                "{} can be skimmed to {} {} and no further: the wall or the diameter that must "
                "remain, and what the lathe holds.",
                spoken(stands.name), limit, unit);
        case Kind::rounding:
            return fmt::format("the shims under {} are to be rounded in steps of {} {}.",
                               spoken("the " + stands.name), brief(stands.limit, 6), unit);
        case Kind::shims:
            break;
    }
    return fmt::format("only so much can be made of the shims in stock under {}, {} at most.",
                       spoken("the " + stands.name),
                       counted(static_cast<std::size_t>(stands.limit), "piece"));
}

std::string told_relaxation(const plan::Stands& stands, double by, const plan::PlanAnswer& answer) {
    using Kind = plan::Stands::Kind;
    const int decimals = decimals_for(answer.units, {by}, by);
    const std::string much = enough(by, decimals) + " " + std::string(spoken(answer.units));
    switch (stands.kind) {
        case Kind::clearance:
            return fmt::format("{} would have to do with {} less than it is asked for.",
                               listed(stands.name, 120), much);
        case Kind::least:
            return fmt::format("'{}' would have to ask for {} less.", listed(stands.name, 120),
                               much);
        case Kind::most:
            return fmt::format("'{}' would have to allow {} more.", listed(stands.name, 120), much);
        case Kind::keep:
            return fmt::format(
                "{} would have to be cut {} further than its 'keep' allows. Ask "
                "whoever knows the part before you change that.",
                spoken(stands.name), much);
        case Kind::lap:
            return fmt::format("{} would have to be lapped {} more than is allowed.",
                               spoken(stands.name), much);
        case Kind::skim:
            return fmt::format(
                "{} would have to be skimmed {} further, on diameter, than 'keep' or 'until' "
                "allows. Ask whoever knows the part before you change that.",
                spoken(stands.name), much);
        case Kind::rounding:
            return fmt::format("the shims under {} would have to be {} off what rounding makes.",
                               spoken("the " + stands.name), much);
        case Kind::shims:
            break;
    }
    return fmt::format("the shims under {} would have to differ by {} from what the stock makes.",
                       spoken("the " + stands.name), much);
}

std::string told_reading(const plan::ReadingAfter& reading, const Lengths& lengths) {
    return fmt::format(
        "With everything fitted, {} to {} must then read {} ({}){}. Another reading says that "
        "something still holds a part off, or that a size is wrong.",
        listed(reading.from), listed(reading.to), lengths.with_unit(reading.nominal),
        lengths.range(reading.worst),
        reading.as_in.empty() ? "" : ", as in '" + listed(reading.as_in) + "'");
}

}  // namespace trialfit::paper
