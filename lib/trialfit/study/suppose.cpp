// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <trialfit/job/former.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/study/named_sizes.hpp>
#include <trialfit/study/suppose.hpp>
#include <utility>

namespace trialfit::study {

namespace {

// "stator" of "stator.shims"; empty where it names no shims.
std::string part_of_shims(const std::string& what) {
    constexpr std::string_view kShims = ".shims";
    return what.ends_with(kShims) ? what.substr(0, what.size() - kShims.size()) : std::string();
}

std::string told(const Supposition& each) {
    if (each.by_amount) return each.size + " off " + each.what;
    const std::string part = part_of_shims(each.what);
    if (part.empty()) return each.what + " " + each.size;
    const std::vector<std::string> pieces = reading::pieces_of(each.size);
    return (pieces.empty() ? "no shims" : fmt::format("shims {}", fmt::join(pieces, " + "))) +
           " under " + part;
}

// The ring whose diameter `what` is, where the job lists a skim of it.
std::optional<job::RecordEntry::AsSkimmed> skim_named(const job::Job& job, std::string_view what) {
    for (const job::PartId p : job::indices(job.parts))
        for (const job::Skim& skim : job.parts[p.at()].skims) {
            const job::RingRef ring{p, skim.ring};
            if (what == job::ring_name(job, ring) + (skim.bore ? ".bore" : ".od"))
                return job::RecordEntry::AsSkimmed{.ring = ring, .bore = skim.bore, .size = {}};
        }
    return std::nullopt;
}

// A diameter that `now` has another size of is turned to it where the job lists its skim, so that
// the skim's limits are minded; metal does not grow, so that a size with more metal is one that was
// measured anew, as any other.
job::Job as_skimmed(const job::Job& job, const job::Job& now, std::string_view what,
                    const std::string& date) {
    auto skim = skim_named(job, what);
    if (!skim) return now;
    const auto size_in = [&](const job::Job& of) {
        const job::Ring& ring = job::at(of, skim->ring);
        return skim->bore ? ring.bore : ring.outside;
    };
    skim->size = size_in(now);
    const double grows = skim->size.size.nominal - size_in(job).size.nominal;
    if (skim->bore ? grows <= 0.0 : grows >= 0.0) return now;
    job::Job out = job;
    job::RecordEntry entry;
    entry.date = date;
    entry.as_skimmed.push_back(std::move(*skim));
    out.record.push_back(std::move(entry));
    return out;
}

std::variant<job::Job, job::Complaints> supposed(const job::Job& job, const Supposition& each,
                                                 const std::string& date) {
    if (each.by_amount) return with_cut(job, each.what, each.size, date, true);
    const std::string part = part_of_shims(each.what);
    if (!part.empty()) return with_shims(job, part, each.size, date);
    const job::FaceRef face = job::face_named(job, each.what).value_or(job::FaceRef{});
    if (job::cut_of(job, face) != nullptr) return with_cut(job, each.what, each.size, date);
    if (face.part >= 0 && job.parts[face.part.at()].faces[face.face.at()].zero)
        return job::Complaints{
            {.fault = fmt::format("'{}' is the zero of its part and is measured from nothing",
                                  each.what),
             .mend = "name a face that has a size"}};
    // What is left of a clearance lies anywhere from nothing to that.
    const bool clearance = each.what.ends_with(".clearance") &&
                           each.size.find_first_not_of("0123456789.") == std::string::npos;
    const bool range = each.size.find("..") != std::string::npos;
    auto sized = with_size(job, each.what, clearance && !range ? "0.." + each.size : each.size);
    const auto* const now = std::get_if<job::Job>(&sized);
    if (now == nullptr) return sized;
    return as_skimmed(job, *now, each.what, date);
}

}  // namespace

std::variant<job::Job, job::Complaints> suppose(const job::Job& job,
                                                const std::vector<Supposition>& all,
                                                const std::string& date) {
    job::Job now = job;
    job::Complaints complaints;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto same = [&](const Supposition& other) { return other.what == all[i].what; };
        const auto before = all.begin() + static_cast<std::ptrdiff_t>(i);
        if (std::any_of(all.begin(), before, same)) {
            complaints.push_back({.fault = fmt::format("'{}' is supposed twice", all[i].what),
                                  .mend = "give it once, as it would be in the end"});
            continue;
        }
        const std::size_t entries = now.record.size();
        auto next = supposed(now, all[i], date);
        if (const auto* const wrong = std::get_if<job::Complaints>(&next)) {
            complaints.insert(complaints.end(), wrong->begin(), wrong->end());
            continue;
        }
        now = std::move(std::get<job::Job>(next));
        if (now.record.size() > entries) now.record.back().supposed = true;
        now.supposed.push_back(told(all[i]));
    }
    if (!complaints.empty()) return complaints;
    return now;
}

}  // namespace trialfit::study
