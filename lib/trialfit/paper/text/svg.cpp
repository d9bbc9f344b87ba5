// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string_view>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/svg.hpp>

namespace trialfit::paper {

namespace {

using draw::Fill;
using draw::Pen;

// Widths in mm of ISO 128-2: outlines 0.7 (turning) and 0.35 (still), the rest thin. Every line is
// black or near it; what colour there is repeats what hatching and words say.
std::string_view stroke(Pen pen) {
    switch (pen) {
        case Pen::none:
            return R"(stroke="none")";
        case Pen::outline:
            return R"(stroke="#000" stroke-width="0.35")";
        case Pen::outline_turning:
            return R"(stroke="#000" stroke-width="0.7")";
        case Pen::seam:
            return R"(stroke="#555" stroke-width="0.13")";
        case Pen::hatch:
            return R"(stroke="#222" stroke-width="0.13")";
        case Pen::thread:
            return R"(stroke="#000" stroke-width="0.18")";
        case Pen::presumed:
            return R"(stroke="#000" stroke-width="0.2" stroke-dasharray="0.4 1")";
        case Pen::unsure:
            return R"(stroke="#000" stroke-width="0.35" stroke-dasharray="3 1")";
        case Pen::ghost:
            return R"(stroke="#000" stroke-width="0.3" stroke-dasharray="2 1.2")";
        case Pen::axis:
            return R"(stroke="#000" stroke-width="0.25" stroke-dasharray="8 1.5 1.2 1.5")";
        case Pen::dimension:
        case Pen::leader:
            return R"(stroke="#000" stroke-width="0.15")";
        case Pen::foul:
            return R"(stroke="#000" stroke-width="1")";
        case Pen::foul_hatch:
            return R"(stroke="#000" stroke-width="0.35")";
        case Pen::removal:
            return R"(stroke="#000" stroke-width="0.7" stroke-dasharray="1 0.8")";
        case Pen::detail:
        case Pen::frame:
            break;
    }
    return R"(stroke="#000" stroke-width="0.35")";
}

std::string_view colour(Fill fill) {
    switch (fill) {
        case Fill::none:
            return "none";
        case Fill::turning:
            return "#e6eef6";
        case Fill::still:
            return "#f6f2e8";
        case Fill::foul:
            return "#f4b8b0";
        case Fill::removal:
            return "#fff";
        case Fill::black:
            return "#000";
        case Fill::paper:
            break;
    }
    return "#fff";
}

// The name of a clip, among all drawings of a page.
std::string clip_id(const SvgTitle& title, int index) {
    return fmt::format("{}-detail-{}", title.id, index + 1);
}

std::string path(const draw::Path& of, const SvgTitle& title) {
    std::string data;
    for (const auto& run : of.runs) {
        char command = 'M';
        for (const draw::Spot& spot : run) {
            data += fmt::format("{}{} {}", command, coordinate(spot.x), coordinate(spot.y));
            command = 'L';
        }
        if (of.closed) data += 'Z';
    }
    const std::string clip =
        of.clip < 0 ? std::string()
                    : fmt::format(R"x( clip-path="url(#{})")x", clip_id(title, of.clip));
    return fmt::format("<path fill=\"{}\"{} {}{} d=\"{}\"/>\n", colour(of.fill),
                       of.fill == Fill::none ? "" : R"( fill-rule="evenodd")", stroke(of.pen), clip,
                       data);
}

std::string circle(const draw::Circle& of) {
    return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{}\" {}/>\n",
                       coordinate(of.at.x), coordinate(of.at.y), coordinate(of.radius),
                       colour(of.fill), stroke(of.pen));
}

std::string text(const draw::Text& of) {
    std::string_view anchor = "start";
    if (of.anchor == draw::Anchor::middle) anchor = "middle";
    if (of.anchor == draw::Anchor::end) anchor = "end";
    const std::string strong =
        of.strong.empty()
            ? std::string()
            : fmt::format("<tspan font-weight=\"bold\">{}</tspan>", escaped(of.strong));
    return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{}\">{}{}</text>\n",
                       coordinate(of.at.x), coordinate(of.at.y), coordinate(of.size), anchor,
                       strong, escaped(of.words));
}

}  // namespace

std::string svg(const draw::Drawing& drawing, const SvgTitle& title, bool inside) {
    const std::string width = coordinate(drawing.width);
    const std::string height = coordinate(drawing.height);
    const std::string size = inside ? std::string(R"(width="100%")")
                                    : fmt::format(R"(width="{}mm" height="{}mm")", width, height);
    std::string out = inside ? std::string() : "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    out += fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" {0} viewBox=\"0 0 {1} {2}\" "
        "role=\"img\" aria-labelledby=\"{3}-title {3}-desc\" font-family=\"sans-serif\">\n"
        "<title id=\"{3}-title\">{4}</title>\n<desc id=\"{3}-desc\">{5}</desc>\n",
        size, width, height, title.id, escaped(title.title), escaped(title.description));
    if (!drawing.clips.empty()) {
        out += "<defs>\n";
        for (std::size_t i = 0; i < drawing.clips.size(); ++i)
            out += fmt::format("<clipPath id=\"{}\">{}</clipPath>\n",
                               clip_id(title, static_cast<int>(i)), circle(drawing.clips[i]));
        out += "</defs>\n";
    }
    out += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"#fff\"/>\n", width, height);
    for (const draw::Path& each : drawing.paths)
        out += path(each, title);
    for (const draw::Circle& each : drawing.circles)
        out += circle(each);
    out += "<g fill=\"#000\">\n";
    for (const draw::Text& each : drawing.texts)
        out += text(each);
    return out + "</g>\n</svg>\n";
}

}  // namespace trialfit::paper
