// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/quantity/figures.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

// Whole from 10 up, else one decimal: for sentences of a size's order.
std::string to_a_tenth(double mm) {
    return mm >= 10.0 ? fmt::format("{}", std::llround(mm))
                      : fmt::format("{:g}", std::round(mm * 10.0) / 10.0);
}

std::string joined_by(job::TurnsAlone::Joined joined) {
    switch (joined) {
        case job::TurnsAlone::Joined::by_screw:
            return "are screwed together";
        case job::TurnsAlone::Joined::by_cone:
            return "share a cone";
        case job::TurnsAlone::Joined::by_same_thread:
            break;
    }
    return "have the same thread";
}

struct DoubtWords {
    std::string operator()(const job::FacesSwapped& m) const {
        return fmt::format(
            "WARNING: check '{}' names {} as the inboard face, yet the {} goes on after the {}. If "
            "they foul, this gap comes out as room. Swap the two faces, or list the parts in the "
            "order in which they go on.",
            m.check, m.inboard, m.later, m.earlier);
    }
    std::string operator()(const job::TurnsAlone& m) const {
        return fmt::format(
            "WARNING: the {} turns and the {} does not, though they {}. 'turns: true' is missing "
            "on one, or too much on the other; running clearances go by it.",
            m.turns, m.still, joined_by(m.joined));
    }
    std::string operator()(const job::AxisNotStated& m) const {
        return fmt::format(
            "WARNING: nothing says how true the axis of {} lies ('centred'), so check '{}' takes "
            "it as exactly true.",
            fmt::join(m.parts, " and "), m.check);
    }
    std::string operator()(const job::UnitDoubtful& m) const {
        return fmt::format(
            "WARNING: the greatest diameter of the job is {} mm{}. Is 'units: {}' right?",
            to_a_tenth(m.widest_mm),
            m.thread_mm ? fmt::format(", and its thread's {} mm", to_a_tenth(*m.thread_mm)) : "",
            quantity::name(m.units));
    }
};

std::string planned_in_words(const job::PlannedWork& work) {
    using Kind = job::PlannedWork::Kind;
    switch (work.kind) {
        case Kind::shims:
            return (work.to.empty() ? "no shims" : "shims " + work.to) + " under " + work.what;
        case Kind::lap:
            return work.what + " lapped by " + work.to;
        case Kind::taken_off:
            return work.to + " off " + work.what;
        case Kind::centring:
            return work.what + " centred to " + work.to;
        case Kind::cut:
        case Kind::skim:
            break;
    }
    return work.what + " to " + work.to;
}

struct WarningWords {
    std::string operator()(const job::Supposed& m) const {
        return fmt::format("SUPPOSED: {}.", fmt::join(m.what, ", "));
    }
    std::string operator()(const job::KeepNotJudged& m) const {
        return fmt::format(
            "NOT JUDGED: whether {} remains of {}, whose thickness nobody has measured.",
            quantity::told(m.keep, m.units), m.face);
    }
    std::string operator()(const job::PlannedInForce& m) const {
        std::string all;
        for (const job::PlannedWork& work : m.work)
            all += (all.empty() ? "PLANNED, NOT CUT YET: " : ", ") + planned_in_words(work);
        return all + (m.set_aside ? ". The parts as they are:" : ". If that is done:");
    }
    std::string operator()(const job::LimitPassed& m) const {
        using Kind = job::LimitPassed::Kind;
        const auto told = [&](double length) { return quantity::told(length, m.units); };
        const std::string limit = told(m.limit);
        const std::string is =
            m.surely ? "is " + told(m.is) : "may be as little as " + told(m.worst);
        switch (m.kind) {
            case Kind::keep:
                return fmt::format("LIMIT PASSED: {} {}, where {} must remain.", m.what, is, limit);
            case Kind::wall:
                return fmt::format("LIMIT PASSED: the wall of {} {}, where {} must remain.", m.what,
                                   is, limit);
            case Kind::until_outside:
                return fmt::format("LIMIT PASSED: {} {} on diameter, and was never to go under {}.",
                                   m.what, is, limit);
            case Kind::until_bore:
                return fmt::format("LIMIT PASSED: the bore of {} {}, and was never to go over {}.",
                                   m.what, m.surely ? is : "may be as much as " + told(m.worst),
                                   limit);
            case Kind::lap:
                break;
        }
        return fmt::format("LIMIT PASSED: {} was lapped {} more, on diameter, than the job allows.",
                           m.what, told(m.is));
    }
    std::string operator()(const job::Doubt& m) const { return std::visit(DoubtWords{}, m); }
};

}  // namespace

std::string words(const job::Warning& warning) {
    return std::visit(WarningWords{}, warning);
}

std::string mend_of(const job::Complaint& complaint) {
    switch (complaint.remedy) {
        case job::Remedy::weigh_sizes:
            return "measure these again and correct the one that is wrong; 'trialfit survey' "
                   "weighs them";
        case job::Remedy::weigh_readings:
            return "'trialfit survey' lists every figure that could be wrong, and what to measure "
                   "to tell them apart; '--as-written' sets the readings aside";
        case job::Remedy::see_position:
            return "mend their diameters, lengths or tapers; 'trialfit why' shows where the hub "
                   "lies";
        case job::Remedy::see_engagement:
            return "'trialfit check' shows the engagement; mend the faces that the threads run "
                   "between";
        case job::Remedy::see_plan:
            return "`trialfit plan` says what stands in the way";
        case job::Remedy::none:
            break;
    }
    return complaint.mend;
}

}  // namespace trialfit::paper
