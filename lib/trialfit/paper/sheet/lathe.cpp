// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/draw/page/lettered.hpp>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/document/markdown.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/lathe.hpp>
#include <trialfit/paper/sheet/sections.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <trialfit/plan/order_of_work.hpp>
#include <trialfit/sheet/turned.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

// On the page, mm: beside its table, and no higher than the table.
constexpr double kPictureWidth = 62.0;
// On the page to in the drawing, as on a worksheet: letters of 11 px at least.
constexpr double kOnPage = 1.06;
constexpr double kTurnedHeight = 25.0;
constexpr Cell::Kind kLine = Cell::Kind::blank;

Table lathe_table(std::string caption) {
    return {.columns = {Column::words("What"), Column::names("How much")},
            .caption = std::move(caption),
            .form = true};
}

std::string by_gauge(const std::string& gauge) {
    return gauge.empty() ? "" : " by " + listed(gauge);
}

void add_blanks(Table& table) {
    table.add({"Before last pass", kLine});
    table.add({"When done", kLine});
}

// The finish size, and the readings that show that it is reached.
template <typename Made>
void add_finish(Table& table, const Made& made, const std::string& off, const Lengths& lengths) {
    const std::string finish = told_finish(made.finish, lengths.decimals);
    table.add(
        {"Finish", Cell(lengths.beside(finish, made.finish) + " (" + off + ")", Ink::strong)});
    std::string passes =
        made.no_window ? told_readings(made, lengths.decimals) : lengths.window(made.window);
    // Any readings inside the windows go together: the finish size may go with other finish sizes
    // only.
    if (!made.no_window && (made.finish > made.window.hi || made.finish < made.window.lo))
        passes += fmt::format(": cut on until it reads that, a reading of {} is not sure to pass",
                              finish);
    table.add({"A reading passes", std::move(passes)});
}

Table lathe_cut(const plan::CutMade& cut, const Lengths& lengths) {
    Table out = lathe_table("Measured from " + cut.from + by_gauge(cut.read_by));
    if (cut.by_amount) {
        out.add({"Take off", Cell::strong(told_finish(cut.remove, lengths.decimals))});
        out.add({"Passes, taken off", told_readings(cut, lengths.decimals)});
        out.add({"Must remain", lengths.least(cut.keep) + ": NOT JUDGED, the part is unmeasured"});
    } else {
        add_finish(out, cut,
                   fmt::format("from {}: {} off", lengths(cut.now),
                               told_removal(cut.now, cut.finish, lengths.decimals)),
                   lengths);
        out.add({"Do not go below", Cell::strong(lengths.least(cut.keep))});
    }
    out.add({"Passes", told_passes(cut.passes, lengths.decimals)});
    add_blanks(out);
    return out;
}

Table lathe_skim(const plan::SkimMade& skim, const Lengths& lengths) {
    Table out = lathe_table("Measured on diameter" + by_gauge(skim.read_by));
    add_finish(out, skim,
               fmt::format("from {}: {} off, on diameter", lengths(skim.now),
                           told_removal(skim.now, skim.finish, lengths.decimals)),
               lengths);
    if (skim.until)
        out.add({skim.bore ? "Do not go over" : "Do not go below",
                 Cell::strong(skim.bore ? lengths.most(*skim.until) : lengths.least(*skim.until))});
    if (skim.keep > 0.0) out.add({"Wall not under", Cell::strong(lengths.least(skim.keep))});
    out.add({"Passes, depth fed", told_passes(skim.passes, lengths.decimals)});
    add_blanks(out);
    return out;
}

// The picture of the part, each letter with its finish size.
const draw::Lettered* picture_of_part(const sheet::SheetAnswer& answer, const std::string& part) {
    const auto at = std::ranges::find(answer.turned, part, &draw::Lettered::part);
    return at == answer.turned.end() ? nullptr : &*at;
}

Picture drawn(draw::Lettered picture, const std::string& letter, const std::string& size) {
    const auto told = [&](std::string& each) {
        if (each == letter && !size.empty()) each = fmt::format("{} {}", letter, size);
    };
    std::ranges::for_each(picture.letters, told);
    for (draw::LetteredDiameter& each : picture.diameters)
        told(each.letter);
    const SvgTitle title{
        .title = "Section above the axis: " + listed(picture.part) + ", finished",
        .description = size.empty() ? letter + " is the size to be made."
                                    : fmt::format("{} is the size to be made, {}.", letter, size),
        .id = "turned-" + letter};
    return {.label = title.title,
            .svg = svg(draw::drawn(picture, {"engine side", "outboard"}, kPictureWidth / kOnPage,
                                   kTurnedHeight),
                       title, true),
            .width = kPictureWidth};
}

void add_work(Document& out, const sheet::SheetAnswer& answer, std::string heading, Table table,
              const std::string& part, const std::string& letter, const std::string& size) {
    out.add(Heading{std::move(heading)}).add(std::move(table));
    const draw::Lettered* const picture = picture_of_part(answer, part);
    if (picture == nullptr) return;
    out.add(drawn(*picture, letter, size));
    out.blocks.back().beside = true;
}

