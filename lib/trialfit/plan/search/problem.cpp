// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/problem.hpp>

#include <algorithm>
#include <cmath>

namespace trialfit::plan {

namespace {

class Review {
public:
    explicit Review(const Problem& problem) : problem_(problem) {}

    std::vector<std::string> run() {
        for (const Cut& each : problem_.cuts)
            cut(each);
        for (const Shim& each : problem_.stock)
            shim(each);
        for (const Seat& each : problem_.seats)
            seat(each);
        for (const Row& each : problem_.rows)
            row(each);
        ask(problem_.inflation >= 0.0 && std::isfinite(problem_.inflation),
            "the inflation of the RSS margin must be 0 or more");
        return std::move(found_);
    }

private:
    void ask(bool holds, const std::string& otherwise) {
        if (!holds) found_.push_back(otherwise);
    }
    static bool amount(double value) { return std::isfinite(value) && value >= 0.0; }

    void cut(const Cut& each) {
        const std::string who = "cut '" + each.name + "': ";
        ask(amount(each.cost) && amount(each.per_mm), who + "its costs must be 0 or more");
        ask(amount(each.at_least), who + "its least depth must be 0 or more");
        ask(std::isfinite(each.at_most) && each.at_most >= each.at_least,
            who + "its greatest depth is less than its least");
    }
    void shim(const Shim& each) {
        ask(std::isfinite(each.thickness) && each.thickness > 0.0,
            "a shim's thickness must be more than 0");
        ask(amount(each.half_width), "a shim's half-width must be 0 or more");
        ask(amount(each.price), "a shim's price must be 0 or more");
        ask(!each.pieces || *each.pieces >= 0, "a shim's pieces must be 0 or more");
    }
    void seat(const Seat& each) {
        const std::string who = "seat '" + each.name + "': ";
        ask(each.at_least >= 0 && each.at_most >= each.at_least,
            who + "its counts must be 0 or more, the least no more than the most");
        ask(std::all_of(each.stock.begin(), each.stock.end(),
                        [&](std::size_t kind) { return kind < problem_.stock.size(); }),
            who + "it names stock that is not there");
    }
    void row(const Row& each) {
        const std::string who = "row '" + each.name + "': ";
        ask(each.cuts.size() == problem_.cuts.size() && each.seats.size() == problem_.seats.size(),
            who + "it must have one entry for each cut and each seat");
        ask(!std::isnan(each.lower) && !std::isnan(each.upper) && each.lower <= each.upper,
            who + "its limits are the wrong way round");
        ask(std::isfinite(each.gap) && amount(each.fixed_half_width) &&
                (!each.aim || std::isfinite(*each.aim)),
            who + "its gap, half-width and aim must be plain numbers");
        for (const Effect& effect : each.cuts) {
            ask(std::isfinite(effect.per_depth) && std::isfinite(effect.when_cut) &&
                    amount(effect.uncut) && amount(effect.cut),
                who + "what a cut does to it must be plain numbers, half-widths 0 or more");
        }
        ask(std::all_of(each.seats.begin(), each.seats.end(),
                        [](double gain) { return std::isfinite(gain); }),
            who + "what a seat does to it must be a plain number");
        for (const SharedSize& size : each.shared) {
            ask(size.change.size() == problem_.cuts.size() && amount(size.half_width) &&
                    std::isfinite(size.sensitivity),
                who + "a shared size must have one change for each cut and a half-width");
        }
    }

    const Problem& problem_;
    std::vector<std::string> found_;
};

}  // namespace

Kind kind_of(const Selection& selection) {
    Kind kind;
    for (std::size_t c = 0; c < selection.cut.size(); ++c)
        if (selection.cut[c]) kind.cuts.push_back(c);
    for (std::size_t q = 0; q < selection.stacks.size(); ++q)
        if (!selection.stacks[q].empty()) kind.seats.push_back(q);
    return kind;
}

bool includes(const Kind& whole, const Kind& part) {
    return std::includes(whole.cuts.begin(), whole.cuts.end(), part.cuts.begin(),
                         part.cuts.end()) &&
           std::includes(whole.seats.begin(), whole.seats.end(), part.seats.begin(),
                         part.seats.end());
}

std::vector<std::string> faults(const Problem& problem) {
    return Review(problem).run();
}

}  // namespace trialfit::plan
