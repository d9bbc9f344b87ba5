// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/stack/messages.hpp>
#include <variant>
#include <vector>

// What `spin` says beside its figures, as data; its words are in paper/words/.
namespace trialfit::spin {

/// Something that the job does not give, and what hangs on it is not judged.
enum class Lacking {
    crank_inertia,   ///< what the rotor's inertia adds to
    drag,            ///< what turning over takes beside compression
    starter,         ///< what it starts from
    bore,            ///< what compression takes
    compression,     ///< the same
    stroke_and_rod,  ///< the same
    fire_at,         ///< where the spark is asked for
    spark_from,      ///< the speed that it asks for
};

/// A part that turns and is not in the inertia, or something that is not given.
using NotJudged = std::variant<Lacking, stack::NotCounted>;

/// What was taken for want of anything better.
enum class Remark {
    closes_at_bottom,      ///< the cylinder, which asks for the most work
    usual_exponent,        ///< job::kUsualExponent
    usual_air,             ///< job::kUsualAir_kpa
    nothing_under_piston,  ///< job::kNothingUnderPiston
    energy_at_closing,     ///< the starter's, and none after
    torque_until_closing,  ///< from rest, and none after
    speed_until_closing,   ///< whatever the rotor weighs
    one_material_a_part,   ///< magnets weigh what their part is made of
};

/// The parts that all that turns sits on: their inertia stands in `crank_inertia`.
struct ShaftIsCrank {
    std::vector<std::string> parts;
};

using Note = std::variant<Remark, ShaftIsCrank>;

enum class NotAssessed {
    leakage,          ///< past rings and valves while it turns slowly
    combustion,       ///< what burns, and a kick back
    burst_and_speed,  ///< burst strength and safe speed
    balance,
    crank_load,   ///< what more inertia does to crank, key, cone and bearings
    spark_itself  ///< plug, coil, charge
};

}  // namespace trialfit::spin
