// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace trialfit::sheet {

/// The cheapest plan for a page: the search is cut short where a page is not worth waiting longer
/// for, and the plan then says that it is not proven.
[[nodiscard]] plan::PlanAnswer cheapest(const stack::Model& model, const stack::Options& options);

/// The same beside an answer that must not wait for it: proven, or nothing. Nothing, too, of a job
/// so large that the search could be felt, or of one with planned work in force. `checked`: what
/// stack::check finds of the model by the same options, where that is known already.
[[nodiscard]] std::optional<plan::PlanAnswer> cheapest_at_once(
    const stack::Model& model, const stack::Options& options,
    const stack::CheckAnswer* checked = nullptr);

/// The same beside what `spin` found, where a check that a weak spark hangs on misses its limit and
/// the job lets anything be changed.
[[nodiscard]] std::optional<plan::PlanAnswer> mends_at_once(const spin::SpinAnswer& answer,
                                                            const job::Job& job,
                                                            const stack::Options& options);

/// A job's section as it stands, marked with the metal that the cheapest plan takes off, and as it
/// is once that plan is carried out; nothing where the plan asks for no work.
struct BeforeAfter {
    draw::Section before;
    std::optional<draw::Section> after;
};

/// Complaints as draw::section, and one where there is no plan.
[[nodiscard]] std::variant<BeforeAfter, job::Complaints> before_and_after(
    const job::Job& job, const stack::Options& options);

}  // namespace trialfit::sheet
