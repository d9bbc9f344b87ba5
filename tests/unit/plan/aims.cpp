// SPDX-License-Identifier: MIT
// Shims are set to an aim: against every selection tried in turn, and against every stack laid in
// the job, which is then assembled anew and checked.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>
#include <vector>

#include "../numerics/random_problem.hpp"
#include "support/messages.hpp"

namespace job = trialfit::job;
namespace numerics = trialfit::numerics;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

constexpr double kNone = std::numeric_limits<double>::infinity();

struct Ranked {
    double cost = kNone;  // shims of seats that are set to an aim aside
    double away = kNone;  // from the aims
};

bool before(const Ranked& a, const Ranked& b) {
    return a.cost < b.cost - 1e-9 || (a.cost < b.cost + 1e-9 && a.away < b.away);
}

// One cut at most, so that its least depth is all there is to find.
class EverySelection {
public:
    explicit EverySelection(const numerics::Problem& problem) : problem_(problem) {
        for (const numerics::Bin& seat : problem.bins)
            stacks_.push_back(every_stack(problem, seat));
        laid_.resize(problem.bins.size());
        lay(0);
    }
    [[nodiscard]] const Ranked& best() const { return best_; }

private:
    void lay(std::size_t q) {
        if (q < stacks_.size()) {
            for (const std::vector<int>& stack : stacks_[q]) {
                laid_[q] = &stack;
                lay(q + 1);
            }
            return;
        }
        double price = 0.0;
        for (std::size_t s = 0; s < laid_.size(); ++s)
            for (std::size_t k = 0; k < problem_.stock.size() && !problem_.bins[s].set_to_aim; ++k)
                price += (*laid_[s])[k] * problem_.stock[k].price;
        judge(false, price);
        if (!problem_.activities.empty()) judge(true, price);
    }

    void judge(bool made, double price) {
        double least = made ? problem_.activities[0].at_least : 0.0;
        double most = made ? problem_.activities[0].at_most : 0.0;
        std::vector<double> middles;
        for (const numerics::ConstraintRow& row : problem_.rows) {
            double middle = row.gap;
            double margin = row.fixed_half_width;
            if (!row.activities.empty()) {
                margin += made ? row.activities[0].done : row.activities[0].not_done;
                if (made) middle += row.activities[0].when_done;
            }
            for (std::size_t q = 0; q < laid_.size(); ++q)
                for (std::size_t k = 0; k < problem_.stock.size(); ++k) {
                    middle += (*laid_[q])[k] * row.bins[q] * problem_.stock[k].thickness;
                    margin += (*laid_[q])[k] * std::abs(row.bins[q]) * problem_.stock[k].half_width;
                }
            middles.push_back(middle);
            const double by = made ? row.activities[0].per_amount : 0.0;
            const double low = row.lower + margin - middle;
            const double high = row.upper - margin - middle;
            if (by == 0.0) {
                if (low > 1e-9 || high < -1e-9) return;
                continue;
            }
            least = std::max(least, by > 0.0 ? low / by : high / by);
            most = std::min(most, by > 0.0 ? high / by : low / by);
        }
        if (least > most + 1e-9) return;
        Ranked found{.cost = price, .away = 0.0};
        if (made)
            found.cost += problem_.activities[0].cost + problem_.activities[0].per_amount * least;
        for (std::size_t r = 0; r < middles.size(); ++r) {
            const numerics::ConstraintRow& row = problem_.rows[r];
            const double by = made ? row.activities[0].per_amount : 0.0;
            if (row.aim) found.away += std::abs(middles[r] + by * least - *row.aim);
        }
        if (before(found, best_)) best_ = found;
    }

    const numerics::Problem& problem_;
    std::vector<std::vector<std::vector<int>>> stacks_;
    std::vector<const std::vector<int>*> laid_;
    Ranked best_;
};

numerics::Problem with_aims(std::uint64_t number) {
    Dice dice(number);
    Shape shape;
    shape.cuts = dice.whole(0, 1);
    shape.seats = dice.whole(1, 2);
    shape.rows = dice.whole(1, 3);
    shape.kinds = dice.whole(2, 3);
    numerics::Problem problem = random_problem(dice, shape);
    for (numerics::StockItem& shim : problem.stock) {
        shim.pieces.reset();
        // Some thicknesses are there twice.
        if (dice.chance(0.3)) shim = problem.stock.front();
    }
    numerics::ConstraintRow& aimed = problem.rows[0];
    aimed.aim = aimed.lower + dice.real(0.0, 0.6);
    for (std::size_t q = 0; q < problem.bins.size(); ++q)
        problem.bins[q].set_to_aim = aimed.bins[q] != 0.0;
    for (numerics::ConstraintRow& row : problem.rows)
        row.shared.clear();
    return problem;
}

