// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <trialfit/stack/model/ties.hpp>

// What is asked of many tied sizes at once, without a matrix of all of them.
namespace trialfit::stack {

using FormIterator = Eigen::SparseVector<double>::InnerIterator;

std::size_t Ties::tied_sizes() const {
    std::size_t all = 0;
    for (const Group& group : groups_)
        all += group.sizes.size();
    return all;
}

std::vector<int> Ties::with_mates(const std::vector<int>& tied) const {
    std::vector<bool> wanted(groups_.size(), false);
    for (const int size : tied)
        wanted[static_cast<std::size_t>(group_of_size_[static_cast<std::size_t>(size)])] = true;
    std::vector<int> all;
    for (std::size_t g = 0; g < groups_.size(); ++g)
        if (wanted[g]) all.insert(all.end(), groups_[g].sizes.begin(), groups_[g].sizes.end());
    std::ranges::sort(all);
    return all;
}

Ties::Parted Ties::parted(const std::vector<int>& whole_groups, const SizeColumns& sizes) const {
    const Adjustment adjustment = adjust(sizes, sizes.middle);
    const auto count = static_cast<Eigen::Index>(whole_groups.size());
    Parted out{
        .means = Eigen::VectorXd(count), .sd = Eigen::VectorXd(count), .gain = {}, .rows = {}};
    std::map<int, Eigen::Index> first_row;  // of each group
    Eigen::Index closures = 0;
    std::vector<Eigen::Triplet<double>> gain;
    std::vector<Eigen::Triplet<double>> rows;
    for (Eigen::Index i = 0; i < count; ++i) {
        const int size = whole_groups[static_cast<std::size_t>(i)];
        out.means[i] = sizes.middle[size] + adjustment.residual[size];
        out.sd[i] = sizes.sd[size];
        const int g = group_of_size_[static_cast<std::size_t>(size)];
        const Group& group = groups_[static_cast<std::size_t>(g)];
        const auto [at, is_new] = first_row.try_emplace(g, closures);
        if (is_new) closures += group.rows.rows();
        const auto place = std::ranges::lower_bound(group.sizes, size);
        const Eigen::Index column = place - group.sizes.begin();
        for (Eigen::Index c = 0; c < group.rows.rows(); ++c) {
            gain.emplace_back(i, at->second + c, group.gain(column, c));
            rows.emplace_back(at->second + c, i, group.rows(c, column));
        }
    }
    out.gain.resize(count, closures);
    out.gain.setFromTriplets(gain.begin(), gain.end());
    out.rows.resize(closures, count);
    out.rows.setFromTriplets(rows.begin(), rows.end());
    return out;
}

namespace {

// Half-widths are squared in here.
void add(Ties::IfBetter& to, double sign, const Ties::IfBetter& more) {
    to.nominal += sign * more.nominal;
    to.middle += sign * more.middle;
    to.half_width += sign * more.half_width;
    to.worst = {.lo = to.worst.lo + sign * more.worst.lo, .hi = to.worst.hi + sign * more.worst.hi};
}

Ties::IfBetter term(double times, double nominal, double middle, double half_width) {
    const double reach = std::abs(times) * half_width;
    return {.nominal = times * nominal,
            .middle = times * middle,
            .half_width = reach * reach,
            .worst = {.lo = times * middle - reach, .hi = times * middle + reach}};
}

}  // namespace

// A form's share in one group, as it is and were a size of the group known better. With closures
// A x = b, V = diag(sd^2) and H = diag(half_width^2): the adjusted form takes u = M+ A V c off by
// the closures, and is c - A'u.
class Ties::Improved {
public:
    Improved(const Group& group, const Form& form, const SizeColumns& sizes)
        : group_(group), sizes_(sizes), objective_(sparse_part_of(form, group)) {
        const auto m = static_cast<Eigen::Index>(group.sizes.size());
        Eigen::VectorXd squares(m);
        Eigen::VectorXd nominal(m);
        Eigen::VectorXd middle(m);
        for (Eigen::Index j = 0; j < m; ++j) {
            const int size = group.sizes[static_cast<std::size_t>(j)];
            squares[j] = sizes.half_width[size] * sizes.half_width[size];
            nominal[j] = sizes.nominal[size];
            middle[j] = sizes.middle[size];
        }
        spread_ = Eigen::VectorXd::Zero(group.rows.rows());
        widths_ = Eigen::VectorXd::Zero(group.rows.rows());
        for (FormIterator it(objective_); it; ++it) {
            const double sd = sizes.sd[group.sizes[static_cast<std::size_t>(it.index())]];
            spread_ += it.value() * sd * sd * group.rows.col(it.index());
            widths_ += it.value() * squares[it.index()] * group.rows.col(it.index());
            own_ += it.value() * it.value() * squares[it.index()];
        }
        between_ = group.rows * squares.asDiagonal() * group.rows.transpose();
        at_nominal_ = group.rows * nominal - group.right;
        at_middle_ = group.rows * middle - group.right;
        nominal_ = objective_.dot(nominal);
        middle_ = objective_.dot(middle);
        const auto ends = group.within->extremes(objective_);
        now_ = adjusted(group.weight * spread_, own_, widths_);
        now_.worst = {.lo = ends.least, .hi = ends.greatest};
    }

