// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/numerics/distribution/cdf_table.hpp>
#include <trialfit/numerics/distribution/risk_contributors.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/direction/leant.hpp>

namespace trialfit::odds {

namespace {

using stack::Model;

// Chance to fail, given what is taken.
class Failing {
public:
    Failing(const numerics::SumDistribution& width, const Leaning& leaning)
        : lower_(leaning.lower), upper_(leaning.upper) {
        if (lower_ != -numerics::kInfinity) below_.emplace(width, numerics::CdfTable::Side::below);
        if (upper_ != numerics::kInfinity) above_.emplace(width, numerics::CdfTable::Side::above);
    }

    [[nodiscard]] double operator()(double taken) const {
        const double low = below_ ? (*below_)(lower_ + taken) : 0.0;
        const double high = above_ ? (*above_)(upper_ - taken) : 0.0;
        return std::min(1.0, low + high);
    }

private:
    double lower_;
    double upper_;
    std::optional<numerics::CdfTable> below_;
    std::optional<numerics::CdfTable> above_;
};

// The most that can be taken; infinite where a size has no ends.
double most_taken(const Spreads& spreads, const Leaning& leaning) {
    const auto reach = [&](const stack::Form& form) {
        const numerics::Support support = spreads.distribution(form).support();
        return std::max(std::abs(support.lower), std::abs(support.upper));
    };
    double most = 0.0;
    for (const stack::Vectors& end : leaning.ends) {
        double here = 0.0;
        for (const stack::Vector& each : all_vectors({end})) {
            stack::FormBuilder alone;
            alone.add(each.size, each.share);
            alone.add(each.share * each.beyond);
            here += reach(std::move(alone).build(leaning.width.sensitivities.size()));
        }
        most = std::max(most, here);
    }
    return most + reach(leaning.roams);
}

Spreads spreads_of(const Model& model, const Leaning& leaning) {
    return {model, {leaning.roams}, all_vectors(leaning.ends)};
}

// Draws of what is taken, as evenly likely values in rising order.
std::vector<double> drawn(const numerics::Population& population, const Spreads& spreads,
                          const Leaning& leaning, std::uint64_t seed) {
    constexpr std::uint64_t kBlocks = 64;
    constexpr std::size_t kTogether = 16;
    const numerics::Sampler sampler(population);
    const Taken taken(spreads, {&leaning, 1});
    std::vector<double> values(sampler.variables() * numerics::kBlock);
    std::vector<double> all(kBlocks * numerics::kBlock);
    for (std::uint64_t block = 0; block < kBlocks; ++block) {
        sampler.draw(block, seed, values);
        taken.work_out(values,
                       std::span<double>(all).subspan(block * numerics::kBlock, numerics::kBlock));
    }
    std::sort(all.begin(), all.end());
    std::vector<double> few;
    few.reserve(all.size() / kTogether);
    for (std::size_t i = 0; i < all.size(); i += kTogether) {
        double sum = 0.0;
        for (std::size_t k = i; k < i + kTogether; ++k)
            sum += all[k];
        few.push_back(sum / static_cast<double>(kTogether));
    }
    return few;
}

double mean_of(const std::vector<double>& taken, const Failing& failing) {
    double sum = 0.0;
    for (const double each : taken)
        sum += failing(each);
    return sum / static_cast<double>(taken.size());
}

// P(width - taken < x).
double cdf_of(const std::vector<double>& taken, const numerics::CdfTable& width, double x) {
    double sum = 0.0;
    for (const double each : taken)
        sum += width(x + each);
    return sum / static_cast<double>(taken.size());
}

void add_curve(CheckOdds& found, const std::vector<double>& taken,
               const numerics::SumDistribution& width) {
    constexpr int kPoints = 61;
    const numerics::CdfTable table(width, numerics::CdfTable::Side::below);
    const auto quantile = [&](double p) {
        double low = width.quantile(1e-6) - taken.back();
        double high = width.quantile(1.0 - 1e-6) - taken.front();
        for (int step = 0; step < 50; ++step) {
            const double middle = (low + high) / 2.0;
            (cdf_of(taken, table, middle) < p ? low : high) = middle;
        }
        return high;
    };
    for (const double p : {0.00135, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.99865})
        found.quantiles.push_back({.p = p, .value = quantile(p)});
    const double from = quantile(0.0005);
    const double step = (quantile(0.9995) - from) / (kPoints - 1);
    if (step <= 0.0) return;
    found.curve = {.from = from, .step = step};
    double before = cdf_of(taken, table, from - step / 2.0);
    for (int i = 0; i < kPoints; ++i) {
        const double after = cdf_of(taken, table, from + (i + 0.5) * step);
        found.curve.density.push_back(std::max(0.0, after - before) / step);
        before = after;
    }
}

double variance_of(const std::vector<double>& values) {
    double mean = 0.0;
    double squares = 0.0;
    for (const double each : values) {
        mean += each;
        squares += each * each;
    }
    const auto n = static_cast<double>(values.size());
    return std::max(0.0, squares / n - mean * mean / (n * n));
}

// Each size of the width and of what is taken: its share of the spread, and the chance to fail with
// half of its spread. What the vectors spread together is shared out by their mean squares.
class Halving {
public:
    Halving(const Model& model, const Leaning& leaning, std::uint64_t seed, double fails)
        : model_(model),
          leaning_(leaning),
          seed_(seed),
          fails_(fails),
          width_(model, {leaning.width}),
          lean_(spreads_of(model, leaning)),
          taken_(drawn(lean_.population(), lean_, leaning, seed)) {}

