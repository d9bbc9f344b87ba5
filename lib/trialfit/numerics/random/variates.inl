// SPDX-License-Identifier: MIT
// Included by deviates.cpp once for each instruction set, inside a namespace of its own, with
// TRIALFIT_LANES the bits of a vector. Lanes do not meet but in `tally`, which sums in sixteen
// strands whatever the width, so that every set gives the same bits.

constexpr std::size_t kWidth = TRIALFIT_LANES / 8;
constexpr std::size_t kLanes = TRIALFIT_LANES / 32;
constexpr std::size_t kStrands = 16 / kLanes;

using Floats = float __attribute__((vector_size(kWidth)));
using Ints = std::int32_t __attribute__((vector_size(kWidth)));
using Words = std::uint32_t __attribute__((vector_size(kWidth)));
using Longs = std::uint64_t __attribute__((vector_size(kWidth)));

template <typename Vector, typename Element>
inline void load(const Element* from, Vector& to) {
    std::memcpy(&to, from, sizeof to);
}

template <typename Vector, typename Element>
inline void store(const Vector& from, Element* to) {
    std::memcpy(to, &from, sizeof from);
}

// Products of the low halves of 64-bit lanes with m.
inline void widening_product(const Longs& a, std::uint32_t m, Longs& out) {
#if TRIALFIT_LANES == 512
    out = reinterpret_cast<Longs>(
        _mm512_maskz_mul_epu32(0xFF, reinterpret_cast<__m512i>(a), _mm512_set1_epi64(m)));
#elif TRIALFIT_LANES == 256
    out = reinterpret_cast<Longs>(
        _mm256_mul_epu32(reinterpret_cast<__m256i>(a), _mm256_set1_epi64x(m)));
#elif defined(__x86_64__)
    out = reinterpret_cast<Longs>(_mm_mul_epu32(reinterpret_cast<__m128i>(a), _mm_set1_epi64x(m)));
#else
    for (std::size_t k = 0; k < kLanes / 2; ++k)
        out[k] = (a[k] & 0xFFFFFFFFU) * std::uint64_t{m};
#endif
}

// The square root is correctly rounded everywhere.
inline void root(Floats& x) {
#if TRIALFIT_LANES == 512
    x = _mm512_maskz_sqrt_ps(0xFFFF, x);
#elif TRIALFIT_LANES == 256
    x = _mm256_sqrt_ps(x);
#elif defined(__x86_64__)
    x = _mm_sqrt_ps(x);
#else
    for (std::size_t k = 0; k < kLanes; ++k)
        x[k] = std::sqrt(x[k]);
#endif
}

// Whether every index (0..31) lies in the last eight: so it is for most vectors, as these are the
// octaves next to a tail of 1.
inline bool all_near(const Ints& index) {
#if TRIALFIT_LANES == 256
    return _mm256_movemask_ps(reinterpret_cast<__m256>(index - 24)) == 0;
#else
    return index[0] >= 24;  // not looked at
#endif
}

// Entry `index` (0..31) of a row of 32.
inline void look_up(const std::array<float, 32>& row, const Ints& index, [[maybe_unused]] bool near,
                    Floats& out) {
#if TRIALFIT_LANES == 512
    out = _mm512_permutex2var_ps(_mm512_loadu_ps(row.data()), reinterpret_cast<__m512i>(index),
                                 _mm512_loadu_ps(row.data() + kLanes));
#elif TRIALFIT_LANES == 256
    // Four permutations of eight and a choice between them beat a gather severalfold.
    const auto eight = [&](std::size_t from) {
        return _mm256_permutevar8x32_ps(_mm256_loadu_ps(row.data() + from),
                                        reinterpret_cast<__m256i>(index));
    };
    out = eight(24);
    if (near) return;
    const __m256 bit3 = reinterpret_cast<__m256>(index << 28);
    const __m256 bit4 = reinterpret_cast<__m256>(index << 27);
    out = _mm256_blendv_ps(_mm256_blendv_ps(eight(0), eight(8), bit3),
                           _mm256_blendv_ps(eight(16), out, bit3), bit4);
#else
    const auto at = [&](int k) { return row[static_cast<std::size_t>(index[k])]; };
    out = Floats{at(0), at(1), at(2), at(3)};
#endif
}

