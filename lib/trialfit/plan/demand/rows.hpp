// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <trialfit/plan/job/from_job.hpp>
#include <vector>

// What JobProblem is made of: rows of the inner problem, and the exact judgement of a settled one.
namespace trialfit::plan {

/// What a demand's form must come to: a gap that must be more than nothing is asked to be 1e-8 of
/// the file's unit more, which no figure shows and which is well over rounding.
[[nodiscard]] inline double least(const PlanDemand& demand) {
    constexpr double kMoreThanNothing = 1e-8;
    return demand.lower + (demand.more_than ? kMoreThanNothing : 0.0);
}

/// Forms are linear in what is decided; these are their pieces, in the model's sizes.
struct Pieces {
    const stack::Model* model = nullptr;
    Judging judging;
    Demands demands;
    std::vector<StockPiece> stock;
    std::vector<std::vector<std::size_t>> fitted;  ///< of each seat: stock index of each piece

    /// A demand's form with a selection settled, every cut at depth 0.
    [[nodiscard]] Spreading settled(const PlanDemand& demand,
                                    const numerics::Selection& selection) const;
    [[nodiscard]] stack::Range worst(const Spreading& value) const;
    [[nodiscard]] stack::Range rss(const Spreading& value) const;
    /// Its judged range (worst case or RSS).
    [[nodiscard]] stack::Range range(const Spreading& value) const;
    /// Its middle: that of the adjusted sizes.
    [[nodiscard]] double middle(const Spreading& value) const;
    /// What depths (metal off, off a diameter) add to a demand's form.
    [[nodiscard]] double gained(const PlanDemand& demand, const numerics::Selection& selection,
                                const std::vector<double>& depths) const;
    /// Whether any size in the demand, whatever is decided, is tied to others.
    [[nodiscard]] bool tied(const PlanDemand& demand) const;
    /// Where a demand's middle may lie under a selection, by the exact range or chance.
    [[nodiscard]] numerics::Allowed limits(const PlanDemand& demand,
                                           const numerics::Selection& selection) const;
    /// How far inside those limits it lies (< 0: outside), by lengths.
    [[nodiscard]] double slack(const PlanDemand& demand, const numerics::Selection& selection,
                               const std::vector<double>& depths) const;
};

/// Whether nothing that may be decided moves it.
[[nodiscard]] bool immovable(const PlanDemand& demand);

/// Settles, as far as it is settled whatever is decided, which way of each of demands.either is
/// taken: ways that no decision opens are struck out, what is left with one way goes to
/// demands.all, and what always holds goes. By RSS and odds a radial gap that holds as things stand
/// is asked to go on holding.
void sift_either(Pieces& pieces, const numerics::Problem& problem, bool worst);

/// The demand as a row. `exact`: a row judge has the limits, and the row's own margins leave out
/// tied sizes (`open`: and the row bounds nothing).
[[nodiscard]] numerics::ConstraintRow row_of(const Pieces& pieces, const PlanDemand& demand,
                                             bool exact, bool open);

/// Least and greatest value of a demand's form over all that may be decided, in the worst case;
/// wider than it need be.
[[nodiscard]] stack::Range reach(const Pieces& pieces, const numerics::Problem& problem,
                                 const PlanDemand& demand);

}  // namespace trialfit::plan
