// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/draw/page/lettered.hpp>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/start/fill.hpp>
#include <trialfit/paper/start/worksheet.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

// No wider than a phone of 360 px shows without making it smaller; of one part, no wider than goes
// beside its form. Millimetres.
constexpr double kAllWidth = 87.0;
constexpr double kPartWidth = 65.0;
// On the page to in the drawing: its letters of 2.8 mm are to be 11 px on a screen at least.
constexpr double kLarger = 1.06;
constexpr double kMetalHeight = 28.0;
// Rows of a form that are no higher than the picture beside it.
constexpr std::size_t kBesidePicture = 5;

// "left_bearing" -> "Left bearing".
std::string headed(std::string_view part) {
    std::string out(part);
    std::ranges::replace(out, '_', ' ');
    if (out.front() >= 'a' && out.front() <= 'z')
        out.front() = static_cast<char>(out.front() - 'a' + 'A');
    return out;
}

std::string_view part_named(std::string_view place) {
    return place.substr(0, place.find('.'));
}

// A distance from one part to another is on the drawing of all.
bool between_parts(const StartLetter& letter) {
    return letter.to.find('.') != std::string_view::npos &&
           part_named(letter.from) != part_named(letter.to);
}

std::string in_speech(std::string_view gauge) {
    std::string out(gauge);
    std::ranges::replace(out, '_', ' ');
    return out;
}

// What it is measured with.
std::string tool_of(const StartLetter& letter) {
    if (!letter.gauge.empty()) return in_speech(letter.gauge);
    switch (letter.asked) {
        case LetterAsks::play:
            return "dial gauge";
        case LetterAsks::thread:
            return "thread gauge";
        case LetterAsks::keep:
        case LetterAsks::height:
            return "-";
        case LetterAsks::shims:
            return "micrometer";
        default:
            return "caliper";
    }
}

// The letters of a picture in words, for those who cannot see it.
std::string described(const StartKind& kind, const draw::Lettered& picture) {
    std::string out;
    for (const StartLetter& each : kind.letters) {
        const auto is_it = [&each](const std::string& letter) { return letter == each.letter; };
        const bool there =
            std::ranges::any_of(picture.letters, is_it) ||
            std::ranges::any_of(picture.diameters, [&](const draw::LetteredDiameter& dia) {
                return is_it(dia.letter);
            });
        if (there) out += fmt::format("{}: {}. ", each.letter, each.what);
    }
    return out;
}

Picture picture_block(const StartKind& kind, const draw::Lettered& picture) {
    const std::string of =
        picture.part.empty() ? "all parts together" : in_speech(picture.part) + ", with letters";
    const SvgTitle title{.title = "Section above the axis: " + of,
                         .description = described(kind, picture),
                         .id = "picture-" + (picture.part.empty() ? "all" : picture.part)};
    const double width = picture.part.empty() ? kAllWidth : kPartWidth;
    return {.label = title.title,
            .svg = svg(draw::drawn(picture, {std::string(kind.ends[0]), std::string(kind.ends[1])},
                                   width / kLarger, kMetalHeight),
                       title, true),
            .width = width};
}

// The picture of a part, where there is one.
bool beside(const std::vector<draw::Lettered>& pictures, std::string_view part,
            const StartKind& kind, Document& into) {
    for (const draw::Lettered& picture : pictures) {
        if (picture.part != part) continue;
        into.add(picture_block(kind, picture));
        return true;
    }
    return false;
}

Table form_of(const StartKind& kind, std::string_view part, quantity::Unit units) {
    Table out{.columns = {Column::words("Letter"), Column::names("What to measure, and how"),
                          Column::words("With"), Column::for_paper("1"), Column::for_paper("2"),
                          Column::for_paper("3")},
              .caption = headed(part) + ": what each letter stands for",
              .form = true};
    for (const StartLetter& each : kind.letters) {
        if (each.part != part) continue;
        std::string how = with_lengths(each.how, units);
        if (between_parts(each)) how += " It is on the drawing of all parts.";
        out.add({Cell::strong(std::string(each.letter) + (is_needed(each) ? "*" : "")),
                 Cell(headed(each.what), Ink::plain, std::move(how)), Cell(tool_of(each)),
                 Cell::Kind::blank, Cell::Kind::blank, Cell::Kind::blank});
    }
    return out;
}

Table who_and_when() {
    Table out{.columns = {Column::names("About"), Column::names("Write here")},
              .caption = "Whose sizes these are",
              .form = true};
    for (const char* each : {"What it is, and its parts", "Measured by, and when",
                             "Each gauge, and what it showed when closed"})
        out.add({each, Cell::Kind::blank});
    return out;
}

List before_measuring(const StartKind& kind, quantity::Unit units) {
    std::vector<std::string> out;
    for (const std::string_view each : kind.care)
        out.emplace_back(each);
    for (const std::string_view each : kind.before)
        out.emplace_back(each);
    out.emplace_back(
        "Three readings of each size, each at another place round the part. One will do where "
        "there is no other.");
    out.push_back(with_lengths(
        "Of a diameter that only has to clear others, the greatest reading to {{=0.5}} will do.",
        units));
    out.push_back(with_lengths(
        "A size from a drawing or a catalogue: write it with its limits, {{=12.5}} ±{{=0.05}} or "
        "{{=12.45}}..{{=12.55}}.",
        units));
    out.emplace_back("Leave empty what you cannot measure. Only what has a * is needed.");
    return list_of(std::move(out));
}

}  // namespace

std::vector<draw::LetterAt> letters_drawn(const StartKind& kind) {
    std::vector<draw::LetterAt> out;
    for (const StartLetter& each : kind.letters)
        if (!each.from.empty()) out.push_back({each.letter, each.from, each.to});
    return out;
}

Document worksheet(const StartKind& kind, quantity::Unit units,
                   const std::vector<draw::Lettered>& pictures) {
    Document out{.title = "To measure: " + std::string(kind.title)};
    out.add(Headline{
        .text = "Print this page, measure part by part, and write each size beside its letter.",
        .ink = Ink::strong,
        .aside = fmt::format("Lengths in {}.", plural(units))});
    out.add(Paragraph{
        .text = "Then type it in, letter by letter:",
        .command = fmt::format("trialfit start {} --ask{} -o my-{}.yaml", kind.name,
                               units == quantity::Unit::inch ? " --inches" : "", kind.name)});
    out.add(Heading{"Before you measure"}).add(before_measuring(kind, units));
    out.add(Heading{"All parts"})
        .add(Paragraph{"The shapes are an example's: yours may look otherwise. Lengths run along "
                       "the axis; the letters of diameters stand below it."});
    beside(pictures, "", kind, out);
    out.add(who_and_when());
    out.blocks.back().beside = true;
    std::string_view part;
    for (const StartLetter& each : kind.letters) {
        if (each.part == part) continue;
        part = each.part;
        out.add(Heading{headed(part)});
        const bool drawn = beside(pictures, part, kind, out);
        Table form = form_of(kind, part, units);
        const bool short_form = form.rows.size() <= kBesidePicture;
        out.add(std::move(form));
        out.blocks.back().beside = drawn && short_form;
    }
    return out;
}

std::string worksheet_html(const StartKind& kind, quantity::Unit units,
                           const std::vector<draw::Lettered>& pictures, const std::string& paper) {
    return html_of(worksheet(kind, units, pictures), paper);
}

}  // namespace trialfit::paper
