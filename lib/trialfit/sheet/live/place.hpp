// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/stack/change/changes.hpp>
#include <vector>

// The fields of a sheet, and the work that each stands for.
namespace trialfit::sheet {

/// A field and what it stands for in the job.
struct LivePlace {
    LiveField field;
    job::PartId part;
    const job::Cut* cut = nullptr;
    job::SeatId seat;   ///< of shims
    job::ConeRef cone;  ///< of a lap
    job::RingRef ring;  ///< of a skim
    job::SizeId size;   ///< the size that the work makes
    double sign = 1.0;  ///< what that size gains by a unit more in the field
};

struct LivePlaces {
    std::vector<LivePlace> all;
    std::vector<std::string> open_work;  ///< skims and centring of what nobody has measured
};

/// Every cut, stack of shims, skim, lap and centring that the job allows. `plan` is the cheapest,
/// if any.
[[nodiscard]] LivePlaces live_places(const job::Job& job, const plan::PlanMade* plan);

/// What the field holds with that typed into it; of shims, that many at the thickness typed.
[[nodiscard]] LiveSize typed(const LiveField& field, double value, int pieces = 1);

/// Does the work of a field with that typed into it.
void add_work(const LivePlace& place, double value, int pieces, stack::Changes& changes);

}  // namespace trialfit::sheet
