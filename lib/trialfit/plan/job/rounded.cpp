// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/rounded.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/numerics/planner/search_model.hpp>
#include <trialfit/numerics/planner/solve_amounts.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/quantity/figures.hpp>
#include <utility>
#include <vector>

namespace trialfit::plan {

namespace {

// One finish size, or amount to come off, to be rounded: size = now + way * depth.
struct Finish {
    std::size_t cut = 0;
    double now = 0.0;
    double way = -1.0;
    int decimals = 2;
};

std::vector<Finish> finishes(const JobProblem& problem, const numerics::Solution& found) {
    const job::Job& job = problem.model().job();
    std::vector<Finish> all;
    for (std::size_t w = 0; w < problem.demands().works.size(); ++w) {
        if (!found.selection.done[w]) continue;
        const Work& work = problem.demands().works[w];
        if (const auto* face = std::get_if<FaceCut>(&work))
            all.push_back({w, face->now, face->by_amount ? 1.0 : -1.0,
                           finish_decimals(job, face->length.holds)});
        if (const auto* ring = std::get_if<RingSkim>(&work))
            all.push_back(
                {w, ring->now, ring->length.by_depth, finish_decimals(job, ring->length.holds)});
    }
    return all;
}

class FigureSearch {
public:
    FigureSearch(numerics::Problem problem, const numerics::Solution& found,
                 std::vector<Finish> all)
        : problem_(std::move(problem)), found_(found), all_(std::move(all)), model_(problem_) {
        for (std::size_t r = 0; r < problem_.rows.size(); ++r)
            allowed_.push_back(model_.allowed(r, found_.selection));
    }

    // The combination of figures that is nearest to the plan; nothing where none holds.
    std::optional<std::vector<double>> run(int more) {
        best_.reset();
        nearest_ = numerics::kInfinity;
        depths_ = found_.amounts;
        look(0, more, 0.0);
        return best_;
    }

private:
    void look(std::size_t i, int more, double off) {
        if (off >= nearest_) return;
        if (i == all_.size()) {
            if (!holds()) return;
            nearest_ = off;
            best_ = depths_;
            return;
        }
        const Finish& finish = all_[i];
        const double depth = found_.amounts[finish.cut];
        const double size = finish.now + finish.way * depth;
        const int decimals = finish.decimals + more;
        const double step = std::pow(10.0, -decimals);
        const double near = quantity::rounded(size, decimals);
        for (const double figure : {near, near - step, near + step}) {
            const double told = quantity::rounded(figure, decimals);
            if (std::abs(told - size) >= step) continue;
            depths_[finish.cut] = finish.way * (told - finish.now);
            look(i + 1, more, off + std::abs(told - size));
        }
        depths_[finish.cut] = depth;
    }

    [[nodiscard]] bool holds() const {
        for (const Finish& finish : all_) {
            const numerics::Activity& cut = problem_.activities[finish.cut];
            const double depth = depths_[finish.cut];
            if (depth < cut.at_least - numerics::kSameLength ||
                depth > cut.at_most + numerics::kSameLength)
                return false;
        }
        for (std::size_t r = 0; r < allowed_.size(); ++r) {
            const double middle = middle_of(problem_, r, found_.selection, depths_);
            if (middle < allowed_[r].lower - numerics::kSameLength ||
                middle > allowed_[r].upper + numerics::kSameLength)
                return false;
        }
        return true;
    }

    const numerics::Problem problem_;
    const numerics::Solution& found_;
    const std::vector<Finish> all_;
    const numerics::SearchModel model_;
    std::vector<numerics::Allowed> allowed_;
    std::vector<double> depths_;
    std::optional<std::vector<double>> best_;
    double nearest_ = numerics::kInfinity;
};

}  // namespace

int finish_decimals(const job::Job& job, double holds) {
    const int usual = quantity::usual_decimals(job.units);
    int decimals = usual;
    while (holds > 0.0 && decimals < usual + 2 && holds < std::pow(10.0, -decimals) * (1.0 - 1e-9))
        ++decimals;
    return decimals;
}

numerics::Solution rounded(const JobProblem& problem, const numerics::Solution& found) {
    // Each of a few cuts has up to three figures; more cuts than this have too many combinations.
    constexpr std::size_t kMostTogether = 6;
    constexpr int kMoreDecimals = 3;
    std::vector<Finish> all = finishes(problem, found);
    if (all.empty() || all.size() > kMostTogether) return found;
    FigureSearch search(problem.held(found.selection, found.amounts), found, std::move(all));
    for (int more = 0; more <= kMoreDecimals; ++more) {
        const auto depths = search.run(more);
        if (!depths) continue;
        numerics::Solution out = found;
        out.amounts = *depths;
        return out;
    }
    return found;
}

}  // namespace trialfit::plan
