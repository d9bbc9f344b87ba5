// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/problem.hpp>

#include <algorithm>
#include <cmath>

namespace trialfit::numerics {

namespace {

class Review {
public:
    explicit Review(const Problem& problem) : problem_(problem) {}

    std::vector<std::string> run() {
        for (const Activity& each : problem_.activities)
            activity(each);
        for (const StockItem& each : problem_.stock)
            item(each);
        for (const Bin& each : problem_.bins)
            bin(each);
        for (const ConstraintRow& each : problem_.rows)
            row(each);
        const std::vector<std::size_t>& limits = problem_.limits_of;
        ask(limits.empty() || limits.size() == problem_.rows.size(),
            "the rows' limits must be none or one for each row");
        for (std::size_t r = 0; r < limits.size(); ++r)
            ask(limits[r] <= r && limits[limits[r]] == limits[r],
                "a row's limits must be those of the first row that has them");
        ask(problem_.inflation >= 0.0 && std::isfinite(problem_.inflation),
            "the inflation of the RSS margin must be 0 or more");
        return std::move(found_);
    }

private:
    void ask(bool holds, const std::string& otherwise) {
        if (!holds) found_.push_back(otherwise);
    }
    static bool amount(double value) { return std::isfinite(value) && value >= 0.0; }

    void activity(const Activity& each) {
        const std::string who = "activity '" + each.name + "': ";
        ask(amount(each.cost) && amount(each.per_amount), who + "its costs must be 0 or more");
        ask(amount(each.at_least), who + "its least amount must be 0 or more");
        ask(std::isfinite(each.at_most) && each.at_most >= each.at_least,
            who + "its greatest amount is less than its least");
        ask(each.may_give >= 0.0, who + "its greatest amount may not give less than nothing");
    }
    void item(const StockItem& each) {
        ask(std::isfinite(each.thickness) && each.thickness > 0.0,
            "a item's thickness must be more than 0");
        ask(amount(each.half_width), "a item's half-width must be 0 or more");
        ask(amount(each.price), "a item's price must be 0 or more");
        ask(!each.pieces || *each.pieces >= 0, "a item's pieces must be 0 or more");
    }
    void bin(const Bin& each) {
        const std::string who = "bin '" + each.name + "': ";
        ask(each.at_least >= 0 && each.at_most >= each.at_least,
            who + "its counts must be 0 or more, the least no more than the most");
        ask(std::all_of(each.stock.begin(), each.stock.end(),
                        [&](std::size_t kind) { return kind < problem_.stock.size(); }),
            who + "it names stock that is not there");
    }
    void row(const ConstraintRow& each) {
        const std::string who = "row '" + each.name + "': ";
        ask(each.activities.size() == problem_.activities.size() &&
                each.bins.size() == problem_.bins.size(),
            who + "it must have one entry for each activity and each bin");
        ask(!std::isnan(each.lower) && !std::isnan(each.upper) && each.lower <= each.upper,
            who + "its limits are the wrong way round");
        ask(std::isfinite(each.gap) && amount(each.fixed_half_width) &&
                (!each.aim || std::isfinite(*each.aim)),
            who + "its gap, half-width and aim must be plain numbers");
        for (const Effect& effect : each.activities) {
            ask(std::isfinite(effect.per_amount) && std::isfinite(effect.when_done) &&
                    amount(effect.not_done) && amount(effect.done),
                who + "what an activity does to it must be plain numbers, half-widths 0 or more");
        }
        ask(std::all_of(each.bins.begin(), each.bins.end(),
                        [](double gain) { return std::isfinite(gain); }),
            who + "what a bin does to it must be a plain number");
        for (const SharedTerm& size : each.shared) {
            ask(size.change.size() == problem_.activities.size() && amount(size.half_width) &&
                    std::isfinite(size.sensitivity),
                who + "a shared size must have one change for each activity and a half-width");
        }
    }

    const Problem& problem_;
    std::vector<std::string> found_;
};

}  // namespace

PlanKind kind_of(const Selection& selection) {
    PlanKind kind;
    for (std::size_t c = 0; c < selection.done.size(); ++c)
        if (selection.done[c]) kind.activities.push_back(c);
    for (std::size_t q = 0; q < selection.stacks.size(); ++q)
        if (!selection.stacks[q].empty()) kind.bins.push_back(q);
    return kind;
}

bool includes(const PlanKind& whole, const PlanKind& part) {
    return std::includes(whole.activities.begin(), whole.activities.end(), part.activities.begin(),
                         part.activities.end()) &&
           std::includes(whole.bins.begin(), whole.bins.end(), part.bins.begin(), part.bins.end());
}

std::vector<std::string> faults(const Problem& problem) {
    return Review(problem).run();
}

}  // namespace trialfit::numerics
