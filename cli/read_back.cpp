// SPDX-License-Identifier: MIT
#include "read_back.hpp"

#include <trialfit/reading/read.hpp>
#include <trialfit/stack/as_built.hpp>
#include <trialfit/stack/check.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>
#include <variant>

namespace trialfit::cli {

job::Complaints against(std::string_view text, const std::string& name) {
    reading::Outcome outcome = reading::read_job(text, name);
    if (!outcome.job) return std::move(outcome.complaints);
    auto built = stack::as_built(*outcome.job, outcome.job->record.size());
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const auto& job = std::get<job::Job>(built);
    auto evidence = survey::evidence(job);
    if (auto* complaints = std::get_if<job::Complaints>(&evidence)) return std::move(*complaints);
    stack::Options options;
    options.readings = std::move(std::get<std::vector<stack::TrialFit>>(evidence));
    auto answer = stack::check(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&answer)) return std::move(*complaints);
    return {};
}

}  // namespace trialfit::cli
