// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/start/answer.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using reading::trimmed;

struct Refused {
    std::string fault;
    std::string mend;
};

// "12.48", "-0.5"
bool is_figure(std::string_view word) {
    if (word.substr(0, 1) == "-") word.remove_prefix(1);
    return word.find_first_of("0123456789") != std::string_view::npos &&
           word.find_first_not_of("0123456789.") == std::string_view::npos &&
           std::ranges::count(word, '.') <= 1;
}

std::vector<std::string> blank_parted(std::string_view text) {
    std::vector<std::string> out;
    for (text = trimmed(text); !text.empty(); text = trimmed(text)) {
        const std::size_t end = text.find(' ');
        out.emplace_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end);
    }
    return out;
}

bool stands_inboard(const StartKind& kind, const StartLetter& letter) {
    return kind.text.find("{{-" + std::string(letter.letter) + " ") != std::string_view::npos;
}

// Reads one answer; throws what is wrong with it.
class Answering {
public:
    Answering(const StartKind& kind, const StartLetter& letter, const job::Job& in_template,
              const StartAnswers& so_far)
        : kind_(kind), letter_(letter), job_(in_template), so_far_(so_far) {}

    [[nodiscard]] std::string words(std::string_view typed) const {
        if (typed.empty() || typed == "unmeasured") return left_open();
        harmless_for_yaml(typed);
        switch (letter_.asked) {
            case LetterAsks::shims:
                return pile(typed);
            case LetterAsks::play:
            case LetterAsks::taper:
            case LetterAsks::thread:
            case LetterAsks::height:
                return by_trial(std::string(typed));
            case LetterAsks::keep:
                return plain(typed);
            default:
                return length(std::string(typed));
        }
    }

private:
    [[nodiscard]] std::string left_open() const {
        if (may_stay_open(letter_.asked)) return "unmeasured";
        if (!letter_.section.empty()) return "";
        constexpr const char* kNeeded = "this one cannot be left open";
        switch (letter_.asked) {
            case LetterAsks::shims:
                throw Refused{kNeeded, "write none if there is none"};
            default:
                throw Refused{kNeeded,
                              "write what you know, like " + invented(letter_, job_.units)};
        }
    }

    // What would be more than a size where it comes to stand.
    static void harmless_for_yaml(std::string_view typed) {
        constexpr std::size_t kLongest = 120;
        const bool odd = std::ranges::any_of(
            typed, [](char c) { return static_cast<unsigned char>(c) < ' ' || c == 0x7F; });
        if (odd || typed.size() > kLongest ||
            typed.find_first_of("\"'#{}&*!|>%@`\\") != std::string_view::npos)
            throw Refused{"that is no size", "write it like 12.48, 12.5 ±0.05 or 12.45..12.55"};
    }

    // A figure alone, or several, with the gauge that read them.
    [[nodiscard]] std::string with_gauge(const std::string& typed) const {
        const std::vector<std::string> all = blank_parted(typed);
        const bool figures = std::ranges::all_of(all, is_figure);
        const bool one =
            all.size() == 1 || (all.size() == 2 && is_figure(all[0]) && is_unit(all[1]));
        if (figures && all.size() > 1) {
            if (letter_.gauge.empty())
                throw Refused{"one figure is enough here", "write the greatest of them"};
            return fmt::format("[{}] by {}", fmt::join(all, ", "), letter_.gauge);
        }
        if (one && !letter_.gauge.empty() && is_bare(typed))
            return fmt::format("{} by {}", typed, letter_.gauge);
        if (typed.front() == '[' && typed.back() == ']' && !letter_.gauge.empty())
            return fmt::format("{} by {}", typed, letter_.gauge);
        return typed;
    }

    [[nodiscard]] static bool is_unit(std::string_view word) {
        return word == "mm" || word == "in" || word == "um" || word == "thou" || word == "µm";
    }

    // "12.48", "12.48 mm", "0.5in".
    [[nodiscard]] static bool is_bare(std::string_view typed) {
        const std::size_t end = typed.find_first_not_of("-0123456789.");
        if (!is_figure(typed.substr(0, end))) return false;
        return end == std::string_view::npos || is_unit(trimmed(typed.substr(end)));
    }

