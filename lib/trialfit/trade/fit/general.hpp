// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>
#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// Tolerance classes of ISO 2768-1:1989: fine, medium, coarse, very coarse.
enum class GeneralClass { f, m, c, v };

/// `f`, `m`, `c` or `v`; nothing for any other word.
[[nodiscard]] std::optional<GeneralClass> general_class(std::string_view written);

/// The letter of a class.
[[nodiscard]] char letter(GeneralClass of);

/// Half-width, mm, of the general tolerance on a length, mm (ISO 2768-1:1989, table 1): the limits
/// are length +- half-width. The sign of the length does not count; a step includes its upper end.
/// A reason below 0.5 mm, above 4000 mm, and where the class has no value (v up to 3 mm, f over
/// 2000 mm).
[[nodiscard]] Result<double> general_half_width_mm(GeneralClass of, double length_mm);

}  // namespace trialfit::trade
