// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/numerics/distribution/complex_batch.hpp>
#include <trialfit/numerics/distribution/erfcx.hpp>

// The two loops that take the time, compiled for several instruction sets and picked when the
// program is loaded. Contraction being off, all give the same bits. (The picking runs too early for
// the sanitizers.)
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__)
#define TRIALFIT_EACH_SET [[gnu::target_clones("default", "avx2", "arch=skylake-avx512")]]
#else
#define TRIALFIT_EACH_SET
#endif

namespace trialfit::numerics {

namespace {

using Row = std::array<double, ComplexBatch::kSize>;
constexpr std::size_t kSize = ComplexBatch::kSize;

// exp(-w t) = (1 + decay) * (cos 2h - i sin 2h) by half angles h = w Im t / 2, with decay =
// expm1(-w Re t): 1 - exp(-w t) = -decay + (1 + decay) (2 sin^2 h + 2i sin h cos h) cancels
// nowhere.
struct Exponential {
    Row decay;
    Row sine;
    Row cosine;
};

Exponential exponential(double w, const ContourBatch& path) {
    Exponential e{};
    Row half{};
    for (std::size_t k = 0; k < kSize; ++k)
        half[k] = w / 2.0 * path.t.im[k];
    sines(half, e.sine, e.cosine);
    if (path.vertical) {
        e.decay.fill(std::expm1(-w * path.t.re[0]));
    } else {
        for (std::size_t k = 0; k < kSize; ++k)
            e.decay[k] = std::expm1(-w * path.t.re[k]);
    }
    return e;
}

// 1 - exp(-w t).
ComplexBatch one_minus(const Exponential& e) {
    ComplexBatch out;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double size = 2.0 * (1.0 + e.decay[k]) * e.sine[k];
        out.re[k] = size * e.sine[k] - e.decay[k];
        out.im[k] = size * e.cosine[k];
    }
    return out;
}

// numerator / (w t).
ComplexBatch over(const ComplexBatch& numerator, double w, const ContourBatch& path) {
    ComplexBatch out;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double re = path.t.re[k];
        const double im = path.t.im[k];
        const double scale = 1.0 / (w * (re * re + im * im));
        out.re[k] = scale * (numerator.re[k] * re + numerator.im[k] * im);
        out.im[k] = scale * (numerator.im[k] * re - numerator.re[k] * im);
    }
    return out;
}

ComplexBatch box(double w, const ContourBatch& path) {
    return over(one_minus(exponential(w, path)), w, path);
}

// Well away from t = 0 only: (box(rise) - exp(-rise t) box(fall)) 2 / (w t).
ComplexBatch tent(double rise, double fall, const ContourBatch& path) {
    if (fall == 0.0 || rise == 0.0) {
        const double w = rise + fall;
        const ComplexBatch whole = box(w, path);
        ComplexBatch difference;
        for (std::size_t k = 0; k < kSize; ++k) {
            const Complex t{path.t.re[k], path.t.im[k]};
            const Complex value = rise == 0.0
                                      ? 1.0 - Complex{whole.re[k], whole.im[k]}
                                      : Complex{whole.re[k], whole.im[k]} - std::exp(-w * t);
            difference.re[k] = 2.0 * value.real();
            difference.im[k] = 2.0 * value.imag();
        }
        return over(difference, w, path);
    }
    const Exponential e = exponential(rise, path);
    const ComplexBatch up = over(one_minus(e), rise, path);
    const ComplexBatch down = box(fall, path);
    ComplexBatch difference;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double size = 1.0 + e.decay[k];
        const double re = size * (1.0 - 2.0 * e.sine[k] * e.sine[k]);
        const double im = -2.0 * size * e.sine[k] * e.cosine[k];
        difference.re[k] = 2.0 * (up.re[k] - (re * down.re[k] - im * down.im[k]));
        difference.im[k] = 2.0 * (up.im[k] - (re * down.im[k] + im * down.re[k]));
    }
    return over(difference, rise + fall, path);
}

ComplexBatch shifted(double slope, double shift, const ContourBatch& path) {
    ComplexBatch z;
    for (std::size_t k = 0; k < kSize; ++k) {
        z.re[k] = (slope * path.t.re[k] + shift) / std::numbers::sqrt2;
        z.im[k] = slope * path.t.im[k] / std::numbers::sqrt2;
    }
    return z;
}

ComplexBatch cut_normal(const Term& part, const ContourBatch& path) {
    ComplexBatch near = erfcx(shifted(part.sd, -part.cut, path));
    if (part.width * path.t.re[0] < 40.0) {
        const ComplexBatch far = erfcx(shifted(part.sd, part.cut, path));
        const Exponential e = exponential(part.width, path);
        for (std::size_t k = 0; k < kSize; ++k) {
            const double size = 1.0 + e.decay[k];
            const double re = size * (1.0 - 2.0 * e.sine[k] * e.sine[k]);
            const double im = -2.0 * size * e.sine[k] * e.cosine[k];
            near.re[k] -= re * far.re[k] - im * far.im[k];
            near.im[k] -= re * far.im[k] + im * far.re[k];
        }
    }
    for (std::size_t k = 0; k < kSize; ++k) {
        near.re[k] *= part.edge;
        near.im[k] *= part.edge;
    }
    return near;
}

