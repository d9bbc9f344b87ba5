// SPDX-License-Identifier: MIT
// The messages of an answer by their kind.
#pragma once

#include <type_traits>
#include <variant>
#include <vector>

namespace trialfit::testing {

/// The message of kind `Kind` that a variant holds, at whatever depth; null where it holds another.
template <typename Kind, typename... Kinds>
const Kind* message(const std::variant<Kinds...>& held) {
    return std::visit(
        [](const auto& each) -> const Kind* {
            if constexpr (std::is_same_v<std::decay_t<decltype(each)>, Kind>)
                return &each;
            else if constexpr (requires { each.valueless_by_exception(); })
                return message<Kind>(each);
            else
                return nullptr;
        },
        held);
}

/// The first of that kind; null where there is none.
template <typename Kind, typename Message>
const Kind* message(const std::vector<Message>& all) {
    for (const Message& each : all)
        if (const Kind* const found = message<Kind>(each)) return found;
    return nullptr;
}

}  // namespace trialfit::testing
