// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdint>

namespace trialfit::numerics {

/// Philox4x32-10: four random words from a counter and a key, with no state between calls
/// (J. K. Salmon, M. A. Moraes, R. O. Dror and D. E. Shaw, "Parallel random numbers: as easy as 1,
/// 2, 3", SC11, 2011, section 4.3 and table 2).
using PhiloxCounter = std::array<std::uint32_t, 4>;
using PhiloxKey = std::array<std::uint32_t, 2>;

inline constexpr int kPhiloxRounds = 10;
inline constexpr std::uint32_t kPhiloxM0 = 0xD2511F53;
inline constexpr std::uint32_t kPhiloxM1 = 0xCD9E8D57;
inline constexpr std::uint32_t kPhiloxW0 = 0x9E3779B9;
inline constexpr std::uint32_t kPhiloxW1 = 0xBB67AE85;

/// The random words of a counter under a key (Salmon et al., as above): the same for both, always.
constexpr PhiloxCounter philox(PhiloxCounter c, PhiloxKey key) {
    for (int round = 0; round < kPhiloxRounds; ++round) {
        const std::uint64_t p0 = std::uint64_t{kPhiloxM0} * c[0];
        const std::uint64_t p1 = std::uint64_t{kPhiloxM1} * c[2];
        c = {static_cast<std::uint32_t>(p1 >> 32U) ^ c[1] ^ key[0], static_cast<std::uint32_t>(p1),
             static_cast<std::uint32_t>(p0 >> 32U) ^ c[3] ^ key[1], static_cast<std::uint32_t>(p0)};
        key = {key[0] + kPhiloxW0, key[1] + kPhiloxW1};
    }
    return c;
}

}  // namespace trialfit::numerics
