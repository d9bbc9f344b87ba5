// SPDX-License-Identifier: MIT
#include <algorithm>
#include <memory>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/stack/check/check.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

struct WhyGiven {
    JobGiven job;
    std::vector<std::string> what;
};

// A check's name written without quotes comes as several words.
std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words)
        out += out.empty() ? word : " " + word;
    return out;
}

std::variant<stack::WhyAnswer, job::Complaints> answer_of(const job::Job& job,
                                                          const std::vector<std::string>& what,
                                                          const stack::Options& options) {
    const std::string name = joined(what);
    const bool a_check = std::any_of(job.checks.begin(), job.checks.end(),
                                     [&name](const job::Check& c) { return c.name == name; }) ||
                         std::any_of(job.air_gaps.begin(), job.air_gaps.end(),
                                     [&name](const job::AirGap& c) { return c.name == name; });
    if (what.size() == 2 && !a_check) return stack::why_gap(job, what[0], what[1], options);
    return stack::why(job, name, options);
}

// The chance that it holds, and what halving each size's spread does to it.
void weigh(stack::WhyAnswer& answer, const job::Job& job, const stack::Options& options) {
    if (!answer.id) return;
    odds::Options asked = odds::beside(options);
    asked.only = answer.id;
    const auto outcome = odds::odds(job, asked);
    if (const auto* chances = std::get_if<odds::OddsAnswer>(&outcome))
        odds::give_drivers(answer, *chances);
}

int run(const WhyGiven& given) {
    const JudgeOptions& judge = given.job.judge;
    const auto ask = [&](const job::Job& job, const stack::Options& options) {
        auto outcome = answer_of(job, given.what, options);
        if (auto* const answer = std::get_if<stack::WhyAnswer>(&outcome))
            weigh(*answer, job, options);
        return outcome;
    };
    const auto told = [&](const stack::WhyAnswer& answer, const auto&...) {
        return judge.json ? paper::why_json(answer)
                          : paper::why_text(answer, output_style(judge.brief));
    };
    return run_on_job(given.job, ask, told, [](const stack::WhyAnswer& answer) {
        return answer.verdict == stack::Verdict::holds;
    });
}

}  // namespace

Command add_why(CLI::App& program) {
    auto given = std::make_shared<WhyGiven>();
    CLI::App* line = program.add_subcommand("why", "The sizes behind one check or one gap");
    line->add_option("JOB", given->job.job, "The job file; - for standard input")->required();
    line->add_option("WHAT", given->what, "The name of a check, or two faces: inboard, outboard")
        ->required()
        ->expected(1, -1);
    add_judge_options(*line, given->job.judge);
    line->group("Commands");
    set_help(*line, "JOB CHECK [options]\n  trialfit why JOB FACE FACE [options]",
             "Examples:\n"
             "  trialfit why engine.yaml \"nut engagement\"\n"
             "  trialfit why engine.yaml plate.front rotor.rim\n\n"
             "Ends with 0 where the check holds, 1 where it fails or is doubtful.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
