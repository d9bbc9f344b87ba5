// SPDX-License-Identifier: MIT
#include "commands/plan_files.hpp"

#include <trialfit/paper/text/words.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/sheet/write_back.hpp>
#include <utility>

#include "command.hpp"
#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

int write_plan(const Loaded& loaded, const plan::PlanMade& plan, const Target& to,
               const TrialFitOptions& judging) {
    const reading::RecordedEntry entry = sheet::planned_entry(plan, next_day(loaded.job));
    const reading::Edited edited = reading::edited(loaded.text, {entry});
    if (!edited.text) {
        tell_complaints(edited.complaints, loaded.job.file, edited.about);
        return kWrong;
    }
    const auto read_back = sheet::judged(*edited.text, loaded.job.file, judging);
    if (const auto* complaints = std::get_if<job::Complaints>(&read_back)) {
        tell_complaints(*complaints, loaded.job.file, *edited.text);
        return refuse(to.name, "nothing was written: the job with this plan in it cannot be read",
                      "make the changes by hand");
    }
    const auto& answer = std::get<stack::CheckAnswer>(read_back);
    if (!sheet::findings_hold(answer)) {
        refuse(to.name, "nothing was written: read back, the job with this plan does not hold",
               "write the sizes into the job by hand, and check it");
        return kFails;
    }
    const int code = write_whole(to, *edited.text);
    if (code == kHolds)
        tell("Wrote " + paper::shell_word(to.name) +
             ", with the work as planned. `trialfit record` puts in each size as it came out.\n");
    return code;
}

}  // namespace trialfit::cli
