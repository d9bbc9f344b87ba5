// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/match/match.hpp>
#include <trialfit/match/present.hpp>
#include <trialfit/match/written.hpp>
#include <trialfit/paper/match/text.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <utility>
#include <variant>
#include <vector>

#include "command.hpp"
#include "exit_codes.hpp"
#include "files/input.hpp"
#include "files/output_file.hpp"
#include "files/page.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

struct MatchGiven {
    std::string engine;
    std::vector<std::string> kits;
    std::vector<std::vector<std::string>> groups;
    std::optional<std::uint64_t> pick;
    std::string write;
    std::string html;
    std::string paper = "A4";
    bool force = false;
    bool json = false;
    bool brief = false;
    bool all = false;
};

// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables): all that a signal reaches
std::atomic<bool> match_interrupted{false};

void stop_matching(int /*signal*/) {
    match_interrupted = true;
    (void)std::signal(SIGINT, SIG_DFL);
}

// How many are judged, once a second on a terminal, and wiped when done.
class Counting {
public:
    explicit Counting(std::size_t all) : all_(all) {}

    void operator()(std::size_t done) {
        const auto now = std::chrono::steady_clock::now();
        if (now < next_ || isatty(STDERR_FILENO) == 0) return;
        next_ = now + std::chrono::seconds(1);
        told_ = true;
        tell(fmt::format("\r\x1b[K{} of {} judged; Ctrl-C shows these", done, all_));
    }
    void wipe() const {
        if (told_) tell("\r\x1b[K");
    }

private:
    std::size_t all_;
    std::chrono::steady_clock::time_point next_ =
        std::chrono::steady_clock::now() + std::chrono::seconds(1);
    bool told_ = false;
};

// The files that are named, each read once, and the groups as their numbers.
struct Files {
    std::vector<reading::NamedText> texts;
    std::vector<std::vector<std::size_t>> groups;
};

std::optional<std::size_t> number_of_file(const std::string& name, Files& files) {
    const auto known =
        std::find_if(files.texts.begin() + 1, files.texts.end(),
                     [&](const reading::NamedText& each) { return each.name == name; });
    if (known != files.texts.end()) return static_cast<std::size_t>(known - files.texts.begin());
    auto text = text_of_file(name);
    if (!text) return std::nullopt;
    files.texts.push_back({.name = name, .text = std::move(*text)});
    return files.texts.size() - 1;
}

std::optional<Files> read_files(const MatchGiven& given) {
    Files files;
    auto engine = text_of_file(given.engine);
    if (!engine) return std::nullopt;
    files.texts.push_back({.name = given.engine, .text = std::move(*engine)});
    bool sound = true;
    auto groups = given.groups;
    if (groups.empty()) groups.push_back(given.kits);
    for (const std::vector<std::string>& group : groups) {
        std::vector<std::size_t>& numbers = files.groups.emplace_back();
        for (const std::string& name : group) {
            const auto number = number_of_file(name, files);
            sound = sound && number;
            numbers.push_back(number.value_or(0));
        }
    }
    if (!sound) return std::nullopt;
    return files;
}

int refuse_given(const MatchGiven& given) {
    if (given.kits.empty() && given.groups.empty())
        return refuse_line("no kit is named", "`trialfit match ENGINE KIT...`");
    if (!given.kits.empty() && !given.groups.empty())
        return refuse_line("kits are named by themselves and by --of",
                           "put each group behind an --of of its own, or leave --of out");
    if (given.pick && given.write.empty())
        return refuse_line("--pick says which kit --write is to write",
                           "add --write FILE, or leave --pick out");
    if (!given.write.empty() && std::filesystem::path(given.write).lexically_normal() ==
                                    std::filesystem::path(given.html).lexically_normal())
        return refuse_line("--write and --html name one file", "name two");
    std::size_t inputs = given.engine == "-" ? 1 : 0;
    inputs += static_cast<std::size_t>(std::count(given.kits.begin(), given.kits.end(), "-"));
    for (const auto& group : given.groups)
        inputs += static_cast<std::size_t>(std::count(group.begin(), group.end(), "-"));
    if (inputs > 1) return refuse_line("standard input is read only once", "name it '-' once");
    return kHolds;
}

constexpr std::string_view kWhatToPick = "it is the number that the table gives a kit";

// Which of the candidates is to be written, counted from 0.
std::optional<std::size_t> picked(const MatchGiven& given, std::size_t most) {
    const std::uint64_t number = given.pick.value_or(1);
    if (number <= most) return static_cast<std::size_t>(number) - 1;
    refuse_line(fmt::format("--pick '{}' is no number from 1 to {}", number, most), kWhatToPick);
    return std::nullopt;
}

int tell_faults(const std::vector<reading::FileComplaint>& faults, const Files& files) {
    for (std::size_t i = 0; i < files.texts.size(); ++i) {
        job::Complaints own;
        for (const reading::FileComplaint& each : faults)
            if (each.file == i) own.push_back(each.complaint);
        if (!own.empty()) tell_complaints(own, files.texts[i].name, files.texts[i].text);
    }
    return kWrong;
}

// Faults of the engine, which every candidate has.
std::vector<reading::FileComplaint> faults_of_engine(const match::MatchAnswer& answer) {
    const auto of_engine = [](const match::Candidate& each) {
        return std::any_of(each.complaints.begin(), each.complaints.end(),
                           [](const reading::FileComplaint& what) { return what.file == 0; });
    };
    const bool all = !answer.candidates.empty() &&
                     std::all_of(answer.candidates.begin(), answer.candidates.end(), of_engine);
    return all ? answer.candidates.front().complaints : std::vector<reading::FileComplaint>();
}

