// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <stdexcept>
#include <trialfit/numerics/distribution/complex_batch.hpp>
#include <trialfit/numerics/distribution/gauss.hpp>
#include <trialfit/numerics/distribution/inversion.hpp>
#include <trialfit/numerics/infinity.hpp>

namespace trialfit::numerics {

namespace {

static_assert(GaussLegendre::kOrder == ComplexBatch::kSize);
constexpr int kWhole = -1;
constexpr double kNegligible = 1e-16;
// Ten times what any sum of the tests takes; the straight line may take its time.
constexpr int kMostPanels = 20'000;
constexpr int kMostStraightPanels = 1'000'000;

// The vertical line alone, or with its corners turned to where they decay.
enum class Contour { turned, straight };

struct Tilt {
    double value = 1.0;
    double mean = 0.0;
    double variance = 0.0;
};

// E exp(-tau u) of a part, and the mean and variance of its density weighted by exp(-tau u).
Tilt tilted_box(double width, double tau) {
    const double u = width * tau;
    if (u < 0.05) {
        const double square = u * u;
        return {
            1.0 - u / 2.0 * (1.0 - u / 3.0 * (1.0 - u / 4.0 * (1.0 - u / 5.0 * (1.0 - u / 6.0)))),
            width * (0.5 - u / 12.0 + u * square / 720.0),
            width * width * (1.0 / 12.0 - square / 240.0 + square * square / 6048.0)};
    }
    const double rest = std::exp(-u);
    const double full = -std::expm1(-u);
    return {full / u, width * (1.0 / u - rest / full),
            width * width * (1.0 / (u * u) - rest / (full * full))};
}

Tilt tilted(const Term& part, double tau) {
    if (part.kind == Term::Kind::uniform) return tilted_box(part.width, tau);
    if (part.kind == Term::Kind::triangular && 2.0 * part.rise == part.width) {
        const Tilt half = tilted_box(part.rise, tau);
        return {half.value * half.value, 2.0 * half.mean, 2.0 * half.variance};
    }
    // By a step along the imaginary axis: nothing cancels in the first derivative.
    const double here = transform(part, tau).real();
    const double step = 1e-3 * std::max(1.0 / part.width, tau);
    const Complex ratio = transform(part, {tau, step}) / here;
    return {here, -std::arg(ratio) / step,
            std::max(0.0, -std::log(std::norm(ratio))) / (step * step)};
}

// A corner of the sum: which parts are split, at which corner, and how far beyond it the point
// lies that is asked for.
struct CornerOfTerm {
    double reach = 0.0;
    double offset = 0.0;
    std::vector<int> split;
};

// The parts of a corner that are still whole, as seen from the point.
struct Outlook {
    double width = 0.0;
    double frequency = 0.0;
    double split_from = kInfinity;
    std::size_t widest = 0;
    bool ruled = false;
    bool has_cut_corner = false;
};

class Inversion {
public:
    Inversion(const SumTerms& heap, double reach, SumQuantity take, Contour contour)
        : heap_(heap), reach_(reach), below_(take == SumQuantity::cdf), contour_(contour) {}

    // Nothing where the contour's own account of its error is not met.
    std::optional<double> value() {
        find_saddle();
        CornerOfTerm whole{.reach = reach_, .split = std::vector<int>(heap_.parts.size(), kWhole)};
        climb(whole, 0.0);
        const double value = std::exp(log_peak_) * sum_ / std::numbers::pi;
        if (given_up_ || !std::isfinite(value)) return std::nullopt;
        // What was added up cancels to what is left: the rounding is that of what was added.
        const double rounding = 1e-15 * std::exp(log_peak_) * added_ / std::numbers::pi;
        // Beyond the mean, for which this is not meant, only so many digits are to be had.
        const double scale = below_ ? 1.0 : 1.0 / heap_.sd;
        if (rounding > 1e-12 * std::abs(value) + 1e-13 * scale) return std::nullopt;
        if (below_ && (value < -1e-12 || value > 1.0 + 1e-12)) return std::nullopt;
        return value;
    }

private:
    const SumTerms& heap_;
    double reach_;
    bool below_;
    double tau_ = 0.0;
    double log_peak_ = 0.0;
    double breadth_ = 0.0;
    double sum_ = 0.0;
    double added_ = 0.0;
    int panels_ = 0;
    Contour contour_;
    bool given_up_ = false;
    std::vector<Tilt> tilts_;

