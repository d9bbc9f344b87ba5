// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/sheet/checksum.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/sheet/turned.hpp>
#include <trialfit/survey/survey.hpp>
#include <trialfit/timing/timing.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

constexpr std::size_t kMostChains = 2;

// Checks worst first: by verdict, then by how far the judged case is from passing.
std::vector<std::string> worst_checks(const stack::CheckAnswer& answer) {
    std::vector<const stack::CheckResult*> order;
    order.reserve(answer.checks.size());
    for (const stack::CheckResult& each : answer.checks)
        order.push_back(&each);
    std::ranges::stable_sort(order, [](const stack::CheckResult* a, const stack::CheckResult* b) {
        return std::pair{b->verdict, a->judged_margin} < std::pair{a->verdict, b->judged_margin};
    });
    std::vector<std::string> out;
    for (const stack::CheckResult* each : order) {
        const bool holds = each->verdict == stack::Verdict::holds;
        if (out.size() < (holds ? 1 : kMostChains)) out.push_back(each->name);
    }
    return out;
}

EntrySummary entry(const job::Job& job, const job::RecordEntry& from) {
    using Kind = WorkEntered::Kind;
    EntrySummary out{.date = from.date, .who = from.who, .note = from.note, .work = {}};
    const auto add = [&](Kind kind, std::string what, std::string size) {
        out.work.push_back({.kind = kind,
                            .what = std::move(what),
                            .size = std::move(size),
                            .planned = from.planned});
    };
    const auto part = [&](job::PartId index) { return job.parts[index.at()].name; };
    for (const auto& cut : from.as_cut)
        add(cut.by_amount ? Kind::taken_off : Kind::cut, job::name(job, cut.face),
            cut.size.written);
    for (const auto& skim : from.as_skimmed)
        add(Kind::skim, job::ring_name(job, skim.ring), skim.size.written);
    for (const auto& lap : from.lapped)
        add(Kind::lap, job::cone_name(job, lap.cone), quantity::plain(lap.off));
    for (const auto& centred : from.centred)
        add(Kind::centring, part(centred.part), centred.clearance.written);
    for (const auto& fitted : from.fitted) {
        std::string shims;
        for (const job::Given& shim : fitted.shims)
            shims += (shims.empty() ? "" : " + ") + shim.written;
        add(Kind::shims, part(fitted.part), std::move(shims));
    }
    for (const job::Reading& reading : from.measured)
        add(Kind::measurement, reading.name, reading.is.written);
    return out;
}

// Planned work set aside.
const job::Job& as_they_are(const job::Job& job) {
    return job.planned.empty() || job.before == nullptr ? job : *job.before;
}

// Takes the answer out of an outcome, or hands its complaints to `wrong`.
template <typename Answer>
std::optional<Answer> taken(std::variant<Answer, job::Complaints> outcome, job::Complaints& wrong) {
    if (auto* complaints = std::get_if<job::Complaints>(&outcome)) {
        wrong.insert(wrong.end(), complaints->begin(), complaints->end());
        return std::nullopt;
    }
    return std::move(std::get<Answer>(outcome));
}

void add_sections(const job::Job& job, const stack::Options& options, SheetAnswer& out,
                  job::Complaints& wrong) {
    if (job.seat) out.seat = taken(seat::seat(job, options), wrong);
    if (job.timing) out.timing = taken(timing::timing(job), wrong);
    if (!job.readings.empty() || !job.feelers.empty())
        out.survey = taken(survey::survey(job), wrong);
}

// Of the parts as they are alone does `check --with` of the file say the same as the sheet.
std::optional<NotLive> of_other_parts(const job::Job& given, const stack::Options& options,
                                      const SheetAnswer& out) {
    if (!given.supposed.empty() || out.later_entries > 0) return NotLive::other_parts;
    if (!given.planned.empty() && !given.record[given.in_force - 1].planned)
        return NotLive::planned_in_part;
    if (options.readings.empty() && !given.readings.empty()) return NotLive::readings_aside;
    return std::nullopt;
}

void add_live(const job::Job& given, const stack::Model& model, const stack::Options& options,
              SheetAnswer& out) {
    if (const auto other = of_other_parts(given, options, out)) {
        out.not_live = *other;
        return;
    }
    const bool some = out.plan && !out.plan->plans.empty();
    auto found = live(model, options, some ? &out.plan->plans.front() : nullptr);
    if (const auto* const none = std::get_if<NotLive>(&found)) {
        out.not_live = *none;
        if (*none == NotLive::growth_unknown) out.growth_unknown = warm_of_unknown_growth(model);
        return;
    }
    auto& made = std::get<LiveAnswer>(found);
    if (!given.planned.empty()) made.entries_done = given.in_force - 1;
    out.live = std::make_shared<const LiveAnswer>(std::move(made));
}

}  // namespace

std::variant<SheetAnswer, job::Complaints> sheet(const job::Job& given,
                                                 const stack::Options& options,
                                                 std::string_view text) {
    const job::Job& job = as_they_are(given);
    SheetAnswer out{.title = job.title.empty() ? job.file : job.title, .units = job.units};
    out.record = {.file = job.file, .sha256 = sha256(text)};
    for (std::size_t i = 0; i < job.in_force; ++i)
        if (!job.record[i].supposed) out.history.push_back(entry(job, job.record[i]));
    out.later_entries = job.record.size() - job.in_force;
    const auto built = stack::model_for(job, options);
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) return *complaints;
    job::Complaints wrong;
    if (auto checked = taken(stack::check(job, options), wrong)) out.check = std::move(*checked);
    auto drawn = draw::section(job, options);
    if (auto* section = std::get_if<draw::Section>(&drawn)) out.section = std::move(*section);
    for (const std::string& name : worst_checks(out.check))
        if (auto why = taken(stack::why(job, name, options), wrong))
            out.whys.push_back(std::move(*why));
    if (out.check.verdict != stack::Verdict::holds || stack::may_change(job))
        out.plan = cheapest(std::get<stack::Model>(built), options);
    if (out.plan && !out.plan->plans.empty()) {
        const plan::PlanMade& best = out.plan->plans.front();
        const auto& model = std::get<stack::Model>(built);
        if (out.section) draw::mark_removals(model, best.changes, *out.section);
        out.turned = turned_parts(model, best);
    }
    add_live(given, std::get<stack::Model>(built), options, out);
    add_sections(job, options, out, wrong);
    if (!wrong.empty()) return wrong;
    if (const auto planned = job::planned_warning(given, true)) {
        out.planned = true;
        out.check.warnings.insert(out.check.warnings.begin(), *planned);
    }
    return out;
}

}  // namespace trialfit::sheet
