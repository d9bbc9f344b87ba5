// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <trialfit/job/part.hpp>
#include <vector>

// Work on the parts of a job, see carry_out.hpp.
namespace trialfit::stack {

/// A face turned back: it now lies `size` (signed, + outboard) from the face `measure` of its part;
/// `by_amount`: from where the face itself was.
struct CutTo {
    job::PartId part;
    job::FaceId face;
    job::FaceId measure;
    job::Given size;
    bool by_amount = false;
};

/// A cone lapped with its partner by `off_diameter` (> 0), both parts together.
struct LappedBy {
    job::ConeRef cone;
    double off_diameter = 0.0;
};

/// A ring's bore or outside turned to `size`, on diameter.
struct SkimmedTo {
    job::RingRef ring;
    bool bore = false;
    job::Given size;
};

/// A part centred by hand: what is left of its clearance, on diameter.
struct CentredTo {
    job::PartId part;
    job::Given clearance;
};

/// A shim in a seat after the work.
struct ShimLaid {
    job::Given shim;
    /// The shim that lay there before and stays (index into Shims::fitted); nothing for another.
    std::optional<std::size_t> fitted{};
};

/// What now lies in a part's seat: index into Part::seats, and all its shims.
struct Restacked {
    job::PartId part;
    job::SeatId seat;
    std::vector<ShimLaid> shims;
};

struct Changes {
    std::vector<CutTo> cuts;
    std::vector<LappedBy> laps;
    std::vector<Restacked> stacks;
    std::vector<SkimmedTo> skims;
    std::vector<CentredTo> centrings;
};

}  // namespace trialfit::stack
