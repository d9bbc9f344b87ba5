// SPDX-License-Identifier: MIT
// Plans of whole jobs, against the job done and assembled anew.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <support/fewer.hpp>
#include <support/jobs.hpp>
#include <support/tried_plan.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <tuple>
#include <variant>
#include <vector>

#include "random_jobs.hpp"

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

stack::Model model_of(const job::Job& job) {
    return std::get<stack::Model>(stack::Model::of(job));
}

stack::CheckAnswer done(const stack::Model& model, const stack::Changes& changes,
                        const stack::Options& options = {}) {
    const job::Job after = stack::carried_out(model, changes);
    return stack::check(std::get<stack::Model>(stack::model_after(model, after)), options);
}

// Everything that may be done to a random job on the grid of tenths.
class Grid {
public:
    explicit Grid(const stack::Model& model) : model_(model), job_(model.job()) {
        const job::Shims& shims = *job_.parts[2].seats[0].shims;
        fill_stacks(shims, 0, {}, 0, 0.0);
    }

    // The least cost of anything that holds when it is done; infinite where nothing does.
    double best() {
        for (const Stack& stack : stacks_) {
            stack::Changes changes;
            changes.stacks.push_back({.part = 2, .seat = 0, .shims = stack.pieces});
            cut(1, changes, stack.cost);
        }
        return best_;
    }

private:
    struct Stack {
        std::vector<stack::ShimLaid> pieces;
        double cost = 0.0;
    };

    // Any of the fitted piece and of each stock, two pieces at most.
    void fill_stacks(const job::Shims& shims, std::size_t kind, std::vector<stack::ShimLaid> pieces,
                     int count, double cost) {
        if (kind == shims.stock.size()) {
            stacks_.push_back({pieces, cost});
            if (!shims.fitted.empty() && count < 2) {
                pieces.push_back({.shim = shims.fitted.front(), .fitted = 0});
                stacks_.push_back({pieces, cost});
            }
            return;
        }
        const int most = std::min(2 - count, shims.stock[kind].pieces.value_or(2));
        for (int n = 0; n <= most; ++n) {
            fill_stacks(shims, kind + 1, pieces, count + n, cost + n * job_.shim_cost);
            pieces.push_back({.shim = shims.stock[kind].thickness});
        }
    }

    void cut(std::size_t part, stack::Changes& changes, double cost) {
        if (cost >= best_ - 1e-9) return;
        if (part == job_.parts.size()) {
            if (done(model_, changes).verdict == stack::Verdict::holds) best_ = cost;
            return;
        }
        cut(part + 1, changes, cost);
        const job::Cut& cut_ = job_.parts[part].cuts.front();
        const double signed_now = part == 1 ? 4.0 : (part == 2 ? -3.0 : -5.0);
        const double now = std::abs(signed_now);
        for (int depth = 0; now - depth / 10.0 - cut_.holds >= cut_.keep - 1e-9; ++depth) {
            const double finish = std::copysign(now - depth / 10.0, signed_now);
            changes.cuts.push_back({.part = static_cast<int>(part),
                                    .face = cut_.face,
                                    .measure = cut_.measure,
                                    .size = worked(finish, cut_.holds)});
            cut(part + 1, changes, cost + cut_.cost + cut_.cost_per_mm * depth / 10.0);
            changes.cuts.pop_back();
        }
    }

    const stack::Model& model_;
    const job::Job& job_;
    std::vector<Stack> stacks_;
    double best_ = std::numeric_limits<double>::infinity();
};

// Each face read anywhere in its window, or at an end of it, and recorded as its gauge reads.
void attack(const stack::Model& model, const PlanMade& plan, std::mt19937& random) {
    for (int shot = 0; shot < 12; ++shot) {
        stack::Changes changes = plan.changes;
        for (std::size_t c = 0; c < plan.cuts.size(); ++c) {
            const stack::Range window = plan.cuts[c].window;
            double share = std::uniform_real_distribution<double>(0.0, 1.0)(random);
            if (shot < 8) share = share < 0.5 ? 0.0 : 1.0;
            const double size = window.lo + share * (window.hi - window.lo);
            const double sign = changes.cuts[c].size.size.nominal < 0.0 ? -1.0 : 1.0;
            changes.cuts[c].size = worked(sign * size, plan.cuts[c].read_within);
            CHECK(size - plan.cuts[c].read_within >= plan.cuts[c].keep - 1e-9);
        }
        CHECK(done(model, changes).verdict == stack::Verdict::holds);
    }
}

}  // namespace