// A float, shims under its lid, and an aim; what the shims may not make is for chance to say.
job::Job aimed_job(Dice& dice) {
    job::Job job;
    job.parts.push_back(PartOf("case", "floor").face("joint", given(20.0, 0.02), "floor"));
    job.parts.push_back(PartOf("shaft", "left")
                            .face("right", given(19.0 + dice.real(-0.5, 0.5), 0.03), "left")
                            .seat(on_face(0, {.part = 0, .face = 0})));
    job::Seat seat = on_face(0, {.part = 0, .face = 1});
    job::Shims shims;
    shims.at_most = 3;
    shims.at_most_said = true;
    const double thick = hundredths(dice.real(0.05, 0.4));
    for (const double each : {thick, thick, hundredths(dice.real(0.05, 0.6))})
        shims.stock.push_back({.thickness = given(each, 0.005)});
    seat.shims = shims;
    job.parts.push_back(PartOf("lid", "face").seat(seat));
    job::Check play;
    play.name = "play";
    play.of = job::GapOf{.inboard = {.part = 1, .face = 1}, .outboard = {.part = 2, .face = 0}};
    play.at_least = job::Limit{.value = 0.3, .written = "0.3"};
    play.at_most = job::Limit{.value = 2.5, .written = "2.5"};
    play.aim = job::Limit{.value = hundredths(dice.real(0.5, 2.0)), .written = "aim"};
    job.checks.push_back(play);
    return job;
}

// The least distance from the aim of anything that holds once it is laid and checked.
double nearest(const stack::Model& model) {
    const job::Shims& shims = *model.job().parts[2].seats[0].shims;
    double best = kNone;
    std::vector<stack::ShimLaid> laid;
    const auto look = [&](const auto& self, std::size_t from) -> void {
        stack::Changes changes;
        changes.stacks.push_back({.part = 2, .seat = 0, .shims = laid});
        const job::Job after = stack::carried_out(model, changes);
        const auto answer =
            stack::check(std::get<stack::Model>(stack::model_after(model, after)), {});
        if (answer.verdict == stack::Verdict::holds)
            best = std::min(
                best, std::abs(answer.checks[0].value.middle - model.job().checks[0].aim->value));
        if (laid.size() == static_cast<std::size_t>(shims.at_most)) return;
        for (std::size_t k = from; k < shims.stock.size(); ++k) {
            laid.push_back({.shim = shims.stock[k].thickness});
            self(self, k);
            laid.pop_back();
        }
    };
    look(look, 0);
    return best;
}

}  // namespace

TEST_CASE("shims that move an aim are set to it, on 300 problems, every selection tried") {
    int with_plan = 0;
    for (std::uint64_t number = 0; number < 300; ++number) {
        CAPTURE(number);
        const numerics::Problem problem = with_aims(number);
        const Ranked expected = EverySelection(problem).best();
        const numerics::SolveResult answer = solve(problem, 1);
        REQUIRE(answer.proven);
        REQUIRE(answer.plans.empty() == std::isinf(expected.cost));
        if (answer.plans.empty()) continue;
        ++with_plan;
        CHECK(answer.plans[0].untied);
        CHECK(answer.plans[0].cost == doctest::Approx(expected.cost).epsilon(1e-9));
        CHECK(std::abs(answer.plans[0].aim_distance - expected.away) < 1e-5);
    }
    CHECK(with_plan > 100);
}

TEST_CASE("no stack laid in the job and checked comes nearer to its aim than the plan") {
    int shimmed = 0;
    for (std::uint64_t number = 0; number < 60; ++number) {
        CAPTURE(number);
        Dice dice(number);
        const job::Job job = aimed_job(dice);
        const auto model = std::get<stack::Model>(stack::Model::of(job));
        const double expected = nearest(model);
        const PlanAnswer answer = trialfit::plan::plan(model, {});
        REQUIRE(answer.plans.empty() == std::isinf(expected));
        if (answer.plans.empty()) continue;
        const PlanMade& best = answer.plans.front();
        CHECK(best.set_to_aim);
        CHECK(best.proven);
        CHECK(best.cost_ranked == 0.0);
        const double away = std::abs(best.after.checks[0].value.middle - job.checks[0].aim->value);
        CHECK(away == doctest::Approx(expected).epsilon(1e-6));
        shimmed += best.shims.empty() ? 0 : 1;
        CHECK(best.cost ==
              doctest::Approx(
                  job.shim_cost *
                  static_cast<double>(best.shims.empty() ? 0 : best.shims[0].stack.size())));
    }
    CHECK(shimmed > 30);
}

TEST_CASE("two aims on one seat are told") {
    Dice dice(3);
    job::Job job = aimed_job(dice);
    const auto noted = [](const job::Job& of) {
        const auto model = std::get<stack::Model>(stack::Model::of(of));
        const PlanAnswer answer = trialfit::plan::plan(model, {});
        const auto* const several = message<trialfit::plan::SeveralAims>(answer.notes);
        return several != nullptr && several->checks == std::vector<std::string>{"play", "reach"};
    };
    CHECK_FALSE(noted(job));
    job::Check reach = job.checks[0];
    reach.name = "reach";
    reach.aim->value += 0.1;
    job.checks.push_back(reach);
    CHECK(noted(job));
}
