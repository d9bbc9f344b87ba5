// SPDX-License-Identifier: MIT
// Plans of made-up jobs against brute force over assembled jobs: each combination of changes on a
// grid is carried out, assembled anew and checked, and from what holds every depth is drawn back as
// far as it goes. Nothing may be cheaper than a plan called proven, and nothing may hold where
// there is proven to be no plan.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <support/fewer.hpp>
#include <support/tried_plan.hpp>
#include <trialfit/plan/demand/decided.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>
#include <vector>

#include "worked_jobs.hpp"

namespace job = trialfit::job;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

// One piece of work: not done, or done to some depth.
struct Step {
    bool made = false;
    double depth = 0.0;
};

// Written for this test: greatest depths, costs and what is done are worked out from the job.
class Assembled {
public:
    explicit Assembled(const stack::Model& model)
        : model_(model), works_(decided(model).works), seats_(decided(model).seats) {
        for (const Work& work : works_)
            most_.push_back(greatest(work));
        for (const ShimSeat& seat : seats_)
            stacks_.push_back(stacks_of(*seat.shims));
    }

    /// The cheapest thing found that costs less than `than` and holds.
    double cheaper_than(double than) {
        best_ = than;
        steps_.assign(works_.size(), {});
        laid_.assign(seats_.size(), {});
        lay(0, 0.0);
        return best_;
    }

private:
    using Stack = std::vector<stack::ShimLaid>;

    [[nodiscard]] const job::Part& part(int index) const {
        return model_.job().parts[static_cast<std::size_t>(index)];
    }

    [[nodiscard]] double greatest(const Work& work) const {
        if (const auto* cut = std::get_if<FaceCut>(&work))
            return cut->now - cut->cut->keep - cut->cut->holds;
        if (const auto* lap = std::get_if<ConeLap>(&work)) return lap->lap->at_most_on_diameter;
        if (const auto* skim = std::get_if<RingSkim>(&work))
            return std::abs(*skim->skim->until - skim->now) - skim->skim->holds;
        return 0.0;
    }

    [[nodiscard]] double cost(std::size_t w) const {
        const auto of = [&](double once, double per_mm) { return once + per_mm * steps_[w].depth; };
        if (const auto* cut = std::get_if<FaceCut>(&works_[w]))
            return of(cut->cut->cost, cut->cut->cost_per_mm);
        if (const auto* lap = std::get_if<ConeLap>(&works_[w])) return of(lap->lap->cost, 0.1);
        if (const auto* skim = std::get_if<RingSkim>(&works_[w]))
            return of(skim->skim->cost, skim->skim->cost_per_mm);
        return std::get<HandCentring>(works_[w]).centring->centre_cost;
    }

    static std::vector<Stack> stacks_of(const job::Shims& shims) {
        Stack pieces;
        for (std::size_t i = 0; i < shims.fitted.size(); ++i)
            pieces.push_back({.shim = shims.fitted[i], .fitted = i});
        for (const job::ShimStock& each : shims.stock)
            for (int n = 0; n < each.pieces.value_or(shims.at_most); ++n)
                pieces.push_back({.shim = each.thickness});
        std::vector<Stack> all;
        for (unsigned set = 0; set < 1U << pieces.size(); ++set) {
            Stack laid;
            for (std::size_t i = 0; i < pieces.size(); ++i)
                if ((set >> i & 1U) != 0) laid.push_back(pieces[i]);
            if (static_cast<int>(laid.size()) <= shims.at_most) all.push_back(std::move(laid));
        }
        return all;
    }

    void lay(std::size_t q, double spent) {
        if (q == seats_.size()) return work(0, spent);
        for (const Stack& stack : stacks_[q]) {
            laid_[q] = stack;
            double price = 0.0;
            for (const auto& piece : stack)
                price += piece.fitted ? 0.0 : model_.job().shim_cost;
            lay(q + 1, spent + price);
        }
    }

    void work(std::size_t w, double spent) {
        if (spent >= best_ - 1e-6) return;
        if (w == works_.size()) {
            if (holds()) draw_back(spent);
            return;
        }
        steps_[w] = {};
        work(w + 1, spent);
        constexpr double kSteps = 4.0;
        const double levels = most_[w] > 0.0 ? kSteps : 0.0;
        for (double level = 0.0; level <= levels; level += 1.0) {
            steps_[w] = {.made = true, .depth = levels > 0.0 ? most_[w] * level / levels : 0.0};
            work(w + 1, spent + cost(w));
        }
        steps_[w] = {};
    }

