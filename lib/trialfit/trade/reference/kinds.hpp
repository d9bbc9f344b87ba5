// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/trade/reference/reference.hpp>
#include <vector>

// One function a kind; `words` are those behind the kind.
namespace trialfit::trade {

using QueryWords = std::vector<std::string>;

/// The step that gauges read to, mm.
inline constexpr double kHundredth_mm = 0.01;

/// The reference values of that kind, or why there are none for these words.
[[nodiscard]] Result<Reference> thread_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> fit_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> size_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> general_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> cone_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> taper_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> shim_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> material_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> piston_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> nut_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> key_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> end_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> gauge_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> bolt_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> engagement_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> shrink_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> lathe_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> balance_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> gap_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> seat_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> torque_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> ring_reference(const QueryWords& words);
[[nodiscard]] Result<Reference> growth_reference(const QueryWords& words);

/// The words with a blank between them.
[[nodiscard]] std::string joined(const QueryWords& words);
/// A length > 0 with an optional unit, in mm; nothing where it is anything else.
[[nodiscard]] std::optional<double> length_mm(std::string_view written);
/// A number > 0 with that unit behind it ("15000N", "0.1 MPa"); nothing where it is anything else.
[[nodiscard]] std::optional<double> with_unit(std::string_view written, std::string_view unit);
/// "how to ask" as a reason: `what` is wrong, with the kind's own example.
[[nodiscard]] Reason ask_like(std::string_view fault, std::string_view kind);

/// Rows of each sort. What a source has "from memory" the row tells as "not checked against the
/// standard".
[[nodiscard]] ReferenceRow figure(std::string what, double value, std::string unit,
                                  std::string_view source);
[[nodiscard]] ReferenceRow between(std::string what, double lower, double upper, std::string unit,
                                   std::string_view source);
[[nodiscard]] ReferenceRow saying(std::string what, std::string words, std::string_view source);

}  // namespace trialfit::trade
