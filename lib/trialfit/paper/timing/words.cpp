// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

namespace trialfit::paper {

std::string_view word(trade::Turning turning) {
    return turning == trade::Turning::clockwise ? "clockwise" : "anticlockwise";
}

std::string sentence_degrees(double degrees) {
    return fixed(degrees, 1);
}

std::string degrees(double degrees) {
    return fixed(degrees, 2);
}

std::string crank_place(double before_top_deg) {
    const std::string figure = sentence_degrees(std::abs(before_top_deg));
    if (figure == "0.0") return "the top";
    return fmt::format("{} degrees {}", figure, before_top_deg > 0.0 ? "BTDC" : "ATDC");
}

std::string stator_turn(const timing::TimingAnswer& answer, double earlier_deg) {
    const bool earlier = earlier_deg >= 0.0;
    const std::string figure = sentence_degrees(std::abs(earlier_deg));
    if (!answer.stator_turns)
        return fmt::format("{} degrees {} the shaft's turning", figure,
                           earlier ? "against" : "with");
    return fmt::format("{} degrees {}, seen from outboard", figure,
                       word(earlier ? answer.stator_turns->earlier : answer.stator_turns->later));
}

Lengths plain_lengths(const timing::TimingAnswer& answer) {
    return {.units = answer.units, .decimals = length_decimals(answer)};
}

int length_decimals(const timing::TimingAnswer& answer) {
    return decimals_for(answer.units, {}, 0.0);
}

}  // namespace trialfit::paper
