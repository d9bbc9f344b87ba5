// SPDX-License-Identifier: MIT
#include <array>
#include <charconv>
#include <trialfit/quantity/characters.hpp>

namespace trialfit::quantity {

std::string six_digits(double value) {
    constexpr int kDigits = 6;
    std::array<char, 32> text{};
    char* const begin = text.data();
    const auto end =
        std::to_chars(begin, begin + text.size(), value, std::chars_format::general, kDigits);
    return {begin, end.ptr};
}

}  // namespace trialfit::quantity
