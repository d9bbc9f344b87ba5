// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <complex>
#include <numbers>
#include <support/relative.hpp>
#include <trialfit/numerics/distribution/bivariate_normal.hpp>
#include <trialfit/numerics/distribution/chi_square.hpp>
#include <trialfit/numerics/distribution/complex_batch.hpp>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/numerics/distribution/erfcx.hpp>
#include <trialfit/numerics/distribution/gauss.hpp>
#include <trialfit/numerics/random/normal_table.hpp>

namespace numerics = trialfit::numerics;

namespace {

struct Erfcx {
    std::complex<double> z;
    std::complex<double> value;
};

// mpmath 1.2.1 at 40 digits: exp(z^2) erfc(z).
constexpr std::array<Erfcx, 19> kErfcx = {{
    {{0.0, 0.001}, {0.9999990000005, -0.0011283784148430354}},
    {{0.5, 0.1}, {0.6121092712288244, -0.051047510034554587}},
    {{0.01, 3.0}, {0.0009088307067415805, -0.2011464625401964}},
    {{0.01, 5.99}, {0.00016432558506492502, -0.095559961357899176}},
    {{2.0, 0.3}, {0.25167707027690329, -0.031625912188029192}},
    {{2.0, 2.2}, {0.13495896888028448, -0.13277323223098066}},
    {{1.0, 6.5}, {0.013509017801924798, -0.085706928659258643}},
    {{5.9, 1.0}, {0.091837458318582794, -0.015157536174582491}},
    {{5.9, 12.0}, {0.018732329732411103, -0.037885722733388085}},
    {{6.2, 0.1}, {0.089836127059472217, -0.001413524432891297}},
    {{6.2, 7.0}, {0.040285394830333898, -0.044965074266288743}},
    {{25.0, 3.0}, {0.022230708913682147, -0.002663493489785076}},
    {{0.3, 29.0}, {0.00020159505558465644, -0.019464311192569488}},
    {{40.0, 1.0}, {0.014091542492037675, -0.00035206886194566188}},
    {{-1.0, 2.0}, {-0.20532558064658751, -0.14685548503016739}},
    {{-2.0, 0.5}, {-35.635303512001889, -77.380142375345435}},
    {{-0.1, 4.1}, {-0.0037105866934489473, -0.14203483828104803}},
    {{0.0, 10.0}, {3.720075976020836e-44, -0.056705394232887594}},
    {{1e-09, 2.3}, {0.0050417604240321889, -0.28102616797608176}},
}};

}  // namespace

TEST_CASE("the scaled complementary error function against multi-precision values") {
    for (const Erfcx& known : kErfcx) {
        const std::complex<double> z = known.z;
        const std::complex<double> value = known.value;
        CAPTURE(z.real());
        CAPTURE(z.imag());
        CHECK(std::abs(numerics::erfcx(z) - value) <= 4e-15 * std::abs(value));
        const std::complex<double> mirrored = numerics::erfcx(std::conj(z));
        CHECK(std::abs(mirrored - std::conj(value)) <= 4e-15 * std::abs(value));
    }
}

TEST_CASE("a panel at a time is one at a time") {
    for (std::size_t start = 0; start < kErfcx.size(); ++start) {
        numerics::ComplexBatch z;
        for (std::size_t k = 0; k < numerics::ComplexBatch::kSize; ++k) {
            z.re[k] = kErfcx[(start + k) % kErfcx.size()].z.real();
            z.im[k] = kErfcx[(start + k) % kErfcx.size()].z.imag();
        }
        const numerics::ComplexBatch values = numerics::erfcx(z);
        for (std::size_t k = 0; k < numerics::ComplexBatch::kSize; ++k) {
            const auto& want = kErfcx[(start + k) % kErfcx.size()].value;
            CHECK(std::abs(std::complex{values.re[k], values.im[k]} - want) <=
                  4e-15 * std::abs(want));
        }
    }
}

TEST_CASE("sines agree with the standard library's") {
    for (const double scale : {1.0, 100.0, 9e4, 1e7}) {
        std::array<double, numerics::ComplexBatch::kSize> x{};
        std::array<double, numerics::ComplexBatch::kSize> sine{};
        std::array<double, numerics::ComplexBatch::kSize> cosine{};
        for (std::size_t k = 0; k < x.size(); ++k)
            x[k] = scale * (static_cast<double>(k) / 31.0 - 0.5) + 0.1;
        numerics::sines(x, sine, cosine);
        for (std::size_t k = 0; k < x.size(); ++k) {
            CHECK(std::abs(sine[k] - std::sin(x[k])) < 3e-16);
            CHECK(std::abs(cosine[k] - std::cos(x[k])) < 3e-16);
        }
    }
}

