// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What several results are made of; their keys keep the order in which they are written.
namespace trialfit::paper {

using Json = nlohmann::ordered_json;

/// The text of an answer: indented, ended by a line end. Throws std::logic_error where a figure is
/// not finite: such an answer is a fault of the program and must not look whole.
[[nodiscard]] std::string json_text(const Json& answer);

/// What every answer begins with.
[[nodiscard]] inline Json json_head(std::string_view command) {
    return {{"trialfit", 1}, {"command", command}};
}

/// [least, greatest], in the unit of the range.
[[nodiscard]] inline Json range_json(const stack::Range& range) {
    return Json::array({range.lo, range.hi});
}

/// Adds `nominal`, `middle`, `worst` and `rss`: null where nothing measured fixes the value.
void add_bounds(Json& out, const stack::Bounds& bounds);

/// The value, or null for none.
[[nodiscard]] inline Json or_null(const std::optional<double>& value) {
    return value ? Json(*value) : Json();
}

/// The words, or null for none.
[[nodiscard]] inline Json or_null(const std::string& words) {
    return words.empty() ? Json() : Json(words);
}

/// What `write` makes of the value, or null for none.
template <typename Value, typename Writer>
[[nodiscard]] Json or_null(const std::optional<Value>& value, Writer write) {
    return value ? Json(write(*value)) : Json();
}

/// A figure and its extremes, in the unit of the figure.
[[nodiscard]] inline Json estimate_json(const stack::Estimate& value) {
    return {{"least", value.least}, {"middle", value.middle}, {"greatest", value.greatest}};
}

/// One check of a job, as `check` gives it.
[[nodiscard]] Json check_result_json(const stack::CheckResult& check);

/// An array of what `write` makes of each, in their order.
template <typename Value, typename Writer>
[[nodiscard]] Json list_json(const std::vector<Value>& values, Writer write) {
    Json out = Json::array();
    for (const Value& each : values)
        out.push_back(write(each));
    return out;
}

}  // namespace trialfit::paper
