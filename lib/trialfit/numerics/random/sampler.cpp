// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <trialfit/numerics/linear/dense.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/numerics/random/parallel_chunks.hpp>
#include <trialfit/numerics/random/sampler.hpp>

namespace trialfit::numerics {

namespace {

constexpr std::uint64_t kChunkBlocks = 64;
constexpr std::uint64_t kFirstRound = 8;
constexpr std::uint64_t kLongestRound = 4096;  // a round's tallies are held until it is merged

PhiloxKey key_of(std::uint64_t seed) {
    return {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32U)};
}

// A square root of the covariance; rounding may leave eigenvalues just below 0, the more so where
// what was taken off it was much larger than what is left.
Eigen::MatrixXd factor_of(const Eigen::MatrixXd& covariance) {
    const auto [values, vectors] = symmetric_eigen(covariance);
    if (values.minCoeff() < -1e-6 * std::max(values.maxCoeff(), 0.0))
        throw std::invalid_argument("the covariance has a negative eigenvalue");
    return vectors * values.cwiseMax(0.0).cwiseSqrt().asDiagonal();
}

Variate tent_slot(const Distribution& law, double centre) {
    const double w = law.to - law.from;
    const double rise = law.mode - law.from;
    return {.kind = Variate::Kind::tent,
            .from = static_cast<float>(law.from - centre),
            .to = static_cast<float>(law.to - centre),
            .rise = static_cast<float>(w * rise),
            .fall = static_cast<float>(w * (law.to - law.mode)),
            .share = static_cast<float>(rise / w)};
}

Variate symmetric_slot(Variate::Kind kind, double scale) {
    return {.kind = kind, .scale = static_cast<float>(scale)};
}

// Runs rounds of chunks, each as long as all before it, until the samples are done or `enough`
// says so of what was merged.
template <typename Tally, typename Work, typename Merge, typename Enough>
void run_rounds(const Sampling& sampling, const Work& work, const Merge& merge,
                const Enough& enough) {
    const std::uint64_t blocks =
        std::max<std::uint64_t>(1, (sampling.samples + kBlock - 1) / kBlock);
    const std::uint64_t chunks = (blocks + kChunkBlocks - 1) / kChunkBlocks;
    const unsigned machine = std::max(1U, std::thread::hardware_concurrency());
    const unsigned threads = sampling.threads == 0 ? machine : sampling.threads;
    const bool in_rounds = sampling.precision > 0.0 || sampling.progress;
    for (std::uint64_t done = 0; done < chunks;) {
        const std::uint64_t round = in_rounds ? std::max(done, kFirstRound) : kLongestRound;
        const std::uint64_t count = std::min({round, kLongestRound, chunks - done});
        const auto work_chunk = [&](std::uint64_t chunk) {
            const std::uint64_t first = chunk * kChunkBlocks;
            return work(first, std::min(blocks, first + kChunkBlocks));
        };
        for (const Tally& tally : parallel_chunks<Tally>(done, count, threads, work_chunk))
            merge(tally);
        done += count;
        if (sampling.progress)
            sampling.progress(std::min(done * kChunkBlocks, blocks) * kBlock, blocks * kBlock);
        if (sampling.precision > 0.0 && enough()) return;
    }
}

// No more samples than the work allows that each of them takes.
Sampling within(const Sampling& sampling, double work_per_sample) {
    Sampling bound = sampling;
    if (sampling.most_work <= 0.0 || work_per_sample <= 0.0) return bound;
    const double most = std::min(sampling.most_work / work_per_sample, 1e18);
    bound.samples =
        std::min(sampling.samples, std::max(kLeastSamples, static_cast<std::uint64_t>(most)));
    return bound;
}

bool narrow_enough(std::uint64_t successes, std::uint64_t samples, double precision) {
    const Probability p = wilson(successes, samples);
    return p.upper - p.lower <= 2.0 * precision;
}

template <typename Element>
std::uint64_t total_of(const Lanes<Element>& strands) {
    std::uint64_t total = 0;
    for (const Element strand : strands)
        total += strand;
    return total;
}

double sum_of(const Lanes<double>& strands) {
    double total = 0.0;
    for (const double strand : strands)
        total += strand;
    return total;
}

}  // namespace

