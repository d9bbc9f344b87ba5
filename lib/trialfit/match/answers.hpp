// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/plan/answers.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What `match` answers: plain data, ready for any printer. Lengths in the engine file's unit.
namespace trialfit::match {

/// How a kit stands to the engine, best first.
enum class Standing {
    holds,       ///< everything holds as it comes, even in the worst case
    after_plan,  ///< every check holds once its cheapest plan is carried out, seat and spin as it
                 ///< is
    doubtful,    ///< at nominal, yes; in the worst case, no, and no plan mends it
    no_plan,     ///< something fails, and no plan mends it
    not_judged,  ///< something that it stands on is not given, or the files make no job together
};

/// One kit, or one file of each group, joined to the engine.
struct Candidate {
    std::vector<std::size_t> files;  ///< of the joiner, in the order in which they were named
    std::vector<std::string> titles;
    Standing standing = Standing::not_judged;
    /// Of all its files together; nothing where one of them gives none.
    std::optional<double> price;
    /// As it comes; nothing where it could not be judged at all.
    std::optional<stack::CheckAnswer> check;
    /// Where the engine's file asks for them, of the parts as they come.
    std::optional<seat::SeatAnswer> seat;
    std::optional<spin::SpinAnswer> spin;
    /// The search for its cheapest plan, where it does not hold as it comes and may be changed.
    std::optional<plan::PlanAnswer> plan;
    /// As it comes, the chance of the check that is least likely to hold: 1 where all hold in the
    /// worst case; nothing where it is not judged.
    std::optional<double> odds;
    /// Why it cannot be judged, each about one of the files.
    std::vector<reading::FileComplaint> complaints;
};

struct MatchAnswer {
    std::string engine;  ///< the engine's file
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    std::vector<std::string> files;     ///< names of the joiner's files, the engine first
    std::vector<Candidate> candidates;  ///< best first
    std::size_t asked = 0;              ///< how many there are
    bool stopped = false;               ///< not all of them were judged
};

}  // namespace trialfit::match
