// SPDX-License-Identifier: MIT
// Inside the room: the vectorised inner loops of sampling. The same code is compiled for several
// instruction sets and picked at run time; with contraction off all give the same bits.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <trialfit/numerics/random/philox.hpp>
#include <vector>

namespace trialfit::numerics {

/// Samples in a block; a block is what one call below works on.
inline constexpr std::size_t kBlock = 256;

/// One random word of a sample and what becomes of it: a deviation from the size's centre, in the
/// file's unit, good to 1e-6 of the spread (a 32-bit word holds no more tail than 6.3 sd).
struct Variate {
    enum class Kind { none, uniform, normal, cut, tent, arcsine };
    Kind kind = Kind::none;
    /// Half-width, sd or amplitude.
    float scale = 0.0F;
    /// cut: the probability between the cuts.
    float inside = 1.0F;
    /// tent: the ends seen from the centre, and width times rise, width times fall.
    float from = 0.0F;
    float to = 0.0F;
    float rise = 0.0F;
    float fall = 0.0F;
    /// tent: rise over width.
    float share = 0.0F;
};

/// A linear form of the slots with its limits, all as deviations from its value at the centres.
struct LinearRow {
    struct Term {
        std::uint32_t slot = 0;
        float coefficient = 0.0F;
    };
    /// Slots with the coefficients 1, -1 and any other.
    std::vector<std::uint32_t> plus;
    std::vector<std::uint32_t> minus;
    std::vector<Term> others;
    float lower = 0.0F;
    float upper = 0.0F;
};

/// Sums kept in sixteen strands, sample s in strand s mod 16, so that they can be vectorised and
/// yet associate in one way only.
template <typename Element>
using Lanes = std::array<Element, 16>;

/// What the linear rows of some blocks add up to, as deviations from the rows' values at the
/// centres. Counts hold for some thousand blocks at most.
struct LinearTally {
    struct Row {
        Lanes<double> sum{};
        Lanes<double> squares{};
        Lanes<std::uint32_t> outside{};
    };
    std::vector<Row> rows;
    std::uint64_t samples = 0;
    /// Samples with any row outside; and over all samples, the count of rows outside and its
    /// square.
    Lanes<std::uint32_t> any{};
    Lanes<std::uint32_t> total{};
    Lanes<std::uint32_t> total_squares{};
};

/// The inner loops for one instruction set.
struct Loops {
    std::string_view name;
    /// Random words of `groups` groups of four slots for the samples first..first + kBlock - 1:
    /// word i of group g of sample s is philox({s, s >> 32, g, 0}, key)[i], at
    /// out[(4 g + i) * kBlock + s - first]. `first` is a multiple of kBlock.
    void (*words)(std::uint64_t first, std::size_t groups, PhiloxKey key, std::uint32_t* out);
    /// Deviations of the slots (a multiple of four) for the same samples, laid out as the words.
    void (*draw)(std::uint64_t first, std::span<const Variate> slots, PhiloxKey key, float* out);
    /// Adds one block of drawn slots to the tally.
    void (*tally)(std::span<const LinearRow> rows, const float* drawn, LinearTally& tally);
};

/// The loops this machine can run, the fastest first; the last run anywhere.
[[nodiscard]] std::span<const Loops> loops();

}  // namespace trialfit::numerics
