// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/start/answer.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>

// What the terminal says around the questions.
namespace trialfit::paper {

namespace {

constexpr std::size_t kTerminal = 80;

std::string lines_of(std::string_view text, std::string_view first) {
    std::string out;
    for (const std::string& line : wrapped(text, kTerminal - first.size()))
        out += (out.empty() ? std::string(first) : std::string(first.size(), ' ')) + line + "\n";
    return out;
}

std::string what_to_type(const StartLetter& letter, quantity::Unit units) {
    switch (letter.asked) {
        case LetterAsks::shims:
            return fmt::format("Type thicknesses as a sum, {}, or none.",
                               in_units("0.5+0.2", units));
        case LetterAsks::play:
            return fmt::format("Type least and greatest: {}.", in_units("0.05..0.15", units));
        case LetterAsks::taper:
            return "Type it like 1 in 5, or 1:5.";
        case LetterAsks::thread:
            return "Type it like M12x1.25-6g; inch threads by their designation.";
        case LetterAsks::height:
            return "Type it with its unit: 2.3 mm ±0.1, or 18 deg ±1.";
        case LetterAsks::keep:
            return fmt::format("Type one figure: {}.", in_units("5.5", units));
        default:
            break;
    }
    std::string out = fmt::format("Type {}", in_units("12.48", units));
    if (!letter.gauge.empty())
        out += fmt::format(" (read by {0}), three readings as {1}", letter.gauge,
                           in_units("12.48 12.50 12.47", units));
    return out + fmt::format(", or limits: {} or {}.", in_units("12.5 ±0.05", units),
                             in_units("12.45..12.55", units));
}

std::string what_enter_does(const StartLetter& letter) {
    if (may_stay_open(letter.asked)) return " Enter leaves it unmeasured.";
    if (letter.section.empty()) return " This one is needed.";
    return letter.asked == LetterAsks::keep ? " Enter: it is not to be cut."
                                            : " Enter leaves the whole section out.";
}

}  // namespace

std::string question(const StartLetter& letter) {
    std::string beside(letter.gauge);
    if (is_needed(letter)) beside += beside.empty() ? "needed" : ", needed";
    return fmt::format("{:<4}{}{}: ", letter.letter, letter.what,
                       beside.empty() ? "" : fmt::format(" [{}]", beside));
}

std::string objection(const StartAnswer& answer) {
    return lines_of(harmless(answer.fault + "; " + answer.mend), "    ");
}

std::string how_to(const StartLetter& letter, const job::Job& in_template) {
    return lines_of(with_lengths(letter.how, in_template.units), "    ") +
           lines_of(what_to_type(letter, in_template.units) + what_enter_does(letter), "    ");
}

std::string before_asking(const StartKind& kind, const job::Job& in_template,
                          std::string_view file) {
    const quantity::Unit units = in_template.units;
    std::string out =
        lines_of(fmt::format("{} sizes, {}, for {}. Lengths in {}.", kind.letters.size(), kind.what,
                             shell_word(std::string(file)), plural(units)),
                 "");
    out += lines_of(
        fmt::format("A figure alone ({}) was read by the gauge in brackets, several ({}) are "
                    "readings of the same size by it.",
                    in_units("12.48", units), in_units("12.48 12.50 12.47", units)),
        "");
    out += lines_of(
        "Enter: unmeasured, except where it is needed. ?: how to measure it. b: back. Ctrl-D: "
        "stop, "
        "and nothing is written.",
        "");
    for (const std::string_view each : kind.before)
        out += lines_of(each, "- ");
    for (const std::string_view each : kind.care)
        out += lines_of(each, "- CARE: ");
    return out;
}

std::string after_asking(const StartKind& kind, const StartAnswers& answers) {
    std::string open;
    for (const StartLetter& each : kind.letters) {
        const auto found = answers.find(each.letter);
        if (found != answers.end() && found->second == "unmeasured")
            open += (open.empty() ? "" : ", ") + std::string(each.letter);
    }
    std::string out;
    if (!open.empty()) out += lines_of("Unmeasured: " + open + ".", "");
    return out + lines_of(fmt::format("Not asked, and the template's: {}.", kind.kept), "");
}

}  // namespace trialfit::paper
