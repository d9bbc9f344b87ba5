// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/odds/together.hpp>
#include <utility>

namespace trialfit::odds {

namespace {

// A sampled chance kept within what the exact single chances allow: as likely to fail as the
// likeliest single failure at least, as their sum at most (C. E. Bonferroni, 1936). In the tail,
// where few draws or none are seen, that is what is known.
Chance within_bounds(const Probability& sampled, double likeliest, double sum) {
    const double most = std::min(1.0, sum);
    const auto kept = [&](double holds) { return std::clamp(holds, 1.0 - most, 1.0 - likeliest); };
    return {.holds = {.value = kept(sampled.value),
                      .lower = kept(sampled.lower),
                      .upper = kept(sampled.upper)},
            .fails = std::clamp(1.0 - sampled.value, likeliest, most)};
}

// The demands that may fail and may not, with their exact chances to.
struct Rows {
    std::vector<LinearCheck> rows;
    std::vector<double> failing;
    bool never = false;
};

Rows rows_of(const std::vector<Demand>& demands, const Spreads& spreads) {
    Rows out;
    for (const Demand& demand : demands) {
        const double fails = spreads.distribution(demand.form).outside(demand.lower, demand.upper);
        // What cannot fail need not be sampled.
        if (fails <= 0.0) continue;
        if (fails >= 1.0) out.never = true;
        out.rows.push_back(spreads.row(demand.form, demand.lower, demand.upper));
        out.failing.push_back(fails);
    }
    return out;
}

// A linear check over the sizes that it hangs on only.
struct Sparse {
    std::vector<std::pair<std::size_t, double>> terms;
    double constant = 0.0;
    double lower = 0.0;
    double upper = 0.0;

    explicit Sparse(const LinearCheck& check)
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
    Mixed(const std::vector<LinearCheck>& linear, const std::vector<LinearCheck>& at_worst,
          const std::vector<Leaning>& leanings, const Spreads& spreads)
        : linear_(linear.begin(), linear.end()),
          at_worst_(at_worst.begin(), at_worst.end()),
          leanings_(leanings),
          taken_(spreads, leanings) {
        for (const Leaning& each : leanings)
            widths_.emplace_back(spreads.row(each.width, each.lower, each.upper));
    }

    void operator()(std::span<const double> values, std::span<double> outputs) const {
        const auto all = outputs.subspan(0, kBlock);
        const auto count = outputs.subspan(kBlock, kBlock);
        std::fill(all.begin(), all.end(), 1.0);
        std::fill(count.begin(), count.end(), 0.0);
        std::vector<double> at(kBlock);
        const auto fails = [&](const Sparse& row, std::size_t s) {
            return at[s] < row.lower || at[s] > row.upper;
        };
        for (const auto* rows : {&linear_, &at_worst_}) {
            for (const Sparse& row : *rows) {
                row.work_out(values, at);
                for (std::size_t s = 0; s < kBlock; ++s) {
                    if (!fails(row, s)) continue;
                    count[s] += 1.0;
                    if (rows == &linear_) all[s] = 0.0;
                }
            }
        }
        std::vector<double> lost(leanings_.size() * kBlock);
        taken_.work_out(values, lost);
        for (std::size_t k = 0; k < widths_.size(); ++k) {
            widths_[k].work_out(values, at);
            const double* take = &lost[k * kBlock];
            for (std::size_t s = 0; s < kBlock; ++s)
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

}  // namespace

Chance chance_of(const std::vector<Demand>& demands, const std::vector<LeaningDemand>& leaning,
                 const Spreads& spreads, const Sampler& sampler, const Sampling& sampling) {
    const Rows linear = rows_of(demands, spreads);
    Rows at_worst;
    std::vector<Leaning> leanings;
    double surely = greatest_of(linear.failing);
    for (const LeaningDemand& each : leaning) {
        const Rows rows = rows_of(each.at_worst, spreads);
        if (rows.rows.empty()) continue;
        const Leaning& gap = each.leaning;
        surely = std::max(surely, spreads.distribution(gap.width).outside(gap.lower, gap.upper));
        at_worst.rows.insert(at_worst.rows.end(), rows.rows.begin(), rows.rows.end());
        at_worst.failing.insert(at_worst.failing.end(), rows.failing.begin(), rows.failing.end());
        leanings.push_back(gap);
    }
    if (linear.never || surely >= 1.0) return {.holds = {}, .fails = 1.0};
    const double sum = sum_of(linear.failing) + sum_of(at_worst.failing);
    if (!leanings.empty()) {
        const Mixed mixed(linear.rows, at_worst.rows, leanings, spreads);
        const Sampled sampled = sample(sampler, 2, mixed, sampling);
        Chance chance = within_bounds(controlled(sampled, 0, sum), surely, sum);
        chance.samples = sampled.samples;
        return chance;
    }
    if (linear.rows.empty()) return {};
    if (linear.rows.size() == 1) {
        const double holds = 1.0 - linear.failing[0];
        return {.holds = {.value = holds, .lower = holds, .upper = holds},
                .fails = linear.failing[0]};
    }
    const LinearSampled sampled = sample(sampler, linear.rows, sampling);
    Chance chance = within_bounds(all_hold(sampled, linear.failing), surely, sum);
    chance.samples = sampled.samples;
    return chance;
}

}  // namespace trialfit::odds
