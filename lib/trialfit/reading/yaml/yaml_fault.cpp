// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <yaml-cpp/exceptions.h>

#include <optional>
#include <string_view>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/yaml_fault.hpp>
#include <vector>

namespace trialfit::reading {

namespace {

constexpr std::size_t kNowhere = std::string::npos;
constexpr std::string_view kBlanks = " \t";

// Brackets and quotes that are open before some place.
struct Opened {
    std::vector<std::size_t> brackets;
    std::size_t quote = kNowhere;
};

// Reads over `text` from its beginning as far as the brackets go; a quote counts where a value may
// begin, a bracket there too or within other brackets, a comment after a blank.
Opened opened_before(const std::string& text, std::size_t end) {
    Opened opened;
    bool value_may_begin = true;
    for (std::size_t at = 0; at < end; ++at) {
        const char c = text[at];
        if (c == '#' && (at == 0 || blank(text[at - 1]))) {
            at = text.find('\n', at);
            if (at == kNowhere) break;
            value_may_begin = true;
        } else if ((c == '"' || c == '\'') && value_may_begin) {
            const std::size_t close = end_of_quote(text, at);
            if (close >= end) {
                opened.quote = at;
                break;
            }
            at = close;
            value_may_begin = false;
        } else if ((c == '[' || c == '{') && (value_may_begin || !opened.brackets.empty())) {
            opened.brackets.push_back(at);
            value_may_begin = true;
        } else if ((c == ']' || c == '}') && !opened.brackets.empty()) {
            opened.brackets.pop_back();
            value_may_begin = false;
        } else if (c == '\n' || c == ',' || c == ':' || c == '-') {
            value_may_begin = true;
        } else if (!blank(c)) {
            value_may_begin = false;
        }
    }
    return opened;
}

job::Complaint not_closed(const Source& source, std::size_t bracket) {
    const char opener = source.text().at(bracket);
    return {.severity = job::Severity::error,
            .at = source.place(bracket),
            .fault = fmt::format("'{}' is opened here and not closed", opener),
            .mend = fmt::format("write '{}' where it ends", opener == '[' ? ']' : '}')};
}

// Everything that is asked about the lines round a fault.
class Scene {
public:
    Scene(const Source& source, std::size_t at)
        : source_(source),
          text_(source.text()),
          at_(std::min(at, source.text().size())),
          line_(source.line_of(at_)) {
        // A fault noticed only at the very end belongs to the last line that says something.
        while (line_ > 0 && empty(line_))
            --line_;
        above_ = line_;
        while (above_ > 0) {
            --above_;
            if (!empty(above_)) break;
        }
    }

    [[nodiscard]] job::Complaint explain(const std::string& message) const {
        if (auto found = tab()) return *found;
        if (auto found = mark_at_beginning(message)) return *found;
        if (auto found = after_closing()) return *found;
        if (auto found = in_quotes(message)) return *found;
        if (auto found = brackets(message)) return *found;
        if (auto found = colons(message)) return *found;
        if (message == YAML::ErrorMsg::BLOCK_ENTRY)
            return fault(at_, "a list cannot begin in the line of its key",
                         "begin '- ' in the next line, or write the list in brackets");
        if (message == YAML::ErrorMsg::END_OF_MAP || message == YAML::ErrorMsg::END_OF_SEQ)
            return fault(first_of(line_), "this line does not line up with those above it",
                         "give it the same indentation as the lines that it belongs with");
        return fault(at_, "this line cannot be read",
                     "look for a missing colon, bracket or quote here and in the line above");
    }

private:
    [[nodiscard]] job::Complaint fault(std::size_t at, std::string what, std::string mend) const {
        return {.severity = job::Severity::error,
                .at = source_.place(at),
                .fault = std::move(what),
                .mend = std::move(mend)};
    }
    [[nodiscard]] bool empty(std::size_t line) const {
        const std::string_view words = source_.line(line);
        const std::size_t first = words.find_first_not_of(kBlanks);
        return first == std::string_view::npos || words[first] == '#';
    }
    // Offset of the first character of a line that is not blank.
    [[nodiscard]] std::size_t first_of(std::size_t line) const {
        const std::size_t first = source_.line(line).find_first_not_of(kBlanks);
        return source_.start_of(line) + (first == std::string_view::npos ? 0 : first);
    }
    [[nodiscard]] char at(std::size_t offset) const {
        return offset < text_.size() ? text_[offset] : '\0';
    }

