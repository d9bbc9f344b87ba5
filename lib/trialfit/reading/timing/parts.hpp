// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/reader.hpp>

// The groups of the `timing` section; each fills its part of the section.
namespace trialfit::reading {

/// Angles from the top that a firing point may have, degrees of crank.
inline constexpr double kMostFromTop_deg = 180.0;

/// A stator's slot: its circle, its length, its screw.
void read_slot(Reader& reader, const Node& node, job::Timing& timing);
/// Degree-wheel readings about the top: against a stop, and by dwell.
void read_stops(Reader& reader, const Node& node, job::Timing& timing);
void read_dwell(Reader& reader, const Node& node, job::Timing& timing);
/// After rim_dia: a mark may be an arc on it.
void read_marks(Reader& reader, const Node& marks, job::Timing& timing);
/// After fire_at: a curve may add to it.
void read_curves(Reader& reader, const Node& curves, job::Timing& timing);

}  // namespace trialfit::reading
