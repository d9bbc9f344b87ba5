// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/size.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/sheet/live/place.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

// The findings of a job with the work of some fields done.
namespace trialfit::sheet {

/// What is typed into a field; of shims, that many of that thickness.
struct LiveTyped {
    double value = 0.0;
    int pieces = 1;
};

/// The job after the work of the fields filled in, and its model.
struct LiveDone {
    std::unique_ptr<job::Job> job;
    std::optional<stack::Model> model;
    std::vector<int> columns;  ///< of each field: the size that it made, -1 where there is none
};

/// All that is found of one choice of fields, in an order that does not change with it.
struct LiveFound {
    std::vector<LiveFinding> findings;  ///< their figures in `blank`; of the readings last
    /// How far the nut draws the hub home, where that is known.
    std::optional<quantity::Size> draw_up;
};

class LiveWork {
public:
    /// All three must outlive it.
    LiveWork(const stack::Model& before, const stack::Options& options,
             const std::vector<LivePlace>& places);

    /// The job with that typed into its fields, nothing where a field is blank. Nothing where a
    /// size that the work makes is tied to others, so that figures do not move evenly with it.
    [[nodiscard]] std::optional<LiveDone> done(
        const std::vector<std::optional<LiveTyped>>& fields) const;
    [[nodiscard]] LiveFound found(const LiveDone& done) const;
    /// What stands apart from the findings, see stack::CheckAnswer::verdict_apart.
    [[nodiscard]] stack::Verdict apart(const LiveDone& done) const;

    /// The readings of the job that go by other faces than one before.
    [[nodiscard]] const std::vector<job::Reading>& readings() const { return readings_; }

private:
    const stack::Model& before_;
    const stack::Options& options_;
    const std::vector<LivePlace>& places_;
    std::shared_ptr<const job::Job> base_;
    std::vector<job::Reading> readings_;
};

}  // namespace trialfit::sheet
