// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/cone/key.hpp>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {
namespace {

constexpr std::string_view kParallel = "BS 4235-1 / DIN 6885-1 chart";
constexpr std::string_view kParallelRecalled = "BS 4235-1 / DIN 6885-1 (from memory)";
constexpr std::string_view kDisc = "DIN 6888 (1956)";
constexpr std::string_view kDiscUnclear = "DIN 6888 (1956), hub depth hard to read";
constexpr std::string_view kDiscRecalled = "DIN 6888 (from memory)";
constexpr std::string_view kInchDisc = "Shigley, Mechanical Engineering Design, table 7-7";

using quantity::kMmPerInch;
// Sizes come through units and arithmetic; no two keys are this close.
constexpr double kSame = 0.02;

bool same(double one, double other) {
    return std::abs(one - other) < kSame;
}

const std::vector<WoodruffKey>& inch_woodruff_keys() {
    static const std::vector<WoodruffKey> keys{
        {kMmPerInch / 8, 0.203 * kMmPerInch, kMmPerInch / 2, 0.1355 * kMmPerInch,
         0.0685 * kMmPerInch, kInchDisc},
        {3 * kMmPerInch / 16, 0.313 * kMmPerInch, 3 * kMmPerInch / 4, 0.2143 * kMmPerInch,
         0.0997 * kMmPerInch, kInchDisc},
    };
    return keys;
}

}  // namespace

const std::vector<ParallelKey>& parallel_keys() {
    static const std::vector<ParallelKey> keys{
        {6, 8, 2, 2, 1.2, 1.0, kParallelRecalled},    {8, 10, 3, 3, 1.8, 1.4, kParallel},
        {10, 12, 4, 4, 2.5, 1.8, kParallel},          {12, 17, 5, 5, 3.0, 2.3, kParallel},
        {17, 22, 6, 6, 3.5, 2.8, kParallel},          {22, 30, 8, 7, 4.0, 3.3, kParallelRecalled},
        {30, 38, 10, 8, 5.0, 3.3, kParallel},         {38, 44, 12, 8, 5.0, 3.3, kParallelRecalled},
        {44, 50, 14, 9, 5.5, 3.8, kParallelRecalled}, {50, 58, 16, 10, 6.0, 4.3, kParallelRecalled},
    };
    return keys;
}

Result<ParallelKey> parallel_key(double shaft_dia) {
    const auto& keys = parallel_keys();
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const ParallelKey& key) {
        return shaft_dia > key.shaft_over && shaft_dia <= key.shaft_incl;
    });
    if (found != keys.end()) return *found;
    return Reason{"no parallel key is tabulated for a shaft of " + shown(shaft_dia) +
                  " mm (over 6 to 58)"};
}

const std::vector<WoodruffKey>& woodruff_keys() {
    static const std::vector<WoodruffKey> keys{
        {2, 2.6, 7, 1.8, 1.0, kDisc},          {2.5, 3.7, 10, 2.9, 1.0, kDiscRecalled},
        {3, 3.7, 10, 2.5, 1.4, kDisc},         {3, 5, 13, 3.8, 1.4, kDisc},
        {3, 6.5, 16, 5.3, 1.4, kDiscRecalled}, {4, 5, 13, 3.5, 1.7, kDiscRecalled},
        {4, 6.5, 16, 5.0, 1.7, kDiscUnclear},  {4, 7.5, 19, 6.0, 1.7, kDiscUnclear},
        {5, 6.5, 16, 4.5, 2.2, kDiscRecalled}, {5, 7.5, 19, 5.5, 2.2, kDiscRecalled},
        {5, 9, 22, 7.0, 2.2, kDiscRecalled},   {6, 7.5, 19, 5.1, 2.6, kDiscRecalled},
        {6, 9, 22, 6.6, 2.6, kDiscRecalled},
    };
    return keys;
}

Result<WoodruffKey> woodruff_key(double width, double height) {
    const auto& keys = woodruff_keys();
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const WoodruffKey& key) {
        return same(width, key.width) && same(height, key.height);
    });
    if (found != keys.end()) return *found;
    return Reason{"no Woodruff key " + shown(width) + " x " + shown(height) +
                  " mm is tabulated; state its slots' depths"};
}

Result<WoodruffKey> inch_woodruff_key(double width, double disc_dia) {
    const auto& keys = inch_woodruff_keys();
    const auto found = std::find_if(keys.begin(), keys.end(), [&](const WoodruffKey& key) {
        return same(width, key.width) && same(disc_dia, key.disc_dia);
    });
    if (found != keys.end()) return *found;
    return Reason{"no inch Woodruff key " + shown(width / kMmPerInch) + " x " +
                  shown(disc_dia / kMmPerInch) + " in is tabulated; state its slots' depths"};
}

Result<double> woodruff_length(double height, double disc_dia) {
    const Domain domain = Domain().within("height of the key", height, 0.0, disc_dia);
    if (!domain) return domain.why();
    return 2.0 * std::sqrt(height * (disc_dia - height));
}

double key_excess(double height, double shaft_depth, double hub_depth) {
    return height - (shaft_depth + hub_depth);
}

}  // namespace trialfit::trade
