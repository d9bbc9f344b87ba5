// SPDX-License-Identifier: MIT
// Inside the room: what is asked of a job, as demands on forms of its sizes.
#pragma once

#include <cstddef>
#include <optional>
#include <trialfit/odds/clearance/demand.hpp>
#include <trialfit/odds/direction/leaning.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::odds {

/// What is asked, as demands that must all be met; `most` where an engagement or an overlap has an
/// upper limit, which is not one of these: the least of four is at most b where any of the four is.
struct Asked {
    CheckOdds head;
    std::vector<LimitedForm> least;
    std::vector<LimitedForm> most;
    std::size_t deciding = 0;
    stack::Form shown;  ///< what the deciding demand is about, before a share of a length comes off
    double nominal_margin = 0.0;
    /// Where directions matter: what is asked in truth; `least` is then what the worst directions
    /// would make of it, as likely to fail or likelier.
    std::optional<Leaning> leaning;
};

/// One finding: what is asked of it in each of the job's states, and which of them decides. Its
/// chance is that of holding in all of them, as its verdict is.
struct Finding {
    std::vector<Asked> states;
    std::size_t deciding = 0;

    [[nodiscard]] const Asked& in_deciding() const { return states[deciding]; }
};

/// Everything that `options` asks of a job.
struct AllAsked {
    std::vector<Finding> checks;
    std::vector<Finding> clearances;  ///< those listed
    std::vector<Finding> radial;
    /// Every check and every pair in every state: what must hold for all together.
    std::vector<Asked> together;
};
[[nodiscard]] AllAsked ask(const std::vector<stack::Model>& states,
                           const std::vector<stack::Clearance>& pairs, const Options& options);

}  // namespace trialfit::odds