// One Philox round, each word in the low half of a lane; what lies in the high half is never
// looked at again.
inline void philox_round(std::array<Longs, 4>& c, std::uint32_t k0, std::uint32_t k1) {
    Longs p0;
    Longs p1;
    widening_product(c[0], kPhiloxM0, p0);
    widening_product(c[2], kPhiloxM1, p1);
    c[0] = (p1 >> 32) ^ c[1] ^ std::uint64_t{k0};
    c[2] = (p0 >> 32) ^ c[3] ^ std::uint64_t{k1};
    c[1] = p1;
    c[3] = p0;
}

// The low words of two vectors, side by side.
inline void narrow(const Longs& low, const Longs& high, std::uint32_t* to) {
#if TRIALFIT_LANES == 128 && defined(__x86_64__)
    const __m128 both = _mm_shuffle_ps(reinterpret_cast<__m128>(low),
                                       reinterpret_cast<__m128>(high), _MM_SHUFFLE(2, 0, 2, 0));
    std::memcpy(to, &both, sizeof both);
#else
    using Half = std::uint32_t __attribute__((vector_size(kWidth / 2)));
    store(__builtin_convertvector(low, Half), to);
    store(__builtin_convertvector(high, Half), to + kLanes / 2);
#endif
}

// The four words of one group for a block, at out[i * kBlock + sample].
inline void group_words(std::uint64_t first, std::uint64_t group, PhiloxKey key,
                        std::uint32_t* out) {
    constexpr std::size_t kHalf = kLanes / 2;
    Longs lane;
    for (std::size_t k = 0; k < kHalf; ++k)
        lane[k] = k;
    for (std::size_t at = 0; at < kBlock; at += kLanes) {
        std::array<std::array<Longs, 4>, 2> c;
        for (std::size_t half = 0; half < 2; ++half) {
            c[half][0] = lane + (first + at + kHalf * half);
            c[half][1] = c[half][0] >> 32;
            c[half][2] = Longs{} + group;
            c[half][3] = Longs{};
        }
        std::uint32_t k0 = key[0];
        std::uint32_t k1 = key[1];
        for (int round = 0; round < kPhiloxRounds; ++round) {
            philox_round(c[0], k0, k1);
            philox_round(c[1], k0, k1);
            k0 += kPhiloxW0;
            k1 += kPhiloxW1;
        }
        for (std::size_t i = 0; i < 4; ++i) {
            narrow(c[0][i], c[1][i], out + i * kBlock + at);
        }
    }
}

// A word as a signed integer v spread evenly over -2^31 <= v < 2^31; the draw is (v + 1/2) / 2^31.
inline void centred(const std::uint32_t* word, Ints& v) {
    Words w;
    load(word, w);
    v = reinterpret_cast<Ints>(w ^ 0x80000000U);
}

// The standard normal with the two-sided tail (1 - inside) + inside * |draw's tail|.
inline void normal_lanes(const Ints& v, float inside, Floats& z) {
    const Ints sign = v >> 31;
    const Ints rest = 0x7FFFFFFF - (v ^ sign);
    const float outside = (1.0F - inside) * 2147483648.0F;
    Floats tail = (__builtin_convertvector(rest, Floats) + 0.5F) * inside + outside;
    const Floats most = Floats{} + 2147483520.0F;  // below 2^31, past the table's last octave
    tail = tail < most ? tail : most;
    const Ints bits = reinterpret_cast<Ints>(tail);
    const Ints index = (bits >> 23) - 126;
    const Floats u = reinterpret_cast<Floats>((bits & 0x007FFFFF) | 0x3F800000) - 1.5F;
    Floats coefficient;
    const bool near = all_near(index);
    look_up(kNormalTable.back(), index, near, z);
    for (std::size_t k = kNormalTable.size() - 1; k-- > 0;) {
        look_up(kNormalTable[k], index, near, coefficient);
        z = z * u + coefficient;
    }
    z = reinterpret_cast<Floats>(reinterpret_cast<Ints>(z) ^
                                 (sign & static_cast<int>(0x80000000U)));
}

