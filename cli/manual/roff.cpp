// SPDX-License-Identifier: MIT
#include "manual/roff.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/version.hpp>

namespace trialfit::cli {

namespace {

std::string upper(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), [](char c) { return quantity::large(c); });
    return out;
}

std::string on_one_line(std::string_view text) {
    std::string out(text);
    std::replace(out.begin(), out.end(), '\n', ' ');
    return out;
}

}  // namespace

std::string roff_escaped(std::string_view text) {
    std::string out;
    bool begins = true;
    for (const char c : text) {
        if (begins && (c == '.' || c == '\'')) out += "\\&";
        begins = c == '\n';
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else if (c == '`')
            out += "\\(ga";
        else if (c == '\'')
            out += "\\(aq";
        else if (c == '^')
            out += "\\(ha";
        else if (c == '~')
            out += "\\(ti";
        else
            out += c;
    }
    return out;
}

RoffPage::RoffPage(std::string_view name, int section, std::string_view about) {
    out_ = fmt::format(".TH {} {} \"\" \"Trialfit {}\" \"Trialfit\"\n.nh\n.ad l\n", upper(name),
                       section, kVersion);
    heading("NAME");
    std::string brief = on_one_line(about);
    brief.at(0) = quantity::small(brief.at(0));
    out_ += fmt::format("{} \\- {}\n", roff_escaped(name), roff_escaped(brief));
}

void RoffPage::heading(std::string_view text) {
    out_ += fmt::format(".SH {}\n", upper(text));
}

void RoffPage::subheading(std::string_view text) {
    out_ += fmt::format(".SS {}\n", roff_escaped(text));
}

void RoffPage::text(std::string_view text) {
    bool ended = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = text.substr(at, end - at);
        if (ended && !line.empty()) out_ += ".PP\n";
        if (!line.empty()) out_ += roff_escaped(line) + "\n";
        ended = line.empty();
        at = end + 1;
    }
}

void RoffPage::lines(std::string_view text) {
    out_ += ".PP\n.nf\n.RS\n" + roff_escaped(text) + "\n.RE\n.fi\n";
}

void RoffPage::item(std::string_view what, std::string_view value, std::string_view about) {
    out_ += fmt::format(".TP\n\\fB{}\\fR", roff_escaped(what));
    if (!value.empty()) out_ += fmt::format(" \\fI{}\\fR", roff_escaped(value));
    out_ += "\n" + roff_escaped(on_one_line(about)) + "\n";
}

}  // namespace trialfit::cli
