// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/advice.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

std::string judged_by(const stack::CheckAnswer& answer) {
    if (answer.odds_level) return fmt::format("by odds of at least {}", brief(*answer.odds_level));
    return answer.judge == stack::Judge::rss ? "by RSS" : "by the worst case";
}

using stack::CheckAnswer;

// A check's name is a sentence of its own length; beyond this it stops being a name.
constexpr std::size_t kLongestName = 120;

std::string next_steps(const Style& style, const std::vector<Step>& steps) {
    std::string out = heading(style, "What to do next");
    for (std::size_t i = 0; i < steps.size(); ++i) {
        out += paragraph(steps[i].text, style.width, fmt::format("  {}. ", i + 1));
        // Never wrapped: a command is copied.
        if (!steps[i].command.empty()) out += "       " + steps[i].command + "\n";
    }
    return out;
}

std::string first_line(const CheckAnswer& answer, const Style& style) {
    // Painted line by line, after wrapping, so that the escapes are not counted as letters.
    std::string out;
    for (const std::string& line : wrapped(headline(answer), style.width))
        out += painted(style, ink(answer.verdict), line) + "\n";
    return out;
}

// A draw-up is of the order of the last digits that sizes have: three figures of it.
std::string home(const stack::Range& by) {
    return fmt::format("{:.3g} to {:.3g}", by.lo, by.hi);
}

std::string states(const std::vector<stack::StateTold>& all, quantity::Unit units) {
    std::string out;
    for (const stack::StateTold& state : all) {
        out += out.empty() ? "" : ", ";
        out += listed(state.name);
        if (!state.drawn_home) out += fmt::format(" {} C", brief(state.all_c));
        if (state.drawn_home)
            out += fmt::format(" (the nut draws the hub home by {} {})",
                               home(state.drawn_home->worst), quantity::name(units));
        std::string but;
        for (const auto& [part, temperature] : state.parts)
            but +=
                fmt::format("{}{} {} C", but.empty() ? "" : ", ", listed(part), brief(temperature));
        if (!but.empty()) out += " (" + but + ")";
    }
    return fmt::format("Judged in each of these states: {}.", out);
}

// "decided in run; in fit 0.42 to 0.60"
std::string in_states(const Finding& f, int decimals) {
    if (f.in_states.size() < 2) return {};
    std::string others;
    const auto same = [&](const stack::InState& each) {
        return range(each.value.worst, decimals) == range(f.value.worst, decimals) &&
               each.verdict == f.verdict;
    };
    if (std::all_of(f.in_states.begin(), f.in_states.end(), same)) return {};
    for (const stack::InState& each : f.in_states) {
        if (each.state == f.state) continue;
        others += fmt::format("{}{} {}", others.empty() ? "" : ", ", listed(each.state),
                              range(each.value.worst, decimals));
    }
    return fmt::format("decided in state {}; {}", listed(f.state), others);
}

std::string about(const CheckAnswer& answer, const Style& style) {
    std::string text = answer.title.empty()
                           ? listed(answer.file)
                           : fmt::format("{} ({})", listed(answer.title, 200), listed(answer.file));
    text += fmt::format(". Lengths in {}, judged {}.", plural(answer.units), judged_by(answer));
    if (answer.inflate != 1.0)
        text += fmt::format(" RSS half-widths times {}.", brief(answer.inflate));
    if (!answer.states.empty()) text += " " + states(answer.states, answer.units);
    return "\n" + paragraph(text, style.width);
}

std::string needed(const Finding& f, int decimals) {
    if (f.at_least && f.at_most) return range({*f.at_least, *f.at_most}, decimals);
    if (f.at_most) return "≤" + fixed(*f.at_most, decimals);
    if (f.at_least) return (f.more_than ? ">" : "≥") + fixed(*f.at_least, decimals);
    return "-";
}

bool differs(const Finding& f, int decimals) {
    return fixed(f.value.middle, decimals) != fixed(f.value.nominal, decimals);
}

// RSS is weaker than it looks: the odds stand beside it.
bool odds_beside(const CheckAnswer& answer) {
    return answer.judge == stack::Judge::rss && !answer.odds_level;
}

Row row_of(const Finding& f, int decimals, bool with_odds) {
    const std::string middle = differs(f, decimals) ? fixed(f.value.middle, decimals) : "";
    std::string remark = in_states(f, decimals);
    if (with_odds && f.odds)
        remark += (remark.empty() ? "" : "; ") + std::string("by the odds it ") +
                  chance_in_words(*f.odds, f.fails.value_or(1.0 - *f.odds));
    return {.cells = {{.text = listed(titled(f), kLongestName)},
                      {.text = needed(f, decimals)},
                      {.text = fixed(f.value.nominal, decimals),
                       .below = middle.empty() ? "" : "(" + middle + ")"},
                      {.text = range(f.value.worst, decimals)},
                      {.text = range(f.value.rss, decimals)},
                      {.text = std::string(loud_word(f.verdict)), .ink = ink(f.verdict)}},
            .remark = std::move(remark)};
}

Table empty_table(std::string_view names, bool with_middle) {
    Table out;
    out.columns = {{.heading = std::string(names), .set = Column::Set::names},
                   {.heading = "needed"},
                   {.heading = "nominal", .below = with_middle ? "(middle)" : ""},
                   {.heading = "worst case"},
                   {.heading = "RSS"},
                   {.heading = "", .set = Column::Set::left}};
    return out;
}

