// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <numeric>
#include <trialfit/numerics/linear/dense.hpp>
#include <trialfit/numerics/linear/feasible_set.hpp>
#include <trialfit/stack/model/ties.hpp>

namespace trialfit::stack {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;

// A coefficient below this is the rounding left by a cancellation, not a sensitivity.
constexpr double kCancelled = 1e-14;

// Eigenvalues below this share of the largest are none.
constexpr double kRank = 1e-12;

int root_of(std::vector<int>& parent, int i) {
    while (parent[static_cast<std::size_t>(i)] != i) {
        int& up = parent[static_cast<std::size_t>(i)];
        up = parent[static_cast<std::size_t>(up)];
        i = up;
    }
    return i;
}

// Closures that share a size fall into one set.
std::map<int, std::vector<int>> sets_of_closures(const std::vector<Form>& closures,
                                                 Eigen::Index sizes) {
    std::vector<int> parent(closures.size());
    std::iota(parent.begin(), parent.end(), 0);
    std::vector<int> first_with(static_cast<std::size_t>(sizes), -1);
    for (std::size_t c = 0; c < closures.size(); ++c) {
        for (Iterator it(closures[c].sensitivities); it; ++it) {
            int& first = first_with[static_cast<std::size_t>(it.index())];
            if (first < 0) first = static_cast<int>(c);
            parent[static_cast<std::size_t>(root_of(parent, static_cast<int>(c)))] =
                root_of(parent, first);
        }
    }
    std::map<int, std::vector<int>> sets;
    for (std::size_t c = 0; c < closures.size(); ++c) {
        sets[root_of(parent, static_cast<int>(c))].push_back(static_cast<int>(c));
    }
    return sets;
}

// Closures that were used up to find sizes that nobody has measured.
bool says_nothing(const std::vector<Form>& closures, const std::vector<int>& members) {
    return std::ranges::all_of(members, [&](int closure) {
        const Form& form = closures[static_cast<std::size_t>(closure)];
        return form.sensitivities.nonZeros() == 0 && form.constant == 0.0;
    });
}

numerics::LinearProgram program_of(const Eigen::MatrixXd& rows, const Eigen::VectorXd& right,
                                   const std::vector<int>& sizes, const SizeColumns& all) {
    const auto n = static_cast<Eigen::Index>(sizes.size());
    numerics::LinearProgram program{.objective = Eigen::VectorXd::Zero(n),
                                    .rows = rows,
                                    .right = right,
                                    .lower = Eigen::VectorXd(n),
                                    .upper = Eigen::VectorXd(n)};
    for (Eigen::Index j = 0; j < n; ++j) {
        program.lower[j] = all.lower[sizes[static_cast<std::size_t>(j)]];
        program.upper[j] = all.upper[sizes[static_cast<std::size_t>(j)]];
    }
    return program;
}

}  // namespace

Ties::Ties(const std::vector<Form>& closures, const SizeColumns& sizes) {
    if (closures.empty()) return;
    group_of_size_.assign(static_cast<std::size_t>(sizes.sd.size()), -1);
    for (const auto& [root, members] : sets_of_closures(closures, sizes.sd.size())) {
        Group group;
        for (const int c : members) {
            for (Iterator it(closures[static_cast<std::size_t>(c)].sensitivities); it; ++it) {
                group.sizes.push_back(static_cast<int>(it.index()));
            }
        }
        std::ranges::sort(group.sizes);
        group.sizes.erase(std::unique(group.sizes.begin(), group.sizes.end()), group.sizes.end());
        const auto k = static_cast<Eigen::Index>(members.size());
        const auto m = static_cast<Eigen::Index>(group.sizes.size());
        if (m == 0 && says_nothing(closures, members)) continue;
        group.rows = Eigen::MatrixXd::Zero(k, m);
        group.right = Eigen::VectorXd(k);
        for (Eigen::Index row = 0; row < k; ++row) {
            const Form& closure =
                closures[static_cast<std::size_t>(members[static_cast<std::size_t>(row)])];
            group.rows.row(row) = part_of(closure, group).transpose();
            group.right[row] = -closure.constant;
        }
        Eigen::VectorXd variance(m);
        for (Eigen::Index j = 0; j < m; ++j) {
            const double sd = sizes.sd[group.sizes[static_cast<std::size_t>(j)]];
            variance[j] = sd * sd;
        }
        const Eigen::MatrixXd spread = variance.asDiagonal() * group.rows.transpose();
        group.weight = numerics::pseudo_inverse(group.rows * spread);
        group.gain = spread * group.weight;
        for (const int size : group.sizes) {
            group_of_size_[static_cast<std::size_t>(size)] = static_cast<int>(groups_.size());
        }
        // A closure of no sizes at all is a plain statement about constants.
        if (m > 0)
            group.within =
                numerics::FeasibleSet::of(program_of(group.rows, group.right, group.sizes, sizes));
        const bool meets =
            m == 0 ? group.right.cwiseAbs().maxCoeff() < 1e-9 : group.within.has_value();
        if (!meets) contradictions_.push_back(members);
        groups_.push_back(std::move(group));
    }
}