inline void draw_uniform(const Variate& slot, const std::uint32_t* word, float* out) {
    const float step = slot.scale / 2147483648.0F;
    for (std::size_t at = 0; at < kBlock; at += kLanes) {
        Ints v;
        centred(word + at, v);
        store((__builtin_convertvector(v, Floats) + 0.5F) * step, out + at);
    }
}

inline void draw_normal(const Variate& slot, const std::uint32_t* word, float* out) {
    for (std::size_t at = 0; at < kBlock; at += kLanes) {
        Ints v;
        Floats z;
        centred(word + at, v);
        normal_lanes(v, slot.inside, z);
        store(z * slot.scale, out + at);
    }
}

// By inversion from the nearer end: below the peak sqrt(p width rise) from the lower end, above it
// sqrt((1 - p) width fall) from the upper.
inline void draw_tent(const Variate& slot, const std::uint32_t* word, float* out) {
    constexpr float kUnit = 1.0F / 4294967296.0F;
    for (std::size_t at = 0; at < kBlock; at += kLanes) {
        Words w;
        load(word + at, w);
        const Ints high = reinterpret_cast<Ints>(w >> 1);
        const Floats p = (__builtin_convertvector(high, Floats) + 0.25F) * (2.0F * kUnit);
        const Floats rest =
            (__builtin_convertvector(0x7FFFFFFF - high, Floats) + 0.75F) * (2.0F * kUnit);
        const Ints below = p <= slot.share;
        Floats length = below ? p * slot.rise : rest * slot.fall;
        root(length);
        store(below ? slot.from + length : slot.to - length, out + at);
    }
}

// sin(pi/2 x) for the draw x in (-1, 1) by its Taylor series (error below 6e-8).
inline void draw_arcsine(const Variate& slot, const std::uint32_t* word, float* out) {
    for (std::size_t at = 0; at < kBlock; at += kLanes) {
        Ints v;
        centred(word + at, v);
        const Floats x = (__builtin_convertvector(v, Floats) + 0.5F) * (1.5707963F / 2147483648.0F);
        const Floats s = x * x;
        Floats sine = s * (-1.0F / 39916800.0F) + 1.0F / 362880.0F;
        sine = sine * s - 1.0F / 5040.0F;
        sine = sine * s + 1.0F / 120.0F;
        sine = sine * s - 1.0F / 6.0F;
        sine = x + x * s * sine;
        store(sine * slot.scale, out + at);
    }
}

void words(std::uint64_t first, std::size_t groups, PhiloxKey key, std::uint32_t* out) {
    for (std::size_t g = 0; g < groups; ++g)
        group_words(first, g, key, out + 4 * g * kBlock);
}

void draw(std::uint64_t first, std::span<const Variate> slots, PhiloxKey key, float* out) {
    alignas(64) std::array<std::uint32_t, 4 * kBlock> word;
    for (std::size_t g = 0; 4 * g < slots.size(); ++g) {
        group_words(first, g, key, word.data());
        for (std::size_t i = 0; i < 4; ++i) {
            const Variate& slot = slots[4 * g + i];
            const std::uint32_t* from = word.data() + i * kBlock;
            float* to = out + (4 * g + i) * kBlock;
            switch (slot.kind) {
                case Variate::Kind::none:
                    break;
                case Variate::Kind::uniform:
                    draw_uniform(slot, from, to);
                    break;
                case Variate::Kind::normal:
                case Variate::Kind::cut:
                    draw_normal(slot, from, to);
                    break;
                case Variate::Kind::tent:
                    draw_tent(slot, from, to);
                    break;
                case Variate::Kind::arcsine:
                    draw_arcsine(slot, from, to);
                    break;
            }
        }
    }
}

