// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/match/present.hpp>
#include <trialfit/match/written.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>

namespace trialfit::match {

namespace {

bool near(double one, double other) {
    constexpr double kRounding = 1e-9;  // of a length in two units
    return one == other ||
           std::abs(one - other) <= kRounding * std::max({1.0, std::abs(one), std::abs(other)});
}

bool alike(const stack::Bounds& one, const stack::Bounds& other) {
    return near(one.nominal, other.nominal) && near(one.worst.lo, other.worst.lo) &&
           near(one.worst.hi, other.worst.hi) && near(one.rss.lo, other.rss.lo) &&
           near(one.rss.hi, other.rss.hi);
}

template <typename Finding, typename Value>
bool all_alike(const std::vector<Finding>& one, const std::vector<Finding>& other, Value value) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [&](const Finding& a, const Finding& b) {
                          return a.verdict == b.verdict && alike(a.*value, b.*value);
                      });
}

bool alike(const stack::CheckAnswer& one, const stack::CheckAnswer& other) {
    return one.verdict == other.verdict &&
           all_alike(one.clearances, other.clearances, &stack::Clearance::gap) &&
           all_alike(one.checks, other.checks, &stack::CheckResult::value) &&
           all_alike(one.radial, other.radial, &stack::RadialGap::gap);
}

// What `check` answers of a text; nothing where it is no job.
std::optional<stack::CheckAnswer> answer_of(const std::string& text) {
    const reading::Outcome read = reading::read_job(text, "joined");
    if (!read.job) return std::nullopt;
    const auto now = present(*read.job);
    const auto* const of = std::get_if<Present>(&now);
    if (of == nullptr) return std::nullopt;
    auto outcome = stack::check(of->job, of->how);
    auto* const answer = std::get_if<stack::CheckAnswer>(&outcome);
    return answer == nullptr ? std::nullopt : std::optional(std::move(*answer));
}

}  // namespace

Written written(const reading::Joiner& joiner, const Candidate& candidate) {
    if (!candidate.check) return {.text = std::nullopt, .complaints = candidate.complaints};
    reading::Joiner::Text joined = joiner.text(candidate.files);
    if (!joined.text) return {.text = std::nullopt, .complaints = std::move(joined.complaints)};
    const auto answer = answer_of(*joined.text);
    if (answer && alike(*answer, *candidate.check))
        return {.text = std::move(joined.text), .complaints = {}};
    return {.text = std::nullopt,
            .complaints = {{.file = candidate.files.empty() ? 0 : candidate.files.front(),
                            .complaint = {.fault = "in one file with the engine it would not have "
                                                   "the same answer",
                                          .mend = "give each size of it its unit, its limits or "
                                                  "its gauge, not the file"}}}};
}

}  // namespace trialfit::match
