// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <map>
#include <optional>
#include <set>
#include <trialfit/job/index.hpp>

namespace trialfit::job {

/// What a size of a job is a size of.
enum class SizeRole {
    dimension,            ///< part, face, nth of its dimensions
    seat_offset,          ///< part, seat
    shim,                 ///< part, seat, nth of the shims fitted
    play,                 ///< part, seat: how far the part moves
    place_in_play,        ///< part, seat: where it lies in its play
    place_when_measured,  ///< part, seat: where it lay when its sizes were measured
    place_at_reading,     ///< part, reading: where it lay for that reading
    cone_diameter,        ///< part, cone
    cone_length,          ///< part, cone
    key_height,           ///< part, seat
    key_room,             ///< part, seat
    key_stand_off,        ///< part, seat
    thread_lead_in,       ///< part, thread
    thread_run_out,       ///< part, thread
    ring_bore,            ///< part, ring
    ring_outside,         ///< part, ring
    centring_clearance,   ///< part
    runout,               ///< part, nth of its runouts
    face_runout,          ///< part
    draw_up,              ///< part: how far the nut draws it home
    reading,              ///< reading
};

/// Which size of a job: where it stands in the job, whatever it is called and was written as.
/// Indices are those of Job::parts and so on; those that its role does not name are 0.
struct SizeId {
    SizeRole role = SizeRole::dimension;
    PartId part = 0;
    int index = 0;  ///< face, seat, cone, thread, ring or reading
    int nth = 0;

    [[nodiscard]] auto operator<=>(const SizeId&) const = default;
};

/// What work on a job's parts does to its sizes. Those of which nothing is said are kept under the
/// same identity.
struct SizesCarried {
    std::map<SizeId, SizeId> kept;  ///< identity before, and after
    std::set<SizeId> dropped;       ///< about metal, shims or seats that are not there any more
    std::set<SizeId> made;          ///< identities after of what was measured or planned anew

    /// Where a size stands after the work; nothing where it is dropped.
    [[nodiscard]] std::optional<SizeId> after(SizeId before) const;
};

}  // namespace trialfit::job