TEST_CASE("random jobs: as cheap as the best of all that can be done, tried one by one") {
    std::mt19937 random(7);
    unsigned with_plan = 0;
    unsigned without = 0;
    unsigned cut = 0;
    for (unsigned seed = 0; seed < fewer(200); ++seed) {
        CAPTURE(seed);
        const job::Job job = RandomJob(seed).make();
        const stack::Model model = model_of(job);
        const PlanAnswer answer = plan(model, {});
        CHECK(answer.proven);
        const double best = Grid(model).best();
        if (answer.plans.empty()) {
            CHECK(!std::isfinite(best));
            CHECK(answer.conflict.has_value());
            ++without;
            continue;
        }
        CHECK(answer.plans.front().cost == doctest::Approx(best).epsilon(1e-9));
        for (const PlanMade& each : answer.plans) {
            CHECK(each.after.verdict == stack::Verdict::holds);
            attack(model, each, random);
            if (!each.cuts.empty()) ++cut;
        }
        ++with_plan;
    }
    // The jobs are of all kinds, or this tests little.
    CHECK(with_plan > fewer(60));
    CHECK(without > fewer(20));
    CHECK(cut > fewer(60));
}

namespace {

// What the judged range of a demand is when the work is done and the job assembled anew.
std::optional<stack::Range> assembled(const stack::CheckAnswer& answer, const PlanDemand& demand,
                                      stack::Judge judge) {
    const auto of = [judge](const stack::Bounds& value) {
        return judge == stack::Judge::rss ? value.rss : value.worst;
    };
    for (const stack::CheckResult& check : answer.checks)
        if (demand.of == check.id && check.kind == stack::CheckKind::gap) return of(check.value);
    // Assembled anew, a face that was cut and its like have other places in the job.
    if (!demand.of || !std::holds_alternative<stack::ClearanceId>(*demand.of)) return std::nullopt;
    for (const stack::Clearance& pair : answer.clearances)
        if (pair.inboard + " to " + pair.outboard == demand.name) return of(pair.gap);
    return std::nullopt;
}

// Every demand and every row against the job done; returns how many ranges were compared.
unsigned compare(const stack::Model& model, const stack::Options& options, std::mt19937& random) {
    const JobProblem problem(model, demands(model),
                             {.judge = options.judge, .inflate = options.inflate});
    unsigned compared = 0;
    for (int n = 0; n < 6; ++n) {
        const Tried tried = Trying(problem, random).run();
        const stack::CheckAnswer answer = done(model, tried.changes, options);
        for (const PlanDemand& demand : problem.demands().all) {
            CAPTURE(demand.name);
            const stack::Range mine = problem.judged(demand, tried.selection, tried.depths);
            const auto theirs = assembled(answer, demand, options.judge);
            if (!theirs) continue;
            CHECK(std::abs(mine.lo - theirs->lo) < 1e-9);
            CHECK(std::abs(mine.hi - theirs->hi) < 1e-9);
            ++compared;
        }
        const auto rows = outcomes(problem.problem(), tried.selection, tried.depths);
        for (std::size_t r = 0; r < rows.size(); ++r) {
            const PlanDemand& demand = problem.demand(r);
            CAPTURE(demand.name);
            const stack::Range range = problem.judged(demand, tried.selection, tried.depths);
            if (std::isfinite(demand.lower))
                CHECK(std::abs(rows[r].above_lower - (range.lo - demand.lower)) < 2e-8);
            if (std::isfinite(demand.upper))
                CHECK(std::abs(rows[r].below_upper - (demand.upper - range.hi)) < 2e-8);
        }
    }
    return compared;
}

}  // namespace

TEST_CASE("rows say what check says when the work is done: random jobs, worst case and RSS") {
    std::mt19937 random(11);
    unsigned compared = 0;
    for (unsigned seed = 0; seed < fewer(40); ++seed) {
        CAPTURE(seed);
        const job::Job job = RandomJob(seed).make();
        const stack::Model model = model_of(job);
        compared += compare(model, {.all_pairs = true}, random);
        compared +=
            compare(model, {.judge = stack::Judge::rss, .inflate = 1.5, .all_pairs = true}, random);
    }
    CHECK(compared > fewer(2000));
}

