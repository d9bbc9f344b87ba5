// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/reference/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using trade::ReferenceRow;

constexpr int kFigures = 6;

// Micrometres on a metre need more figures than six; a limit's last digit must not be lost.
std::string figure_text(double value) {
    return brief(value, kFigures);
}

std::string value_of(const ReferenceRow& row) {
    if (!row.value) return {};
    std::string out = figure_text(*row.value);
    if (row.upper) out += ".." + figure_text(*row.upper);
    return out;
}

// Sources in the order in which the rows name them; a row points to its own by number.
std::vector<std::string> sources_of(const trade::Reference& answer) {
    std::vector<std::string> out;
    for (const ReferenceRow& row : answer.rows)
        if (!row.source.empty() && std::find(out.begin(), out.end(), row.source) == out.end())
            out.push_back(row.source);
    return out;
}

std::string number_of(const std::vector<std::string>& sources, const std::string& source) {
    const auto found = std::find(sources.begin(), sources.end(), source);
    return found == sources.end() ? std::string()
                                  : fmt::format("[{}]", found - sources.begin() + 1);
}

Json row_json(const ReferenceRow& row) {
    Json out;
    out["what"] = row.what;
    if (row.value && row.upper)
        out["limits"] = Json::array({*row.value, *row.upper});
    else if (row.value)
        out["value"] = *row.value;
    else
        out["words"] = row.words;
    if (row.value) out["unit"] = row.unit;
    out["source"] = row.source;
    return out;
}

}  // namespace

std::string reference_text(const trade::Reference& answer, const Style& style) {
    std::string out;
    for (const std::string& line : wrapped(harmless(answer.answer), style.width))
        out += painted(style, Ink::strong, line) + "\n";
    const std::vector<std::string> sources = sources_of(answer);
    Table figures;
    figures.columns = {{.heading = "", .set = Column::Set::names},
                       {.heading = ""},
                       {.heading = "", .set = Column::Set::left},
                       {.heading = "", .set = Column::Set::left}};
    for (const ReferenceRow& row : answer.rows)
        figures.rows.push_back(
            {.cells = {{.text = row.words.empty() ? row.what : row.what + ": " + row.words},
                       {.text = value_of(row)},
                       {.text = row.unit},
                       {.text = number_of(sources, row.source)}}});
    out += table(figures, style);
    out += "\n" + painted(style, Ink::strong, "Sources") + "\n";
    for (std::size_t i = 0; i < sources.size(); ++i)
        out += paragraph(sources[i], style.width, fmt::format("  [{}] ", i + 1));
    for (const std::string& note : answer.notes)
        out += "\n" + paragraph(note, style.width);
    return out;
}

std::string reference_json(const trade::Reference& answer) {
    Json out;
    out["trialfit"] = 1;
    out["command"] = "table";
    out["kind"] = answer.kind;
    out["asked"] = answer.asked;
    out["answer"] = answer.answer;
    out["rows"] = Json::array();
    for (const ReferenceRow& row : answer.rows)
        out["rows"].push_back(row_json(row));
    out["notes"] = answer.notes;
    return json_text(out);
}

}  // namespace trialfit::paper
