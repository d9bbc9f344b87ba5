// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/units.hpp>
#include <variant>
#include <vector>

// What stands before every answer about a job.
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

/// Less metal left than the job says must remain: a face, a ring or a cone that was cut, skimmed or
/// lapped too far, or that may have been.
struct LimitPassed {
    enum class Kind { keep, wall, until_bore, until_outside, lap };
    Kind kind = Kind::keep;
    std::string what;    ///< "plate.front"
    double is = 0.0;     ///< nominal: of a lap, by how much its at_most was passed
    double worst = 0.0;  ///< at its bad limit
    double limit = 0.0;  ///< what the job asks for; 0 for a lap
    /// Passed at nominal; else only at the bad limit, of metal that was worked on.
    bool surely = false;
    quantity::Unit units = quantity::Unit::mm;  ///< the file's, which the lengths are in
};

/// Planned work in force.
struct PlannedInForce {
    std::vector<PlannedWork> work;
    /// Whether the answer is of the parts as they are; else it takes that work as done.
    bool set_aside = false;
};

/// What is only supposed of the job, in words: "plate.front 5.46".
struct Supposed {
    std::vector<std::string> what;
};

/// A face was cut and its thickness is unmeasured: whether `keep` remains is not judged.
struct KeepNotJudged {
    std::string face;
    double keep = 0.0;
    quantity::Unit units = quantity::Unit::mm;
};

/// What changes the meaning of an answer and so stands before it.
using Warning = std::variant<Supposed, PlannedInForce, LimitPassed, KeepNotJudged, Doubt>;

/// Of the job as it stands, after stack::as_built. Lengths in the file's unit. Metal that nobody
/// has worked on is taken at nominal.
[[nodiscard]] std::vector<LimitPassed> limits_passed(const Job& job);

/// The faces that were cut and of which nobody knows how much is left.
[[nodiscard]] std::vector<KeepNotJudged> keeps_not_judged(const Job& job);

/// All planned work in force; nothing where there is none.
[[nodiscard]] std::optional<PlannedInForce> planned_warning(const Job& job, bool set_aside);

/// What is supposed, planned_warning, then each limit passed and each keep that is not judged; for
/// the answers' `warnings`.
[[nodiscard]] std::vector<Warning> warnings(const Job& job);

}  // namespace trialfit::job
