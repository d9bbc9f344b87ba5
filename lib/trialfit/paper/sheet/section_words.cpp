// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/paper/check/findings.hpp>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

using draw::DimensionKind;
using draw::SectionDimension;

constexpr double kAlike = 1e-9;

std::string told_shims(const draw::ShimsDrawn& shims) {
    std::string out;
    for (const double each : shims.thicknesses)
        out += (out.empty() ? "" : " + ") + brief(each);
    return out;
}

struct SectionWriter {
    const draw::Section& section;
    std::size_t width;
    std::vector<CheckFinding> all;
    int decimals;

    SectionWriter(const draw::Section& of, std::size_t columns)
        : section(of),
          width(columns),
          all(findings(of.check)),
          decimals(decimals_for(of.units, all)) {}

    [[nodiscard]] std::string length(double value) const { return fixed(value, decimals); }
    [[nodiscard]] std::string name(const std::string& text) const {
        return isolated(listed(text, width));
    }
    // Above the view there is more room than beside it.
    [[nodiscard]] std::string long_name(const std::string& text) const {
        constexpr std::size_t kMore = 12;
        return isolated(listed(text, width + kMore));
    }

    [[nodiscard]] const CheckFinding& finding_of(const SectionDimension& dimension) const {
        std::size_t first = 0;  // findings() has the clearances, the checks, the radial gaps
        if (dimension.kind != DimensionKind::clearance) first += section.check.clearances.size();
        if (dimension.kind == DimensionKind::radial) first += section.check.checks.size();
        return all[first + dimension.index];
    }

    // What eccentricity takes is not in the drawing: there the parts lie about one axis.
    [[nodiscard]] std::string_view where_round(const SectionDimension& dimension,
                                               const CheckFinding& f) const {
        const double drawn = dimension.to.r - dimension.from.r;
        if (!dimension.across || length(drawn) == length(f.value.nominal)) return "";
        return f.value.nominal < drawn ? ", at the narrowest" : ", at the widest";
    }

    [[nodiscard]] std::string limits(const CheckFinding& f) const {
        std::string out;
        if (f.at_least && *f.at_least > 0.0) out += fmt::format(", {} needed", length(*f.at_least));
        if (f.at_most) out += fmt::format(", {} at most", length(*f.at_most));
        return out + in_its_state(f.state);
    }

    // A gap between two tapers is small, and that it is there at all is what matters.
    [[nodiscard]] std::string open_by(const SectionDimension& dimension) const {
        constexpr int kFiner = 1;
        return fixed(dimension.value, decimals + kFiner);
    }

    [[nodiscard]] std::string figure(const SectionDimension& dimension) const {
        if (dimension.kind == DimensionKind::open_cone) return open_by(dimension);
        return length(dimension.across ? finding_of(dimension).value.nominal : dimension.value);
    }

    // What is only doubtful is right in the drawing: its worst value stands beside it.
    [[nodiscard]] std::string worst_of(const CheckFinding& f) const {
        if (f.verdict != stack::Verdict::doubtful) return {};
        const auto at = pinch(f, f.value.worst);
        return at ? fmt::format(" (worst {})", length(at->end)) : std::string();
    }

    [[nodiscard]] draw::Words finish(const draw::FinishDrawn& size) const {
        const std::string name_of = long_name(size.of);
        const double holds = (size.most - size.least) / 2.0;
        const bool even = std::abs(size.most - size.finish - holds) < kAlike;
        std::string strong = told_finish(size.finish, decimals);
        if (even && holds > 0.0) strong += " \u00b1" + told_finish(holds, decimals);
        std::string rest = " " + name_of;
        if (!even)
            rest += fmt::format(", {} to {}", told_finish(size.least, decimals),
                                told_finish(size.most, decimals));
        if (size.datum) {
            rest += " from " + draw::datum_letter(*size.datum);
        } else {
            strong = "\u2300" + strong;
        }
        return {strong, rest};
    }

    [[nodiscard]] draw::Words words(const SectionDimension& dimension) const {
        if (dimension.kind == DimensionKind::stands_proud) {
            const auto& contact = *section.check.first_contact;
            return {length(dimension.value),
                    fmt::format(" before its seat: {} rests on {}", name(contact.part),
                                name(contact.inboard))};
        }
        if (dimension.kind == DimensionKind::open_cone)
            return {open_by(dimension), " open here: the tapers differ"};
        const CheckFinding& f = finding_of(dimension);
        std::string strong = length(f.value.nominal);
        if (f.verdict != stack::Verdict::holds)
            strong = fmt::format("{} {}{}", loud_word(f.verdict), strong, worst_of(f));
        if (f.about == CheckFinding::About::clearance)
            return {strong, fmt::format(" {} to {}{}", name(f.first), name(f.second), limits(f))};
        if (!dimension.across) return {strong, fmt::format(" {}{}", long_name(f.name), limits(f))};
        const std::string about = fmt::format("{}{}", where_round(dimension, f), limits(f));
        return {strong, " " + name(f.name), about.substr(std::min<std::size_t>(2, about.size()))};
    }
};

}  // namespace

