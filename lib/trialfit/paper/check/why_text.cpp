// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/text/figures.hpp>
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

std::string why_headline(const WhyAnswer& answer, int decimals) {
    if (answer.value.open())
        return fmt::format("{}: NOT JUDGED: {}.", listed(name_of(answer), 200),
                           words(answer.not_judged_for));
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

Facts values(const WhyAnswer& answer, int decimals) {
    const stack::Bounds& value = answer.value;
    if (value.open()) return {};
    const std::string nominal = fixed(value.nominal, decimals);
    const std::string middle = fixed(value.middle, decimals);
    Facts out{.lines = {{"nominal", nominal}}};
    if (middle != nominal) out.lines.push_back({"middle", middle});
    out.lines.push_back({"worst case", range(value.worst, decimals)});
    out.lines.push_back({"RSS", range(value.rss, decimals)});
    if (answer.inflate != 1.0)
        out.lines.back().text += fmt::format("  (half-widths times {})", brief(answer.inflate));
    if (answer.sd > 0.0)
        out.lines.push_back(
            {"spread", fmt::format("{} (one standard deviation)", fixed(answer.sd, decimals + 1))});
    if (answer.odds && answer.fails)
        out.lines.push_back({"odds", "it " + chance_in_words(*answer.odds, *answer.fails)});
    return out;
}

std::string where(const stack::Contribution& c) {
    const std::string line = c.at.line > 0 ? fmt::format(", line {}", c.at.line) : "";
    return listed(c.written) + line;
}

Document chain(const WhyAnswer& answer, int decimals) {
    Table table{.columns = {"adds", "of worst\ncase", "of the\nspread", "effect", "value",
                            Column::names("size")}};
    const std::size_t shown = std::min(answer.chain.size(), kMostSizes);
    for (std::size_t i = 0; i < shown; ++i) {
        const stack::Contribution& c = answer.chain[i];
        const std::string times = (c.sensitivity > 0.0 ? "+" : "") + brief(c.sensitivity);
        table.add({"±" + fixed(c.half_width, decimals + 1), percent(c.worst_share),
                   percent(c.variance_share), times, fixed(c.value.nominal, decimals),
                   listed(c.size, 200) + ": " + where(c)});
    }
    Document out;
    if (answer.value.open()) return out;
    if (table.rows.empty()) return out.add(Paragraph{"No size comes into it: it is fixed."});
    out.add(Heading{"Where it comes from, biggest first"}).under(std::move(table));
    out.under(Paragraph{"Effect: by how much the figure moves when the size grows by 1."});
    if (shown < answer.chain.size()) {
        out.under(Paragraph{fmt::format("... and {} smaller ones; --json has them all.",
                                        answer.chain.size() - shown)});
        out.for_text_only(true);
    }
    if (answer.constant != 0.0)
        out.under(Paragraph{fmt::format("Exact lengths: {}.", fixed(answer.constant, decimals))});
    return out;
}

// What is gained if the biggest sizes, one at a time, are known twice as well.
Document gains(const WhyAnswer& answer, int decimals) {
    const CheckFinding about = finding(answer);
    const bool missing = !within(about, shown_range(answer.value, answer.judge));
    std::vector<std::string> lines;
    bool mended = false;
    for (const stack::Contribution& c : answer.chain) {
        if (lines.size() == kMostGains || !(c.half_width > 0.0)) break;
        if (c.moves) continue;  // a movement is not known better by measuring
        const stack::Range better = shown_range(c.if_halved, answer.judge);
        const bool holds = missing && answer.verdict == Verdict::doubtful && within(about, better);
        mended = mended || holds;
        lines.push_back(listed(c.size) + ": " + range(better, decimals));
        if (holds) lines.back() += ", and it holds";
        if (c.fails_if_halved && missing)
            lines.back() +=
                "; by the odds it " + chance_in_words(1.0 - *c.fails_if_halved, *c.fails_if_halved);
    }
    Document out;
    if (lines.empty()) return out;
    out.add_list(fmt::format("If you measured one size twice as exactly, {} it would be",
                             phrase(answer.judge)),
                 std::move(lines));
    if (answer.verdict == Verdict::fails)
        out.under(
            Paragraph{"It fails at nominal: to measure better narrows the range, but only other "
                      "sizes mend it, unless one of these is wrong."});
    if (answer.verdict == Verdict::doubtful && !mended)
        out.under(Paragraph{
            "None of these alone settles it: measure several better, or give it more room."});
    return out;
}

}  // namespace

Document document_of(const WhyAnswer& answer) {
    const int decimals = decimals_for(answer.units, {finding(answer)});
    Document out;
    out.under(
        Headline{.text = warned(words(answer.warnings), why_headline(answer, decimals)),
                 .ink = limits(answer, decimals).empty() ? Ink::strong : ink(answer.verdict)});
    out.add_details(Document{}.add(Paragraph{what_it_is(answer)}).under(values(answer, decimals)));
    out.add(chain(answer, decimals));
    out.add_details(gains(answer, decimals).add_list("Notes", words(answer.notes)));
    return out;
}

}  // namespace trialfit::paper
