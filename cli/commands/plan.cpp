// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <sys/time.h>
#include <unistd.h>

#include <atomic>
#include <csignal>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/sheet/by_odds.hpp>
#include <variant>

#include "commands/plan_files.hpp"
#include "files/output_file.hpp"
#include "job_command.hpp"

namespace trialfit::cli {

namespace {

struct PlanGiven {
    JobGiven job;
    std::uint64_t top = 3;
    std::string write;
    bool force = false;
};

Target written_to(const PlanGiven& given) {
    return {.name = given.write, .overwrite = given.force, .job = given.job.job};
}

// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables): all that a signal reaches
std::atomic<bool> asked_to_stop{false};

// Processor time in which a search that was asked to stop has to come to its end.
constexpr time_t kPatience = 3;

// A search that goes on as long as this gives the best so far.
constexpr double kLongestSearch = 7.0;

void alarm_after(time_t seconds) {
    const itimerval after{.it_interval = {}, .it_value = {.tv_sec = seconds, .tv_usec = 0}};
    (void)setitimer(ITIMER_PROF, &after, nullptr);
}

// A second Ctrl-C ends the program as it does anywhere else, and so does a search that goes on.
void stop_searching(int /*signal*/) {
    asked_to_stop = true;
    (void)std::signal(SIGINT, SIG_DFL);
    alarm_after(kPatience);
}

void end_unanswered(int /*signal*/) {
    constexpr std::string_view kWords = "\r\x1b[KStopped, without an answer.\n";
    if (write(STDERR_FILENO, kWords.data(), kWords.size()) < 0) std::_Exit(kFault);
    (void)std::raise(SIGINT);
}

// Once a second on a terminal, and wiped when done.
class Telling {
public:
    bool operator()(const numerics::Progress& progress) {
        if (progress.seconds < told_ + 1.0 || isatty(STDERR_FILENO) == 0) return true;
        told_ = progress.seconds;
        const std::string best = progress.best_cost
                                     ? "best so far costs " + paper::fixed(*progress.best_cost, 3)
                                     : std::string("no plan yet");
        tell("\r\x1b[K" + std::to_string(progress.nodes) + " cases looked at, " + best +
             "; Ctrl-C takes it");
        return true;
    }
    void wipe() const {
        if (told_ > 0.0) tell("\r\x1b[K");
    }

private:
    double told_ = 0.0;
};

plan::PlanAnswer search(const stack::Model& model, plan::JobOptions& asked) {
    Telling telling;
    asked.watch.stop = &asked_to_stop;
    asked.watch.seconds = kLongestSearch;
    asked.watch.progress = [&telling](const numerics::Progress& progress) {
        return telling(progress);
    };
    asked_to_stop = false;
    (void)std::signal(SIGPROF, end_unanswered);
    const auto before = std::signal(SIGINT, stop_searching);
    plan::PlanAnswer answer = plan::plan(model, asked);
    alarm_after(0);
    std::signal(SIGINT, before);
    telling.wipe();
    return answer;
}

// A plan is made from the parts as they are, not as an earlier plan would leave them.
std::variant<plan::PlanAnswer, job::Complaints, int> answer_of(const PlanGiven& given,
                                                               const Loaded& loaded,
                                                               const stack::Options& options) {
    const JudgeOptions& judge = given.job.judge;
    if (!given.write.empty())
        if (const int code = may_write(written_to(given)); code != kHolds) return code;
    const auto planned = job::planned_warning(loaded.job, true);
    std::optional<Loaded> before;
    if (planned) before = Loaded{.job = *loaded.job.before, .text = loaded.text};
    const Loaded& now = before ? *before : loaded;
    plan::JobOptions asked{.stack = options, .top = static_cast<std::size_t>(given.top)};
    if (!bind_readings(asked.stack, judge, now)) return kWrong;
    if (judge.odds)
        sheet::judge_by_odds(*judge.odds, asked.stack, asked);
    else if (asked.stack.judge == stack::Judge::rss)
        sheet::show_odds(asked.stack, asked);
    const auto built = stack::model_for(now.job, asked.stack);
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) return *complaints;
    plan::PlanAnswer answer = search(std::get<stack::Model>(built), asked);
    if (planned) answer.warnings.insert(answer.warnings.begin(), *planned);
    if (given.write.empty() || answer.plans.empty()) return answer;
    const int code = write_plan(
        now, answer.plans.front(), written_to(given),
        {.stack = asked.stack, .odds_level = asked.odds_level, .as_written = judge.as_written});
    if (code != kHolds) return code;
    return answer;
}

int run(const PlanGiven& given) {
    const JudgeOptions& judge = given.job.judge;
    if (judge.odds && *judge.odds < 0.5)
        return refuse_line(fmt::format("--judge 'odds={}' asks for odds below a half", *judge.odds),
                           "odds=0.99 is a usual one");
    if (!given.write.empty() && judge.what_if.any())
        return refuse_line("--write puts a plan for the parts as they are into a job",
                           "record what was done first, or leave --with and --take out");
    const auto ask = [&](const Loaded& loaded, const stack::Options& options) {
        return answer_of(given, loaded, options);
    };
    const auto told = [&](const plan::PlanAnswer& answer, const auto&...) {
        return judge.json ? paper::plan_json(answer)
                          : paper::plan_text(answer, output_style(judge.brief));
    };
    return run_on_job(given.job, ask, told, [](const plan::PlanAnswer& answer) {
        return !answer.plans.empty() && answer.plans.front().after.verdict == stack::Verdict::holds;
    });
}

}  // namespace

Command add_plan(CLI::App& program) {
    auto given = std::make_shared<PlanGiven>();
    given->job.readings = Readings::bound_by_the_answer;
    given->job.tells_progress = true;
    CLI::App* line = program.add_subcommand("plan", "What to cut and which shims to fit");
    line->add_option("JOB", given->job.job, "The job file; - for standard input")->required();
    add_judge_options(*line, given->job.judge);
    add_number(*line, "--top", given->top, 1, 100, "How many plans, the cheapest first (3)")
        ->type_name("N");
    line->add_option("--write", given->write, "Write the job with the plan in its record to FILE")
        ->type_name("FILE");
    line->add_flag("--force", given->force, "Overwrite FILE where it is there already");
    line->group("Commands");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit plan engine.yaml\n"
             "  trialfit plan engine.yaml --judge rss --top 5\n"
             "  trialfit plan engine.yaml --with plate.front=5.52\n"
             "  trialfit plan engine.yaml --write planned.yaml\n\n"
             "Shims that move a check with an 'aim' are set to it, whatever they cost.\n\n"
             "Ends with 0 where there is a plan after which all that was asked holds, else\n"
             "with 1. Ctrl-C, or 7 seconds, end a long search with the best plan so far, not\n"
             "proven to be the cheapest. A second Ctrl-C ends the program at once.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