TEST_CASE("the normal quantile against multi-precision values") {
    // mpmath 1.2.1 at 40 digits.
    const std::array<std::array<double, 2>, 7> values = {{{1e-300, -37.047096299361199},
                                                          {1e-20, -9.2623400897984076},
                                                          {1e-9, -5.9978070150076869},
                                                          {0.001, -3.0902323061678135},
                                                          {0.025, -1.9599639845400542},
                                                          {0.2, -0.84162123357291417},
                                                          {0.49, -0.025068908258711058}}};
    for (const auto& known : values) {
        const double p = known[0];
        const double z = known[1];
        CAPTURE(p);
        CHECK(std::abs(numerics::normal_quantile(p) - z) <= 4e-16 * std::abs(z) + 2e-16);
    }
    CHECK(relative_error(numerics::normal_quantile(0.975), 1.9599639845400542) <= 1e-14);
}

TEST_CASE("the table of normals is what its comment says") {
    const auto rows = numerics::kNormalTable.size();
    for (int octave = 0; octave < 32; ++octave) {
        for (double v = -0.5; v < 0.5; v += 0.03125) {
            double z = 0.0;
            for (std::size_t k = rows; k-- > 0;)
                z = z * v + static_cast<double>(
                                numerics::kNormalTable[k][static_cast<std::size_t>(octave)]);
            const double tail = std::ldexp(1.5 + v, octave - 1 - 31);
            const double want = -numerics::normal_quantile(tail / 2.0);
            CAPTURE(tail);
            CHECK(std::abs(z - want) < 1e-6 * std::fmax(1.0, want));
        }
    }
}

TEST_CASE("chi-square tails: the tables' points") {
    // 95 % points 3.841, 5.991, 7.815, 11.070 (any table; NIST/SEMATECH e-Handbook 1.3.6.7.4).
    CHECK(numerics::chi_square_survival(3.841, 1) == doctest::Approx(0.05).epsilon(5e-4));
    CHECK(numerics::chi_square_survival(5.991, 2) == doctest::Approx(0.05).epsilon(5e-4));
    CHECK(numerics::chi_square_survival(7.815, 3) == doctest::Approx(0.05).epsilon(5e-4));
    CHECK(numerics::chi_square_survival(11.070, 5) == doctest::Approx(0.05).epsilon(5e-4));
    CHECK(numerics::chi_square_survival(124.342, 100) == doctest::Approx(0.05).epsilon(5e-4));
    CHECK(numerics::chi_square_survival(2.0, 2) == doctest::Approx(std::exp(-1.0)).epsilon(1e-14));
    CHECK(numerics::chi_square_survival(3000.0, 3000) == doctest::Approx(0.5).epsilon(0.02));
    CHECK(numerics::chi_square_survival(0.0, 3) == 1.0);
}

TEST_CASE("the Gauss-Legendre rule integrates polynomials of degree 63") {
    const numerics::GaussLegendre& rule = numerics::gauss_legendre();
    for (int power = 0; power <= 62; power += 2) {
        double sum = 0.0;
        for (std::size_t i = 0; i < rule.at.size(); ++i)
            sum += rule.weight[i] * std::pow(rule.at[i], power);
        CHECK(relative_error(sum, 2.0 / (power + 1.0)) <= 1e-14);
    }
}

TEST_CASE("two normals: limits, mirror and independence") {
    using numerics::bivariate_normal;
    const double inf = INFINITY;
    for (const double r : {-1.0, -0.99, -0.3, 0.0, 0.7, 0.999999, 1.0}) {
        CAPTURE(r);
        CHECK(bivariate_normal(-0.4, inf, r) == numerics::normal_cdf(-0.4));
        CHECK(bivariate_normal(-inf, 2.0, r) == 0.0);
        for (const double h : {-2.5, 0.3, 1.0}) {
            const double both = bivariate_normal(h, 0.8, r);
            const double only_first = bivariate_normal(h, -0.8, -r);
            CHECK(relative_error(both + only_first, numerics::normal_cdf(h)) <= 1e-14);
            CHECK(relative_error(both, bivariate_normal(0.8, h, r)) <= 1e-14);
        }
    }
    CHECK(relative_error(bivariate_normal(-1.0, 0.5, 0.0),
                         numerics::normal_cdf(-1.0) * numerics::normal_cdf(0.5)) <= 1e-15);
    CHECK(numerics::bivariate_rectangle(-inf, inf, -inf, inf, 0.4) == 1.0);
}