Eigen::VectorXd Population::Adjusted::over_deviations(const Eigen::VectorXd& coefficients) const {
    const Eigen::VectorXd share = gain.transpose() * coefficients;
    return coefficients - rows.transpose() * share;
}

double Population::joint_covariance(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const {
    if (!adjusted) return a.dot(covariance * b);
    return adjusted->over_deviations(a)
        .cwiseProduct(adjusted->sd.cwiseAbs2())
        .dot(adjusted->over_deviations(b));
}

Sampler::Sampler(const Population& population) : adjusted_(population.adjusted) {
    for (const Distribution& law : population.sizes)
        add(law);
    const Eigen::Index joint = population.means.size();
    if (adjusted_) {
        if (adjusted_->sd.size() != joint)
            throw std::invalid_argument("the adjusted sizes do not match the means");
    } else {
        if (population.covariance.rows() != joint || population.covariance.cols() != joint)
            throw std::invalid_argument("the covariance does not match the means");
        if (joint > 0) factor_ = factor_of(population.covariance);
    }
    for (Eigen::Index i = 0; i < joint; ++i) {
        owner_.push_back(centres_.size());
        centres_.push_back(population.means[i]);
        slots_.push_back(symmetric_slot(Variate::Kind::normal, 1.0));
    }
    while (slots_.size() % 4 != 0) {
        slots_.emplace_back();
        owner_.push_back(0);
    }
}

void Sampler::add(const Distribution& law) {
    const std::size_t size = centres_.size();
    const double half = (law.to - law.from) / 2.0;
    const double centre = law.from + half;
    centres_.push_back(centre);
    const auto slot = [&](const Variate& one) {
        slots_.push_back(one);
        owner_.push_back(size);
    };
    switch (law.kind) {
        case DistributionKind::exact:
            break;
        case DistributionKind::normal:
            slot(symmetric_slot(Variate::Kind::normal, law.sd));
            break;
        case DistributionKind::truncated_normal: {
            Variate cut = symmetric_slot(Variate::Kind::cut, law.sd);
            cut.inside = static_cast<float>(std::erf(law.cut / std::numbers::sqrt2));
            slot(cut);
            break;
        }
        case DistributionKind::uniform:
            slot(symmetric_slot(Variate::Kind::uniform, half));
            break;
        case DistributionKind::triangular:
            slot(tent_slot(law, centre));
            break;
        case DistributionKind::gauge:
            slot(symmetric_slot(Variate::Kind::uniform, half));
            slot(symmetric_slot(Variate::Kind::normal, law.sd));
            break;
        case DistributionKind::beta:
            if (law.a != 0.5 || law.b != 0.5)
                throw std::invalid_argument("a beta law other than the arcsine is not sampled");
            slot(symmetric_slot(Variate::Kind::arcsine, half));
            break;
    }
    independent_ = centres_.size();
    first_joint_slot_ = slots_.size();
}

void Sampler::draw(std::uint64_t block, std::uint64_t seed, std::span<double> values) const {
    std::vector<float> drawn(slots_.size() * kBlock);
    loops().front().draw(block * kBlock, slots_, key_of(seed), drawn.data());
    for (std::size_t i = 0; i < centres_.size(); ++i)
        std::fill_n(&values[i * kBlock], kBlock, centres_[i]);
    const auto add_column = [&](std::size_t size, double factor, std::size_t k) {
        double* to = &values[size * kBlock];
        const float* from = &drawn[k * kBlock];
        for (std::size_t s = 0; s < kBlock; ++s)
            to[s] += factor * static_cast<double>(from[s]);
    };
    for (std::size_t k = 0; k < first_joint_slot_; ++k)
        add_column(owner_[k], 1.0, k);
    for (Eigen::Index j = 0; j < factor_.cols(); ++j) {
        for (Eigen::Index i = 0; i < factor_.rows(); ++i)
            add_column(independent_ + static_cast<std::size_t>(i), factor_(i, j),
                       first_joint_slot_ + static_cast<std::size_t>(j));
    }
    if (adjusted_) add_adjusted(drawn, values);
}

double Sampler::work_to_adjust() const {
    if (!adjusted_) return 0.0;
    return static_cast<double>(adjusted_->sd.size() + adjusted_->gain.nonZeros() +
                               adjusted_->rows.nonZeros());
}

void Sampler::add_adjusted(const std::vector<float>& drawn, std::span<double> values) const {
    using Block = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
    const Eigen::Index count = adjusted_->sd.size();
    const auto block = static_cast<Eigen::Index>(kBlock);
    const Eigen::Map<const Eigen::Matrix<float, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>>
        normal(&drawn[first_joint_slot_ * kBlock], count, block);
    const Block deviation = adjusted_->sd.asDiagonal() * normal.cast<double>();
    const Block off = adjusted_->rows * deviation;
    Eigen::Map<Block> to(&values[independent_ * kBlock], count, block);
    to += deviation;
    to -= adjusted_->gain * off;
}

Sampler::Row Sampler::row(std::span<const double> coefficients, double constant, double lower,
                          double upper) const {
    Row out{.centre = constant};
    for (std::size_t i = 0; i < centres_.size(); ++i)
        out.centre += coefficients[i] * centres_[i];
    std::vector<double> each(slots_.size(), 0.0);
    for (std::size_t k = 0; k < first_joint_slot_; ++k)
        each[k] = coefficients[owner_[k]];
    for (Eigen::Index j = 0; j < factor_.cols(); ++j) {
        for (Eigen::Index i = 0; i < factor_.rows(); ++i)
            each[first_joint_slot_ + static_cast<std::size_t>(j)] +=
                factor_(i, j) * coefficients[independent_ + static_cast<std::size_t>(i)];
    }
    if (adjusted_) {
        const Eigen::Index count = adjusted_->sd.size();
        Eigen::Map<Eigen::VectorXd>(&each[first_joint_slot_], count) =
            adjusted_
                ->over_deviations(
                    Eigen::Map<const Eigen::VectorXd>(coefficients.data() + independent_, count))
                .cwiseProduct(adjusted_->sd);
    }
    for (std::uint32_t k = 0; k < each.size(); ++k) {
        if (each[k] == 1.0) {
            out.row.plus.push_back(k);
        } else if (each[k] == -1.0) {
            out.row.minus.push_back(k);
        } else if (each[k] != 0.0) {
            out.row.others.push_back({k, static_cast<float>(each[k])});
        }
    }
    out.row.lower = static_cast<float>(lower - out.centre);
    out.row.upper = static_cast<float>(upper - out.centre);
    return out;
}

LinearSampled sample(const Sampler& sampler, std::span<const LinearCheck> checks,
                     const Sampling& sampling) {
    std::vector<LinearRow> rows;
    std::vector<double> centres;
    for (const LinearCheck& check : checks) {
        const Sampler::Row one =
            sampler.row(check.coefficients, check.constant, check.lower, check.upper);
        rows.push_back(one.row);
        centres.push_back(one.centre);
    }
    const Loops& set = loops().front();
    const PhiloxKey key = key_of(sampling.seed);
    const auto work = [&](std::uint64_t first, std::uint64_t last) {
        LinearTally tally{.rows = std::vector<LinearTally::Row>(rows.size())};
        std::vector<float> drawn(sampler.slots().size() * kBlock);
        for (std::uint64_t block = first; block < last; ++block) {
            set.draw(block * kBlock, sampler.slots(), key, drawn.data());
            set.tally(rows, drawn.data(), tally);
        }
        return tally;
    };
    const std::size_t n = rows.size();
    LinearSampled out{.mean = std::vector<double>(n),
                      .sd = std::vector<double>(n),
                      .outside = std::vector<std::uint64_t>(n)};
    const auto merge = [&](const LinearTally& tally) {
        out.samples += tally.samples;
        out.any += total_of(tally.any);
        out.total += total_of(tally.total);
        out.total_squares += total_of(tally.total_squares);
        for (std::size_t i = 0; i < n; ++i) {
            out.mean[i] += sum_of(tally.rows[i].sum);
            out.sd[i] += sum_of(tally.rows[i].squares);
            out.outside[i] += total_of(tally.rows[i].outside);
        }
    };
    constexpr double kAtOnce = 16.0;  // rows are added up in lanes
    // A draw takes as long as some such additions: only where there are many does it matter.
    const double draws = static_cast<double>(sampler.slots().size());
    const double work_per_sample = draws * (1.0 + static_cast<double>(n) / kAtOnce);
    run_rounds<LinearTally>(within(sampling, work_per_sample), work, merge, [&] {
        return narrow_enough(out.samples - out.any, out.samples, sampling.precision);
    });
    for (std::size_t i = 0; i < n; ++i) {
        const double off = out.mean[i] / static_cast<double>(out.samples);
        const double square = out.sd[i] / static_cast<double>(out.samples);
        out.sd[i] = std::sqrt(std::max(0.0, square - off * off));
        out.mean[i] = centres[i] + off;
    }
    return out;
}

Sampled sample(const Sampler& sampler, std::size_t outputs, const Evaluator& evaluator,
               const Sampling& sampling) {
    struct Sums {
        std::uint64_t samples = 0;
        std::vector<std::array<double, 3>> of;
    };
    const auto work = [&](std::uint64_t first, std::uint64_t last) {
        Sums sums{.of = std::vector<std::array<double, 3>>(outputs)};
        std::vector<double> values(sampler.variables() * kBlock);
        std::vector<double> found(outputs * kBlock);
        for (std::uint64_t block = first; block < last; ++block) {
            sampler.draw(block, sampling.seed, values);
            evaluator(values, found);
            const double* last_output = &found[(outputs - 1) * kBlock];
            for (std::size_t k = 0; k < outputs; ++k) {
                for (std::size_t s = 0; s < kBlock; ++s) {
                    const double y = found[k * kBlock + s];
                    sums.of[k][0] += y;
                    sums.of[k][1] += y * y;
                    sums.of[k][2] += y * last_output[s];
                }
            }
            sums.samples += kBlock;
        }
        return sums;
    };
    Sums all{.of = std::vector<std::array<double, 3>>(outputs)};
    const auto merge = [&](const Sums& sums) {
        all.samples += sums.samples;
        for (std::size_t k = 0; k < outputs; ++k)
            for (std::size_t m = 0; m < 3; ++m)
                all.of[k][m] += sums.of[k][m];
    };
    const double work_per_sample =
        static_cast<double>(outputs * sampler.variables()) + sampler.work_to_adjust();
    run_rounds<Sums>(within(sampling, work_per_sample), work, merge, [&] {
        return narrow_enough(static_cast<std::uint64_t>(std::llround(all.of[0][0])), all.samples,
                             sampling.precision);
    });
    Sampled out{.samples = all.samples};
    const auto n = static_cast<double>(all.samples);
    const double last_mean = all.of.back()[0] / n;
    for (const auto& [sum, squares, products] : all.of) {
        const double mean = sum / n;
        out.mean.push_back(mean);
        out.variance.push_back(std::max(0.0, squares / n - mean * mean));
        out.covariance_with_last.push_back(products / n - mean * last_mean);
    }
    return out;
}

}  // namespace trialfit::numerics
