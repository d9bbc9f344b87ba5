// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <trialfit/plan/explained.hpp>
#include <trialfit/plan/job_plan.hpp>
#include <trialfit/plan/least_bother.hpp>
#include <trialfit/quantity/units.hpp>
#include <tuple>
#include <utility>

namespace trialfit::plan {

namespace {

// What is asked for to the last digit that a person may care for, in the words of the format.
std::string words_of(double size, double half_width) {
    const auto figure = [](double value) {
        std::string text = fmt::format("{:.9f}", value);
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
        return text;
    };
    return half_width > 0.0 ? figure(size) + " ±" + figure(half_width) : figure(size) + " exact";
}

// A depth of cut that a small lathe takes in soft metal, and a last light pass on a size (0.13 to
// 0.38 mm in trade::facing_cuts). Common practice, no source for the former.
constexpr double kPassDepth_mm = 0.5;
constexpr double kLastPass_mm = 0.2;
// A plate thinner than this share of its diameter bows in the chuck. Common practice, no source.
constexpr double kThin = 1.0 / 12.0;

Passes passes_of(double remove, quantity::Unit units) {
    const double mm = quantity::convert(1.0, quantity::Unit::mm, units);
    Passes passes;
    passes.last = std::min(remove, kLastPass_mm * mm);
    const double rough = remove - passes.last;
    passes.rough = static_cast<int>(std::ceil(rough / (kPassDepth_mm * mm) - 1e-9));
    if (passes.rough > 0) passes.depth = rough / passes.rough;
    return passes;
}

// Whether the metal that is left between two faces is thin for the widest ring that ends at either.
bool thin(const job::Part& part, const job::Cut& cut, double finish) {
    double widest = 0.0;
    for (const job::Ring& ring : part.rings) {
        const auto ends_at = [&](int face) {
            return ring.inboard.face == face || ring.outboard.face == face;
        };
        if (ends_at(cut.face) && ends_at(cut.measure))
            widest = std::max(widest, ring.outside.size.nominal);
    }
    return finish < kThin * widest;
}

class PlanMaker {
public:
    PlanMaker(const stack::Model& model, const JobOptions& options, const JobProblem& problem)
        : model_(model), job_(model.job()), options_(options), problem_(problem) {}

    // Nothing where the plan does not hold when its work is done.
    [[nodiscard]] std::optional<PlanMade> make(const Plan& found) const {
        PlanMade plan;
        plan.cost = found.cost;
        plan.proven = found.proven;
        plan.untied = found.untied;
        add_works(found, plan);
        for (std::size_t q = 0; q < problem_.demands().seats.size(); ++q)
            add_stack(found, q, plan);
        job::Job after = stack::carried_out(model_, plan.changes);
        after.before = std::make_shared<const job::Job>(job_);
        after.record.resize(job_.in_force);
        after.record.push_back({.note = "as planned"});
        after.in_force = job_.in_force + 1;
        const auto built = stack::model_after(model_, after);
        const auto* assembled = std::get_if<stack::Model>(&built);
        if (assembled == nullptr || !assembled->ties().contradictions().empty()) return {};
        plan.after = stack::check(*assembled, options_.stack);
        if (options_.judge_after) options_.judge_after(plan.after, after);
        if (!fits(plan.after)) return {};
        return plan;
    }

private:
    // A grip by strength that nobody knows the strength for stays doubtful whatever is cut.
    [[nodiscard]] bool fits(const stack::CheckAnswer& answer) const {
        if (answer.verdict == stack::Verdict::holds) return true;
        const auto holds = [](const auto& each) { return each.verdict == stack::Verdict::holds; };
        for (std::size_t c = 0; c < answer.checks.size(); ++c) {
            if (!holds(answer.checks[c]) && !strength_unknown(c, answer)) return false;
        }
        return std::all_of(answer.clearances.begin(), answer.clearances.end(), holds) &&
               std::all_of(answer.radial.begin(), answer.radial.end(), holds);
    }

    [[nodiscard]] bool strength_unknown(std::size_t c, const stack::CheckAnswer& answer) const {
        // Air gaps come after the checks that have forms along the axis.
        if (c >= job_.checks.size()) return false;
        const std::optional<job::Limit>& least = job_.checks[c].at_least;
        return least && least->in == job::LimitIn::strength && !answer.checks[c].at_least;
    }

    void add_works(const Plan& found, PlanMade& plan) const {
        std::vector<double> holds;
        for (const Work& work : problem_.demands().works) {
            const auto* cut = std::get_if<FaceCut>(&work);
            holds.push_back(cut == nullptr ? 0.0 : cut->cut->holds);
        }
        const std::vector<Window> all =
            windows(problem_.held(found.selection, found.depths), found, holds);
        for (std::size_t w = 0; w < problem_.demands().works.size(); ++w) {
            if (!found.selection.cut[w]) continue;
            const Work& work = problem_.demands().works[w];
            if (const auto* cut = std::get_if<FaceCut>(&work))
                add_cut(*cut, found.depths[w], all[w], plan);
            else
                add_lap(std::get<ConeLap>(work), found.depths[w], all[w], plan);
        }
    }

