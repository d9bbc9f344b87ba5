// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <utility>

namespace trialfit::paper {

using stack::Verdict;

namespace {

CheckFinding::About about(stack::CheckKind kind) {
    switch (kind) {
        case stack::CheckKind::engagement:
            return CheckFinding::About::engagement;
        case stack::CheckKind::overlap:
            return CheckFinding::About::overlap;
        case stack::CheckKind::air_gap:
            return CheckFinding::About::radial;
        case stack::CheckKind::clamp:
            return CheckFinding::About::clamp;
        case stack::CheckKind::gap:
            break;
    }
    return CheckFinding::About::gap;
}

// What a pair along the axis, one across it and a check have alike.
template <typename From>
CheckFinding finding_of(CheckFinding::About about, const std::string& name,
                        const std::string& first, const std::string& second,
                        const stack::Bounds& value, const From& from) {
    return {.about = about,
            .name = name,
            .first = first,
            .second = second,
            .value = value,
            .at_least = from.at_least,
            .at_most = std::nullopt,
            .more_than = from.more_than,
            .verdict = from.verdict,
            .odds = from.odds,
            .fails = from.fails,
            .state = from.state,
            .in_states = from.in_states};
}

Verdict judged_side(const CheckFinding& f, stack::Judge judge) {
    if (within(f, shown_range(f.value, judge))) return Verdict::holds;
    return within(f, {f.value.nominal, f.value.nominal}) ? Verdict::doubtful : Verdict::fails;
}

// Of two sides the one that is worse, then the one that passes by less or misses by more.
std::size_t deciding_side(const std::vector<CheckFinding>& both, stack::Judge judge) {
    const auto miss = [judge](const CheckFinding& f) {
        const auto at = pinch(f, shown_range(f.value, judge));
        return at ? at->miss : -std::numeric_limits<double>::infinity();
    };
    if (both.size() == 1) return 0;
    const bool second = both[1].verdict != both[0].verdict ? both[1].verdict > both[0].verdict
                                                           : miss(both[1]) > miss(both[0]);
    return second ? 1 : 0;
}

// Whether a limit is missed by less than ten of the last usual digit, and by no whole number of it.
bool misses_finely(const CheckFinding& finding, int usual) {
    if (finding.verdict == Verdict::holds) return false;
    const auto at = pinch(finding, finding.value.worst);
    if (!at || !(at->miss > 0.0)) return false;
    const double steps = at->miss * std::pow(10.0, usual);
    return steps < 10.0 && std::abs(steps - std::round(steps)) > 1e-6;
}

// The findings of an answer, of each check those that `pick` makes of its sides.
template <typename Pick>
std::vector<CheckFinding> all_findings(const stack::CheckAnswer& answer, Pick pick) {
    std::vector<CheckFinding> out;
    out.reserve(answer.clearances.size() + answer.checks.size() + answer.radial.size());
    const auto add = [&out](CheckFinding finding) -> CheckFinding& {
        finding.automatic = true;
        return out.emplace_back(std::move(finding));
    };
    for (const stack::Clearance& c : answer.clearances) {
        CheckFinding& pair =
            add(finding_of(CheckFinding::About::clearance, c.inboard + " to " + c.outboard,
                           c.inboard, c.outboard, c.gap, c));
        pair.first_face = c.inboard_face;
        pair.second_face = c.outboard_face;
    }
    for (const stack::CheckResult& c : answer.checks)
        pick(sides(c, answer.judge), out);
    for (const stack::RadialGap& c : answer.radial)
        add(finding_of(CheckFinding::About::radial, c.inner + " in " + c.outer, c.inner, c.outer,
                       c.gap, c));
    return out;
}

}  // namespace

std::string in_its_state(const std::string& state) {
    if (state.empty() || state == job::kAsMeasured) return {};
    return " in state '" + listed(state) + "'";
}

std::string titled(const CheckFinding& finding) {
    return finding.side.empty() ? finding.name : finding.name + " (" + finding.side + ")";
}

std::vector<CheckFinding> sides(const stack::CheckResult& c, stack::Judge judge) {
    CheckFinding one = finding_of(about(c.kind), c.name, c.first, c.second, c.value, c);
    one.at_most = c.at_most;
    if (!c.greatest || !c.at_most) return {std::move(one)};
    CheckFinding other = one;
    other.value = *c.greatest;
    other.at_least.reset();
    if (!c.at_least) return {std::move(other)};
    one.at_most.reset();
    one.side = "least";
    other.side = "greatest";
    other.in_states.clear();  // which are of the least
    if (c.verdict == Verdict::not_judged) return {std::move(one), std::move(other)};
    one.verdict = std::min(c.verdict, judged_side(one, judge));
    other.verdict = std::min(c.verdict, judged_side(other, judge));
    std::vector<CheckFinding> both{std::move(one), std::move(other)};
    both[deciding_side(both, judge)].verdict = c.verdict;
    return both;
}

std::vector<CheckFinding> findings(const stack::CheckAnswer& answer) {
    return all_findings(answer,
                        [&](const std::vector<CheckFinding>& both, std::vector<CheckFinding>& out) {
                            out.push_back(both[deciding_side(both, answer.judge)]);
                        });
}

std::vector<CheckFinding> distinct_findings(const stack::CheckAnswer& answer) {
    const std::vector<CheckFinding> all =
        all_findings(answer, [](std::vector<CheckFinding> both, std::vector<CheckFinding>& out) {
            for (CheckFinding& each : both)
                out.push_back(std::move(each));
        });
    std::map<std::pair<std::string, std::string>, const CheckFinding*> asked;
    for (const CheckFinding& each : all)
        if (each.about == CheckFinding::About::gap) asked[{each.first, each.second}] = &each;
    std::vector<const CheckFinding*> twins;  // few, so a list will do
    for (const CheckFinding& each : all) {
        if (each.about != CheckFinding::About::clearance) continue;
        const auto twin = asked.find({each.first, each.second});
        if (twin == asked.end()) continue;
        const CheckFinding& check = *twin->second;
        if (check.at_least && *check.at_least >= *each.at_least)
            twins.push_back(&each);
        else if (!check.at_most)
            twins.push_back(&check);
    }
    // Of an air gap and the radial gap of the same rings, the air gap asks as much or more.
    for (const CheckFinding& each : all) {
        if (each.about != CheckFinding::About::radial || !each.automatic) continue;
        const bool asked_too = std::ranges::any_of(all, [&](const CheckFinding& other) {
            return other.about == CheckFinding::About::radial && !other.automatic &&
                   other.first == each.first && other.second == each.second && other.at_least;
        });
        if (asked_too) twins.push_back(&each);
    }
    std::vector<CheckFinding> out;
    for (const CheckFinding& each : all)
        if (std::ranges::find(twins, &each) == twins.end()) out.push_back(each);
    return out;
}

CheckFinding finding(const stack::WhyAnswer& answer) {
    return {.about = about(answer.kind),
            .name = name_of(answer),
            .first = answer.first,
            .second = answer.second,
            .value = answer.value,
            .at_least = answer.at_least,
            .at_most = answer.at_most,
            .more_than = answer.more_than,
            .verdict = answer.verdict,
            .state = answer.state};
}

stack::Range shown_range(const stack::Bounds& bounds, stack::Judge judge) {
    return judge == stack::Judge::rss ? bounds.rss : bounds.worst;
}

std::string needed(const CheckFinding& finding, int decimals) {
    if (finding.at_least && finding.at_most)
        return range({*finding.at_least, *finding.at_most}, decimals);
    if (finding.at_most) return "≤" + fixed(*finding.at_most, decimals);
    if (finding.at_least)
        return (finding.more_than ? ">" : "≥") + fixed(*finding.at_least, decimals);
    return "-";
}

std::optional<Pinch> pinch(const CheckFinding& finding, stack::Range range) {
    std::optional<Pinch> out;
    if (finding.value.open()) return out;
    if (finding.at_least)
        out = {.low = true,
               .end = range.lo,
               .limit = *finding.at_least,
               .miss = *finding.at_least - range.lo};
    if (finding.at_most && (!out || range.hi - *finding.at_most > out->miss))
        out = {.low = false,
               .end = range.hi,
               .limit = *finding.at_most,
               .miss = range.hi - *finding.at_most};
    return out;
}

bool within(const CheckFinding& finding, stack::Range range) {
    const bool enough = !finding.at_least || range.lo > *finding.at_least ||
                        (range.lo == *finding.at_least && !finding.more_than);
    return enough && (!finding.at_most || range.hi <= *finding.at_most);
}

double finest(const CheckFinding& finding) {
    double least = std::numeric_limits<double>::infinity();
    if (finding.value.open()) return 0.0;
    const auto see = [&least](double distance) {
        if (distance > 1e-9) least = std::min(least, distance);
    };
    see((finding.value.worst.hi - finding.value.worst.lo) / 2.0);
    if (finding.verdict != Verdict::holds) {
        for (const stack::Range range : {finding.value.worst, finding.value.rss})
            if (const auto at = pinch(finding, range)) see(std::abs(at->miss));
    }
    return std::isfinite(least) ? least : 0.0;
}

int decimals_for(quantity::Unit units, const std::vector<CheckFinding>& all) {
    std::vector<double> written;
    double narrowest = std::numeric_limits<double>::infinity();
    for (const CheckFinding& each : all) {
        if (!each.value.open()) written.push_back(each.value.nominal);
        if (each.at_least) written.push_back(*each.at_least);
        if (each.at_most) written.push_back(*each.at_most);
        const double fine = finest(each);
        if (fine > 0.0) narrowest = std::min(narrowest, fine);
    }
    const int decimals = decimals_for(units, written, std::isfinite(narrowest) ? narrowest : 0.0);
    const int usual = decimals_for(units, {}, 0.0);
    const bool fine = std::ranges::any_of(
        all, [usual](const CheckFinding& each) { return misses_finely(each, usual); });
    return fine ? std::max(decimals, usual + 1) : decimals;
}

bool may_meet_sooner(const stack::CheckAnswer& answer) {
    if (!answer.first_contact) return false;
    const std::string own = answer.first_contact->part + ".";
    return std::ranges::any_of(answer.clearances, [&](const stack::Clearance& each) {
        return each.gap.open() && each.outboard_face.starts_with(own);
    });
}

std::string first_contact_told(const stack::CheckAnswer& answer, const Lengths& lengths) {
    if (!answer.first_contact) return {};
    const stack::FirstContact& contact = *answer.first_contact;
    const auto& proud = contact.stands_proud;
    const std::string who =
        fmt::format("{} on {}", listed(contact.outboard), listed(contact.inboard));
    const std::string part = listed(contact.part);
    if (!(proud.nominal > 0.0))
        return fmt::format(
            "{} may touch: in the worst case the {} stops {} before its seat{}. At nominal sizes "
            "it reaches it.",
            who, part, lengths.with_unit(proud.worst.hi), in_its_state(contact.state));
    const bool sooner = may_meet_sooner(answer);
    return fmt::format(
        "{}{}. The {} stops {}{} before its seat{} (worst case {}, RSS {}). All other figures "
        "assume that it sits.",
        who, sooner ? " (what is not judged may touch sooner)" : "", part,
        sooner ? "at least " : "", lengths.with_unit(proud.nominal), in_its_state(contact.state),
        lengths.range(proud.worst), lengths.range(proud.rss));
}

const CheckFinding* deciding(const std::vector<CheckFinding>& all, stack::Judge judge) {
    const CheckFinding* worst = nullptr;
    double most = 0.0;
    for (const CheckFinding& each : all) {
        const auto at = pinch(each, shown_range(each.value, judge));
        const bool open = each.verdict == stack::Verdict::not_judged;
        if (!at && !open) continue;
        const double miss = open ? 0.0 : at->miss;
        if (worst != nullptr &&
            (each.verdict < worst->verdict || (each.verdict == worst->verdict && miss <= most)))
            continue;
        worst = &each;
        most = miss;
    }
    return worst;
}

}  // namespace trialfit::paper
