// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/demand/rows.hpp>
#include <trialfit/plan/job/as_read.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/job/shims.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>

namespace trialfit::plan {

struct JobProblem::Parts {
    Pieces pieces;
};

namespace {

constexpr double kLapPer_mm = 0.1;  // as a cut's, where the job says nothing

numerics::Activity cut_of(const job::Job& job, const Work& work) {
    const double mm = quantity::convert(1.0, job.units, quantity::Unit::mm);
    if (const auto* lap = std::get_if<ConeLap>(&work))
        return {.name = job::cone_name(job, {.part = lap->part, .index = lap->lap->cone}),
                .at_least = 0.0,
                .at_most = lap->lap->at_most_on_diameter,
                .cost = lap->lap->cost,
                .per_amount = kLapPer_mm * mm};
    if (const auto* skim = std::get_if<RingSkim>(&work))
        return {.name = job::ring_name(job, {skim->part, skim->skim->ring}),
                .at_least = 0.0,
                .at_most = skim->most,
                .cost = skim->skim->cost,
                .per_amount = skim->skim->cost_per_mm * mm};
    if (const auto* by_hand = std::get_if<HandCentring>(&work))
        return {.name = job.parts[static_cast<std::size_t>(by_hand->part)].name,
                .at_least = 0.0,
                .at_most = 0.0,
                .cost = by_hand->centring->centre_cost,
                .per_amount = 0.0,
                .may_give = 0.0};
    const auto& face = std::get<FaceCut>(work);
    return {.name = job::name(job, job::FaceRef{face.part, face.cut->face}),
            .at_least = 0.0,
            .at_most = std::max(face.most, 0.0),
            .cost = face.cut->cost,
            .per_amount = face.cut->cost_per_mm * mm,
            .may_give = face.cut->keep};
}

void stock_seats(const job::Job& job, Pieces& pieces, numerics::Problem& problem) {
    const stack::Model& model = *pieces.model;
    for (std::size_t q = 0; q < pieces.demands.seats.size(); ++q) {
        const ShimSeat& place = pieces.demands.seats[q];
        numerics::Bin seat;
        seat.name = job.parts[static_cast<std::size_t>(place.part)].name;
        seat.at_most = std::max(place.shims->at_most, static_cast<int>(place.shims->fitted.size()));
        if (place.shims->round) seat.grid = rounded_from(*place.shims->round).grid;
        std::vector<std::size_t> fitted;
        const auto add = [&](StockPiece piece, numerics::StockItem shim) {
            seat.stock.push_back(problem.stock.size());
            problem.stock.push_back(shim);
            pieces.stock.push_back(std::move(piece));
        };
        for (std::size_t i = 0; i < place.shims->fitted.size(); ++i) {
            const job::Given& given = place.shims->fitted[i];
            fitted.push_back(problem.stock.size());
            const double thickness =
                stack::value(model.ties().adjusted(place.pieces[i]), model.columns().middle);
            add({.seat = q, .given = given, .fitted = i}, {.thickness = thickness,
                                                           .half_width = given.size.half_width(),
                                                           .price = 0.0,
                                                           .pieces = 1});
        }
        for (const job::ShimStock& kind : place.shims->stock)
            add({.seat = q, .given = kind.thickness, .fitted = std::nullopt},
                {.thickness = kind.thickness.size.middle(),
                 .half_width = kind.thickness.size.half_width(),
                 .price = job.shim_cost,
                 .pieces = kind.pieces});
        pieces.fitted.push_back(std::move(fitted));
        problem.bins.push_back(std::move(seat));
    }
}

// The problem with what limits activities and bins as far off as it may give.
numerics::Problem limits_given(numerics::Problem problem) {
    constexpr int kAnyNumber = 1'000'000;
    for (numerics::Activity& each : problem.activities)
        each.at_most += each.may_give;
    for (numerics::Bin& each : problem.bins)
        each.at_most = kAnyNumber;
    return problem;
}

// The adjusted sizes themselves keep within every limit: else the middle of a gap is no value that
// it may have, and bounds nothing.
bool middle_is_possible(const stack::Model& model) {
    const auto& columns = model.columns();
    for (int i = 0; i < static_cast<int>(model.sizes().size()); ++i) {
        if (!model.ties().tied(i)) continue;
        stack::FormBuilder builder;
        builder.add(i, 1.0);
        const double x = stack::value(
            model.ties().adjusted(std::move(builder).build(columns.middle.size())), columns.middle);
        if (x < columns.lower[i] - numerics::kSameLength ||
            x > columns.upper[i] + numerics::kSameLength)
            return false;
    }
    return true;
}

// Limits of a row's middle for each selection met, remembered: the search comes back to them.
class Exact {
public:
    Exact(std::shared_ptr<const Pieces> pieces, std::vector<std::size_t> demand_of_row)
        : pieces_(std::move(pieces)), demand_of_row_(std::move(demand_of_row)) {}