ComplexBatch one_by_one(const Term& part, const ContourBatch& path) {
    ComplexBatch out;
    for (std::size_t k = 0; k < kSize; ++k) {
        const Complex value = transform(part, {path.t.re[k], path.t.im[k]});
        out.re[k] = value.real();
        out.im[k] = value.imag();
    }
    return out;
}

void scale_by(double factor, ComplexBatch& values) {
    for (std::size_t k = 0; k < kSize; ++k) {
        values.re[k] *= factor;
        values.im[k] *= factor;
    }
}

}  // namespace

void multiply(const ComplexBatch& factors, ComplexBatch& values) {
    for (std::size_t k = 0; k < kSize; ++k) {
        const double re = factors.re[k] * values.re[k] - factors.im[k] * values.im[k];
        values.im[k] = factors.re[k] * values.im[k] + factors.im[k] * values.re[k];
        values.re[k] = re;
    }
}

void multiply_reciprocal(double scale, const ContourBatch& path, ComplexBatch& values) {
    values = over(values, 1.0 / scale, path);
}

void multiply_transform(const Term& part, double scale, const ContourBatch& path,
                        ComplexBatch& values) {
    const double u = part.width * std::max(path.t.im[0], path.t.im[kSize - 1]);
    const double v = part.width * path.t.re[0];
    const bool small = u * u + v * v < 4.0;
    scale_by(1.0 / scale, values);
    if (part.kind == Term::Kind::uniform) {
        multiply(box(part.width, path), values);
    } else if (part.kind == Term::Kind::triangular && 2.0 * part.rise == part.width) {
        const ComplexBatch half = box(part.rise, path);
        multiply(half, values);
        multiply(half, values);
    } else if (part.kind == Term::Kind::triangular && !small) {
        multiply(tent(part.rise, part.width - part.rise, path), values);
    } else if (part.kind == Term::Kind::truncated_normal && path.vertical && part.cut >= 1.0) {
        multiply(cut_normal(part, path), values);
    } else {
        multiply(one_by_one(part, path), values);
    }
}

void multiply_corner(const Term& part, int i, double scale, const ContourBatch& path,
                     ComplexBatch& values) {
    for (std::size_t k = 0; k < kSize; ++k) {
        const Complex factor = corner_transform(part, i, {path.t.re[k], path.t.im[k]}) / scale;
        const Complex value = factor * Complex{values.re[k], values.im[k]};
        values.re[k] = value.real();
        values.im[k] = value.imag();
    }
}

namespace {

// Reduction by pi/2 in three pieces and the minimax polynomials of fdlibm's k_sin.c and k_cos.c
// (Sun Microsystems, 1993).
TRIALFIT_EACH_SET void reduced_sines(const double* x, double* sine, double* cosine) {
    constexpr double kRound = 6755399441055744.0;  // 1.5 * 2^52: adding it rounds to an integer
    for (std::size_t k = 0; k < kSize; ++k) {
        const double turns = x[k] * (2.0 / std::numbers::pi) + kRound;
        const double n = turns - kRound;
        const double r =
            ((x[k] - n * 1.57079632673412561417e+00) - n * 6.07710050630396597660e-11) -
            n * 2.02226624879595063154e-21;
        const double z = r * r;
        const double s = r + r * z *
                                 (-1.66666666666666324348e-01 +
                                  z * (8.33333333332248946124e-03 +
                                       z * (-1.98412698298579493134e-04 +
                                            z * (2.75573137070700676789e-06 +
                                                 z * (-2.50507602534068634195e-08 +
                                                      z * 1.58969099521155010221e-10)))));
        const double c = 1.0 - z / 2.0 +
                         z * z *
                             (4.16666666666666019037e-02 +
                              z * (-1.38888888888741095749e-03 +
                                   z * (2.48015872894767294178e-05 +
                                        z * (-2.75573143513906633035e-07 +
                                             z * (2.08757232129817482790e-09 +
                                                  z * -1.13596475577881948265e-11)))));
        // n mod 4 in doubles: 0 (s, c), 1 (c, -s), 2 (-s, -c), 3 (-c, s).
        const double half = (n / 2.0 + kRound) - kRound;
        const double odd = n - 2.0 * half;  // -1, 0 or 1
        const double quarter = (half / 2.0 + kRound) - kRound;
        const double flip = half - 2.0 * quarter;  // -1, 0 or 1
        const double sign = 1.0 - 2.0 * flip * flip;
        const double swap = odd * odd;
        sine[k] = sign * (s + swap * (odd * c - s));
        cosine[k] = sign * (c + swap * (-odd * s - c));
    }
}

}  // namespace

void sines(const Row& x, Row& sine, Row& cosine) {
    const auto [low, high] = std::minmax({x[0], x[kSize - 1]});
    if (high <= 1e5 && low >= -1e5) {
        reduced_sines(x.data(), sine.data(), cosine.data());
        return;
    }
    for (std::size_t k = 0; k < kSize; ++k) {
        sine[k] = std::sin(x[k]);
        cosine[k] = std::cos(x[k]);
    }
}

