// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

using Drawn = std::variant<draw::Section, job::Complaints>;

// Taking shims out costs nothing.
bool any_work(const plan::PlanMade& made) {
    return made.cost > 0.0 || std::ranges::any_of(made.shims, [](const plan::StackMade& each) {
               return !each.taken_out.empty();
           });
}

plan::PlanAnswer cheapest_within(const stack::Model& model, const stack::Options& options,
                                 double seconds, const stack::CheckAnswer* checked = nullptr) {
    plan::JobOptions asked{.stack = options, .before = checked};
    asked.top = 1;
    asked.watch.seconds = seconds;
    return plan::plan(model, asked);
}

// A job that a plan is found for, and proven, in a few hundredths of a second.
bool small(const job::Job& job) {
    constexpr std::size_t kParts = 16;
    constexpr std::size_t kWorks = 8;
    constexpr std::size_t kChecks = 16;
    constexpr std::size_t kStates = 2;
    std::size_t works = 0;
    for (const job::Part& part : job.parts) {
        works += part.cuts.size() + part.skims.size() + part.laps.size();
        for (const job::Seat& seat : part.seats)
            works += seat.shims ? 1 : 0;
    }
    return job.parts.size() <= kParts && works <= kWorks && job.checks.size() <= kChecks &&
           job.states.size() <= kStates;
}

Drawn drawn_after(const stack::Model& model, const plan::PlanMade& made,
                  const stack::Options& options) {
    const job::Job after = stack::carried_out(model, made.changes);
    auto then = stack::model_after(model, after);
    if (auto* complaints = std::get_if<job::Complaints>(&then)) return std::move(*complaints);
    const auto& model_then = std::get<stack::Model>(then);
    Drawn out = draw::section(model_then, options, made.after);
    if (auto* section = std::get_if<draw::Section>(&out))
        draw::mark_finishes(model_then, made.changes, *section);
    return out;
}

}  // namespace

plan::PlanAnswer cheapest(const stack::Model& model, const stack::Options& options) {
    constexpr double kPageSeconds = 20.0;
    return cheapest_within(model, options, kPageSeconds);
}

std::optional<plan::PlanAnswer> cheapest_at_once(const stack::Model& model,
                                                 const stack::Options& options,
                                                 const stack::CheckAnswer* checked) {
    if (!model.job().planned.empty() || !small(model.job())) return std::nullopt;
    // Not a matter of the machine's speed: a small job takes some 20 ms.
    constexpr double kNever = 2.0;
    auto answer = cheapest_within(model, options, kNever, checked);
    if (!answer.proven) return std::nullopt;
    return answer;
}

std::optional<plan::PlanAnswer> mends_at_once(const spin::SpinAnswer& answer, const job::Job& job,
                                              const stack::Options& options) {
    const auto misses = [](const stack::CheckResult& each) {
        return each.verdict == stack::Verdict::fails || each.verdict == stack::Verdict::doubtful;
    };
    const bool any = std::ranges::any_of(answer.over_poles, misses) ||
                     std::ranges::any_of(answer.air_gaps, misses);
    if (!any || !stack::may_change(job)) return std::nullopt;
    const auto built = stack::model_for(job, options);
    if (!std::holds_alternative<stack::Model>(built)) return std::nullopt;
    return cheapest_at_once(std::get<stack::Model>(built), options);
}

std::variant<BeforeAfter, job::Complaints> before_and_after(const job::Job& job,
                                                            const stack::Options& options) {
    auto built = stack::model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const auto& model = std::get<stack::Model>(built);
    Drawn before = draw::section(model, options, stack::check(model, options));
    if (auto* complaints = std::get_if<job::Complaints>(&before)) return std::move(*complaints);
    const plan::PlanAnswer answer = cheapest(model, options);
    if (answer.plans.empty())
        return job::Complaints{
            {.fault = "there is no plan to draw", .mend = {}, .remedy = job::Remedy::see_plan}};
    const plan::PlanMade& made = answer.plans.front();
    BeforeAfter out{.before = std::move(std::get<draw::Section>(before)), .after = {}};
    if (!any_work(made)) return out;
    Drawn after = drawn_after(model, made, options);
    if (auto* complaints = std::get_if<job::Complaints>(&after)) return std::move(*complaints);
    out.after = std::move(std::get<draw::Section>(after));
    draw::mark_removals(model, made.changes, out.before);
    return out;
}

}  // namespace trialfit::sheet
