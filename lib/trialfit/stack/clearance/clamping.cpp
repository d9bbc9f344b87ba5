// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <trialfit/stack/clearance/clamping.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/model/index.hpp>

namespace trialfit::stack {

namespace {

const job::Seat* face_seat(const job::Part& part) {
    const auto found = std::ranges::find(part.seats, job::SeatKind::face_on_face, &job::Seat::kind);
    return found == part.seats.end() ? nullptr : &*found;
}

bool same_form(const trade::ThreadForm& a, const trade::ThreadForm& b) {
    constexpr double kSame_mm = 1e-6;
    return std::abs(a.d_mm - b.d_mm) < kSame_mm && std::abs(a.pitch_mm - b.pitch_mm) < kSame_mm &&
           (!a.tolerance || !b.tolerance || a.tolerance->internal != b.tolerance->internal);
}

// Of two threads that engage, the one whose part is screwed home against a face; of two, the part
// that goes on later.
std::optional<job::ClampOf> clamp_of(const job::Job& job, job::ThreadRef one,
                                     job::ThreadRef other) {
    const bool first = face_seat(job.parts[at(one.part)]) != nullptr;
    const bool second = face_seat(job.parts[at(other.part)]) != nullptr;
    if (one.part == other.part || (!first && !second)) return std::nullopt;
    const bool one_moves = first && (!second || one.part > other.part);
    job::ClampOf clamp{.screwed = one_moves ? one : other, .onto = one_moves ? other : one};
    clamp.nut = thread_pair(job, {.one = one, .other = other}).nut == clamp.screwed;
    return clamp;
}

// The engagements asked for.
std::vector<job::ClampOf> asked(const job::Job& job) {
    std::vector<job::ClampOf> all;
    for (const job::Check& check : job.checks) {
        const auto* engagement = std::get_if<job::EngagementOf>(&check.of);
        if (engagement == nullptr) continue;
        const auto clamp = clamp_of(job, engagement->one, engagement->other);
        if (clamp && std::ranges::find(all, *clamp) == all.end()) all.push_back(*clamp);
    }
    return all;
}

// Every thread of another part that `thread` could engage.
std::vector<job::ThreadRef> partners(const job::Job& job, job::ThreadRef thread) {
    std::vector<job::ThreadRef> all;
    for (const job::PartId p : job::indices(job.parts)) {
        if (p == thread.part) continue;
        const auto& threads = job.parts[at(p)].threads;
        for (const job::ThreadId t : job::indices(threads))
            if (same_form(threads[at(t)].form, job::at(job, thread).form)) all.push_back({p, t});
    }
    return all;
}

struct Found {
    std::vector<job::ClampOf> clamps;
    std::vector<std::string> unknown;  // threads whose partner is not known
};

Found find_clamps(const job::Job& job) {
    Found found{.clamps = asked(job), .unknown = {}};
    for (const job::PartId p : job::indices(job.parts)) {
        const job::Part& part = job.parts[at(p)];
        if (face_seat(part) == nullptr) continue;
        for (const job::ThreadId t : job::indices(part.threads)) {
            const job::ThreadRef here{p, t};
            const bool known = std::ranges::any_of(found.clamps, [&](const job::ClampOf& c) {
                return c.screwed == here || c.onto == here;
            });
            if (known) continue;
            const std::vector<job::ThreadRef> could = partners(job, here);
            if (could.size() == 1) {
                if (const auto clamp = clamp_of(job, here, could.front()))
                    found.clamps.push_back(*clamp);
            } else {
                found.unknown.push_back(job::thread_name(job, here));
            }
        }
    }
    return found;
}

}  // namespace

std::vector<job::Check> clamp_checks(const job::Job& job) {
    std::vector<job::Check> checks;
    for (const job::ClampOf& clamp : find_clamps(job).clamps) {
        const job::Part& part = job.parts[at(clamp.screwed.part)];
        const job::Seat& seat = *face_seat(part);
        job::Check check;
        check.name = fmt::format("{} comes home on {}", part.name, job::name(job, seat.against));
        // A part with two threads comes home on both.
        if (std::ranges::any_of(checks,
                                [&](const job::Check& each) { return each.name == check.name; }))
            check.name += fmt::format(" ({})", job::thread_name(job, clamp.onto));
        check.at = seat.at;
        check.of = clamp;
        check.at_least = job::Limit{.value = 0.0, .more_than = true, .written = "", .at = seat.at};
        checks.push_back(std::move(check));
    }
    return checks;
}

std::vector<PartnerNotKnown> clamps_not_assessed(const job::Job& job) {
    std::vector<PartnerNotKnown> list;
    for (std::string& thread : find_clamps(job).unknown)
        list.push_back({.thread = std::move(thread)});
    return list;
}

}  // namespace trialfit::stack
