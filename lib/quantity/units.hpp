// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>

namespace trialfit::quantity {

/// The units of length that a job file may use or suffix a number with.
enum class Unit { mm, inch, um, thou };

/// Millimetres in one `unit`. 1 in = 25.4 mm exactly (international inch, ISO 80000-3:2019 annex),
/// 1 thou = 0.001 in.
[[nodiscard]] constexpr double mm_per(Unit unit) {
    switch (unit) {
        case Unit::inch:
            return 25.4;
        case Unit::um:
            return 0.001;
        case Unit::thou:
            return 0.0254;
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
