// SPDX-License-Identifier: MIT
#include <trialfit/job/size_id.hpp>

namespace trialfit::job {

std::optional<SizeId> SizesCarried::after(SizeId before) const {
    if (dropped.contains(before)) return std::nullopt;
    const auto found = kept.find(before);
    return found == kept.end() ? before : found->second;
}

}  // namespace trialfit::job
