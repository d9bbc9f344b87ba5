// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <string_view>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/plan_words.hpp>
#include <trialfit/paper/words.hpp>

namespace trialfit::paper {

namespace {

std::string joined_works(const std::vector<std::string>& works) {
    std::string out;
    for (std::size_t i = 0; i < works.size(); ++i) {
        if (i > 0) out += i + 1 == works.size() ? " and " : ", ";
        out += works[i];
    }
    return out;
}

std::string shims_in_words(const plan::StackMade& stack) {
    const std::string under = fmt::format(" under {}", spoken("the " + stack.part));
    if (stack.stack.empty())
        return fmt::format("take the {} of shims out from{}", told_stack(stack.taken_out), under);
    const bool any_new = std::any_of(stack.stack.begin(), stack.stack.end(),
                                     [](const plan::Piece& piece) { return !piece.fitted; });
    if (!any_new) return fmt::format("leave only shims of {}{}", told_stack(stack.stack), under);
    return fmt::format("fit {} of {}{}", stack.stack.size() == 1 ? "a shim" : "shims",
                       told_stack(stack.stack), under);
}

std::string now_in_words(const plan::Stands& stands, const plan::PlanAnswer& answer, int decimals) {
    if (!stands.best) return {};
    return fmt::format("; as things stand it is {} {}", fixed(*stands.best, decimals),
                       answer.odds_level ? "in the worst case" : phrase(answer.judge));
}

std::string state_in_words(const plan::Stands& stands) {
    return stands.state.empty() ? "" : fmt::format(", in the state '{}'", listed(stands.state));
}

}  // namespace

int plan_decimals(const plan::PlanAnswer& answer) {
    std::vector<double> written;
    double narrowest = std::numeric_limits<double>::infinity();
    for (const plan::PlanMade& plan : answer.plans)
        for (const plan::CutMade& cut : plan.cuts) {
            written.push_back(cut.now);
            written.push_back(cut.keep);
            if (cut.holds > 0.0) narrowest = std::min(narrowest, cut.holds);
        }
    return decimals_for(answer.units, written, narrowest < 1e9 ? narrowest : 0.0);
}

std::string told_finish(const plan::CutMade& cut, int decimals) {
    constexpr int kMore = 3;
    constexpr double kSame = 1e-9;
    for (int d = decimals; d < decimals + kMore; ++d) {
        for (const std::string& told :
             {fixed(cut.finish, d), enough(cut.finish, d), paper::at_most(cut.finish, d)}) {
            const double size = std::stod(told);
            if (size - cut.holds >= cut.window.lo - kSame &&
                size + cut.holds <= cut.window.hi + kSame)
                return told;
        }
    }
    return fixed(cut.finish, decimals + kMore);
}

std::string told_window(const stack::Range& window, int decimals) {
    return enough(window.lo, decimals) + ".." + paper::at_most(window.hi, decimals);
}

std::string told_stack(const std::vector<plan::Piece>& pieces) {
    std::string out;
    for (const plan::Piece& piece : pieces)
        out += (out.empty() ? "" : " + ") + brief(piece.thickness, 6);
    return out.empty() ? "none" : out;
}

bool changed(const plan::StackMade& stack) {
    return !stack.taken_out.empty() ||
           std::any_of(stack.stack.begin(), stack.stack.end(),
                       [](const plan::Piece& piece) { return !piece.fitted; });
}

bool leaves_all(const plan::PlanMade& plan) {
    return plan.cuts.empty() && plan.laps.empty() &&
           std::none_of(plan.shims.begin(), plan.shims.end(), changed);
}

std::string told_works(const plan::PlanMade& plan, int decimals) {
    std::vector<std::string> works;
    for (const plan::CutMade& cut : plan.cuts)
        works.push_back(fmt::format("turn {} to {}", spoken(cut.face), told_finish(cut, decimals)));
    for (const plan::LapMade& lap : plan.laps)
        works.push_back(fmt::format("lap {} off {}", brief(lap.off_diameter, 3), spoken(lap.cone)));
    for (const plan::StackMade& stack : plan.shims)
        if (changed(stack)) works.push_back(shims_in_words(stack));
    return joined_works(works);
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
                          answer.odds_level ? "in the worst case" : phrase(answer.judge),
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
        case Kind::shims:
            break;
    }
    return fmt::format("the shims under {} would have to differ by {} from what the stock makes.",
                       spoken("the " + stands.name), much);
}

}  // namespace trialfit::paper
