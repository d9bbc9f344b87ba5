// SPDX-License-Identifier: MIT
#include <trialfit/numerics/linear/simplex.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace trialfit::numerics {

namespace {
constexpr double kFeasible = 1e-10;   // a basic variable may lie this far outside its bounds
constexpr double kLeastPivot = 1e-9;  // smaller tableau entries are taken for rounding

std::ptrdiff_t as_row(std::size_t row) {
    return static_cast<std::ptrdiff_t>(row);
}
std::ptrdiff_t as_column(std::size_t column) {
    return -1 - static_cast<std::ptrdiff_t>(column);
}
std::size_t column_at(std::ptrdiff_t place) {
    return static_cast<std::size_t>(-1 - place);
}
}  // namespace

Simplex::Simplex(std::size_t rows, std::size_t columns, const std::vector<double>& matrix)
    : rows_(rows),
      columns_(columns),
      stride_((columns + 3) / 4 * 4),
      tableau_(rows * stride_, 0.0),
      reduced_(stride_, 0.0),
      at_(stride_, 0.0),
      basics_(rows, 0.0),
      pivot_row_(stride_, 0.0),
      basic_(rows),
      nonbasic_(columns),
      place_(rows + columns),
      costs_(columns, 0.0),
      lower_(rows + columns, 0.0),
      upper_(rows + columns, 0.0) {
    for (std::size_t i = 0; i < rows; ++i) {
        std::copy_n(matrix.data() + i * columns, columns, row_of(i));
        basic_[i] = columns + i;
        place_[columns + i] = as_row(i);
    }
    for (std::size_t j = 0; j < columns; ++j) {
        nonbasic_[j] = j;
        place_[j] = as_column(j);
    }
}

void Simplex::set_cost(std::size_t column, double cost) {
    // c.x = d.x_N identically, so a change of one cost adds that change times x_j, written in the
    // nonbasic variables, to the reduced costs d.
    const double change = cost - costs_[column];
    if (change == 0.0) return;
    costs_[column] = cost;
    if (place_[column] < 0) {
        reduced_[column_at(place_[column])] += change;
        return;
    }
    const double* row = row_of(static_cast<std::size_t>(place_[column]));
    for (std::size_t k = 0; k < columns_; ++k)
        reduced_[k] += change * row[k];
}

double Simplex::value(std::size_t variable) const {
    const std::ptrdiff_t place = place_[variable];
    return place >= 0 ? basics_[static_cast<std::size_t>(place)] : at_[column_at(place)];
}

double Simplex::reduced_cost(std::size_t variable) const {
    const std::ptrdiff_t place = place_[variable];
    return place >= 0 ? 0.0 : reduced_[column_at(place)];
}

void Simplex::take_basis(const Simplex& other) {
    for (std::size_t variable = 0; variable < columns_ && variable < other.columns_; ++variable) {
        if (!other.is_basic(variable) || is_basic(variable)) continue;
        const std::size_t column = column_at(place_[variable]);
        std::size_t best = rows_;
        double largest = 1e-6;  // a start need not be complete: better no pivot than a poor one
        for (std::size_t i = 0; i < rows_; ++i) {
            if (basic_[i] < columns_) continue;
            const std::size_t same_row = basic_[i] - columns_;
            if (same_row < other.rows_ && other.is_basic(other.columns_ + same_row)) continue;
            const double entry = std::abs(row_of(i)[column]);
            if (entry > largest) {
                largest = entry;
                best = i;
            }
        }
        if (best < rows_) pivot(best, column);
    }
}

void Simplex::place_nonbasics() {
    for (std::size_t k = 0; k < columns_; ++k) {
        const double low = lower_[nonbasic_[k]];
        const double high = upper_[nonbasic_[k]];
        if (reduced_[k] > 0.0) {
            at_[k] = low;
        } else if (reduced_[k] < 0.0) {
            at_[k] = high;
        } else {
            at_[k] = std::abs(at_[k] - high) < std::abs(at_[k] - low) ? high : low;
        }
    }
}

void Simplex::recompute_basics() {
    for (std::size_t i = 0; i < rows_; ++i) {
        const double* row = row_of(i);
        double sum = 0.0;
        for (std::size_t k = 0; k < stride_; ++k)
            sum += row[k] * at_[k];
        basics_[i] = sum;
    }
    objective_ = 0.0;
    for (std::size_t k = 0; k < columns_; ++k)
        objective_ += reduced_[k] * at_[k];
}

