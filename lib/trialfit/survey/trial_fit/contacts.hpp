// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/stack/model/model.hpp>
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
        /// Sizes that nobody has measured leave open which of the two best sets it was (odds of
        /// less than 7 to 1): the reading then binds nothing.
        bool undecided = false;

        /// Whether the reading says anything of the sizes.
        [[nodiscard]] bool binds() const { return !undecided && !fit.stands_off; }
    };
    std::vector<Found> readings;
};

/// Finds, for every reading of the job, what each part on its way rested on: its seat, or another
/// fitted part that it jams on. Every set that keeps the parts from entering each other is weighed
/// by its likelihood exp(-(w' M+ w + p)/2) / sqrt(det M), w being the misfits of all readings, M
/// their covariance, and p the squares of how far, in sd, any two parts would enter each other;
/// more than 4 sd is taken as impossible. Every set is charged for the same pairs: those in which a
/// part moves that any of the sets lifts off its seat; what fouls elsewhere says nothing of a
/// reading. A part that a reading does not lead over is taken to be on its seat. A reading that
/// states what touched is taken at its word. Complaints where a reading leads over a part that was
/// not fitted, and where there are more than kMostReadings.
[[nodiscard]] std::variant<Contacts, job::Complaints> contacts(const stack::Model& model);

/// The ways in which the parts may have lain for one reading without entering each other by more
/// than 4 sd, whatever it states.
[[nodiscard]] std::vector<stack::TrialFit> ways_to_lie(const stack::Model& model, int reading);

/// A ring's end as clearances name it: "plate.front", "plate.front +3".
[[nodiscard]] std::string station_name(const job::Job& job, const stack::Station& station);

/// In words: "seated", "rotor.rim on plate.front".
[[nodiscard]] std::string lying(const job::Job& job, const stack::TrialFit& fit);

/// Trial-fit readings of one job, at most: time grows with the cube of their number.
inline constexpr std::size_t kMostReadings = 300;

}  // namespace trialfit::survey
