// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/draw/section/faces.hpp>
#include <trialfit/draw/section/section.hpp>
#include <vector>

namespace trialfit::draw {

/// Indices of the checks that a drawing shows: all, or of very many those that hold least.
[[nodiscard]] std::vector<std::size_t> shown_checks(const job::Job& job,
                                                    const stack::CheckAnswer& answer);

/// Where hubs on another taper than their own touch.
[[nodiscard]] std::vector<BearingEnd> bearing_ends(const job::Job& job, const Faces& faces);

/// A radius at which both faces have metal, or one between the two where none has.
[[nodiscard]] double dimension_radius(const job::Job& job, job::FaceRef one, job::FaceRef other);

/// The dimensions that a drawing shows: these checks, every clearance that does not hold, the
/// tightest few that do, and what stands proud (`off`, from rests()).
[[nodiscard]] std::vector<SectionDimension> dimensions(const job::Job& job, const Faces& faces,
                                                       const std::vector<double>& off,
                                                       const stack::CheckAnswer& answer);

}  // namespace trialfit::draw