    // A gauge that the file does not have: it cannot be added from here.
    void by_a_gauge_here(std::string_view words) const {
        const std::size_t by = words.rfind(" by ");
        if (by == std::string_view::npos) return;
        const std::string_view named = trimmed(words.substr(by + 4));
        std::string all;
        for (const job::Gauge& gauge : job_.gauges) {
            if (gauge.name == named) return;
            all += (all.empty() ? "" : ", ") + gauge.name;
        }
        throw Refused{fmt::format("'{}' is none of the gauges here", named),
                      fmt::format("they are: {}; or give limits, like {}", all,
                                  in_units("12.5 ±0.05", job_.units))};
    }

    [[nodiscard]] quantity::Size read(const std::string& words, std::string_view typed,
                                      reading::Bare bare) const {
        by_a_gauge_here(words);
        const auto outcome = reading::read_given(words, job_, bare);
        if (!outcome.given) throw Refused{outcome.fault, outcome.mend};
        const quantity::Size& size = outcome.given->size;
        if (!either_side() && size.nominal < 0.0)
            throw Refused{"less than nothing is no " + std::string(letter_.what),
                          "it is written without a sign"};
        if (letter_.asked == LetterAsks::diameter && !(size.nominal > 0.0))
            throw Refused{"a diameter of nothing is none", "write it like 12.5"};
        plausible(size.nominal, typed);
        above(size.nominal);
        return size;
    }

    // Whether it may be nothing, or less.
    [[nodiscard]] bool either_side() const {
        return letter_.asked == LetterAsks::signed_face ||
               letter_.asked == LetterAsks::signed_offset || letter_.asked == LetterAsks::reading;
    }

    // Far from what such a part has, without its unit.
    void plausible(double nominal, std::string_view typed) const {
        const auto usual = reading::read_given(plain_invented(), job_, reading::Bare::exact);
        if (!usual.given) return;
        constexpr double kFar = 12.0;
        constexpr double kSmall = 1.0;  // mm; below it anything may be
        const double is = std::abs(nominal);
        const double as_a_rule = std::abs(usual.given->size.nominal);
        const double small = quantity::convert(kSmall, quantity::Unit::mm, job_.units);
        const bool far =
            is > kFar * std::max(as_a_rule, small) ||
            (!either_side() && is > 0.0 && as_a_rule > kFar * small && is * kFar < as_a_rule);
        if (!far || names_unit(typed)) return;
        throw Refused{fmt::format("{} {} is far from what such a part has",
                                  quantity::six_digits(is), quantity::name(job_.units)),
                      fmt::format("is it in another unit? If it is right, write it with its unit: "
                                  "{} {}",
                                  quantity::six_digits(nominal), quantity::name(job_.units))};
    }

    [[nodiscard]] static bool names_unit(std::string_view typed) {
        const std::vector<std::string> all = blank_parted(typed);
        return std::ranges::any_of(all, is_unit) ||
               (typed.size() > 2 && (is_unit(typed.substr(typed.size() - 2))));
    }

    [[nodiscard]] std::string plain_invented() const {
        std::string out = invented(letter_, job_.units);
        // Of several readings or shims one will do.
        if (out.front() == '[') out.erase(0, 1);
        out.resize(std::min(out.find(','), out.size()));
        return out;
    }

    void above(double nominal) const {
        const auto below = so_far_.find(letter_.above);
        if (letter_.above.empty() || below == so_far_.end()) return;
        const auto outcome = reading::read_given(below->second, job_, reading::Bare::exact);
        if (!outcome.given || outcome.given->size.is_unmeasured()) return;
        const double least = outcome.given->size.nominal;
        if (nominal > least) return;
        throw Refused{fmt::format("{} is not more than {}, which was {}", letter_.letter,
                                  letter_.above, below->second),
                      "b goes back, if that one is wrong"};
    }

