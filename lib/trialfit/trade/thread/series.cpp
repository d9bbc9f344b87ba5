// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <trialfit/trade/thread/thread.hpp>

// The series as data, from memory of the standards' tables; unit tests hold the rows that
// tests/published has sources for.
namespace trialfit::trade {

namespace {

struct SeriesRow {
    double d;
    double pitch;
};

// ISO 261:1998, table 2, coarse.
constexpr std::array<SeriesRow, 40> kMetricCoarse{{
    {1, 0.25},   {1.1, 0.25}, {1.2, 0.25}, {1.4, 0.3}, {1.6, 0.35}, {1.8, 0.35}, {2, 0.4},
    {2.2, 0.45}, {2.5, 0.45}, {3, 0.5},    {3.5, 0.6}, {4, 0.7},    {4.5, 0.75}, {5, 0.8},
    {6, 1},      {7, 1},      {8, 1.25},   {9, 1.25},  {10, 1.5},   {11, 1.5},   {12, 1.75},
    {14, 2},     {16, 2},     {18, 2.5},   {20, 2.5},  {22, 2.5},   {24, 3},     {27, 3},
    {30, 3.5},   {33, 3.5},   {36, 4},     {39, 4},    {42, 4.5},   {45, 4.5},   {48, 5},
    {52, 5},     {56, 5.5},   {60, 5.5},   {64, 6},    {68, 6},
}};

// ASME B1.1-2003, table 1: inches, threads per inch.
constexpr std::array<SeriesRow, 33> kUnc{{
    {numbered_size_in(1), 64},
    {numbered_size_in(2), 56},
    {numbered_size_in(3), 48},
    {numbered_size_in(4), 40},
    {numbered_size_in(5), 40},
    {numbered_size_in(6), 32},
    {numbered_size_in(8), 32},
    {numbered_size_in(10), 24},
    {numbered_size_in(12), 24},
    {0.25, 20},
    {0.3125, 18},
    {0.375, 16},
    {0.4375, 14},
    {0.5, 13},
    {0.5625, 12},
    {0.625, 11},
    {0.75, 10},
    {0.875, 9},
    {1, 8},
    {1.125, 7},
    {1.25, 7},
    {1.375, 6},
    {1.5, 6},
    {1.75, 5},
    {2, 4.5},
    {2.25, 4.5},
    {2.5, 4},
    {2.75, 4},
    {3, 4},
    {3.25, 4},
    {3.5, 4},
    {3.75, 4},
    {4, 4},
}};
constexpr std::array<SeriesRow, 24> kUnf{{
    {numbered_size_in(0), 80},
    {numbered_size_in(1), 72},
    {numbered_size_in(2), 64},
    {numbered_size_in(3), 56},
    {numbered_size_in(4), 48},
    {numbered_size_in(5), 44},
    {numbered_size_in(6), 40},
    {numbered_size_in(8), 36},
    {numbered_size_in(10), 32},
    {numbered_size_in(12), 28},
    {0.25, 28},
    {0.3125, 24},
    {0.375, 24},
    {0.4375, 20},
    {0.5, 20},
    {0.5625, 18},
    {0.625, 18},
    {0.75, 16},
    {0.875, 14},
    {1, 12},
    {1.125, 12},
    {1.25, 12},
    {1.375, 12},
    {1.5, 12},
}};
constexpr std::array<SeriesRow, 25> kUnef{{
    {numbered_size_in(12), 32},
    {0.25, 32},
    {0.3125, 32},
    {0.375, 32},
    {0.4375, 28},
    {0.5, 28},
    {0.5625, 24},
    {0.625, 24},
    {0.6875, 24},
    {0.75, 20},
    {0.8125, 20},
    {0.875, 20},
    {0.9375, 20},
    {1, 20},
    {1.0625, 18},
    {1.125, 18},
    {1.1875, 18},
    {1.25, 18},
    {1.3125, 18},
    {1.375, 18},
    {1.4375, 18},
    {1.5, 18},
    {1.5625, 18},
    {1.625, 18},
    {1.6875, 18},
}};

std::optional<double> found_in(std::span<const SeriesRow> rows, double d) {
    // Half a unit of the fourth decimal: 0.313 or 0.3125 is written for 5/16, nothing lies nearer.
    const auto row = std::find_if(rows.begin(), rows.end(), [d](const SeriesRow& each) {
        return std::abs(each.d - d) < 6e-4;
    });
    if (row == rows.end()) return {};
    return row->pitch;
}

}  // namespace

std::optional<double> coarse_pitch_mm(double d_mm) {
    return found_in(kMetricCoarse, d_mm);
}

std::optional<double> series_per_inch(ThreadSeries series, double d_in) {
    switch (series) {
        case ThreadSeries::unc:
            return found_in(kUnc, d_in);
        case ThreadSeries::unf:
            return found_in(kUnf, d_in);
        case ThreadSeries::unef:
            return found_in(kUnef, d_in);
        default:
            return {};
    }
}

bool is_metric(ThreadSeries series) {
    return series == ThreadSeries::metric_coarse || series == ThreadSeries::metric_fine;
}

std::string_view name(ThreadSeries series) {
    constexpr std::array<std::string_view, 7> kNames{"M", "M", "UNC", "UNF", "UNEF", "UN", "UNS"};
    return kNames.at(static_cast<std::size_t>(series));
}

}  // namespace trialfit::trade
