// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/job/least_relaxation.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

// Of how many choices of ways a reason is looked for at most.
constexpr std::size_t kMostReasons = 64;

// Branch and bound over the ways: what a choice makes a limit give is a bound for every choice that
// settles more of demands.either. The least is taken up first.
class RelaxationSearch {
public:
    RelaxationSearch(const JobProblem& problem, numerics::Deadline& clock)
        : problem_(problem), clock_(clock) {}

    LeastRelaxation run(const std::vector<std::vector<std::size_t>>& stuck) {
        for (const std::vector<std::size_t>& which : stuck)
            look(which);
        while (!open_.empty()) {
            const auto least = std::min_element(
                open_.begin(), open_.end(), [](const LeastRelaxation& a, const LeastRelaxation& b) {
                    return a.conflict.relaxed_by < b.conflict.relaxed_by;
                });
            LeastRelaxation next = std::move(*least);
            open_.erase(least);
            const std::size_t unmet = first_unmet(next);
            if (unmet == either().size()) return told(std::move(next));
            for (std::size_t way = 0; way < either()[unmet].ways.size(); ++way)
                look(chosen(next.which, unmet, way));
        }
        return told(std::move(*first_));
    }

private:
    [[nodiscard]] const std::vector<Either>& either() const { return problem_.demands().either; }

    [[nodiscard]] static std::vector<std::size_t> chosen(std::vector<std::size_t> which,
                                                         std::size_t one, std::size_t way) {
        which[one] = way;
        return which;
    }

    void look(std::vector<std::size_t> which) {
        if (first_ && (looked_ == kMostReasons || clock_.stopped())) {
            sought_ = false;
            return;
        }
        ++looked_;
        numerics::Problem stuck = problem_.choosing(which);
        stuck.limits_of = problem_.limits_of(which);
        LeastRelaxation reason{.conflict = conflict_of(stuck, clock_), .which = std::move(which)};
        sought_ = sought_ && reason.conflict.sought;
        if (reason.conflict.relaxed) open_.push_back(reason);
        if (first_) return;
        // What is told where no limit alone is enough.
        first_ = std::move(reason);
        first_->conflict.relaxed.reset();
        first_->conflict.relaxed_by = 0.0;
    }

    [[nodiscard]] LeastRelaxation told(LeastRelaxation reason) const {
        reason.conflict.sought = sought_;
        return reason;
    }

    // The first of demands.either that is left open and that what a limit makes possible by giving
    // meets in none of its ways, or their number.
    [[nodiscard]] std::size_t first_unmet(const LeastRelaxation& reason) const {
        for (std::size_t each = 0; each < either().size(); ++each) {
            if (reason.which[each] != JobProblem::kAnyWay) continue;
            bool met = false;
            for (std::size_t way = 0; way < either()[each].ways.size() && !met; ++way)
                met = meets(reason.conflict, each, way);
            if (!met) return each;
        }
        return either().size();
    }

    [[nodiscard]] bool meets(const numerics::Conflict& conflict, std::size_t each,
                             std::size_t way) const {
        const std::vector<std::size_t> none(either().size(), JobProblem::kAnyWay);
        const numerics::Problem asked = problem_.choosing(chosen(none, each, way));
        const std::vector<numerics::RowOutcome> rows =
            outcomes(asked, conflict.relaxed_selection, conflict.relaxed_amounts);
        const bool stack = conflict.relaxed->kind == numerics::LimitKind::bin_stock;
        for (std::size_t row = problem_.problem().rows.size(); row < rows.size(); ++row) {
            const double more =
                stack ? asked.rows[row].bins[conflict.relaxed->index] * conflict.relaxed_by : 0.0;
            if (std::min(rows[row].above_lower + more, rows[row].below_upper - more) <
                -numerics::kSameLength)
                return false;
        }
        return true;
    }

    const JobProblem& problem_;
    numerics::Deadline& clock_;
    std::vector<LeastRelaxation> open_;
    std::optional<LeastRelaxation> first_;
    std::size_t looked_ = 0;
    bool sought_ = true;
};

}  // namespace

LeastRelaxation least_relaxation(const JobProblem& problem,
                                 const std::vector<std::vector<std::size_t>>& stuck,
                                 numerics::Deadline& clock) {
    return RelaxationSearch(problem, clock).run(stuck);
}

}  // namespace trialfit::plan
