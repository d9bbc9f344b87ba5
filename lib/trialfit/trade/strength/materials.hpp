// SPDX-License-Identifier: MIT
// Room-temperature properties of the materials that parts are made of, each value with its source.
// Typical values: good to a few per cent for modulus, density and expansion. A plain name ("steel")
// has no strength: that hangs on grade and heat treatment, so only a named grade ("1020",
// "6061-T6") has one, a minimum or low typical value of the state that the description names. A job
// that knows better states its own.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/trade/cited.hpp>
#include <trialfit/trade/result.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>
#include <vector>

namespace trialfit::trade {

/// One material. A property for which no source is at hand is absent.
struct Material {
    std::string_view name;         ///< as a job writes it, lower case, blanks for `-`
    std::string_view description;  ///< the grade that the figures are of
    std::optional<Cited> density_kg_m3;
    std::optional<Cited> modulus_mpa;
    std::optional<Cited> poisson;
    std::optional<Cited> expansion_per_k;
    std::optional<Cited> yield_mpa;    ///< 0.2 % proof; grey iron has none
    std::optional<Cited> tensile_mpa;  ///< at which it breaks

    /// Modulus and Poisson's ratio together, where both are known.
    [[nodiscard]] std::optional<Elastic> elastic() const;
};

/// The material of that name (case, and `-` or `_` for a blank, do not matter; "aluminum", "alloy
/// steel" and the like are understood); a reason with the nearest name where there is none.
[[nodiscard]] Result<Material> material(std::string_view name);

/// Every material's name, in the table's order.
[[nodiscard]] std::vector<std::string> material_names();

}  // namespace trialfit::trade
