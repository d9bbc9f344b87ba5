// SPDX-License-Identifier: MIT
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/text/figures.hpp>

namespace trialfit::paper {

namespace {

void hold_finite(const Json& json) {
    if (json.is_number_float()) static_cast<void>(finite(json.get<double>()));
    if (!json.is_structured()) return;
    for (const Json& each : json)
        hold_finite(each);
}

}  // namespace

std::string json_text(const Json& answer) {
    hold_finite(answer);
    // A file's name need not be UTF-8; the answer must.
    return answer.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace trialfit::paper
