// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>
#include <variant>
#include <vector>

// The joint that a nut draws home: hub, cone, shaft and threads, for `seat` and for the state
// "tightened".
namespace trialfit::stack {

/// Which parts of the job make the joint.
struct Members {
    job::PartId hub;
    job::PartId shaft;
    const job::Seat* seat = nullptr;  ///< the hub's seat on the cone
    ThreadPair threads;
    job::PartId nut;     ///< the part that is turned: a nut, or a bolt in the shaft
    job::ThreadRef own;  ///< its thread
    job::ThreadRef shafts;
};

/// The members of a job that has a seat section, by what the seat section names or else the one
/// part on a cone and the one later part whose thread meets the shaft's. Complaints where that is
/// none or more than one.
[[nodiscard]] std::variant<Members, job::Complaints> members_of(const job::Job& job);

/// Where hub and shaft bear on each other; mm.
struct Contact {
    double length = 0.0;
    double mean_dia = 0.0;
};

/// The joint in mm, N and MPa, with its own spreads.
struct Joint {
    Members who;
    double taper = 0.0;
    bool even = true;           ///< equal tapers: bears all along
    bool at_small_end = false;  ///< unequal ones: bears at the small end only, else at the large
    /// At the middles of all sizes, and at every combination of their limits.
    Contact contact;
    std::vector<Contact> contacts;
    double hub_od = 0.0;      ///< the least along the contact; 0 where no ring is round it
    std::string hub_od_ring;  ///< whose
    double shaft_bore = 0.0;
    std::optional<trade::Elastic> shaft_elastic;
    std::optional<trade::Elastic> hub_elastic;
    std::optional<Figure> hub_yield;
    trade::ThreadForm form;
    trade::StripAreas strip_areas;
    std::optional<PairStrength> strength;
    std::optional<ThreadStrengthNotKnown> strength_unknown;
    std::optional<Figure> bolt_yield;
    std::optional<Figure> nut_proof_load;
    Estimate engaged;      ///< whole thread in engagement
    Estimate thread_left;  ///< thread left for the nut to advance by
    Estimate face_mean;    ///< mean diameter that the nut turns on
    std::string face_source;
};

/// The joint of a job that has a seat section. Complaints as members_of(), and where the cones do
/// not reach each other, narrow the wrong way, or the threads do not meet.
[[nodiscard]] std::variant<Joint, job::Complaints> joint_of(const Model& model);

}  // namespace trialfit::stack
