// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/job/least_relaxation.hpp>
#include <trialfit/plan/job/ways.hpp>
#include <tuple>
#include <utility>

namespace trialfit::plan {

namespace {

// How many problems are solved at most.
constexpr std::size_t kMostProblems = 400;
constexpr double kSameDistance = 1e-7;  // from the aims

// Branch and bound over the ways. A problem that asks less than must hold is solved first; where
// its plans leave one of demands.either unmet, each of that one's ways is tried in turn. The
// cheapest problem is taken up first.
class WaySearch {
public:
    WaySearch(const JobProblem& problem, std::size_t top, numerics::Deadline& clock)
        : problem_(problem), top_(top), clock_(clock) {}

    EveryWay run() {
        put({.which = std::vector<std::size_t>(either().size(), JobProblem::kAnyWay)});
        while (!open_.empty() && !done_) {
            const auto least = std::min_element(
                open_.begin(), open_.end(),
                [](const Open& a, const Open& b) { return a.found.bound < b.found.bound; });
            Open next = std::move(*least);
            open_.erase(least);
            if (too_dear(next.found.bound)) continue;
            treat(std::move(next));
        }
        return result();
    }

private:
    struct Open {
        std::vector<std::size_t> which;
        numerics::SolveResult found{};
    };

    [[nodiscard]] const std::vector<Either>& either() const { return problem_.demands().either; }

    // Nothing so dear would be shown.
    [[nodiscard]] bool too_dear(double bound) const {
        return kept_.size() == top_ && bound >= kept_.back().cost - numerics::kSameLength;
    }

    void put(Open next) {
        if (solved_ == kMostProblems || clock_.stopped()) {
            done_ = true;
            left_ = std::min(left_, parent_bound_);
            return;
        }
        ++solved_;
        next.found = solve_only(problem_.choosing(next.which), top_, clock_);
        nodes_ += next.found.nodes;
        if (either().empty()) {
            ties_ = next.found.ties;
            more_ties_ = next.found.more_ties;
        }
        if (!next.found.proven) left_ = std::min(left_, next.found.bound);
        next.found.bound = std::max(next.found.bound, parent_bound_);
        if (!next.found.plans.empty()) {
            open_.push_back(std::move(next));
        } else if (next.found.proven) {
            without_.push_back(std::move(next.which));
        }
    }

    // Plans that meet everything are taken in; the first that does not says what to branch on.
    void treat(Open node) {
        for (numerics::Solution& plan : node.found.plans) {
            const std::size_t unmet = problem_.unmet(plan.selection, plan.amounts);
            if (unmet == either().size()) {
                take_in(std::move(plan));
                continue;
            }
            parent_bound_ = node.found.bound;
            for (std::size_t way = 0; way < either()[unmet].ways.size() && !done_; ++way) {
                std::vector<std::size_t> which = node.which;
                which[unmet] = way;
                put({.which = std::move(which)});
            }
            parent_bound_ = 0.0;
            return;
        }
    }

    void take_in(numerics::Solution plan) {
        kept_.push_back(std::move(plan));
        std::stable_sort(kept_.begin(), kept_.end(),
                         [](const numerics::Solution& a, const numerics::Solution& b) {
                             const std::size_t in_a = numerics::kind_of(a.selection).bins.size();
                             const std::size_t in_b = numerics::kind_of(b.selection).bins.size();
                             return std::tuple(a.cost, a.aim_distance, a.items, in_a) <
                                    std::tuple(b.cost, b.aim_distance, b.items, in_b);
                         });
        std::vector<numerics::Solution> all = std::move(kept_);
        kept_.clear();
        for (numerics::Solution& each : all) {
            const bool adds_only =
                std::any_of(kept_.begin(), kept_.end(), [&](const numerics::Solution& cheaper) {
                    return includes(numerics::kind_of(each.selection),
                                    numerics::kind_of(cheaper.selection));
                });
            if (!adds_only && kept_.size() < top_) kept_.push_back(std::move(each));
        }
    }

    // Of the problems without a plan, the one whose limits have to give least.
    void explain(EveryWay& all) {
        LeastRelaxation reason = least_relaxation(problem_, without_, clock_);
        all.answer.conflict = std::move(reason.conflict);
        all.which = std::move(reason.which);
    }

    // Of several problems only the plans kept are known: there may be more.
    void count_ties(numerics::SolveResult& answer) const {
        answer.ties = ties_;
        answer.more_ties = more_ties_;
        if (either().empty() || kept_.empty()) return;
        const numerics::Solution& first = kept_.front();
        answer.ties = static_cast<std::size_t>(
            std::count_if(kept_.begin(), kept_.end(), [&](const numerics::Solution& each) {
                return each.cost <= first.cost + numerics::kSameLength &&
                       each.aim_distance <= first.aim_distance + kSameDistance;
            }));
        answer.more_ties = answer.ties == kept_.size();
    }

    EveryWay result() {
        for (const Open& each : open_)
            if (!too_dear(each.found.bound)) left_ = std::min(left_, each.found.bound);
        EveryWay all;
        numerics::SolveResult& answer = all.answer;
        answer.nodes = nodes_;
        answer.bound = kept_.empty() ? left_ : std::min(left_, kept_.front().cost);
        answer.proven = left_ == std::numeric_limits<double>::infinity() ||
                        (kept_.size() == top_ && too_dear(left_));
        for (numerics::Solution& plan : kept_) {
            plan.proven = plan.proven && plan.cost <= left_ + numerics::kSameLength;
            answer.proven = answer.proven && plan.proven;
        }
        count_ties(answer);
        answer.plans = std::move(kept_);
        if (answer.plans.empty() && answer.proven && problem_.judging().limits_may_give)
            explain(all);
        return all;
    }

    const JobProblem& problem_;
    std::size_t top_;
    numerics::Deadline& clock_;
    std::vector<Open> open_;
    std::vector<numerics::Solution> kept_;
    std::vector<std::vector<std::size_t>> without_;
    std::size_t solved_ = 0;
    std::size_t nodes_ = 0;
    std::size_t ties_ = 0;
    bool more_ties_ = false;
    // No plan that was passed over is cheaper.
    double left_ = std::numeric_limits<double>::infinity();
    double parent_bound_ = 0.0;
    bool done_ = false;
};

}  // namespace

EveryWay solve_every_way(const JobProblem& problem, std::size_t top, numerics::Deadline& clock) {
    return WaySearch(problem, top, clock).run();
}

}  // namespace trialfit::plan
