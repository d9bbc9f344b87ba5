// SPDX-License-Identifier: MIT
#include <array>
#include <cmath>
#include <cstring>
#include <trialfit/numerics/random/normal_table.hpp>
#include <trialfit/numerics/random/variates.hpp>
#include <type_traits>
#if defined(__x86_64__)
#include <immintrin.h>
#endif

// GCC compiles the loops for each set under its own target; elsewhere the portable ones serve.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define TRIALFIT_MANY_SETS
#endif

namespace trialfit::numerics {

#ifdef TRIALFIT_MANY_SETS
#pragma GCC push_options
#pragma GCC target("avx512f,avx512bw,avx512dq,avx512vl,avx2,bmi2")
namespace avx512 {
#define TRIALFIT_LANES 512
#include <trialfit/numerics/random/variates.inl>
#undef TRIALFIT_LANES
}  // namespace avx512
#pragma GCC pop_options

#pragma GCC push_options
#pragma GCC target("avx2,bmi2")
namespace avx2 {
#define TRIALFIT_LANES 256
#include <trialfit/numerics/random/variates.inl>
#undef TRIALFIT_LANES
}  // namespace avx2
#pragma GCC pop_options
#endif

namespace anywhere {
#define TRIALFIT_LANES 128  // NOLINT(cppcoreguidelines-macro-usage): the loops ask it by #if
#include <trialfit/numerics/random/variates.inl>
#undef TRIALFIT_LANES
}  // namespace anywhere

namespace {

struct Choice {
    std::array<Loops, 3> sets{};
    std::size_t count = 0;
    Choice() {
#ifdef TRIALFIT_MANY_SETS
        if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") &&
            __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512vl"))
            sets[count++] = {"avx512", avx512::words, avx512::draw, avx512::tally};
        if (__builtin_cpu_supports("avx2"))
            sets[count++] = {"avx2", avx2::words, avx2::draw, avx2::tally};
#endif
        sets[count++] = {"anywhere", anywhere::words, anywhere::draw, anywhere::tally};
    }
};

}  // namespace

std::span<const Loops> loops() {
    static const Choice choice;
    return {choice.sets.data(), choice.count};
}

}  // namespace trialfit::numerics
