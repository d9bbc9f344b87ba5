// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/job/former.hpp>
#include <trialfit/study/named_sizes.hpp>
#include <trialfit/study/suppose.hpp>
#include <utility>

namespace trialfit::study {

namespace {

job::FaceRef face_called(const job::Job& job, const std::string& name) {
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p)
        for (int f = 0; f < static_cast<int>(job.parts[static_cast<std::size_t>(p)].faces.size());
             ++f)
            if (job::name(job, job::FaceRef{p, f}) == name) return {.part = p, .face = f};
    return {};
}

// "stator" of "stator.shims"; empty where it names no shims.
std::string part_of_shims(const std::string& what) {
    constexpr std::string_view kShims = ".shims";
    return what.ends_with(kShims) ? what.substr(0, what.size() - kShims.size()) : std::string();
}

// "0.5+0.3" as the format has piles: a plus with blanks on both sides.
std::string with_blanks(const std::string& pile) {
    std::string out;
    for (std::size_t i = 0; i < pile.size(); ++i) {
        const bool between = pile[i] == '+' && i > 0 && i + 1 < pile.size() && pile[i - 1] != ' ' &&
                             pile[i + 1] != ' ' && pile[i + 1] != '-' && pile[i + 1] != '/';
        out += between ? " + " : std::string(1, pile[i]);
    }
    return out;
}

std::string told(const Supposition& each) {
    if (each.by_amount) return each.size + " off " + each.what;
    const std::string part = part_of_shims(each.what);
    if (part.empty()) return each.what + " " + each.size;
    return (each.size == "none" ? "no shims" : "shims " + with_blanks(each.size)) + " under " +
           part;
}

std::variant<job::Job, job::Complaints> supposed(const job::Job& job, const Supposition& each,
                                                 const std::string& date) {
    if (each.by_amount) return with_cut(job, each.what, each.size, date, true);
    const std::string part = part_of_shims(each.what);
    if (!part.empty()) return with_shims(job, part, with_blanks(each.size), date);
    const job::FaceRef face = face_called(job, each.what);
    if (job::cut_of(job, face) != nullptr) return with_cut(job, each.what, each.size, date);
    if (face.part >= 0 && job.parts[static_cast<std::size_t>(face.part)]
                              .faces[static_cast<std::size_t>(face.face)]
                              .zero)
        return job::Complaints{
            {.fault = fmt::format("'{}' is the zero of its part and is measured from nothing",
                                  each.what),
             .mend = "name a face that has a size"}};
    // What is left of a clearance lies anywhere from nothing to that.
    const bool clearance = each.what.ends_with(".clearance") &&
                           each.size.find_first_not_of("0123456789.") == std::string::npos;
    const bool range = each.size.find("..") != std::string::npos;
    return with_size(job, each.what, clearance && !range ? "0.." + each.size : each.size);
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