    [[nodiscard]] std::optional<job::Complaint> tab() const {
        for (const std::size_t line : {above_, line_}) {
            const std::string_view words = source_.line(line);
            const std::size_t place = words.substr(0, words.find_first_not_of(kBlanks)).find('\t');
            if (place == std::string_view::npos) continue;
            return fault(source_.start_of(line) + place, "a tab in the indentation",
                         "indent with spaces");
        }
        return std::nullopt;
    }

    [[nodiscard]] std::optional<job::Complaint> mark_at_beginning(
        const std::string& message) const {
        constexpr std::string_view kAnchors = "&*";
        const bool anchor = message == YAML::ErrorMsg::UNKNOWN_ANCHOR ||
                            message == YAML::ErrorMsg::ALIAS_NOT_FOUND ||
                            message == YAML::ErrorMsg::ANCHOR_NOT_FOUND ||
                            message == YAML::ErrorMsg::CHAR_IN_ALIAS ||
                            message == YAML::ErrorMsg::CHAR_IN_ANCHOR;
        if (anchor) {
            std::size_t place = at_;
            while (place > 0 && kAnchors.find(at(place)) == std::string_view::npos)
                --place;
            return fault(place, fmt::format("a value cannot begin with '{}'", at(place)),
                         "put it in quotes; job files have no anchors and no aliases");
        }
        const bool tag = message == YAML::ErrorMsg::TAG_WITH_NO_SUFFIX ||
                         message == YAML::ErrorMsg::END_OF_VERBATIM_TAG ||
                         message == YAML::ErrorMsg::CHAR_IN_TAG_HANDLE;
        if (tag)
            return fault(at_, "a value cannot begin with '!'",
                         "put it in quotes, or leave the mark out");
        if (message == YAML::ErrorMsg::UNKNOWN_TOKEN && at(at_) > ' ')
            return fault(at_, fmt::format("a value cannot begin with '{}'", at(at_)),
                         "put it in quotes");
        return std::nullopt;
    }

    // `[12.48, 12.50] by caliper` and `"magnets" over poles`.
    [[nodiscard]] std::optional<job::Complaint> after_closing() const {
        std::size_t last = at_;
        while (last > 0 && kBlanks.find(at(last - 1)) != std::string_view::npos)
            --last;
        if (last == 0 || blank(at(at_)) || at(at_) == '\0' || at(at_) == ':') return std::nullopt;
        const char closer = at(last - 1);
        if (closer == '"' || closer == '\'')
            return fault(at_, "text after the closing quote",
                         "put the whole value between one pair of quotes");
        if (closer != ']' && closer != '}') return std::nullopt;
        const Opened opened = opened_before(text_, last - 1);
        if (opened.brackets.empty() || at(at_) == ']' || at(at_) == '}') return std::nullopt;
        const std::size_t begin = opened.brackets.back();
        const std::size_t end = std::min(text_.find_first_of(",}#\n\r", at_), text_.size());
        std::string value = text_.substr(begin, end - begin);
        value.erase(value.find_last_not_of(kBlanks) + 1);
        return fault(begin,
                     fmt::format("{} begins with a bracket and goes on after it", quoted(value)),
                     fmt::format("put quotes round it: \"{}\"", clipped(value)));
    }

