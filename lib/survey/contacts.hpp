// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/complaint.hpp>
#include <trialfit/stack/model.hpp>
#include <variant>
#include <vector>

namespace trialfit::survey {

/// How the parts lay when each reading was taken: the likeliest set of contacts for each. Only
/// readings of the job's own state are looked at, not those that work since then has overtaken.
struct Contacts {
    struct Found {
        stack::TrialFit fit;
        /// How many times likelier than the next-best set; nothing where there is no other.
        std::optional<double> odds_to_next;
        std::optional<stack::TrialFit> next;
        bool stated = false;
    };
    std::vector<Found> readings;
};

/// Finds, for every reading of the job, what each part on its way rested on: its seat, or another
/// fitted part that it jams on. Every set that keeps the parts from entering each other is weighed
/// by its likelihood exp(-(w' M+ w + p)/2) / sqrt(det M), w being the misfits of all readings, M
/// their covariance, and p the squares of how far, in sd, any two parts would enter each other;
/// more than 4 sd is taken as impossible. A reading that states what touched is taken at its word.
/// Complaints where a reading leads over a part that was not fitted.
[[nodiscard]] std::variant<Contacts, job::Complaints> contacts(const stack::Model& model);

}  // namespace trialfit::survey
