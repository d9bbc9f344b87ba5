// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct SpinNotJudgedWords {
    std::string operator()(spin::Lacking lacking) const {
        using spin::Lacking;
        switch (lacking) {
            case Lacking::crank_inertia:
                return "the inertia of all that turns: 'crank_inertia' is not given";
            case Lacking::drag:
                return "what is left of the energy: 'drag' is not given";
            case Lacking::starter:
                return "whether it starts: 'starter' is not given";
            case Lacking::bore:
                return "what compression takes: 'bore' is not given";
            case Lacking::compression:
                return "what compression takes: 'compression' is not given";
            case Lacking::stroke_and_rod:
                return "what compression takes: the job has no 'timing' with stroke and rod";
            case Lacking::fire_at:
                return "the speed at the spark: 'fire_at' of 'timing' is not given";
            case Lacking::spark_from:
                break;
        }
        return "whether it sparks: 'spark_from' is not given";
    }
    std::string operator()(const stack::NotCounted& m) const {
        return "the inertia of all that turns: " + words(m);
    }
};

struct SpinNoteWords {
    std::string operator()(spin::Remark remark) const {
        using spin::Remark;
        switch (remark) {
            case Remark::closes_at_bottom:
                return "The cylinder is taken to close at the bottom, where compression takes "
                       "most: "
                       "'closes_at' is not given.";
            case Remark::usual_exponent:
                return fmt::format(
                    "The exponent of compression is taken as {:g} to {:g}: "
                    "'exponent' is not given.",
                    job::kUsualExponent.least, job::kUsualExponent.greatest);
            case Remark::usual_air:
                return fmt::format(
                    "The air is taken to stand at {:g} kPa, sea level in ISO 2533: "
                    "'air_pressure' is not given.",
                    job::kUsualAir_kpa.least);
            case Remark::nothing_under_piston:
                return "The air under the rising piston is taken to give nothing back, which asks "
                       "for the most work: 'under_piston' is not given.";
            case Remark::energy_at_closing:
                return "The starter's energy is what turns the engine where the cylinder closes; "
                       "nothing is taken to push on after that.";
            case Remark::torque_until_closing:
                return "The starter's torque, less the drag, turns the engine from rest until the "
                       "cylinder closes and no longer; compressions on the way are taken to give "
                       "back what they took.";
            case Remark::speed_until_closing:
                return "The starter's speed is taken to be reached where the cylinder closes, "
                       "whatever turns, and nothing to push on after that.";
            case Remark::one_material_a_part:
                break;
        }
        return "Every ring counts as solid metal of its part's material: magnets, holes, spokes "
               "and keyways that differ from it are not seen.";
    }
    std::string operator()(const spin::ShaftIsCrank& m) const {
        return fmt::format(
            "'{}' {} the shaft that all else sits on: its inertia is taken to stand "
            "in 'crank_inertia'.",
            joined(m.parts), m.parts.size() == 1 ? "is" : "are");
    }
};

}  // namespace

std::string words(const spin::NotJudged& message) {
    return std::visit(SpinNotJudgedWords{}, message);
}

std::string words(const spin::Note& note) {
    return std::visit(SpinNoteWords{}, note);
}

std::string words(spin::NotAssessed message) {
    using spin::NotAssessed;
    switch (message) {
        case NotAssessed::leakage:
            return "what leaks past rings and valves while it turns slowly, which asks for less "
                   "energy and gives a weaker charge";
        case NotAssessed::combustion:
            return "what burns after the spark, and a kick back";
        case NotAssessed::burst_and_speed:
            return "burst strength and safe speed of anything that turns";
        case NotAssessed::balance:
            return "balance";
        case NotAssessed::crank_load:
            return "what more inertia does to crank, key, cone and bearings";
        case NotAssessed::spark_itself:
            break;
    }
    return "coil, plug and charge, cold oil, and whether the starter reaches its figures";
}

std::string words(const stack::NotCounted& message) {
    switch (message.lacks) {
        case stack::NotCounted::Lacks::rings:
            return fmt::format("'{}' has no rings", message.part);
        case stack::NotCounted::Lacks::lengths:
            return fmt::format("nobody has measured every ring of '{}'", message.part);
        case stack::NotCounted::Lacks::density:
            break;
    }
    return fmt::format("'{}' has no material of known density", message.part);
}

}  // namespace trialfit::paper