Eigen::VectorXd Ties::part_of(const Form& form, const Group& group) {
    Eigen::VectorXd part(static_cast<Eigen::Index>(group.sizes.size()));
    std::size_t j = 0;
    for (Iterator it(form.sensitivities); it; ++it) {
        while (j < group.sizes.size() && group.sizes[j] < it.index())
            part[static_cast<Eigen::Index>(j++)] = 0.0;
        if (j < group.sizes.size() && group.sizes[j] == it.index())
            part[static_cast<Eigen::Index>(j++)] = it.value();
    }
    while (j < group.sizes.size())
        part[static_cast<Eigen::Index>(j++)] = 0.0;
    return part;
}

Eigen::SparseVector<double> Ties::sparse_part_of(const Form& form, const Group& group) {
    Eigen::SparseVector<double> part(static_cast<Eigen::Index>(group.sizes.size()));
    for (Iterator it(form.sensitivities); it; ++it) {
        const auto size = static_cast<int>(it.index());
        const auto place = std::ranges::lower_bound(group.sizes, size);
        if (place != group.sizes.end() && *place == size)
            part.insertBack(place - group.sizes.begin()) = it.value();
    }
    return part;
}

std::vector<int> Ties::groups_touched(const Form& form) const {
    std::vector<int> touched;
    if (empty()) return touched;
    for (Iterator it(form.sensitivities); it; ++it) {
        const int group = group_of_size_[static_cast<std::size_t>(it.index())];
        if (group >= 0 && (touched.empty() || touched.back() != group)) touched.push_back(group);
    }
    if (touched.size() < 2) return touched;
    std::ranges::sort(touched);
    touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
    return touched;
}

bool Ties::spreads(const Form& form, const SizeColumns& sizes) const {
    if (empty()) return false;
    for (Iterator it(form.sensitivities); it; ++it) {
        const bool tied = group_of_size_[static_cast<std::size_t>(it.index())] >= 0;
        if (tied && it.value() != 0.0 && sizes.half_width[it.index()] > 0.0) return true;
    }
    return false;
}

Form Ties::adjusted(const Form& form) const {
    const std::vector<int> touched = groups_touched(form);
    if (touched.empty()) return form;
    const auto group = [this](int g) -> const Group& {
        return groups_[static_cast<std::size_t>(g)];
    };
    Form adjusted = adjusted_by(group(touched.front()), form, form);
    for (std::size_t i = 1; i < touched.size(); ++i)
        adjusted = adjusted_by(group(touched[i]), form, adjusted);
    adjusted.sensitivities.prune(1.0, kCancelled);
    return adjusted;
}

// `adjusted` less what the group takes off `form`; the sizes of both stand in order.
Form Ties::adjusted_by(const Group& group, const Form& form, const Form& adjusted) {
    const Eigen::VectorXd share = group.gain.transpose() * part_of(form, group);
    const Eigen::VectorXd taken = group.rows.transpose() * share;
    Form out{.constant = adjusted.constant + share.dot(group.right),
             .sensitivities = Eigen::SparseVector<double>(form.sensitivities.size())};
    out.sensitivities.reserve(adjusted.sensitivities.nonZeros() + taken.size());
    const auto put = [&out](int size, double sensitivity) {
        if (sensitivity != 0.0) out.sensitivities.insertBack(size) = sensitivity;
    };
    Iterator it(adjusted.sensitivities);
    for (Eigen::Index j = 0; j < taken.size(); ++j) {
        const int size = group.sizes[static_cast<std::size_t>(j)];
        for (; it && it.index() < size; ++it)
            put(static_cast<int>(it.index()), it.value());
        double sensitivity = -taken[j];
        if (it && it.index() == size) {
            sensitivity = it.value() - taken[j];
            ++it;
        }
        put(size, sensitivity);
    }
    for (; it; ++it)
        put(static_cast<int>(it.index()), it.value());
    return out;
}

Ties::Adjustment Ties::adjust(const SizeColumns& sizes, const Eigen::VectorXd& x) const {
    Adjustment all{.residual = Eigen::VectorXd::Zero(x.size()),
                   .cofactor = Eigen::VectorXd::Zero(x.size())};
    for (const Group& group : groups_) {
        const auto m = static_cast<Eigen::Index>(group.sizes.size());
        Eigen::VectorXd here(m);
        Eigen::VectorXd variance(m);
        for (Eigen::Index j = 0; j < m; ++j) {
            const int size = group.sizes[static_cast<std::size_t>(j)];
            here[j] = x[size];
            variance[j] = sizes.sd[size] * sizes.sd[size];
        }
        const Eigen::VectorXd misclosure = group.rows * here - group.right;
        const Eigen::MatrixXd spread = variance.asDiagonal() * group.rows.transpose();
        const Eigen::VectorXd residual = -group.gain * misclosure;
        const Eigen::VectorXd cofactor = group.gain.cwiseProduct(spread).rowwise().sum();
        for (Eigen::Index j = 0; j < m; ++j) {
            all.residual[group.sizes[static_cast<std::size_t>(j)]] = residual[j];
            all.cofactor[group.sizes[static_cast<std::size_t>(j)]] = cofactor[j];
        }
        const auto [values, vectors] = numerics::symmetric_eigen(group.rows * spread);
        const double least = kRank * std::max(values.maxCoeff(), 1e-300);
        for (Eigen::Index i = 0; i < values.size(); ++i) {
            if (values[i] <= least) continue;
            const double along = vectors.col(i).dot(misclosure);
            all.chi_square += along * along / values[i];
            all.log_det += std::log(values[i]);
            ++all.freedom;
        }
    }
    return all;
}

