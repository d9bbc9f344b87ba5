// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <map>
#include <trialfit/plan/demand/demands.hpp>
#include <vector>

namespace trialfit::plan {

/// The job with every face cut and a mark in every seat: what it takes to see how often a gap meets
/// them. The marks are found again by their identities.
class Marked {
public:
    /// Borrows both.
    Marked(const stack::Model& model, const Demands& decided);

    /// In every state of the job.
    [[nodiscard]] const std::vector<stack::Model>& states() const { return states_; }
    /// Where an end of a ring has gone: beyond a cut face, it stays with the old one.
    [[nodiscard]] stack::Station station(job::PartId part, const job::RingEnd& end) const;
    /// How often a form of the marked job meets each cut and seat, and its sensitivity to each lap.
    void read(const stack::Form& form, PlanDemand& into) const;

private:
    struct Effect {
        bool on_seat = false;
        std::size_t index = 0;
        double times = 1.0;
    };

    void find_columns();

    const Demands& decided_;
    std::vector<int> first_new_face_;
    job::Job job_;
    std::vector<stack::Model> states_;
    std::map<int, std::vector<Effect>> columns_;
};

}  // namespace trialfit::plan
