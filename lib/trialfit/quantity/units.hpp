// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>

namespace trialfit::quantity {

/// The units of length that a job file may use or suffix a number with.
enum class Unit { mm, inch, um, thou };

/// Millimetres in one inch, exactly (international inch, ISO 80000-3:2019 annex).
inline constexpr double kMmPerInch = 25.4;

/// Millimetres in one `unit`; 1 thou = 0.001 in.
[[nodiscard]] constexpr double mm_per(Unit unit) {
    switch (unit) {
        case Unit::inch:
            return kMmPerInch;
        case Unit::um:
            return 0.001;
        case Unit::thou:
            return kMmPerInch / 1000.0;
        case Unit::mm:
            break;
    }
    return 1.0;
}

/// `length` in `from`, expressed in `to`. Exact when both are the same unit; between inch and thou
/// and between mm and um no millimetre detour is made, so that 5 thou is 0.005 in to the last bit.
[[nodiscard]] double convert(double length, Unit from, Unit to);

/// The unit of a word as a job file writes it (`mm`, `in`, `um`, `thou`; also `inch`, `µm`),
/// or nothing where the word is no unit of length.
[[nodiscard]] std::optional<Unit> unit_named(std::string_view word);

/// The word for `unit` as printed: "mm", "in", "um", "thou".
[[nodiscard]] std::string_view name(Unit unit);

}  // namespace trialfit::quantity
