// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/reader.hpp>
#include <trialfit/reading/yaml/tree.hpp>

// The readers of a job file's sections. Each fills the job and complains of what it cannot read.
namespace trialfit::reading {

/// The keys of a whole file; its head is read.
[[nodiscard]] Fields read_top(Reader& reader, const Node& root);
/// All else, from the sections of one file or of several joined, and what only all of them show.
void read_sections(Reader& reader, const Fields& fields);

/// units, general_tolerance, gauges, title and the like: what the sizes are read against.
void read_head(Reader& reader, const Fields& root);

/// Whether an entry of `parts` is the place for a kit's: `- kit: here`.
[[nodiscard]] bool kit_goes_here(const Node& part);
/// First pass over the parts: all names, so that words may point forward.
void read_names(Reader& reader, const Node& parts);
/// Second pass: all bodies.
void read_parts(Reader& reader, const Node& parts);
void read_faces(Reader& reader, job::PartId part, const Node& faces);
/// rings, cones and threads.
void read_features(Reader& reader, job::PartId part, const Fields& fields);
void read_seats(Reader& reader, job::PartId part, const Node& sits);
/// The thickness of a shim; one without limits of its own holds what its seat says.
[[nodiscard]] job::Given shim_of(Reader& reader, const Node* node, double holds);
/// cuts, laps and skims.
void read_changes(Reader& reader, job::PartId part, const Fields& fields);

/// centred, runout and face_runout.
void read_centring(Reader& reader, job::PartId part, const Fields& fields);

/// The sections of those names. What is wrong goes to the reader's faults, with its place.
void read_checks(Reader& reader, const Node& checks);
void read_readings(Reader& reader, const Node& readings);
void read_feelers(Reader& reader, const Node& feelers);
/// The readings of an entry of the record, taken with `entries` of them in force.
[[nodiscard]] std::vector<job::Reading> read_measured(Reader& reader, const Node& readings,
                                                      std::size_t entries);
/// materials, before the parts that are made of them.
void read_materials(Reader& reader, const Node& materials);
void read_states(Reader& reader, const Node& states);
void read_seat_service(Reader& reader, const Node& seat);
void read_timing(Reader& reader, const Node& node);
void read_spin(Reader& reader, const Node& node);
void read_record(Reader& reader, const Node& record);

/// What no section can see by itself: faces that hang in the air, rings turned round, parts that
/// sit in a circle.
void validate(Reader& reader);
/// More states, readings, shims or entries of the record than an answer can be found for in
/// seconds.
void refuse_too_many(Reader& reader);
/// What is written without fault and no such part can have: a runout as large as the part.
void refuse_implausible(Reader& reader);
/// Complains of skims that would open the register or the bearing that centres a part.
void refuse_skimmed_fits(Reader& reader);

}  // namespace trialfit::reading
