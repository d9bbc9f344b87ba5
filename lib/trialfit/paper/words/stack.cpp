// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/model/listing.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

using stack::some_of;

std::string end_in_words(const stack::TapersDiffer& m) {
    switch (m.bearing) {
        case stack::Bearing::hub_large_end:
            return "the large end of " + m.hub.name;
        case stack::Bearing::shaft_large_end:
            return "the large end of " + m.shaft.name;
        case stack::Bearing::hub_small_end:
            return "the small end of " + m.hub.name;
        case stack::Bearing::shaft_small_end:
            return "the small end of " + m.shaft.name;
        case stack::Bearing::whole:
            break;
    }
    return "their whole length";
}

std::string key_words(const stack::KeyMayNotEnter& m) {
    constexpr double kNothing = 1e-9;
    if (m.excess > kNothing)
        return fmt::format(
            "the key of {} is {:.3g} higher than its room; its slots are parallel to the axis, so "
            "it does not enter.",
            m.part, m.excess);
    return fmt::format(
        "the key of {} may be {:.3g} higher than its room; its slots are parallel to the axis, so "
        "it either enters or it does not: try it by hand.",
        m.part, m.most);
}

std::string key_words(const stack::KeyHoldsOff& m) {
    return fmt::format(
        "the key of {} is {:.3g} higher than its room and holds the hub off its cone by {:.3g}.",
        m.part, m.excess, m.stand_off);
}

std::string key_words(const stack::KeyMayHoldOff& m) {
    return fmt::format(
        "the key of {} may be as much as {:.3g} higher than its room; that would hold the hub off "
        "its cone by {:.3g}, which the worst case takes in. Fit the hub with and without the key: "
        "it must reach the same place.",
        m.part, m.excess, m.stand_off);
}

struct StackWarningWords {
    std::string operator()(const job::Warning& m) const { return words(m); }
    std::string operator()(const stack::TapersDiffer& m) const {
        return fmt::format(
            "WARNING: the tapers of {} ({}) and {} ({}) differ. The hub touches at {} only and can "
            "rock. Do not run it.",
            m.hub.name, m.hub.taper, m.shaft.name, m.shaft.taper, end_in_words(m));
    }
    std::string operator()(const stack::StoodOff& m) const {
        std::string text = fmt::format(
            "The {} stands {:.2f} {} off its seat at the last trial fit "
            "('{}')",
            m.part, m.by, quantity::name(m.units), m.reading);
        if (m.held)
            text +=
                fmt::format("{} {} on {}", m.held->stated ? ", held by" : "; the tightest pair is",
                            m.held->own, m.held->against);
        return text + ".";
    }
    std::string operator()(const stack::ConesMiss& m) const {
        return fmt::format(
            "WARNING: {} and {} do not meet{}: by their diameters the hub {}.", m.hub, m.shaft,
            m.surely ? "" : " in the worst case",
            m.too_narrow ? "does not go onto the cone" : "slides over the whole cone");
    }
    std::string operator()(const stack::KeyMayNotEnter& m) const {
        return "WARNING: " + key_words(m);
    }
    std::string operator()(const stack::KeyHoldsOff& m) const { return "WARNING: " + key_words(m); }
    std::string operator()(const stack::KeyMayHoldOff& m) const {
        return "WARNING: " + key_words(m);
    }
    std::string operator()(const stack::OftenFails& m) const {
        return fmt::format(
            "WARNING: by RSS '{}' holds, but by the odds it fails about 1 in {:.0f}{}. Trust the "
            "odds.",
            m.name, m.one_in, m.more > 0 ? fmt::format(", and {} more", m.more) : "");
    }
};