    [[nodiscard]] const IfBetter& now() const { return now_; }

    // Of each in turn.
    [[nodiscard]] std::vector<std::optional<IfBetter>> with(const std::vector<Better>& all) const {
        std::vector<numerics::FeasibleSet::Narrowed> narrowed;
        narrowed.reserve(all.size());
        for (const Better& each : all)
            narrowed.push_back({.variable = column_of(each.size), .half_width = each.half_width});
        const auto ends = group_.within->extremes_if(objective_, narrowed);
        std::vector<std::optional<IfBetter>> found(all.size());
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (!ends[i]) continue;
            found[i] = with(all[i]);
            found[i]->worst = {.lo = ends[i]->least, .hi = ends[i]->greatest};
        }
        return found;
    }

private:
    [[nodiscard]] Eigen::Index column_of(int size) const {
        return std::ranges::lower_bound(group_.sizes, size) - group_.sizes.begin();
    }

    [[nodiscard]] IfBetter with(const Better& better) const {
        const Eigen::Index j = column_of(better.size);
        const double sd = sizes_.sd[better.size];
        const double half = sizes_.half_width[better.size];
        const double variance = better.sd * better.sd - sd * sd;
        const double squares = better.half_width * better.half_width - half * half;
        const double times = objective_.coeff(j);
        const Eigen::VectorXd row = group_.rows.col(j);
        const Eigen::VectorXd weighed = group_.weight * row;
        const Eigen::VectorXd spread = spread_ + times * variance * row;
        const double less = variance * weighed.dot(spread) / (1.0 + variance * row.dot(weighed));
        const Eigen::VectorXd share = group_.weight * spread - less * weighed;
        IfBetter found =
            adjusted(share, own_ + times * times * squares, widths_ + times * squares * row);
        const double off = share.dot(row);
        found.half_width += squares * off * off;
        return found;
    }

    // c - A'u: its half-width (c - A'u)' H (c - A'u), with `own` c' H c and `widths` A H c.
    [[nodiscard]] IfBetter adjusted(const Eigen::VectorXd& share, double own,
                                    const Eigen::VectorXd& widths) const {
        return {.nominal = nominal_ - share.dot(at_nominal_),
                .middle = middle_ - share.dot(at_middle_),
                .half_width = own - 2.0 * share.dot(widths) + share.dot(between_ * share),
                .worst = {}};
    }

    const Group& group_;
    const SizeColumns& sizes_;
    Eigen::SparseVector<double> objective_;  // c
    Eigen::VectorXd spread_;                 // A V c
    Eigen::VectorXd widths_;                 // A H c
    Eigen::MatrixXd between_;                // A H A'
    Eigen::VectorXd at_nominal_;             // A x - b
    Eigen::VectorXd at_middle_;
    double own_ = 0.0;  // c' H c
    double nominal_ = 0.0;
    double middle_ = 0.0;
    IfBetter now_;
};

std::vector<std::optional<Ties::IfBetter>> Ties::if_better(const Form& form,
                                                           const SizeColumns& sizes,
                                                           const std::vector<Better>& all) const {
    IfBetter now = term(form.constant, 1.0, 1.0, 0.0);
    for (FormIterator it(form.sensitivities); it; ++it)
        if (!tied(static_cast<int>(it.index())))
            add(now, 1.0,
                term(it.value(), sizes.nominal[it.index()], sizes.middle[it.index()],
                     sizes.half_width[it.index()]));
    std::vector<std::optional<IfBetter>> found(all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const int size = all[i].size;
        const double times = form.sensitivities.coeff(size);
        found[i] = IfBetter{};
        if (tied(size)) continue;
        add(*found[i], 1.0,
            term(times, sizes.nominal[size], sizes.middle[size], all[i].half_width));
        add(*found[i], -1.0,
            term(times, sizes.nominal[size], sizes.middle[size], sizes.half_width[size]));
    }
    for (const int g : groups_touched(form)) {
        const Improved group(groups_[static_cast<std::size_t>(g)], form, sizes);
        add(now, 1.0, group.now());
        std::vector<Better> own;
        std::vector<std::size_t> which;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (group_of_size_[static_cast<std::size_t>(all[i].size)] != g) continue;
            own.push_back(all[i]);
            which.push_back(i);
        }
        const std::vector<std::optional<IfBetter>> then = group.with(own);
        for (std::size_t k = 0; k < which.size(); ++k) {
            found[which[k]] = then[k];
            if (then[k]) add(*found[which[k]], -1.0, group.now());
        }
    }
    for (std::optional<IfBetter>& each : found) {
        if (!each) continue;
        add(*each, 1.0, now);
        each->half_width = std::sqrt(std::max(0.0, each->half_width));
    }
    return found;
}

}  // namespace trialfit::stack
