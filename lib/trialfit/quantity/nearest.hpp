// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace trialfit::quantity {

/// The name of `names` most like `word`, for "did you mean": least edits (insert, delete, replace,
/// swap of neighbours; letter case costs nothing), first in the list among equals. Empty where even
/// the nearest would need more than a third of the word's letters (at least one) changed.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& names);

}  // namespace trialfit::quantity
