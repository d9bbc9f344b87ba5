// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/numerics/distribution/bivariate_normal.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/together/together.hpp>
#include <utility>

namespace trialfit::odds {

namespace {

// A sampled chance kept within what the exact single chances allow: as likely to fail as the
// likeliest single failure at least, as their sum at most (C. E. Bonferroni, 1936). In the tail,
// where few draws or none are seen, that is what is known.
Chance within_bounds(const numerics::Probability& sampled, double likeliest, double sum) {
    const double most = std::min(1.0, sum);
    const auto kept = [&](double holds) { return std::clamp(holds, 1.0 - most, 1.0 - likeliest); };
    return {.holds = {.value = kept(sampled.value),
                      .lower = kept(sampled.lower),
                      .upper = kept(sampled.upper)},
            .fails = std::clamp(1.0 - sampled.value, likeliest, most)};
}

// A demand that may fail and may not, with its exact chance to.
struct AtStake {
    const LimitedForm* demand = nullptr;
    double fails = 0.0;
    numerics::LinearCheck row;
};

// Rows beyond this are not compared with each other.
constexpr std::size_t kMostCompared = 64;
// Rows beyond this, the likeliest to fail first, are not sampled: by what they may fail, the chance
// is told less sharply.
constexpr std::size_t kMostRows = 1000;

struct Rows {
    std::vector<AtStake> all;
    double left_out = 0.0;  ///< the sum of the chances to fail of those beyond
};

// The demands that may fail, likeliest first, without those that others imply.
Rows rows_of(const std::vector<LimitedForm>& demands, const Spreads& spreads) {
    std::vector<AtStake> all;
    for (const LimitedForm& demand : demands) {
        if (demands.size() > 1 && never_fails(spreads, demand)) continue;
        const double fails = failing(spreads, demand);
        // What cannot fail need not be sampled.
        if (fails > 0.0) all.push_back({.demand = &demand, .fails = fails});
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const AtStake& a, const AtStake& b) { return a.fails > b.fails; });
    Rows rows;
    std::vector<AtStake>& out = rows.all;
    for (AtStake& each : all) {
        if (out.size() == kMostRows) {
            rows.left_out += each.fails;
            continue;
        }
        const auto follows = [&](const AtStake& surer) {
            return implied(spreads, *each.demand, *surer.demand);
        };
        if (out.size() <= kMostCompared && std::any_of(out.begin(), out.end(), follows)) continue;
        const LimitedForm& demand = *each.demand;
        each.row = spreads.row(demand.form, demand.lower, demand.upper);
        out.push_back(std::move(each));
    }
    return rows;
}

// A chance of which some demands were left out.
Chance without(Chance chance, double left_out) {
    chance.holds.lower = std::max(0.0, chance.holds.lower - left_out);
    return chance;
}

// A linear check over the sizes that it hangs on only.
struct Sparse {
    std::vector<std::pair<std::size_t, double>> terms;
    double constant = 0.0;
    double lower = 0.0;
    double upper = 0.0;

    explicit Sparse(const numerics::LinearCheck& check)
        : constant(check.constant), lower(check.lower), upper(check.upper) {
        for (std::size_t i = 0; i < check.coefficients.size(); ++i)
            if (check.coefficients[i] != 0.0) terms.emplace_back(i, check.coefficients[i]);
    }

    void work_out(std::span<const double> values, std::span<double> into) const {
        std::fill(into.begin(), into.end(), constant);
        for (const auto& [column, coefficient] : terms)
            for (std::size_t s = 0; s < into.size(); ++s)
                into[s] += coefficient * values[column * into.size() + s];
    }
};

// Samples linear checks and leaning gaps at once. The control is the number of linear checks that
// fail, counting each leaning gap as it would be in the worst directions.
class Mixed {
public:
    Mixed(const std::vector<AtStake>& linear, const std::vector<AtStake>& at_worst,
          const std::vector<Leaning>& leanings, const Spreads& spreads)
        : leanings_(leanings), taken_(spreads, leanings) {
        for (const AtStake& each : linear)
            linear_.emplace_back(each.row);
        for (const AtStake& each : at_worst)
            at_worst_.emplace_back(each.row);
        for (const Leaning& each : leanings)
            widths_.emplace_back(spreads.row(each.width, each.lower, each.upper));
    }

