// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using spin::Estimate;
using spin::SpinAnswer;

std::string inertia_range(const Estimate& value) {
    return both_ends(kg_cm2(value.least), kg_cm2(value.greatest));
}

std::string speed_or_stop(double rpm) {
    return rpm > 0.0 ? rpm_left(rpm) : "stops";
}

Table inertia_table(const SpinAnswer& answer) {
    const bool with_speed = answer.spark.has_value();
    Table out{.columns = {Column::names("part"), "g", "kg cm2", "at its\nlimits"}};
    if (with_speed) out.columns.emplace_back("without it:\nrpm at the spark");
    const auto add = [&](std::string name, std::string mass, const Estimate& inertia,
                         std::string without) {
        std::vector<Cell> cells{std::move(name), std::move(mass), kg_cm2(inertia.middle),
                                inertia_range(inertia)};
        if (with_speed) cells.emplace_back(std::move(without));
        out.add(std::move(cells));
    };
    for (const spin::PartInertia& each : answer.inertia.parts)
        add(fmt::format("{}, {}", listed(each.part), listed(each.material)),
            fixed(each.mass_kg.middle * 1e3, 0), each.inertia_kg_m2,
            each.without ? speed_or_stop(each.without->at_firing_rpm) : "");
    if (answer.inertia.crank_kg_m2) add("crank_inertia", "", *answer.inertia.crank_kg_m2, "");
    add(answer.inertia.whole ? "all together" : "all that is known", "", answer.inertia.known_kg_m2,
        "");
    return out;
}

// One line a material.
std::vector<std::string> density_sources(const SpinAnswer& answer) {
    std::vector<std::string> out;
    for (const spin::PartInertia& each : answer.inertia.parts) {
        std::string line = fmt::format("{}: {} kg/m3 ({}).", listed(each.material),
                                       brief(each.density_kg_m3, 5), each.density_source);
        if (std::ranges::find(out, line) == out.end()) out.push_back(std::move(line));
    }
    return out;
}

Row judged_row(std::string what, const Estimate& is, const auto& told, std::string needed,
               std::optional<stack::Verdict> verdict) {
    return {.cells = {std::move(what), told(is.least), told(is.middle), told(is.greatest),
                      std::move(needed),
                      verdict ? Cell(loud_word(*verdict), ink(*verdict)) : Cell()}};
}

std::string plain_joule(double value) {
    return fixed(value, 2);
}

Table path_table(const SpinAnswer& answer) {
    Table out{.columns = {Column::names("from closing to the spark"), "least", "middle", "greatest",
                          "needed", Column::words("")}};
    const auto add = [&](std::string what, const Estimate& is, const auto& told,
                         const std::optional<spin::Held>& held, const auto& needs) {
        out.rows.push_back(judged_row(
            std::move(what), is, told,
            held && held->verdict != stack::Verdict::not_judged ? needs(held->needs.greatest) : "",
            held ? std::optional(held->verdict) : std::nullopt));
    };
    const std::optional<spin::Held> none;
    if (answer.started && answer.started->energy_j)
        add("energy where it closes, J", *answer.started->energy_j, plain_joule, answer.carried,
            joule_enough);
    if (answer.started && answer.started->rpm)
        add("speed there, rpm", *answer.started->rpm, speed_or_stop, none, rpm_needed);
    if (!answer.compression) return out;
    const auto path = [&](const spin::CompressionPath& each, std::string_view to) {
        add(fmt::format("compression to the {}, J", to), each.work_j, plain_joule, none,
            joule_enough);
        if (each.drag_j)
            add(fmt::format("drag to the {}, J", to), *each.drag_j, plain_joule, none,
                joule_enough);
    };
    if (answer.compression->to_firing) path(*answer.compression->to_firing, "spark");
    path(answer.compression->to_top, "top");
    if (answer.spark)
        add("speed left at the spark, rpm", answer.spark->has, speed_or_stop, answer.spark,
            rpm_needed);
    return out;
}

std::string angle_range(const Estimate& value) {
    return both_ends(fixed(value.least, 2), fixed(value.greatest, 2));
}

std::string path_words(const SpinAnswer& answer) {
    const spin::Compression& c = *answer.compression;
    std::string out = fmt::format(
        "The cylinder closes {} degrees before the top on {} cm3", angle_range(c.closes_deg),
        both_ends(fixed(c.trapped_cm3.least, 1), fixed(c.trapped_cm3.greatest, 1)));
    if (c.to_firing)
        out += fmt::format(" and fires {} degrees before it", angle_range(c.to_firing->degrees));
    return out +
           ". Compression is what the crank has to give: what the air under the piston gives "
           "is taken off.";
}

