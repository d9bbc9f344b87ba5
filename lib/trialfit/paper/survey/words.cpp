// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using survey::Judgement;
using survey::SplitBy;
using survey::SurveyAnswer;
using survey::Suspect;
using survey::SuspectKind;

std::string too_much(const Suspect& suspect, const SurveyAnswer& answer) {
    return fmt::format("{} {} too {}", fixed(std::abs(suspect.off_by), survey_decimals(answer)),
                       spoken(answer.units), suspect.off_by > 0.0 ? "large" : "small");
}

std::string slip_words(const Suspect& suspect) {
    return suspect.slip ? fmt::format(" ({})", words(*suspect.slip)) : "";
}

std::string reads(const SurveyAnswer& answer, double length) {
    return fixed(length, survey_decimals(answer));
}

// What is measured: "plate.front from plate.back", "from rotor.rim to rotor.nut_seat".
std::string measured(const SplitBy& split) {
    return split.from.empty() ? fmt::format("{} again", listed(split.what, 200))
                              : fmt::format("from {} to {}", listed(split.from), listed(split.to));
}

std::string one_suspect(const SurveyAnswer& answer) {
    const Suspect& first = answer.suspects.front();
    std::string next;
    if (answer.odds_to_next)
        next = *answer.odds_to_next >= 1000.0
                   ? " Any other single error is over 1,000 times less likely."
                   : fmt::format(" The next explanation is {:.0f} times less likely.",
                                 *answer.odds_to_next);
    switch (first.kind) {
        case SuspectKind::gauge:
            return fmt::format("Check the {}: all that it read seems {}{}.{}", listed(first.name),
                               too_much(first, answer), slip_words(first), next);
        case SuspectKind::touching:
            return fmt::format(
                "Look at what touched when '{}' was taken: it fits the sizes with "
                "{}{}.{}",
                listed(first.name, 200), listed(first.lay, 200), slip_words(first), next);
        case SuspectKind::reading:
        case SuspectKind::size:
            break;
    }
    return fmt::format("Measure '{}' again: it is {}, and all the rest says {}, so it is {}{}.{}",
                       listed(first.name, 200), reads(answer, first.is),
                       reads(answer, first.should_be), too_much(first, answer), slip_words(first),
                       next);
}

std::string several_suspects(const SurveyAnswer& answer) {
    if (!answer.one_explains)
        return "The readings and the sizes do not agree, and no single error explains it: at "
               "least two figures are wrong. Measure all of those below again.";
    const std::string any = fmt::format(
        "The readings and the sizes do not agree. Any one of these {} could be wrong, "
        "and nothing here tells which.",
        answer.suspects.size());
    if (!answer.split) return "Measure those below again. " + any;
    return fmt::format("Measure {}. {}", measured(*answer.split), any);
}

}  // namespace

std::string_view judgement_word(Judgement judgement) {
    switch (judgement) {
        case Judgement::agree:
            return "agree";
        case Judgement::suspect:
            return "suspect";
        case Judgement::cannot_tell:
            return "cannot_tell";
        case Judgement::contradict:
            return "contradict";
        case Judgement::nothing_to_compare:
            break;
    }
    return "nothing_to_compare";
}

std::string agreement(double probability, int freedom) {
    constexpr double kLow = 0.1;
    constexpr double kDisagree = 0.001;
    if (freedom < 1) return {};
    const std::string share =
        probability < 0.01 ? "under 1 %" : fmt::format("{:.0f} %", 100.0 * probability);
    if (probability < kDisagree) return "Agreement: none (less than 0.1 %).";
    if (probability < kLow) return fmt::format("They just agree; {} is low: measure again.", share);
    return fmt::format("Agreement: good ({}).", share);
}

int survey_decimals(const SurveyAnswer& answer) {
    std::vector<double> written;
    double narrowest = 0.0;
    for (const survey::ReadingFound& each : answer.readings) {
        written.push_back(each.is);
        if (each.half_width > 0.0)
            narrowest = narrowest == 0.0 ? each.half_width : std::min(narrowest, each.half_width);
    }
    return decimals_for(answer.units, written, narrowest);
}

