// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <memory>
#include <trialfit/numerics/planner/solve_amounts.hpp>
#include <trialfit/plan/job/as_it_is.hpp>
#include <trialfit/plan/job/as_read.hpp>
#include <trialfit/plan/job/plan_maker.hpp>
#include <trialfit/plan/job/readings_after.hpp>
#include <trialfit/plan/job/rounded.hpp>
#include <trialfit/plan/job/shims.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

// In the words of the format.
std::string words_of(double size, double half_width) {
    const std::string figure = quantity::plain(size);
    return half_width > 0.0 ? figure + " ±" + quantity::plain(half_width) : figure + " exact";
}

// A depth of cut that a small lathe takes in soft metal, and a last light pass on a size (0.13 to
// 0.38 mm in trade::facing_cuts). Common practice, no source for the former.
constexpr double kPassDepth_mm = 0.5;
constexpr double kLastPass_mm = 0.2;
// A plate thinner than this share of its diameter bows in the chuck. Common practice, no source.
constexpr double kThin = 1.0 / 12.0;

// Passes of as many decimals as what comes off is told with: they add up to it, and the last is
// never deeper than the others.
Passes passes_of(double remove, quantity::Unit units, int decimals) {
    const double mm = quantity::convert(1.0, quantity::Unit::mm, units);
    const double least = std::pow(10.0, -decimals);
    const double all = std::max(quantity::rounded(remove, decimals), 0.0);
    Passes passes{.rough = 0, .depth = 0.0, .last = all};
    if (all <= kLastPass_mm * mm + 0.5 * least) return passes;
    const double rough = all - kLastPass_mm * mm;
    passes.rough = static_cast<int>(std::ceil(rough / (kPassDepth_mm * mm) - 1e-9));
    passes.depth = quantity::rounded(rough / passes.rough, decimals);
    const auto last = [&] {
        return quantity::rounded(all - passes.rough * passes.depth, decimals);
    };
    if (passes.depth < last()) passes.depth = quantity::rounded(all / (passes.rough + 1), decimals);
    while (passes.depth < last() - 0.5 * least)
        passes.depth = quantity::rounded(passes.depth + least, decimals);
    passes.last = last();
    if (passes.last < 0.5 * least) {  // nothing is left for a last one
        passes.last = passes.depth;
        --passes.rough;
    }
    return passes;
}

// Whether the metal that is left between two faces is thin for the widest ring that ends at either.
bool thin(const job::Part& part, const job::Cut& cut, double finish) {
    double widest = 0.0;
    for (const job::Ring& ring : part.rings) {
        const auto ends_at = [&](job::FaceId face) {
            return ring.inboard.face == face || ring.outboard.face == face;
        };
        if (ends_at(cut.face) && ends_at(cut.measure))
            widest = std::max(widest, ring.outside.size.nominal);
    }
    return finish < kThin * widest;
}

class PlanMaker {
public:
    PlanMaker(const stack::Model& model, const JobOptions& options, const JobProblem& problem,
              numerics::Deadline& clock)
        : model_(model), job_(model.job()), options_(options), problem_(problem), clock_(clock) {}

    // With its finish sizes rounded to figures, where the plan holds so.
    [[nodiscard]] MadePlan make(const numerics::Solution& found) const {
        const numerics::Solution told = rounded(problem_, found);
        MadePlan out = make_exactly(told);
        if (!out.holds && told.amounts != found.amounts) return make_exactly(found);
        return out;
    }

private:
    [[nodiscard]] MadePlan make_exactly(const numerics::Solution& found) const {
        MadePlan out;
        PlanMade& plan = out.plan;
        plan.cost_ranked = found.cost;
        plan.cost = found.cost + price_set_to_aim(problem_.problem(), found.selection);
        for (std::size_t w = 0; w < problem_.problem().activities.size(); ++w)
            if (found.selection.done[w]) plan.cost += told_cost(w) - counted_cost(w);
        const auto& seats = problem_.problem().bins;
        plan.set_to_aim = std::any_of(seats.begin(), seats.end(),
                                      [](const numerics::Bin& seat) { return seat.set_to_aim; });
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
        if (assembled == nullptr || !assembled->ties().contradictions().empty()) return out;
        plan.after = stack::check(*assembled, options_.stack);
        plan.readings = readings_after(*assembled);
        if (options_.judge_after) options_.judge_after(plan.after, after);
        for (const CutMade& cut : plan.cuts)
            if (cut.by_amount) leave_keep_unjudged(cut, plan.after);
        out.holds = fits(plan.after);
        if (out.holds) {
            tell_as_it_is(model_, options_, plan);
            return out;
        }
        if (plan.after.implied_left_out)
            std::copy_if(plan.after.clearances.begin(), plan.after.clearances.end(),
                         std::back_inserter(out.fouled), [](const stack::Clearance& pair) {
                             return pair.verdict != stack::Verdict::holds;
                         });
        for (stack::RadialGap& gap : stack::radial_gaps(
                 stack::in_states(*assembled), options_.stack.judge, options_.stack.inflate))
            if (gap.verdict != stack::Verdict::holds) out.too_narrow.push_back(std::move(gap));
        return out;
    }

