// SPDX-License-Identifier: MIT
#include <memory>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/survey/survey.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

int run_survey(const JobGiven& given) {
    const auto ask = [](const job::Job& job, const stack::Options&) { return survey::survey(job); };
    const auto told = [&](const survey::SurveyAnswer& answer, const auto&...) {
        return given.judge.json ? paper::survey_json(answer)
                                : paper::survey_text(answer, output_style(given.judge.brief));
    };
    return run_on_job(given, ask, told, [](const survey::SurveyAnswer& answer) {
        return survey::all_agree(answer) && survey::limits_can_be_kept(answer);
    });
}

}  // namespace

Command add_survey(CLI::App& program) {
    auto given = std::make_shared<JobGiven>();
    given->readings = Readings::are_asked_about;
    CLI::App* line = add_job_command(program, *given, "survey",
                                     "Do the readings agree, and which one is suspect");
    set_help(
        *line, "JOB [options]",
        "Examples:\n"
        "  trialfit survey engine.yaml\n\n"
        "Gaps read by feeler round the clock tell the offset of what stands still from the\n"
        "eccentricity of what turns.\n\n"
        "Ends with 0 where all readings and sizes agree (or there is nothing to compare), 1\n"
        "where they do not, a part stands off its seat, or no setting keeps an air gap's limits.");
    return {.line = line, .run = [given] { return run_survey(*given); }};
}

}  // namespace trialfit::cli