std::string survey_headline(const SurveyAnswer& answer) {
    switch (answer.judgement) {
        case Judgement::nothing_to_compare:
            return "Nothing to compare: no size in this file is known in more than one way.";
        case Judgement::agree:
            return "The readings and the sizes agree.";
        case Judgement::suspect:
            return one_suspect(answer);
        case Judgement::cannot_tell:
            return several_suspects(answer);
        case Judgement::contradict:
            break;
    }
    return "The readings and the sizes contradict each other: no sizes within their limits give "
           "these readings. Measure again.";
}

std::vector<std::string> standing_off_words(const SurveyAnswer& answer) {
    std::vector<std::string> out;
    const int d = survey_decimals(answer);
    for (const survey::StandsOffFound& each : answer.stands_off) {
        std::string words =
            fmt::format("The {} stands {} {} off its seat ('{}').", listed(each.part),
                        fixed(each.by, d), spoken(answer.units), listed(each.reading, 200));
        if (each.inboard.empty()) {
            words += " No pair of faces in the file holds it";
        } else if (each.stated) {
            words += fmt::format(" It is held by {} on {}, as the reading says",
                                 listed(each.outboard), listed(each.inboard));
        } else {
            words += fmt::format(" The tightest pair is {} on {}", listed(each.outboard),
                                 listed(each.inboard));
        }
        if (!each.inboard.empty() && each.clears > 0.0)
            words += fmt::format(", which by the sizes should clear by {}: measure both again",
                                 fixed(each.clears, d));
        words += ". Look also for dirt, a key too tall, or a nut on the shaft end.";
        out.push_back(std::move(words));
    }
    return out;
}

std::string suspects_heading(const SurveyAnswer& answer) {
    if (answer.suspects.size() == 1) return "What is most likely wrong";
    return answer.one_explains ? "What could be wrong: any one of these"
                               : "What explains most of it, if it is wrong";
}

std::vector<std::string> suspect_words(const SurveyAnswer& answer) {
    std::vector<std::string> out;
    for (const Suspect& each : answer.suspects) {
        std::string words;
        switch (each.kind) {
            case SuspectKind::gauge:
                words = fmt::format("all that the {} read: {}{}", listed(each.name),
                                    too_much(each, answer), slip_words(each));
                break;
            case SuspectKind::touching:
                words =
                    fmt::format("what touched at '{}': it would have to be {}{}",
                                listed(each.name, 200), listed(each.lay, 200), slip_words(each));
                break;
            case SuspectKind::reading:
            case SuspectKind::size:
                words =
                    fmt::format("{} is {}: would have to read {}, so {}{}", listed(each.name, 200),
                                reads(answer, each.is), reads(answer, each.should_be),
                                too_much(each, answer), slip_words(each));
        }
        if (!each.not_home.empty())
            words += fmt::format(
                "; or the {} stood {} off its seat when it was taken: look for dirt, a key too "
                "tall, a nut on the shaft end",
                listed(each.not_home), reads(answer, each.stood_off));
        out.push_back(words + ".");
    }
    return out;
}

std::string split_words(const SurveyAnswer& answer) {
    if (!answer.split) return {};
    const SplitBy& split = *answer.split;
    std::string words = "Measure " + measured(split);
    if (!split.gauge.empty()) words += fmt::format(" by {}", listed(split.gauge));
    words += " to tell them apart.";
    for (const SplitBy::Outcome& each : split.outcomes) {
        std::string left;
        for (const std::size_t s : each.left)
            left += fmt::format("{}{}", left.empty() ? "" : ", ", s + 1);
        words += fmt::format(" About {}: it is {} {}.", reads(answer, each.is),
                             each.left.size() == 1 ? "number" : "one of", left);
    }
    return words + " Put what you read into the file, and ask again.";
}

std::vector<std::string> next_words(const SurveyAnswer& answer) {
    std::vector<std::string> out;
    const int d = survey_decimals(answer) + 1;
    for (const survey::MeasureNext& each : answer.measure_next)
        out.push_back(
            fmt::format("{} once more by {} (±{}): the usual error of '{}' goes from {} "
                        "to {}.",
                        listed(each.size, 200), listed(each.gauge), brief(each.by_half_width),
                        listed(each.check, 200), fixed(each.sd_now, d), fixed(each.sd_then, d)));
    return out;
}

}  // namespace trialfit::paper
