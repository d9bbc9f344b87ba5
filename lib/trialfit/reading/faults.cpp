// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/faults.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr std::size_t kMostShown = 100;
constexpr std::size_t kMostKept = 1000;

}  // namespace

void Faults::error(job::Place at, std::string fault, std::string mend) {
    add({.severity = job::Severity::error,
         .at = at,
         .fault = std::move(fault),
         .mend = std::move(mend)});
}

void Faults::warning(job::Place at, std::string fault, std::string mend) {
    add({.severity = job::Severity::warning,
         .at = at,
         .fault = std::move(fault),
         .mend = std::move(mend)});
}

void Faults::add(job::Complaint complaint) {
    if (complaints_.size() >= kMostKept) throw TooManyFaults{};
    complaints_.push_back(std::move(complaint));
}

job::Complaints Faults::finish() {
    std::ranges::stable_sort(complaints_, {}, &job::Complaint::at);
    if (complaints_.size() > kMostShown) {
        const bool failed = job::any_error(complaints_);
        complaints_.resize(kMostShown);
        complaints_.push_back(
            {.severity = failed ? job::Severity::error : job::Severity::warning,
             .at = {},
             .fault = fmt::format("there are more faults than these {}", kMostShown),
             .mend = "mend these first"});
    }
    return std::move(complaints_);
}

}  // namespace trialfit::reading
