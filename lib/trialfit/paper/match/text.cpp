// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/match/text.hpp>
#include <trialfit/paper/match/words.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

using match::Candidate;
using match::MatchAnswer;
using match::Standing;

Ink ink_of(Standing standing) {
    if (standing == Standing::holds || standing == Standing::after_plan) return Ink::good;
    return standing == Standing::no_plan ? Ink::bad : Ink::strong;
}

std::string loud(const Candidate& candidate) {
    const bool proven = !candidate.plan || candidate.plan->proven;
    switch (candidate.standing) {
        case Standing::no_plan:
            return proven ? "NO PLAN" : "NONE FOUND";
        case Standing::not_judged:
            return "NOT JUDGED";
        case Standing::after_plan:
            return "after a plan";
        case Standing::holds:
        case Standing::doubtful:
            break;
    }
    return std::string(word(candidate.standing));
}

std::string cost_words(const Candidate& candidate) {
    if (candidate.standing == Standing::holds) return "0.00";
    if (candidate.standing != Standing::after_plan) return "-";
    return fixed(candidate.plan->plans.front().cost, 2);
}

// The chance that all holds, whole per cent but for the ends.
std::string odds_told(const Candidate& candidate) {
    if (!candidate.odds) return "-";
    constexpr double kNearlyAll = 0.995;
    constexpr double kNearlyNone = 0.005;
    if (candidate.check && candidate.check->verdict == stack::Verdict::holds) return "certain";
    if (*candidate.odds >= kNearlyAll) return "over 99 %";
    if (*candidate.odds <= kNearlyNone) return "under 1 %";
    return percent(*candidate.odds);
}

std::string price_told(const Candidate& candidate) {
    return candidate.price ? brief(*candidate.price, 10) : "-";
}

// Under a candidate's figures: what decides it, and what it takes.
std::string remark(const Candidate& candidate, const MatchAnswer& answer) {
    const std::string tightest = told_tightest(candidate);
    const std::string takes = told_takes(candidate, answer);
    std::vector<std::string> told;
    if (!tightest.empty()) told.push_back(tightest);
    if (candidate.standing != Standing::holds || tightest.empty()) told.push_back(takes);
    std::string all = fmt::format("{}", fmt::join(told, "; "));
    for (const std::string& each : told_running(candidate))
        all += (all.ends_with('.') ? " " : ". ") + each;
    return candidate.check ? warned(words(candidate.check->warnings), all) : all;
}

// `cards`: how many of them are told more of elsewhere.
Table table_of(const MatchAnswer& answer, std::size_t most, std::size_t cards = 0) {
    Table table{.columns = {Column::names("Kit"), Column::words("fits"), "cost", "odds", "price"}};
    for (std::size_t i = 0; i < std::min(most, answer.candidates.size()); ++i) {
        const Candidate& each = answer.candidates[i];
        table.add({Cell(fmt::format("{}. {}", i + 1, kit_words(each, answer))),
                   Cell(loud(each), ink_of(each.standing)), cost_words(each), odds_told(each),
                   price_told(each)},
                  i < cards ? std::string() : remark(each, answer));
    }
    return table;
}

Ink headline_ink(const MatchAnswer& answer) {
    const bool fits =
        !answer.candidates.empty() && answer.candidates.front().standing <= Standing::after_plan;
    return fits ? Ink::good : Ink::strong;
}

// What a candidate's card says, each with its name; what nothing is said of is left out.
Facts card(const Candidate& each, const MatchAnswer& answer) {
    const std::vector<Fact> all{
        {"fits", loud(each)},
        {"as it comes", told_tightest(each)},
        {"takes", told_takes(each, answer)},
        {"held and started", fmt::format("{}", fmt::join(told_running(each), " "))},
        {"cost", cost_words(each)},
        {"odds", odds_told(each)},
        {"price", price_told(each)}};
    Facts out;
    std::ranges::copy_if(all, std::back_inserter(out.lines),
                         [](const Fact& fact) { return !fact.text.empty() && fact.text != "-"; });
    return out;
}

// "Thin plate (plate-b.yaml)", as far as its files have titles.
std::string named(const Candidate& candidate, const MatchAnswer& answer) {
    std::string titles;
    for (const std::string& each : candidate.titles)
        if (!each.empty()) titles += (titles.empty() ? "" : " + ") + each;
    return titled(titles, kit_words(candidate, answer));
}

Paragraph next_step(const MatchAnswer& answer) {
    if (answer.candidates.empty() || !answer.candidates.front().check)
        return {.text = "Mend what is not judged, and match again."};
    return {.text = "The best, as one job to check, draw and plan with:",
            .command = "trialfit match ... --write new.yaml"};
}

std::string judged_words(const MatchAnswer& answer) {
    return fmt::format(
        "{}. Lengths in {}, judged in the worst case; the odds are those of the "
        "check least likely to hold. Costs are on each file's own "
        "scale, prices as the kits give them.",
        titled(answer.title, answer.engine), plural(answer.units));
}

}  // namespace

Document document_of(const MatchAnswer& answer, std::size_t most) {
    Document out;
    out.under(Headline{.text = match_headline(answer), .ink = headline_ink(answer)});
    out.add_details(Document{}.add(Paragraph{.text = judged_words(answer)}));
    out.add(table_of(answer, most));
    if (answer.candidates.size() > most)
        out.under(Paragraph{.text = fmt::format("{} more follow; --all lists them.",
                                                answer.candidates.size() - most)});
    return out.add_details(
        Document{}
            .add(next_step(answer))
            .add(Paragraph{.text = "Not assessed for any kit: strength, balance, heat and what no "
                                   "file gives. Check the one you choose by itself."})
            .add(Paragraph{.text = "Read before anything is cut or run: `trialfit cautions`."}));
}

std::string match_text(const MatchAnswer& answer, const Style& style) {
    constexpr std::size_t kMost = 20;
    return text_of(document_of(answer, style.all_rows ? answer.candidates.size() : kMost), style);
}

std::string match_html(const MatchAnswer& answer,
                       const std::vector<std::optional<draw::Section>>& sections,
                       const std::string& paper) {
    constexpr double kWidth = 180.0;
    constexpr double kHeight = 125.0;  // as on the sheet
    Document page;
    page.title = "Which kit fits: " + titled(answer.title, answer.engine);
    page.under(Headline{.text = match_headline(answer), .ink = headline_ink(answer)});
    page.add(Paragraph{.text = judged_words(answer)});
    Table kits = table_of(answer, answer.candidates.size(), sections.size());
    kits.caption = "The kits, best first";
    page.add(std::move(kits));
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const Candidate& each = answer.candidates[i];
        page.add(Heading{fmt::format("{}. {}", i + 1, named(each, answer))});
        page.under(card(each, answer));
        if (sections[i])
            page.add(Picture{
                .label = "Section above the axis, as it comes",
                .svg = section_figure(*sections[i], kWidth, kHeight, fmt::format("kit{}", i + 1))});
    }
    return html_of(page, paper);
}

}  // namespace trialfit::paper
