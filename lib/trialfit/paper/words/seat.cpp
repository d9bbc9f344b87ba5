// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/quantity/units.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct SeatWarningWords {
    std::string operator()(const job::Warning& m) const { return words(m); }
    std::string operator()(const seat::TouchesAtOneEnd& m) const {
        return fmt::format(
            "WARNING: the tapers differ. '{}' touches at the {} end only and can rock. Do not run "
            "it.",
            m.hub, m.small_end ? "small" : "large");
    }
};

std::string_view friction_key(stack::DrawUpLacks which) {
    if (which == stack::DrawUpLacks::thread_friction) return "thread_friction";
    if (which == stack::DrawUpLacks::under_nut_friction) return "under_nut_friction";
    return "cone_friction";
}

std::string found_in_words(seat::FindingId id, const std::string& of) {
    using Id = seat::FindingId;
    switch (id) {
        case Id::cone_torque:
            return "torque that the cone holds";
        case Id::preload:
            return "preload, nut on hub";
        case Id::thread_stress:
            return "thread, tension and torsion";
        case Id::bolt_strip:
            return "load on the external thread, of what strips it";
        case Id::nut_strip:
            return "load on the internal thread, of what strips it";
        case Id::nut_proof:
            return "load on the nut, of its proof load";
        case Id::hub_stress:
            return "hub at its bore, equivalent stress";
        case Id::hub_hoop:
            return "hub at its bore, hoop stress";
        case Id::cone_pressure:
            return "pressure on the cone";
        case Id::draw_up:
            return "draw-up along the axis";
        case Id::pull_off:
            return "force to pull the hub off, nut slack";
        case Id::contact:
            return words(seat::Quantity::contact_length);
        case Id::engaged:
            return "whole thread engaged";
        case Id::thread_left:
            return "thread left for the nut to advance by";
        case Id::key_room:
            return "room over the key (less than 0 holds the hub off)";
        case Id::key_entry:
            return "room over the key (less than 0: it does not go in)";
        case Id::spinning_hoop:
            break;
    }
    return fmt::format("'{}' spinning as a free ring, hoop stress", of);
}

struct SeatNotJudgedWords {
    std::string operator()(seat::NotStated what) const {
        switch (what) {
            case seat::NotStated::nut_torque:
                return "what the nut's torque does: 'seat' states no 'nut_torque'; take the engine "
                       "maker's";
            case seat::NotStated::needed_torque:
                return "whether the cone holds enough: 'seat' states neither 'engine_torque' nor "
                       "'crank_acceleration'";
            case seat::NotStated::draw_up_materials:
                return "how far the nut draws the hub home: the materials of hub and shaft are not "
                       "known";
            case seat::NotStated::spinning_material:
                break;
        }
        return "hoop stress at 'speed': no ring that turns with the hub has a material";
    }
    std::string operator()(const seat::FrictionNotStated& m) const {
        return fmt::format("whether it holds at the friction that there is: 'seat' states no '{}'",
                           friction_key(m.which));
    }
    std::string operator()(const seat::LandsFirst& m) const { return words(m); }
    std::string operator()(const seat::LengthsOpen& m) const {
        std::vector<std::string> figures;
        for (const seat::FindingId each : m.figures)
            figures.push_back(found_in_words(each, {}));
        return fmt::format("{}: {} on a length that is unmeasured, and that no reading gives",
                           joined(figures), figures.size() == 1 ? "it hangs" : "they hang");
    }
    std::string operator()(const seat::NeededInPart& m) const {
        return "what 'crank_acceleration' asks of the cone: " + words(m.for_want_of);
    }
    std::string operator()(const seat::HubNotJudged& m) const {
        using Why = seat::HubNotJudged::Why;
        switch (m.why) {
            case Why::no_ring_round_cone:
                return fmt::format("stress in '{}': no ring of it lies round the cone", m.hub);
            case Why::no_material:
                return fmt::format("stress in '{}': it has no material", m.hub);
            case Why::no_yield_point:
                return fmt::format(
                    "stress in '{}': {} has no yield point, and what breaks it is no limit to be "
                    "used up",
                    m.hub, m.material);
            case Why::yield_not_known:
                break;
        }
        return fmt::format(
            "stress in '{}': '{}' says nothing of its yield; name a grade, or state 'strength' "
            "under 'materials'",
            m.hub, m.material);
    }
    std::string operator()(const seat::BoltNotJudged& m) const {
        return fmt::format(
            "stress in the thread: nothing says how strong '{}' is; give it a 'class'", m.thread);
    }
    std::string operator()(const seat::StripNotJudged& m) const {
        return "stripping of the threads: " + words(stack::NotJudgedFor(m.why));
    }
    std::string operator()(const seat::NutNotJudged& m) const {
        return fmt::format("the nut's proof load: nothing is known of class {} on {}",
                           m.property_class, m.form);
    }
};

