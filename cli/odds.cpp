// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <charconv>
#include <cstdint>
#include <memory>
#include <trialfit/odds/odds.hpp>
#include <trialfit/paper/odds/text.hpp>

#include "busy.hpp"
#include "command.hpp"
#include "exit_codes.hpp"
#include "input.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct OddsGiven {
    std::string job;
    std::string samples = "1000000";
    std::string seed = "1";
    std::string threads = "0";
    std::string precision = "0";
    JudgeOptions judge;
    bool all = false;
};

template <typename Number>
bool read_number(const char* option, const std::string& text, Number least, Number most,
                 Number& into) {
    const char* end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, into);
    if (read.ec == std::errc() && read.ptr == end && into >= least && into <= most) return true;
    refuse_line(std::string(option) + " '" + text + "' is no number from " + std::to_string(least) +
                " to " + std::to_string(most));
    return false;
}

// Progress on a terminal only, and wiped when done.
void show_progress(std::uint64_t done, std::uint64_t most) {
    if (isatty(STDERR_FILENO) == 0) return;
    tell("\r" + std::to_string(done * 100 / most) + " % of the draws" +
         (done >= most ? "\r                    \r" : ""));
}

std::optional<odds::Options> options_of(const OddsGiven& given) {
    odds::Options options;
    numerics::Sampling& sampling = options.sampling;
    constexpr std::uint64_t kMostSamples = 10'000'000'000;
    constexpr unsigned kMostThreads = 1024;
    if (!read_number<std::uint64_t>("--samples", given.samples, 1000, kMostSamples,
                                    sampling.samples))
        return std::nullopt;
    if (!read_number<std::uint64_t>("--seed", given.seed, 0, UINT64_MAX, sampling.seed))
        return std::nullopt;
    if (!read_number<unsigned>("--threads", given.threads, 0, kMostThreads, sampling.threads))
        return std::nullopt;
    if (!read_number<double>("--precision", given.precision, 0.0, 0.5, sampling.precision))
        return std::nullopt;
    if (sampling.samples > 10'000'000) sampling.progress = show_progress;
    options.stack.all_pairs = given.all;
    return options;
}

int run(const OddsGiven& given) {
    auto options = options_of(given);
    if (!options) return kWrong;
    const auto loaded = load(given.job, "", given.judge.what_if);
    if (!loaded) return kWrong;
    if (!bind_readings(options->stack, given.judge, *loaded)) return kWrong;
    const auto work = [&] { return odds::odds(loaded->job, *options); };
    // Long sampling tells of itself.
    const auto outcome = options->sampling.progress ? work() : while_busy(work);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        return complain(*complaints, *loaded);
    const auto& answer = std::get<odds::OddsAnswer>(outcome);
    const auto checked = stack::check(loaded->job, options->stack);
    const auto& check = std::get<stack::CheckAnswer>(checked);
    const bool holds = check.verdict == stack::Verdict::holds && answer.not_judged.empty() &&
                       !answer.nothing_asked;
    return deliver(given.judge.json
                       ? paper::odds_json(check, answer)
                       : paper::odds_text(check, answer, output_style(given.judge.brief)),
                   holds ? kHolds : kFails);
}

}  // namespace

Command add_odds(CLI::App& program) {
    auto given = std::make_shared<OddsGiven>();
    CLI::App* line = program.add_subcommand("odds", "The odds that it fits");
    line->add_option("JOB", given->job, "The job file; - for standard input")->required();
    add_form_options(*line, given->judge.json, given->judge.brief);
    add_what_if(*line, given->judge.what_if);
    line->add_flag("--as-written", given->judge.as_written,
                   "Set the readings aside: the sizes as written");
    line->add_flag("--all", given->all,
                   "Every pair of faces that could meet, not only the tightest");
    line->add_option("--samples", given->samples, "Draws at most, where it is sampled")
        ->type_name("N");
    line->add_option("--seed", given->seed, "Which draws: the same seed, the same answer")
        ->type_name("N");
    line->add_option("--threads", given->threads,
                     "Threads; 0 for all there are. The answer does not hang on it")
        ->type_name("N");
    line->add_option("--precision", given->precision,
                     "Stop once the odds are known to within this (0.001)")
        ->type_name("P");
    line->group("Commands");
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
