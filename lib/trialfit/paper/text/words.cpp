// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

constexpr std::size_t kLongestSpoken = 60;

constexpr std::string_view kPlainInShell =
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-/+:,@%";

}  // namespace

std::string listed(std::string_view name, std::size_t width) {
    return shortened(harmless(name), width);
}

std::string spoken(std::string_view name) {
    const std::size_t dot = name.find('.');
    if (dot == std::string_view::npos || dot == 0) return listed(name, kLongestSpoken);
    const std::string part = listed(name.substr(0, dot), kLongestSpoken / 2);
    const std::string face = listed(name.substr(dot + 1), kLongestSpoken / 2);
    return fmt::format("the {}{} {}", part, part.back() == 's' ? "'" : "'s", face);
}

std::string file_name(std::string_view path) {
    const std::size_t slash = path.rfind('/');
    return std::string(slash + 1 < path.size() ? path.substr(slash + 1) : path);
}

std::string counted(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string capital(std::string text) {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
        out += words[i];
    }
    return out;
}

std::string shell_word(std::string_view text) {
    if (!text.empty() && text.find_first_not_of(kPlainInShell) == std::string_view::npos)
        return std::string(text);
    std::string out = "\"";
    for (const char c : harmless(text)) {
        if (c == '"' || c == '\\' || c == '$' || c == '`') out += '\\';
        out += c;
    }
    return out + "\"";
}

std::string_view spoken(quantity::Unit unit) {
    return unit == quantity::Unit::inch ? "inch" : quantity::name(unit);
}

std::string_view plural(quantity::Unit unit) {
    return unit == quantity::Unit::inch ? "inches" : quantity::name(unit);
}

std::string_view word(stack::Verdict verdict) {
    switch (verdict) {
        case stack::Verdict::fails:
            return "fails";
        case stack::Verdict::doubtful:
            return "doubtful";
        case stack::Verdict::not_judged:
            return "not judged";
        case stack::Verdict::holds:
            break;
    }
    return "holds";
}

std::string_view loud_word(stack::Verdict verdict) {
    if (verdict == stack::Verdict::fails) return "FAILS";
    return verdict == stack::Verdict::not_judged ? "NOT JUDGED" : word(verdict);
}

Ink ink(stack::Verdict verdict) {
    switch (verdict) {
        case stack::Verdict::fails:
            return Ink::bad;
        case stack::Verdict::doubtful:
        case stack::Verdict::not_judged:
            return Ink::warn;
        case stack::Verdict::holds:
            break;
    }
    return Ink::good;
}

std::string_view word(stack::Judge judge) {
    return judge == stack::Judge::rss ? "rss" : "worst";
}

std::string_view phrase(stack::Judge judge) {
    return judge == stack::Judge::rss ? "by RSS" : "in the worst case";
}

std::string_view word(stack::CheckKind kind) {
    switch (kind) {
        case stack::CheckKind::engagement:
            return "engagement";
        case stack::CheckKind::overlap:
            return "overlap";
        case stack::CheckKind::air_gap:
            return "air_gap";
        case stack::CheckKind::clamp:
            return "clamp";
        case stack::CheckKind::gap:
            break;
    }
    return "gap";
}

std::string titled(std::string_view title, std::string_view file) {
    constexpr std::size_t kLongestTitle = 200;
    return title.empty() ? listed(file)
                         : fmt::format("{} ({})", listed(title, kLongestTitle), listed(file));
}

std::string told_judge(quantity::Unit units, stack::Judge judge, std::optional<double> odds_level,
                       double inflate) {
    std::string by = judge == stack::Judge::rss ? "by RSS" : "by the worst case";
    if (odds_level) by = fmt::format("by odds of at least {}", brief(*odds_level));
    std::string out = fmt::format("Lengths in {}, judged {}.", plural(units), by);
    if (inflate != 1.0) out += fmt::format(" RSS half-widths times {}.", brief(inflate));
    return out;
}

std::string told_not_judged(const std::vector<std::string>& not_judged) {
    if (not_judged.empty()) return {};
    std::string out = fmt::format("NOT JUDGED: {}.", not_judged.front());
    const std::size_t more = not_judged.size() - 1;
    if (more == 1) out += " 1 other is not judged either.";
    if (more > 1) out += fmt::format(" {} others are not judged either.", more);
    return out;
}

std::size_t Sources::number(const std::string& source) {
    const auto found = std::ranges::find(all, source);
    const auto before = static_cast<std::size_t>(found - all.begin());
    if (found == all.end()) all.push_back(source);
    return before + 1;
}

std::string warned(const std::vector<std::string>& warnings, const std::string& answer) {
    std::string out;
    for (const std::string& warning : warnings)
        out += harmless(warning) + " ";
    return out + answer;
}

}  // namespace trialfit::paper
