// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/trade/result.hpp>

// Limits of a letter and a grade: ISO 286-1:2010, Geometrical product specifications, ISO code
// system for tolerances on linear sizes. Sizes over 0 up to 500 mm. A size step includes its upper
// limit: 18 belongs to "over 10 up to 18". A caller with inches converts first.
namespace trialfit::trade {

/// Deviations from the nominal size, mm, signed, lower_mm <= upper_mm. A limit is size + deviation.
struct Deviations {
    double lower_mm = 0.0;
    double upper_mm = 0.0;

    [[nodiscard]] bool operator==(const Deviations&) const = default;
};

/// A tolerance class such as `h7` or `JS6`.
struct ToleranceClass {
    std::string
        letter;         ///< lower case; one of a b c cd d e ef f fg g h j js k m n p ... z za zb zc
    bool hole = false;  ///< written in capitals
    int grade = 0;      ///< IT grade 1 to 18; 0 for IT0, -1 for IT01

    [[nodiscard]] bool operator==(const ToleranceClass&) const = default;
};

/// Standard tolerance IT of `grade` (-1 for IT01, 0 to 18) at a size, mm > 0 (ISO 286-1:2010,
/// table 1). A reason outside 0..500 mm, outside the grades, and for IT14 and coarser up to 1 mm.
[[nodiscard]] Result<double> standard_tolerance_mm(int grade, double size_mm);

/// Reads `h7`, `H7`, `js6`, `ZC8`, `h01`: letters in one case, then the grade.
[[nodiscard]] Result<ToleranceClass> tolerance_class(std::string_view written);

/// The deviations of a class at a size in mm (ISO 286-1:2010, tables 2 to 5). A hole's K, M, N to
/// IT8 and P to ZC to IT7 over 3 mm take the shaft's deviation mirrored plus delta = IT(n) -
/// IT(n-1) (4.3.2.5). js keeps the half micrometre. A reason where the standard has no such class
/// at that size.
[[nodiscard]] Result<Deviations> deviations(const ToleranceClass& of, double size_mm);

/// tolerance_class() and deviations() in one.
[[nodiscard]] Result<Deviations> deviations(std::string_view written, double size_mm);

/// A hole and a shaft of one nominal size.
struct Fit {
    double size_mm = 0.0;
    std::string hole_class;
    std::string shaft_class;
    Deviations hole;
    Deviations shaft;

    /// Hole minus shaft, mm; negative is interference.
    [[nodiscard]] double least_clearance_mm() const { return hole.lower_mm - shaft.upper_mm; }
    [[nodiscard]] double greatest_clearance_mm() const { return hole.upper_mm - shaft.lower_mm; }
};

/// Reads `25H7/g6` or `25 H7/g6`: the size in mm, the hole's class, the shaft's class.
[[nodiscard]] Result<Fit> fit(std::string_view written);

}  // namespace trialfit::trade
