// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/fouled.hpp>

#include <algorithm>
#include <string>
#include <trialfit/stack/model/index.hpp>

namespace trialfit::plan {

namespace {

const job::Ring* ring_called(const job::Part& part, const std::string& name) {
    const auto found = std::find_if(part.rings.begin(), part.rings.end(),
                                    [&](const job::Ring& ring) { return ring.name == name; });
    return found == part.rings.end() ? nullptr : &*found;
}

}  // namespace

std::optional<stack::Clearance> as_asked(const job::Job& before, const stack::Clearance& pair) {
    const auto parts = static_cast<int>(before.parts.size());
    if (pair.inboard_part >= parts || pair.outboard_part >= parts) return std::nullopt;
    const job::Ring* inboard =
        ring_called(before.parts[stack::at(pair.inboard_part)], pair.inboard_ring);
    const job::Ring* outboard =
        ring_called(before.parts[stack::at(pair.outboard_part)], pair.outboard_ring);
    if (inboard == nullptr || outboard == nullptr) return std::nullopt;
    stack::Clearance asked = pair;
    asked.inboard_end = inboard->outboard;
    asked.outboard_end = outboard->inboard;
    return asked;
}

}  // namespace trialfit::plan
