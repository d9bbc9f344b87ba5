// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What several results are made of; their keys keep the order in which they are written.
namespace trialfit::paper {

using Json = nlohmann::ordered_json;

[[nodiscard]] inline Json range_json(const stack::Range& range) {
    return Json::array({range.lo, range.hi});
}

[[nodiscard]] inline Json or_null(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

template <typename Value, typename Writer>
[[nodiscard]] Json or_null(const std::optional<Value>& value, Writer write) {
    return value ? Json(write(*value)) : Json();
}

template <typename Value, typename Writer>
[[nodiscard]] Json list_json(const std::vector<Value>& values, Writer write) {
    Json out = Json::array();
    for (const Value& each : values)
        out.push_back(write(each));
    return out;
}

}  // namespace trialfit::paper
