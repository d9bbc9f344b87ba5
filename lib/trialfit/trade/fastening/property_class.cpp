// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {

namespace {

struct BoltRow {
    std::string_view name;
    double up_to_mm;
    BoltStrength strength;
};
// Rows of one class in rising diameter. 5.8, 8.8, 10.9 and 12.9 were seen in ISO 898-1; the other
// rows are from memory of that standard, of ISO 3506-1 and of SAE J429 (36, 60, 74 ksi ...).
constexpr std::array<BoltRow, 20> kBolts{{
    {"4.6", 39, {400, 240, 225}},
    {"4.8", 39, {420, 340, 310}},
    {"5.6", 39, {500, 300, 280}},
    {"5.8", 39, {520, 420, 380}},
    {"6.8", 39, {600, 480, 440}},
    {"8.8", 16, {800, 640, 580}},
    {"8.8", 39, {830, 660, 600}},
    {"9.8", 16, {900, 720, 650}},
    {"10.9", 39, {1040, 940, 830}},
    {"12.9", 39, {1220, 1100, 970}},
    {"A2-50", 39, {500, 210, 0}},
    {"A4-50", 39, {500, 210, 0}},
    {"A2-70", 24, {700, 450, 0}},
    {"A4-70", 24, {700, 450, 0}},
    {"A2-80", 24, {800, 600, 0}},
    {"A4-80", 24, {800, 600, 0}},
    {"grade 2", 19.05, {74 * 6.894757, 57 * 6.894757, 55 * 6.894757}},
    {"grade 5", 25.4, {120 * 6.894757, 92 * 6.894757, 85 * 6.894757}},
    {"grade 5", 38.1, {105 * 6.894757, 81 * 6.894757, 74 * 6.894757}},
    {"grade 8", 38.1, {150 * 6.894757, 130 * 6.894757, 120 * 6.894757}},
}};

struct NutRow {
    std::string_view name;
    bool fine;
    double up_to_mm;
    double stress_MPa;
};
// ISO 898-2, coarse: classes 8, 10, 12 over 4 mm were seen; the rest is from memory.
constexpr std::array<NutRow, 30> kNuts{{
    {"5", false, 4, 520},    {"5", false, 7, 580},    {"5", false, 10, 590},
    {"5", false, 16, 610},   {"5", false, 39, 630},   {"6", false, 4, 600},
    {"6", false, 7, 670},    {"6", false, 10, 680},   {"6", false, 16, 700},
    {"6", false, 39, 720},   {"8", false, 4, 800},    {"8", false, 7, 855},
    {"8", false, 10, 870},   {"8", false, 16, 880},   {"8", false, 39, 920},
    {"10", false, 7, 1040},  {"10", false, 10, 1040}, {"10", false, 16, 1050},
    {"10", false, 39, 1060}, {"12", false, 7, 1150},  {"12", false, 10, 1160},
    {"12", false, 16, 1190}, {"12", false, 39, 1200}, {"8", true, 7.99, 0},
    {"8", true, 16, 955},    {"10", true, 7.99, 0},   {"10", true, 10, 1100},
    {"10", true, 16, 1110},  {"12", true, 7.99, 0},   {"12", true, 16, 1200},
}};

// The one load that the standard prints to 10 N.
constexpr double kM5Class8_N = 12140.0;

double to_three_figures(double value) {
    const double scale = std::pow(10.0, 2.0 - std::floor(std::log10(value)));
    return std::round(value * scale) / scale;
}

}  // namespace

Result<BoltStrength> bolt_strength(std::string_view property_class, double d_mm) {
    const std::string_view name = trimmed(property_class);
    bool known = false;
    for (const BoltRow& row : kBolts) {
        if (row.name != name) continue;
        known = true;
        // A size converted from inches may come out a last bit above its step.
        if (d_mm > 0.0 && d_mm <= row.up_to_mm + 1e-9) return row.strength;
    }
    if (known)
        return Reason{"property class " + std::string(name) + " has no strength for " +
                      shown(d_mm) + " mm; take another class"};
    return Reason{"'" + std::string(name) +
                  "' is no property class; write 8.8, 10.9, A2-70 or grade 5"};
}

Result<BoltLoads> bolt_loads(const ThreadForm& form, std::string_view property_class) {
    const auto strength = bolt_strength(property_class, form.d_mm);
    if (!strength) return strength.why();
    const double area = to_three_figures(stress_area_mm2(form));
    return BoltLoads{area * strength->tensile_MPa, area * strength->proof_MPa};
}

Result<double> nut_proof_stress_MPa(const ThreadForm& form, std::string_view nut_class) {
    const std::string_view name = trimmed(nut_class);
    const bool fine = form.series == ThreadSeries::metric_fine;
    const bool metric = is_metric(form.series);
    for (const NutRow& row : kNuts) {
        if (!metric || row.name != name || row.fine != fine || form.d_mm > row.up_to_mm) continue;
        if (row.stress_MPa == 0.0) break;
        return row.stress_MPa;
    }
    return Reason{"no proof stress is known for a nut of class '" + std::string(name) + "' on " +
                  form.written + "; the classes are 5, 6, 8, 10 and 12, fine pitches 8 to 16 mm"};
}

Result<double> nut_proof_load_N(const ThreadForm& form, std::string_view nut_class) {
    const auto stress = nut_proof_stress_MPa(form, nut_class);
    if (!stress) return stress.why();
    if (form.d_mm == 5.0 && trimmed(nut_class) == "8" && form.series == ThreadSeries::metric_coarse)
        return kM5Class8_N;
    const double load = to_three_figures(stress_area_mm2(form)) * *stress;
    const double step = form.d_mm < 6.0 && load < 10000.0 ? 50.0 : 100.0;
    return std::round(load / step) * step;
}

std::string_view nut_class_for(std::string_view bolt_class) {
    struct Pair {
        std::string_view bolt;
        std::string_view nut;
    };
    constexpr std::array<Pair, 9> kPairs{{{"4.6", "5"},
                                          {"4.8", "5"},
                                          {"5.6", "5"},
                                          {"5.8", "5"},
                                          {"6.8", "6"},
                                          {"8.8", "8"},
                                          {"9.8", "9"},
                                          {"10.9", "10"},
                                          {"12.9", "12"}}};
    const auto* const found = std::find_if(
        kPairs.begin(), kPairs.end(), [&](const Pair& each) { return each.bolt == bolt_class; });
    return found == kPairs.end() ? std::string_view{} : found->nut;
}

}  // namespace trialfit::trade
