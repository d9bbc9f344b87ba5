// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>

// Rules of the workshop for how much thread must engage, as multiples of the diameter. The reckoned
// length is in thread_strength.hpp; these stand beside it where the metal's strength is not known.
namespace trialfit::trade {

/// Metal that a thread is tapped into.
enum class TappedMetal { steel, cast_iron, brass, aluminium };

/// Rule of thumb, multiples of d: steel 1, cast iron and brass 1.5, aluminium 2 (Design News column
/// on thread engagement, citing the Industrial Fasteners Institute; brass and bronze with cast iron
/// by a reference site on British standards).
[[nodiscard]] double thumb_engagement(TappedMetal metal);

/// Least recommended engagement without countersink, multiples of d, of a bolt in tapped steel
/// whose tensile strength is over 360, 500 or 800 MPa (fastener wholesaler's technical page, M6 to
/// M16, 6g/6H). Bolt classes 8.8 and 10.9, coarse and fine, and 12.9 coarse; nothing for others and
/// for weaker steel.
[[nodiscard]] std::optional<double> recommended_engagement(double steel_tensile_MPa,
                                                           std::string_view bolt_class, bool fine);

}  // namespace trialfit::trade
