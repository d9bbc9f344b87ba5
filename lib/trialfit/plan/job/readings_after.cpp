// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/plan/job/readings_after.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

bool between_the_same(const job::Reading& one, const job::Reading& other) {
    return one.from == other.from && one.to == other.to;
}

}  // namespace

std::vector<ReadingAfter> readings_after(const stack::Model& after) {
    const job::Job& job = after.job();
    std::vector<ReadingAfter> out;
    for (auto reading = job.readings.begin(); reading != job.readings.end(); ++reading) {
        if (reading->from.part == reading->to.part ||
            std::any_of(job.readings.begin(), reading,
                        [&](const job::Reading& r) { return between_the_same(r, *reading); }))
            continue;
        const stack::Form gap = after.gap({.face = reading->from}, {.face = reading->to});
        if (after.unmeasured().open(gap)) continue;
        constexpr double kNoInflation = 1.0;
        const stack::Bounds value = stack::bounds(after, gap, kNoInflation);
        ReadingAfter each{.from = job::name(job, reading->from),
                          .to = job::name(job, reading->to),
                          .nominal = value.nominal,
                          .worst = value.worst};
        for (const job::Reading& other : job.readings)
            if (each.as_in.empty() && between_the_same(other, *reading) &&
                value.worst.lo <= other.is.size.nominal && other.is.size.nominal <= value.worst.hi)
                each.as_in = other.name;
        out.push_back(std::move(each));
    }
    return out;
}

}  // namespace trialfit::plan
