// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/advice.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

constexpr int kInchDecimals = 4;

double in_inches(double length, quantity::Unit units) {
    return quantity::convert(length, units, quantity::Unit::inch);
}

// More of the clearances that hold than these would hide what matters.
constexpr std::size_t kTightest = 3;

std::string needed(const Finding& f, const Lengths& lengths) {
    std::string out;
    if (f.at_least) out = (f.more_than ? "more than " : "at least ") + lengths(*f.at_least);
    if (f.at_most) out += (out.empty() ? "at most " : ", at most ") + lengths(*f.at_most);
    return out;
}

SheetBlock checks(const std::vector<Finding>& all, const Lengths& lengths) {
    SheetTable table{.caption =
                         "As every part would lie on its seat; bars: thin worst case, thick RSS, "
                         "diamond nominal, upright the limit, grey not allowed",
                     .columns = {{.heading = "Check"},
                                 {.heading = "Needed", .figures = true},
                                 {.heading = "Nominal", .figures = true},
                                 {.heading = "Worst case", .figures = true},
                                 {.heading = "RSS", .figures = true},
                                 {.heading = "Range and limit", .paper_only = true},
                                 {.heading = "Verdict"}}};
    std::size_t left_out = 0;
    std::size_t holding = 0;
    for (const Finding& f : all) {
        const bool clears =
            f.about == Finding::About::clearance && f.verdict == stack::Verdict::holds;
        if (clears && ++holding > kTightest) {
            ++left_out;
            continue;
        }
        table.rows.push_back(
            {{.text = titled(f)},
             {.text = needed(f, lengths)},
             {.kind = Kind::strong, .text = lengths(f.value.nominal)},
             {.text = lengths.range(f.value.worst)},
             {.text = lengths.range(f.value.rss)},
             {.kind = Kind::bar, .finding = &f},
             {.kind = f.verdict == stack::Verdict::holds ? Kind::text : Kind::strong,
              .text = std::string(loud_word(f.verdict))}});
    }
    SheetBlock out{.heading = "Checks"};
    if (left_out > 0)
        out.paragraphs.push_back(
            fmt::format("{} with more room than these left out; the command check lists all.",
                        counted(left_out, "clearance")));
    if (!all.empty()) out.table = std::move(table);
    return out;
}

SheetBlock chains(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    constexpr std::size_t kMostTold = 3;
    SheetTable table{.caption = "What the checks that matter most hang on",
                     .columns = {{.heading = "Check"},
                                 {.heading = "Size"},
                                 {.heading = "Written as"},
                                 {.heading = "Adds", .figures = true},
                                 {.heading = "of worst case", .figures = true},
                                 {.heading = "of variance", .figures = true}}};
    for (const stack::WhyAnswer& why : answer.whys) {
        for (std::size_t i = 0; i < std::min(kMostTold, why.chain.size()); ++i) {
            const stack::Contribution& each = why.chain[i];
            table.rows.push_back({{.text = listed(why.name)},
                                  {.text = each.size},
                                  {.text = each.written},
                                  {.text = "±" + lengths(each.half_width)},
                                  {.text = percent(each.worst_share)},
                                  {.text = percent(each.variance_share)}});
        }
    }
    return {.heading = "Biggest contributors", .table = std::move(table)};
}

SheetBlock first_contact(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    const std::string told = first_contact_told(
        answer.check, {.with_unit = [&](double length) { return lengths.with_unit(length); },
                       .range = [&](stack::Range each) { return lengths.range(each); }});
    return {.heading = "First contact",
            .paragraphs = {told.empty() ? "None, even in the worst case: every part reaches its "
                                          "seat."
                                        : told}};
}

SheetBlock history(const sheet::SheetAnswer& answer) {
    SheetTable table{.caption = "As built, oldest first",
                     .columns = {{.heading = "Date"},
                                 {.heading = "Who"},
                                 {.heading = "Work and sizes"},
                                 {.heading = "Note"}}};
    for (const sheet::Entry& entry : answer.history) {
        std::string work;
        for (const std::string& each : words(entry.work))
            work += (work.empty() ? "" : "; ") + each;
        table.rows.push_back(
            {{.text = entry.date}, {.text = entry.who}, {.text = work}, {.text = entry.note}});
    }
    return {.heading = "History", .table = std::move(table)};
}

