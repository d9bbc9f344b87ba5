// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/document/html.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/version.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kCss = R"(
:root{color-scheme:light dark}
body{margin:0 auto;padding:4mm;max-width:202mm;background:#fff;color:#111;font:9.5pt/1.35 sans-serif;overflow-wrap:anywhere}
h1{font-size:15pt;margin:0 0 1mm}
h2{font-size:11pt;margin:4mm 0 1mm;border-bottom:.3mm solid #111;break-after:avoid}
p{margin:1mm 0}
.answer{font-size:11.5pt;font-weight:bold}
.answer span{font-size:9.5pt;font-weight:normal}
.wide{overflow-x:auto;break-inside:avoid;margin:1.5mm 0}
.section svg,.small svg{display:block;width:100%;height:auto}
.small{max-width:100%;break-after:avoid}
table{border-collapse:collapse;width:100%;overflow-wrap:normal}
caption{text-align:left;overflow-wrap:anywhere;font-size:8.5pt;color:#333;padding:0 0 .7mm}
th,td{border:.2mm solid #777;padding:.5mm 1.2mm;text-align:left;vertical-align:middle;font-size:8.5pt}
thead th{background:#eee}
tbody th{background:#fff;font-weight:normal}
.name,td[colspan]{overflow-wrap:anywhere}
.figure{text-align:right;font-variant-numeric:tabular-nums}
tr{break-inside:avoid}
.blank{min-width:20mm;height:5mm}
.box{display:inline-block;width:3.5mm;height:3.5mm;border:.3mm solid #111}
.form table{table-layout:fixed}
.form th,.form td{box-sizing:border-box}
.form thead .word{width:21mm}
.form thead .word:first-child{width:13mm}
.form thead .pen{width:16mm}
.form .blank{min-width:0;height:7mm}
.bar{width:34mm}
.bar svg{display:block;width:34mm;height:4.5mm}
dl{margin:1mm 0;display:grid;grid-template-columns:max-content 1fr;column-gap:4mm}
dd{margin:0}
ul{margin:1mm 0;padding-left:5mm}
.live{border:.3mm solid #111;padding:1mm 3mm 2mm;margin:2mm 0}
.live label{display:block;margin:1mm 0;font-size:9.5pt}
.live :is(input,button){font:inherit;min-height:44px;padding:0 2mm;margin:1mm 2mm 1mm 0;box-sizing:border-box;color:inherit;background:transparent;border:.3mm solid #777;border-radius:1mm}
.live input{width:40mm;max-width:100%;font-size:12pt}
.live .wrong{font-weight:bold}
.live output{display:block;font-size:12pt;font-weight:bold;margin:1mm 0;padding:1mm 0}
@media screen{.live output{position:sticky;bottom:0;background:Canvas}}
.live code{overflow-wrap:anywhere}
li{font-size:8.5pt}
.pair{display:flex;flex-wrap:wrap;column-gap:4mm}
.pair .wide{flex:1 1 80mm;min-width:0}
.pair .small{flex:0 0 auto;break-after:auto}
.pair .form{flex:1 1 95mm}
.run{padding:0}
.run li{display:inline}
.run li:not(:last-child)::after{content:"; "}
footer{margin-top:3mm;font-size:8.5pt;color:#333}
.large,.large th,.large td,.large li,.large caption{font-size:11pt}
.large .answer{font-size:13pt}
.large .form table{table-layout:auto}
.large .form tbody th{width:40mm}
@media screen and (max-width:120mm){.large .form tbody th{width:34mm}}
.large .form thead{position:absolute;clip-path:inset(50%)}
.larger{display:block;color:inherit}
.smaller{display:none;min-height:44px;line-height:44px}
@media screen and (max-width:190mm){.wide{overflow:visible}
.section:target{overflow-x:auto}.section:target svg{width:210mm}.section:target .smaller{display:inline-block}
.wide:not(.form) :is(table,tbody,tr,td,th,caption){display:block}
.wide:not(.form) thead{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden}
.wide:not(.form) tbody tr{border:.2mm solid #777;margin:0 0 2mm}
.wide:not(.form) :is(tbody th,td){border:0;padding:1mm 1.5mm}
.wide:not(.form) tr:has(>td[colspan]){margin-top:-2mm;border-top:0}
.wide:not(.form) tbody th{font-weight:bold;border-bottom:.2mm solid #777}
.wide:not(.form) td{display:flow-root}
.wide:not(.form) td[data-label]{text-align:right}
.wide:not(.form) td[data-label]::before{content:attr(data-label);float:left;padding-right:3mm}
.wide:not(.form) td:has(>bdi:empty:only-child){display:none}
.wide:not(.form) td.blank{height:auto;min-height:44px;border-top:.2mm dotted #777}
.bar{width:auto}.bar svg{width:100%}.form :is(th,td){padding:.5mm}.form thead .word{width:20mm}.form thead .word:first-child{width:12mm}.form thead .pen{width:8mm}}
@media screen and (prefers-color-scheme:dark){:root{color-scheme:dark}body{background:#121212;color:#eee}h2{border-color:#eee}caption,footer{color:#bbb}thead th{background:#2a2a2a}tbody th{background:none}.box{border-color:#eee}.section svg,.small svg,.bar svg{background:#fff}}
@media print{.live:not(.typed),.live button{display:none}.pair{break-inside:avoid}body{padding:0;max-width:none;line-height:1.15}.wide{overflow:visible;margin:.7mm 0}h2{margin:2mm 0 .5mm}p{margin:.5mm 0}th,td,li,caption{font-size:8pt}th,td{padding:.1mm 1.2mm}ul{margin:.5mm 0}footer{margin-top:1.5mm}.large th,.large td,.large li,.large caption,.large p{font-size:11pt}.large th,.large td{padding:.5mm 1.5mm}.large .answer{font-size:13pt}.large .form .blank{height:6mm}.large h2{margin:1.2mm 0 .3mm}.large .wide{margin:.3mm 0}.large th,.large td{padding:.2mm 1.5mm}.bar svg{height:3.6mm}.form table{width:calc(100% - .4mm)}.form td{padding:.3mm 1.2mm}.form .blank{height:6.5mm}}
)";

// A bar's scale: from just under the least to just over the greatest of what it shows.
struct BarScale {
    double low = 0.0;
    double high = 1.0;

    explicit BarScale(const RangeBar& f) : low(f.value.worst.lo), high(f.value.worst.hi) {
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

std::string bar(const RangeBar& f) {
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
std::string cell(const Cell& of, const Column& column, bool heads, const std::string& label) {
    constexpr std::size_t kLongest = 200;
    const std::string_view kind =
        column.set == Column::Set::right ? " class=\"figure\"" : " class=\"name\"";
    std::string text = "<bdi>" + escaped(listed(of.text, kLongest)) + "</bdi>";
    switch (of.kind) {
        case Cell::Kind::tick:
            return "<td" + label +
                   R"(><span class="box" role="img" aria-label="to tick"></span></td>)";
        case Cell::Kind::blank:
            return R"(<td class="blank")" + label + "></td>";
        case Cell::Kind::bar:
            return "<td class=\"bar\">" + bar(of.bar) + "</td>";
        case Cell::Kind::text:
            break;
    }
    if (of.bold()) text = "<strong>" + text + "</strong>";
    if (!of.below.empty()) text += "<br>" + escaped(listed(of.below, kLongest));
    return heads ? fmt::format("<th scope=\"row\"{}>{}</th>", kind, text)
                 : fmt::format("<td{}{}>{}</td>", kind, label, text);
}

// The width that a form gives a column.
std::string_view width_of(const Column& column) {
    if (column.paper_only) return " class=\"pen\"";
    return column.set == Column::Set::names ? "" : " class=\"word\"";
}

std::string command(const std::string& text) {
    return text.empty() ? "" : "<br><code>" + escaped(text) + "</code>";
}

std::string fact_list(const std::vector<Fact>& facts) {
    std::string out;
    for (const Fact& each : facts)
        out += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(each.label), escaped(each.text));
    return out.empty() ? out : "<dl>\n" + out + "</dl>\n";
}

std::string heading_of(const Column& column) {
    return escaped(column.heading + (column.below.empty() ? "" : " ") + column.below);
}

// What names a figure where the row becomes a card and its column's heading stands nowhere.
std::string label_of(const Table& table, const Column& column) {
    return table.form ? "" : fmt::format(" data-label=\"{}\"", heading_of(column));
}

std::string heads(const Table& of) {
    std::string out = "<thead><tr>";
    for (const Column& each : of.columns)
        out += fmt::format("<th scope=\"col\"{}>{}</th>",
                           of.form                          ? width_of(each)
                           : each.set == Column::Set::right ? " class=\"figure\""
                                                            : "",
                           heading_of(each));
    return out + "</tr></thead>\n";
}

struct HtmlSetter {
    // Which block of the page it sets, for identifiers.
    std::size_t at = 0;

    std::string operator()(const Headline& of) const {
        const std::string aside = of.aside.empty() ? "" : " <span>" + escaped(of.aside) + "</span>";
        return "<p class=\"answer\">" + escaped(of.text) + aside + "</p>\n";
    }
    std::string operator()(const Heading& of) const {
        return "<h2>" + escaped(of.text) + "</h2>\n";
    }
    std::string operator()(const Paragraph& of) const {
        return "<p>" + escaped(of.text) + command(of.command) + "</p>\n";
    }
    std::string operator()(const Facts& of) const { return fact_list(of.lines); }
    std::string operator()(const List& of) const {
        const std::string_view tag = of.mark == List::Mark::dash ? "ul" : "ol";
        std::string out = fmt::format("<{}{}>\n", tag, of.run_on ? " class=\"run\"" : "");
        for (const Item& each : of.items)
            out += "<li>" + escaped(each.text) + command(each.command) + fact_list(each.facts) +
                   "</li>\n";
        return out + fmt::format("</{}>\n", tag);
    }
    std::string operator()(const Table& of) const {
        const std::string caption = escaped(of.caption + of.caption_of_bars);
        std::string out = fmt::format(
            "<div class=\"wide{1}\" tabindex=\"0\" role=\"region\" aria-label=\"{0}\">\n<table>\n"
            "<caption>{0}</caption>\n",
            caption, of.form ? " form" : "");
        out += heads(of) + "<tbody>\n";
        const auto head =
            std::ranges::find_if(of.columns, [](const Column& each) { return !each.paper_only; });
        for (const Row& row : of.rows) {
            out += "<tr>";
            for (std::size_t i = 0; i < row.cells.size(); ++i)
                out += cell(row.cells[i], of.columns[i], &of.columns[i] == &*head,
                            label_of(of, of.columns[i]));
            out += "</tr>\n";
            if (!row.remark.empty())
                out += fmt::format("<tr><td colspan=\"{}\">{}</td></tr>\n", of.columns.size(),
                                   escaped(row.remark));
        }
        return out + "</tbody>\n</table>\n</div>\n";
    }
    std::string operator()(const Histogram& of) const { return (*this)(table_of(of)); }
    std::string operator()(const Cautions& of) const {
        return (*this)(Heading{of.heading}) + (*this)(list_of(of.items));
    }
    std::string operator()(const OnScreen& of) const { return of.html; }
    std::string operator()(const Picture& of) const {
        if (of.width > 0.0)
            return fmt::format(
                "<div class=\"wide small\" style=\"width:{}mm\" tabindex=\"0\" role=\"region\" "
                "aria-label=\"{}\">\n{}</div>\n",
                coordinate(of.width), escaped(of.label), of.svg);
        // As wide as the window; on a phone a tap opens it in its own size.
        return fmt::format(
            "<div class=\"wide section\" id=\"picture-{0}\" tabindex=\"0\" role=\"region\" "
            "aria-label=\"{1}\">\n<a class=\"smaller\" href=\"#whole\">Show it whole</a>\n"
            "<a class=\"larger\" href=\"#picture-{0}\" aria-label=\"{1}, larger\">\n{2}</a>\n"
            "</div>\n",
            at, escaped(of.label), of.svg);
    }
};

}  // namespace

std::string html_of(const Document& document, std::string_view paper) {
    const std::string title = escaped(document.title);
    std::string out = fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>{}</title>\n<style>{}@page{{size:{} portrait;margin:10mm}}\n</style>\n</head>\n"
        "<body{}>\n<main>\n<h1><bdi>{}</bdi></h1>\n",
        title, kCss, paper, document.large ? " class=\"large\"" : "", title);
    std::vector<const Block*> shown;
    for (const Block& each : document.blocks)
        if (!each.text_only) shown.push_back(&each);
    const auto set = [&shown](std::size_t at) {
        return std::visit(HtmlSetter{.at = at}, shown[at]->content);
    };
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const bool pair = i + 1 < shown.size() && shown[i + 1]->beside;
        out += pair ? "<div class=\"pair\">\n" + set(i) + set(i + 1) + "</div>\n" : set(i);
        if (pair) ++i;
    }
    return out + fmt::format("</main>\n<footer>trialfit {}</footer>\n</body>\n</html>\n", kVersion);
}

}  // namespace trialfit::paper
