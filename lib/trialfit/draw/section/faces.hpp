// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::draw {

/// Axial position of every face of every part, each part where it should sit: [part][face].
using Faces = std::vector<std::vector<double>>;

/// Where the faces are drawn, in the file's unit from the zero of the first part.
struct FacesDrawn {
    Faces at;
    /// Whether what is measured says where a face lies: [part][face]. The others are drawn by a
    /// guess at the sizes that nobody has measured, in which every ring has some length; what is
    /// known of one such face against another is kept. A hub on a cone of another taper, one of the
    /// two diameters unmeasured, is drawn with both gauge planes in one place.
    std::vector<std::vector<bool>> known;
};

/// The job with a guess at every ring's diameter that nobody has measured, which then has a nominal
/// and still no limits.
[[nodiscard]] job::Job with_rings_guessed(job::Job job);

/// At nominal sizes, adjusted where readings bind them.
[[nodiscard]] FacesDrawn faces_drawn(const stack::Model& model);

}  // namespace trialfit::draw
