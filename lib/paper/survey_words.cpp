// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/survey_words.hpp>

namespace trialfit::paper {

std::string_view judgement_word(survey::Judgement judgement) {
    switch (judgement) {
        case survey::Judgement::agree:
            return "agree";
        case survey::Judgement::suspect:
            return "suspect";
        case survey::Judgement::cannot_tell:
            return "cannot_tell";
        case survey::Judgement::contradict:
            return "contradict";
        case survey::Judgement::nothing_to_compare:
            break;
    }
    return "nothing_to_compare";
}

std::string chance(double probability) {
    if (probability < 1e-9) return "less than 1 in 1,000,000,000";
    if (probability < 0.01) return fmt::format("about 1 in {:.0f}", 1.0 / probability);
    return percent(probability);
}

}  // namespace trialfit::paper
