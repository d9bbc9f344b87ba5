// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/timing/timing.hpp>

using namespace trialfit;
using namespace trialfit::testing;

namespace {

// A whole timing section of what a case gives, and its answer.
timing::TimingAnswer answer_of(Given& given) {
    const auto given_size = [](double value, double half_width) {
        return job::Given{.size = quantity::toleranced(value, -half_width, half_width)};
    };
    job::Job job;
    job.gauges.push_back({.name = "gauge", .half_width = given("gauge", 0.0)});
    job.timing = job::Timing{.stroke = given_size(given("stroke"), 0.0),
                             .rod = given_size(given("rod"), 0.0),
                             .gauge = 0};
    if (given.has("tilt")) job.timing->plug_tilt = given_size(given("tilt"), 0.0);
    if (given.has("rim_dia")) job.timing->rim_dia = given_size(given("rim_dia"), 0.0);
    if (given.has("height"))
        job.timing->fire_at =
            job::AngleGiven{.value = given_size(given("height"), given("limits", 0.0))};
    const auto outcome = timing::timing(job);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        throw std::runtime_error(complaints->front().fault);
    return std::get<timing::TimingAnswer>(outcome);
}

Figures dwell(Given& given) {
    const timing::GaugeDwell gauge = answer_of(given).top.gauges.at(0);
    return {{"before", gauge.before_deg}, {"after", gauge.after_deg}};
}

Figures firing(Given& given) {
    const timing::Firing found = *answer_of(given).firing;
    const timing::CrankPoint& set = found.set;
    Figures out{{"degrees", set.degrees}, {"reading_over_height", set.gauge_reading / set.height}};
    if (found.allowed_deg) {
        out["earlier"] = found.allowed_deg->hi - set.degrees;
        out["later"] = set.degrees - found.allowed_deg->lo;
    }
    return out;
}

Figures rim(Given& given) {
    const timing::Offset degree = answer_of(given).marks.rim->one_degree;
    return {{"arc", degree.arc}, {"chord", degree.chord}};
}

TEST_CASE("a timing section answers as workshop arithmetic does") {
    check_formulas("timing_jobs.yaml", {{"dwell", dwell}, {"firing", firing}, {"rim", rim}});
}

}  // namespace
