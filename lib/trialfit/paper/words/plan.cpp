// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/words/words.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct PlanNoteWords {
    std::string operator()(const plan::NoRoomToCut& m) const {
        return fmt::format(
            "{} is not considered for a cut: it is {:.6g} now, and must keep {:.6g} where the "
            "lathe holds ±{:.6g}.",
            m.face, m.now, m.keep, m.holds);
    }
    std::string operator()(const plan::NoRadialGapAsked& m) const {
        return fmt::format("{} is not considered for a skim: the job asks for no radial gap.",
                           m.ring);
    }
    std::string operator()(const plan::NoRoomToSkim& m) const {
        return fmt::format(
            "{} is not considered for a skim: 'keep' or 'until' leaves nothing to take off where "
            "the lathe holds ±{:.6g}.",
            m.ring, m.holds);
    }
    std::string operator()(const plan::OffsetStays& m) const {
        return fmt::format("{} sits at a stated offset from {}: cutting {} does not move it.",
                           m.part, m.from, m.cut);
    }
    std::string operator()(const plan::ShimCountTaken& m) const {
        return fmt::format("No more than {} shims are fitted under {}: its shims say no 'at_most'.",
                           m.most, m.part);
    }
    std::string operator()(const plan::AimWithoutLeast& m) const {
        return fmt::format(
            "the aim of '{}' is not taken into account: only an at_least gives it something to be "
            "measured by.",
            m.check);
    }
    std::string operator()(const plan::StrengthNotGiven& m) const {
        return fmt::format(
            "'{}' is not planned for: the job does not say how strong its threads are.", m.check);
    }
    std::string operator()(const plan::NotRounded& m) const {
        return fmt::format(
            "the shims under {} are not rounded: they move no check with an 'aim', which would say "
            "how thick they ought to be.",
            m.part);
    }
    std::string operator()(const plan::SeveralAims& m) const {
        return fmt::format(
            "the shims under {} move more than one check with an 'aim': '{}'. They are set so that "
            "the distances to the aims are least in sum; keep one aim where only one matters.",
            m.part, fmt::join(m.checks, "', '"));
    }
    std::string operator()(const plan::LiesLoose& m) const {
        return fmt::format(
            "{} lies anywhere within {:.4g} of {}, which takes up to {:.4g} of a radial gap: see "
            "first whether it can be centred by hand, and write how near with 'centre_to'.",
            m.part, m.play, m.on, 0.5 * m.play);
    }
    std::string operator()(plan::LeansAsItStands /*m*/) const {
        return "How far a tilted part leans over at a gap was reckoned as things stand, and every "
               "plan was then checked as it will stand: a slightly cheaper one may have been "
               "passed over.";
    }
    std::string operator()(const plan::PlanRefused& m) const {
        return fmt::format(
            "a plan of cost {:.4g} is not shown: with its work done, not every check holds.",
            m.cost);
    }
};

}  // namespace

std::string words(const plan::Note& note) {
    return std::visit(PlanNoteWords{}, note);
}

}  // namespace trialfit::paper
