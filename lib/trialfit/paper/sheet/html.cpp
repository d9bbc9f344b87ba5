// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/version.hpp>

namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

constexpr std::string_view kCss = R"(
:root{color-scheme:light}
body{margin:0 auto;padding:4mm;max-width:202mm;background:#fff;color:#111;font:9.5pt/1.35 sans-serif;overflow-wrap:anywhere}
h1{font-size:15pt;margin:0 0 1mm}
h2{font-size:11pt;margin:4mm 0 1mm;border-bottom:.3mm solid #111;break-after:avoid}
p{margin:1mm 0}
.answer{font-size:11.5pt;font-weight:bold}
.answer span{font-size:9.5pt;font-weight:normal}
.wide{overflow-x:auto;break-inside:avoid;margin:1.5mm 0}
.section svg{display:block;width:100%;height:auto}
table{border-collapse:collapse;width:100%;overflow-wrap:normal}
caption{text-align:left;overflow-wrap:anywhere;font-size:8.5pt;color:#333;padding:0 0 .7mm}
th,td{border:.2mm solid #777;padding:.5mm 1.2mm;text-align:left;vertical-align:middle;font-size:8.5pt}
thead th{background:#eee}
tbody th{background:#fff;font-weight:normal}
.name{overflow-wrap:anywhere}
.figure{text-align:right;font-variant-numeric:tabular-nums}
tr{break-inside:avoid}
.blank{min-width:20mm;height:5mm}
.box{display:inline-block;width:3.5mm;height:3.5mm;border:.3mm solid #111}
.bar{width:34mm}
.bar svg{display:block;width:34mm;height:4.5mm}
ul{margin:1mm 0;padding-left:5mm}
li{font-size:8.5pt}
.pair{display:flex;flex-wrap:wrap;column-gap:4mm}
.pair .wide{flex:1 1 80mm;min-width:0}
.run{padding:0}
.run li{display:inline}
.run li:not(:last-child)::after{content:"; "}
footer{margin-top:3mm;font-size:8.5pt;color:#333}
@media screen and (max-width:190mm){.section svg{min-width:210mm}.wide table{min-width:100%;width:max-content}caption{max-width:calc(100vw - 9mm)}.name{max-width:45mm}tbody th{position:sticky;left:0;max-width:30mm}}
@media print{body{padding:0;max-width:none;line-height:1.15}.wide{overflow:visible;margin:.7mm 0}h2{margin:2mm 0 .5mm}p{margin:.5mm 0}th,td,li,caption{font-size:8pt}th,td{padding:.1mm 1.2mm}ul{margin:.5mm 0}footer{margin-top:1.5mm}.bar svg{height:3.6mm}}
)";

// A bar's scale: from just under the least to just over the greatest of what it shows.
struct BarScale {
    double low = 0.0;
    double high = 1.0;

    explicit BarScale(const Finding& f) : low(f.value.worst.lo), high(f.value.worst.hi) {
        for (const auto& limit : {f.at_least, f.at_most})
            if (limit) {
                low = std::min(low, *limit);
                high = std::max(high, *limit);
            }
        low = std::min(low, f.value.nominal);
        high = std::max(high, f.value.nominal);
        const double pad = high > low ? 0.12 * (high - low) : 1.0;
        low -= pad;
        high += pad;
    }
    [[nodiscard]] std::string operator()(double value) const {
        return coordinate(100.0 * (value - low) / (high - low));
    }
};

std::string not_allowed(const std::string& from, const std::string& to) {
    return fmt::format(R"(<path d="M{0} 1H{1}V11H{0}Z" fill="#ddd" stroke="none"/>)", from, to);
}

std::string upright(const std::string& x) {
    return fmt::format(R"(<path d="M{} 0V12" stroke="#000" stroke-width="1.2"/>)", x);
}

std::string bar(const Finding& f) {
    const BarScale at(f);
    std::string out = R"(<svg viewBox="0 0 100 12" preserveAspectRatio="none" aria-hidden="true">)";
    if (f.at_least) out += not_allowed("0", at(*f.at_least)) + upright(at(*f.at_least));
    if (f.at_most) out += not_allowed(at(*f.at_most), "100") + upright(at(*f.at_most));
    out += fmt::format(R"(<path d="M{} 6H{}" stroke="#000" stroke-width="1"/>)",
                       at(f.value.worst.lo), at(f.value.worst.hi));
    out += fmt::format(R"(<path d="M{} 6H{}" stroke="#1b4f8a" stroke-width="4.5"/>)",
                       at(f.value.rss.lo), at(f.value.rss.hi));
    out += fmt::format(
        R"(<path d="M{} 6m-2 0l2 -4.5l2 4.5l-2 4.5z" fill="#fff" stroke="#000" stroke-width="1"/>)",
        at(f.value.nominal));
    return out + "</svg>";
}

// What the row is about heads it.
std::string cell(const SheetCell& of, const SheetTable::Column& column, bool heads) {
    const std::string_view kind = column.figures ? " class=\"figure\"" : " class=\"name\"";
    std::string text = "<bdi>" + escaped(listed(of.text, 200)) + "</bdi>";
    switch (of.kind) {
        case Kind::tick:
            return R"(<td><span class="box" role="img" aria-label="to tick"></span></td>)";
        case Kind::blank:
            return R"(<td class="blank"></td>)";
        case Kind::bar:
            return "<td class=\"bar\">" + bar(*of.finding) + "</td>";
        case Kind::strong:
            text = "<strong>" + text + "</strong>";
            break;
        case Kind::text:
            break;
    }
    return heads ? fmt::format("<th scope=\"row\"{}>{}</th>", kind, text)
                 : fmt::format("<td{}>{}</td>", kind, text);
}

std::string html_table(const SheetTable& of) {
    std::string out = fmt::format(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"{0}\">\n<table>\n"
        "<caption>{0}</caption>\n<thead><tr>",
        escaped(of.caption));
    for (const auto& column : of.columns)
        out += fmt::format("<th scope=\"col\"{}>{}</th>", column.figures ? " class=\"figure\"" : "",
                           escaped(column.heading));
    out += "</tr></thead>\n<tbody>\n";
    const auto head = std::find_if(of.columns.begin(), of.columns.end(),
                                   [](const auto& column) { return !column.paper_only; });
    for (const auto& row : of.rows) {
        out += "<tr>";
        for (std::size_t i = 0; i < row.size(); ++i)
            out += cell(row[i], of.columns[i], &of.columns[i] == &*head);
        out += "</tr>\n";
    }
    return out + "</tbody>\n</table>\n</div>\n";
}

std::string block(const SheetBlock& of) {
    std::string out;
    if (!of.heading.empty()) out += "<h2>" + escaped(of.heading) + "</h2>\n";
    for (const std::string& text : of.paragraphs)
        out += "<p>" + escaped(text) + "</p>\n";
    if (of.table) out += html_table(*of.table);
    if (of.bullets.empty()) return out;
    out += of.run_on ? "<ul class=\"run\">\n" : "<ul>\n";
    for (const std::string& text : of.bullets)
        out += "<li>" + escaped(text) + "</li>\n";
    return out + "</ul>\n";
}

}  // namespace

std::string sheet_html(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    constexpr double kMargins = 24.0;
    constexpr double kFigureShare = 0.42;  // of the page's height, so that the cuts share its page
    const std::vector<Finding> all = distinct_findings(answer.check);
    const Lengths lengths{answer.units, decimals_for(answer.units, all), style.inches};
    const std::string title = escaped(sheet_title(answer));
    std::string out = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>{}</title>\n<style>{}@page{{size:{} portrait;margin:10mm}}\n</style>\n</head>\n"
        "<body>\n<main>\n<h1><bdi>{}</bdi></h1>\n<p class=\"answer\">{} "
        "<span>Lengths in {}{}.</span></p>\n",
        title, kCss, style.paper, title, escaped(headline(answer.check)), plural(answer.units),
        style.inches ? ", inches in brackets" : "");
    if (answer.section)
        out +=
            "<div class=\"wide section\" tabindex=\"0\" role=\"region\" aria-label=\"Section "
            "above the axis\">\n" +
            section_figure(*answer.section, style.width - kMargins, kFigureShare * style.height) +
            "</div>\n";
    const std::vector<SheetBlock> blocks = sheet_blocks(answer, all, lengths);
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        const bool pair = i + 1 < blocks.size() && blocks[i + 1].beside;
        out += pair
                   ? "<div class=\"pair\">\n" + block(blocks[i]) + block(blocks[i + 1]) + "</div>\n"
                   : block(blocks[i]);
        if (pair) ++i;
    }
    return out + fmt::format("</main>\n<footer>trialfit {}</footer>\n</body>\n</html>\n", kVersion);
}

}  // namespace trialfit::paper
