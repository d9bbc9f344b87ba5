// SPDX-License-Identifier: MIT
#include <trialfit/paper/words/words.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct TimingNoteWords {
    std::string operator()(timing::Remark remark) const {
        using timing::Remark;
        switch (remark) {
            case Remark::no_gauge:
                return "The section names no 'gauge' for the piston height: its error is left out.";
            case Remark::no_plug_tilt:
                return "No 'plug_tilt' is given: the gauge is taken to stand along the bore.";
            case Remark::stop_holds_exactly:
                return "The stop is taken to hold the piston at one height exactly: 'holds' is not "
                       "given.";
            case Remark::marks_without_fire_at:
                return "The marks cannot be held to a firing point: 'fire_at' is not given.";
            case Remark::no_direction:
                return "'turns' is not given, so no direction is named: earlier is the stator "
                       "turned against the shaft.";
            case Remark::screw_in_middle:
                return "The screw is taken to stand in the middle of its slot: 'free_earlier' is "
                       "not given.";
            case Remark::slot_is_travel:
                return "The slot's 'length' is taken as the screw's travel: 'screw' is not given.";
            case Remark::curve_goes_on_flat:
                break;
        }
        return "Beyond its first and last point a curve is taken as flat.";
    }
    std::string operator()(const timing::ReadByOther& m) const {
        return "The firing point was read by '" + m.gauge +
               "', so its error counts and not that of the section's gauge.";
    }
};

}  // namespace

std::string words(const timing::Note& note) {
    return std::visit(TimingNoteWords{}, note);
}

std::string words(timing::NotJudged message) {
    switch (message) {
        case timing::NotJudged::slot_without_fires_now:
            return "whether the slot reaches: 'fires_now' is not given";
        case timing::NotJudged::slot_without_fire_at:
            return "whether the slot reaches: 'fire_at' is not given";
        case timing::NotJudged::screw_in_its_slot:
            return "how far the screw can go each way: 'free_earlier' is not given, the middle is "
                   "taken";
        case timing::NotJudged::limits_without_gauge:
            break;
    }
    return "whether the limits of 'fire_at' are kept: no 'gauge' is given";
}

}  // namespace trialfit::paper