namespace {

// The residue where the pole lies within the strip that the rule sums over.
void add_residues(const ComplexBatch& z, const Row& trapezoid, ComplexBatch& out) {
    const double turn = 2.0 * std::numbers::pi / erfcx_rules().step;
    Row size{};
    bool any = false;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double x = z.re[k];
        const double y = std::abs(z.im[k]);
        const bool within = x < std::max(y, turn / 2.0);
        const double exponent = x * x - y * y - turn * x;
        size[k] = within && exponent > -60.0 ? exponent : -1e4;
        any |= size[k] > -1e3;
    }
    if (!any) return;
    Row phase{};
    Row turning{};
    ComplexBatch e;
    ComplexBatch t;
    for (std::size_t k = 0; k < kSize; ++k) {
        phase[k] = size[k] > -1e3 ? 2.0 * z.re[k] * z.im[k] - turn * z.im[k] : 0.0;
        turning[k] = size[k] > -1e3 ? -turn * z.im[k] : 0.0;
    }
    sines(phase, e.im, e.re);
    sines(turning, t.im, t.re);
    double decay = 0.0;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double sign = 1.0 - 2.0 * trapezoid[k];
        if (size[k] < -1e3) continue;
        if (k == 0 || z.re[k] != z.re[k - 1] || decay == 0.0) decay = std::exp(-turn * z.re[k]);
        const double re = 1.0 + sign * decay * t.re[k];
        const double im = sign * decay * t.im[k];
        const double scale = sign * 2.0 * std::exp(size[k]) / (re * re + im * im);
        out.re[k] += scale * (e.re[k] * re + e.im[k] * im);
        out.im[k] += scale * (e.im[k] * re - e.re[k] * im);
    }
}

// Adds weight / (node^2 + z^2) over the nodes of either rule.
TRIALFIT_EACH_SET void add_poles(const ComplexBatch& square, const Row& trapezoid,
                                 ComplexBatch& sum) {
    // Copies, so that the compiler sees that nothing overlaps.
    const Row re = square.re;
    const Row im = square.im;
    const Row rule = trapezoid;
    ComplexBatch total = sum;
    const ErfcxRules& rules = erfcx_rules();
    for (std::size_t node = 0; node < ErfcxRules::kNodes; ++node) {
        const double mid_square = rules.square[node][0];
        const double more_square = rules.square[node][1] - mid_square;
        const double mid_weight = rules.weight[node][0];
        const double more_weight = rules.weight[node][1] - mid_weight;
        for (std::size_t k = 0; k < kSize; ++k) {
            const double d = re[k] + mid_square + rule[k] * more_square;
            const double scaled = (mid_weight + rule[k] * more_weight) / (d * d + im[k] * im[k]);
            total.re[k] += scaled * d;
            total.im[k] -= scaled * im[k];
        }
    }
    sum = total;
}

// For Re z >= 0.
ComplexBatch erfcx_right(const ComplexBatch& z) {
    const double h = erfcx_rules().step;
    Row trapezoid{};
    ComplexBatch square;
    ComplexBatch sum;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double cells = std::abs(z.im[k]) / h;
        const double place = cells - std::floor(cells);
        trapezoid[k] = std::abs(z.im[k]) > z.re[k] && place >= 0.25 && place <= 0.75 ? 1.0 : 0.0;
        square.re[k] = z.re[k] * z.re[k] - z.im[k] * z.im[k];
        square.im[k] = 2.0 * z.re[k] * z.im[k];
        // The trapezoid's node at 0 carries half the weight of a pair: 1 / (2 z^2).
        const double norm = z.re[k] * z.re[k] + z.im[k] * z.im[k];
        const double scale = trapezoid[k] / (2.0 * std::max(norm * norm, 1e-300));
        sum.re[k] = scale * square.re[k];
        sum.im[k] = -scale * square.im[k];
    }
    add_poles(square, trapezoid, sum);
    multiply(z, sum);
    scale_by(2.0 * h / std::numbers::pi, sum);
    add_residues(z, trapezoid, sum);
    return sum;
}

}  // namespace

ComplexBatch erfcx(const ComplexBatch& z) {
    ComplexBatch right;
    for (std::size_t k = 0; k < kSize; ++k) {
        const double sign = z.re[k] < 0.0 ? -1.0 : 1.0;
        right.re[k] = sign * z.re[k];
        right.im[k] = sign * z.im[k];
    }
    ComplexBatch out = erfcx_right(right);
    for (std::size_t k = 0; k < kSize; ++k) {
        if (z.re[k] >= 0.0) continue;
        const Complex at{z.re[k], z.im[k]};
        const Complex reflected = 2.0 * std::exp(at * at) - Complex{out.re[k], out.im[k]};
        out.re[k] = reflected.real();
        out.im[k] = reflected.imag();
    }
    return out;
}

}  // namespace trialfit::numerics
