// SPDX-License-Identifier: MIT
// Skims and centring by hand, against the job done and assembled anew.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <support/fewer.hpp>
#include <support/jobs.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <variant>
#include <vector>

namespace job = trialfit::job;
namespace numerics = trialfit::numerics;
namespace quantity = trialfit::quantity;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

job::Given of_size(double nominal, double half_width, const char* written) {
    job::Given size = given(nominal, half_width);
    size.written = written;
    return size;
}

// A stator that may be centred by hand, a rotor round it that may be skimmed, and a plate under the
// stator whose cut takes the two out of each other altogether. Diameters are multiples of 0.02.
class RandomRub {
public:
    explicit RandomRub(unsigned seed) : random_(seed) {}

    job::Job make() {
        job::Job job;
        job.radial_clearance = 0.2;
        PartOf house("case", "floor");
        house.ring("wall", "floor", "floor", 10, 20);
        job.parts.push_back(house);
        job.parts.back().rings.clear();
        job.parts.push_back(plate());
        job.parts.push_back(stator());
        job.parts.push_back(rotor());
        if (perhaps(0.4)) {
            job::AirGap gap{.name = "air gap", .one = {2, 0}, .other = {3, 0}};
            gap.at_least = job::Limit{.value = 0.3, .written = "0.3"};
            if (perhaps(0.5)) gap.at_most = job::Limit{.value = 0.3 + steps(10, 30), .written = ""};
            job.air_gaps.push_back(gap);
        }
        return job;
    }

private:
    // On the grid of 0.02 on diameter.
    double steps(int least, int most) {
        return 0.02 * std::uniform_int_distribution<int>(least, most)(random_);
    }
    bool perhaps(double chance) { return std::bernoulli_distribution(chance)(random_); }

    job::Part plate() {
        PartOf made("plate", "back");
        made.face("front", of_size(4.0, 0.1, "plate"), "back");
        made.seat(on_face(0, {.part = 0, .face = 0}));
        job::Part part = made;
        if (perhaps(0.7))
            part.cuts.push_back({.face = 1,
                                 .measure = 0,
                                 .keep = 1.0,
                                 .holds = 0.1,
                                 .cost = steps(10, 60),
                                 .cost_per_mm = 0.1});
        return part;
    }

    job::Part stator() {
        PartOf made("stator", "base");
        made.face("out", of_size(10.0, 0.1, "stator"), "base").ring("poles", "base", "out", 40, 80);
        made.seat(on_face(0, {.part = 1, .face = 1}));
        job::Part part = made;
        part.rings[0].outside = of_size(80.0, 0.02, "poles");
        job::Centring centring{.by = job::CentredBy::bolts, .on = 0, .on_written = "case"};
        centring.clearance.size = quantity::toleranced(0.2, -0.2, steps(-5, 5));
        if (perhaps(0.7)) {
            centring.centre_to = 0.04;
            centring.centre_cost = steps(5, 100);
        }
        part.centred = centring;
        if (perhaps(0.5))
            part.skims.push_back({.ring = 0,
                                  .bore = false,
                                  .keep = 20.0 - steps(4, 12),
                                  .holds = 0.02,
                                  .cost = steps(20, 100),
                                  .cost_per_mm = steps(1, 20)});
        return part;
    }

    // Its mouth lies 12.5 above the floor; the stator's top at 14, or lower once the plate is cut.
    job::Part rotor() {
        PartOf made("rotor", "mouth");
        made.turns();
        made.face("cup", of_size(20.0, 0.1, "rotor"), "mouth").ring("skirt", "mouth", "cup", 0, 92);
        made.seat({.kind = job::SeatKind::face_at_offset,
                   .own = 0,
                   .against = {.part = 0, .face = 0},
                   .offset = of_size(12.5, 0.1, "offset")});
        job::Part part = made;
        part.rings[0].bore = of_size(80.0 + steps(20, 50), 0.02, "skirt");
        part.runout.push_back({.is = of_size(0.04, 0.02, "runout")});
        if (perhaps(0.7))
            part.skims.push_back({.ring = 0,
                                  .bore = true,
                                  .until = part.rings[0].bore.size.nominal + steps(2, 30),
                                  .holds = 0.02,
                                  .cost = steps(20, 100),
                                  .cost_per_mm = steps(1, 20)});
        return part;
    }

    std::mt19937 random_;
};

stack::CheckAnswer rubbed(const stack::Model& model, const stack::Changes& changes,
                          const stack::Options& options = {}) {
    const job::Job after = stack::carried_out(model, changes);
    return stack::check(std::get<stack::Model>(stack::model_after(model, after)), options);
}

std::vector<Nesting> nested_in(const stack::Model& model, stack::Judge judge) {
    std::vector<Nesting> all;
    for (stack::RadialGap& gap : stack::radial_gaps(stack::in_states(model), judge, 1.0))
        all.push_back({.gap = std::move(gap)});
    return all;
}

