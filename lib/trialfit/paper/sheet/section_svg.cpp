// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

// Columns of text of this size that go into `width` mm, capitals among them.
std::size_t columns_in(double width, double size) {
    constexpr double kWidest = 0.68;
    return static_cast<std::size_t>(std::max(10.0, width / (size * kWidest)));
}

std::string title_of(const draw::Section& section) {
    const std::string title = section.title.empty() ? file_name(section.file) : section.title;
    return section.planned ? "PLANNED, NOT CUT YET: " + title : title;
}

draw::PageWords common_words() {
    draw::PageWords out;
    out.inboard = "engine side";
    out.outboard = "outboard";
    out.turning = "turning part";
    out.still = "still part";
    out.in_place = "where it should sit";
    out.fouls = "metal in the way";
    out.removals = "to be taken off";
    out.shims = "shims";
    out.presumed = "goes on, size not given";
    out.unsure = "place not measured";
    out.detail = " ";
    return out;
}

// The materials with the parts of each: "steel: rotor, nut; brass: washer". Only what is given.
std::string materials(const draw::Section& section) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const draw::PartShape& part : section.parts) {
        if (part.material.empty()) continue;
        const auto known = std::find_if(all.begin(), all.end(), [&part](const auto& each) {
            return each.first == part.material;
        });
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
    const bool all = parts.size() == 1 &&
                     std::all_of(section.parts.begin(), section.parts.end(),
                                 [](const auto& part) { return part.general_tolerance != 0; });
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

draw::TitleBlock title_block(const draw::Section& section, const DrawnBy& by) {
    draw::BlockField scale = field(20.0, "Scale", "");
    scale.scale = true;
    return {.rows = {{field(82.0, "Title", isolated(title_of(section)), 2, true),
                      field(46.0, "Document", "Section above the axis"),
                      field(52.0, "Status", "Fit study, not for release", 1, true)},
                     {field(82.0, "Material", materials(section), 3),
                      field(46.0, "General tolerance", tolerances(section), 3), std::move(scale),
                      field(32.0, "Lengths in", std::string(plural(section.units)))},
                     {field(41.0, "Drawn by", isolated(by.who)), field(41.0, "Date", by.date),
                      field(98.0, "File", isolated(listed(file_name(section.file), 40)))}}};
}

// What the job was judged in, where it has states with temperatures.
std::string told_temperatures(const draw::Section& section) {
    constexpr double kBench = 20.0;
    std::string out;
    for (const stack::StateTold& state : section.check.states) {
        // On the bench all parts are as they were measured.
        if (state.drawn_home || (state.parts.empty() && state.all_c == kBench)) continue;
        out += fmt::format("{}{} {} C", out.empty() ? "" : "; ", listed(state.name, 30),
                           brief(state.all_c));
        for (const auto& [part, celsius] : state.parts)
            out += fmt::format(", {} {} C", listed(part, 30), brief(celsius));
    }
    return out.empty() ? out : "Judged also at these temperatures: " + out + ".";
}

std::vector<std::string> foot_of(const std::vector<draw::Section>& states,
                                 const draw::PageSize& page) {
    const draw::Section& section = states.front();
    const std::string as_of =
        section.later_entries == 0
            ? std::string()
            : fmt::format(", as it was (recorded later and left out: {})", section.later_entries);
    std::vector<std::string> told{
        fmt::format("{}{}. Lengths in {}, nominal; figures as if every part sat where it should.",
                    isolated(listed(file_name(section.file), 60)), as_of, plural(section.units)),
        "Scale alike both ways. For fit only: nothing here says that a part is safe to run."};
    if (section.checks_left_out > 0)
        told.push_back(
            fmt::format("{} with more room than those here left out; the command check lists all.",
                        counted(section.checks_left_out, "check")));
    if (std::string warm = told_temperatures(section); !warm.empty())
        told.push_back(std::move(warm));
    constexpr double kSize = 2.4;
    std::vector<std::string> out;
    for (const std::string& line : told)
        for (std::string& each : wrapped(line, columns_in(draw::foot_width(page), kSize)))
            out.push_back(std::move(each));
    return out;
}

SvgTitle titles(const draw::Section& section, const std::string& id = "section") {
    return {.title = (section.planned ? "PLANNED, NOT CUT YET: section above the axis: "
                                      : "Section above the axis: ") +
                     listed(title_of(section)),
            .description = section_in_words(section),
            .id = id};
}

}  // namespace

std::variant<draw::Drawing, draw::TooLarge> section_drawing(
    const std::vector<draw::Section>& states, const draw::PageSize& page,
    std::optional<double> scale, const DrawnBy& by) {
    const draw::Section& section = states.front();
    const double width = page.width - 20.0;
    draw::PageWords words = common_words();
    words.title = isolated(listed(title_of(section), columns_in(width, 4.0)));
    if (states.size() == 1)
        words.lines = wrapped(harmless(headline(section.check)), columns_in(width, 3.2));
    words.foot = foot_of(states, page);
    words.block = title_block(section, by);
    std::vector<draw::View> views;
    for (const draw::Section& state : states) {
        views.push_back({&state, section_words(state, page.width > 250.0 ? 34 : 26)});
        if (states.size() == 1) continue;
        views.back().words.heading = views.size() == 1 ? "Before." : "After.";
        views.back().words.heading_lines =
            wrapped(harmless(headline(state.check)), columns_in(width - 12.0, 3.2));
    }
    return draw::laid_out(views, words, page, scale);
}

std::variant<std::string, draw::TooLarge> section_svg(const std::vector<draw::Section>& states,
                                                      const draw::PageSize& page,
                                                      std::optional<double> scale,
                                                      const DrawnBy& by) {
    const auto drawing = section_drawing(states, page, scale, by);
    if (const auto* large = std::get_if<draw::TooLarge>(&drawing)) return *large;
    SvgTitle title = titles(states.front());
    if (states.size() > 1)
        title.description =
            "Before: " + title.description + " After: " + section_in_words(states.back());
    return svg(std::get<draw::Drawing>(drawing), title, false);
}

std::string section_figure(const draw::Section& section, double width, double height,
                           const std::string& id) {
    // What has many names may take more of the page, and then all of it.
    constexpr double kMore = 2.0;
    for (const double most : {height, kMore * height}) {
        const auto drawing = draw::laid_out({{&section, section_words(section, 26)}},
                                            common_words(), {width, most, false}, std::nullopt);
        if (const auto* fitted = std::get_if<draw::Drawing>(&drawing))
            return svg(*fitted, titles(section, id), true);
    }
    return {};
}

}  // namespace trialfit::paper
