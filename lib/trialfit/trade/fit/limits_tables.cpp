// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>
#include <trialfit/trade/fit/limits_tables.hpp>

namespace trialfit::trade::iso286 {

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// Table 1: IT01, IT0, IT1 ... IT18.
constexpr std::array<MainRow, 20> kStandardTolerances{{
    {0.3, 0.4, 0.4, 0.5, 0.6, 0.6, 0.8, 1, 1.2, 2, 2.5, 3, 4},
    {0.5, 0.6, 0.6, 0.8, 1, 1, 1.2, 1.5, 2, 3, 4, 5, 6},
    {0.8, 1, 1, 1.2, 1.5, 1.5, 2, 2.5, 3.5, 4.5, 6, 7, 8},
    {1.2, 1.5, 1.5, 2, 2.5, 2.5, 3, 4, 5, 7, 8, 9, 10},
    {2, 2.5, 2.5, 3, 4, 4, 5, 6, 8, 10, 12, 13, 15},
    {3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20},
    {4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
    {6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
    {10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
    {14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
    {25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155},
    {40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250},
    {60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
    {100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
    {140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970},
    {250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550},
    {400, 480, 580, 700, 840, 1000, 1200, 1400, 1600, 1850, 2100, 2300, 2500},
    {600, 750, 900, 1100, 1300, 1600, 1900, 2200, 2500, 2900, 3200, 3600, 4000},
    {1000, 1200, 1500, 1800, 2100, 2500, 3000, 3500, 4000, 4600, 5200, 5700, 6300},
    {1400, 1800, 2200, 2700, 3300, 3900, 4600, 5400, 6300, 7200, 8100, 8900, 9700},
}};

struct LetterRow {
    std::string_view letter;
    FineRow deviation;
};

// Tables 4 (a to h: es) and 5 (m to zc: ei). cd, ef and fg stop at 10 mm here: the 2010 edition
// goes further, but with values not certain enough to print.
constexpr std::array<LetterRow, 25> kShaft{{
    {"a", {-270, -270, -280, -290, -290, -300, -300, -310,  -320,  -340,  -360,  -380, -410,
           -460, -520, -580, -660, -740, -820, -920, -1050, -1200, -1350, -1500, -1650}},
    {"b", {-140, -140, -150, -150, -150, -160, -160, -170, -180, -190, -200, -220, -240,
           -260, -280, -310, -340, -380, -420, -480, -540, -600, -680, -760, -840}},
    {"c", {-60,  -70,  -80,  -95,  -95,  -110, -110, -120, -130, -140, -150, -170, -180,
           -200, -210, -230, -240, -260, -280, -300, -330, -360, -400, -440, -480}},
    {"cd",
     {-34,   -46,   -56,   kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone,
      kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone}},
    {"d", {-20,  -30,  -40,  -50,  -50,  -65,  -65,  -80,  -80,  -100, -100, -120, -120,
           -145, -145, -145, -170, -170, -170, -190, -190, -210, -210, -230, -230}},
    {"e", {-14, -20, -25, -32,  -32,  -40,  -40,  -50,  -50,  -60,  -60,  -72, -72,
           -85, -85, -85, -100, -100, -100, -110, -110, -125, -125, -135, -135}},
    {"ef",
     {-10,   -14,   -18,   kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone,
      kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone}},
    {"f", {-6,  -10, -13, -16, -16, -20, -20, -25, -25, -30, -30, -36, -36,
           -43, -43, -43, -50, -50, -50, -56, -56, -62, -62, -68, -68}},
    {"fg",
     {-4,    -6,    -8,    kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone,
      kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone, kNone}},
    {"g", {-2,  -4,  -5,  -6,  -6,  -7,  -7,  -9,  -9,  -10, -10, -12, -12,
           -14, -14, -14, -15, -15, -15, -17, -17, -18, -18, -20, -20}},
    {"h", {}},
    {"m",
     {2, 4, 6, 7, 7, 8, 8, 9, 9, 11, 11, 13, 13, 15, 15, 15, 17, 17, 17, 20, 20, 21, 21, 23, 23}},
    {"n", {4,  8,  10, 12, 12, 15, 15, 17, 17, 20, 20, 23, 23,
           27, 27, 27, 31, 31, 31, 34, 34, 37, 37, 40, 40}},
    {"p", {6,  12, 15, 18, 18, 22, 22, 26, 26, 32, 32, 37, 37,
           43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68}},
    {"r", {10, 15, 19, 23, 23, 28, 28, 34, 34,  41,  43,  51, 54,
           63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132}},
    {"s", {14, 19,  23,  28,  28,  35,  35,  43,  43,  53,  59,  71, 79,
           92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252}},
    {"t", {kNone, kNone, kNone, kNone, kNone, kNone, 41,  48,  54,  66,  75,  91, 104,
           122,   134,   146,   166,   180,   196,   218, 240, 268, 294, 330, 360}},
    {"u", {18,  23,  28,  33,  33,  41,  48,  60,  70,  87,  102, 124, 144,
           170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540}},
    {"v", {kNone, kNone, kNone, kNone, 39,  47,  55,  68,  81,  102, 120, 146, 172,
           202,   228,   252,   284,   310, 340, 385, 425, 475, 530, 595, 660}},
    {"x", {20,  28,  34,  40,  45,  54,  64,  80,  97,  122, 146, 178, 210,
           248, 280, 310, 350, 385, 425, 475, 525, 590, 660, 740, 820}},
    {"y", {kNone, kNone, kNone, kNone, kNone, 63,  75,  94,  114, 144, 174, 214, 254,
           300,   340,   380,   425,   470,   520, 580, 650, 730, 820, 920, 1000}},
    {"z", {26,  35,  42,  50,  60,  73,  88,  112, 136, 172,  210,  258, 310,
           365, 415, 465, 520, 575, 640, 710, 790, 900, 1000, 1100, 1250}},
    {"za", {32,  42,  52,  64,  77,  98,  118, 148,  180,  226,  274,  335, 400,
            470, 535, 600, 670, 740, 820, 920, 1000, 1150, 1300, 1450, 1600}},
    {"zb", {40,  50,  67,  90,  108, 136,  160,  200,  242,  300,  360,  445, 525,
            620, 700, 780, 880, 960, 1050, 1200, 1300, 1500, 1650, 1850, 2100}},
    {"zc", {60,  80,  97,   130,  150,  188,  218,  274,  325,  405,  480,  585, 690,
            800, 900, 1000, 1150, 1250, 1350, 1550, 1700, 1900, 2100, 2400, 2600}},
}};

constexpr MainRow kK{0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5};
constexpr MainRow kJ5And6{-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20};
constexpr MainRow kJ7{-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32};
constexpr MainRow kHoleJ6{2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33};
constexpr MainRow kHoleJ7{4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43};
constexpr MainRow kHoleJ8{6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66};

}  // namespace

std::optional<double> standard_tolerance_um(int grade, std::size_t main_step) {
    if (grade < -1 || grade > 18) return {};
    const int row = grade + 1;
    return kStandardTolerances.at(static_cast<std::size_t>(row)).at(main_step);
}

std::optional<double> shaft_deviation_um(std::string_view letter, std::size_t fine_step) {
    const auto* const row = std::find_if(
        kShaft.begin(), kShaft.end(), [&](const LetterRow& each) { return each.letter == letter; });
    if (row == kShaft.end()) return {};
    const double deviation = row->deviation.at(fine_step);
    // NaN marks an empty cell.
    if (deviation != deviation) return {};  // NOLINT(misc-redundant-expression)
    return deviation;
}

double k_deviation_um(std::size_t main_step) {
    return kK.at(main_step);
}

std::optional<double> j_deviation_um(int grade, std::size_t main_step) {
    if (grade == 5 || grade == 6) return kJ5And6.at(main_step);
    if (grade == 7) return kJ7.at(main_step);
    if (grade == 8 && main_step == 0) return -6.0;
    return {};
}

std::optional<double> hole_j_deviation_um(int grade, std::size_t main_step) {
    if (grade == 6) return kHoleJ6.at(main_step);
    if (grade == 7) return kHoleJ7.at(main_step);
    if (grade == 8) return kHoleJ8.at(main_step);
    return {};
}

}  // namespace trialfit::trade::iso286