    void add_cut(const FaceCut& work, double depth, const Window& window, PlanMade& plan) const {
        const job::Cut& cut = *work.cut;
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const double finish = work.now - depth;
        plan.cuts.push_back({.part = part.name,
                             .face = job::name(job_, job::FaceRef{work.part, cut.face}),
                             .from = job::name(job_, job::FaceRef{work.part, cut.measure}),
                             .turns = part.turns,
                             .now = work.now,
                             .finish = finish,
                             .remove = depth,
                             .holds = cut.holds,
                             .keep = cut.keep,
                             .window = {.lo = work.now - window.greatest_depth,
                                        .hi = work.now - window.least_depth},
                             .passes = passes_of(depth, job_.units),
                             .thin = thin(part, cut, finish),
                             .cost = cut.cost + cut.cost_per_mm * depth,
                             .note = cut.note});
        plan.changes.cuts.push_back(
            {.part = work.part,
             .face = cut.face,
             .measure = cut.measure,
             .size = {.size = quantity::toleranced(work.sign * finish, -cut.holds, cut.holds),
                      .written = words_of(work.sign * finish, cut.holds),
                      .at = cut.at,
                      .gauge = -1}});
    }

    void add_lap(const ConeLap& work, double off, const Window& window, PlanMade& plan) const {
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const job::FeatureRef cone{.part = work.part, .index = work.lap->cone};
        const double taper = part.cones[static_cast<std::size_t>(cone.index)].taper;
        plan.laps.push_back({.part = part.name,
                             .cone = job::cone_name(job_, cone),
                             .off_diameter = off,
                             .moves = off / std::abs(taper),
                             .window = {.lo = window.least_depth, .hi = window.greatest_depth},
                             .at_most = work.lap->at_most_on_diameter,
                             .cost = problem_.problem().cuts[index_of(work)].cost +
                                     problem_.problem().cuts[index_of(work)].per_mm * off,
                             .note = work.lap->note});
        plan.changes.laps.push_back({.cone = cone, .off_diameter = off});
    }

    [[nodiscard]] std::size_t index_of(const ConeLap& lap) const {
        const auto& works = problem_.demands().works;
        const auto found = std::find_if(works.begin(), works.end(), [&](const Work& work) {
            const auto* other = std::get_if<ConeLap>(&work);
            return other != nullptr && other->lap == lap.lap;
        });
        return static_cast<std::size_t>(found - works.begin());
    }

    void add_stack(const Plan& found, std::size_t q, PlanMade& plan) const {
        const ShimSeat& place = problem_.demands().seats[q];
        const job::Part& part = job_.parts[static_cast<std::size_t>(place.part)];
        const job::Seat& seat = part.seats[static_cast<std::size_t>(place.seat)];
        StackMade made;
        made.part = part.name;
        made.face = job::name(job_, job::FaceRef{place.part, seat.own});
        made.against = job::name(job_, seat.against);
        std::vector<bool> kept(place.shims->fitted.size(), false);
        stack::Restacked restacked{.part = place.part, .seat = place.seat, .shims = {}};
        for (const std::size_t kind : found.selection.stacks[q]) {
            const StockPiece& piece = problem_.stock()[kind];
            if (piece.fitted) kept[*piece.fitted] = true;
            made.stack.push_back({.thickness = piece.given.size.nominal,
                                  .written = piece.given.written,
                                  .fitted = piece.fitted.has_value()});
            made.height += piece.given.size.nominal;
            made.cost += problem_.problem().stock[kind].price;
            restacked.shims.push_back(piece.given);
        }
        for (std::size_t i = 0; i < kept.size(); ++i) {
            const job::Given& piece = place.shims->fitted[i];
            made.before += piece.size.nominal;
            if (!kept[i])
                made.taken_out.push_back(
                    {.thickness = piece.size.nominal, .written = piece.written, .fitted = true});
        }
        plan.changes.stacks.push_back(std::move(restacked));
        if (!made.stack.empty() || !made.taken_out.empty()) plan.shims.push_back(std::move(made));
    }