    [[nodiscard]] std::string length(const std::string& typed) const {
        std::string words = with_gauge(typed);
        const auto bare =
            letter_.gauge.empty() ? reading::Bare::exact : reading::Bare::general_tolerance;
        const quantity::Size size = read(words, typed, bare);
        if (size.is_unmeasured()) return left_open();
        if (stands_inboard(kind_, letter_) && !turns_by_sign(words))
            return quantity::six_digits(size.lower) + ".." + quantity::six_digits(size.upper);
        return words;
    }

    // Whether turning the figures' signs turns the whole size.
    [[nodiscard]] static bool turns_by_sign(const std::string& words) {
        if (words.find(" by ") != std::string::npos || words.find("..") != std::string::npos)
            return true;
        return words.find("±") != std::string::npos || words.find("+/-") != std::string::npos ||
               words.find("+-") != std::string::npos || words.find("exact") != std::string::npos;
    }

    [[nodiscard]] std::string plain(std::string_view typed) const {
        std::string words(typed);
        if (!is_bare(words))
            throw Refused{"one plain length is asked for",
                          "write it like " + in_units("5.5", job_.units)};
        static_cast<void>(read(words, words, reading::Bare::exact));
        return words;
    }

    [[nodiscard]] std::string pile(std::string_view typed) const {
        if (typed == "none" || typed == "0") return "none";
        std::string out;
        for (const std::string& piece : reading::pieces_of(typed)) {
            const quantity::Size size = read(piece, piece, reading::Bare::exact);
            if (size.is_unmeasured() || !(size.nominal > 0.0))
                throw Refused{"'" + piece + "' is no thickness of a shim",
                              "write a sum: 0.5+0.2, or none"};
            out += (out.empty() ? "" : ", ") + piece;
        }
        if (out.empty()) return left_open();
        return out;
    }

    // What the format says of it, among what was answered before and the template's sizes.
    [[nodiscard]] std::string by_trial(const std::string& typed) const {
        if (typed.find_first_of(",:[]") != std::string::npos && letter_.asked != LetterAsks::taper)
            throw Refused{"that cannot be read", "write it like " + invented(letter_, job_.units)};
        StartAnswers answers = so_far_;
        const job::Complaints before = complaints(answers);
        answers[std::string(letter_.letter)] = typed;
        // A thread that is not answered yet is taken to fit this one.
        if (letter_.asked == LetterAsks::thread)
            for (const StartLetter& each : kind_.letters)
                if (each.asked == LetterAsks::thread)
                    answers.try_emplace(std::string(each.letter), form(typed));
        for (const job::Complaint& each : complaints(answers)) {
            const bool new_one = std::ranges::none_of(
                before, [&each](const job::Complaint& other) { return other.fault == each.fault; });
            if (new_one && each.severity == job::Severity::error)
                throw Refused{each.fault, each.mend};
        }
        return typed;
    }

    [[nodiscard]] job::Complaints complaints(const StartAnswers& answers) const {
        return reading::read_job(
                   filled(kind_, {.units = job_.units, .answers = &answers, .all_sections = true}),
                   "")
            .complaints;
    }

    // "M12x1.25-6g" -> "M12x1.25": without its class.
    [[nodiscard]] static std::string form(const std::string& thread) {
        constexpr std::size_t kClass = 3;  // "-6g", and no longer
        const std::size_t dash = thread.rfind('-');
        return dash != std::string::npos && thread.size() - dash <= kClass ? thread.substr(0, dash)
                                                                           : thread;
    }

    const StartKind& kind_;
    const StartLetter& letter_;
    const job::Job& job_;
    const StartAnswers& so_far_;
};

}  // namespace

StartAnswer answer_of(const StartKind& kind, const StartLetter& letter, std::string_view typed,
                      const job::Job& in_template, const StartAnswers& so_far) {
    try {
        return {.words = Answering(kind, letter, in_template, so_far).words(trimmed(typed)),
                .fault = {},
                .mend = {}};
    } catch (const Refused& refused) {
        return {.words = {}, .fault = refused.fault, .mend = refused.mend};
    }
}

}  // namespace trialfit::paper
