// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <trialfit/paper/check/advice.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using stack::CheckAnswer;

// A check's name is a sentence of its own length; beyond this it stops being a name.
constexpr std::size_t kLongestName = 120;

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

std::string about(const CheckAnswer& answer) {
    return titled(answer.title, answer.file) + ". " + told_judging(answer);
}

bool differs(const CheckFinding& f, int decimals) {
    return !f.value.open() && fixed(f.value.middle, decimals) != fixed(f.value.nominal, decimals);
}

// RSS is weaker than it looks: the odds stand beside it.
bool odds_beside(const CheckAnswer& answer) {
    return answer.judge == stack::Judge::rss && !answer.odds_level;
}

Row row_of(const CheckFinding& f, int decimals, bool with_odds) {
    const std::string middle = differs(f, decimals) ? fixed(f.value.middle, decimals) : "";
    std::string remark = told_in_states(f, decimals);
    if (with_odds && f.odds)
        remark += (remark.empty() ? "" : "; ") + std::string("by the odds it ") +
                  chance_in_words(*f.odds, f.fails.value_or(1.0 - *f.odds));
    Cell nominal = told_nominal(f.value, decimals);
    if (!middle.empty()) nominal.below = "(" + middle + ")";
    return {.cells = {listed(titled(f), kLongestName),
                      needed(f, decimals),
                      std::move(nominal),
                      told_worst(f.value, decimals),
                      told_rss(f.value, decimals),
                      {loud_word(f.verdict), ink(f.verdict)}},
            .remark = std::move(remark)};
}

// The rows come with the worst first; a list longer than this hides what matters.
constexpr std::size_t kMostPairs = 40;

// "The 40 tightest pairs; 4910 more, of which 12 do not hold: --all lists them."
std::string left_over(std::span<const CheckFinding> rest) {
    const auto bad = std::ranges::count_if(
        rest, [](const CheckFinding& f) { return f.verdict != stack::Verdict::holds; });
    return fmt::format("The {} tightest pairs; {} more, {}: --all lists them.", kMostPairs,
                       rest.size(),
                       bad == 0 ? "which hold" : fmt::format("of which {} do not hold", bad));
}

Table empty_table(std::string_view names, std::span<const CheckFinding> of, int decimals) {
    const bool with_middle =
        std::ranges::any_of(of, [decimals](const CheckFinding& f) { return differs(f, decimals); });
    return {.columns = {Column::names(std::string(names)), "needed",
                        with_middle ? "nominal\n(middle)" : "nominal", "worst case", "RSS",
                        Column::words("")}};
}

Document clearances(const CheckAnswer& answer, std::span<const CheckFinding> all, int decimals,
                    bool all_rows) {
    const std::size_t shown = all_rows ? all.size() : std::min(all.size(), kMostPairs);
    Table table = empty_table("Clearances", all, decimals);
    for (const CheckFinding& f : all.first(shown))
        table.rows.push_back(row_of(f, decimals, odds_beside(answer)));
    const bool only_tightest = std::ranges::all_of(answer.clearances, &stack::Clearance::tightest);
    Document out;
    if (table.rows.empty()) return out;
    out.add(std::move(table));
    if (shown < all.size()) {
        out.under(Paragraph{left_over(all.subspan(shown))});
        out.for_text_only(false);
    } else if (only_tightest) {
        out.under(Paragraph{"The tightest pair of each two parts; --all lists the rest."});
        out.for_text_only(true);
    }
    return out;
}

Table checks(const CheckAnswer& answer, std::span<const CheckFinding> all, int decimals) {
    Table out = empty_table("Checks", all, decimals);
    for (const stack::CheckResult& check : answer.checks) {
        const std::vector<CheckFinding> both = sides(check, answer.judge);
        for (const CheckFinding& side : both) {
            out.rows.push_back(row_of(side, decimals, odds_beside(answer)));
            // Two limits on two figures: what it is about stands under the second.
            if (&side != &both.back()) continue;
            std::string said = told_question(check);
            std::string& below = out.rows.back().remark;
            if (!below.empty()) said.append("; ").append(below);
            below = std::move(said);
        }
    }
    return out;
}

Table radial(const CheckAnswer& answer, std::span<const CheckFinding> all, int decimals) {
    Table out = empty_table("Radial gaps", all, decimals);
    for (const CheckFinding& f : all)
        out.rows.push_back(row_of(f, decimals, odds_beside(answer)));
    return out;
}

}  // namespace

std::string told_judging(const CheckAnswer& answer) {
    std::string text = told_judge(answer.units, answer.judge, answer.odds_level, answer.inflate);
    if (!answer.states.empty()) text += " " + states(answer.states, answer.units);
    return text;
}

std::string told_in_states(const CheckFinding& f, int decimals) {
    if (f.in_states.size() < 2 || f.value.open()) return {};
    std::string others;
    const auto same = [&](const stack::InState& each) {
        return range(each.value.worst, decimals) == range(f.value.worst, decimals) &&
               each.verdict == f.verdict;
    };
    if (std::ranges::all_of(f.in_states, same)) return {};
    for (const stack::InState& each : f.in_states) {
        if (each.state == f.state) continue;
        others += fmt::format("{}{} {}", others.empty() ? "" : ", ", listed(each.state),
                              range(each.value.worst, decimals));
    }
    return fmt::format("decided in state {}; {}", listed(f.state), others);
}

std::string told_question(const stack::CheckResult& check) {
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

Document document_of(const CheckAnswer& answer, bool all_rows, const plan::PlanAnswer* cheapest) {
    const std::vector<CheckFinding> all = findings(answer);
    const int decimals = decimals_for(answer.units, all);
    Document first;
    first.add(Paragraph{about(answer)});
    if (const std::string told = first_contact_told(answer, Lengths{answer.units, decimals});
        !told.empty())
        first.add(Paragraph{"First contact: " + told});
    Document last;
    last.add_list("Doubtful, and why", doubts(answer));
    last.add(Heading{"What to do next"})
        .under(List{.items = advice(answer, cheapest), .mark = List::Mark::number});
    last.add_list("Notes", words(answer.notes));
    last.add_list("Not assessed", words(answer.not_assessed));
    last.add(Paragraph{cautions_line(answer.cautions)});

    const std::span<const CheckFinding> pairs = std::span(all).first(answer.clearances.size());
    const std::span<const CheckFinding> gaps = std::span(all).last(answer.radial.size());
    const std::span<const CheckFinding> asked = std::span(all).subspan(pairs.size());
    Document out;
    out.under(Headline{.text = headline(answer), .ink = ink(answer.verdict)});
    out.add_details(std::move(first));
    out.add(clearances(answer, pairs, decimals, all_rows));
    out.add(checks(answer, asked, decimals));
    out.add(radial(answer, gaps, decimals));
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
