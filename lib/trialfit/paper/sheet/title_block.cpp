// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/title_block.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>
#include <utility>
#include <vector>

namespace trialfit::paper {

namespace {

// The materials with the parts of each: "steel: rotor, nut; brass: washer". Only what is given.
std::string materials(const draw::Section& section) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const draw::PartShape& part : section.parts) {
        if (part.material.empty()) continue;
        const auto known = std::ranges::find_if(
            all, [&part](const auto& each) { return each.first == part.material; });
        if (known == all.end()) {
            all.emplace_back(part.material, listed(part.name, 20));
        } else {
            known->second += ", " + listed(part.name, 20);
        }
    }
    std::string out;
    for (const auto& [material, parts] : all)
        out += fmt::format("{}{}: {}", out.empty() ? "" : "; ", listed(material, 24), parts);
    return out;
}

// "ISO 2768-m"; with the parts that go by another class.
std::string tolerances(const draw::Section& section) {
    std::map<char, std::string> parts;
    for (const draw::PartShape& part : section.parts)
        if (part.general_tolerance != 0) {
            std::string& names = parts[part.general_tolerance];
            names += (names.empty() ? "" : ", ") + listed(part.name, 20);
        }
    const bool all = parts.size() == 1 && std::ranges::all_of(section.parts, [](const auto& part) {
                         return part.general_tolerance != 0;
                     });
    std::string out;
    for (const auto& [letter, names] : parts)
        out += fmt::format("{}ISO 2768-{}{}", out.empty() ? "" : "; ", letter,
                           all ? std::string() : ": " + names);
    return out;
}

// A field with its words in at most `most` lines; what goes beyond ends in "...".
draw::BlockField field(double width, std::string name, const std::string& words,
                       std::size_t most = 1, bool strong = false) {
    draw::BlockField out{.width = width, .name = std::move(name), .lines = {}, .strong = strong};
    if (words.empty()) return out;
    constexpr double kSize = 2.6;
    const std::size_t columns = columns_in(width - 2.0, kSize);
    out.lines = wrapped(harmless(words), columns);
    if (out.lines.size() <= most) return out;
    out.lines.resize(most);
    out.lines.back() = shortened(out.lines.back() + " ...", columns);
    return out;
}

// What a title block says of a drawing.
struct BlockWords {
    std::string title;
    std::string document;
    std::string materials;
    std::string tolerances;
    std::string scale;  ///< empty: the page's
    std::string units;
    std::string file;
};

draw::TitleBlock block_of(const BlockWords& words, const DrawnBy& by) {
    draw::BlockField scale = field(20.0, "Scale", words.scale);
    scale.scale = words.scale.empty();
    return {.rows = {{field(82.0, "Title", isolated(words.title), 2, true),
                      field(46.0, "Document", words.document),
                      field(52.0, "Status", "Fit study, not for release", 1, true)},
                     {field(82.0, "Material", words.materials, 3),
                      field(46.0, "General tolerance", words.tolerances, 3), std::move(scale),
                      field(32.0, "Lengths in", words.units)},
                     {field(41.0, "Drawn by", isolated(by.who)), field(41.0, "Date", by.date),
                      field(98.0, "File", isolated(listed(words.file, 40)))}}};
}

}  // namespace

std::string title_of(bool planned, const std::string& title, const std::string& file) {
    const std::string known = title.empty() ? file_name(file) : title;
    return planned ? "PLANNED, NOT CUT YET: " + known : known;
}

std::size_t columns_in(double width, double size) {
    constexpr double kWidest = 0.68;
    return static_cast<std::size_t>(std::max(10.0, width / (size * kWidest)));
}

draw::TitleBlock section_block(const draw::Section& section, const std::string& document,
                               const DrawnBy& by) {
    return block_of({.title = title_of(section.planned, section.title, section.file),
                     .document = document,
                     .materials = materials(section),
                     .tolerances = tolerances(section),
                     .scale = {},
                     .units = std::string(plural(section.units)),
                     .file = file_name(section.file)},
                    by);
}

draw::TitleBlock end_block(const sheet::EndAnswer& answer, const DrawnBy& by) {
    return block_of({.title = title_of(answer.planned, answer.title, answer.file),
                     .document = "End view from outboard",
                     .materials = {},
                     .tolerances = {},
                     .scale = "none",
                     .units = std::string(plural(answer.units)),
                     .file = file_name(answer.file)},
                    by);
}

}  // namespace trialfit::paper