    void leave_keep_unjudged(const CutMade& cut, stack::CheckAnswer& after) const {
        after.warnings.emplace_back(job::Warning(
            job::KeepNotJudged{.face = cut.face, .keep = cut.keep, .units = job_.units}));
        after.verdict = stack::worse(after.verdict, stack::Verdict::not_judged);
    }

    void add_works(const numerics::Solution& found, PlanMade& plan) const {
        const std::vector<numerics::Window> all = windows_of(found);
        for (std::size_t w = 0; w < problem_.demands().works.size(); ++w) {
            if (!found.selection.done[w]) continue;
            const Work& work = problem_.demands().works[w];
            if (const auto* cut = std::get_if<FaceCut>(&work))
                add_cut(*cut, cost_of_work(found, w), found.amounts[w], all[w], plan);
            else if (const auto* skim = std::get_if<RingSkim>(&work))
                add_skim(*skim, cost_of_work(found, w), found.amounts[w], all[w], plan);
            else if (const auto* by_hand = std::get_if<HandCentring>(&work))
                add_centring(*by_hand, plan);
            else
                add_lap(std::get<ConeLap>(work), cost_of_work(found, w), found.amounts[w], all[w],
                        plan);
        }
    }

    [[nodiscard]] double cost_of_work(const numerics::Solution& found, std::size_t w) const {
        return told_cost(w) + problem_.problem().activities[w].per_amount * found.amounts[w];
    }
    [[nodiscard]] double counted_cost(std::size_t w) const {
        return problem_.problem().activities[w].cost;
    }
    [[nodiscard]] double told_cost(std::size_t w) const {
        return counted_cost(w) > kFreeWork ? counted_cost(w) : 0.0;
    }

    [[nodiscard]] std::vector<numerics::Window> windows_of(const numerics::Solution& found) const {
        const JobProblem read = problem_.as_read();
        std::vector<double> half_widths;
        for (const Work& work : read.demands().works) {
            const NewLength* const length = new_length(work);
            const bool by_hand = std::holds_alternative<HandCentring>(work);
            half_widths.push_back(length == nullptr || by_hand ? 0.0 : length->holds);
        }
        return windows(read.held(found.selection, found.amounts), found, half_widths, clock_);
    }

    // What a cut or a skim is read by, and its window; `now`: its size at depth 0, `way` what a
    // unit of depth adds to it.
    template <typename Made>
    void tell_window(const Work& work, const numerics::Window& window, double now, double way,
                     Made& made) const {
        const double one = now + way * window.least_amount;
        const double other = now + way * window.greatest_amount;
        made.window = inwards({.lo = std::min(one, other), .hi = std::max(one, other)});
        made.no_window = window.none;
        const std::optional<job::GaugeId> gauge = gauge_for(job_, work);
        made.read_within = made.holds;
        if (!gauge) return;
        const job::Gauge& by = job_.gauges[static_cast<std::size_t>(*gauge)];
        made.read_by = by.name;
        made.read_within = std::max(made.holds, by.half_width);
    }

    // What a program that reads the answer may write down again: ends of few decimals, on the safe
    // side.
    static stack::Range inwards(const stack::Range& range) {
        constexpr double kSteps = 1e6;
        constexpr double kNoise = 1e-3;
        const stack::Range in{.lo = std::ceil(range.lo * kSteps - kNoise) / kSteps,
                              .hi = std::floor(range.hi * kSteps + kNoise) / kSteps};
        return in.lo <= in.hi ? in : range;
    }

    // What comes off a face whose thickness nobody has measured.
    void add_amount(const FaceCut& work, double cost, double depth, const numerics::Window& window,
                    PlanMade& plan) const {
        const job::Cut& cut = *work.cut;
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const double off = told(depth);
        plan.cuts.push_back({.part = part.name,
                             .face = job::name(job_, job::FaceRef{work.part, cut.face}),
                             .from = job::name(job_, job::FaceRef{work.part, cut.measure}),
                             .turns = part.turns,
                             .by_amount = true,
                             .remove = off,
                             .holds = cut.holds,
                             .keep = cut.keep,
                             .passes = passes_of(off, job_.units, finish_decimals(job_, cut.holds)),
                             .cost = cost,
                             .note = cut.note});
        tell_window(work, window, 0.0, 1.0, plan.cuts.back());
        plan.changes.cuts.push_back(
            {.part = work.part,
             .face = cut.face,
             .measure = cut.measure,
             .size = {.size = quantity::toleranced(-work.sign * off, -cut.holds, cut.holds),
                      .written = words_of(-work.sign * off, cut.holds),
                      .at = cut.at,
                      .gauge = std::nullopt},
             .by_amount = true});
    }

