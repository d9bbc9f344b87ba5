// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <cstdint>
#include <memory>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/printed.hpp>

#include "job_command.hpp"

namespace trialfit::cli {

namespace {

struct OddsGiven {
    JobGiven job;
    numerics::Sampling sampling;
    std::uint64_t threads = 0;
    bool all = false;
};

struct OddsChecked {
    stack::CheckAnswer check;
    odds::OddsAnswer odds;
};

// Progress on a terminal only, and wiped when done.
void show_progress(std::uint64_t done, std::uint64_t most) {
    if (isatty(STDERR_FILENO) == 0) return;
    tell("\r" + std::to_string(done * 100 / most) + " % of the draws" +
         (done >= most ? "\r                    \r" : ""));
}

std::variant<OddsChecked, job::Complaints> answer_of(const job::Job& job,
                                                     const odds::Options& options) {
    auto chances = odds::odds(job, options);
    if (auto* const complaints = std::get_if<job::Complaints>(&chances))
        return std::move(*complaints);
    auto checked = stack::check(job, options.stack);
    return OddsChecked{.check = std::move(std::get<stack::CheckAnswer>(checked)),
                       .odds = std::move(std::get<odds::OddsAnswer>(chances))};
}

int run(const OddsGiven& given) {
    JobGiven asked = given.job;
    numerics::Sampling sampling = given.sampling;
    sampling.threads = static_cast<unsigned>(given.threads);
    asked.tells_progress = sampling.samples > 10'000'000;
    if (asked.tells_progress) sampling.progress = show_progress;
    const auto ask = [&](const job::Job& job, stack::Options options) {
        options.all_pairs = given.all;
        return answer_of(job, {.stack = std::move(options), .sampling = sampling});
    };
    const auto told = [&](const OddsChecked& found, const auto&...) {
        return asked.judge.json
                   ? paper::odds_json(found.check, found.odds)
                   : paper::odds_text(found.check, found.odds, output_style(asked.judge.brief));
    };
    return run_on_job(asked, ask, told, [](const OddsChecked& found) {
        return found.check.verdict == stack::Verdict::holds && found.odds.not_judged.empty() &&
               !found.odds.nothing_asked;
    });
}

}  // namespace

Command add_odds(CLI::App& program) {
    auto given = std::make_shared<OddsGiven>();
    CLI::App* line = add_job_command(program, given->job, "odds", "The odds that it fits");
    line->add_flag("--all", given->all,
                   "Every pair of faces that could meet, not only the tightest");
    numerics::Sampling& sampling = given->sampling;
    add_number(*line, "--samples", sampling.samples, 1000, 10'000'000'000,
               "Draws at most, where it is sampled")
        ->type_name("N");
    add_number(*line, "--seed", sampling.seed, 0, UINT64_MAX,
               "Which draws: the same seed, the same answer")
        ->type_name("N");
    add_number(*line, "--threads", given->threads, 0, 1024,
               "Threads; 0 for all there are. The answer does not hang on it")
        ->type_name("N");
    add_number(*line, "--precision", sampling.precision, 0.0, 0.5,
               "Stop once the odds are known to within this (0.001)")
        ->type_name("P");
    set_help(*line, "JOB [options]",
             "Examples:\n"
             "  trialfit odds engine.yaml\n"
             "  trialfit odds engine.yaml --samples 100000000 --precision 0.0001\n\n"
             "The odds of gaps are exact; engagements, overlaps, what touches first and all\n"
             "together are sampled. Ends with 0 where all holds in the worst case, 1 where\n"
             "something may fail.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