    [[nodiscard]] const std::vector<double>& taken() const { return taken_; }
    [[nodiscard]] numerics::SumDistribution width() const {
        return width_.distribution(leaning_.width);
    }

    [[nodiscard]] std::vector<RiskDriver> drivers() const {
        const double roaming = lean_.distribution(leaning_.roams).variance();
        const double turned = std::max(0.0, variance_of(taken_) - roaming);
        const double all = width().variance() + roaming + turned;
        std::vector<RiskDriver> risks;
        if (all <= 0.0) return risks;
        const Failing failing(width(), leaning_);
        const double now = mean_of(taken_, failing);
        of_width(all, now, risks);
        double squares = 0.0;
        const auto vectors = all_vectors({leaning_.ends.front()});
        for (const stack::Vector& each : vectors)
            squares += square(each);
        for (const stack::Vector& each : vectors)
            risks.push_back(
                of_taken(each.size, turned * square(each) / squares / all, failing, now));
        for (Eigen::SparseVector<double>::InnerIterator it(leaning_.roams.sensitivities); it;
             ++it) {
            const auto size = static_cast<int>(it.index());
            const double own = it.value() * model_.columns().sd[it.index()];
            risks.push_back(of_taken(size, own * own / all, failing, now));
        }
        return risks;
    }

private:
    [[nodiscard]] const std::string& label(int size) const {
        return model_.sizes()[static_cast<std::size_t>(size)].label;
    }

    // Mean square of a vector's length.
    [[nodiscard]] double square(const stack::Vector& each) const {
        const auto size = static_cast<Eigen::Index>(each.size);
        const double middle = model_.columns().middle[size] + each.beyond;
        const double sd = model_.columns().sd[size];
        return each.share * each.share * (middle * middle + sd * sd);
    }

    // What halving leaves of the chance to fail, from draws alike but for that size.
    [[nodiscard]] double left(double then, double now) const {
        return now > 0.0 ? std::min(1.0, fails_ * then / now) : fails_;
    }

    void of_width(double all, double now, std::vector<RiskDriver>& into) const {
        std::vector<numerics::Contributor> changed = width_.contributors(leaning_.width);
        const std::vector<int> sizes = width_.sizes_of(leaning_.width);
        for (std::size_t i = 0; i < changed.size(); ++i) {
            const numerics::Contributor as_is = changed[i];
            const double own =
                as_is.sensitivity * as_is.sensitivity * moments(as_is.distribution).variance;
            RiskDriver risk{.size = sizes[i] < 0 ? std::string() : label(sizes[i]),
                            .share_of_variance = own / all,
                            .fails_if_halved = fails_};
            if (fails_ > 0.0) {
                changed[i].distribution = with_half_the_spread(as_is.distribution);
                const numerics::SumDistribution better(changed, leaning_.width.constant);
                risk.fails_if_halved = left(mean_of(taken_, Failing(better, leaning_)), now);
            }
            into.push_back(std::move(risk));
            changed[i] = as_is;
        }
    }