    const stack::Model& model_;
    const job::Job& job_;
    const JobOptions& options_;
    const JobProblem& problem_;
};

bool cuts_all_of(const Plan& plan, const Plan& cheaper) {
    for (std::size_t w = 0; w < plan.selection.cut.size(); ++w)
        if (cheaper.selection.cut[w] && !plan.selection.cut[w]) return false;
    return true;
}

// Takes in the plans of one more way to meet the demands of which any one is enough.
void merge(Answer& all, Answer&& more, std::size_t top) {
    all.proven = all.proven && more.proven;
    all.bound = std::min(all.bound, more.bound);
    for (Plan& plan : more.plans)
        all.plans.push_back(std::move(plan));
    std::stable_sort(all.plans.begin(), all.plans.end(), [](const Plan& a, const Plan& b) {
        return std::tuple(a.cost, a.aim_distance, a.shims) <
               std::tuple(b.cost, b.aim_distance, b.shims);
    });
    std::vector<Plan> kept;
    for (Plan& plan : all.plans) {
        const bool adds_only = std::any_of(kept.begin(), kept.end(), [&](const Plan& cheaper) {
            return cuts_all_of(plan, cheaper);
        });
        if (!adds_only && kept.size() < top) kept.push_back(std::move(plan));
    }
    all.plans = std::move(kept);
}

// An at_most on a grip or an overlap is met by any one of four differences: each way is searched.
Answer solve_each_way(const JobProblem& problem, const JobOptions& options) {
    const auto& either = problem.demands().either;
    constexpr std::size_t kMostDemands = 4;
    if (either.empty() || either.size() > kMostDemands)
        return solve(problem.problem(), options.top, options.watch);
    Answer all;
    all.proven = true;
    all.bound = std::numeric_limits<double>::infinity();
    std::vector<std::size_t> which(either.size(), 0);
    for (std::size_t e = 0; e < either.size();) {
        merge(all, solve(problem.choosing(which), options.top, options.watch), options.top);
        for (e = 0; e < either.size() && ++which[e] == either[e].size(); ++e)
            which[e] = 0;
    }
    return all;
}

// Radial gaps and air gaps are no matter of cuts along the axis: those that do not hold rule out
// every plan.
std::vector<Stands> beyond_the_axis(const stack::Model& model, const stack::CheckAnswer& answer) {
    std::vector<Stands> all;
    const auto low = [&](const stack::Bounds& value) {
        return answer.judge == stack::Judge::rss ? value.rss.lo : value.worst.lo;
    };
    for (const stack::RadialGap& gap : answer.radial)
        if (gap.verdict != stack::Verdict::holds)
            all.push_back({.kind = Stands::Kind::clearance,
                           .name = gap.inner + " to " + gap.outer,
                           .state = gap.state,
                           .limit = gap.at_least,
                           .best = low(gap.gap)});
    for (std::size_t c = model.job().checks.size(); c < answer.checks.size(); ++c) {
        const stack::CheckResult& check = answer.checks[c];
        if (check.verdict == stack::Verdict::holds) continue;
        const bool least = check.at_least.has_value();
        all.push_back({.kind = least ? Stands::Kind::least : Stands::Kind::most,
                       .name = check.name,
                       .state = check.state,
                       .limit = check.at_least.value_or(check.at_most.value_or(0.0)),
                       .written = least ? check.at_least_written : check.at_most_written,
                       .best = low(check.value)});
    }
    return all;
}

}  // namespace

PlanAnswer plan(const stack::Model& model, const JobOptions& options) {
    PlanAnswer answer;
    answer.file = model.job().file;
    answer.title = model.job().title;
    answer.units = model.job().units;
    answer.judge = options.stack.judge;
    answer.inflate = options.stack.inflate;
    answer.odds_level = options.odds_level;
    answer.before = stack::check(model, options.stack);
    if (options.judge_after) options.judge_after(answer.before, model.job());
    answer.not_assessed = answer.before.not_assessed;

    const JobProblem problem(model, demands(model),
                             {.judge = options.stack.judge,
                              .inflate = options.stack.inflate,
                              .by_odds = options.by_odds});
    answer.notes = problem.demands().notes;
    answer.nothing_to_change = problem.demands().works.empty() && problem.demands().seats.empty();
    if (std::vector<Stands> stuck = beyond_the_axis(model, answer.before); !stuck.empty()) {
        answer.proven = true;
        answer.conflict = NoPlan{};
        answer.conflict->immovable = std::move(stuck);
        return answer;
    }
    Answer found = solve_each_way(problem, options);
    answer.proven = found.proven;
    answer.bound = found.bound;
    answer.stopped = !found.proven;
    const PlanMaker maker(model, options, problem);
    for (const Plan& each : found.plans) {
        if (auto made = maker.make(least_bother(problem, each))) {
            answer.plans.push_back(std::move(*made));
        } else {
            answer.proven = false;
            answer.notes.push_back(fmt::format(
                "a plan of cost {:.4g} is not shown: with its work done, not every check holds.",
                each.cost));
        }
    }
    if (found.conflict) answer.conflict = explained(problem, *found.conflict);
    return answer;
}

}  // namespace trialfit::plan
