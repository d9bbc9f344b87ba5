// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/draw/section/shapes.hpp>
#include <trialfit/job/job.hpp>
#include <utility>
#include <vector>

namespace trialfit::draw {

/// One part's metal in section. Lengths in the file's unit, at the positions of its faces.
struct Profile {
    std::vector<Solid> solids;
    /// Roots of external, crests of internal threads: drawn as thin lines.
    std::vector<Line> threads;
    /// Flanks of cones that no ring gives metal to.
    std::vector<Line> bare_cones;
    /// It carries an external thread, which is drawn over the nut on it.
    bool over_others = false;
};

/// The part's rings, with its cones tapered and its threads bored or filled to their profile (ISO
/// 68-1 by trade::basic_profile). `faces`: axial position of each of its faces, `known` whether
/// what is measured says so, `part` an index into Job::parts. Diameters are nominal.
[[nodiscard]] Profile profile(const job::Job& job, job::PartId part,
                              const std::vector<double>& faces, const std::vector<bool>& known);

/// Where a thread's whole turns begin and end along the axis, rising: without its lead-in and its
/// run-out, unless nothing were left. `faces` as for profile().
[[nodiscard]] std::pair<double, double> whole_turns(const job::Thread& thread,
                                                    const std::vector<double>& faces);

/// Whether the cone is a bore: it is seated on another, or its ring has a bore. A cone that
/// something sits on is a shaft.
[[nodiscard]] bool is_bore(const job::Job& job, job::ConeRef cone);
/// Whether the thread is a nut's: by its class, else by the bore of a ring that spans it.
[[nodiscard]] bool is_internal(const job::Job& job, job::ThreadRef which);

}  // namespace trialfit::draw
