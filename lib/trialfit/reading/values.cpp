// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/reading/values.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

// Complains of a list or a map where one value is expected. A block of text is no single value
// either, except where words are.
bool single(Reader& reader, const Node& node, std::string_view what, std::string_view example) {
    if (node.is_scalar() && node.style != Node::Style::block) return true;
    const std::string_view found = node.is_list()    ? "a list"
                                   : node.is_map()   ? "a group of entries"
                                   : node.is_empty() ? "empty"
                                                     : "a block of text";
    reader.error(node, fmt::format("{} is {}", what, found), fmt::format("write {}", example));
    return false;
}

bool within(double value, const AcceptedNumber& bounds) {
    return value >= bounds.least && value <= bounds.greatest;
}

// `30..40 N m` in its three parts; `low` only where there is no range.
struct RangeText {
    std::optional<double> low;
    std::optional<double> high;
    std::string_view unit;
    std::string_view high_text;
    std::string_view low_text;

    /// Whether its figures are figures.
    [[nodiscard]] bool is_range() const { return low && (high_text.empty() || high); }
};

RangeText range_text(std::string_view text) {
    RangeText range;
    const std::size_t end = text.find_first_not_of("+-.0123456789eE");
    std::string_view figures = text.substr(0, end);
    range.unit = end == std::string_view::npos ? std::string_view{} : trimmed(text.substr(end));
    const std::size_t dots = figures.find("..");
    range.low_text = trimmed(figures.substr(0, dots));
    if (dots != std::string_view::npos) {
        range.high_text = trimmed(figures.substr(dots + 2));
        range.high = number_of(range.high_text);
    }
    range.low = number_of(range.low_text);
    return range;
}

bool same_unit(std::string_view written, std::string_view unit) {
    std::string one;
    std::string other;
    for (const char c : written)
        if (c != ' ') one += c;
    for (const char c : unit)
        if (c != ' ') other += c;
    return one.empty() || one == other;
}

// What a range says, once its unit is known to be right.
std::optional<job::Span> span_from(Reader& reader, const Node& node, std::string_view what,
                                   std::string_view example, const RangeText& range) {
    if (!range.is_range()) return reader.refuse(node, what, fmt::format("write {}", example));
    const double high = range.high.value_or(*range.low);
    if (*range.low < 0.0 || high < 0.0)
        return reader.refuse(node, what, "it cannot be less than 0");
    if (high < *range.low) {
        reader.error(node, fmt::format("the range {} is the wrong way round", quoted(node.scalar)),
                     fmt::format("write '{}..{}'", range.high_text, range.low_text));
        return std::nullopt;
    }
    return job::Span{.least = *range.low, .greatest = high, .at = reader.place(node)};
}

}  // namespace

std::string text_of(Reader& reader, const Node* node, std::string_view what) {
    if (node == nullptr) return {};
    if (!node->is_scalar()) {
        reader.error(
            *node, fmt::format("{} is {}", what, node->is_list() ? "a list" : "a group of entries"),
            "write words, in quotes where they hold a colon or a bracket");
        return {};
    }
    const std::string_view words = trimmed(node->scalar);
    if (words.empty()) reader.error(*node, fmt::format("{} is empty", what), "write some words");
    return std::string(words);
}

std::optional<std::size_t> choice_of(Reader& reader, const Node* node, std::string_view what,
                                     std::initializer_list<std::string_view> words) {
    if (node == nullptr) return std::nullopt;
    NameIndex known;
    for (const std::string_view word : words)
        known.add(std::string(word));
    if (!single(reader, *node, what, fmt::format("one of {}", known.listed()))) return std::nullopt;
    const int found = known.find(node->scalar);
    if (found >= 0) return static_cast<std::size_t>(found);
    // `cm` is nearest to `mm` and means something else.
    const std::string meant = node->scalar.size() < 3 ? std::string() : known.nearest(node->scalar);
    reader.error(*node, fmt::format("{} cannot be {}", what, quoted(node->scalar)),
                 meant.empty() ? fmt::format("it is one of {}", known.listed())
                               : fmt::format("did you mean '{}'?", meant));
    return std::nullopt;
}

