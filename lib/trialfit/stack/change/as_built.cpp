// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/job/former.hpp>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/model.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

// A finish size as the distance from the face measured from, + outboard.
job::Given on_side(job::Given given, double sign) {
    if (sign > 0.0) return given;
    given.size.nominal = -given.size.nominal;
    given.size.lower = -std::exchange(given.size.upper, -given.size.lower);
    given.written = "-(" + given.written + ")";
    return given;
}

Changes changes_of(const job::Job& job, const job::RecordEntry& entry) {
    Changes changes;
    for (const job::RecordEntry::AsCut& each : entry.as_cut) {
        const job::Cut* const cut = job::cut_of(job, each.face);
        if (cut == nullptr) continue;
        const job::Part& part = job.parts.at(each.face.part.at());
        const double outboard = job::outboard_sign(part, *cut);
        changes.cuts.push_back({.part = each.face.part,
                                .face = cut->face,
                                .measure = cut->measure,
                                .size = on_side(each.size, each.by_amount ? -outboard : outboard),
                                .by_amount = each.by_amount});
    }
    for (const job::RecordEntry::Fitted& each : entry.fitted) {
        const auto& seats = job.parts.at(each.part.at()).seats;
        const auto shimmed = std::ranges::find_if(
            seats, [](const job::Seat& seat) { return seat.shims.has_value(); });
        if (shimmed == seats.end()) continue;
        Restacked laid{.part = each.part, .seat = static_cast<int>(shimmed - seats.begin())};
        for (const job::Given& shim : each.shims)
            laid.shims.push_back({.shim = shim});
        changes.stacks.push_back(std::move(laid));
    }
    for (const job::RecordEntry::AsSkimmed& each : entry.as_skimmed)
        changes.skims.push_back({.ring = each.ring, .bore = each.bore, .size = each.size});
    for (const job::RecordEntry::Lapped& each : entry.lapped)
        changes.laps.push_back({.cone = each.cone, .off_diameter = each.off});
    for (const job::RecordEntry::Centred& each : entry.centred)
        changes.centrings.push_back({.part = each.part, .clearance = each.clearance});
    return changes;
}

// What was lapped off can not be lapped off again.
void use_up_laps(const Changes& changes, job::Job& job) {
    for (const LappedBy& done : changes.laps)
        for (job::Lap& lap : job.parts.at(done.cone.part.at()).laps)
            if (lap.cone == done.cone.index) lap.at_most_on_diameter -= done.off_diameter;
}

std::variant<job::Job, job::Complaints> with_work(const std::shared_ptr<const job::Job>& before,
                                                  const job::RecordEntry& entry) {
    auto built = Model::of(*before);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const Changes changes = changes_of(*before, entry);
    const bool work = !changes.cuts.empty() || !changes.stacks.empty() || !changes.skims.empty() ||
                      !changes.laps.empty() || !changes.centrings.empty();
    job::Job now = work ? carried_out(std::get<Model>(built), changes) : *before;
    if (!work) now.carried = {};
    use_up_laps(changes, now);
    now.before = before;
    return now;
}

// Takes out of a plan what an entry says of the same face, ring, cone, part or seat.
void stand_in(const job::RecordEntry& done, job::RecordEntry& plan) {
    const auto drop = [](auto& planned, const auto& made, auto same) {
        std::erase_if(planned, [&](const auto& each) {
            return std::ranges::any_of(made, [&](const auto& other) { return same(each, other); });
        });
    };
    drop(plan.as_cut, done.as_cut, [](auto& a, auto& b) { return a.face == b.face; });
    drop(plan.fitted, done.fitted, [](auto& a, auto& b) { return a.part == b.part; });
    drop(plan.as_skimmed, done.as_skimmed, [](auto& a, auto& b) { return a.ring == b.ring; });
    drop(plan.lapped, done.lapped, [](auto& a, auto& b) { return a.cone == b.cone; });
    drop(plan.centred, done.centred, [](auto& a, auto& b) { return a.part == b.part; });
}

// What of the last plan among the first entries nobody has done since.
std::optional<job::RecordEntry> still_planned(const job::Job& job, std::size_t entries) {
    std::optional<job::RecordEntry> plan;
    for (std::size_t e = 0; e < entries; ++e) {
        if (job.record[e].planned) plan = job.record[e];
        if (plan && !job.record[e].planned) stand_in(job.record[e], *plan);
    }
    return plan;
}

std::vector<job::PlannedWork> in_words(const job::Job& job, const job::RecordEntry& plan) {
    using Kind = job::PlannedWork::Kind;
    const auto part_name = [&](job::PartId part) { return job.parts.at(part.at()).name; };
    std::vector<job::PlannedWork> all;
    for (const auto& each : plan.as_cut)
        all.push_back({each.by_amount ? Kind::taken_off : Kind::cut, job::name(job, each.face),
                       each.size.written});
    for (const auto& each : plan.as_skimmed)
        all.push_back({Kind::skim, job::ring_name(job, each.ring), each.size.written});
    for (const auto& each : plan.lapped)
        all.push_back({Kind::lap, job::cone_name(job, each.cone), fmt::format("{:.6g}", each.off)});
    for (const auto& each : plan.centred)
        all.push_back({Kind::centring, part_name(each.part), each.clearance.written});
    for (const auto& each : plan.fitted) {
        std::string stack;
        for (const job::Given& shim : each.shims)
            stack += (stack.empty() ? "" : " + ") + shim.written;
        all.push_back({Kind::shims, part_name(each.part), stack});
    }
    return all;
}

}  // namespace

Changes planned_changes(const job::Job& job) {
    if (job.planned.empty() || job.before == nullptr) return {};
    const auto plan = still_planned(job, std::min(job.in_force, job.record.size()));
    return plan ? changes_of(*job.before, *plan) : Changes{};
}

std::variant<job::Job, job::Complaints> as_built(const job::Job& job, std::size_t entries) {
    if (job::Complaints complaints = job::validate(job); !complaints.empty()) return complaints;
    job::Job now = job;
    const std::size_t in_force = std::min(entries, job.record.size());
    for (std::size_t e = 0; e < in_force; ++e) {
        const auto before = std::make_shared<const job::Job>(std::move(now));
        const job::RecordEntry& entry = job.record[e];
        auto done = with_work(before, entry.planned ? job::RecordEntry{} : entry);
        if (auto* complaints = std::get_if<job::Complaints>(&done)) return std::move(*complaints);
        now = std::move(std::get<job::Job>(done));
        now.readings.insert(now.readings.end(), entry.measured.begin(), entry.measured.end());
        now.in_force = e + 1;
    }
    const auto plan = still_planned(job, in_force);
    if (!plan) return now;
    std::vector<job::PlannedWork> planned = in_words(job, *plan);
    if (planned.empty()) return now;
    auto done = with_work(std::make_shared<const job::Job>(std::move(now)), *plan);
    if (auto* as_planned = std::get_if<job::Job>(&done)) as_planned->planned = std::move(planned);
    return done;
}

}  // namespace trialfit::stack
