// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/job/job.hpp>
#include <trialfit/sheet/end_view.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/survey/feelers/feelers.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

stack::Range range_of(const job::Given& given) {
    return {given.size.lower, given.size.upper};
}

std::vector<AxisStated> stated_in(const job::Job& job) {
    std::vector<AxisStated> out;
    for (const job::Part& part : job.parts) {
        if (part.centred && part.centred->clearance.size.upper > 0.0)
            out.push_back({part.name, part.centred->on_written, range_of(part.centred->clearance)});
        for (const job::Runout& each : part.runout)
            out.push_back({part.name, {}, range_of(each.is)});
    }
    return out;
}

// Half the difference of the facing diameters.
double gap_between(const job::Ring& inner, const job::Ring& outer) {
    return (outer.bore.size.nominal - inner.outside.size.nominal) / 2.0;
}

draw::ClockVector vector_of(const survey::FeelerVector& of) {
    return {of.amount.is, of.towards_deg};
}

void show_feelers(const job::Job& job, const survey::FeelersFound& found, EndAnswer& into) {
    const job::Feelers& set = job.feelers.front();
    draw::EndView& view = into.view;
    view.still_outside = job::at(job, set.still).lies_round(job::at(job, set.turning));
    view.gap = found.mean.is;
    into.still = found.still;
    into.turning = found.turning;
    for (const survey::FeelerReadingFound& each : found.readings)
        if (std::ranges::find(view.read_deg, each.clock_deg) == view.read_deg.end())
            view.read_deg.push_back(each.clock_deg);
    // Figures that contradict each other draw nothing off its place.
    if (!survey::figures_stand(found)) return;
    const auto whole = [](const std::optional<survey::FeelerVector>& of) {
        return of && of->seen && !of->along_deg;
    };
    if (whole(found.offset)) view.still_off = vector_of(*found.offset);
    if (whole(found.runout)) view.turning_off = vector_of(*found.runout);
    if (found.even_up)
        view.move = draw::ClockVector{found.even_up->by.is, found.even_up->towards_deg};
}

struct RingPair {
    job::RingRef one;
    job::RingRef other;
};

// The gap that is judged, of a job without feelers; nothing where no ring turns within another.
std::optional<RingPair> show_judged(const job::Job& job, const stack::CheckAnswer& answer,
                                    EndAnswer& into) {
    for (const stack::CheckResult& each : answer.checks) {
        const auto* const air = std::get_if<stack::AirGapId>(&each.id);
        if (air == nullptr) continue;
        into.least = each.value;
        into.at_least = each.at_least;
        into.verdict = each.verdict;
        return RingPair{job.air_gaps[air->index].one, job.air_gaps[air->index].other};
    }
    if (answer.radial.empty()) return std::nullopt;
    const stack::RadialGap& worst = answer.radial.front();
    into.least = worst.gap;
    into.at_least = worst.at_least;
    into.verdict = worst.verdict;
    return RingPair{worst.inner_ring, worst.outer_ring};
}

}  // namespace

std::variant<EndAnswer, job::Complaints> end_view(const job::Job& job,
                                                  const stack::Options& options) {
    EndAnswer out{.title = job.title, .file = job.file, .units = job.units};
    out.planned = !job.planned.empty();
    out.stated = stated_in(job);
    if (job.feelers.empty() && out.stated.empty())
        return job::Complaints{
            {.fault = "the job gives no feelers, no centring and no runout, so an end view has "
                      "nothing to show",
             .mend = "give a part its runout or what it is centred by, or the job its feelers"}};
    auto built = stack::model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const auto& model = std::get<stack::Model>(built);
    if (!job.feelers.empty()) {
        std::vector<survey::FeelersFound> found = survey::feelers_found(model);
        out.more_sets = found.size() - 1;
        show_feelers(job, found.front(), out);
        out.feelers = std::move(found.front());
        return out;
    }
    const auto rings = show_judged(job, stack::check(model, options), out);
    if (!rings)
        return job::Complaints{
            {.fault = "no ring turns within another, so there is no gap to show",
             .mend = "give the two parts rings with their diameters, one within the other"}};
    const job::Ring& one = job::at(job, rings->one);
    const job::Ring& other = job::at(job, rings->other);
    const bool first_outside = one.lies_round(other);
    const job::RingRef outer = first_outside ? rings->one : rings->other;
    const job::RingRef inner = first_outside ? rings->other : rings->one;
    const bool outer_turns = job.parts[outer.part.at()].turns;
    out.view.still_outside = !outer_turns;
    out.view.gap = gap_between(job::at(job, inner), job::at(job, outer));
    out.still = job::ring_name(job, outer_turns ? inner : outer);
    out.turning = job::ring_name(job, outer_turns ? outer : inner);
    if (out.least && std::isfinite(out.least->worst.lo)) out.view.nearest = out.least->worst.lo;
    if (!std::isfinite(out.view.gap)) out.view.gap = 0.0;
    return out;
}

}  // namespace trialfit::sheet