struct SeatNoteWords {
    std::string operator()(seat::Remark remark) const {
        switch (remark) {
            case seat::Remark::bears_at_one_end:
                return "The hub bears at one end only: pressure and hub stress are greater there "
                       "than reckoned, and what the cone holds is reckoned at the smaller end of "
                       "the contact.";
            case seat::Remark::lets_go_by_itself:
                return "At the least friction the cone lets go by itself once the nut slackens: "
                       "the nut alone keeps it.";
            case seat::Remark::both_torques_stated:
                return "Both engine_torque and crank_acceleration are stated; the one that asks "
                       "more of the cone is taken.";
            case seat::Remark::readings_bind:
                return "The file's readings bind the sizes; what a cut would cost is told of the "
                       "sizes as written.";
            case seat::Remark::readings_set_aside:
                return "The file's readings are set aside: these figures are from the sizes as "
                       "written.";
            case seat::Remark::tighten_repeatedly:
                break;
        }
        return "Tighten, slacken and tighten again; read the stand-off again, and once more after "
               "the first heat.";
    }
    std::string operator()(const seat::NotCounted& m) const {
        return "Not in the inertia: " + words(m) + ".";
    }
};

}  // namespace

std::string words(const seat::Warning& warning) {
    return std::visit(SeatWarningWords{}, warning);
}

std::string words(const seat::Note& note) {
    return std::visit(SeatNoteWords{}, note);
}

std::string words(const seat::NotJudged& message) {
    return std::visit(SeatNotJudgedWords{}, message);
}

std::string words(seat::NotAssessed message) {
    switch (message) {
        case seat::NotAssessed::burst_and_speed:
            return words(stack::NotAssessed(stack::LeftOut::burst_and_speed));
        case seat::NotAssessed::balance:
            return words(stack::NotAssessed(stack::LeftOut::balance));
        case seat::NotAssessed::heat:
            return "heat: fits and preload as they are cold";
        case seat::NotAssessed::fatigue:
            return "fatigue, fretting, and the notch of a keyway or a thread's end";
        case seat::NotAssessed::evenness:
            return "how even the contact is: the cone is taken to bear all along (blue it: look "
                   "for 70 % or more)";
        case seat::NotAssessed::stays_tight:
            break;
    }
    return "whether the nut stays tight: settling, washers, locking";
}

std::string words(const seat::LandsFirst& m) {
    if (!m.by)
        return fmt::format("whether {} lands on {} first: nobody has measured the way between them",
                           m.outboard, m.inboard);
    if (m.part.empty())
        return fmt::format("{} may land on {} first, by up to {:.2f} {}", m.outboard, m.inboard,
                           *m.by, quantity::name(m.units));
    return fmt::format("{} lands on {}, {:.2f} {} before {} seats", m.outboard, m.inboard, *m.by,
                       quantity::name(m.units), m.part);
}

std::string words(const seat::SeatFinding& finding) {
    return found_in_words(finding.id, finding.of);
}

std::string words(const seat::Changed& changed) {
    return found_in_words(changed.id, changed.of);
}

std::string words(seat::Quantity quantity) {
    using Of = seat::Quantity;
    switch (quantity) {
        case Of::nut_torque:
            return "nut torque";
        case Of::thread_friction:
            return "friction in the thread";
        case Of::under_nut_friction:
            return "friction under the nut";
        case Of::cone_friction:
            return "friction on the cone";
        case Of::needed_torque:
            return "torque to be held";
        case Of::inertia:
            return "inertia of what turns with the hub";
        case Of::contact_length:
            return "length of the cone in contact";
        case Of::contact_diameter:
            return "mean diameter of the cone in contact";
        case Of::face_diameter:
            return "mean diameter under the nut";
        case Of::bolt_yield:
            return "yield strength of the external thread";
        case Of::bolt_strength:
            return "strength that the external thread strips by";
        case Of::nut_strength:
            return "strength that the internal thread strips by";
        case Of::hub_outside:
            return "outside diameter of the hub";
        case Of::hub_yield:
            break;
    }
    return "yield strength of the hub";
}

std::string_view key(seat::FindingId id) {
    using Id = seat::FindingId;
    switch (id) {
        case Id::cone_torque:
            return "cone_torque";
        case Id::preload:
            return "preload";
        case Id::thread_stress:
            return "thread_stress";
        case Id::bolt_strip:
            return "bolt_strip";
        case Id::nut_strip:
            return "nut_strip";
        case Id::nut_proof:
            return "nut_proof";
        case Id::hub_stress:
            return "hub_stress";
        case Id::hub_hoop:
            return "hub_hoop";
        case Id::cone_pressure:
            return "cone_pressure";
        case Id::draw_up:
            return "draw_up";
        case Id::pull_off:
            return "pull_off";
        case Id::contact:
            return "contact";
        case Id::engaged:
            return "engaged";
        case Id::thread_left:
            return "thread_left";
        case Id::key_room:
        case Id::key_entry:
            return "key_room";
        case Id::spinning_hoop:
            break;
    }
    return "spinning_hoop";
}

}  // namespace trialfit::paper
