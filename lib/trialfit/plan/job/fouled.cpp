// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/fouled.hpp>

#include <trialfit/stack/model/index.hpp>
#include <vector>

namespace trialfit::plan {

namespace {

const job::Ring* ring_of(const job::Job& job, job::RingRef ref) {
    if (stack::at(ref.part) >= job.parts.size()) return nullptr;
    const std::vector<job::Ring>& rings = job.parts[stack::at(ref.part)].rings;
    return stack::at(ref.index) < rings.size() ? &rings[stack::at(ref.index)] : nullptr;
}

}  // namespace

std::optional<stack::Clearance> as_asked(const job::Job& before, const stack::Clearance& pair) {
    const job::Ring* const inboard = ring_of(before, pair.inboard_of);
    const job::Ring* const outboard = ring_of(before, pair.outboard_of);
    if (inboard == nullptr || outboard == nullptr) return std::nullopt;
    stack::Clearance asked = pair;
    asked.inboard_end = inboard->outboard;
    asked.outboard_end = outboard->inboard;
    return asked;
}

}  // namespace trialfit::plan