// Everything that may be done, on the grid; each tried by doing it.
class RadialGrid {
public:
    explicit RadialGrid(const stack::Model& model, const stack::Options& options = {})
        : model_(model), job_(model.job()), options_(options) {}

    double best() {
        centre({}, 0.0);
        return best_;
    }

private:
    void centre(stack::Changes changes, double cost) {
        plate(changes, cost);
        const job::Centring& centring = *job_.parts[2].centred;
        if (!centring.centre_to) return;
        changes.centrings.push_back({.part = 2, .clearance = of_size(0.02, 0.02, "centred")});
        plate(changes, cost + centring.centre_cost);
    }

    // A cut to any depth in tenths.
    void plate(const stack::Changes& changes, double cost) {
        skim(2, changes, cost);
        for (const job::Cut& cut : job_.parts[1].cuts)
            for (int depth = 0; depth <= 29; ++depth) {
                stack::Changes more = changes;
                more.cuts.push_back({.part = 1,
                                     .face = 1,
                                     .measure = 0,
                                     .size = of_size(4.0 - 0.1 * depth, 0.1, "cut")});
                skim(2, more, cost + cut.cost + cut.cost_per_mm * 0.1 * depth);
            }
    }

    void skim(std::size_t part, const stack::Changes& changes, double cost) {
        if (cost >= best_ - 1e-9) return;
        if (part == 4) {
            if (rubbed(model_, changes, options_).verdict == stack::Verdict::holds) best_ = cost;
            return;
        }
        skim(part + 1, changes, cost);
        for (const job::Skim& skim : job_.parts[part].skims) {
            const job::Ring& ring = job_.parts[part].rings[0];
            const double now = (skim.bore ? ring.bore : ring.outside).size.nominal;
            for (int step = 0;; ++step) {
                const double finish = now + (skim.bore ? 0.02 : -0.02) * step;
                if (skim.until && finish + skim.holds > *skim.until + 1e-9) break;
                if (skim.keep > 0.0 && (finish - skim.holds - 40.0) / 2.0 < skim.keep - 1e-9) break;
                stack::Changes more = changes;
                more.skims.push_back({.ring = {static_cast<int>(part), 0},
                                      .bore = skim.bore,
                                      .size = of_size(finish, skim.holds, "skimmed")});
                this->skim(part + 1, more, cost + skim.cost + skim.cost_per_mm * 0.02 * step);
            }
        }
    }

    const stack::Model& model_;
    const job::Job& job_;
    stack::Options options_;
    double best_ = std::numeric_limits<double>::infinity();
};

// Any readings within the windows.
void attack_diameters(const stack::Model& model, const PlanMade& plan, std::mt19937& random) {
    for (int shot = 0; shot < 8; ++shot) {
        stack::Changes changes = plan.changes;
        for (std::size_t i = 0; i < plan.skims.size(); ++i) {
            const stack::Range window = plan.skims[i].window;
            const double share = std::bernoulli_distribution(0.5)(random) ? 0.0 : 1.0;
            changes.skims[i].size = of_size(window.lo + share * (window.hi - window.lo),
                                            plan.skims[i].read_within, "at");
        }
        CHECK(rubbed(model, changes).verdict == stack::Verdict::holds);
    }
}

}  // namespace

TEST_CASE("rubbing rotors at random: as cheap as the best of all that can be done") {
    std::mt19937 random(5);
    unsigned with_plan = 0;
    unsigned without = 0;
    unsigned skimmed = 0;
    unsigned centred = 0;
    unsigned parted = 0;
    for (unsigned seed = 0; seed < fewer(150); ++seed) {
        CAPTURE(seed);
        const job::Job job = RandomRub(seed).make();
        const auto built = stack::Model::of(job);
        const auto& model = std::get<stack::Model>(built);
        const PlanAnswer answer = trialfit::plan::plan(model, {});
        CHECK(answer.proven);
        const double best = RadialGrid(model).best();
        if (answer.plans.empty()) {
            CHECK(!std::isfinite(best));
            CHECK(answer.conflict.has_value());
            ++without;
            continue;
        }
        ++with_plan;
        CHECK(answer.plans.front().cost == doctest::Approx(best).epsilon(1e-9));
        for (const PlanMade& each : answer.plans) {
            CHECK(each.after.verdict == stack::Verdict::holds);
            attack_diameters(model, each, random);
        }
        const PlanMade& first = answer.plans.front();
        skimmed += first.skims.empty() ? 0U : 1U;
        centred += first.centrings.empty() ? 0U : 1U;
        parted += first.cuts.empty() ? 0U : 1U;
    }
    // The jobs are of all kinds, or this tests little.
    CHECK(with_plan > fewer(60));
    CHECK(without > fewer(10));
    CHECK(skimmed > fewer(15));
    CHECK(centred > fewer(15));
    CHECK(parted > fewer(5));
}

