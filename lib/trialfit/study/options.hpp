// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <trialfit/stack/answers.hpp>

namespace trialfit {

/// How a job is judged. The defaults are the program's.
struct StudyOptions {
    stack::Judge judge = stack::Judge::worst;
    /// Judges by the odds instead: the least chance that counts as holding, over 0 and under 1.
    std::optional<double> odds_level{};
    /// Factor on every RSS half-width, > 0; 1.5 is a usual one where spreads are not trusted.
    double inflate = 1.0;
    /// Sets the trial-fit readings aside: the sizes as written.
    bool as_written = false;
    /// How many entries of the record are in force; all of them unless said.
    std::optional<std::size_t> entries{};
    /// Every pair of faces that could meet, not only the tightest of each two parts.
    bool all_pairs = false;
};

/// How much is drawn where odds are not exact.
struct OddsOptions : StudyOptions {
    /// Draws at most, >= 1000.
    std::uint64_t samples = 1'000'000;
    /// The same seed gives the same answer, whatever the threads.
    std::uint64_t seed = 1;
    /// 0: as many as the machine has.
    unsigned threads = 0;
    /// > 0: stops once the 95 % interval of the odds is no wider than twice this.
    double precision = 0.0;
};

/// How far a plan is searched for.
struct PlanOptions : StudyOptions {
    /// How many plans at most, >= 1, the cheapest first.
    std::size_t top = 3;
    /// The search ends after about so many seconds with the best plan so far, not called proven.
    double seconds = 7.0;
};

}  // namespace trialfit
