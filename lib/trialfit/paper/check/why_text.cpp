// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using stack::Verdict;
using stack::WhyAnswer;

constexpr std::size_t kMostSizes = 60;
constexpr std::size_t kMostGains = 3;

std::string limits(const WhyAnswer& answer, int decimals) {
    if (answer.at_least && answer.at_most)
        return range({*answer.at_least, *answer.at_most}, decimals) + " is allowed";
    if (answer.at_most) return fixed(*answer.at_most, decimals) + " is the most allowed";
    if (answer.at_least)
        return (answer.more_than ? "more than " : "at least ") + fixed(*answer.at_least, decimals) +
               " is needed";
    return {};
}

std::string headline(const WhyAnswer& answer, int decimals) {
    std::string out = fmt::format("{}: {} {}{}", listed(name_of(answer), 200),
                                  fixed(answer.value.nominal, decimals), spoken(answer.units),
                                  " nominal" + in_its_state(answer.state));
    const std::string needed = limits(answer, decimals);
    if (needed.empty()) return out + "; nothing is asked of it.";
    out += fmt::format("; {}: ", needed);
    switch (answer.verdict) {
        case Verdict::fails:
            return out + "it FAILS.";
        case Verdict::not_judged:
            return out + "NOT JUDGED.";
        case Verdict::doubtful:
            return out + fmt::format("doubtful, since {} it is {}.", phrase(answer.judge),
                                     range(shown_range(answer.value, answer.judge), decimals));
        case Verdict::holds:
            break;
    }
    return out +
           fmt::format("it holds {} ({}).",
                       answer.judge == stack::Judge::worst ? "even in the worst case" : "by RSS",
                       range(shown_range(answer.value, answer.judge), decimals));
}

std::string what_it_is(const WhyAnswer& answer) {
    std::string_view of = "The gap from {} to {}";
    if (answer.kind == stack::CheckKind::engagement) of = "The engagement of {} on {}";
    if (answer.kind == stack::CheckKind::overlap) of = "The overlap of {} by {}";
    if (answer.kind == stack::CheckKind::air_gap) of = "The least radial gap between {} and {}";
    std::string out = fmt::format(fmt::runtime(of), listed(answer.first), listed(answer.second));
    out += fmt::format(" in {}, lengths in {}.", listed(answer.file), plural(answer.units));
    if (!answer.state.empty())
        out += fmt::format(" Of the job's states, '{}' decides.", listed(answer.state));
    if (!answer.deciding.empty() && answer.kind != stack::CheckKind::air_gap)
        out += fmt::format(" It is the least of four distances; here {} decides.",
                           listed(answer.deciding, 200));
    return out;
}

std::string values(const WhyAnswer& answer, int decimals) {
    std::string out;
    const auto line = [&out](std::string_view label, const std::string& value) {
        out += "  " + left(label, 12) + value + "\n";
    };
    const stack::Bounds& value = answer.value;
    line("nominal", fixed(value.nominal, decimals));
    if (fixed(value.middle, decimals) != fixed(value.nominal, decimals))
        line("middle", fixed(value.middle, decimals));
    line("worst case", range(value.worst, decimals));
    std::string rss = range(value.rss, decimals);
    if (answer.inflate != 1.0)
        rss += fmt::format("  (half-widths times {})", brief(answer.inflate));
    line("RSS", rss);
    if (answer.sd > 0.0)
        line("spread", fmt::format("{} (one standard deviation)", fixed(answer.sd, decimals + 1)));
    if (answer.odds && answer.fails)
        line("odds", "it " + chance_in_words(*answer.odds, *answer.fails));
    return out;
}

std::string where(const stack::Contribution& c) {
    const std::string line = c.at.line > 0 ? fmt::format(", line {}", c.at.line) : "";
    return listed(c.written) + line;
}

