// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/quantity/size.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What two depth readings say of a rotor that jams.
namespace trialfit::survey {

/// A part that metal may come off.
struct JamPart {
    std::string name;
    quantity::Size now;          ///< its thickness
    std::optional<double> keep;  ///< what must remain of it
};

/// How far the thread stands proud of the rotor, with the rotor alone and with everything fitted,
/// both read from the same face; and how much room the rotor is to have, where that is said. All
/// in one unit, >= 0.
struct JamReadings {
    quantity::Size alone;
    quantity::Size together;
    std::optional<double> clearance;
    std::vector<JamPart> parts;
};

struct JamAnswer {
    /// `seats`: no less thread is proud with everything fitted. `doubtful`: less, and within what
    /// the readings may be out. `wrong_way`: more, by more than they may be out, which cannot be.
    enum class Found { seats, doubtful, stands_off, wrong_way };
    Found found = Found::seats;
    /// How far the rotor stands off its seat: alone less together, no less than 0.
    double off = 0.0;
    stack::Range worst;
    /// What must come off in all, with the clearance; the second is enough whatever the readings
    /// are out by. Not known where it seats: how much room there is, two such readings do not say.
    std::optional<double> come_off;
    double to_be_sure = 0.0;
    /// What is left of a part that all of it comes off, to be sure.
    struct Left {
        std::string name;
        double now = 0.0;
        double left = 0.0;   ///< nominal
        double least = 0.0;  ///< in the worst case of its own size
        std::optional<double> keep;
        stack::Verdict verdict = stack::Verdict::not_judged;  ///< of keep
    };
    std::vector<Left> left;
};

/// A subtraction, in the worst case of both readings.
[[nodiscard]] JamAnswer jam(const JamReadings& given);

}  // namespace trialfit::survey