    void tilt_all();
    void find_saddle();
    [[nodiscard]] Outlook look(const CornerOfTerm& corner) const;
    [[nodiscard]] double end_of(const CornerOfTerm& corner, double y) const;
    [[nodiscard]] ComplexBatch integrand(const CornerOfTerm& corner,
                                         const ContourBatch& path) const;
    double add_panel(const CornerOfTerm& corner, Complex middle, Complex half);
    void climb(const CornerOfTerm& corner, double y);
    bool turn(const CornerOfTerm& corner, const Outlook& outlook, double y);
    void split(const CornerOfTerm& corner, std::size_t which, double y);
    [[nodiscard]] int comparable(const CornerOfTerm& corner, double width) const;
};

void Inversion::tilt_all() {
    for (std::size_t i = 0; i < heap_.parts.size(); ++i) {
        tilts_[i] = tilted(heap_.parts[i], tau_);
    }
}

// The minimum over tau of log(exp(tau reach) E exp(-tau sum) / tau), convex in tau. Anywhere near
// will do: the integral is the same, the saddle only keeps it from cancelling. (For the density the
// pole is not there, but its pull on the path is harmless and keeps tau above 0.)
void Inversion::find_saddle() {
    tilts_.resize(heap_.parts.size());
    const double var = heap_.sigma * heap_.sigma;
    double low = 0.0;
    double high = kInfinity;
    const double z = (heap_.mean - reach_) / heap_.sd;
    tau_ = (z + std::sqrt(z * z + 4.0)) / (2.0 * heap_.sd);
    for (int step = 0; step < 200; ++step) {
        tilt_all();
        double slope = reach_ + var * tau_ - 1.0 / tau_;
        double curve = var + 1.0 / (tau_ * tau_);
        for (const Tilt& tilt : tilts_) {
            slope -= tilt.mean;
            curve += tilt.variance;
        }
        breadth_ = 1.0 / std::sqrt(curve);
        if (std::abs(slope) * breadth_ < 0.05) break;
        (slope > 0.0 ? high : low) = tau_;
        double next = tau_ * std::exp(std::clamp(-slope / (curve * tau_), -3.0, 3.0));
        if (next <= low || next >= high) next = high < kInfinity ? (low + high) / 2.0 : tau_ * 2.0;
        tau_ = next;
    }
    // Long doubles: hundreds of logarithms nearly cancel against tau reach.
    long double log_peak = static_cast<long double>(tau_) * (reach_ + var * tau_ / 2.0);
    if (below_) log_peak -= std::log(tau_);
    for (const Tilt& tilt : tilts_)
        log_peak += std::log(static_cast<long double>(tilt.value));
    log_peak_ = static_cast<double>(log_peak);
}

Outlook Inversion::look(const CornerOfTerm& corner) const {
    Outlook outlook;
    double mean = -heap_.sigma * heap_.sigma * tau_;
    double variance = heap_.sigma * heap_.sigma;
    double widest = 0.0;
    for (std::size_t i = 0; i < heap_.parts.size(); ++i) {
        const Term& part = heap_.parts[i];
        if (corner.split[i] != kWhole) {
            outlook.has_cut_corner |= part.kind == Term::Kind::truncated_normal;
            continue;
        }
        outlook.width += part.width;
        outlook.ruled |= part.kind == Term::Kind::tabulated;
        mean += tilts_[i].mean;
        variance += tilts_[i].variance;
        if (corners(part) > 0 && part.width > widest) {
            widest = part.width;
            outlook.widest = i;
            outlook.split_from = split_from(part);
        }
    }
    // How fast the integrand turns: as far as the whole parts reach about the point, but no
    // further than they weigh anything.
    const double hard = std::max(std::abs(corner.reach), std::abs(corner.reach - outlook.width));
    const double soft = std::abs(corner.reach - mean) + 9.0 * std::sqrt(variance);
    outlook.frequency = heap_.sigma > 0.0 ? soft : std::min(hard, soft);
    return outlook;
}

// The height on the vertical line beyond which the integrand is negligible, by its envelope.
double Inversion::end_of(const CornerOfTerm& corner, double y) const {
    const double split_weight = [&] {
        double weight = 1.0;
        for (std::size_t i = 0; i < heap_.parts.size(); ++i)
            if (corner.split[i] != kWhole)
                weight *= std::abs(corner_transform(heap_.parts[i], corner.split[i], {tau_, y})) /
                          tilts_[i].value;
        return weight * std::exp(-tau_ * corner.offset);
    }();
    for (double end = 2.0 * y;; end *= 2.0) {
        double weight = split_weight * std::exp(-heap_.sigma * heap_.sigma * end * end / 2.0) * end;
        if (below_) weight *= tau_ / end;
        for (std::size_t i = 0; i < heap_.parts.size() && weight > 0.0; ++i) {
            weight *= corner.split[i] == kWhole
                          ? std::min(1.0, envelope(heap_.parts[i], tau_, end) / tilts_[i].value)
                          : y / end;
        }
        if (weight < kNegligible * breadth_ || end > 1e18 * y) return end;
    }
}

// The integrand over its value at the saddle.
ComplexBatch Inversion::integrand(const CornerOfTerm& corner, const ContourBatch& path) const {
    const double var = heap_.sigma * heap_.sigma;
    ComplexBatch values;
    std::array<double, ComplexBatch::kSize> size{};
    std::array<double, ComplexBatch::kSize> phase{};
    for (std::size_t k = 0; k < ComplexBatch::kSize; ++k) {
        const double re = path.t.re[k] - tau_;
        const double im = path.t.im[k];
        const double lever = corner.reach + var * (path.t.re[k] + tau_) / 2.0;
        size[k] = re * lever - im * im * var / 2.0 - tau_ * corner.offset;
        phase[k] = im * (lever + var * re / 2.0);
    }
    sines(phase, values.im, values.re);
    for (std::size_t k = 0; k < ComplexBatch::kSize; ++k) {
        const double factor = std::exp(size[k]);
        values.re[k] *= factor;
        values.im[k] *= factor;
    }
    if (below_) multiply_reciprocal(tau_, path, values);
    for (std::size_t i = 0; i < heap_.parts.size(); ++i) {
        if (corner.split[i] == kWhole) {
            multiply_transform(heap_.parts[i], tilts_[i].value, path, values);
        } else {
            multiply_corner(heap_.parts[i], corner.split[i], tilts_[i].value, path, values);
        }
    }
    return values;
}

// Adds one panel; returns the largest integrand seen in it.
double Inversion::add_panel(const CornerOfTerm& corner, Complex middle, Complex half) {
    const int most = contour_ == Contour::turned ? kMostPanels : kMostStraightPanels;
    if (given_up_ || ++panels_ > most) {
        given_up_ = true;
        return 0.0;
    }
    ContourBatch path{.t = {}, .vertical = half.real() == 0.0};
    const GaussLegendre& gauss = gauss_legendre();
    for (std::size_t k = 0; k < ComplexBatch::kSize; ++k) {
        const Complex t = middle + half * gauss.at[k];
        path.t.re[k] = t.real();
        path.t.im[k] = t.imag();
    }
    const ComplexBatch values = integrand(corner, path);
    double largest = 0.0;
    Complex total = 0.0;
    for (std::size_t k = 0; k < ComplexBatch::kSize; ++k) {
        const Complex value{values.re[k], values.im[k]};
        total += gauss.weight[k] * value;
        largest = std::max(largest, std::norm(value));
    }
    sum_ += (total * half).imag();
    added_ += std::abs(total * half);
    // An integrand that is no number ends the path here.
    given_up_ = given_up_ || !std::isfinite(added_) || !std::isfinite(largest);
    return given_up_ ? 0.0 : std::sqrt(largest);
}

int Inversion::comparable(const CornerOfTerm& corner, double width) const {
    int count = 0;
    for (std::size_t i = 0; i < heap_.parts.size(); ++i) {
        const Term& part = heap_.parts[i];
        if (corner.split[i] == kWhole && 4.0 * part.width >= width)
            count += corners(part) == 3 ? 2 : 1;
    }
    return count;
}

// Up the vertical line from height y, turning off or splitting where that is shorter.
void Inversion::climb(const CornerOfTerm& corner, double y) {
    const Outlook outlook = look(corner);
    const double smooth = 3.2 / std::max(heap_.sigma, 1e-300);
    const double negligible = (outlook.ruled ? 1e-13 : kNegligible) * breadth_;
    while (true) {
        if (contour_ == Contour::turned && y >= 3.0 * tau_) {
            const double turns = outlook.frequency * (end_of(corner, y) - y);
            if (turns > 60.0 && turn(corner, outlook, y)) return;
            if (y >= outlook.split_from &&
                turns > 60.0 * std::exp2(std::min(
                                   40, comparable(corner, heap_.parts[outlook.widest].width)))) {
                split(corner, outlook.widest, y);
                return;
            }
        }
        const double half = std::min({2.0 * std::max(tau_, y), 25.0 / outlook.frequency, smooth});
        const double largest = add_panel(corner, {tau_, y + half}, {0.0, half});
        y += 2.0 * half;
        if (largest * std::max(y, 2.0 * half) < negligible) return;
    }
}

// Leaves the vertical line for a ray on which this corner decays; false where the point lies among
// the parts that are still whole.
bool Inversion::turn(const CornerOfTerm& corner, const Outlook& outlook, double y) {
    const bool rightwards = corner.reach <= 0.0;
    const double rate = std::abs(rightwards ? corner.reach : corner.reach - outlook.width);
    if (corner.reach > 0.0 && corner.reach < outlook.width) return false;
    if (rate < 0.05 * outlook.width) return false;
    const double far = 40.0 / rate;
    // A normal decays only within an eighth of a turn of the vertical; a cut normal's corner grows
    // beyond all bounds three eighths of a turn from the right, so that no level ray may run to the
    // left. Level rays are shorter where neither is felt.
    const bool steep = heap_.sigma * far > 1.0 || (outlook.has_cut_corner && !rightwards);
    const double lean = std::numbers::pi / 8.0;
    Complex along = steep ? Complex{std::sin(lean), std::cos(lean)} : Complex{1.0, 0.0};
    if (!rightwards) along = {-along.real(), along.imag()};
    const double var = heap_.sigma * heap_.sigma;
    const double smooth = 3.2 / std::max(heap_.sigma, 1e-300);
    Complex t{tau_, y};
    while (true) {
        const double size = std::abs(t);
        const double frequency =
            std::max(std::abs(corner.reach), std::abs(corner.reach - outlook.width)) + var * size;
        const double half = std::min({2.0 * size, 25.0 / std::max(frequency, 1e-300), smooth});
        const double largest = add_panel(corner, t + half * along, half * along);
        t += 2.0 * half * along;
        if (largest * std::abs(t) < kNegligible * breadth_) return true;
    }
}

void Inversion::split(const CornerOfTerm& corner, std::size_t which, double y) {
    for (int i = 0; i < corners(heap_.parts[which]); ++i) {
        CornerOfTerm one = corner;
        const double at = corner_at(heap_.parts[which], i);
        one.reach -= at;
        one.offset += at;
        one.split[which] = i;
        climb(one, y);
    }
}

}  // namespace

double invert(const SumTerms& heap, double reach, SumQuantity take) {
    // Forty sd of the normal beyond the bounded parts, nothing is left that a double can tell.
    const double beyond = 40.0 * heap.sigma;
    double width = 0.0;
    for (const Term& part : heap.parts)
        width += part.width;
    if (reach < -beyond) return 0.0;
    if (reach > width + beyond) return take == SumQuantity::cdf ? 1.0 : 0.0;
    if (const auto turned = Inversion(heap, reach, take, Contour::turned).value()) return *turned;
    if (const auto straight = Inversion(heap, reach, take, Contour::straight).value())
        return *straight;
    throw std::runtime_error("odds: no path gives this sum's distribution");
}

}  // namespace trialfit::numerics