TEST_CASE("rows say what check says where readings bind the sizes, too") {
    std::mt19937 random(13);
    unsigned compared = 0;
    for (unsigned seed = 0; seed < fewer(25); ++seed) {
        CAPTURE(seed);
        job::Job job = RandomJob(seed).make();
        // How high the coil stands, with all that lies under it, and the rim in the same way.
        const stack::Model plain = model_of(job);
        const auto reading = [&](job::FaceRef to, double off) {
            const double should = stack::value(
                plain.gap({.face = {.part = 0, .face = 0}}, {.face = to}), plain.columns().middle);
            job::Reading made{.name = "reading", .from = {.part = 0, .face = 0}, .to = to};
            made.is = {.size = quantity::reading(should + off, 0.05), .written = "read"};
            job.readings.push_back(made);
        };
        reading({.part = 2, .face = 2}, 0.03);
        reading({.part = 3, .face = 2}, -0.02);
        stack::Options options{.all_pairs = true, .readings = {{.reading = 0}, {.reading = 1}}};
        const auto bound = stack::model_for(job, options);
        const auto& model = std::get<stack::Model>(bound);
        compared += compare(model, options, random);
        const PlanAnswer answer = plan(model, {.stack = options});
        CHECK(answer.notes.empty());
        for (const PlanMade& each : answer.plans)
            attack(model, each, random);
        options.judge = stack::Judge::rss;
        compared += compare(model, options, random);
    }
    CHECK(compared > fewer(1000));
}

TEST_CASE("a cut does not move what was dimensioned from the face") {
    // Base 1 off a stator whose carrier is measured from the base: the carrier comes 1 nearer to
    // the plate, and so does the coil, whose old 6 from the old base still holds.
    const job::Job job = RandomJob(1).make();
    const stack::Model model = model_of(job);
    stack::Changes changes;
    changes.cuts.push_back({.part = 2, .face = 0, .measure = 1, .size = worked(-2.0, 0.1)});
    const job::Job after = stack::carried_out(model, changes);
    const auto cut = std::get<stack::Model>(stack::model_after(model, after));
    const auto height = [](const stack::Model& of, int face) {
        return stack::value(
            of.gap({.face = {.part = 1, .face = 1}}, {.face = {.part = 2, .face = face}}),
            of.columns().nominal);
    };
    CHECK(height(model, 2) - height(cut, 2) == doctest::Approx(1.0));
    CHECK(height(model, 1) - height(cut, 1) == doctest::Approx(1.0));
    CHECK(height(model, 0) == doctest::Approx(height(cut, 0)));
}

TEST_CASE("a millimetre taken off costs the same whatever unit the file is in") {
    // By hand: 4.01 mm off the plate cost 1 + 0.5 * 4.01 = 3.005, off the ring 2 + 0.1 * 4.01 =
    // 2.401; per inch the plate would be the cheaper with 1.079.
    for (const double in_mm : {1.0, 25.4}) {
        CAPTURE(in_mm);
        const auto length = [&](double mm) { return mm / in_mm; };
        job::Job job;
        job.units = in_mm == 1.0 ? quantity::Unit::mm : quantity::Unit::inch;
        job.parts.push_back(PartOf("base", "floor"));
        for (const auto& [name, cost, per_mm] :
             {std::tuple("plate", 1.0, 0.5), std::tuple("ring", 2.0, 0.1)}) {
            PartOf made(name, "back");
            made.face("front", given(length(12.0)), "back");
            const int below = static_cast<int>(job.parts.size()) - 1;
            made.seat(on_face(0, {.part = below, .face = below == 0 ? 0 : 1}));
            job::Part part = made;
            part.cuts.push_back({.face = 1,
                                 .measure = 0,
                                 .keep = length(5.0),
                                 .holds = length(0.01),
                                 .cost = cost,
                                 .cost_per_mm = per_mm});
            job.parts.push_back(part);
        }
        job::Check low{.name = "low enough"};
        low.of = job::GapOf{.inboard = {.part = 0, .face = 0}, .outboard = {.part = 2, .face = 1}};
        low.at_most = job::Limit{.value = length(20.0), .written = "20"};
        job.checks.push_back(low);
        const PlanAnswer answer = trialfit::plan::plan(model_of(job), {});
        REQUIRE(answer.plans.size() == 2);
        // A finish in inches is rounded to 0.0001 in, to the safe side: up to 0.0026 mm more.
        CHECK(answer.plans[0].cost == doctest::Approx(2.401).epsilon(2e-4));
        CHECK(answer.plans[0].cuts.at(0).cost == doctest::Approx(2.401).epsilon(2e-4));
        CHECK(answer.plans[1].cost == doctest::Approx(3.005).epsilon(5e-4));
    }
}