Ties::CommonError Ties::common_error(const Eigen::VectorXd& x,
                                     const Eigen::VectorXd& marked) const {
    double shown = 0.0;
    double weight = 0.0;
    for (const Group& group : groups_) {
        const auto pick = [&](const Eigen::VectorXd& all) {
            Eigen::VectorXd part(static_cast<Eigen::Index>(group.sizes.size()));
            for (std::size_t j = 0; j < group.sizes.size(); ++j)
                part[static_cast<Eigen::Index>(j)] = all[group.sizes[j]];
            return part;
        };
        const Eigen::VectorXd along = group.rows * pick(marked);
        const Eigen::VectorXd misclosure = group.rows * pick(x) - group.right;
        shown += along.dot(group.weight * misclosure);
        weight += along.dot(group.weight * along);
    }
    if (weight <= 0.0) return {};
    return {.amount = shown / weight,
            .sd = 1.0 / std::sqrt(weight),
            .chi_square_drop = shown * shown / weight};
}

Ties::Joint Ties::joint(const std::vector<int>& tied, const SizeColumns& sizes) const {
    const Adjustment adjustment = adjust(sizes, sizes.middle);
    const auto count = static_cast<Eigen::Index>(tied.size());
    Joint all{.means = Eigen::VectorXd(count), .covariance = Eigen::MatrixXd::Zero(count, count)};
    std::map<int, std::vector<Eigen::Index>> of_group;
    for (Eigen::Index i = 0; i < count; ++i) {
        const int size = tied[static_cast<std::size_t>(i)];
        all.means[i] = sizes.middle[size] + adjustment.residual[size];
        all.covariance(i, i) = sizes.sd[size] * sizes.sd[size];
        of_group[group_of_size_[static_cast<std::size_t>(size)]].push_back(i);
    }
    for (const auto& [g, members] : of_group) {
        const Group& group = groups_[static_cast<std::size_t>(g)];
        const auto m = static_cast<Eigen::Index>(members.size());
        Eigen::MatrixXd gain(m, group.rows.rows());
        Eigen::MatrixXd spread(m, group.rows.rows());
        for (Eigen::Index i = 0; i < m; ++i) {
            const Eigen::Index at = members[static_cast<std::size_t>(i)];
            const int size = tied[static_cast<std::size_t>(at)];
            const auto place = std::ranges::lower_bound(group.sizes, size);
            const Eigen::Index column = place - group.sizes.begin();
            gain.row(i) = group.gain.row(column);
            spread.row(i) = all.covariance(at, at) * group.rows.col(column).transpose();
        }
        const Eigen::MatrixXd taken = gain * spread.transpose();
        for (Eigen::Index i = 0; i < m; ++i)
            for (Eigen::Index j = 0; j < m; ++j)
                all.covariance(members[static_cast<std::size_t>(i)],
                               members[static_cast<std::size_t>(j)]) -=
                    (taken(i, j) + taken(j, i)) / 2.0;
    }
    return all;
}

double Ties::covariance(const Form& a, const Form& b, const SizeColumns& sizes) const {
    const Form first = adjusted(a);
    // (I - G A) V is symmetric, so one of the two may stay as it is.
    return first.sensitivities.cwiseProduct(sizes.sd.cwiseAbs2()).dot(b.sensitivities);
}

Range Ties::extremes(const Form& form, const SizeColumns& sizes) const {
    Range range{.lo = form.constant, .hi = form.constant};
    for (Iterator it(form.sensitivities); it; ++it) {
        const bool tied = !empty() && group_of_size_[static_cast<std::size_t>(it.index())] >= 0;
        if (tied) continue;
        if (std::isinf(sizes.half_width[it.index()]))
            return {.lo = -sizes.half_width[it.index()], .hi = sizes.half_width[it.index()]};
        const double centre = it.value() * sizes.middle[it.index()];
        const double reach = std::abs(it.value()) * sizes.half_width[it.index()];
        range.lo += centre - reach;
        range.hi += centre + reach;
    }
    for (const int g : groups_touched(form)) {
        const Group& group = groups_[static_cast<std::size_t>(g)];
        if (!group.within) continue;
        const Eigen::SparseVector<double> objective = sparse_part_of(form, group);
        const numerics::FeasibleSet::Extremes within = group.within->extremes(objective);
        range.lo += within.least;
        range.hi += within.greatest;
    }
    return range;
}

}  // namespace trialfit::stack