draw::SectionWords section_words(const draw::Section& section, std::size_t width) {
    const SectionWriter writer(section, width);
    draw::SectionWords out;
    for (const draw::PartShape& part : section.parts)
        out.parts.push_back({writer.name(part.name), ""});
    for (const draw::Foul& foul : section.fouls)
        out.fouls.push_back({"in the way: " + writer.length(foul.depth), ""});
    for (const draw::Removal& removal : section.removals)
        out.removals.push_back({"take off " + writer.length(removal.amount),
                                removal.on_diameter ? " on diameter" : ""});
    for (const draw::ShimsDrawn& shims : section.shims)
        out.shims.push_back(
            {shims.thicknesses.size() == 1 ? "shim" : "shims", " " + told_shims(shims)});
    for (const draw::KeyDrawn& key : section.keys)
        out.keys.push_back({"key",
                            fmt::format(" {} high, room {}", brief(key.height), brief(key.room)),
                            "where round the cone: not given"});
    for (const draw::LeadInDrawn& each : section.lead_ins)
        out.lead_ins.push_back({writer.length(std::abs(each.end.z - each.whole.z)),
                                fmt::format(" of {}: not whole turns", writer.name(each.thread))});
    for (const draw::BearingEnd& each : section.bearings)
        out.bearings.push_back({"touches here only",
                                fmt::format(": {} on {}", writer.name(section.parts[each.hub].name),
                                            writer.name(section.parts[each.shaft].name))});
    for (const draw::FinishDrawn& finish : section.finishes)
        out.finishes.push_back(writer.finish(finish));
    for (const SectionDimension& dimension : section.dimensions) {
        out.dimensions.push_back(writer.words(dimension));
        out.figures.push_back(writer.figure(dimension));
    }
    return out;
}

std::string section_in_words(const draw::Section& section) {
    const SectionWriter writer(section, 60);
    const std::string unit(spoken(section.units));
    std::string out =
        headline(section.check) + " Section above the axis, parts from inboard to outboard:";
    for (std::size_t p = 0; p < section.parts.size(); ++p)
        out += fmt::format("{} {}", p == 0 ? "" : ",", listed(section.parts[p].name));
    out += ".";
    for (const draw::PartShape& part : section.parts)
        if (part.off_place > 0.0)
            out += fmt::format(" {} rests {} {} outboard of its place.", listed(part.name),
                               writer.length(part.off_place), unit);
    for (const draw::PartShape& part : section.parts)
        if (!part.unsure.empty())
            out += fmt::format(" What is dashed of {} is drawn by guess: it is not measured.",
                               listed(part.name));
    for (const draw::Foul& foul : section.fouls)
        out +=
            fmt::format(" {} and {} would be in the same place over {} {}.", listed(foul.inboard),
                        listed(foul.outboard), writer.length(foul.depth), unit);
    for (const draw::ShimsDrawn& shims : section.shims)
        out += fmt::format(" Shims under {}: {} {}.", listed(section.parts[shims.over].name),
                           told_shims(shims), unit);
    for (const draw::FinishDrawn& finish : section.finishes)
        out += fmt::format(
            " {} is to be {} {}{}, {} to {}.", listed(finish.of),
            told_finish(finish.finish, writer.decimals), unit,
            finish.datum ? fmt::format(" from {}", listed(section.datums[*finish.datum].face))
                         : std::string(" on diameter"),
            told_finish(finish.least, writer.decimals), told_finish(finish.most, writer.decimals));
    for (const SectionDimension& dimension : section.dimensions) {
        if (dimension.kind == DimensionKind::stands_proud) continue;
        if (dimension.kind == DimensionKind::open_cone) {
            out += fmt::format(
                " The cone of {} stands open by {} {} all round at one end: the tapers differ.",
                listed(section.parts[dimension.index].name), writer.open_by(dimension), unit);
            continue;
        }
        const CheckFinding& f = writer.finding_of(dimension);
        out += fmt::format(" {}: {} {}{}{}{}, {}.", listed(f.name), writer.length(f.value.nominal),
                           unit, writer.worst_of(f), writer.where_round(dimension, f),
                           writer.limits(f), word(f.verdict));
    }
    return out;
}

}  // namespace trialfit::paper
