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
    return made.cost > 0.0 ||
           std::any_of(made.shims.begin(), made.shims.end(),
                       [](const plan::StackMade& each) { return !each.taken_out.empty(); });
}

Drawn drawn_after(const stack::Model& model, const plan::PlanMade& made,
                  const stack::Options& options) {
    const job::Job after = stack::carried_out(model, made.changes);
    auto then = stack::model_after(model, after);
    if (auto* complaints = std::get_if<job::Complaints>(&then)) return std::move(*complaints);
    return draw::section(std::get<stack::Model>(then), options, made.after);
}

}  // namespace

plan::PlanAnswer cheapest(const stack::Model& model, const stack::Options& options) {
    constexpr double kSeconds = 20.0;
    plan::JobOptions asked{.stack = options};
    asked.top = 1;
    asked.watch.seconds = kSeconds;
    return plan::plan(model, asked);
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
