// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <trialfit/trade/result.hpp>
#include <trialfit/trade/thread/thread.hpp>

namespace trialfit::trade {

/// Least strengths of a bolt's property class, MPa.
struct BoltStrength {
    double tensile_MPa = 0.0;
    double yield_MPa =
        0.0;  ///< lower yield, 0.2 % proof or, of 4.8, 5.8 and 6.8, the 0.0048 d proof
    double proof_MPa = 0.0;  ///< stress under proof load, Sp; 0 where the source gives none
};

/// Strengths of a property class: `4.6` `4.8` `5.6` `5.8` `6.8` `8.8` `9.8` `10.9` `12.9` (ISO
/// 898-1:2013, table 3: the least values, so 10.9 is 1040 and 940, not 1000 and 900), `A2-50`
/// `A2-70` `A2-80` and the same of A4 (ISO 3506-1, from memory), `grade 2` `grade 5` `grade 8` (SAE
/// J429, from memory). Some depend on the diameter. A reason for other words and diameters.
[[nodiscard]] Result<BoltStrength> bolt_strength(std::string_view property_class, double d_mm);

/// Least ultimate and proof loads, N.
struct BoltLoads {
    double ultimate_N = 0.0;
    double proof_N = 0.0;
};
/// Stress area to three figures times the strengths (ISO 898-1:2013, tables 4 to 7). The printed
/// tables cut some loads off instead of rounding them; they differ from these by up to 0.6 %.
[[nodiscard]] Result<BoltLoads> bolt_loads(const ThreadForm& form, std::string_view property_class);

/// Stress under proof load, MPa, of a regular nut (ISO 898-2, table of 1992/2012; style 2 for class
/// 12; fine pitches by the former ISO 898-6, from memory, 8 to 16 mm). Classes `5` `6` `8` `10`
/// `12`, over 0 up to 39 mm. A reason elsewhere.
[[nodiscard]] Result<double> nut_proof_stress_MPa(const ThreadForm& form,
                                                  std::string_view nut_class);

/// Proof load, N, of such a nut: stress area to three figures times that stress, to the nearest
/// 100 N, as ISO 898-2 prints it from M6 up; below M6 and 10000 N to the nearest 50 N (from
/// memory), and 12140 N for M5 of class 8, as printed.
[[nodiscard]] Result<double> nut_proof_load_N(const ThreadForm& form, std::string_view nut_class);

/// The property class a nut must have for a bolt of a class to break before its thread strips (ISO
/// 898-2:2012, table 1): `8` for 8.8, `10` for 10.9, `12` for 12.9, `5` for 4.6 to 5.8, `6`
/// for 6.8, `9` for 9.8. Empty for other words.
[[nodiscard]] std::string_view nut_class_for(std::string_view bolt_class);

}  // namespace trialfit::trade
