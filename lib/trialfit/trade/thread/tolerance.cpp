// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/thread/tolerance.hpp>

namespace trialfit::trade {

namespace {

constexpr std::array kR40{100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212,
                          224, 236, 250, 265, 280, 300, 315, 335, 355, 375, 400, 425, 450, 475,
                          500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950};
constexpr int kSteps = static_cast<int>(kR40.size());

// The rank-th number of R40, counted from 10; up to five decades of them.
double r40(int rank) {
    constexpr std::array kTens{0.1, 1.0, 10.0, 100.0, 1000.0};
    return kR40.at(static_cast<std::size_t>(rank % kSteps)) *
           kTens.at(static_cast<std::size_t>(rank / kSteps));
}

// A formula value half way between two numbers goes to the greater: TD1(6) at 1 mm is 236.
int nearest_rank(double value) {
    int best = 0;
    for (int rank = 0; rank < 3 * kSteps; ++rank)
        if (std::abs(r40(rank) - value) <= std::abs(r40(best) - value)) best = rank;
    return best;
}

constexpr std::array kStepEnds{0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0};

// Index of the step's upper end in kStepEnds; nothing outside them.
std::optional<std::size_t> diameter_step(double d_mm) {
    if (!(d_mm >= kStepEnds.front()) || d_mm > kStepEnds.back()) return {};
    const auto* const end = std::lower_bound(kStepEnds.begin() + 1, kStepEnds.end(), d_mm);
    return static_cast<std::size_t>(end - kStepEnds.begin());
}

// Where the tables depart from the rule: grade 6 value, from which the other grades step as usual.
// The row 2.8 to 5.6 x 0.5 and TD1 at 0.5 and 2.5 were seen; the rest is from memory.
struct PitchCell {
    double step_end;
    double pitch;
    double grade6;
};
constexpr std::array<PitchCell, 4> kPitchDiameterCells{
    {{5.6, 0.5, 75}, {90, 5, 250}, {355, 3, 250}, {355, 4, 280}}};
struct CrestCell {
    double pitch;
    double grade6;
};
constexpr std::array<CrestCell, 1> kBoltMajorCells{{{4, 475}}};
constexpr std::array<CrestCell, 3> kNutMinorCells{{{0.25, 71}, {0.5, 140}, {2.5, 450}}};

double pitch_grade6(double pitch, std::size_t step) {
    for (const PitchCell& cell : kPitchDiameterCells)
        if (cell.step_end == kStepEnds.at(step) && cell.pitch == pitch) return cell.grade6;
    const double mean = std::sqrt(kStepEnds.at(step - 1) * kStepEnds.at(step));
    return 90.0 * std::pow(pitch, 0.4) * std::pow(mean, 0.1);
}

double bolt_major_grade6(double pitch) {
    for (const CrestCell& cell : kBoltMajorCells)
        if (cell.pitch == pitch) return cell.grade6;
    return 180.0 * std::cbrt(pitch * pitch) - 3.15 / std::sqrt(pitch);
}

double nut_minor_grade6(double pitch) {
    for (const CrestCell& cell : kNutMinorCells)
        if (cell.pitch == pitch) return cell.grade6;
    if (pitch < 1.0) return 433.0 * pitch - 190.0 * std::pow(pitch, 1.22);
    return 230.0 * std::pow(pitch, 0.7);
}

struct Grades {
    int least;
    int greatest;
    int steps_at_least;  ///< R40 steps from the grade 6 bolt value to the finest grade
};

Grades grades_of(ThreadTolerance of) {
    switch (of) {
        case ThreadTolerance::bolt_pitch:
            return {3, 9, -12};
        case ThreadTolerance::nut_pitch:
            return {4, 8, -3};
        case ThreadTolerance::bolt_major:
        case ThreadTolerance::nut_minor:
            break;
    }
    return {4, 8, -8};
}

// ISO 965-1, table 1: deviations as they are printed, without sign; 0 where the cell is empty.
struct DeviationRow {
    double pitch;
    double e;
    double f;
    double g;
};
constexpr std::array<DeviationRow, 25> kDeviations{{
    {0.2, 0, 0, 17},    {0.25, 0, 0, 18},   {0.3, 0, 0, 18},    {0.35, 0, 34, 19},
    {0.4, 0, 34, 19},   {0.45, 0, 35, 20},  {0.5, 50, 36, 20},  {0.6, 53, 36, 21},
    {0.7, 56, 38, 22},  {0.75, 56, 38, 22}, {0.8, 60, 38, 24},  {1, 60, 40, 26},
    {1.25, 63, 42, 28}, {1.5, 67, 45, 32},  {1.75, 71, 48, 34}, {2, 71, 52, 38},
    {2.5, 80, 58, 42},  {3, 85, 63, 48},    {3.5, 90, 70, 53},  {4, 95, 75, 60},
    {4.5, 100, 80, 63}, {5, 106, 85, 71},   {5.5, 112, 90, 75}, {6, 118, 95, 80},
    {8, 140, 118, 100},
}};

double cell_of(const DeviationRow& row, char position) {
    if (position == 'e') return row.e;
    if (position == 'f') return row.f;
    return row.g;
}

struct EngagementRow {
    double step_end = 0.0;
    double pitch = 0.0;
    EngagementGroup normal;
};
// ISO 965-1, table 2. The rows that tests/published holds were seen, the rest is from memory.
constexpr std::array<EngagementRow, 47> kEngagement{{
    {1.4, 0.2, {0.5, 1.4}},  {1.4, 0.25, {0.6, 1.7}}, {1.4, 0.3, {0.7, 2}},
    {2.8, 0.2, {0.5, 1.5}},  {2.8, 0.25, {0.6, 1.9}}, {2.8, 0.35, {0.8, 2.6}},
    {2.8, 0.4, {1, 3}},      {2.8, 0.45, {1.3, 3.8}}, {5.6, 0.35, {1, 3}},
    {5.6, 0.5, {1.5, 4.5}},  {5.6, 0.6, {1.7, 5}},    {5.6, 0.7, {2, 6}},
    {5.6, 0.75, {2.2, 6.7}}, {5.6, 0.8, {2.5, 7.5}},  {11.2, 0.75, {2.4, 7.1}},
    {11.2, 1, {3, 9}},       {11.2, 1.25, {4, 12}},   {11.2, 1.5, {5, 15}},
    {22.4, 1, {3.8, 11}},    {22.4, 1.25, {4.5, 13}}, {22.4, 1.5, {5.6, 16}},
    {22.4, 1.75, {6, 18}},   {22.4, 2, {8, 24}},      {22.4, 2.5, {10, 30}},
    {45, 1, {4, 12}},        {45, 1.5, {6.3, 19}},    {45, 2, {8.5, 25}},
    {45, 3, {12, 36}},       {45, 3.5, {15, 45}},     {45, 4, {18, 53}},
    {45, 4.5, {21, 63}},     {90, 1.5, {7.5, 22}},    {90, 2, {9.5, 28}},
    {90, 3, {15, 45}},       {90, 4, {19, 56}},       {90, 5, {24, 71}},
    {90, 5.5, {28, 85}},     {90, 6, {32, 95}},       {180, 2, {12, 36}},
    {180, 3, {18, 53}},      {180, 4, {24, 71}},      {180, 6, {36, 106}},
    {180, 8, {45, 132}},     {355, 3, {20, 60}},      {355, 4, {26, 80}},
    {355, 6, {40, 118}},     {355, 8, {50, 150}},
}};

Reason outside(double pitch_mm, double d_mm) {
    return Reason{"ISO 965 covers diameters 0.99 to 355 mm and pitches 0.2 to 8 mm, not " +
                  shown(d_mm) + " x " + shown(pitch_mm) + "; state the limits themselves"};
}

bool pitch_covered(double pitch_mm) {
    return pitch_mm >= 0.2 && pitch_mm <= 8.0;
}

}  // namespace

Result<double> thread_tolerance_um(ThreadTolerance of, int grade, double pitch_mm, double d_mm) {
    const auto step = diameter_step(d_mm);
    if (!step || !pitch_covered(pitch_mm)) return outside(pitch_mm, d_mm);
    const Grades grades = grades_of(of);
    const bool even_only = of == ThreadTolerance::bolt_major;
    if (grade < grades.least || grade > grades.greatest || (even_only && grade % 2 != 0))
        return Reason{"ISO 965 has no grade " + std::to_string(grade) +
                      " for this diameter; take grade 6"};
    // The standard's table leaves the series here.
    if (of == ThreadTolerance::bolt_major && grade == 8 && pitch_mm == 8.0) return 1180.0;
    double grade6 = 0.0;
    if (of == ThreadTolerance::bolt_major) {
        grade6 = bolt_major_grade6(pitch_mm);
    } else if (of == ThreadTolerance::nut_minor) {
        grade6 = nut_minor_grade6(pitch_mm);
    } else {
        grade6 = pitch_grade6(pitch_mm, *step);
    }
    const int steps = grades.steps_at_least + 4 * (grade - grades.least);
    return std::nearbyint(r40(nearest_rank(grade6) + steps));
}

Result<double> thread_deviation_um(char position, double pitch_mm) {
    constexpr std::string_view kKnown = "efghGH";
    if (kKnown.find(position) == std::string_view::npos)
        return Reason{std::string("'") + position +
                      "' is no thread position; write e, f, g or h for a bolt, G or H for a nut"};
    if (!pitch_covered(pitch_mm))
        return Reason{"ISO 965 covers pitches 0.2 to 8 mm, not " + shown(pitch_mm) +
                      "; state the limits themselves"};
    if (position == 'h' || position == 'H') return 0.0;
    const double sign = position == 'G' ? 1.0 : -1.0;
    for (const DeviationRow& row : kDeviations) {
        if (row.pitch != pitch_mm) continue;
        const double cell = cell_of(row, position);
        if (cell == 0.0)
            return Reason{std::string("ISO 965 has no position ") + position + " at a pitch of " +
                          shown(pitch_mm) + " mm; take g or h"};
        return sign * cell;
    }
    double constant = 15.0;
    if (position == 'e') constant = 50.0;
    if (position == 'f') constant = 30.0;
    return sign * std::nearbyint(constant + 11.0 * pitch_mm);
}

Result<EngagementGroup> engagement_group(double pitch_mm, double d_mm) {
    const auto step = diameter_step(d_mm);
    if (step)
        for (const EngagementRow& row : kEngagement)
            if (row.step_end == kStepEnds.at(*step) && row.pitch == pitch_mm) return row.normal;
    return Reason{"ISO 965 has no engagement group for a diameter of " + shown(d_mm) +
                  " mm with a pitch of " + shown(pitch_mm) + " mm"};
}

}  // namespace trialfit::trade
