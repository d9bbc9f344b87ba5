// SPDX-License-Identifier: MIT
#include "harness.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/yaml/source.hpp>

namespace trialfit::fuzz {

namespace {

char small_letter(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool of_a_word(char c) {
    return (small_letter(c) >= 'a' && small_letter(c) <= 'z') || c == '_';
}

// Whether `text` has `word`, in letters of either case, with no letter beside it. Every printed
// answer is looked through: a step that compares one letter is most of the time.
bool has_word(std::string_view text, std::string_view word) {
    for (std::size_t at = 0; at + word.size() <= text.size(); ++at) {
        if (small_letter(text[at]) != word.front()) continue;
        std::size_t alike = 1;
        while (alike < word.size() && small_letter(text[at + alike]) == word[alike])
            ++alike;
        if (alike < word.size()) continue;
        const std::size_t end = at + word.size();
        if ((at == 0 || !of_a_word(text[at - 1])) && (end == text.size() || !of_a_word(text[end])))
            return true;
    }
    return false;
}

// Where the next number of a JSON text begins, or its end.
std::size_t number_from(std::string_view text, std::size_t at) {
    while (at < text.size() && text[at] != '-' && !(text[at] >= '0' && text[at] <= '9'))
        ++at;
    return at;
}

std::string without_places(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size(); ++at) {
        out += text[at];
        const std::string_view so_far = out;
        if (!so_far.ends_with("\"line\": ") && !so_far.ends_with("\"column\": ") &&
            !so_far.ends_with("line "))
            continue;
        while (at + 1 < text.size() && text[at + 1] >= '0' && text[at + 1] <= '9')
            ++at;
    }
    return out;
}

}  // namespace

void hold(bool is_so, std::string_view what, std::string_view shown) {
    if (is_so) return;
    std::fprintf(stderr, "NOT HELD: %.*s\n%.*s\n", static_cast<int>(what.size()), what.data(),
                 static_cast<int>(shown.size()), shown.data());
    std::abort();
}

void hold_printed(std::string_view printed, std::string_view job) {
    hold(!printed.empty(), "an answer is printed");
    if (printed.size() <= reading::kLargestFile)
        if (const auto refused = reading::refuse_text(printed))
            hold(false, refused->fault, printed);
    for (const char* const word : {"nan", "inf"})
        hold(!has_word(printed, word) || has_word(job, word), "every figure is a number", printed);
}

bool same_json(std::string_view one, std::string_view other) {
    constexpr double kNear = 1e-9;
    const std::string left = without_places(one);
    const std::string right = without_places(other);
    std::size_t l = 0;
    std::size_t r = 0;
    while (true) {
        const std::size_t left_number = number_from(left, l);
        const std::size_t right_number = number_from(right, r);
        if (left.substr(l, left_number - l) != right.substr(r, right_number - r)) return false;
        if (left_number == left.size() || right_number == right.size())
            return left_number == left.size() && right_number == right.size();
        char* left_end = nullptr;
        char* right_end = nullptr;
        const double a = std::strtod(left.c_str() + left_number, &left_end);
        const double b = std::strtod(right.c_str() + right_number, &right_end);
        if (std::abs(a - b) > kNear * std::max({1.0, std::abs(a), std::abs(b)})) return false;
        l = std::max(left_number + 1, static_cast<std::size_t>(left_end - left.c_str()));
        r = std::max(right_number + 1, static_cast<std::size_t>(right_end - right.c_str()));
    }
}

std::vector<std::string> pieces(std::string_view text, std::string_view mark, std::size_t most) {
    std::vector<std::string> out{{}};
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size() - 1) + 1;
        const std::string_view line = text.substr(at, end - at);
        at = end;
        if (out.size() < most && line.starts_with(mark) && line.substr(mark.size()) == "\n")
            out.emplace_back();
        else
            out.back() += line;
    }
    return out;
}

}  // namespace trialfit::fuzz
