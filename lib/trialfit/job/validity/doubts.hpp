// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/units.hpp>
#include <variant>
#include <vector>

namespace trialfit::job {

/// A gap whose inboard face is on the part that goes on later. Names are as the job has them.
struct FacesSwapped {
    std::string check;
    std::string inboard;  ///< the face that the check names first: "cover.inner"
    std::string later;    ///< the part that it is on
    std::string earlier;  ///< the part of the other face
};

/// Of two parts that are one with each other, one turns and the other does not.
struct TurnsAlone {
    enum class Joined { by_screw, by_cone, by_same_thread };
    std::string turns;
    std::string still;
    Joined joined = Joined::by_screw;
};

/// An air gap by parts of whose axes nothing is said.
struct AxisNotStated {
    std::vector<std::string> parts;
    std::string check;
};

/// Sizes that are far too large or too small for the threads, or for a shop.
struct UnitDoubtful {
    double widest_mm = 0.0;             ///< the greatest diameter, if the unit is right
    std::optional<double> thread_mm{};  ///< the greatest thread, where it is out of proportion
    quantity::Unit units = quantity::Unit::mm;
};

using Doubt = std::variant<FacesSwapped, TurnsAlone, AxisNotStated, UnitDoubtful>;

/// What a job says without fault and hardly means, since its answer would look right and be about
/// another thing; for the head of every answer. Of a sound job (see validate). Empty where nothing
/// is doubtful. A pair of parts is named once.
[[nodiscard]] std::vector<Doubt> doubts(const Job& job);

}  // namespace trialfit::job
