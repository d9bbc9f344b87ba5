// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <stdexcept>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/quantity/figures.hpp>
#include <type_traits>
#include <utility>

namespace trialfit::paper {

namespace {

constexpr int kInchDecimals = 4;

// `told`, and behind it in brackets what `set` makes of the inches, where they are asked for.
template <typename Length, typename Set>
std::string with_inches(const Lengths& of, std::string told, Length length, Set set) {
    if (!of.inches || of.units == quantity::Unit::inch) return told;
    const auto inches = [&of](double each) {
        return quantity::convert(each, of.units, quantity::Unit::inch);
    };
    if constexpr (std::is_same_v<Length, double>)
        return told + fmt::format(" ({} in)", set(inches(length), kInchDecimals));
    else
        return told + fmt::format(" ({} in)",
                                  set(Length{inches(length.lo), inches(length.hi)}, kInchDecimals));
}

// A length that is a whole number of steps but for rounding noise must neither gain nor lose one.
constexpr double kNoise = 1e-6;

}  // namespace

int decimals_for(quantity::Unit units, const std::vector<double>& written, double narrowest) {
    const int usual = quantity::usual_decimals(units);
    int decimals = usual;
    const auto whole = [](double value, int d) {
        const double steps = value * std::pow(10.0, d);
        return std::abs(steps - std::round(steps)) < 1e-6;
    };
    for (const double value : written)
        if (!whole(value, usual) && whole(value, usual + 1)) decimals = usual + 1;
    if (!(narrowest > 0.0)) return decimals;
    while (decimals < usual + 2 && narrowest < std::pow(10.0, -decimals) * (1.0 - 1e-9))
        ++decimals;
    return decimals;
}

double finite(double figure) {
    if (!std::isfinite(figure))
        throw std::logic_error("a figure came out that is no number, or without end");
    return figure;
}

std::string fixed(double length, int decimals) {
    // A half is rounded away from zero, whichever side of it the sum's last bit lies on.
    const double step = std::pow(10.0, decimals);
    const double steps = finite(length) * step;
    const bool steppable = std::abs(steps) < 1e12;
    const double nearest =
        steppable ? std::copysign(std::floor(std::abs(steps) + 0.5 + kNoise), length) / step
                  : length;
    std::string out = fmt::format("{:.{}f}", nearest, decimals);
    const bool zero = out.find_first_of("123456789ni") == std::string::npos;
    if (zero && out.front() == '-') out.erase(0, 1);
    return out;
}

std::string enough(double length, int decimals) {
    const double step = std::pow(10.0, decimals);
    const double steps = std::ceil(std::abs(length) * step - kNoise);
    return fixed(std::copysign(steps / step, length), decimals);
}

std::string at_most(double length, int decimals) {
    const double step = std::pow(10.0, decimals);
    const double steps = std::floor(std::abs(length) * step + kNoise);
    return fixed(std::copysign(steps / step, length), decimals);
}

std::string apart(double one, double other, int decimals) {
    return fixed(std::abs(quantity::rounded(one, decimals) - quantity::rounded(other, decimals)),
                 decimals);
}

std::string range(stack::Range range, int decimals) {
    return fixed(range.lo, decimals) + " to " + fixed(range.hi, decimals);
}

std::string told_nominal(const stack::Bounds& value, int decimals) {
    return value.open() ? "-" : fixed(value.nominal, decimals);
}

std::string told_worst(const stack::Bounds& value, int decimals) {
    return value.open() ? "-" : range(value.worst, decimals);
}

std::string told_rss(const stack::Bounds& value, int decimals) {
    return value.open() ? "-" : range(value.rss, decimals);
}

std::string percent(double share) {
    return fmt::format("{} %", fixed(100.0 * share, 0));
}

std::string brief(double value, int figures) {
    return fmt::format("{:.{}g}", finite(value), figures);
}

std::string window(stack::Range range, int decimals) {
    constexpr double kNarrow = 10.0;  // of the last digit
    const bool narrow = range.hi - range.lo < kNarrow * std::pow(10.0, -decimals) * (1.0 - 1e-9);
    const int d = narrow ? decimals + 1 : decimals;
    return enough(range.lo, d) + ".." + at_most(range.hi, d);
}

std::string Lengths::operator()(double length) const {
    return beside(fixed(length, decimals), length);
}

std::string Lengths::with_unit(double length) const {
    return beside(fixed(length, decimals) + " " + std::string(spoken(units)), length);
}

std::string Lengths::range(stack::Range range) const {
    return with_inches(*this, paper::range(range, decimals), range, paper::range);
}

std::string Lengths::window(stack::Range range) const {
    return with_inches(*this, paper::window(range, decimals), range, paper::window);
}

std::string Lengths::least(double length) const {
    return with_inches(*this, enough(length, decimals), length, enough);
}

std::string Lengths::most(double length) const {
    return with_inches(*this, at_most(length, decimals), length, at_most);
}

std::string Lengths::beside(std::string told, double length) const {
    return with_inches(*this, std::move(told), length, fixed);
}

}  // namespace trialfit::paper
