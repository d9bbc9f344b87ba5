// SPDX-License-Identifier: MIT
// What one size known better changes in many tied ones, against ties that are made anew.
#include <doctest/doctest.h>

#include <initializer_list>
#include <random>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/model/ties.hpp>
#include <utility>
#include <vector>

using namespace trialfit::stack;

namespace {

constexpr int kSizes = 12;

SizeColumns some_sizes(std::mt19937& random) {
    std::uniform_real_distribution<double> width(0.5, 1.0);
    std::vector<trialfit::quantity::Size> sizes;
    for (int i = 0; i < kSizes; ++i)
        sizes.push_back(i == 5
                            ? trialfit::quantity::toleranced(10.0, 0.0, 0.0)
                            : trialfit::quantity::toleranced(10.0, -width(random), width(random)));
    return columns(sizes);
}

// Zero where each of the sizes lies `off` of its half-width, -1 to 1, towards the sum's greatest.
Form closure(std::initializer_list<int> of, const SizeColumns& sizes, double off) {
    FormBuilder builder;
    double sign = 1.0;
    for (const int size : of) {
        builder.add(size, sign);
        builder.add(-sign * sizes.middle[size] - off * sizes.half_width[size]);
        sign = -sign;
    }
    return std::move(builder).build(kSizes);
}

// The middles stay: half the width, half the sd.
SizeColumns with_half(SizeColumns sizes, int size) {
    sizes.half_width[size] /= 2.0;
    sizes.sd[size] /= 2.0;
    sizes.lower[size] = sizes.middle[size] - sizes.half_width[size];
    sizes.upper[size] = sizes.middle[size] + sizes.half_width[size];
    return sizes;
}

}  // namespace

TEST_CASE("one size known better: as ties made anew have it, tied or not") {
    std::mt19937 random(4);  // NOLINT(*-msc51-cpp): a fixed seed, so that a failure comes again
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    int none = 0;
    for (int round = 0; round < 30; ++round) {
        const SizeColumns sizes = some_sizes(random);
        // Two groups, {0..5} and {6, 7, 8}; 9, 10 and 11 are free.
        const double off = any(random);
        const std::vector<Form> closures = {closure({0, 1, 2, 5}, sizes, off),
                                            closure({2, 3, 4}, sizes, off),
                                            closure({6, 7, 8}, sizes, any(random))};
        const Ties ties(closures, sizes);
        REQUIRE(ties.contradictions().empty());
        CHECK(ties.tied_sizes() == 9);
        FormBuilder builder;
        builder.add(3.0);
        for (const int size : {0, 2, 3, 5, 6, 9, 10})
            builder.add(size, any(random));
        const Form form = std::move(builder).build(kSizes);
        std::vector<Ties::Better> all;
        for (int i = 0; i < kSizes; ++i)
            all.push_back(
                {.size = i, .half_width = sizes.half_width[i] / 2.0, .sd = sizes.sd[i] / 2.0});
        const auto found = ties.if_better(form, sizes, all);
        for (int i = 0; i < kSizes; ++i) {
            const SizeColumns better = with_half(sizes, i);
            const Ties anew(closures, better);
            const auto& then = found[static_cast<std::size_t>(i)];
            REQUIRE(then.has_value() == anew.contradictions().empty());
            if (!then) {
                ++none;
                continue;
            }
            const Fixed expected = fixed_bounds(anew, better, form, 1.0);
            const Form adjusted = anew.adjusted(form);
            const double half = adjusted.sensitivities.cwiseProduct(better.half_width).norm();
            CHECK(then->nominal == doctest::Approx(expected.nominal).epsilon(1e-10));
            CHECK(then->middle == doctest::Approx(expected.middle).epsilon(1e-10));
            CHECK(then->worst.lo == doctest::Approx(expected.worst.lo).epsilon(1e-9));
            CHECK(then->worst.hi == doctest::Approx(expected.worst.hi).epsilon(1e-9));
            CHECK(then->half_width == doctest::Approx(half).epsilon(1e-7));
        }
    }
    CHECK(none > 0);
}
