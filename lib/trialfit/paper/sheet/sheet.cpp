// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/advice.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/document/markdown.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/live.hpp>
#include <trialfit/paper/sheet/sections.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

// More of the clearances that hold than these would hide what matters.
constexpr std::size_t kTightest = 3;

std::string needed(const CheckFinding& f, const Lengths& lengths) {
    std::string out;
    if (f.at_least) out = (f.more_than ? "more than " : "at least ") + lengths(*f.at_least);
    if (f.at_most) out += (out.empty() ? "at most " : ", at most ") + lengths(*f.at_most);
    return out;
}

// What a row stands for, in words: what a check asks, and what it is in the other states.
std::string remark_of(const CheckFinding& f, const stack::CheckAnswer& answer,
                      const Lengths& lengths) {
    std::string out;
    for (const stack::CheckResult& check : answer.checks)
        if (!f.automatic && f.about != CheckFinding::About::clearance && check.name == f.name)
            out = told_question(check);
    const std::string states = told_in_states(f, lengths.decimals);
    return out + (out.empty() || states.empty() ? "" : "; ") + states;
}

Document checks(const stack::CheckAnswer& answer, const std::vector<CheckFinding>& all,
                const Lengths& lengths) {
    Table table{.columns = {Column::names("Check"), "Needed", "Nominal", "Worst case", "RSS",
                            Column::for_paper("Range and limit"), Column::words("Verdict")},
                .caption = "As every part would lie on its seat",
                .caption_of_bars =
                    "; bars: thin worst case, thick RSS, diamond nominal, upright the limit, grey "
                    "not allowed"};
    std::vector<std::string> left_out;
    std::size_t holding = 0;
    for (const CheckFinding& f : all) {
        const bool clears =
            f.about == CheckFinding::About::clearance && f.verdict == stack::Verdict::holds;
        if (clears && ++holding > kTightest) {
            left_out.push_back(listed(titled(f)) + " " + lengths(f.value.nominal));
            continue;
        }
        const bool open = f.value.open();
        const RangeBar bar{.value = f.value, .at_least = f.at_least, .at_most = f.at_most};
        table.add(
            {titled(f),
             needed(f, lengths),
             Cell::strong(open ? "-" : lengths(f.value.nominal)),
             open ? "-" : lengths.range(f.value.worst),
             open ? "-" : lengths.range(f.value.rss),
             open ? Cell("") : Cell(bar),
             {loud_word(f.verdict), f.verdict == stack::Verdict::holds ? Ink::plain : Ink::strong}},
            remark_of(f, answer, lengths));
    }
    Document out;
    out.add(Heading{"Checks"});
    out.add(Paragraph{told_judging(answer)}).add(std::move(table));
    if (left_out.empty()) return out;
    constexpr std::size_t kMostNamed = 12;
    const std::size_t named = std::min(left_out.size(), kMostNamed);
    std::string told = fmt::format(
        "{} with more room left out, {} nominal: {}", counted(left_out.size(), "clearance"),
        plural(answer.units),
        fmt::join(left_out.begin(), left_out.begin() + static_cast<std::ptrdiff_t>(named), "; "));
    if (named < left_out.size())
        told +=
            fmt::format("; and {} more, which the command check lists", left_out.size() - named);
    return out.add(Paragraph{told + "."});
}

Document chains(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    constexpr std::size_t kMostTold = 3;
    Document out;
    if (answer.whys.empty()) return out;
    Table table{.columns = {Column::words("Check"), Column::names("Size"),
                            Column::words("Written as"), "Adds", "of worst case", "of variance"},
                .caption = "What the checks that matter most hang on"};
    for (const stack::WhyAnswer& why : answer.whys) {
        for (std::size_t i = 0; i < std::min(kMostTold, why.chain.size()); ++i) {
            const stack::Contribution& each = why.chain[i];
            table.add({listed(why.name), each.size, each.written, "±" + lengths(each.half_width),
                       percent(each.worst_share), percent(each.variance_share)});
        }
    }
    return out.add(Heading{"Biggest contributors"}).add(std::move(table));
}

bool is_of_key(const stack::Warning& warning) {
    return std::holds_alternative<stack::KeyHoldsOff>(warning) ||
           std::holds_alternative<stack::KeyMayHoldOff>(warning) ||
           std::holds_alternative<stack::KeyMayNotEnter>(warning);
}

