// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/paper/start/fill.hpp>

// What a person answers to a letter, on its way into the job file.
namespace trialfit::paper {

/// The size in the words of the format, empty where its section is left out; or what is wrong with
/// the answer, and what would be right.
struct StartAnswer {
    std::string words;
    std::string fault;
    std::string mend;
};

/// Reads an answer as it was typed. A figure alone was read by the letter's gauge, several are
/// readings by it. `in_template`: the job of the kind's template, for its unit and gauges.
/// `so_far`: what was answered before.
[[nodiscard]] StartAnswer answer_of(const StartKind& kind, const StartLetter& letter,
                                    std::string_view typed, const job::Job& in_template,
                                    const StartAnswers& so_far);

/// "G  thickness of the plate [caliper]".
[[nodiscard]] std::string question(const StartLetter& letter);

/// What is said to an answer that will not do.
[[nodiscard]] std::string objection(const StartAnswer& answer);

/// What `?` answers: how to measure it, and what may be typed.
[[nodiscard]] std::string how_to(const StartLetter& letter, const job::Job& in_template);

/// What is said before the first question, line by line.
[[nodiscard]] std::string before_asking(const StartKind& kind, const job::Job& in_template,
                                        std::string_view file);

/// What the finished file still has of the template, or is left open.
[[nodiscard]] std::string after_asking(const StartKind& kind, const StartAnswers& answers);

}  // namespace trialfit::paper