std::size_t Simplex::most_violated() const {
    std::size_t worst = rows_;
    double most = kFeasible;
    for (std::size_t i = 0; i < rows_; ++i) {
        const double value = basics_[i];
        const double by = std::max(lower_[basic_[i]] - value, value - upper_[basic_[i]]);
        if (by > most) {
            most = by;
            worst = i;
        }
    }
    return worst;
}

void Simplex::shift_nonbasic(std::size_t column, double by) {
    at_[column] += by;
    objective_ += reduced_[column] * by;
    for (std::size_t i = 0; i < rows_; ++i)
        basics_[i] += row_of(i)[column] * by;
}

// One dual step: the basic variable of `row` goes to the bound it violates. False when nothing can
// bring it there: the program has no solution.
bool Simplex::step(std::size_t row) {
    const std::size_t leaving = basic_[row];
    const bool rises = basics_[row] < lower_[leaving];
    const double target = rises ? lower_[leaving] : upper_[leaving];
    const double* entries = row_of(row);
    candidates_.clear();
    for (std::size_t k = 0; k < columns_; ++k) {
        const double pull = rises ? entries[k] : -entries[k];
        if (std::abs(pull) < kLeastPivot) continue;
        const std::size_t variable = nonbasic_[k];
        if (lower_[variable] == upper_[variable]) continue;
        const bool at_lower = at_[k] == lower_[variable];
        if (at_lower != (pull > 0.0)) continue;
        candidates_.push_back({k, std::abs(reduced_[k] / pull)});
    }
    std::sort(candidates_.begin(), candidates_.end(), [&](const auto& a, const auto& b) {
        if (a.ratio != b.ratio) return a.ratio < b.ratio;
        return std::abs(entries[a.column]) > std::abs(entries[b.column]);
    });
    double missing = std::abs(target - basics_[row]);
    std::size_t passed = 0;
    for (; passed < candidates_.size(); ++passed) {
        const std::size_t k = candidates_[passed].column;
        const double room = upper_[nonbasic_[k]] - lower_[nonbasic_[k]];
        missing -= std::abs(entries[k]) * room;
        if (missing <= kFeasible) break;
    }
    if (passed == candidates_.size()) return false;
    for (std::size_t each = 0; each < passed; ++each) {
        const std::size_t k = candidates_[each].column;
        const std::size_t variable = nonbasic_[k];
        const double other = at_[k] == lower_[variable] ? upper_[variable] : lower_[variable];
        shift_nonbasic(k, other - at_[k]);
        at_[k] = other;
    }
    const std::size_t entering = candidates_[passed].column;
    const double by = (target - basics_[row]) / row_of(row)[entering];
    shift_nonbasic(entering, by);
    basics_[row] = target;
    pivot(row, entering);
    return true;
}

void Simplex::pivot(std::size_t row, std::size_t column) {
    double* leaving = row_of(row);
    const double inverse = 1.0 / leaving[column];
    for (std::size_t k = 0; k < stride_; ++k)
        pivot_row_[k] = -leaving[k] * inverse;
    pivot_row_[column] = inverse;
    std::copy(pivot_row_.begin(), pivot_row_.end(), leaving);
    const double* update = pivot_row_.data();
    const auto substitute = [&](double* target) {
        const double entry = target[column];
        if (entry == 0.0) return;
        target[column] = 0.0;
        for (std::size_t k = 0; k < stride_; ++k)
            target[k] += entry * update[k];
    };
    for (std::size_t i = 0; i < rows_; ++i) {
        if (i != row) substitute(row_of(i));
    }
    substitute(reduced_.data());
    std::swap(basic_[row], nonbasic_[column]);
    std::swap(basics_[row], at_[column]);
    place_[basic_[row]] = as_row(row);
    place_[nonbasic_[column]] = as_column(column);
}

Simplex::Outcome Simplex::solve(double cutoff, std::size_t iterations) {
    place_nonbasics();
    recompute_basics();
    for (std::size_t done = 0; done < iterations; ++done) {
        if (objective_ > cutoff) return Outcome::cutoff;
        const std::size_t row = most_violated();
        if (row == rows_) return Outcome::optimal;
        if (!step(row)) return Outcome::infeasible;
    }
    return Outcome::stalled;
}

}  // namespace trialfit::numerics