    void operator()(std::span<const double> values, std::span<double> outputs) const {
        const auto all = outputs.subspan(0, numerics::kBlock);
        const auto count = outputs.subspan(numerics::kBlock, numerics::kBlock);
        std::fill(all.begin(), all.end(), 1.0);
        std::fill(count.begin(), count.end(), 0.0);
        std::vector<double> at(numerics::kBlock);
        const auto fails = [&](const Sparse& row, std::size_t s) {
            return at[s] < row.lower || at[s] > row.upper;
        };
        for (const auto* rows : {&linear_, &at_worst_}) {
            for (const Sparse& row : *rows) {
                row.work_out(values, at);
                for (std::size_t s = 0; s < numerics::kBlock; ++s) {
                    if (!fails(row, s)) continue;
                    count[s] += 1.0;
                    if (rows == &linear_) all[s] = 0.0;
                }
            }
        }
        std::vector<double> lost(leanings_.size() * numerics::kBlock);
        taken_.work_out(values, lost);
        for (std::size_t k = 0; k < widths_.size(); ++k) {
            widths_[k].work_out(values, at);
            const double* take = &lost[k * numerics::kBlock];
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                if (at[s] - take[s] < widths_[k].lower || at[s] + take[s] > widths_[k].upper)
                    all[s] = 0.0;
        }
    }

private:
    std::vector<Sparse> linear_;
    std::vector<Sparse> at_worst_;
    const std::vector<Leaning>& leanings_;
    Taken taken_;
    std::vector<Sparse> widths_;
};

double sum_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double each : values)
        sum += each;
    return sum;
}

double greatest_of(const std::vector<double>& values) {
    double most = 0.0;
    for (const double each : values)
        most = std::max(most, each);
    return most;
}

Chance exact(double fails) {
    const double holds = 1.0 - fails;
    return {.holds = {.value = holds, .lower = holds, .upper = holds}, .fails = fails};
}

bool shares(const std::vector<bool>& a, const std::vector<bool>& b) {
    for (std::size_t i = 0; i < a.size(); ++i)
        if (a[i] && b[i]) return true;
    return false;
}

// The rows in lots that share no size with each other; the tied sizes count as one.
std::vector<std::vector<const AtStake*>> lots(const std::vector<AtStake>& rows,
                                              const Spreads& spreads) {
    const std::size_t untied = spreads.population().sizes.size();
    std::vector<std::vector<const AtStake*>> out;
    std::vector<std::vector<bool>> used;
    for (const AtStake& row : rows) {
        std::vector<bool> own(untied + 1, false);
        for (std::size_t i = 0; i < row.row.coefficients.size(); ++i)
            if (row.row.coefficients[i] != 0.0) own[std::min(i, untied)] = true;
        std::vector<const AtStake*> lot = {&row};
        for (std::size_t k = 0; k < out.size();) {
            if (!shares(used[k], own)) {
                ++k;
                continue;
            }
            lot.insert(lot.begin(), out[k].begin(), out[k].end());
            for (std::size_t i = 0; i < own.size(); ++i)
                own[i] = own[i] || used[k][i];
            out.erase(out.begin() + static_cast<std::ptrdiff_t>(k));
            used.erase(used.begin() + static_cast<std::ptrdiff_t>(k));
        }
        out.push_back(std::move(lot));
        used.push_back(std::move(own));
    }
    return out;
}

// The chance that two rows fail together where they are jointly normal; else nothing.
std::optional<double> both_fail(const Spreads& spreads, const numerics::LinearCheck& a,
                                const numerics::LinearCheck& b) {
    const numerics::Population& all = spreads.population();
    double aa = 0.0;
    double bb = 0.0;
    double ab = 0.0;
    double mean_a = a.constant;
    double mean_b = b.constant;
    const std::size_t untied = all.sizes.size();
    for (std::size_t i = 0; i < untied; ++i) {
        if (a.coefficients[i] == 0.0 && b.coefficients[i] == 0.0) continue;
        if (all.sizes[i].kind != numerics::DistributionKind::normal &&
            all.sizes[i].kind != numerics::DistributionKind::exact)
            return std::nullopt;
        const numerics::Moments own = moments(all.sizes[i]);
        mean_a += a.coefficients[i] * own.mean;
        mean_b += b.coefficients[i] * own.mean;
        aa += a.coefficients[i] * a.coefficients[i] * own.variance;
        bb += b.coefficients[i] * b.coefficients[i] * own.variance;
        ab += a.coefficients[i] * b.coefficients[i] * own.variance;
    }
    if (all.means.size() > 0) {
        const Eigen::VectorXd tied_a =
            Eigen::Map<const Eigen::VectorXd>(&a.coefficients[untied], all.means.size());
        const Eigen::VectorXd tied_b =
            Eigen::Map<const Eigen::VectorXd>(&b.coefficients[untied], all.means.size());
        mean_a += tied_a.dot(all.means);
        mean_b += tied_b.dot(all.means);
        aa += all.joint_covariance(tied_a, tied_a);
        bb += all.joint_covariance(tied_b, tied_b);
        ab += all.joint_covariance(tied_a, tied_b);
    }
    if (aa <= 0.0 || bb <= 0.0) return std::nullopt;
    const double r = std::clamp(ab / std::sqrt(aa * bb), -1.0, 1.0);
    double both = 0.0;
    // Each row fails under its lower limit or over its upper one: in four corners both do.
    for (const double side_a : {1.0, -1.0}) {
        for (const double side_b : {1.0, -1.0}) {
            const double h = side_a * ((side_a > 0.0 ? a.lower : a.upper) - mean_a) / std::sqrt(aa);
            const double k = side_b * ((side_b > 0.0 ? b.lower : b.upper) - mean_b) / std::sqrt(bb);
            both += numerics::bivariate_normal(h, k, side_a * side_b * r);
        }
    }
    return both;
}

