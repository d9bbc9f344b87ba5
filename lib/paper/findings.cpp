// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/findings.hpp>
#include <trialfit/paper/words.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

Finding::About about(stack::CheckKind kind) {
    switch (kind) {
        case stack::CheckKind::engagement:
            return Finding::About::engagement;
        case stack::CheckKind::overlap:
            return Finding::About::overlap;
        case stack::CheckKind::air_gap:
            return Finding::About::radial;
        case stack::CheckKind::clamp:
            return Finding::About::clamp;
        case stack::CheckKind::gap:
            break;
    }
    return Finding::About::gap;
}

// What is found of a pair along the axis or across it: only their names differ.
template <typename Pair>
Finding of_pair(Finding::About about, const std::string& first, const char* to,
                const std::string& second, const Pair& pair) {
    return {.about = about,
            .name = first + to + second,
            .first = first,
            .second = second,
            .value = pair.gap,
            .at_least = pair.at_least,
            .at_most = std::nullopt,
            .more_than = pair.more_than,
            .verdict = pair.verdict,
            .odds = pair.odds,
            .fails = pair.fails,
            .state = pair.state,
            .in_states = pair.in_states};
}

}  // namespace

namespace {

// An air gap's two limits are on two figures; the one that it passes by less, or misses, is shown.
bool upper_decides(const stack::CheckResult& c) {
    if (!c.greatest || !c.at_most) return false;
    if (!c.at_least) return true;
    return *c.at_most - c.greatest->worst.hi < c.value.worst.lo - *c.at_least;
}

}  // namespace

std::string in_its_state(const std::string& state) {
    return state.empty() ? std::string() : " in state '" + listed(state) + "'";
}

std::vector<Finding> findings(const stack::CheckAnswer& answer) {
    std::vector<Finding> out;
    out.reserve(answer.clearances.size() + answer.checks.size() + answer.radial.size());
    for (const stack::Clearance& c : answer.clearances)
        out.push_back(of_pair(Finding::About::clearance, c.inboard, " to ", c.outboard, c));
    for (const stack::CheckResult& c : answer.checks)
        out.push_back({.about = about(c.kind),
                       .name = c.name,
                       .first = c.first,
                       .second = c.second,
                       .value = upper_decides(c) ? *c.greatest : c.value,
                       .at_least = upper_decides(c) ? std::nullopt : c.at_least,
                       .at_most = c.greatest && !upper_decides(c) ? std::nullopt : c.at_most,
                       .more_than = c.more_than,
                       .verdict = c.verdict,
                       .odds = c.odds,
                       .fails = c.fails,
                       .state = c.state,
                       .in_states = c.in_states});
    for (const stack::RadialGap& c : answer.radial)
        out.push_back(of_pair(Finding::About::radial, c.inner, " in ", c.outer, c));
    return out;
}

std::vector<Finding> distinct_findings(const stack::CheckAnswer& answer) {
    std::vector<Finding> all = findings(answer);
    std::map<std::pair<std::string, std::string>, const Finding*> asked;
    for (const Finding& each : all)
        if (each.about == Finding::About::gap) asked[{each.first, each.second}] = &each;
    std::vector<const Finding*> twins;  // few, so a list will do
    for (const Finding& each : all) {
        if (each.about != Finding::About::clearance) continue;
        const auto twin = asked.find({each.first, each.second});
        if (twin == asked.end()) continue;
        const Finding& check = *twin->second;
        if (check.at_least && *check.at_least >= *each.at_least)
            twins.push_back(&each);
        else if (!check.at_most)
            twins.push_back(&check);
    }
    // Of an air gap and the radial gap of the same rings, the air gap asks as much or more.
    const auto automatic = [](const Finding& f) { return f.name == f.first + " in " + f.second; };
    for (const Finding& each : all) {
        if (each.about != Finding::About::radial || !automatic(each)) continue;
        const bool asked_too = std::any_of(all.begin(), all.end(), [&](const Finding& other) {
            return other.about == Finding::About::radial && !automatic(other) &&
                   other.first == each.first && other.second == each.second && other.at_least;
        });
        if (asked_too) twins.push_back(&each);
    }
    std::vector<Finding> out;
    for (const Finding& each : all)
        if (std::find(twins.begin(), twins.end(), &each) == twins.end()) out.push_back(each);
    return out;
}

Finding finding(const stack::WhyAnswer& answer) {
    return {.about = about(answer.kind),
            .name = answer.name,
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

std::optional<Pinch> pinch(const Finding& finding, stack::Range range) {
    std::optional<Pinch> out;
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

bool within(const Finding& finding, stack::Range range) {
    const bool enough = !finding.at_least || range.lo > *finding.at_least ||
                        (range.lo == *finding.at_least && !finding.more_than);
    return enough && (!finding.at_most || range.hi <= *finding.at_most);
}

double finest(const Finding& finding) {
    double least = std::numeric_limits<double>::infinity();
    const auto see = [&least](double distance) {
        if (distance > 1e-9) least = std::min(least, distance);
    };
    see((finding.value.worst.hi - finding.value.worst.lo) / 2.0);
    if (finding.verdict != stack::Verdict::holds) {
        for (const stack::Range range : {finding.value.worst, finding.value.rss})
            if (const auto at = pinch(finding, range)) see(std::abs(at->miss));
    }
    return std::isfinite(least) ? least : 0.0;
}

int decimals_for(quantity::Unit units, const std::vector<Finding>& all) {
    std::vector<double> written;
    double narrowest = std::numeric_limits<double>::infinity();
    for (const Finding& each : all) {
        written.push_back(each.value.nominal);
        if (each.at_least) written.push_back(*each.at_least);
        if (each.at_most) written.push_back(*each.at_most);
        const double fine = finest(each);
        if (fine > 0.0) narrowest = std::min(narrowest, fine);
    }
    return decimals_for(units, written, std::isfinite(narrowest) ? narrowest : 0.0);
}

}  // namespace trialfit::paper