std::string what_decides(const SpinAnswer& answer) {
    if (answer.started->by != spin::StarterKind::speed)
        return "The starter's energy decides, and a heavier rotor does not add to it: it takes "
               "more "
               "energy to the same speed and passes the spark slower. Compression takes the same "
               "from a heavy rotor as from a light one, so that neither is carried over the top "
               "better.";
    return "The starter's speed decides. At that speed a heavier rotor holds more energy and loses "
           "less of its speed to compression; but somebody has to put that energy in, and a "
           "starter that cannot brings it to less speed.";
}

std::string inertia_needed(const spin::InertiaLimit& limit) {
    if (limit.at_most) {
        if (limit.middle_kg_m2.value_or(0.0) == 0.0)
            return "No inertia sparks: compression takes all that the starter gives.";
        const double sure = limit.least_kg_m2.value_or(0.0);
        return fmt::format("It just sparks with {} kg cm2 in all{}: with less it is faster.",
                           kg_cm2_at_most(*limit.middle_kg_m2),
                           sure == 0.0
                               ? ", and in the worst case no inertia is little enough"
                               : fmt::format(" ({} in the worst case)", kg_cm2_at_most(sure)));
    }
    if (!limit.middle_kg_m2)
        return "No inertia makes it spark: the starter turns no faster than the ignition asks for.";
    return fmt::format("It just sparks and is carried over with {} kg cm2 in all ({}).",
                       kg_cm2_enough(*limit.middle_kg_m2),
                       limit.greatest_kg_m2
                           ? kg_cm2_enough(*limit.greatest_kg_m2) + " in the worst case"
                           : std::string("in the worst case none is enough"));
}

Document needed_section(const SpinAnswer& answer) {
    Document out;
    if (answer.started) out.under(Paragraph{what_decides(answer)});
    if (!answer.needed) return out;
    const Estimate& energy = answer.needed->energy_j;
    out.under(Paragraph{fmt::format(
        "With what turns as it is, {} J where the cylinder closes just do ({} in the worst case). "
        "{}",
        joule_enough(energy.middle), joule_enough(energy.greatest),
        inertia_needed(answer.needed->inertia))});
    return out;
}

// A coefficient of 2 leaves nothing of the speed at its slowest.
std::string too_uneven(const Estimate& unevenness) {
    constexpr double kStops = 2.0;
    if (unevenness.greatest < kStops) return "";
    return fmt::format(
        ". From 2 on nothing is left of its speed at the top: it {} idle that slowly",
        unevenness.least < kStops ? "may not" : "does not");
}

Document running_section(const SpinAnswer& answer) {
    Facts out{.lines = {}, .label_columns = 14};
    const auto span = [](const Estimate& value, int decimals) {
        return both_ends(fixed(value.least, decimals), fixed(value.greatest, decimals));
    };
    if (answer.unevenness)
        out.lines.push_back(
            {"unevenness",
             fmt::format("{} at idle: coefficient of fluctuation of speed, of "
                         "compression alone with a full charge{}",
                         span(*answer.unevenness, 3), too_uneven(*answer.unevenness))});
    for (const spin::Running& each : answer.running) {
        const bool idle = each.at == spin::Running::At::idle;
        std::string text = fmt::format("{} rpm", span(each.rpm, 0));
        if (each.rim_m_s)
            text += fmt::format(", rim {} m/s ({})", span(*each.rim_m_s, 1), listed(each.ring));
        if (each.stored_j) text += fmt::format(", {} J stored", span(*each.stored_j, 1));
        out.lines.push_back({idle ? "at idle" : "at full speed", text});
    }
    Document document;
    if (out.lines.empty()) return document;
    document.under(std::move(out));
    return document.under(
        Paragraph{.text = "Held to no limit here: nothing in this says how fast it may run.",
                  .indented = true});
}

}  // namespace

Document document_of(const SpinAnswer& answer, const plan::PlanAnswer* cheapest) {
    Document out;
    out.under(Headline{.text = spin_headline(answer), .ink = ink(answer.verdict)});
    out.add_details(Document{}.add(Paragraph{
        titled(answer.title, answer.file) +
        ". Inertia about the shaft. Least and greatest: every range at its worst at once; middle: "
        "every range at its middle."}));
    out.add_list("Not judged", words(answer.not_judged));
    out.add(Heading{"What turns"}).under(inertia_table(answer));
    if (Table path = path_table(answer); !path.rows.empty()) {
        out.add(Heading{"The way to the spark"}).under(std::move(path));
        if (answer.compression) out.add_details(Document{}.under(Paragraph{path_words(answer)}));
    }
    Document last;
    if (Document needed = needed_section(answer); !needed.blocks.empty())
        last.add(Heading{"What would do"}).add(std::move(needed));
    if (Document running = running_section(answer); !running.blocks.empty())
        last.add(Heading{"Running"}).add(std::move(running));
    last.add(Heading{"Why a spark may be weak"}).add(weak_spark_section(answer, cheapest));
    last.add_list("Notes", words(answer.notes));
    last.add_list("Densities", density_sources(answer));
    last.add_list("Not assessed", words(answer.not_assessed));
    last.add(cautions_block(answer.cautions, NextWork::start));
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
