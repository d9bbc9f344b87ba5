// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <iterator>
#include <trialfit/numerics/infinity.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/demand/rows.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

class Sifter {
public:
    Sifter(Pieces& pieces, const numerics::Problem& problem, bool worst)
        : pieces_(pieces), problem_(problem), worst_(worst) {
        nothing_done_.done.assign(problem.activities.size(), false);
        nothing_done_.stacks = pieces.fitted;
    }

    void run() {
        std::vector<Either> kept;
        for (Either& either : pieces_.demands.either)
            sift(either, kept);
        if (pieces_.judging.loose)
            std::erase_if(kept, [](const Either& each) { return !each.lapses; });
        pieces_.demands.either = std::move(kept);
    }

private:
    void sift(Either& either, std::vector<Either>& kept) {
        if (either.radial && pieces_.judging.loose) return;
        if (pieces_.judging.surely && may_ask_less(either)) return;
        if (worst_ && std::any_of(either.ways.begin(), either.ways.end(), [this](const auto& way) {
                return std::all_of(way.begin(), way.end(),
                                   [this](const PlanDemand& each) { return always(each); });
            }))
            return;
        if (either.radial && !worst_ && holds_now(either.ways.front())) {
            const std::vector<PlanDemand>& wide = either.ways.front();
            if (std::all_of(wide.begin(), wide.end(), immovable)) return;
            // The rings might be parted instead.
            for (PlanDemand& each : either.ways.front())
                each.over_asks = true;
            if (!pieces_.judging.surely) ask(either.ways.front());
            return;
        }
        // A limit that gives opens every way.
        if (pieces_.judging.limits_may_give && of_a_limit(either)) {
            if (std::all_of(either.ways.begin(), either.ways.end(), still))
                return ask(nearest(either.ways));
            kept.push_back(std::move(either));
            return;
        }
        std::vector<std::vector<PlanDemand>> open;
        std::copy_if(either.ways.begin(), either.ways.end(), std::back_inserter(open),
                     [this](const auto& way) {
                         return std::none_of(
                             way.begin(), way.end(),
                             [this](const PlanDemand& each) { return never(each); });
                     });
        if (open.empty())
            return ask(of_a_limit(either) ? nearest(either.ways) : either.ways.front());
        if (open.size() == 1) return ask(open.front());
        either.ways = std::move(open);
        kept.push_back(std::move(either));
    }

    [[nodiscard]] static bool still(const std::vector<PlanDemand>& way) {
        return std::all_of(way.begin(), way.end(), immovable);
    }

    // Each way is a difference that must not pass one and the same limit.
    [[nodiscard]] static bool of_a_limit(const Either& either) {
        return !either.radial && !either.lapses && either.ways.front().front().of.has_value();
    }

    // The way of which least is short as things stand.
    [[nodiscard]] std::vector<PlanDemand>& nearest(
        std::vector<std::vector<PlanDemand>>& ways) const {
        return *std::max_element(ways.begin(), ways.end(), [this](const auto& a, const auto& b) {
            return slack_now(a) < slack_now(b);
        });
    }

    [[nodiscard]] static bool may_ask_less(const Either& either) {
        return std::any_of(either.ways.begin(), either.ways.end(), [](const auto& way) {
            return std::any_of(way.begin(), way.end(), may_over_ask);
        });
    }

    void ask(std::vector<PlanDemand>& way) {
        std::move(way.begin(), way.end(), std::back_inserter(pieces_.demands.all));
    }

    [[nodiscard]] bool holds_now(const std::vector<PlanDemand>& way) const {
        return slack_now(way) >= -numerics::kSameLength;
    }
    [[nodiscard]] double slack_now(const std::vector<PlanDemand>& way) const {
        const std::vector<double> none(problem_.activities.size(), 0.0);
        double least = numerics::kInfinity;
        for (const PlanDemand& each : way)
            least = std::min(least, pieces_.slack(each, nothing_done_, none));
        return least;
    }
    [[nodiscard]] bool always(const PlanDemand& demand) const {
        const stack::Range all = reach(pieces_, problem_, demand);
        return all.lo > demand.lower + numerics::kSameLength &&
               all.hi < demand.upper - numerics::kSameLength;
    }
    // Adjusted sizes may lie beyond the limits that they were given; by odds so may any, but hardly
    // by as much again.
    [[nodiscard]] bool never(const PlanDemand& demand) const {
        if (!worst_ && pieces_.tied(demand)) return false;
        const stack::Range all = reach(pieces_, problem_, demand);
        const double beyond =
            numerics::kSameLength + (pieces_.judging.by_odds ? half_width(demand) : 0.0);
        return all.hi < demand.lower - beyond || all.lo > demand.upper + beyond;
    }
    [[nodiscard]] double half_width(const PlanDemand& demand) const {
        double all = half_width(demand.now);
        for (std::size_t w = 0; w < demand.by_work.size(); ++w)
            if (const NewLength* const length = new_length(pieces_.demands.works[w]))
                all += std::abs(demand.by_work[w]) * (length->holds + half_width(length->old));
        return all;
    }
    [[nodiscard]] double half_width(const stack::Form& form) const {
        double all = 0.0;
        for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it)
            all += std::abs(it.value()) * pieces_.model->columns().half_width[it.index()];
        return all;
    }

    Pieces& pieces_;
    const numerics::Problem& problem_;
    bool worst_;
    numerics::Selection nothing_done_;
};

}  // namespace

void sift_either(Pieces& pieces, const numerics::Problem& problem, bool worst) {
    Sifter(pieces, problem, worst).run();
}

}  // namespace trialfit::plan
