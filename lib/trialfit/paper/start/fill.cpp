// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <trialfit/paper/start/fill.hpp>
#include <trialfit/paper/text/layout.hpp>

namespace trialfit::paper {

namespace {

bool digit(char c) {
    return c >= '0' && c <= '9';
}

// Whether lengths stand in it: the rest is alike in every unit.
bool has_lengths(LetterAsks asked) {
    return asked != LetterAsks::taper && asked != LetterAsks::thread && asked != LetterAsks::height;
}

// A number of millimetres as inches.
std::string inches(std::string_view number) {
    double mm = 0.0;
    std::from_chars(number.data(), number.data() + number.size(), mm);
    const double in = quantity::convert(mm, quantity::Unit::mm, quantity::Unit::inch);
    const std::size_t point = number.find('.');
    const bool fine = point != std::string_view::npos && number.size() - point > 3;
    constexpr double kSmall = 0.0095;
    std::string out = fmt::format("{:.{}f}", in, fine || in < kSmall ? 4 : 3);
    while (out.back() == '0' && in < kSmall)
        out.pop_back();
    if (out.back() == '.') out.pop_back();
    return out.empty() ? "0" : out;
}

// "7.00 by caliper" -> "-7.00 by caliper", and back.
std::string turned_number(std::string_view words) {
    return words.substr(0, 1) == "-" ? std::string(words.substr(1)) : "-" + std::string(words);
}

// `text` with each of its marks replaced by what `fill` gives for it.
template <typename Fill>
std::string with_marks(std::string_view text, const Fill& fill) {
    std::string out;
    while (true) {
        const std::size_t open = text.find("{{");
        out += text.substr(0, open);
        if (open == std::string_view::npos) return out;
        const std::size_t close = text.find("}}", open);
        out += fill(text.substr(open + 2, close - open - 2));
        text.remove_prefix(close + 2);
    }
}

// Fills one text.
class Filler {
public:
    Filler(const StartKind& kind, const Filling& with) : kind_(kind), with_(with) {}

    [[nodiscard]] std::string text() const {
        return with_marks(kind_.text, [this](std::string_view words) { return mark(words); });
    }

private:
    [[nodiscard]] std::string mark(std::string_view words) const {
        if (words == "units") return std::string(quantity::name(with_.units));
        if (words == "title")
            return std::string(kind_.title) + (with_.answers == nullptr ? " (invented)" : "");
        if (words == "head") return head();
        switch (words.front()) {
            case '=':
                return in_units(words.substr(1), with_.units);
            case '?':
            case '+':
                return stands(words.substr(1), words.front() == '+') ? "" : "# ";
            default:
                return size(words);
        }
    }

    [[nodiscard]] std::string head() const {
        if (with_.answers == nullptr)
            return "ALL SIZES HERE ARE INVENTED. Put your own in their place, then: trialfit check "
                   "FILE";
        std::string out =
            fmt::format("Sizes as answered to `trialfit start {} --ask`.", kind_.name);
        const std::string kept = fmt::format(
            "NOT YOURS YET, but the template's: {}. Look through them before you rely on an "
            "answer.",
            kind_.kept);
        constexpr std::size_t kColumns = 94;
        for (const std::string& line : wrapped(kept, kColumns))
            out += "\n# " + line;
        return out;
    }

    // Where all of its letters are answered.
    [[nodiscard]] bool stands(std::string_view section, bool in_template) const {
        if (with_.all_sections) return true;
        if (with_.answers == nullptr) return in_template;
        bool any = false;
        for (const StartLetter& each : kind_.letters) {
            if (each.section != section) continue;
            any = true;
            if (answer(each.letter).empty()) return false;
        }
        return any;
    }

    [[nodiscard]] std::string answer(std::string_view letter) const {
        if (with_.answers == nullptr) return "";
        const auto found = with_.answers->find(letter);
        return found == with_.answers->end() ? "" : found->second;
    }

    [[nodiscard]] std::string size(std::string_view words) const {
        const bool inboard = words.front() == '-';
        if (inboard) words.remove_prefix(1);
        const std::size_t blank = words.find(' ');
        const std::string_view letter = words.substr(0, blank);
        const auto of = std::ranges::find(kind_.letters, letter, &StartLetter::letter);
        if (of == kind_.letters.end()) return "";
        std::string out = answer(letter);
        if (out.empty()) out = invented(*of, with_.units);
        if (of->asked == LetterAsks::shims && out == "none") return "";
        if (inboard) out = turned_sign(out);
        if (blank != std::string_view::npos) out += words.substr(blank);
        return out.find('[') == std::string::npos ? out : '"' + out + '"';
    }

    const StartKind& kind_;
    const Filling& with_;
};

}  // namespace

std::string in_units(std::string_view millimetres, quantity::Unit units) {
    if (units == quantity::Unit::mm) return std::string(millimetres);
    std::string out;
    for (std::size_t i = 0; i < millimetres.size();) {
        std::size_t end = i;
        while (
            end < millimetres.size() &&
            (digit(millimetres[end]) || (millimetres[end] == '.' && end + 1 < millimetres.size() &&
                                         digit(millimetres[end + 1]) && end > i)))
            ++end;
        if (end > i) {
            out += inches(millimetres.substr(i, end - i));
            i = end;
        } else {
            out += millimetres[i++];
        }
    }
    return out;
}

std::string with_lengths(std::string_view words, quantity::Unit units) {
    return with_marks(words,
                      [units](std::string_view mark) { return in_units(mark.substr(1), units); });
}

std::string invented(const StartLetter& letter, quantity::Unit units) {
    return has_lengths(letter.asked) ? in_units(letter.invented, units)
                                     : std::string(letter.invented);
}

std::string turned_sign(std::string_view words) {
    if (words.empty() || words.substr(0, 10) == "unmeasured") return std::string(words);
    if (const std::size_t range = words.find(".."); range != std::string_view::npos)
        return turned_number(words.substr(range + 2)) + ".." +
               turned_number(words.substr(0, range));
    if (words.front() != '[') return turned_number(words);
    const std::size_t close = words.find(']');
    std::string out = "[";
    for (std::string_view rest = words.substr(1, close - 1); !rest.empty();) {
        const std::size_t comma = rest.find(',');
        std::string_view each = rest.substr(0, comma);
        while (!each.empty() && each.front() == ' ')
            each.remove_prefix(1);
        out += (out.size() > 1 ? ", " : "") + turned_number(each);
        rest.remove_prefix(comma == std::string_view::npos ? rest.size() : comma + 1);
    }
    return out + std::string(words.substr(close));
}

std::string filled(const StartKind& kind, const Filling& with) {
    return Filler(kind, with).text();
}

std::string start_template(const StartKind& kind, quantity::Unit units) {
    return filled(kind, {.units = units});
}

}  // namespace trialfit::paper
