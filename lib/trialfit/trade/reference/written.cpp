// SPDX-License-Identifier: MIT
#include <array>
#include <charconv>
#include <system_error>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r\n";
    const std::size_t first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::string upper_case(std::string text) {
    for (char& each : text)
        each = quantity::large(each);
    return text;
}

std::optional<double> decimal(std::string_view text) {
    // from_chars would also take "inf", "nan" and hexadecimal digits, but no leading plus.
    if (text.empty() || text.find_first_not_of("+-.0123456789") != std::string_view::npos)
        return {};
    if (text.front() == '+') {
        text.remove_prefix(1);
        if (text.empty() || text.front() == '-') return {};
    }
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] =
        std::from_chars(text.data(), end, value, std::chars_format::fixed);
    if (error != std::errc() || stopped != end) return {};
    return value;
}

std::optional<double> decimal_or_fraction(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos) return decimal(text);
    const auto divisor = decimal(text.substr(slash + 1));
    if (!divisor || *divisor <= 0.0) return {};
    const std::string_view front = text.substr(0, slash);
    // From the second character on, so that a sign is not taken for the joint of `1-1/2`.
    const std::size_t joint = front.find_first_of(" -", 1);
    if (joint == std::string_view::npos) {
        const auto dividend = decimal(front);
        if (!dividend) return {};
        return *dividend / *divisor;
    }
    const auto whole = decimal(front.substr(0, joint));
    const auto dividend = decimal(trimmed(front.substr(joint + 1)));
    if (!whole || !dividend || *whole < 0.0 || *dividend < 0.0) return {};
    return *whole + *dividend / *divisor;
}

std::string shown(double value) {
    std::array<char, 32> buffer{};
    // 0.375 inch is 9.525 mm and not 9.524999999999999.
    constexpr int kFigures = 12;
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                            std::chars_format::general, kFigures);
    if (error != std::errc()) return "?";
    return {buffer.data(), end};
}

}  // namespace trialfit::trade