// The rows' chance to hold all, of rows that share sizes with each other.
Chance chance_of_lot(const std::vector<const AtStake*>& lot, const Spreads& spreads,
                     const numerics::Sampler& sampler, const numerics::Sampling& sampling) {
    if (lot.size() == 1) return exact(lot.front()->fails);
    if (lot.size() == 2) {
        const auto both = both_fail(spreads, lot[0]->row, lot[1]->row);
        if (both)
            return exact(
                std::min(1.0, std::max(lot[0]->fails, lot[0]->fails + lot[1]->fails - *both)));
    }
    std::vector<numerics::LinearCheck> rows;
    std::vector<double> fails;
    for (const AtStake* each : lot) {
        rows.push_back(each->row);
        fails.push_back(each->fails);
    }
    const numerics::LinearSampled sampled = sample(sampler, rows, sampling);
    Chance chance = within_bounds(all_hold(sampled, fails), greatest_of(fails), sum_of(fails));
    chance.samples = sampled.samples;
    return chance;
}

// What is independent multiplies.
Chance product(const Chance& a, const Chance& b) {
    return {.holds = {.value = a.holds.value * b.holds.value,
                      .lower = a.holds.lower * b.holds.lower,
                      .upper = a.holds.upper * b.holds.upper},
            .fails = a.fails + b.fails * (1.0 - a.fails),
            .samples = std::max(a.samples, b.samples)};
}

}  // namespace

Chance chance_of(const std::vector<LimitedForm>& demands, const std::vector<LeaningDemand>& leaning,
                 const Spreads& spreads, const numerics::Sampler& sampler,
                 const numerics::Sampling& sampling) {
    const Rows rows = rows_of(demands, spreads);
    const std::vector<AtStake>& linear = rows.all;
    double left_out = rows.left_out;
    if (!linear.empty() && linear.front().fails >= 1.0) return exact(1.0);
    std::vector<AtStake> at_worst;
    std::vector<Leaning> leanings;
    double surely = linear.empty() ? 0.0 : linear.front().fails;
    for (const LeaningDemand& each : leaning) {
        const Rows worst = rows_of(each.at_worst, spreads);
        if (worst.all.empty()) continue;
        left_out += worst.left_out;
        const Leaning& gap = each.leaning;
        surely = std::max(
            surely, failing(spreads, {.form = gap.width, .lower = gap.lower, .upper = gap.upper}));
        at_worst.insert(at_worst.end(), worst.all.begin(), worst.all.end());
        leanings.push_back(gap);
    }
    if (surely >= 1.0) return exact(1.0);
    if (leanings.empty()) {
        Chance all;
        for (const auto& lot : lots(linear, spreads))
            all = product(all, chance_of_lot(lot, spreads, sampler, sampling));
        return without(all, left_out);
    }
    double sum = 0.0;
    for (const std::vector<AtStake>* list : {&linear, &std::as_const(at_worst)})
        for (const AtStake& each : *list)
            sum += each.fails;
    const Mixed mixed(linear, at_worst, leanings, spreads);
    numerics::Sampling bound = sampling;  // a sample takes more than its two outputs
    bound.most_work /= 1.0 + static_cast<double>(leanings.size() + linear.size()) / 10.0;
    const numerics::Sampled sampled = sample(sampler, 2, mixed, bound);
    Chance chance = within_bounds(controlled(sampled, 0, sum), surely, sum + left_out);
    chance.samples = sampled.samples;
    return without(chance, left_out);
}

}  // namespace trialfit::odds