    // From what holds: each depth in turn as small as it may be.
    void draw_back(double spent) {
        const std::vector<Step> found = steps_;
        for (std::size_t w = 0; w < works_.size(); ++w) {
            if (!steps_[w].made || steps_[w].depth == 0.0) continue;
            const double before = cost(w);
            double fails = 0.0;
            double does = steps_[w].depth;
            steps_[w].depth = 0.0;
            if (holds()) does = 0.0;
            constexpr int kHalvings = 14;
            for (int i = 0; i < kHalvings && does > 0.0; ++i) {
                steps_[w].depth = 0.5 * (fails + does);
                (holds() ? does : fails) = steps_[w].depth;
            }
            steps_[w].depth = does;
            spent += cost(w) - before;
        }
        best_ = std::min(best_, spent);
        steps_ = found;
    }

    [[nodiscard]] bool holds() const {
        stack::Changes changes;
        for (std::size_t w = 0; w < works_.size(); ++w)
            if (steps_[w].made) do_work(works_[w], steps_[w].depth, changes);
        for (std::size_t q = 0; q < seats_.size(); ++q) {
            changes.stacks.push_back(
                {.part = seats_[q].part, .seat = seats_[q].seat, .shims = laid_[q]});
        }
        const job::Job after = stack::carried_out(model_, changes);
        const auto built = stack::model_after(model_, after);
        const auto* model = std::get_if<stack::Model>(&built);
        return model != nullptr &&
               stack::check(*model, stack::Options{}).verdict == stack::Verdict::holds;
    }

    static void do_work(const Work& work, double depth, stack::Changes& changes) {
        if (const auto* cut = std::get_if<FaceCut>(&work))
            changes.cuts.push_back(
                {.part = cut->part,
                 .face = cut->cut->face,
                 .measure = cut->cut->measure,
                 .size = worked(cut->sign * (cut->now - depth), cut->cut->holds)});
        if (const auto* lap = std::get_if<ConeLap>(&work); lap != nullptr && depth > 0.0)
            changes.laps.push_back(
                {.cone = {.part = lap->part, .index = lap->lap->cone}, .off_diameter = depth});
        if (const auto* skim = std::get_if<RingSkim>(&work))
            changes.skims.push_back({.ring = {.part = skim->part, .index = skim->skim->ring},
                                     .bore = skim->skim->bore,
                                     .size = worked(skim->now + (skim->skim->bore ? depth : -depth),
                                                    skim->skim->holds)});
        if (const auto* by_hand = std::get_if<HandCentring>(&work)) {
            const double half = 0.5 * *by_hand->centring->centre_to;
            changes.centrings.push_back({.part = by_hand->part, .clearance = worked(half, half)});
        }
    }

    const stack::Model& model_;
    std::vector<Work> works_;
    std::vector<ShimSeat> seats_;
    std::vector<double> most_;
    std::vector<std::vector<Stack>> stacks_;
    std::vector<Step> steps_;
    std::vector<Stack> laid_;
    double best_ = std::numeric_limits<double>::infinity();
};

// How many jobs are made up: TRIALFIT_MADE_UP_JOBS asks for more.
unsigned jobs_asked() {
    constexpr unsigned kFew = trialfit::testing::fewer(30);
    const char* const more = std::getenv("TRIALFIT_MADE_UP_JOBS");  // NOLINT(concurrency-mt-unsafe)
    return more == nullptr ? kFew : static_cast<unsigned>(std::atoi(more));
}

}  // namespace

TEST_CASE("no assembled job on the grid beats a proven plan, whatever work changes whatever else") {
    const unsigned jobs = jobs_asked();
    unsigned with_plan = 0;
    unsigned without = 0;
    unsigned unproven = 0;
    for (unsigned seed = 0; seed < jobs; ++seed) {
        CAPTURE(seed);
        const job::Job job = WorkedJob(seed).make();
        const auto built = stack::Model::of(job);
        REQUIRE(std::holds_alternative<stack::Model>(built));
        const auto& model = std::get<stack::Model>(built);
        const PlanAnswer answer = trialfit::plan::plan(model, {.top = 1});
        const double cost = answer.plans.empty() ? std::numeric_limits<double>::infinity()
                                                 : answer.plans.front().cost;
        if (!answer.plans.empty())
            CHECK(answer.plans.front().after.verdict == stack::Verdict::holds);
        if (!(answer.plans.empty() ? answer.proven : answer.plans.front().proven)) {
            ++unproven;
            continue;
        }
        (answer.plans.empty() ? without : with_plan) += 1;
        CHECK(Assembled(model).cheaper_than(cost) >= cost - 1e-6);
    }
    MESSAGE(with_plan, " with a plan, ", without, " without, ", unproven, " not proven");
    if (jobs < 20) return;  // too few to be of all kinds
    CHECK(with_plan > jobs / 4);
    CHECK(without > jobs / 20);
    CHECK(unproven < jobs / 4);
}