    [[nodiscard]] RiskDriver of_taken(int size, double share, const Failing& failing,
                                      double now) const {
        RiskDriver risk{.size = label(size), .share_of_variance = share, .fails_if_halved = fails_};
        const std::size_t column = lean_.column_of(size);
        numerics::Population better = lean_.population();
        if (fails_ <= 0.0 || column >= better.sizes.size()) return risk;
        better.sizes[column] = with_half_the_spread(better.sizes[column]);
        const std::vector<double> then = drawn(better, lean_, leaning_, seed_);
        risk.fails_if_halved = left(mean_of(then, failing), now);
        return risk;
    }

    const Model& model_;
    const Leaning& leaning_;
    std::uint64_t seed_;
    double fails_;
    Spreads width_;
    Spreads lean_;
    std::vector<double> taken_;
};

}  // namespace

Leant leant(const Model& model, const Leaning& leaning, double at_worst,
            const numerics::Sampling& sampling) {
    const Spreads spreads = spreads_of(model, leaning);
    const numerics::SumDistribution width =
        Spreads(model, {leaning.width}).distribution(leaning.width);
    const Failing failing(width, leaning);
    const double at_best = width.outside(leaning.lower, leaning.upper);
    const double farthest = failing(most_taken(spreads, leaning));
    const Taken taken(spreads, {&leaning, 1});
    const numerics::Evaluator evaluate = [&](std::span<const double> values,
                                             std::span<double> outputs) {
        std::vector<double> lost(numerics::kBlock);
        taken.work_out(values, lost);
        for (std::size_t s = 0; s < numerics::kBlock; ++s) {
            const double fails = failing(lost[s]);
            outputs[s] = 1.0 - fails;
            outputs[numerics::kBlock + s] = fails;
            outputs[2 * numerics::kBlock + s] = lost[s];
            outputs[3 * numerics::kBlock + s] = lost[s] * lost[s];
            outputs[4 * numerics::kBlock + s] = lost[s] * lost[s] * lost[s];
        }
    };
    numerics::Sampling bound =
        sampling;  // directions and the width's table take more than the outputs say
    bound.most_work /= 10.0;
    const numerics::Sampled sampled =
        sample(numerics::Sampler(spreads.population()), 5, evaluate, bound);
    const auto n = static_cast<double>(sampled.samples);
    Leant out{.samples = sampled.samples};
    const double m = sampled.mean[2];
    const double variance = std::max(0.0, sampled.mean[3] - m * m);
    const double third = sampled.mean[4] - 3.0 * m * sampled.mean[3] + 2.0 * m * m * m;
    out.mean = width.mean() - m;
    out.sd = std::sqrt(width.variance() + variance);
    if (out.sd > 0.0)
        out.skewness = (width.skewness() * std::pow(width.sd(), 3) - third) / std::pow(out.sd, 3);
    const auto kept = [&](double fails) {
        return std::clamp(fails, std::min(at_best, at_worst), std::max(at_best, at_worst));
    };
    // What the draws may have missed: one among them that fails as surely as any can.
    const double spread = std::max(sampled.variance[1], farthest * farthest / n);
    const double half = numerics::kNinetyFive * std::sqrt(spread / n);
    out.fails = kept(sampled.mean[1]);
    out.holds = {.value = 1.0 - out.fails,
                 .lower = 1.0 - kept(sampled.mean[1] + half),
                 .upper = 1.0 - kept(sampled.mean[1] - half)};
    return out;
}

void describe(CheckOdds& found, const Model& model, const Leaning& leaning, std::uint64_t seed) {
    const Halving halving(model, leaning, seed, found.fails);
    if (found.sd > 0.0) add_curve(found, halving.taken(), halving.width());
    found.drivers = halving.drivers();
}

}  // namespace trialfit::odds