std::optional<bool> truth_of(Reader& reader, const Node* node, std::string_view what) {
    if (node == nullptr || !single(reader, *node, what, "true or false")) return std::nullopt;
    const bool plain = node->style == Node::Style::plain;
    if (plain && node->scalar == "true") return true;
    if (plain && node->scalar == "false") return false;
    return reader.refuse(*node, what,
                         plain ? "write true or false" : "write true or false, without quotes");
}

std::optional<double> number_in(Reader& reader, const Node* node, std::string_view what,
                                const AcceptedNumber& bounds) {
    if (node == nullptr || !single(reader, *node, what, "a number")) return std::nullopt;
    const auto value = number_of(node->scalar);
    if (!value) {
        reader.error(*node,
                     fmt::format("{} is {}, which is not a number", what, quoted(node->scalar)),
                     "write a number without a unit");
        return std::nullopt;
    }
    if (node->style != Node::Style::plain) {
        reader.error(*node, fmt::format("{} is a number in quotes", what), "take the quotes away");
        return std::nullopt;
    }
    if (!within(*value, bounds)) return reader.refuse(*node, what, std::string(bounds.rule));
    return value;
}

std::optional<int> count_of(Reader& reader, const Node* node, std::string_view what, int least) {
    constexpr int kMost = 1'000'000;
    const std::string rule = fmt::format("it is a whole number, at least {}", least);
    const auto value = number_in(reader, node, what,
                                 {static_cast<double>(least), static_cast<double>(kMost), rule});
    if (!value) return std::nullopt;
    if (*value != std::floor(*value)) return reader.refuse(*node, what, rule);
    return static_cast<int>(*value);
}

std::optional<double> length_of(Reader& reader, const Node* node, std::string_view what,
                                Least least) {
    if (node == nullptr || !single(reader, *node, what, "a length, as in '5.5'"))
        return std::nullopt;
    const LengthText text = read_length_text(node->scalar, reader.sizes(*node), PlusMinus::refused);
    if (text.fault) {
        reader.error(*node, *text.fault);
        return std::nullopt;
    }
    reader.keep_said(*node, text.left, {}, std::nullopt);
    const bool above = text.length > 0.0 || (least == Least::zero_allowed && text.length == 0.0);
    if (above || least == Least::any) return text.length;
    return reader.refuse(
        *node, what,
        least == Least::zero_allowed ? "it cannot be less than 0" : "it must be greater than 0");
}

std::optional<double> half_width_of(Reader& reader, const Node* node, std::string_view what) {
    if (node == nullptr || !single(reader, *node, what, "a half-width, as in '\u00b10.03'"))
        return std::nullopt;
    const LengthText text = read_length_text(node->scalar, reader.sizes(*node), PlusMinus::allowed);
    if (text.fault) {
        reader.error(*node, *text.fault);
        return std::nullopt;
    }
    reader.keep_said(*node, text.left, {}, std::nullopt);
    if (text.length >= 0.0) return text.length;
    return reader.refuse(*node, what, "a tolerance is written without a minus, as in '\u00b10.03'");
}

job::Given size_of(Reader& reader, const Node* node, Bare bare, MayBe may_be) {
    job::Given given{.size = unknown_size(), .written = {}, .at = {}};
    if (node == nullptr) return given;
    given.at = reader.place(*node);
    if (node->is_map())
        return long_form(
            reader,
            Fields(reader, *node, "this size",
                   {"size", "plus", "minus", "lower", "upper", "by", "shape", "sigmas"}),
            bare, may_be);
    if (!single(reader, *node, "this size", "it on one line, like '12.5 \u00b10.05'")) return given;
    given.written = trimmed(node->scalar);
    SizeText text = read_size_text(node->scalar, reader.sizes(*node), bare);
    if (text.fault) {
        reader.error(*node, *text.fault);
        return given;
    }
    if (text.size.is_unmeasured() && may_be == MayBe::measured) {
        reader.error(*node, "this size cannot be 'unmeasured': no reading finds it",
                     "measure it, or give the limits that it surely lies within, as in '12..14'");
        return given;
    }
    reader.keep_said(*node, text.left, text.size, text.gauge);
    given.size = text.size;
    given.gauge = text.gauge;
    return given;
}

