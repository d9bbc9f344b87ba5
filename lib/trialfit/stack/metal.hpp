// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/messages.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/result.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>
#include <trialfit/trade/thread/limits.hpp>
#include <variant>

// What a job's parts and threads are made of: the job's own figures first, else the table of
// materials. Stresses in MPa.
namespace trialfit::stack {

/// A figure and where it comes from: "line 14", or the table's citation.
struct Figure {
    double value = 0.0;
    std::string source;
};

/// A part's metal; what is not known is absent.
struct Metal {
    std::string name;  ///< as the job writes it; empty where it names none
    std::optional<Figure> density_kg_m3;
    std::optional<Figure> modulus_mpa;
    std::optional<Figure> poisson;
    std::optional<Figure> expansion_per_k;
    std::optional<Figure> yield_mpa;
    std::optional<Figure> tensile_mpa;

    [[nodiscard]] std::optional<trade::Elastic> elastic() const;
};
/// The metal of a part, by its index in Job::parts.
[[nodiscard]] Metal metal(const job::Job& job, job::PartId part);

/// The two threads of a joint: `bolt` is the external one. Their classes say which is which; where
/// neither has one, the part that goes on later is the nut.
struct ThreadPair {
    job::ThreadRef bolt;
    job::ThreadRef nut;
};
[[nodiscard]] ThreadPair thread_pair(const job::Job& job, const job::EngagementOf& engagement);
/// Areas that the engaged threads shear off by; a thread without a class has the usual one.
[[nodiscard]] trade::Result<trade::StripAreas> strip_areas(const job::Job& job,
                                                           const ThreadPair& pair);

/// How strong a thread's metal is. Of a bolt with a property class: that class's. Of a nut with
/// one: the tensile strength at which a regular nut (least height of ISO 4032) strips, at half the
/// tensile strength, just at its proof load (ISO 898-2); it has no yield. Of others: the part's
/// material.
struct ThreadMetal {
    std::optional<Figure> yield_mpa;
    std::optional<Figure> tensile_mpa;
};
[[nodiscard]] ThreadMetal thread_metal(const job::Job& job, job::ThreadRef thread, bool nut);

/// Why the strength of engaged threads is not known.
using StrengthUnknown = std::variant<ThreadStrengthNotKnown, trade::Reason>;

/// Tensile strengths of both threads, or the yield strengths of both where that is all that is
/// known of one; the thread where neither is.
struct PairStrength {
    Figure bolt_mpa;
    Figure nut_mpa;
};
[[nodiscard]] std::variant<PairStrength, ThreadStrengthNotKnown> pair_strength(
    const job::Job& job, const ThreadPair& pair);

/// Engagement that develops the full strength of an engagement's external thread (engagement_needed
/// of trade/fastening/thread_strength.hpp, FED-STD-H28/2B). Why not, where a strength is not known.
[[nodiscard]] std::variant<trade::EngagementNeeded, StrengthUnknown> engagement_for_strength(
    const job::Job& job, const job::EngagementOf& engagement);

}  // namespace trialfit::stack