std::string number_of(std::size_t n, std::string_view one, std::string_view many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

struct StackNoteWords {
    std::string operator()(const stack::KeyMayNotEnter& m) const { return key_words(m); }
    std::string operator()(const stack::KeyHoldsOff& m) const { return key_words(m); }
    std::string operator()(const stack::KeyMayHoldOff& m) const { return key_words(m); }
    std::string operator()(const stack::GivenMoreThanOnce& m) const {
        return fmt::format(
            "{} given more than once: they agree within their limits, and were adjusted by least "
            "squares.",
            number_of(m.positions, "position is", "positions are"));
    }
    std::string operator()(const stack::AdjustedByReadings& m) const {
        return fmt::format("Every figure here is from the sizes as adjusted by the file's {}.",
                           number_of(m.readings, "trial-fit reading", "trial-fit readings"));
    }
    std::string operator()(const stack::ReadingsSetAside& m) const {
        return fmt::format(
            "The file's {} set aside: every figure here is from the sizes as written.",
            number_of(m.readings, "trial-fit reading was", "trial-fit readings were"));
    }
    std::string operator()(const stack::RecordInForce& m) const {
        if (m.entries == m.of)
            return fmt::format("The parts are taken as the record leaves them: {}, the last of {}.",
                               number_of(m.entries, "entry", "entries"), m.date);
        return fmt::format("The parts are taken as of {}: {} of the record's {} entries in force.",
                           m.date, m.entries, m.of);
    }
    std::string operator()(stack::NoRunningClearance /*m*/) const {
        return "The file gives no running_clearance: turning and still parts are only asked not to "
               "touch.";
    }
    std::string operator()(const stack::OffsetGrowsWithSeat& m) const {
        return fmt::format(
            "Warm, the offset of {} is taken to grow as the part that it sits against does.",
            some_of(m.parts, 6));
    }
    std::string operator()(const stack::FollowsNut& m) const {
        return fmt::format("Warm, {} is taken to follow its nut on the cone.", some_of(m.parts, 6));
    }
    std::string operator()(const stack::FollowsFirstSeat& m) const {
        return fmt::format("Warm, {} is taken to follow the first of its seats.",
                           some_of(m.parts, 6));
    }
    std::string operator()(stack::WorstDirections /*m*/) const {
        return "Where several eccentricities or tilts lie on one side, worst case and RSS take "
               "their directions at the worst; 'trialfit odds' draws them.";
    }
};

struct NotJudgedForWords {
    std::string operator()(const stack::GrowthNotKnown& m) const {
        const std::string none = "no material of " + some_of(m.no_material, 6) + " is given";
        const std::string state = fmt::format("in state '{}' ", m.state);
        if (m.unknown.empty()) return state + none;
        std::vector<std::string> unknown;
        for (const stack::GrowthNotKnown::Of& each : m.unknown)
            unknown.push_back(fmt::format("{} ({})", each.part, each.material));
        const std::string out = state + "how far " + some_of(unknown, 6) + " grows is not known";
        return m.no_material.empty() ? out : out + ", and " + none;
    }
    std::string operator()(const stack::ThreadStrengthNotKnown& m) const {
        return fmt::format(
            "nothing says how strong {} is; give the thread a 'class', or its part a 'material' "
            "whose tensile strength is known",
            m.thread);
    }
    std::string operator()(const stack::LeftOpen& m) const {
        constexpr std::size_t kMostNamed = 3;
        if (!m.alone.empty())
            return fmt::format("nobody has measured {}: that would fix it",
                               fmt::join(m.alone.begin(),
                                         m.alone.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                               m.alone.size(), kMostNamed)),
                                         ", or "));
        if (m.all.empty()) return "it hangs on a height that nobody has measured";
        return fmt::format("it stands on {}, and nobody has measured them",
                           fmt::join(m.all, " and "));
    }
    std::string operator()(const trade::Reason& m) const { return m.text; }
};

struct DrawUpWords {
    std::string operator()(stack::DrawUpLacks lacks) const {
        using Lacks = stack::DrawUpLacks;
        switch (lacks) {
            case Lacks::seat_section:
                return "the file has no 'seat' section";
            case Lacks::nut_torque:
                return "'seat' states no nut_torque";
            case Lacks::thread_friction:
                return "'seat' states no thread_friction";
            case Lacks::under_nut_friction:
                return "'seat' states no under_nut_friction";
            case Lacks::cone_friction:
                return "'seat' states no cone_friction";
            case Lacks::contact:
                return "nobody has measured how far hub and shaft bear on each other";
            case Lacks::nut_face:
                return "nobody has measured the rings that the nut bears on";
            case Lacks::ring_round_cone:
                return "no ring of the hub lies round the cone";
            case Lacks::materials:
                break;
        }
        return "the draw-up needs the materials of hub and shaft";
    }
    std::string operator()(const job::Complaint& m) const { return m.fault; }
};

