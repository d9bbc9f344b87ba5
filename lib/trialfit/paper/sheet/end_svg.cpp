// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/draw/page/end.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/end_svg.hpp>
#include <trialfit/paper/sheet/title_block.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using Lines = std::vector<std::string>;

// All that was read at each place.
std::vector<Lines> figures_read(const sheet::EndAnswer& answer, int decimals) {
    std::vector<Lines> out;
    for (const double degrees : answer.view.read_deg) {
        out.emplace_back();
        for (const survey::FeelerReadingFound& each : answer.feelers->readings)
            if (each.clock_deg == degrees) out.back().push_back(fixed(each.is, decimals));
    }
    return out;
}

std::string told_runout(const survey::FeelersFound& found, const Lengths& lengths) {
    const survey::FeelerVector& by = *found.runout;
    return fmt::format(
        "Here the {} runs out: {} {} off the axis, towards {} of its mark. It is drawn with its "
        "mark (the triangle) at 12.",
        listed(found.turning_part), fixed(by.amount.is, lengths.decimals + 1),
        spoken(lengths.units), o_clock(by.towards_deg));
}

std::string told_narrowest(const survey::FeelersFound& found, const Lengths& lengths) {
    const survey::FeelerVector& by = *found.offset;
    std::string out =
        fmt::format("Here the gap is narrow: the {} lies {} {} off the axis, towards {}.",
                    listed(found.still_part), fixed(by.amount.is, lengths.decimals + 1),
                    spoken(lengths.units), o_clock(by.towards_deg));
    if (found.least_now && found.most_now)
        out += fmt::format(" As it lies the gap goes from {} to {}.",
                           fixed(found.least_now->is, lengths.decimals),
                           fixed(found.most_now->is, lengths.decimals));
    return out;
}

// Returns what stands first.
std::string tell_feelers(const sheet::EndAnswer& answer, std::size_t columns,
                         draw::EndWords& into) {
    const survey::FeelersFound& found = *answer.feelers;
    const Lengths lengths = feeler_lengths(found, answer.units);
    const auto paragraph = [columns](const std::string& text) {
        return wrapped(harmless(text), columns);
    };
    into.read = figures_read(answer, lengths.decimals);
    into.numbered.resize(2);
    if (answer.view.turning_off) into.numbered[0] = paragraph(told_runout(found, lengths));
    if (answer.view.still_off) into.numbered[1] = paragraph(told_narrowest(found, lengths));
    if (answer.view.move)
        into.move = fmt::format("move {} {}", listed(found.even_up->part, 14),
                                fixed(answer.view.move->amount, lengths.decimals));
    std::string first = feelers_wrong({found});
    for (const std::string& each : feeler_findings(found, lengths)) {
        if (first.empty()) {
            first = each;
            continue;
        }
        into.paragraphs.push_back(paragraph(each));
    }
    into.paragraphs.push_back(
        paragraph(fmt::format("The figures round the clock are the gaps as read, by {} (\u00b1{}).",
                              listed(found.gauge), brief(found.half_width))));
    for (const std::string& each : feeler_not_told(found))
        into.paragraphs.push_back(paragraph(each));
    if (answer.more_sets > 0)
        into.paragraphs.push_back(
            paragraph(fmt::format("{} of readings not drawn: the command survey has all.",
                                  counted(answer.more_sets, "more set"))));
    return first;
}

std::string told_stated(const sheet::AxisStated& each, int decimals, quantity::Unit units) {
    const std::string size =
        each.size.lo == each.size.hi ? fixed(each.size.hi, decimals) : range(each.size, decimals);
    if (each.centred_on.empty())
        return fmt::format("{} runs out: {} {} by the indicator.", listed(each.part), size,
                           spoken(units));
    return fmt::format("{} is centred on {} with {} {} of clearance.", listed(each.part),
                       listed(each.centred_on), size, spoken(units));
}

// Likewise.
std::string tell_judged(const sheet::EndAnswer& answer, std::size_t columns, draw::EndWords& into) {
    constexpr int kFine = 3;
    const int decimals =
        answer.units == quantity::Unit::mm ? kFine : decimals_for(answer.units, {}, 0.0);
    const auto paragraph = [columns](const std::string& text) {
        return wrapped(harmless(text), columns);
    };
    std::string first = fmt::format(
        "Least gap round the turn, {} to {}: {} nominal, {} in the worst case",
        listed(answer.turning), listed(answer.still), told_nominal(*answer.least, decimals),
        answer.view.nearest ? fixed(*answer.view.nearest, decimals) : "-");
    if (answer.at_least)
        first +=
            fmt::format("; {} needed: {}", fixed(*answer.at_least, decimals), word(answer.verdict));
    into.paragraphs.push_back(paragraph(
        "Nobody has read on which side the gap is narrow: both rings are drawn on the axis. "
        "Dashed: how near they may come, worst case, anywhere round the clock."));
    for (const sheet::AxisStated& each : answer.stated)
        into.paragraphs.push_back(paragraph(told_stated(each, decimals, answer.units)));
    into.paragraphs.push_back(
        paragraph("Read the gap by feeler at 12, 3, 6 and 9 o'clock, with the rotor's mark up and "
                  "then down, and put it into the job as feelers: this view then shows which way "
                  "to move what."));
    return first + ".";
}

}  // namespace

draw::Drawing end_drawn(const sheet::EndAnswer& answer, const draw::PageSize& page,
                        const DrawnBy& by) {
    draw::EndWords words;
    words.title = isolated(listed(title_of(answer.planned, answer.title, answer.file),
                                  columns_in(page.width - 20.0, 4.0)));
    words.before_times = "The gap, and what lies off the axis, is drawn";
    words.after_times = "times too large; radii to no scale. The clock is that seen from outboard.";
    words.turning = "turns: " + isolated(listed(answer.turning, 24));
    words.still = "still: " + isolated(listed(answer.still, 24));
    words.more = "The command survey has the rest.";
    const std::size_t columns = columns_in(draw::end_column(page), 3.0);
    const std::string first =
        answer.feelers ? tell_feelers(answer, columns, words) : tell_judged(answer, columns, words);
    words.lines = wrapped(harmless(first), columns_in(page.width - 20.0, 3.2));
    words.block = end_block(answer, by);
    return draw::end_drawing(answer.view, words, page);
}

std::string end_svg(const sheet::EndAnswer& answer, const draw::PageSize& page, const DrawnBy& by) {
    const Lengths lengths = answer.feelers ? feeler_lengths(*answer.feelers, answer.units)
                                           : Lengths{.units = answer.units};
    std::string told =
        fmt::format("Seen from outboard: {} and {}.", listed(answer.turning), listed(answer.still));
    if (answer.feelers)
        for (const std::string& each : feeler_findings(*answer.feelers, lengths))
            told += " " + each;
    return svg(end_drawn(answer, page, by),
               {.title = "End view: " +
                         listed(answer.title.empty() ? file_name(answer.file) : answer.title),
                .description = harmless(told),
                .id = "end"},
               false);
}

}  // namespace trialfit::paper