    [[nodiscard]] std::optional<job::Complaint> in_quotes(const std::string& message) const {
        if (message.starts_with(YAML::ErrorMsg::INVALID_ESCAPE) ||
            message.starts_with(YAML::ErrorMsg::INVALID_HEX) ||
            message.starts_with(YAML::ErrorMsg::INVALID_UNICODE)) {
            if (at_ < text_.size())
                return fault(at_, "'\\' has a meaning of its own between double quotes",
                             "use single quotes, or write it twice");
        }
        const Opened opened = opened_before(text_, text_.size());
        if (opened.quote != kNowhere && opened.quote < at_)
            return open_quote(source_, opened.quote);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<job::Complaint> brackets(const std::string& message) const {
        const Opened opened = opened_before(text_, at_);
        if (message == YAML::ErrorMsg::FLOW_END) {
            if (opened.brackets.empty())
                return fault(at_, fmt::format("'{}' closes nothing", at(at_)),
                             "take it away, or put the value in quotes");
            const char opener = at(opened.brackets.back());
            return fault(at_, fmt::format("'{}' is closed by '{}'", opener, at(at_)),
                         fmt::format("write '{}'", opener == '[' ? ']' : '}'));
        }
        const bool flow = message == YAML::ErrorMsg::END_OF_MAP_FLOW ||
                          message == YAML::ErrorMsg::END_OF_SEQ_FLOW;
        if (!flow || opened.brackets.empty()) return std::nullopt;
        const std::size_t opener = opened.brackets.back();
        const char closer = at(opener) == '[' ? ']' : '}';
        const std::string_view rest = source_.line(line_).substr(
            std::min(at_ - std::min(at_, source_.start_of(line_)), source_.line(line_).size()));
        if (rest.find(closer) != std::string_view::npos) {
            std::size_t word = at_;
            while (word > opener + 1 && !blank(at(word - 1)) && at(word - 1) != ',')
                --word;
            return fault(word, "a comma is missing before this", "put ', ' between the entries");
        }
        return not_closed(source_, opener);
    }

    [[nodiscard]] std::optional<job::Complaint> colons(const std::string& message) const {
        if (message != YAML::ErrorMsg::MAP_VALUE) return std::nullopt;
        const std::string_view before =
            std::string_view(text_).substr(source_.start_of(line_), at_ - source_.start_of(line_));
        if (before.find(": ") != std::string_view::npos)
            return fault(at_, "a second colon in one line",
                         "begin a new line, or put the value in quotes");
        const std::string_view above = source_.line(above_);
        const std::size_t colon = above.find(':');
        if (above_ == line_) return std::nullopt;
        if (colon == std::string_view::npos)
            return fault(first_of(above_),
                         fmt::format("{} has no colon",
                                     quoted(above.substr(above.find_first_not_of(kBlanks)))),
                         "write 'key: value', or 'key:' over lines that are indented");
        if (colon + 1 < above.size() && !blank(above[colon + 1]))
            return fault(source_.start_of(above_) + colon + 1, "a space is missing after the colon",
                         "write 'key: value'");
        return fault(first_of(line_), "this line is indented more than the one that it follows",
                     "line it up with the line above");
    }

    const Source& source_;
    const std::string& text_;
    std::size_t at_;
    std::size_t line_ = 0;
    std::size_t above_ = 0;
};

}  // namespace

std::size_t end_of_quote(const std::string& text, std::size_t at) {
    const char mark = text.at(at);
    for (std::size_t next = at + 1; next < text.size(); ++next) {
        if (mark == '"' && text[next] == '\\') {
            ++next;
        } else if (text[next] == mark) {
            const bool doubled = mark == '\'' && next + 1 < text.size() && text[next + 1] == mark;
            if (!doubled) return next;
            ++next;
        }
    }
    return kNowhere;
}

std::optional<job::Complaint> open_bracket(const Source& source) {
    const Opened opened = opened_before(source.text(), source.text().size());
    if (opened.brackets.empty()) return std::nullopt;
    return not_closed(source, opened.brackets.back());
}

job::Complaint open_quote(const Source& source, std::size_t at) {
    const char mark = source.text().at(at);
    return {.severity = job::Severity::error,
            .at = source.place(at),
            .fault = "a quote is opened here and not closed",
            .mend = fmt::format("write {} where the value ends", mark)};
}

job::Complaint yaml_fault(const Source& source, std::size_t at, const std::string& message) {
    return Scene(source, at).explain(message);
}

}  // namespace trialfit::reading
