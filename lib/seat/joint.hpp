// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/model.hpp>
#include <trialfit/trade/thick_cylinder.hpp>
#include <trialfit/trade/thread_strength.hpp>
#include <variant>
#include <vector>

namespace trialfit::seat {

/// Which parts of the job make the joint.
struct Members {
    int hub = -1;
    int shaft = -1;
    const job::Seat* seat = nullptr;  ///< the hub's seat on the cone
    stack::ThreadPair threads;
    int nut = -1;         ///< the part that is turned: a nut, or a bolt in the shaft
    job::FeatureRef own;  ///< its thread
    job::FeatureRef shafts;
};

/// The members, by what the seat section names or else the one part on a cone and the one later
/// part whose thread meets the shaft's. Complaints where that is none or more than one.
[[nodiscard]] std::variant<Members, job::Complaints> members(const job::Job& job);

/// Where hub and shaft bear on each other; mm.
struct Contact {
    double length = 0.0;
    double mean_dia = 0.0;
};

/// The joint in mm, N and MPa, with its own spreads.
struct Joint {
    Members who;
    double taper = 0.0;
    bool even = true;  ///< equal tapers: bears all along
    /// At the middles of all sizes, and at every combination of their limits.
    Contact contact;
    std::vector<Contact> contacts;
    double hub_od = 0.0;      ///< the least along the contact; 0 where no ring is round it
    std::string hub_od_ring;  ///< whose
    double shaft_bore = 0.0;
    std::optional<trade::Elastic> shaft_elastic;
    std::optional<trade::Elastic> hub_elastic;
    std::optional<stack::Figure> hub_yield;
    trade::ThreadForm form;
    trade::StripAreas strip_areas;
    std::optional<stack::PairStrength> strength;
    std::string strength_unknown;  ///< why, where it is
    std::optional<stack::Figure> bolt_yield;
    std::optional<stack::Figure> nut_proof_load;
    Estimate engaged;      ///< whole thread in engagement
    Estimate thread_left;  ///< thread left for the nut to advance by
    Estimate face_mean;    ///< mean diameter that the nut turns on
    std::string face_source;
};

/// The joint of a job. Complaints as of `seat`.
[[nodiscard]] std::variant<Joint, job::Complaints> joint(const stack::Model& model);

}  // namespace trialfit::seat
