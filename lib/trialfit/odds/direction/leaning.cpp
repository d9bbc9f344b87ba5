// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <trialfit/numerics/distribution/complex_batch.hpp>
#include <trialfit/odds/direction/leaning.hpp>

namespace trialfit::odds {

namespace {

using Block = std::array<double, numerics::kBlock>;

// Cosines and sines of each needed direction, a block each.
struct Compass {
    std::vector<double> cosine;
    std::vector<double> sine;
};

Compass compass(const std::vector<std::size_t>& columns, std::span<const double> values) {
    Compass out{.cosine = std::vector<double>(columns.size() * numerics::kBlock),
                .sine = std::vector<double>(columns.size() * numerics::kBlock)};
    std::array<double, numerics::ComplexBatch::kSize> angle{};
    std::array<double, numerics::ComplexBatch::kSize> sine{};
    std::array<double, numerics::ComplexBatch::kSize> cosine{};
    for (std::size_t d = 0; d < columns.size(); ++d) {
        for (std::size_t s = 0; s < numerics::kBlock; s += numerics::ComplexBatch::kSize) {
            const auto from =
                values.subspan(columns[d] * numerics::kBlock + s, numerics::ComplexBatch::kSize);
            std::copy(from.begin(), from.end(), angle.begin());
            numerics::sines(angle, sine, cosine);
            std::copy(sine.begin(), sine.end(), &out.sine[d * numerics::kBlock + s]);
            std::copy(cosine.begin(), cosine.end(), &out.cosine[d * numerics::kBlock + s]);
        }
    }
    return out;
}

bool has_length(const stack::Model& model, const stack::Vector& each) {
    const auto size = static_cast<Eigen::Index>(each.size);
    const double most = std::max(std::abs(model.columns().lower[size] + each.beyond),
                                 std::abs(model.columns().upper[size] + each.beyond));
    return each.share != 0.0 && most > 0.0;
}

}  // namespace

bool directions_matter(const stack::Model& model, const std::vector<stack::Vectors>& ends) {
    const auto several = [&](const std::vector<stack::Vector>& side) {
        return std::count_if(side.begin(), side.end(), [&](const stack::Vector& each) {
                   return has_length(model, each);
               }) > 1;
    };
    return std::any_of(ends.begin(), ends.end(), [&](const stack::Vectors& end) {
        return several(end.still) || several(end.turning);
    });
}

std::vector<stack::Vector> all_vectors(const std::vector<stack::Vectors>& ends) {
    std::vector<stack::Vector> all;
    for (const stack::Vectors& end : ends) {
        all.insert(all.end(), end.still.begin(), end.still.end());
        all.insert(all.end(), end.turning.begin(), end.turning.end());
    }
    return all;
}

Taken::Taken(const Spreads& spreads, std::span<const Leaning> leanings) {
    rows_.reserve(leanings.size());
    for (const Leaning& each : leanings) {
        Row row{.constant = each.roams.constant};
        for (Eigen::SparseVector<double>::InnerIterator it(each.roams.sensitivities); it; ++it)
            row.roams.emplace_back(spreads.column_of(static_cast<int>(it.index())), it.value());
        for (const stack::Vectors& end : each.ends)
            row.ends.push_back(
                {.still = arrows(spreads, end.still), .turning = arrows(spreads, end.turning)});
        rows_.push_back(std::move(row));
    }
}

std::vector<Taken::Arrow> Taken::arrows(const Spreads& spreads,
                                        const std::vector<stack::Vector>& vectors) {
    std::vector<Arrow> all;
    all.reserve(vectors.size());
    for (const stack::Vector& each : vectors) {
        const std::size_t column = spreads.direction_of(each.size);
        const auto known = std::find(directions_.begin(), directions_.end(), column);
        all.push_back({.column = spreads.column_of(each.size),
                       .direction = static_cast<std::size_t>(known - directions_.begin()),
                       .share = each.share,
                       .beyond = each.beyond});
        if (known == directions_.end()) directions_.push_back(column);
    }
    return all;
}

void Taken::work_out(std::span<const double> values, std::span<double> taken) const {
    const Compass round = compass(directions_, values);
    const auto add_length = [&](const std::vector<Arrow>& side, Block& to) {
        if (side.empty()) return;
        Block x{};
        Block y{};
        for (const Arrow& each : side) {
            const double* size = &values[each.column * numerics::kBlock];
            const double* cosine = &round.cosine[each.direction * numerics::kBlock];
            const double* sine = &round.sine[each.direction * numerics::kBlock];
            for (std::size_t s = 0; s < numerics::kBlock; ++s) {
                const double length = each.share * (size[s] + each.beyond);
                x[s] += length * cosine[s];
                y[s] += length * sine[s];
            }
        }
        for (std::size_t s = 0; s < numerics::kBlock; ++s)
            to[s] += std::sqrt(x[s] * x[s] + y[s] * y[s]);
    };
    for (std::size_t k = 0; k < rows_.size(); ++k) {
        Block most{};
        for (const End& end : rows_[k].ends) {
            Block here{};
            add_length(end.still, here);
            add_length(end.turning, here);
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                most[s] = std::max(most[s], here[s]);
        }
        double* out = &taken[k * numerics::kBlock];
        for (std::size_t s = 0; s < numerics::kBlock; ++s)
            out[s] = most[s] + rows_[k].constant;
        for (const auto& [column, coefficient] : rows_[k].roams)
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                out[s] += coefficient * values[column * numerics::kBlock + s];
    }
}

}  // namespace trialfit::odds
