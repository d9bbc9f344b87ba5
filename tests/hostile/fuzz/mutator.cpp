// SPDX-License-Identifier: MIT
// Changes an input so that it mostly stays a job: words of it for one another, numbers for hard
// ones, lines left out, doubled, moved. A quarter of the changes are libFuzzer's own.
#include <algorithm>
#include <array>
#include <cstring>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "harness.hpp"

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* bytes, std::size_t size, std::size_t most);

namespace trialfit::fuzz {

namespace {

using Chance = std::minstd_rand;

constexpr std::array<const char*, 24> kNumbers = {
    "0",     "-1",     "1e6",     "-1000000", "1e-9",   "0.001",      "999999.9",  "0.1 exact",
    "25 h7", "1..2",   "3 by c",  "[1, 2]",   "{}",     "unmeasured", "-0.5 ±0.5", "1 in 5",
    "360",   "1:4.92", "12 thou", "0.5in",    "17 ±17", "1e-300",     "90 deg",    "-5 +1 -2"};

std::size_t below(Chance& chance, std::size_t bound) {
    return bound == 0 ? 0 : chance() % bound;
}

bool inside_word(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' ||
           c == '_';
}

bool a_number(std::string_view word) {
    return word.find_first_not_of("0123456789.") == std::string_view::npos;
}

// Where each word stands, and how long it is.
std::vector<std::pair<std::size_t, std::size_t>> words_in(std::string_view text) {
    std::vector<std::pair<std::size_t, std::size_t>> out;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const std::size_t begin = at;
        while (at < text.size() && inside_word(text[at]))
            ++at;
        if (at > begin) out.emplace_back(begin, at - begin);
    }
    return out;
}

void change_word(std::string& text, Chance& chance) {
    const auto words = words_in(text);
    if (words.empty()) return;
    const auto [at, length] = words[below(chance, words.size())];
    if (a_number(std::string_view(text).substr(at, length)) && below(chance, 3) != 0) {
        text.replace(at, length, kNumbers.at(below(chance, kNumbers.size())));
        return;
    }
    const auto [from, long_] = words[below(chance, words.size())];
    text.replace(at, length, text.substr(from, long_));
}

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        out.emplace_back(text.substr(0, end));
        text.remove_prefix(end);
    }
    return out;
}

// A few lines in a row: left out, doubled, or moved elsewhere.
void change_lines(std::string& text, Chance& chance) {
    std::vector<std::string> lines = lines_of(text);
    if (lines.size() < 2) return;
    const std::size_t from = below(chance, lines.size());
    const std::size_t many = std::min(1 + below(chance, 4), lines.size() - from);
    const auto begin = lines.begin() + static_cast<std::ptrdiff_t>(from);
    const std::vector<std::string> taken(begin, begin + static_cast<std::ptrdiff_t>(many));
    const std::size_t how = below(chance, 3);
    if (how != 1) lines.erase(begin, begin + static_cast<std::ptrdiff_t>(many));
    const auto to = static_cast<std::ptrdiff_t>(below(chance, lines.size() + 1));
    if (how != 0) lines.insert(lines.begin() + to, taken.begin(), taken.end());
    text.clear();
    for (const std::string& each : lines)
        text += each;
}

}  // namespace

}  // namespace trialfit::fuzz

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* bytes, std::size_t size,
                                               std::size_t most, unsigned seed) {
    trialfit::fuzz::Chance chance(seed);
    const std::size_t kind = trialfit::fuzz::below(chance, 8);
    if (kind < 2) return LLVMFuzzerMutate(bytes, size, most);
    std::string text = trialfit::fuzz::text_of(bytes, size);
    const std::size_t times = 1 + trialfit::fuzz::below(chance, 3);
    for (std::size_t i = 0; i < times; ++i) {
        if (kind < 6)
            trialfit::fuzz::change_word(text, chance);
        else
            trialfit::fuzz::change_lines(text, chance);
    }
    text.resize(std::min(text.size(), most));
    std::memcpy(bytes, text.data(), text.size());
    return text.size();
}
