// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/change/changes.hpp>
#include <variant>

namespace trialfit::stack {

/// The job after the first `entries` of its record (all of them where there are fewer): the present
/// state for every command. Each entry is work done on the parts as they were before it, see
/// carry_out.hpp and job/former.hpp: a face cut lies at its size as cut from the face that its cut
/// is measured from, and all other metal stays where it was, with the sizes that it had; a seat has
/// the shims that were fitted; readings measured after the work join the job's readings. A cut's
/// `keep` and the face that it is measured from stay, so the face may be cut again, down to that.
/// Readings taken before the work go on binding the sizes that were there (Job::before).
/// A planned entry (RecordEntry::planned) is work that nobody has done: of the last one, whatever
/// no later entry says anything of is carried out after all else, and Job::planned names it;
/// Job::before is then the job as the parts are. A lap takes what came off from its `at_most`.
/// Complaints where an entry cannot be carried out.
[[nodiscard]] std::variant<job::Job, job::Complaints> as_built(const job::Job& job,
                                                               std::size_t entries);

/// The work of Job::planned as it is carried out on Job::before; none where nothing is planned.
[[nodiscard]] Changes planned_changes(const job::Job& job);

}  // namespace trialfit::stack