std::string first_contact(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    std::string told = first_contact_told(answer.check, lengths);
    if (!told.empty()) return told;
    const std::vector<stack::Clearance>& pairs = answer.check.clearances;
    if (pairs.empty()) return "Not judged: no two rings of this job are said that could meet.";
    if (std::ranges::any_of(pairs, [](const stack::Clearance& pair) {
            return pair.verdict == stack::Verdict::not_judged;
        }))
        return "None among the pairs that are judged; others are not judged.";
    if (std::ranges::any_of(answer.check.warnings, is_of_key))
        return "None, even in the worst case, but a key holds its hub off, or may.";
    return "None, even in the worst case: every part reaches its seat.";
}

Document history(const sheet::SheetAnswer& answer) {
    Document out;
    if (answer.history.empty()) return out;
    Table table{.columns = {Column::words("Date"), Column::words("Who"),
                            Column::names("Work and sizes"), Column::words("Note")},
                .caption = "As built, oldest first"};
    for (const sheet::EntrySummary& entry : answer.history) {
        std::string work;
        for (const std::string& each : words(entry.work))
            work += (work.empty() ? "" : "; ") + each;
        table.add({entry.date, entry.who, work, entry.note});
    }
    return out.add(Heading{"History"}).add(std::move(table));
}

Table record(const sheet::SheetAnswer& answer) {
    Table out{.columns = {Column::names("Record"), Column::words("Entry")},
              .caption = "Keep this sheet with the parts"};
    const auto add = [&out](const char* what, const std::string& entry) {
        out.add({what, entry.empty() ? Cell(Cell::Kind::blank) : Cell(entry)});
    };
    add("Job", answer.title);
    if (answer.later_entries > 0)
        add("State",
            fmt::format("as it was; recorded later and left out: {}", answer.later_entries));
    add("Date", answer.record.date);
    add("Who", answer.record.who);
    add("Job file", file_name(answer.record.file));
    add("SHA-256 of the file", answer.record.sha256);
    if (answer.timing) add("Marks and timing set", "");
    return out;
}

}  // namespace

Document document_of(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    const std::vector<CheckFinding> all = distinct_findings(answer.check);
    const Lengths lengths{answer.units, decimals_for(answer.units, all), style.inches};
    Document out{.title = listed(answer.title, 120)};
    if (answer.planned) out.title.insert(0, "PLANNED, NOT CUT YET: ");
    // What the plan leaves unjudged stands in the first line.
    out.add(Headline{.text = headline(answer.check) + keeps_not_judged(answer),
                     .ink = ink(answer.check.verdict),
                     .aside = fmt::format("Lengths in {}{}.", plural(answer.units),
                                          style.inches ? ", inches in brackets" : "")});
    out.add(cautions_block(answer.check.cautions, NextWork::sheet));
    out.add(plan_section(answer, lengths)).add(OnScreen{live_html(answer, lengths)});
    out.add(checks(answer.check, all, lengths));
    out.add(Heading{"First contact"}).add(Paragraph{first_contact(answer, lengths)});
    if (answer.survey) out.add(survey_section(*answer.survey, lengths));
    out.add(chains(answer, lengths));
    if (answer.seat) out.add(seat_section(*answer.seat));
    if (answer.timing) out.add(timing_section(*answer.timing, lengths));
    out.add(history(answer)).add(Heading{"Record"}).add(record(answer));
    out.add_list("Doubtful, and why", doubts(answer.check));
    out.add_list("Notes", words(answer.check.notes));
    return out.add(not_assessed(answer, true));
}

std::string sheet_html(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    constexpr double kMargins = 24.0;
    constexpr double kFigureShare = 0.42;  // of the page's height, so that the cuts share its page
    Document page = document_of(answer, style);
    if (answer.section)
        page.blocks.insert(
            page.blocks.begin() + 1,
            {.content = Picture{.label = "Section above the axis",
                                .svg = section_figure(*answer.section, style.width - kMargins,
                                                      kFigureShare * style.height)}});
    return html_of(page, style.paper);
}

std::string sheet_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    return markdown_of(document_of(answer, style));
}

}  // namespace trialfit::paper
