// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/numerics/probability.hpp>
#include <trialfit/odds/messages.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What `odds` answers: plain data. Lengths in the file's unit.
namespace trialfit::odds {

/// What one size has to do with the risk of a check.
struct RiskDriver {
    std::string size;  ///< empty for the sizes that the readings tie, all together
    double share_of_variance = 0.0;
    /// The chance to fail if this size alone had half its spread.
    double fails_if_halved = 0.0;
};

/// The chance that one check, or one automatic clearance, holds.
struct CheckOdds {
    stack::JudgedId id;
    std::string name;
    stack::CheckKind kind = stack::CheckKind::gap;
    /// An automatic clearance, and its two faces; or a check of the job and its two features.
    bool automatic = false;
    std::string first;
    std::string second;
    std::optional<double> at_least;
    std::optional<double> at_most;
    bool more_than = false;
    /// The chance that it holds; its interval is one point where it is exact.
    numerics::Probability holds;
    bool exact = true;
    /// The chance that it fails, with its own digits where it is tiny.
    double fails = 0.0;
    /// The distribution of a gap, or of the difference that decides an engagement or an overlap.
    double mean = 0.0;
    double sd = 0.0;
    double skewness = 0.0;
    struct Quantile {
        double p = 0.0;
        double value = 0.0;
    };
    std::vector<Quantile> quantiles;
    /// Probability per unit length at evenly spaced values, for plotting.
    struct Curve {
        double from = 0.0;
        double step = 0.0;
        std::vector<double> density;
    } curve;
    std::vector<RiskDriver> drivers;  ///< biggest share first
    /// What it stands on and the job does not give: then it has no odds.
    std::optional<stack::NotJudgedFor> not_judged_for{};
    /// Nothing measured fixes it: it has no distribution either.
    bool open = false;
    /// Of a job with states: the one that decides, in which this is the chance.
    std::string state{};
};

/// The chance that a pair of faces is the one that a part rests on instead of its seat.
struct TouchesFirst {
    std::string inboard;
    std::string outboard;
    std::string part;
    numerics::Probability chance;
};

struct OddsAnswer {
    std::string file;
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    /// What changes the answer and so stands before it, see job::warnings.
    std::vector<job::Warning> warnings{};
    std::vector<CheckOdds> checks;      ///< the job's own
    std::vector<CheckOdds> clearances;  ///< the automatic ones that are listed
    std::vector<CheckOdds> radial;      ///< the radial gaps that are listed
    /// The chance that every check and every clearance holds, in every state.
    numerics::Probability all;
    /// The chance that not all do, with its own digits where it is tiny.
    double all_fails = 0.0;
    bool all_exact = false;
    std::vector<TouchesFirst> touches_first;  ///< likeliest first; empty where nothing can touch
    double nothing_touches = 1.0;
    std::uint64_t samples = 0;
    std::uint64_t seed = 0;
    bool adjusted = false;  ///< the readings bind the sizes
    /// What was asked and has no odds, and why; `all` is of the rest.
    std::vector<stack::NotJudged> not_judged;
    /// Neither a check nor two rings that can meet: nothing has odds.
    bool nothing_asked = false;
    std::size_t judged = 0;  ///< findings that have odds
    std::vector<Note> notes;
};

}  // namespace trialfit::odds
