// SPDX-License-Identifier: MIT
#include <algorithm>
#include <memory>
#include <string>
#include <trialfit/job/former.hpp>
#include <trialfit/job/validate.hpp>
#include <trialfit/stack/as_built.hpp>
#include <trialfit/stack/carry_out.hpp>
#include <trialfit/stack/model.hpp>
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
        const job::Part& part = job.parts.at(static_cast<std::size_t>(each.face.part));
        changes.cuts.push_back({.part = each.face.part,
                                .face = cut->face,
                                .measure = cut->measure,
                                .size = on_side(each.size, job::outboard_sign(part, *cut))});
    }
    for (const job::RecordEntry::Fitted& each : entry.fitted) {
        const auto& seats = job.parts.at(static_cast<std::size_t>(each.part)).seats;
        const auto shimmed = std::find_if(seats.begin(), seats.end(), [](const job::Seat& seat) {
            return seat.shims.has_value();
        });
        if (shimmed == seats.end()) continue;
        changes.stacks.push_back({.part = each.part,
                                  .seat = static_cast<int>(shimmed - seats.begin()),
                                  .shims = each.shims});
    }
    return changes;
}

}  // namespace

std::variant<job::Job, job::Complaints> as_built(const job::Job& job, std::size_t entries) {
    if (job::Complaints complaints = job::validate(job); !complaints.empty()) return complaints;
    job::Job now = job;
    for (std::size_t e = 0; e < std::min(entries, job.record.size()); ++e) {
        const auto before = std::make_shared<const job::Job>(std::move(now));
        auto built = Model::of(*before);
        if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
        const job::RecordEntry& entry = job.record[e];
        const Changes changes = changes_of(*before, entry);
        const bool work = !changes.cuts.empty() || !changes.stacks.empty();
        now = work ? carried_out(std::get<Model>(built), changes) : *before;
        now.readings.insert(now.readings.end(), entry.measured.begin(), entry.measured.end());
        now.in_force = e + 1;
        now.before = before;
    }
    return now;
}

}  // namespace trialfit::stack