// Values of a row at four vectors of samples: four chains of additions at once.
struct Four {
    Floats a{};
    Floats b{};
    Floats c{};
    Floats d{};
};

template <typename Body>
inline void each(const float* column, Four& y, Body body) {
    Four x;
    load(column, x.a);
    load(column + kLanes, x.b);
    load(column + 2 * kLanes, x.c);
    load(column + 3 * kLanes, x.d);
    body(y.a, x.a);
    body(y.b, x.b);
    body(y.c, x.c);
    body(y.d, x.d);
}

inline void row_values(const LinearRow& row, const float* drawn, Four& out) {
    Four y;
    for (const std::uint32_t slot : row.plus)
        each(drawn + slot * kBlock, y, [](Floats& sum, const Floats& x) { sum += x; });
    for (const std::uint32_t slot : row.minus)
        each(drawn + slot * kBlock, y, [](Floats& sum, const Floats& x) { sum -= x; });
    for (const auto& [slot, coefficient] : row.others) {
        each(drawn + slot * kBlock, y,
             [c = coefficient](Floats& sum, const Floats& x) { sum += x * c; });
    }
    out = y;
}

// Adds each strand of a block to the same strand of the tally.
template <typename Vector, typename Element>
inline void gather(const std::array<Vector, kStrands>& block, std::array<Element, 16>& total) {
    std::array<std::remove_cvref_t<decltype(block[0][0])>, 16> each_strand;
    std::memcpy(each_strand.data(), block.data(), sizeof each_strand);
    for (std::size_t k = 0; k < total.size(); ++k)
        total[k] += static_cast<Element>(each_strand[k]);
}

struct RowSums {
    std::array<Floats, kStrands> sum{};
    std::array<Floats, kStrands> squares{};
    std::array<Ints, kStrands> outside{};
};

inline void count(const LinearRow& row, std::size_t strand, const Floats& y, Ints& failing,
                  RowSums& sums) {
    const Ints bad = (y < row.lower) | (y > row.upper);
    sums.sum[strand] += y;
    sums.squares[strand] += y * y;
    sums.outside[strand] -= bad;
    failing -= bad;
}

void tally(std::span<const LinearRow> rows, const float* drawn, LinearTally& out) {
    std::array<Ints, kBlock / kLanes> failing{};
    for (std::size_t r = 0; r < rows.size(); ++r) {
        RowSums sums;
        for (std::size_t at = 0; at < failing.size(); at += 4) {
            Four y;
            row_values(rows[r], drawn + at * kLanes, y);
            count(rows[r], 0, y.a, failing[at], sums);
            count(rows[r], 1 % kStrands, y.b, failing[at + 1], sums);
            count(rows[r], 2 % kStrands, y.c, failing[at + 2], sums);
            count(rows[r], 3 % kStrands, y.d, failing[at + 3], sums);
        }
        gather(sums.sum, out.rows[r].sum);
        gather(sums.squares, out.rows[r].squares);
        gather(sums.outside, out.rows[r].outside);
    }
    std::array<Ints, kStrands> any{};
    std::array<Ints, kStrands> total{};
    std::array<Ints, kStrands> squares{};
    for (std::size_t i = 0; i < failing.size(); ++i) {
        any[i % kStrands] -= failing[i] > 0;
        total[i % kStrands] += failing[i];
        squares[i % kStrands] += failing[i] * failing[i];
    }
    out.samples += kBlock;
    gather(any, out.any);
    gather(total, out.total);
    gather(squares, out.total_squares);
}
