// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/survey/jam.hpp>
#include <vector>

// The job of a rotor that jams, from two depth readings, and what they say at once.
namespace trialfit::paper {

/// What the job is made of; sizes in the words of the format.
struct JamJob {
    quantity::Unit units = quantity::Unit::mm;
    std::string gauge = "caliper";
    std::string gauge_half_width;
    std::string alone;  ///< "13.97 by caliper"
    std::string together;
    std::string clearance;  ///< empty where nobody has said it
    /// What holds the rotor off: the stator that lies on the plate, or the plate itself.
    bool on_stator = false;
    /// No less thread is proud with everything fitted: nothing holds the rotor off.
    bool seats = false;
    struct Part {
        std::string name;  ///< plate, stator or rotor
        std::string now;   ///< "10.00 by caliper"
        std::string keep;  ///< empty where nobody has said it
    };
    std::vector<Part> parts;
};

/// A commented job file: the sizes that nobody has measured are `unmeasured`.
[[nodiscard]] std::string jam_job(const JamJob& job);

/// What the readings say, as text and as JSON. `file`: the job file that was written, or empty.
[[nodiscard]] std::string jam_text(const JamJob& job, const survey::JamReadings& given,
                                   const survey::JamAnswer& answer, const std::string& file,
                                   const Style& style);
[[nodiscard]] std::string jam_json(const JamJob& job, const survey::JamReadings& given,
                                   const survey::JamAnswer& answer);

}  // namespace trialfit::paper
