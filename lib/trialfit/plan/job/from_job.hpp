// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <trialfit/numerics/planner/problem.hpp>
#include <trialfit/plan/demand/demands.hpp>
#include <trialfit/stack/answers.hpp>
#include <utility>
#include <vector>

// The inner problem of a job.
namespace trialfit::plan {

/// A form in the sizes of a model, plus independent sizes of its own.
struct Spreading {
    stack::Form form;
    struct Added {
        double sensitivity = 0.0;
        quantity::Size size;
    };
    std::vector<Added> added;
};

/// Judging by odds, from a room that knows how: the shifts (least, greatest) that may be added to
/// a value so that it lies `within` with at least the chance `level`, which is a half or more;
/// least > greatest where none will do. Must be pure.
using Shifts = std::function<stack::Range(const stack::Model& model, const Spreading& value,
                                          const stack::Range& within, double level)>;

struct Judging {
    stack::Judge judge = stack::Judge::worst;
    double inflate = 1.0;
    Shifts by_odds;  ///< in place of `judge`, where given
    double odds_level = 0.5;
    /// By odds: what each of several demands that must hold together has of the chance to fail,
    /// those aside that nothing decided moves. With 1 each may use it up alone, which no plan can
    /// do without; the less, the likelier they are to hold together.
    /// What leans on directions (Demand::drawn) may have more than 1: up to a half in all.
    double share = 1.0;
    /// By odds: leave out what leans on directions, so that less is asked than must hold.
    bool loose = false;
    /// Leave out every demand that may ask more than must hold: no plan is cheaper than here.
    bool surely = false;
    /// What holds whatever is decided is left out only where it does so however far a limit on
    /// what may be decided gives way.
    bool limits_may_give = false;
};

/// One entry of Problem::stock: a fitted piece, or a thickness in a seat's stock.
struct StockPiece {
    std::size_t seat = 0;  ///< index into Demands::seats
    job::Given given;
    std::optional<std::size_t> fitted;  ///< index into Shims::fitted
};

/// What the search counts for a work that the job says costs nothing: less than any cost that is
/// told, and enough that no metal comes off where leaving it does as well.
inline constexpr double kFreeWork = 1e-7;

/// A job's demands as an inner problem. Cuts and seats are those of `demands`, in that order; the
/// rows are demands.all less those that hold whatever is decided, with what of demands.either is
/// settled whatever is decided (sift_either). Borrows the model, which must
/// outlive it and its copies.
///
/// What the margins are. Worst case and RSS of sizes as written: exact, a size on which several
/// cuts have a say being shared by them. Sizes tied together (readings, sizes given more than
/// once) by RSS: the adjusted sizes' sensitivities, as in stack::bounds, exact. In the worst case
/// the extremes of tied sizes are a linear program for each selection: the rows' own margins leave
/// them out, which bounds the search from below, and the row judge has the exact limits. The same
/// by odds, where the rows' own margins are nothing. So every plan that is called proven is.
///
/// Shims are taken as independent of the readings that were made with them once they go back in,
/// save a fitted piece that stays.
class JobProblem {
public:
    /// Once a clock is over, no more rows are made.
    JobProblem(const stack::Model& model, Demands demands, const Judging& judging,
               numerics::Deadline* clock = nullptr);

    [[nodiscard]] const numerics::Problem& problem() const { return problem_; }
    [[nodiscard]] const stack::Model& model() const;
    [[nodiscard]] const Demands& demands() const;
    [[nodiscard]] const Judging& judging() const;
    [[nodiscard]] const std::vector<StockPiece>& stock() const;
    /// The demand behind a row of the problem.
    [[nodiscard]] const PlanDemand& demand(std::size_t row) const;

    /// The judged range of a demand's form under a selection.
    [[nodiscard]] stack::Range judged(const PlanDemand& demand,
                                      const numerics::Selection& selection,
                                      const std::vector<double>& depths) const;

    /// In place of a way's index: nothing is asked of that one of demands.either.
    static constexpr std::size_t kAnyWay = static_cast<std::size_t>(-1);
    /// The problem with each of demands.either held in one of its ways, named by index (or in none:
    /// kAnyWay): with a way for each, what any of them finds is a plan, and the cheapest of them
    /// all is the cheapest. (By odds the chances of the ways add up, so that a plan which none of
    /// them finds may still hold.)
    [[nodiscard]] numerics::Problem choosing(const std::vector<std::size_t>& which) const;
    /// The demand behind a row of choosing(which).
    [[nodiscard]] const PlanDemand& demand(std::size_t row,
                                           const std::vector<std::size_t>& which) const;
    /// Of each row of choosing(which) the first that asks for the same thing, in another state or
    /// of another difference: what the job writes as one limit. What numerics::Problem::limits_of
    /// wants.
    [[nodiscard]] std::vector<std::size_t> limits_of(const std::vector<std::size_t>& which) const;
    /// The problem without demands.either: a plan can be no cheaper than here.
    [[nodiscard]] numerics::Problem without_either() const;
    /// The problem with each of demands.either held in the way that meets it best in this plan:
    /// what windows are found in.
    [[nodiscard]] numerics::Problem held(const numerics::Selection& selection,
                                         const std::vector<double>& depths) const;
    /// The first of demands.either that a plan meets in none of its ways, or their number.
    [[nodiscard]] std::size_t unmet(const numerics::Selection& selection,
                                    const std::vector<double>& depths) const;
    /// The same job with every new length as it is read and recorded (as_read.hpp): its cuts may
    /// have no depth left where this one's have.
    [[nodiscard]] JobProblem as_read() const;
    /// Whether a demand holds as things stand, as it is judged.
    [[nodiscard]] bool holds_now(const PlanDemand& demand) const;
    /// Whether any row leans on where tilted parts come to lie, which what is decided may change.
    [[nodiscard]] bool leans() const;
    /// Whether any row may ask more than must hold: then what is found here proves nothing, and the
    /// problem made with Judging::surely bounds it.
    [[nodiscard]] bool over_asks() const;

private:
    struct Parts;
    void add_rows(const numerics::Problem& reached, bool exact, numerics::Deadline* clock);
    void set_to_aims();
    template <typename Is>
    [[nodiscard]] bool any_row(Is is) const;

    std::shared_ptr<const Parts> parts_;
    std::vector<std::size_t> demand_of_row_;
    numerics::Problem problem_;
};

}  // namespace trialfit::plan
