// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <variant>
#include <vector>

namespace trialfit::stack {

struct Options {
    Judge judge = Judge::worst;
    /// Factor on every RSS half-width, >= 1 usually (Bender's 1.5).
    double inflate = 1.0;
    /// List every pair, not only the tightest of each two parts.
    bool all_pairs = false;
    /// How the parts lay for each reading that is to bind the sizes (survey::evidence); with none,
    /// the sizes stand as written.
    std::vector<TrialFit> readings;
};

/// The job's model, its sizes bound by the readings of `options`. Complaints where sizes or
/// readings contradict each other.
[[nodiscard]] std::variant<Model, job::Complaints> model_for(const job::Job& job,
                                                             const Options& options);

/// Trial-fits the job on paper. Either the whole answer or the complaints that forbid one (sizes
/// that contradict each other); never a partial answer.
[[nodiscard]] std::variant<CheckAnswer, job::Complaints> check(const job::Job& job,
                                                               const Options& options);

/// The same of a model made already, of the parts as they were measured (by model_for, or carried
/// on from one: model_after). The options' readings are those that bind it.
[[nodiscard]] CheckAnswer check(const Model& cold, const Options& options);

/// Whether the job allows anything to be cut, lapped, skimmed, centred or shimmed.
[[nodiscard]] bool may_change(const job::Job& job);

/// The chain behind one check of the job, by its name, or behind the gap of two faces.
/// Unknown names come back as a complaint with the nearest names.
[[nodiscard]] std::variant<WhyAnswer, job::Complaints> why(const job::Job& job,
                                                           std::string_view check_name,
                                                           const Options& options);
[[nodiscard]] std::variant<WhyAnswer, job::Complaints> why_gap(const job::Job& job,
                                                               std::string_view inboard,
                                                               std::string_view outboard,
                                                               const Options& options);

}  // namespace trialfit::stack
