// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/trade/strength/materials.hpp>
#include <utility>

namespace trialfit::trade {
namespace {

// W. D. Callister, Fundamentals of Materials Science and Engineering, 3rd ed., appendix B.
constexpr std::string_view kDensity = "Callister, Fundamentals of Materials Science, table B.1";
constexpr std::string_view kDensityRecalled =
    "Callister, Fundamentals of Materials Science, table B.1 (from memory)";
constexpr std::string_view kModulus = "Callister, Fundamentals of Materials Science, table B.2";
constexpr std::string_view kModulusRecalled =
    "Callister, Fundamentals of Materials Science, table B.2 (from memory)";
constexpr std::string_view kPoissonRecalled =
    "Callister, Fundamentals of Materials Science, table B.3 (from memory)";
constexpr std::string_view kYield = "Callister, Fundamentals of Materials Science, table B.4";
constexpr std::string_view kStrengthRecalled =
    "Callister, Fundamentals of Materials Science, table B.4 (from memory)";
constexpr std::string_view kExpansion = "Callister, Fundamentals of Materials Science, table B.6";
constexpr std::string_view kExpansionRecalled =
    "Callister, Fundamentals of Materials Science, table B.6 (from memory)";
constexpr std::string_view kExpansionMiddle =
    "Callister, Fundamentals of Materials Science, table B.6, middle of 81 to 117";
// Shigley's Mechanical Engineering Design, 8th ed.: the pairs of modulus and Poisson's ratio that
// its press-fit problems use (14.5 Mpsi for the iron); aluminium from its table A-5.
constexpr std::string_view kShigleySteel = "Shigley, Mechanical Engineering Design, problem 5-35";
constexpr std::string_view kShigleyPoisson = "Shigley, Mechanical Engineering Design, problem 3-68";
constexpr std::string_view kShigleyIron = "Shigley, Mechanical Engineering Design, problem 3-69";
constexpr std::string_view kShigleyTable =
    "Shigley, Mechanical Engineering Design, table A-5 (from memory)";
constexpr std::string_view kIronGrade =
    "SAE J431, least tensile strength that the grade is named after (from memory)";
constexpr std::string_view kDuctileGrade =
    "ASTM A536, least proof stress that the grade is named after (from memory)";

constexpr double kPer = 1e-6;

// A plain name says what a metal weighs, how it yields elastically and how it grows; how strong it
// is hangs on the grade, so only a grade has strengths.
constexpr std::array kMaterials{
    Material{"steel", "steel of no stated grade", Cited{7850, kDensity},
             Cited{207000, kShigleySteel}, Cited{0.292, kShigleyPoisson},
             Cited{11.7 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"1020", "low-carbon steel 1020, hot rolled", Cited{7850, kDensity},
             Cited{207000, kShigleySteel}, Cited{0.292, kShigleyPoisson},
             Cited{11.7 * kPer, kExpansion}, Cited{210, kYield}, Cited{380, kStrengthRecalled}},
    Material{"alloy steel", "alloy steel of no stated grade", Cited{7850, kDensity},
             Cited{207000, kShigleySteel}, Cited{0.292, kShigleyPoisson},
             Cited{12.3 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"4140", "alloy steel 4140, annealed", Cited{7850, kDensity},
             Cited{207000, kShigleySteel}, Cited{0.292, kShigleyPoisson},
             Cited{12.3 * kPer, kExpansion}, Cited{417, kStrengthRecalled},
             Cited{655, kStrengthRecalled}},
    Material{"stainless steel", "austenitic stainless steel of no stated grade",
             Cited{8000, kDensity}, Cited{193000, kModulus}, Cited{0.30, kPoissonRecalled},
             Cited{17.2 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"304", "stainless steel 304, annealed", Cited{8000, kDensity}, Cited{193000, kModulus},
             Cited{0.30, kPoissonRecalled}, Cited{17.2 * kPer, kExpansion},
             Cited{205, kStrengthRecalled}, Cited{515, kStrengthRecalled}},
    Material{"cast iron", "grey iron of no stated grade", Cited{7300, kDensity},
             Cited{99974, kShigleyIron}, Cited{0.211, kShigleyIron}, Cited{11.4 * kPer, kExpansion},
             std::nullopt, std::nullopt},
    Material{"g3000", "grey iron G3000; it has no yield point", Cited{7300, kDensity},
             Cited{99974, kShigleyIron}, Cited{0.211, kShigleyIron}, Cited{11.4 * kPer, kExpansion},
             std::nullopt, Cited{207, kIronGrade}},
    Material{"ductile iron", "ductile iron of no stated grade", Cited{7100, kDensity},
             Cited{169000, kModulus}, Cited{0.29, kPoissonRecalled},
             Cited{11.2 * kPer, kExpansionRecalled}, std::nullopt, std::nullopt},
    Material{"60 40 18", "ductile iron 60-40-18", Cited{7100, kDensity}, Cited{169000, kModulus},
             Cited{0.29, kPoissonRecalled}, Cited{11.2 * kPer, kExpansionRecalled},
             Cited{276, kDuctileGrade}, Cited{414, kStrengthRecalled}},
    Material{"aluminium", "wrought aluminium of no stated grade", Cited{2700, kDensity},
             Cited{71700, kShigleyTable}, Cited{0.333, kShigleyTable},
             Cited{23.6 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"6061 t6", "wrought aluminium 6061-T6", Cited{2700, kDensity},
             Cited{71700, kShigleyTable}, Cited{0.333, kShigleyTable},
             Cited{23.6 * kPer, kExpansion}, Cited{276, kStrengthRecalled},
             Cited{310, kStrengthRecalled}},
    Material{"cast aluminium", "cast aluminium of no stated grade", Cited{2690, kDensityRecalled},
             Cited{72400, kModulus}, Cited{0.33, kPoissonRecalled}, Cited{21.5 * kPer, kExpansion},
             std::nullopt, std::nullopt},
    Material{"356 t6", "cast aluminium 356.0-T6", Cited{2690, kDensityRecalled},
             Cited{72400, kModulus}, Cited{0.33, kPoissonRecalled}, Cited{21.5 * kPer, kExpansion},
             Cited{164, kStrengthRecalled}, Cited{228, kStrengthRecalled}},
    Material{"magnesium", "magnesium of no stated grade", Cited{1810, kDensityRecalled},
             Cited{45000, kModulusRecalled}, Cited{0.35, kPoissonRecalled},
             Cited{26.0 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"az91d", "magnesium AZ91D, die-cast", Cited{1810, kDensityRecalled},
             Cited{45000, kModulusRecalled}, Cited{0.35, kPoissonRecalled},
             Cited{26.0 * kPer, kExpansion}, Cited{97, kStrengthRecalled},
             Cited{165, kStrengthRecalled}},
    Material{"brass", "brass of no stated grade", Cited{8500, kDensityRecalled},
             Cited{97000, kModulusRecalled}, Cited{0.34, kPoissonRecalled},
             Cited{20.5 * kPer, kExpansion}, std::nullopt, std::nullopt},
    Material{"c36000", "free-cutting brass C36000, annealed", Cited{8500, kDensityRecalled},
             Cited{97000, kModulusRecalled}, Cited{0.34, kPoissonRecalled},
             Cited{20.5 * kPer, kExpansion}, Cited{125, kStrengthRecalled},
             Cited{340, kStrengthRecalled}},
    Material{"bronze", "bronze of no stated grade", Cited{8930, kDensityRecalled},
             Cited{100000, kModulusRecalled}, Cited{0.34, kPoissonRecalled},
             Cited{18.0 * kPer, kExpansionRecalled}, std::nullopt, std::nullopt},
    Material{"c93200", "bearing bronze C93200", Cited{8930, kDensityRecalled},
             Cited{100000, kModulusRecalled}, Cited{0.34, kPoissonRecalled},
             Cited{18.0 * kPer, kExpansionRecalled}, Cited{125, kStrengthRecalled},
             Cited{240, kStrengthRecalled}},
    Material{"copper", "copper of no stated grade", Cited{8890, kDensityRecalled},
             Cited{115000, kModulus}, Cited{0.33, kPoissonRecalled}, Cited{17.0 * kPer, kExpansion},
             std::nullopt, std::nullopt},
    Material{"c11000", "copper C11000, hot rolled", Cited{8890, kDensityRecalled},
             Cited{115000, kModulus}, Cited{0.33, kPoissonRecalled}, Cited{17.0 * kPer, kExpansion},
             Cited{69, kStrengthRecalled}, Cited{220, kStrengthRecalled}},
    Material{"nylon", "polyamide 6,6, unfilled", Cited{1140, kDensityRecalled}, std::nullopt,
             Cited{0.39, kPoissonRecalled}, Cited{144 * kPer, kExpansion}, std::nullopt,
             std::nullopt},
    Material{"epoxy", "unfilled", std::nullopt, std::nullopt, std::nullopt,
             Cited{99 * kPer, kExpansionMiddle}, std::nullopt, std::nullopt},
    Material{"glass epoxy along", "E-glass, 60 % of one direction, along the fibres",
             Cited{2100, kDensity}, std::nullopt, std::nullopt, Cited{6.6 * kPer, kExpansion},
             std::nullopt, std::nullopt},
    Material{"glass epoxy across", "E-glass, 60 % of one direction, across the fibres",
             Cited{2100, kDensity}, std::nullopt, std::nullopt, Cited{30 * kPer, kExpansion},
             std::nullopt, std::nullopt},
};

using Alias = std::pair<std::string_view, std::string_view>;
constexpr std::array kAliases{
    Alias{"aluminum", "aluminium"},
    Alias{"alu", "aluminium"},
    Alias{"6061", "aluminium"},
    Alias{"cast aluminum", "cast aluminium"},
    Alias{"356", "cast aluminium"},
    Alias{"mild steel", "steel"},
    Alias{"carbon steel", "steel"},
    Alias{"stainless", "stainless steel"},
    Alias{"grey iron", "cast iron"},
    Alias{"gray iron", "cast iron"},
    Alias{"grey cast iron", "cast iron"},
    Alias{"gray cast iron", "cast iron"},
    Alias{"sg iron", "ductile iron"},
    Alias{"nodular iron", "ductile iron"},
    Alias{"grey iron g3000", "g3000"},
    Alias{"6061t6", "6061 t6"},
    Alias{"356t6", "356 t6"},
    Alias{"steel 1020", "1020"},
    Alias{"steel 4140", "4140"},
    Alias{"polyamide", "nylon"},
};

std::string plain(std::string_view name) {
    std::string word(name);
    for (char& letter : word) {
        if (letter == '-' || letter == '_') letter = ' ';
        letter = quantity::small(letter);
    }
    return word;
}

}  // namespace

std::optional<Elastic> Material::elastic() const {
    if (!modulus_mpa || !poisson) return {};
    return Elastic{modulus_mpa->value, poisson->value};
}

std::vector<std::string> material_names() {
    std::vector<std::string> names;
    names.reserve(kMaterials.size());
    for (const Material& each : kMaterials)
        names.emplace_back(each.name);
    return names;
}

Result<Material> material(std::string_view name) {
    std::string word = plain(name);
    const auto* const alias = std::find_if(kAliases.begin(), kAliases.end(),
                                           [&](const Alias& each) { return each.first == word; });
    if (alias != kAliases.end()) word = alias->second;
    const auto* const found = std::find_if(kMaterials.begin(), kMaterials.end(),
                                           [&](const Material& each) { return each.name == word; });
    if (found != kMaterials.end()) return *found;
    std::vector<std::string> names = material_names();
    for (const Alias& each : kAliases)
        names.emplace_back(each.first);
    const std::string meant = quantity::nearest(word, names);
    std::string reason = "no material '" + std::string(name) + "' is known";
    if (!meant.empty()) return Reason{reason + "; did you mean '" + meant + "'?"};
    return Reason{reason + "; `trialfit table material` lists them"};
}

}  // namespace trialfit::trade