SheetBlock record(const sheet::SheetAnswer& answer) {
    const auto or_blank = [](const std::string& text) {
        return text.empty() ? SheetCell{.kind = Kind::blank} : SheetCell{.text = text};
    };
    SheetTable table{.caption = "Keep this sheet with the parts",
                     .columns = {{.heading = "Record"}, {.heading = "Entry"}}};
    table.rows = {{{.text = "Job"}, {.text = answer.title}},
                  {{.text = "Date"}, or_blank(answer.record.date)},
                  {{.text = "Who"}, or_blank(answer.record.who)},
                  {{.text = "Job file"}, {.text = file_name(answer.record.file)}},
                  {{.text = "SHA-256 of the file"}, {.text = answer.record.sha256}}};
    if (answer.timing)
        table.rows.push_back({{.text = "Marks and timing set"}, {.kind = Kind::blank}});
    if (answer.later_entries > 0)
        table.rows.insert(table.rows.begin() + 1,
                          {{.text = "State"},
                           {.text = fmt::format("as it was; recorded later and left out: {}",
                                                answer.later_entries)}});
    return {.heading = "Record", .table = std::move(table)};
}

// Less what the sheet itself has further up.
std::vector<std::string> not_assessed(const sheet::SheetAnswer& answer) {
    std::vector<std::string> out;
    using By = stack::ElsewhereJudged::By;
    for (const stack::NotAssessed& each : answer.check.not_assessed) {
        const auto* const elsewhere = std::get_if<stack::ElsewhereJudged>(&each);
        const auto judged_by = [&](By by) { return elsewhere != nullptr && elsewhere->by == by; };
        if ((answer.seat && judged_by(By::seat)) || (answer.timing && judged_by(By::timing)))
            continue;
        out.push_back(words(each));
    }
    return out;
}

}  // namespace

std::string Lengths::beside(std::string told, double length) const {
    if (!inches || units == quantity::Unit::inch) return told;
    return told + fmt::format(" ({} in)", fixed(in_inches(length, units), kInchDecimals));
}

std::string Lengths::operator()(double length) const {
    return beside(fixed(length, decimals), length);
}

std::string Lengths::least(double length) const {
    std::string out = enough(length, decimals);
    if (!inches || units == quantity::Unit::inch) return out;
    return out + fmt::format(" ({} in)", enough(in_inches(length, units), kInchDecimals));
}

std::string Lengths::most(double length) const {
    std::string out = paper::at_most(length, decimals);
    if (!inches || units == quantity::Unit::inch) return out;
    return out + fmt::format(" ({} in)", paper::at_most(in_inches(length, units), kInchDecimals));
}

std::string Lengths::range(stack::Range range) const {
    std::string out = paper::range(range, decimals);
    if (inches && units != quantity::Unit::inch)
        out += fmt::format(
            " ({} in)",
            paper::range({in_inches(range.lo, units), in_inches(range.hi, units)}, kInchDecimals));
    return out;
}

std::string Lengths::window(stack::Range range) const {
    std::string out = told_window(range, decimals);
    if (inches && units != quantity::Unit::inch)
        out += fmt::format(
            " ({} in)",
            told_window({in_inches(range.lo, units), in_inches(range.hi, units)}, kInchDecimals));
    return out;
}

std::string Lengths::with_unit(double length) const {
    return fixed(length, decimals) + " " + std::string(spoken(units)) +
           (inches ? (*this)(length).substr(fixed(length, decimals).size()) : std::string());
}

std::vector<SheetBlock> sheet_blocks(const sheet::SheetAnswer& answer,
                                     const std::vector<Finding>& all, const Lengths& lengths) {
    std::vector<SheetBlock> out;
    out.push_back({.heading = std::string(kCautionsHeading),
                   .bullets = whole_cautions(answer.check.cautions, Work::sheet)});
    for (SheetBlock& block : plan_blocks(answer, lengths))
        out.push_back(std::move(block));
    out.push_back(checks(all, lengths));
    out.push_back(first_contact(answer, lengths));
    if (answer.survey)
        for (SheetBlock& block : survey_blocks(*answer.survey, lengths))
            out.push_back(std::move(block));
    if (!answer.whys.empty()) out.push_back(chains(answer, lengths));
    if (answer.seat)
        for (SheetBlock& block : seat_blocks(*answer.seat))
            out.push_back(std::move(block));
    if (answer.timing)
        for (SheetBlock& block : timing_blocks(*answer.timing, lengths))
            out.push_back(std::move(block));
    if (!answer.history.empty()) out.push_back(history(answer));
    out.push_back(record(answer));
    if (!answer.check.notes.empty())
        out.push_back({.heading = "Notes", .bullets = words(answer.check.notes)});
    out.push_back({.heading = "Not assessed", .bullets = not_assessed(answer), .run_on = true});
    return out;
}

std::string sheet_title(const sheet::SheetAnswer& answer) {
    const std::string title = listed(answer.title, 120);
    return answer.planned ? "PLANNED, NOT CUT YET: " + title : title;
}

}  // namespace trialfit::paper
