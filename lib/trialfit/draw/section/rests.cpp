// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::draw {

std::vector<double> rests(const job::Job& job, const std::vector<stack::Clearance>& pairs) {
    std::vector<double> off(job.parts.size(), 0.0);
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const job::Seat& seat : job.parts[p].seats)
            off[p] = std::max(off[p], off[seat.below().at()]);
        double lift = 0.0;
        for (const stack::Clearance& pair : pairs) {
            if (pair.outboard_of.part != static_cast<int>(p)) continue;
            const double gap = pair.gap.nominal + off[p] - off[pair.inboard_of.part.at()];
            if (gap < -stack::kRounding) lift = std::max(lift, -gap);
        }
        off[p] += lift;
    }
    return off;
}

}  // namespace trialfit::draw