struct NotAssessedWords {
    std::string operator()(stack::LeftOut left_out) const {
        using stack::LeftOut;
        switch (left_out) {
            case LeftOut::burst_and_speed:
                return "burst strength and safe speed of the rotor";
            case LeftOut::balance:
                return "balance";
            case LeftOut::reading_agreement:
                return "whether the trial-fit readings agree with the sizes";
            case LeftOut::radial:
                return "radial gaps, runout, centring and tilt";
            case LeftOut::tilt_off_face_gaps:
                return "what tilt takes off a check's gap between two faces, which have no "
                       "diameter";
            case LeftOut::heat:
                return "heat: every size is taken as it was measured, cold";
            case LeftOut::heat_along_parts:
                return "heat along a part (each part has one temperature in each state), and plays "
                       "when warm";
            case LeftOut::draw_up_with_heat:
                break;
        }
        return "the draw-up and the heat at once: 'tightened' is judged at 20 C";
    }
    std::string operator()(stack::ElsewhereJudged m) const {
        using By = stack::ElsewhereJudged::By;
        switch (m.by) {
            case By::seat:
                return std::string(
                           "whether the cone holds and the thread stands the nut's "
                           "torque") +
                       (m.asked ? ": `trialfit seat` does" : "");
            case By::timing:
                return std::string("ignition timing") + (m.asked ? ": `trialfit timing` does" : "");
            case By::spin:
                return "whether it starts: `trialfit spin` does";
            case By::survey:
                break;
        }
        return "what the gaps read by feeler say of the axes: `trialfit survey` does";
    }
    std::string operator()(const stack::RadialNotGiven& m) const {
        return "radial gaps for what is not given and taken as none: " +
               some_of(words(m.missing), 8);
    }
    std::string operator()(const stack::TakenSquare& m) const {
        return "what tilt takes off the gaps along the axis where no face runout is given: " +
               some_of(m.parts, 8);
    }
    std::string operator()(const stack::TakenCold& m) const {
        std::vector<std::string> fits;
        for (const stack::TakenCold::Fit& fit : m.fits)
            fits.push_back(fit.part + " on " + fit.on);
        return fmt::format(
            "the clearance of {} when warm: no diameter of its fit is given, so it is taken cold",
            some_of(fits, 6));
    }
    std::string operator()(const stack::DrawUpNotKnown& m) const {
        return fmt::format("how far the nut draws {} up its cone when it is tightened: {}", m.hub,
                           std::visit(DrawUpWords{}, m.why));
    }
    std::string operator()(const stack::PartnerNotKnown& m) const {
        return fmt::format(
            "whether {} has thread left when it is home: what it screws onto is not known",
            m.thread);
    }
};

}  // namespace

std::string words(const stack::Warning& warning) {
    return std::visit(StackWarningWords{}, warning);
}

std::string words(const stack::Note& note) {
    return std::visit(StackNoteWords{}, note);
}

std::string words(const stack::NotJudgedFor& reason) {
    return std::visit(NotJudgedForWords{}, reason);
}

std::string words(const stack::NotJudged& message) {
    using Of = stack::NotJudged::Of;
    const std::string what = message.of == Of::clearances    ? "clearances"
                             : message.of == Of::radial_gaps ? "radial gaps"
                                                             : "'" + message.check + "'";
    return what + ": " + words(message.why);
}

std::string words(const stack::NotAssessed& message) {
    return std::visit(NotAssessedWords{}, message);
}

std::string words(const stack::NotGiven& missing) {
    switch (missing.what) {
        case stack::NotGiven::What::centring:
            return "what centres " + missing.of;
        case stack::NotGiven::What::runout:
            return "runout of " + missing.of;
        case stack::NotGiven::What::bore_limits:
            return "limits of the bore of " + missing.of;
        case stack::NotGiven::What::outside_limits:
            break;
    }
    return "limits of the od of " + missing.of;
}

std::string name_of(const stack::WhyAnswer& answer) {
    if (!answer.name.empty()) return answer.name;
    return answer.kind == stack::CheckKind::air_gap
               ? fmt::format("radial gap of {} in {}", answer.first, answer.second)
               : fmt::format("gap from {} to {}", answer.first, answer.second);
}

}  // namespace trialfit::paper
