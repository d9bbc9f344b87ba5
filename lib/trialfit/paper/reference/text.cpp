// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/reference/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>

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

Document document_of(const trade::Reference& answer) {
    Sources sources;
    Table figures{.columns = {Column::names(""), "", Column::words(""), Column::words("")}};
    for (const ReferenceRow& row : answer.rows)
        figures.add({row.words.empty() ? row.what : row.what + ": " + row.words, value_of(row),
                     row.unit,
                     row.source.empty() ? "" : fmt::format("[{}]", sources.number(row.source))});
    Document out;
    out.under(Headline{.text = answer.answer}).under(std::move(figures));
    out.add(Heading{"Sources"}).under(list_of(std::move(sources.all), List::Mark::source));
    for (const std::string& note : answer.notes)
        out.add(Paragraph{note});
    return out;
}

std::string reference_json(const trade::Reference& answer) {
    Json out = json_head("table");
    out["kind"] = answer.kind;
    out["asked"] = answer.asked;
    out["answer"] = answer.answer;
    out["rows"] = list_json(answer.rows, row_json);
    out["notes"] = answer.notes;
    return json_text(out);
}

}  // namespace trialfit::paper
