// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/survey/jam.hpp>

namespace trialfit::survey {

namespace {

constexpr double kNoMetal = 1e-9;  // rounding, not metal

stack::Verdict keeps(double left, double least, double keep) {
    if (least >= keep - kNoMetal) return stack::Verdict::holds;
    return left >= keep - kNoMetal ? stack::Verdict::doubtful : stack::Verdict::fails;
}

JamAnswer::Found found_by(double off, double half_width) {
    if (off < -half_width - kNoMetal) return JamAnswer::Found::wrong_way;
    if (off <= kNoMetal) return JamAnswer::Found::seats;
    return off <= half_width + kNoMetal ? JamAnswer::Found::doubtful : JamAnswer::Found::stands_off;
}

}  // namespace

JamAnswer jam(const JamReadings& given) {
    JamAnswer answer;
    const double off = given.alone.middle() - given.together.middle();
    const double half_width = given.alone.half_width() + given.together.half_width();
    answer.found = found_by(off, half_width);
    answer.off = std::max(0.0, off);
    answer.worst = {.lo = std::max(0.0, off - half_width), .hi = std::max(0.0, off + half_width)};
    const bool less_proud =
        answer.found == JamAnswer::Found::doubtful || answer.found == JamAnswer::Found::stands_off;
    if (!less_proud) return answer;
    answer.come_off = off + given.clearance.value_or(0.0);
    answer.to_be_sure = off + half_width + given.clearance.value_or(0.0);
    for (const JamPart& part : given.parts) {
        JamAnswer::Left left{.name = part.name, .now = part.now.middle(), .keep = part.keep};
        left.left = left.now - answer.to_be_sure;
        left.least = part.now.lower - answer.to_be_sure;
        if (part.keep) left.verdict = keeps(left.left, left.least, *part.keep);
        answer.left.push_back(std::move(left));
    }
    return answer;
}

}  // namespace trialfit::survey
