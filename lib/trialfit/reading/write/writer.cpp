// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/reading/write/writer.hpp>

namespace trialfit::reading {

namespace {

// Words that some YAML reader takes for a truth value or for nothing.
constexpr std::array<std::string_view, 12> kTaken{"y",    "n",     "yes",  "no", "on",   "off",
                                                  "true", "false", "null", "~",  ".nan", ".inf"};

bool looks_else(std::string_view text) {
    std::string low(text);
    for (char& c : low)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    const bool a_figure = std::ranges::none_of(low, [](char c) {
        return (c >= 'a' && c <= 'z' && c != 'e') || (static_cast<unsigned char>(c) & 0x80U) != 0;
    });
    return a_figure || std::ranges::find(kTaken, low) != kTaken.end();
}

}  // namespace

void Writer::plain(std::string_view key, std::string_view value) {
    out << YAML::Key << std::string(key) << YAML::Value << std::string(value);
}

void Writer::unusual(std::string_view key, double value, double usual) {
    if (value != usual) number(key, value);
}

void Writer::text(std::string_view value) {
    if (looks_else(value))
        out << YAML::DoubleQuoted << std::string(value);
    else
        out << std::string(value);
}

void Writer::text(std::string_view key, std::string_view value) {
    if (value.empty()) return;
    out << YAML::Key << std::string(key) << YAML::Value;
    text(value);
}

void Writer::size(const job::Given& given, Bare bare, const std::string& what, double holds) {
    const std::string line = words.line(given, bare, holds);
    if (!line.empty()) {
        out << line;
        return;
    }
    const SizeWords::Pairs pairs = words.long_form(given);
    if (pairs.empty()) refuse_gauge(what);
    short_map();
    this->pairs(pairs);
    end_map();
}

void Writer::pairs(const SizeWords::Pairs& pairs) {
    for (const auto& [key, values] : pairs) {
        if (values.size() == 1) {
            plain(key, values.front());
            continue;
        }
        short_list(key);
        for (const std::string& value : values)
            out << value;
        end_list();
    }
}

void Writer::refuse_gauge(const std::string& what) {
    refuse(fmt::format("the limits of {} are not those of the gauge that read it", what),
           "let its gauge be none, or give the gauge the half-width that it is good to");
}

void Writer::size(std::string_view key, const job::Given& given, Bare bare, const std::string& what,
                  double holds) {
    out << YAML::Key << std::string(key) << YAML::Value;
    size(given, bare, what, holds);
}

void Writer::angle(std::string_view key, const job::AngleGiven& given, const std::string& what) {
    if (given.in == job::AngleIn::length) {
        // A bare number may be either.
        std::string line = words.line(given.value, Bare::exact);
        if (line.find_first_not_of("+-.0123456789e") == std::string::npos && !line.empty())
            line += " exact";
        if (!line.empty()) return plain(key, line);
        return size(key, given.value, Bare::exact, what);
    }
    const std::string line = words.angle(given.value);
    if (line.empty())
        refuse(fmt::format("{} is an angle whose spread has no words in the format", what),
               "let it be exact, or normal with its limits at 3 sd");
    plain(key, line);
}

void Writer::span(std::string_view key, const std::optional<job::Span>& span,
                  std::string_view unit) {
    if (!span) return;
    const std::string range =
        span->least == span->greatest
            ? figures(span->least)
            : fmt::format("{}..{}", figures(span->least), figures(span->greatest));
    plain(key, unit.empty() ? range : fmt::format("{} {}", range, unit));
}

void Writer::pushed(job::Pushed pushed) {
    if (pushed != job::Pushed::not_stated)
        plain("pushed", pushed == job::Pushed::in ? "in" : "out");
}

void Writer::gauge(std::string_view key, std::optional<job::GaugeId> gauge) {
    if (gauge) plain(key, job.gauges[gauge->at()].name);
}

void Writer::map(std::string_view key) {
    out << YAML::Key << std::string(key) << YAML::Value << YAML::BeginMap;
}

void Writer::short_map(std::string_view key) {
    out << YAML::Key << std::string(key) << YAML::Value;
    short_map();
}

void Writer::short_map() {
    out << YAML::Flow << YAML::BeginMap;
}

void Writer::list(std::string_view key) {
    out << YAML::Key << std::string(key) << YAML::Value << YAML::BeginSeq;
}

void Writer::short_list(std::string_view key) {
    out << YAML::Key << std::string(key) << YAML::Value << YAML::Flow << YAML::BeginSeq;
}

void Writer::refuse(std::string fault, std::string mend) {
    faults.push_back({.fault = std::move(fault), .mend = std::move(mend)});
}

}  // namespace trialfit::reading