TEST_CASE("rubbing rotors by RSS: a plan wherever one is, and none proven that is dearer") {
    const stack::Options rss{.judge = stack::Judge::rss};
    unsigned with_plan = 0;
    for (unsigned seed = 0; seed < fewer(80); ++seed) {
        CAPTURE(seed);
        const job::Job job = RandomRub(seed).make();
        const auto built = stack::Model::of(job);
        const auto& model = std::get<stack::Model>(built);
        const PlanAnswer answer = trialfit::plan::plan(model, {.stack = rss});
        const double best = RadialGrid(model, rss).best();
        if (!std::isfinite(best)) continue;
        REQUIRE(!answer.plans.empty());
        CHECK(answer.plans.front().after.verdict == stack::Verdict::holds);
        // The grid has no plan between its steps: the planner's may be cheaper, not dearer.
        if (answer.proven) CHECK(answer.plans.front().cost <= best + 1e-9);
        ++with_plan;
    }
    CHECK(with_plan > fewer(30));
}

TEST_CASE("radial rows say what check says once rings are skimmed and parts centred") {
    std::mt19937 random(6);
    unsigned compared = 0;
    for (unsigned seed = 0; seed < fewer(60); ++seed) {
        CAPTURE(seed);
        const job::Job job = RandomRub(seed).make();
        const auto built = stack::Model::of(job);
        const auto& model = std::get<stack::Model>(built);
        for (const stack::Judge judge : {stack::Judge::worst, stack::Judge::rss}) {
            const stack::Options options{.judge = judge, .all_pairs = true};
            const Demands asked = demands(model, nested_in(model, judge));
            const JobProblem problem(model, asked, {.judge = judge});
            numerics::Selection selection;
            std::vector<double> depths;
            stack::Changes changes;
            for (std::size_t w = 0; w < asked.works.size(); ++w) {
                const auto* skim = std::get_if<RingSkim>(&asked.works[w]);
                const auto* by_hand = std::get_if<HandCentring>(&asked.works[w]);
                const bool made = (skim != nullptr || by_hand != nullptr) &&
                                  std::bernoulli_distribution(0.6)(random);
                selection.done.push_back(made);
                const double most = problem.problem().activities[w].at_most;
                depths.push_back(made ? std::uniform_real_distribution(0.0, most)(random) : 0.0);
                if (made && skim != nullptr)
                    changes.skims.push_back(
                        {.ring = {skim->part, skim->skim->ring},
                         .bore = skim->skim->bore,
                         .size = of_size(skim->now + skim->length.by_depth * depths[w],
                                         skim->skim->holds, "skimmed")});
                if (made && by_hand != nullptr)
                    changes.centrings.push_back(
                        {.part = by_hand->part, .clearance = of_size(0.02, 0.02, "centred")});
            }
            const stack::CheckAnswer answer = rubbed(model, changes, options);
            for (const Either& either : asked.either) {
                const PlanDemand& demand = either.ways.front().front();
                const stack::Range mine = problem.judged(demand, selection, depths);
                for (const stack::RadialGap& gap : answer.radial) {
                    if (gap.inner + " to " + gap.outer != demand.name) continue;
                    const stack::Range theirs =
                        judge == stack::Judge::rss ? gap.gap.rss : gap.gap.worst;
                    CHECK(mine.lo == doctest::Approx(theirs.lo).epsilon(1e-12));
                    CHECK(mine.hi == doctest::Approx(theirs.hi).epsilon(1e-12));
                    ++compared;
                }
            }
        }
    }
    CHECK(compared > fewer(60));
}

TEST_CASE("a diameter gives half of what comes off it, and a clearance half of itself") {
    // By hand: 80.6 over 80 is 0.3 all round; 0.05 of runout's half each way and 0.1 of clearance
    // leave 0.15; the diameters' own 0.02 each take 0.02, the runout's 0.02 another 0.01, the
    // clearance's upper end 0.1 more. See trade cases C3 and C10: 0.05 mm off centre is 0.10 mm
    // between one side and the other, and skimming 0.30 off gives 0.15 a side.
    job::Job job = RandomRub(3).make();
    job.air_gaps.clear();
    const auto built = stack::Model::of(job);
    const auto& model = std::get<stack::Model>(built);
    const auto gap = [&](const stack::Changes& changes) {
        return rubbed(model, changes, {.all_pairs = true}).radial.at(0).gap.nominal;
    };
    stack::Changes skim;
    skim.skims.push_back({.ring = {3, 0}, .bore = true, .size = of_size(81.6, 0.0, "skimmed")});
    const double bore = job.parts[3].rings[0].bore.size.nominal;
    CHECK(gap(skim) - gap({}) == doctest::Approx((81.6 - bore) / 2.0));
    stack::Changes centre;
    centre.centrings.push_back({.part = 2, .clearance = of_size(0.02, 0.02, "centred")});
    const double play = job.parts[2].centred->clearance.size.nominal;
    CHECK(gap(centre) - gap({}) == doctest::Approx((play - 0.02) / 2.0));
}
