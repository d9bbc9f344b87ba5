// SPDX-License-Identifier: MIT
#include "ask.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <trialfit/paper/start/answer.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/yaml/tokens.hpp>

#include "command.hpp"
#include "exit_codes.hpp"
#include "files/installed.hpp"
#include "files/output_file.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

using paper::StartAnswers;
using paper::StartKind;
using paper::StartLetter;

// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables): all that a signal reaches
volatile std::sig_atomic_t ctrl_c_pressed = 0;

// While it lives, Ctrl-C ends the wait for a line and not the program.
class HeedsCtrlC {
public:
    HeedsCtrlC() {
        struct sigaction ours {};
        ours.sa_handler = [](int /*signal*/) { ctrl_c_pressed = 1; };
        sigaction(SIGINT, &ours, &before_);
    }
    HeedsCtrlC(const HeedsCtrlC&) = delete;
    HeedsCtrlC(HeedsCtrlC&&) = delete;
    HeedsCtrlC& operator=(const HeedsCtrlC&) = delete;
    HeedsCtrlC& operator=(HeedsCtrlC&&) = delete;
    ~HeedsCtrlC() { sigaction(SIGINT, &before_, nullptr); }

private:
    struct sigaction before_ {};
};

// Lines of standard input, as they are typed.
class TypedLines {
public:
    std::optional<std::string> next() {
        while (true) {
            const std::size_t end = held_.find('\n');
            if (end != std::string::npos) {
                std::string line = held_.substr(0, end);
                held_.erase(0, end + 1);
                return line;
            }
            std::array<char, 1024> block{};
            if (ctrl_c_pressed != 0) return std::nullopt;
            const ssize_t count = read(STDIN_FILENO, block.data(), block.size());
            if (count < 0 && errno == EINTR) continue;
            if (count <= 0) return std::nullopt;
            held_.append(block.data(), static_cast<std::size_t>(count));
        }
    }

private:
    std::string held_;
};

// Goes through the letters.
class Questions {
public:
    Questions(const StartKind& kind, const job::Job& in_template, const Talk& talk)
        : kind_(kind), job_(in_template), talk_(talk) {}

    std::optional<StartAnswers> all() {
        while (at_ < kind_.letters.size()) {
            const StartLetter& letter = kind_.letters[at_];
            if (left_out(letter)) {
                ++at_;
                continue;
            }
            if (letter.part != part_) talk_.say(heading(letter.part));
            part_ = letter.part;
            talk_.say(paper::question(letter));
            const auto line = talk_.line();
            if (!line) return std::nullopt;
            answer(letter, std::string(reading::trimmed(*line)));
        }
        return answers_;
    }

private:
    static std::string heading(std::string_view part) {
        std::string name(part);
        std::replace(name.begin(), name.end(), '_', ' ');
        return fmt::format("\n-- {} --\n", name);
    }

    // Whether the letter's section was left out by a letter before it.
    [[nodiscard]] bool left_out(const StartLetter& letter) const {
        if (letter.section.empty()) return false;
        for (const StartLetter& each : kind_.letters) {
            if (&each == &letter) return false;
            if (each.section != letter.section) continue;
            const auto found = answers_.find(each.letter);
            if (found != answers_.end() && found->second.empty()) return true;
        }
        return false;
    }

    void answer(const StartLetter& letter, const std::string& word) {
        if (word == "?") return talk_.say(paper::how_to(letter, job_));
        if (word == "b" || word == "B") return back();
        const paper::StartAnswer given =
            paper::answer_of(kind_, letter, word, job_, answers_before());
        if (!given.fault.empty()) return talk_.say(paper::objection(given));
        if (given.words != word && !word.empty()) talk_.say(fmt::format("    = {}\n", given.words));
        answers_[std::string(letter.letter)] = given.words;
        ++at_;
    }

    [[nodiscard]] StartAnswers answers_before() const {
        StartAnswers out;
        for (std::size_t i = 0; i < at_; ++i) {
            const auto found = answers_.find(kind_.letters[i].letter);
            if (found != answers_.end()) out.insert(*found);
        }
        return out;
    }

    void back() {
        if (at_ == 0) return talk_.say("    this is the first one\n");
        do {
            --at_;
            answers_.erase(std::string(kind_.letters[at_].letter));
        } while (at_ > 0 && left_out(kind_.letters[at_]));
        part_ = {};
    }

    const StartKind& kind_;
    const job::Job& job_;
    const Talk& talk_;
    StartAnswers answers_;
    std::size_t at_ = 0;
    std::string_view part_;
};

int broken_off() {
    tell("\n");
    return refuse_line("the questions were broken off, and nothing was written");
}

// The answers are not lost with the file.
int write_answers(const Target& target, const std::string& text) {
    const int code = write_whole(target, text);
    if (code == kHolds) return code;
    tell("The answers, to be kept by hand:\n\n" + text);
    return code;
}

}  // namespace

std::optional<StartAnswers> asked(const StartKind& kind, const job::Job& in_template,
                                  const Talk& talk) {
    return Questions(kind, in_template, talk).all();
}

int ask(const StartKind& kind, quantity::Unit units, const std::optional<std::string>& file,
        bool force) {
    const std::string again =
        fmt::format("trialfit start {} --ask -o my-{}.yaml", kind.name, kind.name);
    if (file.value_or("-") == "-")
        return refuse_line("--ask writes a file, and none is named", again);
    if (isatty(STDIN_FILENO) == 0 || isatty(STDERR_FILENO) == 0)
        return refuse_line(
            "--ask asks at a terminal, and this is none",
            fmt::format("`trialfit start {0} -o {1}` writes a file to fill in with an editor, "
                        "--worksheet a page",
                        kind.name, paper::shell_word(*file)));
    const Target target{.name = *file, .overwrite = force, .job = {}};
    if (const int code = may_write(target); code != kHolds) return code;
    const auto in_template = reading::read_job(paper::start_template(kind, units), "");
    const HeedsCtrlC heed;
    TypedLines lines;
    const Talk talk{.line = [&lines] { return lines.next(); }, .say = tell};
    tell(paper::before_asking(kind, *in_template.job, *file));
    const auto answers = asked(kind, *in_template.job, talk);
    if (!answers) return broken_off();
    const std::string text =
        for_editors(paper::filled(kind, {.units = units, .answers = &*answers}));
    if (const int code = write_answers(target, text); code != kHolds) return code;
    tell(fmt::format("\nWrote {}.\n{}\n", paper::shell_word(*file),
                     paper::after_asking(kind, *answers)));
    return check_file(*file);
}

}  // namespace trialfit::cli
