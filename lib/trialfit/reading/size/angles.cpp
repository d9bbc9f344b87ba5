// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <trialfit/reading/size/angles.hpp>
#include <trialfit/reading/yaml/tokens.hpp>

namespace trialfit::reading {

namespace {

constexpr std::string_view kDegrees = "deg";

// `text` with blanks for each "deg", so that every other character keeps its column.
std::string without_degrees(std::string text) {
    for (std::size_t at = text.find(kDegrees); at != std::string::npos; at = text.find(kDegrees))
        text.replace(at, kDegrees.size(), kDegrees.size(), ' ');
    return text;
}

// No unit of length, no gauge, no tolerance class: none of these makes an angle.
bool only_figures(std::string_view text) {
    return text.find_first_not_of("0123456789.+-eE/ \u00b1") == std::string_view::npos;
}

bool within(const quantity::Size& size, const AcceptedNumber& bounds) {
    return size.lower >= bounds.least && size.nominal >= bounds.least &&
           size.upper <= bounds.greatest && size.nominal <= bounds.greatest;
}

}  // namespace

std::optional<job::Given> angle_of(Reader& reader, const Node* node, std::string_view what,
                                   const AcceptedNumber& bounds) {
    if (node == nullptr) return std::nullopt;
    Node figures = *node;
    figures.scalar = without_degrees(node->scalar);
    if (!node->is_scalar() || trimmed(figures.scalar).empty() || !only_figures(figures.scalar)) {
        const std::string found = node->is_scalar() ? quoted(node->scalar) : "not an angle";
        reader.error(*node, fmt::format("{} is {}", what, found),
                     "write it like '15 deg' or '15 \u00b12 deg'");
        return std::nullopt;
    }
    SizeContext plain = reader.sizes(figures);
    plain.written_in = reader.job.units;  // degrees are the same in every file
    SizeText text = read_size_text(figures.scalar, plain, Bare::exact);
    if (text.fault) {
        reader.error(figures, *text.fault);
        return std::nullopt;
    }
    job::Given angle{.size = text.size,
                     .written = std::string(trimmed(node->scalar)),
                     .at = reader.place(*node)};
    if (!within(angle.size, bounds)) {
        reader.error(*node, fmt::format("{} is {}", what, quoted(angle.written)),
                     std::string(bounds.rule));
        return std::nullopt;
    }
    return angle;
}

std::optional<job::AngleGiven> angle_or_length_of(Reader& reader, const Node* node,
                                                  std::string_view what,
                                                  const AcceptedNumber& bounds) {
    if (node == nullptr) return std::nullopt;
    const std::string_view words = trimmed(node->scalar);
    if (node->is_scalar() && words.find(kDegrees) != std::string_view::npos) {
        const auto angle = angle_of(reader, node, what, bounds);
        if (!angle) return std::nullopt;
        return job::AngleGiven{.value = *angle, .in = job::AngleIn::degrees};
    }
    if (node->is_scalar() && number_of(words)) {
        reader.error(
            *node, fmt::format("{} is {}, which may be a length or an angle", what, quoted(words)),
            fmt::format("write '{0} mm' or '{0} deg'", clipped(words)));
        return std::nullopt;
    }
    return job::AngleGiven{
        .value = size_at_least(reader, node, Bare::exact, what, Least::zero_allowed),
        .in = job::AngleIn::length};
}

}  // namespace trialfit::reading
