// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <vector>

namespace trialfit::stack {

/// What can hurt someone in the work that a job is about. Their words stand in
/// paper/check/cautions.hpp.
enum class Caution {
    may_burst,        ///< something that turns was cut, may be cut, or is thrown on a shaft end
    nut_works_loose,  ///< a nut draws the hub home
    magnets,          ///< a rotor that may carry magnets goes on
    lathe,            ///< metal comes off
    puller,           ///< a hub has to come off its cone again
    spark_plug,       ///< an engine with an ignition is turned by hand
    running_engine,   ///< it is looked at as it runs
    advance,          ///< a firing point is set
    weight,           ///< a rotor is made heavier, or lighter, for the sake of starting
    maker,            ///< whose figures come first; for every job
};

/// The cautions that this job calls for and no others, in the order of Caution, each once. They
/// follow from what the job holds (seats, cuts, record, sections), never from a name. Where a job
/// leaves open whether a thing is there, its caution is given.
[[nodiscard]] std::vector<Caution> cautions(const job::Job& job);

}  // namespace trialfit::stack
