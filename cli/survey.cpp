// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/survey/survey.hpp>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct SurveyGiven {
    std::string job;
    bool json = false;
    bool brief = false;
    WhatIfGiven what_if;
};

int run(const SurveyGiven& given) {
    const auto loaded = load(given.job, "", given.what_if);
    if (!loaded) return kWrong;
    const auto outcome = while_busy([&] { return survey::survey(loaded->job); });
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<survey::SurveyAnswer>(outcome);
    return deliver(
        given.json ? paper::survey_json(answer)
                   : paper::survey_text(answer, output_style(given.brief)),
        survey::all_agree(answer) && survey::limits_can_be_kept(answer) ? kHolds : kFails);
}

}  // namespace

Command add_survey(CLI::App& program) {
    auto given = std::make_shared<SurveyGiven>();
    CLI::App* line =
        program.add_subcommand("survey", "Do the readings agree, and which one is suspect");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    add_form_options(*line, given->json, given->brief);
    add_what_if(*line, given->what_if);
    line->group("Commands");
    set_help(
        *line, "JOB [options]",
        "Examples:\n"
        "  trialfit survey engine.yaml\n\n"
        "Gaps read by feeler round the clock tell the offset of what stands still from the\n"
        "eccentricity of what turns.\n\n"
        "Ends with 0 where all readings and sizes agree (or there is nothing to compare), 1\n"
        "where they do not, a part stands off its seat, or no setting keeps an air gap's limits.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
