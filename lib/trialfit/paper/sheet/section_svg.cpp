// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <limits>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/sheet/title_block.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

std::string title_of(const draw::Section& section) {
    return paper::title_of(section.planned, section.title, section.file);
}

draw::PageWords common_words() {
    draw::PageWords out;
    out.inboard = "engine side";
    out.no_room = " (no room in the view to point to it)";
    out.outboard = "outboard";
    out.turning = "turning part";
    out.still = "still part";
    out.in_place = "where it should sit";
    out.fouls = "metal in the way";
    out.removals = "to be taken off";
    out.shims = "shims";
    out.keys = "key: length and place not given";
    out.presumed = "goes on, size not given";
    out.unsure = "place not measured";
    out.detail = " ";
    return out;
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

// How much of what there is to say goes on a page.
struct Room {
    std::size_t figures = std::numeric_limits<std::size_t>::max();  // along and across, a view
    std::size_t lines = std::numeric_limits<std::size_t>::max();    // of a headline
    bool names = true;                                              // of the parts
};

constexpr Room kBare{.figures = 3, .lines = 4, .names = false};
constexpr std::size_t kMostTried = 200;  // parts that are tried with their names

// The worst figures of the section, in their order; of those alike, the first.
draw::Section with_worst(draw::Section section, std::size_t figures) {
    std::vector<draw::SectionDimension>& all = section.dimensions;
    const auto rank = [](const draw::SectionDimension& each) {
        const bool proud = each.kind == draw::DimensionKind::stands_proud;
        return proud ? static_cast<int>(stack::Verdict::fails) : static_cast<int>(each.verdict);
    };
    while (all.size() > figures) {
        // The last of the least.
        const auto least = std::min_element(
            all.rbegin(), all.rend(),
            [&](const auto& one, const auto& other) { return rank(one) < rank(other); });
        all.erase(std::next(least).base());
    }
    return section;
}

// Warnings come first in a headline and the verdict last: what is left out stands between.
std::vector<std::string> headline_in(const stack::CheckAnswer& check, std::size_t columns,
                                     std::size_t most) {
    std::vector<std::string> lines = wrapped(harmless(headline(check)), columns);
    if (lines.size() <= most) return lines;
    const auto half = static_cast<std::ptrdiff_t>(most / 2);
    std::vector<std::string> out(lines.begin(), lines.begin() + half);
    out.emplace_back("[... more than this page has room for: the command check says all ...]");
    out.insert(out.end(), lines.end() - half, lines.end());
    return out;
}

// What a page does not show of a section; empty where it shows all.
std::string left_out_words(std::size_t figures, bool names, const draw::Section& section) {
    std::string out;
    if (figures > 0)
        out = fmt::format("{} left out for want of room; the command check lists all.",
                          counted(figures, "figure"));
    const char* const space = out.empty() ? "" : " ";
    if (!names)
        out += fmt::format("{}Its {} are not named for want of room.", space,
                           counted(section.parts.size(), "part"));
    else if (section.parts.size() > draw::kMostNamedInside)
        out += fmt::format("{}Of so many parts those that no clear leader reaches are not named.",
                           space);
    return out;
}

std::vector<std::string> foot_of(const std::vector<draw::Section>& states,
                                 const draw::PageSize& page, std::size_t left_out, bool names) {
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
    if (std::string less = left_out_words(left_out, names, section); !less.empty())
        told.push_back(std::move(less));
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

std::variant<draw::Drawing, draw::TooLarge> drawn_with(const std::vector<draw::Section>& given,
                                                       const draw::PageSize& page,
                                                       std::optional<double> scale,
                                                       const DrawnBy& by, const Room& room) {
    std::vector<draw::Section> states;
    std::size_t left_out = 0;
    for (const draw::Section& each : given) {
        states.push_back(with_worst(each, room.figures));
        left_out += each.dimensions.size() - states.back().dimensions.size();
    }
    const draw::Section& section = states.front();
    const double width = page.width - 20.0;
    draw::PageWords words = common_words();
    words.title = isolated(listed(title_of(section), columns_in(width, 4.0)));
    if (states.size() == 1)
        words.lines = headline_in(section.check, columns_in(width, 3.2), room.lines);
    words.foot = foot_of(states, page, left_out, room.names);
    words.block = section_block(section, "Section above the axis", by);
    std::vector<draw::View> views;
    for (const draw::Section& state : states) {
        views.push_back({&state, section_words(state, page.width > 250.0 ? 34 : 26)});
        if (!room.names) views.back().words.parts.assign(state.parts.size(), {});
        if (states.size() == 1) continue;
        views.back().words.heading = views.size() == 1 ? "Before." : "After.";
        views.back().words.heading_lines =
            headline_in(state.check, columns_in(width - 12.0, 3.2), room.lines);
    }
    return draw::laid_out(views, words, page, scale);
}

}  // namespace

std::variant<draw::Drawing, draw::TooLarge> section_drawing(
    const std::vector<draw::Section>& states, const draw::PageSize& page,
    std::optional<double> scale, const DrawnBy& by) {
    // So many names have no room on any page, and each try takes long.
    const auto too_many = [](const draw::Section& each) { return each.parts.size() > kMostTried; };
    if (!scale && std::ranges::any_of(states, too_many))
        return drawn_with(states, page, scale, by, kBare);
    auto whole = drawn_with(states, page, scale, by, {});
    if (scale || std::holds_alternative<draw::Drawing>(whole)) return whole;
    // Figures before words: the words say what the answer is.
    for (const Room& room : {Room{.figures = 6}, Room{.figures = 3}, Room{.figures = 6, .lines = 4},
                             Room{.figures = 3, .lines = 4}, kBare}) {
        auto less = drawn_with(states, page, scale, by, room);
        if (std::holds_alternative<draw::Drawing>(less)) return less;
    }
    return whole;
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

std::optional<draw::Drawing> details_drawing(const draw::Section& section,
                                             const draw::PageSize& page, const DrawnBy& by) {
    const double width = page.width - 20.0;
    draw::PageWords words = common_words();
    words.title = isolated(listed(title_of(section), columns_in(width, 4.0)));
    words.lines = wrapped(harmless(headline(section.check)), columns_in(width, 3.2));
    words.foot = foot_of({section}, page, 0, true);
    words.block = section_block(section, "Details", by);
    return draw::detail_page({&section, section_words(section, 26)}, words, page);
}

std::optional<std::string> details_svg(const draw::Section& section, const draw::PageSize& page,
                                       const DrawnBy& by) {
    const auto drawing = details_drawing(section, page, by);
    if (!drawing) return std::nullopt;
    return svg(*drawing, titles(section, "details"), false);
}

std::string section_figure(const draw::Section& section, double width, double height,
                           const std::string& id) {
    // What has many names may take more of the page, and then all of it.
    constexpr double kMore = 2.0;
    for (const Room& room :
         {Room{}, Room{.figures = 6}, Room{.figures = 3}, Room{.figures = 3, .names = false}}) {
        const draw::Section shown = with_worst(section, room.figures);
        if (room.names && shown.parts.size() > kMostTried) continue;
        draw::SectionWords words = section_words(shown, 26);
        if (!room.names) words.parts.assign(shown.parts.size(), {});
        const std::string told = left_out_words(section.dimensions.size() - shown.dimensions.size(),
                                                room.names, section);
        if (!told.empty()) words.heading = "Not all is shown.";
        if (!told.empty()) words.heading_lines = wrapped(told, columns_in(width - 30.0, 3.2));
        for (const double most : {height, kMore * height}) {
            const auto drawing = draw::laid_out({{&shown, words}}, common_words(),
                                                {width, most, false}, std::nullopt);
            if (const auto* fitted = std::get_if<draw::Drawing>(&drawing))
                return svg(*fitted, titles(section, id), true);
        }
    }
    return {};
}

}  // namespace trialfit::paper