    void add_cut(const FaceCut& work, double cost, double depth, const numerics::Window& window,
                 PlanMade& plan) const {
        if (work.by_amount) return add_amount(work, cost, depth, window, plan);
        const job::Cut& cut = *work.cut;
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const double finish = told(work.now - depth);
        const int decimals = finish_decimals(job_, cut.holds);
        plan.cuts.push_back({.part = part.name,
                             .face = job::name(job_, job::FaceRef{work.part, cut.face}),
                             .from = job::name(job_, job::FaceRef{work.part, cut.measure}),
                             .turns = part.turns,
                             .now = work.now,
                             .finish = finish,
                             .remove = depth,
                             .holds = cut.holds,
                             .keep = cut.keep,
                             .passes = passes_of(quantity::rounded(work.now, decimals) -
                                                     quantity::rounded(finish, decimals),
                                                 job_.units, decimals),
                             .thin = thin(part, cut, finish),
                             .cost = cost,
                             .note = cut.note});
        tell_window(work, window, work.now, -1.0, plan.cuts.back());
        plan.changes.cuts.push_back(
            {.part = work.part,
             .face = cut.face,
             .measure = cut.measure,
             .size = {.size = quantity::toleranced(work.sign * finish, -cut.holds, cut.holds),
                      .written = words_of(work.sign * finish, cut.holds),
                      .at = cut.at,
                      .gauge = std::nullopt}});
    }

    void add_lap(const ConeLap& work, double cost, double off, const numerics::Window& window,
                 PlanMade& plan) const {
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const job::ConeRef cone{.part = work.part, .index = work.lap->cone};
        const double taper = part.cones[static_cast<std::size_t>(cone.index)].taper;
        plan.laps.push_back({.part = part.name,
                             .cone = job::cone_name(job_, cone),
                             .off_diameter = off,
                             .moves = off / std::abs(taper),
                             .window = {.lo = window.least_amount, .hi = window.greatest_amount},
                             .at_most = work.lap->at_most_on_diameter,
                             .dia_after = stack::lapped(job_, {.cone = cone, .off_diameter = off}),
                             .cost = cost,
                             .note = work.lap->note});
        plan.changes.laps.push_back({.cone = cone, .off_diameter = off});
    }

    void add_skim(const RingSkim& work, double cost, double depth, const numerics::Window& window,
                  PlanMade& plan) const {
        const job::Skim& skim = *work.skim;
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const job::Ring& ring = part.rings[static_cast<std::size_t>(skim.ring)];
        const double way = work.length.by_depth;
        const double finish = told(work.now + way * depth);
        const int decimals = finish_decimals(job_, skim.holds);
        const double other = (skim.bore ? ring.outside : ring.bore).size.nominal;
        const double off =
            std::abs(quantity::rounded(work.now, decimals) - quantity::rounded(finish, decimals));
        const Passes passes = passes_of(0.5 * off, job_.units, decimals + 1);
        plan.skims.push_back({.part = part.name,
                              .ring = job::ring_name(job_, {work.part, skim.ring}),
                              .bore = skim.bore,
                              .turns = part.turns,
                              .now = work.now,
                              .finish = finish,
                              .remove = depth,
                              .holds = skim.holds,
                              .keep = skim.keep,
                              .until = skim.until,
                              .wall = 0.5 * std::abs(finish - other),
                              .passes = passes,
                              .cost = cost,
                              .note = skim.note});
        tell_window(work, window, work.now, way, plan.skims.back());
        plan.changes.skims.push_back(
            {.ring = {.part = work.part, .index = skim.ring},
             .bore = skim.bore,
             .size = {.size = quantity::toleranced(finish, -skim.holds, skim.holds),
                      .written = words_of(finish, skim.holds),
                      .at = skim.at,
                      .gauge = std::nullopt}});
    }

    void add_centring(const HandCentring& work, PlanMade& plan) const {
        const job::Centring& centring = *work.centring;
        const job::Part& part = job_.parts[static_cast<std::size_t>(work.part)];
        const double play = centring.clearance.size.upper;
        plan.centrings.push_back({.part = part.name,
                                  .on = centring.on_written,
                                  .play = play,
                                  .to = *centring.centre_to,
                                  .gains = 0.5 * (play - *centring.centre_to),
                                  .cost = centring.centre_cost});
        plan.changes.centrings.push_back(
            {.part = work.part,
             .clearance = {.size = held(work.length),
                           .written = fmt::format("0..{:.9g}", *centring.centre_to),
                           .at = centring.at,
                           .gauge = std::nullopt}});
    }

