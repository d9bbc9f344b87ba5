// SPDX-License-Identifier: MIT
// What the library answers, as JSON: for the test that holds it to the program.
//   study_json COMMAND JOB
//   study_json yaml JOB         the job as the library writes it
#include <iostream>
#include <string>
#include <trialfit/trialfit.hpp>

namespace {

using trialfit::Expected;

template <typename Answer, typename Json>
int told(const Expected<Answer>& answer, const Json& json) {
    if (!answer) return 2;
    std::cout << json(*answer);
    return 0;
}

int answered(const trialfit::Study& study, const std::string& command) {
    namespace paper = trialfit::paper;
    if (command == "check") return told(study.check(), paper::check_json);
    if (command == "plan") return told(study.plan(), paper::plan_json);
    if (command == "survey") return told(study.survey(), paper::survey_json);
    if (command == "seat") return told(study.seat(), paper::seat_json);
    if (command == "timing") return told(study.timing(), paper::timing_json);
    if (command == "spin") return told(study.spin(), paper::spin_json);
    if (command == "yaml") return told(study.yaml(), [](const auto& text) { return text; });
    const auto check = study.check();
    if (!check) return 2;
    if (command == "why")
        return check->checks.empty() ? 2
                                     : told(study.why(check->checks.front().name), paper::why_json);
    return told(study.odds(), [&](const auto& odds) { return paper::odds_json(*check, odds); });
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) return 3;
    const auto study = trialfit::Study::read_file(words[2]);
    return study ? answered(*study, words[1]) : 2;
}
