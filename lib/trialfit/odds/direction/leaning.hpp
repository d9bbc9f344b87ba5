// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <trialfit/numerics/infinity.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <trialfit/stack/radial/axes.hpp>
#include <utility>
#include <vector>

// Gaps that eccentricities and tilts of unknown direction take from (stack/radial/axes.hpp).
namespace trialfit::odds {

/// width - taken >= lower and width + taken <= upper, where `taken` is, at whichever end takes
/// most, roams + |sum of the still vectors| + |sum of the turning vectors|. Each vector's length is
/// drawn from its size's spread and its direction uniform on the circle, all independent; one size
/// has one direction in all gaps. A length that a normal spread lets fall below nothing is its
/// amount the other way. Lengths in the file's unit.
struct Leaning {
    stack::Form width;
    stack::Form roams;
    std::vector<stack::Vectors> ends;
    double lower = -numerics::kInfinity;
    double upper = numerics::kInfinity;
};

/// Whether directions matter: with at most one vector that has a length on either side, the taken
/// is a sum of sizes like any other.
[[nodiscard]] bool directions_matter(const stack::Model& model,
                                     const std::vector<stack::Vectors>& ends);
[[nodiscard]] std::vector<stack::Vector> all_vectors(const std::vector<stack::Vectors>& ends);

/// Works out what some gaps lose in every sample of a block.
class Taken {
public:
    /// `spreads` must have taken in the roams' sizes and the vectors.
    Taken(const Spreads& spreads, std::span<const Leaning> leanings);

    /// What leaning k takes in sample s goes to taken[k * kBlock + s]; `values` as Sampler::draw
    /// lays them.
    void work_out(std::span<const double> values, std::span<double> taken) const;

private:
    struct Arrow {
        std::size_t column = 0;
        std::size_t direction = 0;  // into directions_
        double share = 0.0;
        double beyond = 0.0;
    };
    struct End {
        std::vector<Arrow> still;
        std::vector<Arrow> turning;
    };
    struct Row {
        double constant = 0.0;
        std::vector<std::pair<std::size_t, double>> roams;  // column, coefficient
        std::vector<End> ends;
    };
    [[nodiscard]] std::vector<Arrow> arrows(const Spreads& spreads,
                                            const std::vector<stack::Vector>& vectors);

    std::vector<Row> rows_;
    std::vector<std::size_t> directions_;  // columns of the angles that are needed
};

}  // namespace trialfit::odds