// What a check is about, and its limits and value in the words in which they were asked.
std::string remark(const stack::CheckResult& check) {
    std::string out;
    switch (check.kind) {
        case stack::CheckKind::gap:
            out = fmt::format("gap, {} to {}", listed(check.first), listed(check.second));
            break;
        case stack::CheckKind::engagement:
            out = fmt::format("engagement, {} on {}", listed(check.first), listed(check.second));
            break;
        case stack::CheckKind::clamp:
            out = fmt::format("automatic: thread left free on {} once {} is home",
                              listed(check.second), listed(check.first));
            break;
        case stack::CheckKind::air_gap:
            out = fmt::format("air gap all round, {} and {}", listed(check.first),
                              listed(check.second));
            break;
        case stack::CheckKind::overlap:
            out = fmt::format("overlap, {} by {}", listed(check.first), listed(check.second));
            break;
    }
    if (check.share) out += fmt::format(": {} of the length", percent(*check.share));
    // A bare length says no more than the column does.
    const auto worded = [](const std::string& written) {
        return written.find_first_not_of("0123456789.+-eE ") != std::string::npos;
    };
    if (worded(check.at_least_written))
        out += fmt::format(", {} needed", listed(check.at_least_written));
    if (worded(check.at_most_written))
        out += fmt::format(", at most {}", listed(check.at_most_written));
    return out;
}

// The rows come with the worst first; a list longer than this hides what matters.
constexpr std::ptrdiff_t kMostPairs = 40;

// "The 40 tightest pairs; 4910 more, of which 12 do not hold: --all lists them."
std::string left_over(std::vector<Finding>::const_iterator from,
                      std::vector<Finding>::const_iterator to) {
    const auto bad = std::count_if(
        from, to, [](const Finding& f) { return f.verdict != stack::Verdict::holds; });
    return fmt::format("The {} tightest pairs; {} more, {}: --all lists them.", kMostPairs,
                       to - from,
                       bad == 0 ? "which hold" : fmt::format("of which {} do not hold", bad));
}

std::string clearances(const CheckAnswer& answer, const std::vector<Finding>& all, int decimals,
                       const Style& style) {
    const auto end = all.begin() + static_cast<std::ptrdiff_t>(answer.clearances.size());
    const bool with_middle = std::any_of(
        all.begin(), end, [decimals](const Finding& f) { return differs(f, decimals); });
    Table out = empty_table("Clearances", with_middle);
    const auto shown = style.all_rows ? end : std::min(end, all.begin() + kMostPairs);
    for (auto f = all.begin(); f != shown; ++f)
        out.rows.push_back(row_of(*f, decimals, odds_beside(answer)));
    if (out.rows.empty()) return {};
    std::string text = "\n" + table(out, style);
    if (shown != end) return text + paragraph(left_over(shown, end), style.width);
    const bool only_tightest = std::all_of(answer.clearances.begin(), answer.clearances.end(),
                                           [](const stack::Clearance& c) { return c.tightest; });
    if (only_tightest && !style.brief)
        text +=
            paragraph("The tightest pair of each two parts; --all lists the rest.", style.width);
    return text;
}

std::string checks(const CheckAnswer& answer, const std::vector<Finding>& all, int decimals,
                   const Style& style) {
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(answer.clearances.size());
    const bool with_middle = std::any_of(
        begin, all.end(), [decimals](const Finding& f) { return differs(f, decimals); });
    Table out = empty_table("Checks", with_middle);
    for (const stack::CheckResult& check : answer.checks) {
        const std::vector<Finding> both = sides(check, answer.judge);
        for (const Finding& side : both) {
            out.rows.push_back(row_of(side, decimals, odds_beside(answer)));
            // Two limits on two figures: what it is about stands under the second.
            if (&side != &both.back()) continue;
            std::string said = remark(check);
            std::string& below = out.rows.back().remark;
            if (!below.empty()) said.append("; ").append(below);
            below = std::move(said);
        }
    }
    return out.rows.empty() ? std::string() : "\n" + table(out, style);
}

std::string radial(const CheckAnswer& answer, const std::vector<Finding>& all, int decimals,
                   const Style& style) {
    const auto begin = all.end() - static_cast<std::ptrdiff_t>(answer.radial.size());
    const bool with_middle = std::any_of(
        begin, all.end(), [decimals](const Finding& f) { return differs(f, decimals); });
    Table out = empty_table("Radial gaps", with_middle);
    for (auto f = begin; f != all.end(); ++f)
        out.rows.push_back(row_of(*f, decimals, odds_beside(answer)));
    return out.rows.empty() ? std::string() : "\n" + table(out, style);
}

std::string first_contact(const CheckAnswer& answer, int decimals, const Style& style) {
    const std::string told = first_contact_told(answer, decimals);
    return told.empty() ? told : "\n" + paragraph("First contact: " + told, style.width);
}

}  // namespace

std::string check_text(const CheckAnswer& answer, const Style& style) {
    const std::vector<Finding> all = findings(answer);
    const int decimals = decimals_for(answer.units, all);
    std::string out = first_line(answer, style);
    if (!style.brief) out += about(answer, style) + first_contact(answer, decimals, style);
    out += clearances(answer, all, decimals, style);
    out += checks(answer, all, decimals, style);
    out += radial(answer, all, decimals, style);
    if (style.brief) return out;
    out += bullets(style, "Doubtful, and why", doubts(answer));
    out += next_steps(style, advice(answer));
    out += bullets(style, "Notes", words(answer.notes));
    out += bullets(style, "Not assessed", words(answer.not_assessed));
    if (!answer.cautions.empty())
        out += "\n" + paragraph(cautions_line(answer.cautions), style.width);
    return out;
}

}  // namespace trialfit::paper