job::Given size_at_least(Reader& reader, const Node* node, Bare bare, std::string_view what,
                         Least least, MayBe may_be) {
    job::Given given = size_of(reader, node, bare, may_be);
    const bool strictly = least == Least::above_zero;
    const auto sound = [&](double length) { return strictly ? length > 0.0 : length >= 0.0; };
    if (std::isnan(given.size.nominal)) return given;
    if (sound(given.size.nominal) && sound(given.size.lower)) return given;
    const bool limit_only = sound(given.size.nominal);
    reader.error(*node, fmt::format("{} is {}", what, quoted(given.written)),
                 fmt::format("it {} 0{}", strictly ? "must be greater than" : "cannot be less than",
                             !limit_only ? ""
                             : strictly  ? " at every limit"
                                         : " at any limit"));
    given.size = unknown_size();
    return given;
}

std::optional<job::Span> span_of(Reader& reader, const Node* node, std::string_view what,
                                 std::string_view unit) {
    const std::string example =
        fmt::format("a figure or a range, as in '30..40{}{}'", unit.empty() ? "" : " ", unit);
    if (node == nullptr || !single(reader, *node, what, example)) return std::nullopt;
    const RangeText range = range_text(trimmed(node->scalar));
    if (range.is_range() && !same_unit(range.unit, unit)) {
        reader.error(
            *node, fmt::format("{} is in {}", what, quoted(range.unit)),
            unit.empty() ? std::string("it has no unit") : fmt::format("give it in {}", unit));
        return std::nullopt;
    }
    return span_from(reader, *node, what, example, range);
}

std::optional<job::Span> span_in(Reader& reader, const Node* node, std::string_view what,
                                 std::initializer_list<UnitOf> units) {
    const std::string_view first = units.begin()->unit;
    const std::string example = fmt::format("a figure or a range, as in '30..40 {}'", first);
    if (node == nullptr || !single(reader, *node, what, example)) return std::nullopt;
    const RangeText range = range_text(trimmed(node->scalar));
    const auto* const found = std::ranges::find_if(units, [&](const UnitOf& each) {
        return !range.unit.empty() && same_unit(range.unit, each.unit);
    });
    if (range.is_range() && found == units.end()) {
        std::string known;
        for (const UnitOf& each : units)
            known += fmt::format("{}{}", known.empty() ? "" : ", ", each.unit);
        reader.error(*node,
                     range.unit.empty() ? fmt::format("{} has no unit", what)
                                        : fmt::format("{} is in {}", what, quoted(range.unit)),
                     fmt::format("give it in one of {}", known));
        return std::nullopt;
    }
    auto span = span_from(reader, *node, what, example, range);
    if (!span) return std::nullopt;
    span->least *= found->is;
    span->greatest *= found->is;
    return span;
}

std::optional<double> figure_of(Reader& reader, const Node* node, std::string_view what,
                                std::string_view unit, const AcceptedNumber& bounds) {
    if (node == nullptr || !single(reader, *node, what, fmt::format("it like '20 {}'", unit)))
        return std::nullopt;
    const RangeText range = range_text(trimmed(node->scalar));
    const bool one = range.low && range.high_text.empty();
    if (one && unit == "C" && !range.unit.empty() && range.unit.back() == 'F')
        return reader.refuse(
            *node, what,
            fmt::format("write {:.4g} C, which is the same", (*range.low - 32.0) / 1.8));
    if (!one || !same_unit(range.unit, unit))
        return reader.refuse(*node, what, fmt::format("write it like '20 {}'", unit));
    if (!within(*range.low, bounds)) return reader.refuse(*node, what, std::string(bounds.rule));
    return range.low;
}

std::optional<job::GaugeId> gauge_of(Reader& reader, const Node* node) {
    if (node == nullptr || !single(reader, *node, "a gauge", "its name")) return std::nullopt;
    const GaugeText found = find_gauge(node->scalar, reader.sizes(*node));
    if (found.fault) reader.error(*node, *found.fault);
    reader.keep_said(*node, {.gauge = std::pair(std::size_t{0}, node->scalar.size())}, {},
                     found.gauge);
    return found.gauge;
}

}  // namespace trialfit::reading
