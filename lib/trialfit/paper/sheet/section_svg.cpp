// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>

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
    out.in_place = "where it should sit";
    out.fouls = "metal in the way";
    out.removals = "to be taken off";
    out.shims = "shims";
    out.presumed = "goes on, size not given";
    out.unsure = "place not measured";
    out.detail = " ";
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

std::variant<std::string, draw::TooLarge> section_svg(const std::vector<draw::Section>& states,
                                                      const draw::PageSize& page,
                                                      std::optional<double> scale) {
    const draw::Section& section = states.front();
    const double width = page.width - 20.0;
    draw::PageWords words = common_words();
    words.title = isolated(listed(title_of(section), columns_in(width, 4.0)));
    if (states.size() == 1)
        words.lines = wrapped(harmless(headline(section.check)), columns_in(width, 3.2));
    const std::string as_of =
        section.later_entries == 0
            ? std::string()
            : fmt::format(", as it was (recorded later and left out: {})", section.later_entries);
    words.foot = {
        fmt::format("{}{}. Lengths in {}, nominal; figures as if every part sat where it "
                    "should.",
                    isolated(listed(file_name(section.file), 60)), as_of, plural(section.units)),
        "Section above the axis, scale alike both ways. For fit only: nothing here says that a "
        "part "
        "is safe to run."};
    if (section.checks_left_out > 0)
        words.foot.push_back(
            fmt::format("{} with more room than those here left out; the command check lists all.",
                        counted(section.checks_left_out, "check")));
    std::vector<std::string> foot;
    for (const std::string& line : words.foot)
        for (std::string& each : wrapped(line, columns_in(width, 2.8)))
            foot.push_back(std::move(each));
    words.foot = std::move(foot);
    std::vector<draw::View> views;
    for (const draw::Section& state : states) {
        views.push_back({&state, section_words(state, page.width > 250.0 ? 34 : 26)});
        if (states.size() == 1) continue;
        views.back().words.heading = views.size() == 1 ? "Before." : "After.";
        views.back().words.heading_lines =
            wrapped(harmless(headline(state.check)), columns_in(width - 20.0, 3.4));
    }
    const auto drawing = draw::laid_out(views, words, page, scale);
    if (const auto* large = std::get_if<draw::TooLarge>(&drawing)) return *large;
    SvgTitle title = titles(section);
    if (states.size() > 1)
        title.description =
            "Before: " + title.description + " After: " + section_in_words(states.back());
    return svg(std::get<draw::Drawing>(drawing), title, false);
}

std::string section_figure(const draw::Section& section, double width, double height,
                           const std::string& id) {
    const auto drawing = draw::laid_out({{&section, section_words(section, 26)}}, common_words(),
                                        {width, height, false}, std::nullopt);
    const auto* fitted = std::get_if<draw::Drawing>(&drawing);
    return fitted == nullptr ? std::string() : svg(*fitted, titles(section, id), true);
}

}  // namespace trialfit::paper