std::vector<std::string> how(const plan::PlanMade& plan, const Lengths& lengths) {
    std::vector<std::string> out;
    for (const plan::CentringMade& centring : plan.centrings)
        out.push_back(fmt::format("First centre {}: {}.", centring.part,
                                  told_centring(centring, lengths.decimals)));
    for (const plan::StackMade& shims : plan.shims)
        if (changed(shims))
            out.push_back(fmt::format("Shims between {} and {}: {}. Measure each one.",
                                      shims.against, shims.face, told_stack(shims.stack)));
    for (const plan::CutMade& cut : plan::in_order_of_work(plan)) {
        if (cut.may_be)
            out.push_back(fmt::format("{}: {}.", cut.face, told_may_be(cut, lengths.decimals)));
        if (!cut.note.empty()) out.push_back(fmt::format("{}: {}.", cut.face, cut.note));
        if (cut.thin)
            out.push_back(cut.face +
                          ": what is left is thin for its diameter and bows in the chuck; hold it "
                          "on a backing plate.");
    }
    for (const plan::LapMade& lap : plan.laps)
        out.push_back(fmt::format("Lap {}: {} off the diameters, both parts together; {} passes.",
                                  lap.cone, lengths(lap.off_diameter), lengths.window(lap.window)));
    for (const plan::SkimMade& skim : plan.skims) {
        if (skim.may_be)
            out.push_back(fmt::format("{}: {}.", skim.ring, told_may_be(skim, lengths.decimals)));
        if (!skim.note.empty()) out.push_back(fmt::format("{}: {}.", skim.ring, skim.note));
        for (const std::string& each : skim_cautions(skim))
            out.push_back(fmt::format("Skimming {}: {}.", skim.ring, each));
    }
    if (!plan.cuts.empty())
        out.emplace_back(
            "Hold the part true on the face that it is measured from; the new face is parallel to "
            "it. Measure at three places round, deburr, and write down the least.");
    if (!plan.cuts.empty() || !plan.skims.empty())
        out.emplace_back(
            "After each cut plan again with its reading: the cuts after it may be smaller.");
    return out;
}

Paragraph turned_by() {
    return {.text =
                "Turned by ____________________ on ______________ ; the gauge, closed, shows "
                "__________"};
}

std::string lathe_answer(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    if (!answer.plan)
        return warned(words(answer.check.warnings), "Everything holds: there is nothing to turn.");
    const auto& plans = answer.plan->plans;
    std::string told = "There is nothing to turn.";
    if (plans.empty()) {
        told = plan_headline(*answer.plan);
    } else if (!leaves_all(plans.front())) {
        const plan::PlanMade& plan = plans.front();
        told = capital(told_works(plan, lengths.decimals)) +
               (plan.cuts.size() + plan.skims.size() > 1 ? ", in the order below." : ".") +
               keeps_not_judged(answer);
        if (!plan.proven) told += " Not proven to be the least work.";
    }
    return warned(words(answer.check.warnings), told);
}

}  // namespace

Document lathe_document(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    const Lengths lengths{answer.units, decimals_for(answer.units, distinct_findings(answer.check)),
                          style.inches};
    Document out{.title = "At the lathe: " + listed(answer.title, 100), .large = true};
    out.add(Headline{.text = lathe_answer(answer, lengths),
                     .ink = Ink::strong,
                     .aside = fmt::format("Lengths in {}{}. For fit only.", plural(answer.units),
                                          style.inches ? ", inches in brackets" : "")});
    out.add(cautions_block(answer.check.cautions, NextWork::cut));
    const Document missing = not_assessed(answer, false);
    if (!answer.plan) return out.add(missing);
    if (answer.plan->plans.empty()) return out.add(no_plan(*answer.plan, true)).add(missing);
    const plan::PlanMade& plan = answer.plan->plans.front();
    if (leaves_all(plan)) return out.add(missing);
    std::size_t count = 0;
    for (const plan::CutMade& cut : plan::in_order_of_work(plan)) {
        const std::string letter = sheet::letter_of(count++);
        const std::string size =
            told_finish(cut.by_amount ? cut.remove : cut.finish, lengths.decimals);
        add_work(out, answer,
                 cut.by_amount ? fmt::format("{}: take {} off {}", letter, size, listed(cut.face))
                               : fmt::format("{}: cut {} to {}", letter, listed(cut.face), size),
                 lathe_cut(cut, lengths), cut.part, letter, cut.by_amount ? "" : size);
    }
    for (const plan::SkimMade& skim : plan.skims) {
        const std::string letter = sheet::letter_of(count++);
        const std::string size = told_finish(skim.finish, lengths.decimals);
        add_work(out, answer, fmt::format("{}: skim {} to {}", letter, told_turned(skim), size),
                 lathe_skim(skim, lengths), skim.part, letter, size);
    }
    return out.add(Heading{"How"}).add(list_of(how(plan, lengths))).add(missing);
}

std::string lathe_html(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    Document page = lathe_document(answer, style);
    if (!answer.turned.empty()) page.add(turned_by());
    return html_of(page, style.paper);
}

std::string lathe_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    Document out = lathe_document(answer, style);
    std::erase_if(out.blocks,
                  [](const Block& each) { return std::holds_alternative<Picture>(each.content); });
    return markdown_of(out);
}

}  // namespace trialfit::paper
