// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/numerics/random/variates.hpp>
#include <vector>

namespace trialfit::numerics {

/// What is drawn: independent sizes, and after them sizes which are jointly normal (adjusted ones
/// with their covariance). Either may be empty. Lengths in the file's unit.
struct Population {
    std::vector<Distribution> sizes;
    Eigen::VectorXd means;
    Eigen::MatrixXd covariance;
    /// In place of the covariance, where there are many: deviations d, independent and normal with
    /// `sd`, less gain (rows d). Time and memory grow with the entries of the two and not with the
    /// square of the sizes.
    struct Adjusted {
        Eigen::VectorXd sd;
        Eigen::SparseMatrix<double> gain;
        Eigen::SparseMatrix<double> rows;

        /// `coefficients` of the adjusted sizes, over the deviations.
        [[nodiscard]] Eigen::VectorXd over_deviations(const Eigen::VectorXd& coefficients) const;
    };
    std::optional<Adjusted> adjusted{};

    /// Covariance of two sums of the jointly normal sizes.
    [[nodiscard]] double joint_covariance(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const;
};

/// Draws samples of a population by a counter-based generator: sample i is the same bits whatever
/// the number of threads, the batch or the machine. Values are good to 1e-6 of each size's spread.
class Sampler {
public:
    /// std::invalid_argument for a `beta` law other than the arcsine, and for a covariance that is
    /// not square of the means' length or has a clearly negative eigenvalue, or adjusted sizes that
    /// are not as many as the means.
    explicit Sampler(const Population& population);

    [[nodiscard]] std::size_t variables() const { return centres_.size(); }

    /// Samples block * kBlock to block * kBlock + kBlock - 1: size i of the block's sample s goes
    /// to values[i * kBlock + s]; `values` holds variables() * kBlock.
    void draw(std::uint64_t block, std::uint64_t seed, std::span<double> values) const;

    /// sum of coefficients * sizes + constant as a row over the slots, with the limits; `centre` is
    /// the row's value where every size is at its centre.
    struct Row {
        LinearRow row;
        double centre = 0.0;
    };
    [[nodiscard]] Row row(std::span<const double> coefficients, double constant, double lower,
                          double upper) const;
    [[nodiscard]] std::span<const Variate> slots() const { return slots_; }
    /// About how many multiplications adjusted sizes take for each sample; 0 where there are none.
    [[nodiscard]] double work_to_adjust() const;

private:
    void add(const Distribution& law);
    void add_adjusted(const std::vector<float>& drawn, std::span<double> values) const;

    std::vector<Variate> slots_;
    /// The size to which slot k belongs; past the independent sizes, the factor's column.
    std::vector<std::size_t> owner_;
    std::vector<double> centres_;
    std::size_t independent_ = 0;
    std::size_t first_joint_slot_ = 0;
    Eigen::MatrixXd factor_;
    std::optional<Population::Adjusted> adjusted_;
};

/// Enough for a chance to be told to about a hundredth.
inline constexpr std::uint64_t kLeastSamples = 10'000;

/// How much to sample.
struct Sampling {
    /// At most so many samples, rounded up to whole blocks of kBlock.
    std::uint64_t samples = 1'000'000;
    /// > 0: about so many multiplications in all at most, so fewer samples of what takes many for
    /// each; not fewer than kLeastSamples.
    double most_work = 0.0;
    std::uint64_t seed = 1;
    /// 0: as many as the machine has.
    unsigned threads = 0;
    /// > 0: stop early, once the 95 % interval of the probability judged is no wider than twice
    /// this. Looked at after set numbers of samples, so the answer does not hang on the threads.
    double precision = 0.0;
    /// Called from the calling thread after each round with the samples done, if set.
    std::function<void(std::uint64_t done, std::uint64_t most)> progress;
};

/// A linear check: sum of coefficients (one for each size) * sizes + constant within its limits.
struct LinearCheck {
    std::vector<double> coefficients;
    double constant = 0.0;
    double lower = 0.0;
    double upper = 0.0;
};

/// What sampling linear checks found.
struct LinearSampled {
    std::uint64_t samples = 0;
    /// Of each check: its mean and sd, and how many samples lay outside its limits.
    std::vector<double> mean;
    std::vector<double> sd;
    std::vector<std::uint64_t> outside;
    /// Samples with at least one check outside; the number of checks outside, summed over the
    /// samples; and its square, summed.
    std::uint64_t any = 0;
    std::uint64_t total = 0;
    std::uint64_t total_squares = 0;
};

/// Samples linear checks all at once; judged is the probability that all hold.
[[nodiscard]] LinearSampled sample(const Sampler& sampler, std::span<const LinearCheck> checks,
                                   const Sampling& sampling);

/// Works one block out: values as Sampler::draw lays them, output k of sample s to
/// outputs[k * kBlock + s]. Called from several threads at once.
using Evaluator = std::function<void(std::span<const double> values, std::span<double> outputs)>;

/// What sampling an evaluator found: of each output its mean, its variance and its covariance with
/// the last output (for use as a control).
struct Sampled {
    std::uint64_t samples = 0;
    std::vector<double> mean;
    std::vector<double> variance;
    std::vector<double> covariance_with_last;
};

/// Samples `outputs` outputs of an evaluator; judged is the mean of the first, 0 or 1 a sample.
/// What the evaluator throws is thrown on.
[[nodiscard]] Sampled sample(const Sampler& sampler, std::size_t outputs,
                             const Evaluator& evaluator, const Sampling& sampling);

}  // namespace trialfit::numerics
