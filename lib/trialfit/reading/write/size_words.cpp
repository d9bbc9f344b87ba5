// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>
#include <trialfit/quantity/size.hpp>
#include <trialfit/reading/write/size_words.hpp>
#include <trialfit/reading/yaml/tokens.hpp>

namespace trialfit::reading {

namespace {

using quantity::Shape;

// What a size with limits has where its file says no more.
constexpr quantity::Spread kToleranced{.shape = Shape::normal};

constexpr std::string_view kDegreesAfter = " deg";

// The shortest deviation that leads from `nominal` to `limit` to the last bit; the nearest one
// where none does.
double deviation_to(double nominal, double limit) {
    const double found = limit - nominal;
    constexpr int kMostDigits = 17;
    for (int digits = 1; digits <= kMostDigits; ++digits) {
        const auto each = number_of(fmt::format("{:.{}g}", found, digits));
        if (each && nominal + *each == limit) return *each;
    }
    return found;
}

// Words for a normal spread with its limits at 3 sd.
std::array<std::string, 3> toleranced_words(const quantity::Size& size) {
    const double above = deviation_to(size.nominal, size.upper);
    const double below = deviation_to(size.nominal, size.lower);
    return {
        fmt::format("{} \u00b1{}", figures(size.nominal), figures(above)),
        fmt::format("{}..{}", figures(size.lower), figures(size.upper)),
        fmt::format("{} {}{} {}{}", figures(size.nominal), above < 0.0 ? "" : "+", figures(above),
                    below < 0.0   ? ""
                    : below > 0.0 ? "+"
                                  : "-",
                    figures(below))};
}

std::string_view shape_word(Shape shape) {
    switch (shape) {
        case Shape::truncated_normal:
            return "truncated normal";
        case Shape::uniform:
            return "uniform";
        case Shape::triangular:
            return "triangular";
        case Shape::normal:
        case Shape::exact:
            break;
    }
    return "normal";
}

bool ends_at_limits(Shape shape) {
    return shape == Shape::uniform || shape == Shape::triangular;
}

}  // namespace

std::string figures(double length) {
    // The shortest that reads back; a whole number has no point, and no zero has a sign.
    return fmt::format("{}", length == 0.0 ? 0.0 : length);
}

std::string_view word(job::GaugeReads reads) {
    constexpr std::array<std::string_view, 4> kReads{"length", "depth", "diameter", "gap"};
    return kReads.at(static_cast<std::size_t>(reads));
}

SizeWords::SizeWords(const job::Job& job) : job_(job) {
    for (const job::Gauge& gauge : job.gauges)
        gauge_names_.add(gauge.name);
}

bool SizeWords::reads(const std::string& words, const job::Given& given, Bare bare,
                      double holds) const {
    SizeText text = read_size_text(words, context_of(job_, gauge_names_), bare);
    if (text.fault) return false;
    const bool bare_shim = holds > 0.0 && text.size.spread.shape == Shape::exact &&
                           !std::string_view(words).ends_with("exact");
    if (bare_shim) text.size = quantity::toleranced(text.size.nominal, -holds, holds);
    return text.size == given.size && text.gauge == given.gauge;
}

std::string SizeWords::line(const job::Given& given, Bare bare, double holds) const {
    const quantity::Size& size = given.size;
    const auto says = [&](const std::string& words) { return reads(words, given, bare, holds); };
    if (size.is_unmeasured()) return "unmeasured";
    if (!given.written.empty() && says(given.written)) return given.written;
    if (given.gauge) {
        const std::string& gauge = job_.gauges.at(given.gauge->at()).name;
        const std::string words = fmt::format("{} by {}", figures(size.nominal), gauge);
        return says(words) ? words : std::string();
    }
    if (size.spread.shape == Shape::exact) {
        const std::string plain = figures(size.nominal);
        return bare == Bare::exact && says(plain) ? plain : plain + " exact";
    }
    if (size.spread != kToleranced) return {};
    const auto all = toleranced_words(size);
    for (const std::string& words : all)
        if (says(words)) return words;
    return all.back();
}

std::string SizeWords::angle(const job::Given& given) const {
    const auto says = [&](std::string words) {
        for (std::size_t at = words.find("deg"); at != std::string::npos; at = words.find("deg"))
            words.replace(at, 3, "   ");
        return reads(words, given, Bare::exact, 0.0);
    };
    if (!given.written.empty() && says(given.written)) return given.written;
    const std::string plain = figures(given.size.nominal);
    if (says(plain)) return plain + std::string(kDegreesAfter);
    for (const std::string& words : toleranced_words(given.size))
        if (says(words)) return words + std::string(kDegreesAfter);
    return {};
}

// Of a size that was read in its long form, the words that it is told in since:
// "10 +0.05 -0.05, uniform".
SizeWords::Pairs SizeWords::limits_as_told(const job::Given& given) const {
    const std::string_view told =
        std::string_view(given.written).substr(0, given.written.find(", "));
    const auto length = [&](std::string_view words) {
        return read_length_text(words, context_of(job_, gauge_names_), PlusMinus::refused);
    };
    const std::size_t plus = told.find(" +");
    if (plus == std::string_view::npos) return {};
    const std::size_t minus = told.find(" -", plus);
    if (minus == std::string_view::npos) return {};
    const std::string size(told.substr(0, plus));
    const std::string above(told.substr(plus + 2, minus - plus - 2));
    const std::string below(told.substr(minus + 2));
    const LengthText nominal = length(size);
    const LengthText upper = length(above);
    const LengthText lower = length(below);
    if (nominal.fault || upper.fault || lower.fault || upper.length < 0.0 || lower.length < 0.0)
        return {};
    const quantity::Size read = quantity::toleranced(nominal.length, -lower.length, upper.length);
    const bool same = read.nominal == given.size.nominal && read.lower == given.size.lower &&
                      read.upper == given.size.upper;
    if (!same) return {};
    return {{"size", {size}}, {"plus", {above}}, {"minus", {below}}};
}

SizeWords::Pairs SizeWords::limits_in_figures(const job::Given& given) const {
    const quantity::Size& size = given.size;
    if (size.nominal == size.middle())
        return {{"lower", {figures(size.lower)}}, {"upper", {figures(size.upper)}}};
    const double above = deviation_to(size.nominal, size.upper);
    const double below = -deviation_to(size.nominal, size.lower);
    if (above >= 0.0 && below >= 0.0)
        return {{"size", {figures(size.nominal)}},
                {"plus", {figures(above)}},
                {"minus", {figures(below)}}};
    // Limits that both lie on one side have signs, which the line alone has.
    job::Given toleranced = given;
    toleranced.size.spread = kToleranced;
    toleranced.written.clear();
    return {{"size", {line(toleranced, Bare::exact)}}};
}

SizeWords::Pairs SizeWords::long_form(const job::Given& given) const {
    const quantity::Size& size = given.size;
    const quantity::Spread& spread = size.spread;
    if (given.gauge) {
        // Two readings as far from their mean as it scatters have that mean and that scatter.
        const job::Gauge& gauge = job_.gauges.at(given.gauge->at());
        const double half_width = gauge.half_width + 3.0 * spread.scatter_sd;
        const double off =
            std::abs(half_width - size.half_width()) + std::abs(size.nominal - size.middle());
        const double slack = 1e-9 * (std::abs(size.nominal) + half_width);
        if (spread.shape != Shape::uniform || !(spread.scatter_sd > 0.0) || off > slack) return {};
        return {{"size",
                 {figures(size.nominal - spread.scatter_sd),
                  figures(size.nominal + spread.scatter_sd)}},
                {"by", {gauge.name}}};
    }
    if (spread.shape == Shape::exact || spread.scatter_sd != 0.0) return {};
    Pairs pairs = limits_as_told(given);
    if (pairs.empty()) pairs = limits_in_figures(given);
    if (spread.shape != Shape::normal)
        pairs.push_back({"shape", {std::string(shape_word(spread.shape))}});
    if (spread.sigmas != kToleranced.sigmas && !ends_at_limits(spread.shape))
        pairs.push_back({"sigmas", {figures(spread.sigmas)}});
    return pairs;
}

}  // namespace trialfit::reading