    numerics::Allowed operator()(std::size_t row, const numerics::Selection& selection) {
        const PlanDemand& demand = pieces_->demands.all[demand_of_row_[row]];
        std::vector<std::size_t> key{row};
        for (std::size_t w = 0; w < demand.by_work.size(); ++w)
            if (selection.done[w] && demand.by_work[w] != 0.0) key.push_back(w);
        for (std::size_t q = 0; q < demand.by_stack.size(); ++q) {
            if (demand.by_stack[q] == 0.0) continue;
            key.push_back(kNextSeat);
            key.insert(key.end(), selection.stacks[q].begin(), selection.stacks[q].end());
        }
        const auto found = known_.find(key);
        if (found != known_.end()) return found->second;
        return known_[key] = pieces_->limits(demand, selection);
    }

private:
    static constexpr std::size_t kNextSeat = static_cast<std::size_t>(-1);

    std::shared_ptr<const Pieces> pieces_;
    std::vector<std::size_t> demand_of_row_;
    std::map<std::vector<std::size_t>, numerics::Allowed> known_;
};

bool any_tied(const Pieces& pieces) {
    const auto any = [&](const std::vector<PlanDemand>& all) {
        return std::any_of(all.begin(), all.end(),
                           [&](const PlanDemand& demand) { return pieces.tied(demand); });
    };
    const auto& either = pieces.demands.either;
    return any(pieces.demands.all) ||
           std::any_of(either.begin(), either.end(), [&](const Either& each) {
               return std::any_of(each.ways.begin(), each.ways.end(), any);
           });
}

bool tied_pieces(const Pieces& pieces) {
    for (const ShimSeat& seat : pieces.demands.seats)
        for (const stack::Form& piece : seat.pieces)
            for (Eigen::SparseVector<double>::InnerIterator it(piece.sensitivities); it; ++it)
                if (pieces.model->ties().tied(static_cast<int>(it.index()))) return true;
    return false;
}

// By how much RSS half-widths are multiplied in the rows that bound the search. Every spread is
// even about its middle, so that a chance of a half or more asks for the middle to be within the
// limits, and no more. An inflated RSS of tied sizes ends at their worst case, which is at least
// the RSS of the sizes that are not tied.
double bounding_inflation(const Judging& judging, bool exact) {
    if (judging.by_odds) return 0.0;
    return exact ? std::min(judging.inflate, 1.0) : judging.inflate;
}

double slack_of(const Pieces& pieces, const std::vector<PlanDemand>& way,
                const numerics::Selection& selection, const std::vector<double>& depths) {
    double least = numerics::kInfinity;
    for (const PlanDemand& each : way)
        least = std::min(least, pieces.slack(each, selection, depths));
    return least;
}

std::size_t first_unmet(const Pieces& pieces, const numerics::Selection& selection,
                        const std::vector<double>& depths) {
    const auto& either = pieces.demands.either;
    const auto found = std::find_if(either.begin(), either.end(), [&](const Either& each) {
        return std::none_of(each.ways.begin(), each.ways.end(), [&](const auto& way) {
            return slack_of(pieces, way, selection, depths) >= -numerics::kSameLength;
        });
    });
    return static_cast<std::size_t>(found - either.begin());
}

}  // namespace

JobProblem::JobProblem(const stack::Model& model, Demands demands, const Judging& judging,
                       numerics::Deadline* clock) {
    auto parts = std::make_shared<Parts>();
    Pieces& pieces = parts->pieces;
    pieces.model = &model;
    pieces.judging = judging;
    pieces.demands = std::move(demands);
    parts_ = parts;
    const bool by_odds = static_cast<bool>(judging.by_odds);
    const bool worst = judging.judge == stack::Judge::worst && !by_odds;
    problem_.judge = worst ? numerics::MarginRule::worst_case : numerics::MarginRule::rss;
    for (const Work& work : pieces.demands.works) {
        numerics::Activity& made = problem_.activities.emplace_back(cut_of(model.job(), work));
        made.cost = std::max(made.cost, kFreeWork);
    }
    stock_seats(model.job(), pieces, problem_);
    const numerics::Problem reached = judging.limits_may_give ? limits_given(problem_) : problem_;
    sift_either(pieces, reached, worst);
    const bool exact = by_odds || tied_pieces(pieces) || any_tied(pieces);
    problem_.inflation = bounding_inflation(judging, exact);
    add_rows(reached, exact, clock);
    set_to_aims();
    const std::shared_ptr<const Pieces> shared(parts_, &parts_->pieces);
    if (exact) {
        const auto judge = std::make_shared<Exact>(shared, demand_of_row_);
        problem_.row_judge = [judge](std::size_t row, const numerics::Selection& selection) {
            return (*judge)(row, selection);
        };
    }
    if (!pieces.demands.either.empty())
        problem_.verdict = [shared](const numerics::Selection& selection,
                                    const std::vector<double>& depths) {
            return first_unmet(*shared, selection, depths) == shared->demands.either.size();
        };
}

// Shims that move a check with an aim are chosen for it.
void JobProblem::set_to_aims() {
    for (const numerics::ConstraintRow& row : problem_.rows) {
        if (!row.aim) continue;
        for (std::size_t q = 0; q < problem_.bins.size(); ++q)
            if (row.bins[q] != 0.0) problem_.bins[q].set_to_aim = true;
    }
}

void JobProblem::add_rows(const numerics::Problem& reached, bool exact, numerics::Deadline* clock) {
    const Pieces& pieces = parts_->pieces;
    const bool by_odds = static_cast<bool>(pieces.judging.by_odds);
    const bool worst = pieces.judging.judge == stack::Judge::worst && !by_odds;
    const bool open = exact && !by_odds && !middle_is_possible(*pieces.model);
    for (std::size_t d = 0; d < pieces.demands.all.size(); ++d) {
        if (clock != nullptr && clock->stopped()) return;
        const PlanDemand& demand = pieces.demands.all[d];
        if (pieces.judging.loose && demand.drawn) continue;
        if (pieces.judging.surely && may_over_ask(demand)) continue;
        // What holds even if all that may be decided went against it needs no row, save for its
        // aim. Odds look beyond the limits, and so does an inflated RSS.
        const stack::Range all = reach(pieces, reached, demand);
        if (worst && !demand.aim && all.lo > demand.lower + numerics::kSameLength &&
            (all.hi < demand.upper || demand.upper == numerics::kInfinity))
            continue;
        demand_of_row_.push_back(d);
        problem_.rows.push_back(row_of(pieces, demand, exact, open));
    }
}

const stack::Model& JobProblem::model() const {
    return *parts_->pieces.model;
}

const Demands& JobProblem::demands() const {
    return parts_->pieces.demands;
}

const Judging& JobProblem::judging() const {
    return parts_->pieces.judging;
}

const std::vector<StockPiece>& JobProblem::stock() const {
    return parts_->pieces.stock;
}

const PlanDemand& JobProblem::demand(std::size_t row) const {
    return parts_->pieces.demands.all[demand_of_row_[row]];
}

stack::Range JobProblem::judged(const PlanDemand& demand, const numerics::Selection& selection,
                                const std::vector<double>& depths) const {
    const Pieces& pieces = parts_->pieces;
    const stack::Range range = pieces.range(pieces.settled(demand, selection));
    const double gained = pieces.gained(demand, selection, depths);
    return {.lo = range.lo + gained, .hi = range.hi + gained};
}

numerics::Problem JobProblem::choosing(const std::vector<std::size_t>& which) const {
    const std::shared_ptr<const Pieces> pieces(parts_, &parts_->pieces);
    numerics::Problem problem = without_either();
    const std::size_t rows = problem.rows.size();
    const bool exact = static_cast<bool>(problem.row_judge);
    std::vector<const PlanDemand*> chosen;
    for (std::size_t e = 0; e < which.size(); ++e) {
        if (which[e] == kAnyWay) continue;
        for (const PlanDemand& each : pieces->demands.either[e].ways[which[e]]) {
            chosen.push_back(&each);
            problem.rows.push_back(row_of(*pieces, each, exact, exact));
        }
    }
    if (problem.row_judge)
        problem.row_judge = [old = problem.row_judge, rows, chosen, pieces](
                                std::size_t row, const numerics::Selection& selection) {
            return row < rows ? old(row, selection)
                              : pieces->limits(*chosen[row - rows], selection);
        };
    return problem;
}

const PlanDemand& JobProblem::demand(std::size_t row, const std::vector<std::size_t>& which) const {
    if (row < demand_of_row_.size()) return demand(row);
    std::size_t left = row - demand_of_row_.size();
    for (std::size_t e = 0; e < which.size(); ++e) {
        if (which[e] == kAnyWay) continue;
        const std::vector<PlanDemand>& way = parts_->pieces.demands.either[e].ways[which[e]];
        if (left < way.size()) return way[left];
        left -= way.size();
    }
    throw std::out_of_range("no such row");
}

std::vector<std::size_t> JobProblem::limits_of(const std::vector<std::size_t>& which) const {
    std::size_t rows = demand_of_row_.size();
    for (std::size_t e = 0; e < which.size(); ++e)
        if (which[e] != kAnyWay) rows += parts_->pieces.demands.either[e].ways[which[e]].size();
    std::vector<std::size_t> limits(rows);
    std::map<stack::JudgedId, std::size_t> first;
    for (std::size_t row = 0; row < rows; ++row) {
        const PlanDemand& asked = demand(row, which);
        const bool shares = asked.of && !middle_alone(asked);
        limits[row] = shares ? first.try_emplace(*asked.of, row).first->second : row;
    }
    return limits;
}

numerics::Problem JobProblem::without_either() const {
    numerics::Problem problem = problem_;
    problem.verdict = nullptr;
    return problem;
}

numerics::Problem JobProblem::held(const numerics::Selection& selection,
                                   const std::vector<double>& depths) const {
    std::vector<std::size_t> which;
    const Pieces& pieces = parts_->pieces;
    for (const Either& each : pieces.demands.either) {
        std::size_t best = 0;
        for (std::size_t i = 1; i < each.ways.size(); ++i)
            if (slack_of(pieces, each.ways[i], selection, depths) >
                slack_of(pieces, each.ways[best], selection, depths))
                best = i;
        which.push_back(best);
    }
    return choosing(which);
}

std::size_t JobProblem::unmet(const numerics::Selection& selection,
                              const std::vector<double>& depths) const {
    return first_unmet(parts_->pieces, selection, depths);
}

JobProblem JobProblem::as_read() const {
    return {model(), plan::as_read(model().job(), demands()), parts_->pieces.judging};
}

bool JobProblem::holds_now(const PlanDemand& demand) const {
    numerics::Selection nothing_done;
    nothing_done.done.assign(problem_.activities.size(), false);
    nothing_done.stacks = parts_->pieces.fitted;
    const std::vector<double> none(problem_.activities.size(), 0.0);
    return parts_->pieces.slack(demand, nothing_done, none) >= -numerics::kSameLength;
}

template <typename Is>
bool JobProblem::any_row(Is is) const {
    for (const std::size_t d : demand_of_row_)
        if (is(demands().all[d])) return true;
    for (const Either& each : demands().either)
        for (const std::vector<PlanDemand>& way : each.ways)
            if (std::any_of(way.begin(), way.end(), is)) return true;
    return false;
}

bool JobProblem::leans() const {
    return any_row([](const PlanDemand& each) { return each.leans; });
}

bool JobProblem::over_asks() const {
    return any_row([](const PlanDemand& each) { return may_over_ask(each); });
}

}  // namespace trialfit::plan
