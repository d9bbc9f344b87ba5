// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <trialfit/reading/reader.hpp>
#include <utility>

namespace trialfit::reading {

job::Place Reader::place(const Node& scalar, std::size_t within) const {
    const std::size_t begin = scalar.at + (scalar.style == Node::Style::quoted ? 1U : 0U);
    // Escapes, folded lines and block scalars read otherwise than they are written.
    const bool as_written = source.text().compare(begin, within, scalar.scalar, 0, within) == 0;
    return source.place(as_written ? begin + within : scalar.at);
}

void Reader::error(const Node& node, std::string fault, std::string mend) {
    faults.error(place(node), std::move(fault), std::move(mend));
}

void Reader::error(const Node& scalar, const TextFault& fault) {
    faults.error(place(scalar, fault.at), fault.fault, fault.mend);
}

std::nullopt_t Reader::refuse(const Node& scalar, std::string_view what, std::string mend) {
    error(scalar, fmt::format("{} is {}", what, quoted(scalar.scalar)), std::move(mend));
    return std::nullopt;
}

std::size_t file_at(const std::vector<FileRead>& files, std::size_t offset) {
    const auto after = std::upper_bound(
        files.begin() + 1, files.end(), offset,
        [](std::size_t place, const FileRead& file) { return place < file.begin; });
    return static_cast<std::size_t>(after - files.begin()) - 1;
}

const FileRead& Reader::file_of(job::Place at) const {
    const int line = std::clamp(at.line - 1, 0, static_cast<int>(source.lines()) - 1);
    return file_of(source.start_of(static_cast<std::size_t>(line)));
}

std::string Reader::line_words(job::Place at) const {
    if (files.size() == 1) return fmt::format("line {}", at.line);
    const FileRead& file = file_of(at);
    const int first = source.place(file.begin).line;
    return fmt::format("line {} of {}", at.line - first + 1, file.name);
}

SizeContext Reader::sizes(const Node& written) const {
    const FileRead& file = file_of(written.at);
    return {.units = job.units,
            .general_tolerance = file.general_tolerance,
            .gauges = job.gauges,
            .gauge_names = file.gauge_names,
            .written_in = file.units,
            .gauge_of_name = &file.gauges};
}

void Reader::keep_said(const Node& scalar, const LeftToFile& left, const quantity::Size& size,
                       std::optional<job::GaugeId> gauge) {
    const FileRead& file = file_of(scalar.at);
    if (&file == files.data()) return;
    const auto keep = [&](std::size_t within, std::size_t length, std::string words) {
        const std::size_t begin = scalar.at + (scalar.style == Node::Style::quoted ? 1U : 0U);
        said_lost = said_lost || source.text().compare(begin, within + length, scalar.scalar, 0,
                                                       within + length) != 0;
        said.push_back({.at = begin + within, .length = length, .words = std::move(words)});
    };
    if (left.unit && file.units != job.units)
        keep(*left.unit, 0, fmt::format(" {}", quantity::name(file.units)));
    if (left.tolerance && file.general_tolerance != files.front().general_tolerance) {
        const double half = quantity::convert(size.upper - size.nominal, job.units, left.figure_in);
        keep(*left.tolerance, 0, fmt::format(" \u00b1{}", half));
    }
    if (!left.gauge || !gauge) return;
    const std::string& name = job.gauges[gauge->at()].name;
    const auto [at, length] = *left.gauge;
    if (scalar.scalar.compare(at, length, name) != 0) keep(at, length, name);
}

quantity::Size unknown_size() {
    constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
    return {.nominal = kUnknown, .lower = kUnknown, .upper = kUnknown, .spread = {}};
}

}  // namespace trialfit::reading