std::string chain(const WhyAnswer& answer, int decimals, const Style& style) {
    Table out;
    out.columns = {{.heading = "adds"},
                   {.heading = "of worst", .below = "case"},
                   {.heading = "of the", .below = "spread"},
                   {.heading = "effect"},
                   {.heading = "value"},
                   {.heading = "size", .set = Column::Set::names}};
    const std::size_t shown = std::min(answer.chain.size(), kMostSizes);
    for (std::size_t i = 0; i < shown; ++i) {
        const stack::Contribution& c = answer.chain[i];
        const std::string times = (c.sensitivity > 0.0 ? "+" : "") + brief(c.sensitivity);
        out.rows.push_back({.cells = {{.text = "±" + fixed(c.half_width, decimals + 1)},
                                      {.text = percent(c.worst_share)},
                                      {.text = percent(c.variance_share)},
                                      {.text = times},
                                      {.text = fixed(c.value.nominal, decimals)},
                                      {.text = listed(c.size, 200) + ": " + where(c)}}});
    }
    if (out.rows.empty()) return "\nNo size comes into it: it is fixed.\n";
    std::string text =
        "\n" + painted(style, Ink::strong, "Where it comes from, biggest first") + "\n";
    text += table(out, style);
    text +=
        paragraph("Effect: by how much the figure moves when the size grows by 1.", style.width);
    if (shown < answer.chain.size())
        text += fmt::format("... and {} smaller ones; --json has them all.\n",
                            answer.chain.size() - shown);
    if (answer.constant != 0.0)
        text += paragraph(fmt::format("Exact lengths: {}.", fixed(answer.constant, decimals)),
                          style.width);
    return text;
}

// What is gained if the biggest sizes, one at a time, are known twice as well.
std::string gains(const WhyAnswer& answer, int decimals, const Style& style) {
    const Finding about = finding(answer);
    const bool missing = !within(about, shown_range(answer.value, answer.judge));
    std::string out;
    std::size_t number = 0;
    bool mended = false;
    for (const stack::Contribution& c : answer.chain) {
        if (number == kMostGains || !(c.half_width > 0.0)) break;
        if (c.moves) continue;  // a movement is not known better by measuring
        ++number;
        const stack::Range better = shown_range(c.if_halved, answer.judge);
        const bool holds = missing && answer.verdict == Verdict::doubtful && within(about, better);
        mended = mended || holds;
        std::string line = listed(c.size) + ": " + range(better, decimals);
        if (holds) line += ", and it holds";
        if (c.fails_if_halved && missing)
            line +=
                "; by the odds it " + chance_in_words(1.0 - *c.fails_if_halved, *c.fails_if_halved);
        out += paragraph(line, style.width, "  - ");
    }
    if (out.empty()) return {};
    std::string text = "\n";
    text += painted(style, Ink::strong,
                    fmt::format("If you measured one size twice as exactly, {} it would be",
                                phrase(answer.judge)));
    text += "\n" + out;
    if (answer.verdict == Verdict::fails)
        text += paragraph(
            "It fails at nominal: to measure better narrows the range, but only other sizes mend "
            "it, unless one of these is wrong.",
            style.width);
    if (answer.verdict == Verdict::doubtful && !mended)
        text += paragraph(
            "None of these alone settles it: measure several better, or give it more room.",
            style.width);
    return text;
}

}  // namespace

std::string why_text(const WhyAnswer& answer, const Style& style) {
    const int decimals = decimals_for(answer.units, {finding(answer)});
    std::string out;
    for (const std::string& line :
         wrapped(warned(words(answer.warnings), headline(answer, decimals)), style.width))
        out += painted(style, limits(answer, decimals).empty() ? Ink::strong : ink(answer.verdict),
                       line) +
               "\n";
    if (style.brief) return out + chain(answer, decimals, style);
    out += "\n" + paragraph(what_it_is(answer), style.width);
    out += values(answer, decimals);
    out += chain(answer, decimals, style);
    out += gains(answer, decimals, style);
    if (!answer.notes.empty()) {
        out += "\n" + painted(style, Ink::strong, "Notes") + "\n";
        for (const std::string& note : words(answer.notes))
            out += paragraph(harmless(note), style.width, "  - ");
    }
    return out;
}

}  // namespace trialfit::paper