    // A figure but for rounding noise is that figure.
    static double told(double size) {
        constexpr int kFine = 9;
        return quantity::rounded(size, kFine);
    }

    void add_stack(const numerics::Solution& found, std::size_t q, PlanMade& plan) const {
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
            restacked.shims.push_back({.shim = piece.given, .fitted = piece.fitted});
        }
        for (std::size_t i = 0; i < kept.size(); ++i) {
            const job::Given& piece = place.shims->fitted[i];
            made.before += piece.size.nominal;
            if (!kept[i])
                made.taken_out.push_back(
                    {.thickness = piece.size.nominal, .written = piece.written, .fitted = true});
        }
        if (place.shims->round) {
            made.round = place.shims->round;
            made.wanted = wanted(found, q);
        }
        plan.changes.stacks.push_back(std::move(restacked));
        if (!made.stack.empty() || !made.taken_out.empty()) plan.shims.push_back(std::move(made));
    }

    // What the stack would be if the aim that the seat's rule goes by were met, all else as
    // planned.
    [[nodiscard]] std::optional<double> wanted(const numerics::Solution& found,
                                               std::size_t q) const {
        const numerics::Problem& inner = problem_.problem();
        for (std::size_t row = 0; row < inner.rows.size(); ++row) {
            const PlanDemand& demand = problem_.demand(row);
            if (demand.rounded_seat != q) continue;
            double stack = 0.0;
            for (const std::size_t kind : found.selection.stacks[q])
                stack += inner.stock[kind].thickness;
            // The rule's limits lie about the aim as `rounded_from` says.
            const RoundedFrom from = rounded_from(*problem_.demands().seats[q].shims->round);
            const double times = demand.by_stack[q];
            const double aim = (times > 0.0 ? demand.upper : demand.lower) + times * from.least;
            return stack + (aim - found.rows[row].middle) / times;
        }
        return std::nullopt;
    }

    const stack::Model& model_;
    const job::Job& job_;
    const JobOptions& options_;
    const JobProblem& problem_;
    numerics::Deadline& clock_;
};

// A skim that a demand leans on.
bool skimmed_for(const JobProblem& problem, const numerics::Solution& found,
                 const PlanDemand& demand) {
    for (std::size_t w = 0; w < demand.by_work.size(); ++w)
        if (found.selection.done[w] && demand.by_work[w] != 0.0 &&
            std::holds_alternative<RingSkim>(problem.demands().works[w]))
            return true;
    return false;
}

// Less clearance than this share of what is skimmed is not worth centring for.
constexpr double kWorthCentring = 0.25;

bool could_be_centred(const job::Part& part) {
    if (!part.centred || part.centred->centre_to) return false;
    const job::CentredBy by = part.centred->by;
    return (by == job::CentredBy::bolts || by == job::CentredBy::reg) &&
           part.centred->clearance.size.upper > 0.0;
}

// Each part that could be centred and takes its share of a demand that matters.
std::vector<Note> lying_loose(const JobProblem& problem, double least_play,
                              const std::function<bool(const PlanDemand&)>& matters) {
    const stack::Model& model = problem.model();
    const auto& demands = problem.demands().all;
    std::vector<Note> all;
    if (model.radial().centring.empty()) return all;
    for (std::size_t p = 0; p < model.job().parts.size(); ++p) {
        const job::Part& part = model.job().parts[p];
        const int size = model.radial().centring[p];
        if (!could_be_centred(part) || part.centred->clearance.size.upper < least_play) continue;
        if (std::none_of(demands.begin(), demands.end(), [&](const PlanDemand& demand) {
                return demand.now.sensitivities.coeff(size) != 0.0 && matters(demand);
            }))
            continue;
        all.emplace_back(LiesLoose{.part = part.name,
                                   .on = part.centred->on_written,
                                   .play = part.centred->clearance.size.upper});
    }
    return all;
}

}  // namespace

MadePlan made(const stack::Model& model, const JobOptions& options, const JobProblem& problem,
              const numerics::Solution& found, numerics::Deadline& clock) {
    return PlanMaker(model, options, problem, clock).make(found);
}

std::vector<Note> centring_first(const JobProblem& problem, const numerics::Solution& found) {
    double most = 0.0;
    for (std::size_t w = 0; w < found.amounts.size(); ++w)
        if (found.selection.done[w] && std::holds_alternative<RingSkim>(problem.demands().works[w]))
            most = std::max(most, found.amounts[w]);
    return lying_loose(problem, kWorthCentring * most, [&](const PlanDemand& demand) {
        return skimmed_for(problem, found, demand);
    });
}

std::vector<Note> centring_might_do(const JobProblem& problem) {
    return lying_loose(problem, 0.0,
                       [&](const PlanDemand& demand) { return !problem.holds_now(demand); });
}

}  // namespace trialfit::plan