match::MatchAnswer answer_of(const reading::Joiner& joiner, const Files& files) {
    const auto combinations = match::combinations(files.groups);
    Counting counting(combinations.size());
    match_interrupted = false;
    const auto before = std::signal(SIGINT, stop_matching);
    match::MatchAnswer answer = match::match(
        joiner, combinations,
        {.stop = &match_interrupted, .progress = [&](std::size_t done) { counting(done); }});
    std::signal(SIGINT, before);
    counting.wipe();
    return answer;
}

// The sections of the first candidates, as they come.
std::vector<std::optional<draw::Section>> sections(const reading::Joiner& joiner,
                                                   const match::MatchAnswer& answer) {
    constexpr std::size_t kMostCards = 30;
    std::vector<std::optional<draw::Section>> out;
    for (std::size_t i = 0; i < std::min(kMostCards, answer.candidates.size()); ++i)
        out.push_back(match::section_of(joiner, answer.candidates[i]));
    return out;
}

Target target_of(const MatchGiven& given, const std::string& name) {
    return {.name = name, .overwrite = given.force, .job = given.engine};
}

int write_picked(const MatchGiven& given, const reading::Joiner& joiner, const Files& files,
                 const match::MatchAnswer& answer) {
    const auto which = picked(given, answer.candidates.size());
    if (!which) return kWrong;
    const match::Written written = match::written(joiner, answer.candidates[*which]);
    if (!written.text) return tell_faults(written.complaints, files);
    const int code = write_whole(target_of(given, given.write), *written.text);
    if (code == kHolds)
        tell(fmt::format("Wrote {}; `trialfit check {}` tells the rest.\n",
                         paper::shell_word(given.write), paper::shell_word(given.write)));
    return code;
}

int may_write_all(const MatchGiven& given) {
    std::vector<std::string> read{given.engine};
    read.insert(read.end(), given.kits.begin(), given.kits.end());
    for (const auto& group : given.groups)
        read.insert(read.end(), group.begin(), group.end());
    for (const std::string& name : {given.write, given.html})
        for (const std::string& each : read)
            if (!name.empty())
                if (const int code =
                        may_write({.name = name, .overwrite = given.force, .job = each});
                    code != kHolds)
                    return code;
    return kHolds;
}

int run(const MatchGiven& given) {
    if (const int code = refuse_given(given); code != kHolds) return code;
    const auto paper = paper_named(given.paper);
    if (!paper) return kWrong;
    if (const int code = may_write_all(given); code != kHolds) return code;
    const auto files = read_files(given);
    if (!files) return kWrong;
    std::size_t count = 1;
    for (const auto& group : files->groups)
        count = std::min(count * group.size(), match::kMostCandidates + 1);
    if (count > match::kMostCandidates)
        return refuse_line(
            fmt::format("these are more than {} combinations", match::kMostCandidates),
            "name fewer of each group");
    const reading::Joiner joiner(files->texts);
    if (!joiner.unreadable(0).empty()) {
        tell_complaints(joiner.unreadable(0), given.engine, files->texts.front().text);
        return kWrong;
    }
    const match::MatchAnswer answer = answer_of(joiner, *files);
    if (const auto faults = faults_of_engine(answer); !faults.empty())
        return tell_faults(faults, *files);
    if (!given.write.empty())
        if (const int code = write_picked(given, joiner, *files, answer); code != kHolds)
            return code;
    if (!given.html.empty())
        if (const int code =
                write_whole(target_of(given, given.html),
                            paper::match_html(answer, sections(joiner, answer), paper->name));
            code != kHolds)
            return code;
    paper::Style style = output_style(given.brief);
    style.all_rows = given.all;
    const bool fits = !answer.candidates.empty() && !answer.stopped &&
                      answer.candidates.front().standing <= match::Standing::after_plan;
    return deliver(given.json ? paper::match_json(answer) : paper::match_text(answer, style),
                   fits ? kHolds : kFails);
}

}  // namespace

Command add_match(CLI::App& program) {
    auto given = std::make_shared<MatchGiven>();
    CLI::App* line = program.add_subcommand("match", "Which kit fits this engine, best first");
    line->add_option("ENGINE", given->engine, "The engine's job file, with '- kit: here'")
        ->required();
    line->add_option("KIT", given->kits, "Job files of the parts on offer, a kit each");
    line->add_option("--of", given->groups, "A group: one file of each group makes a kit")
        ->type_name("FILE ...");
    line->add_option("--write", given->write, "Write the best, joined, as a job of its own")
        ->type_name("FILE");
    add_number(*line, "--pick", given->pick, 1, match::kMostCandidates,
               "Write the one in this place instead", kWhatToPick)
        ->type_name("N");
    line->add_option("--html", given->html, "Write a page with a card for each kit")
        ->type_name("FILE");
    line->add_option("--paper", given->paper, "A4, A3 or Letter, for --html")->type_name("NAME");
    line->add_flag("--force", given->force, "Overwrite files that are there already");
    line->add_flag("--all", given->all, "List all of them, not only the best twenty");
    add_form_options(*line, given->json, given->brief);
    line->group("Commands");
    set_help(*line, "ENGINE KIT... [options]",
             "Examples:\n"
             "  trialfit match engine.yaml plate-a.yaml plate-b.yaml\n"
             "  trialfit match engine.yaml --of plate-*.yaml --of rotor-*.yaml\n"
             "  trialfit match engine.yaml plate-*.yaml --write fitted.yaml --html kits.html\n\n"
             "Each file keeps its own unit, gauges and general tolerance. Ends with 0 where a\n"
             "kit fits as it comes or after a plan, 1 where none does.");
    return {.line = line, .run = [given] { return run(*given); }};
}

}  // namespace trialfit::cli
