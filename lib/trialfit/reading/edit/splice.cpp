// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <string>
#include <trialfit/reading/edit/splice.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/extent.hpp>

namespace trialfit::reading {

namespace {

// Words that some YAML reader takes for something else.
bool taken_for_another(std::string_view words) {
    constexpr std::array<std::string_view, 11> kTaken{"true", "false", "yes", "no", "on", "off",
                                                      "null", "nan",   "inf", "y",  "n"};
    const std::string low = quantity::small(words);
    return std::ranges::find(kTaken, low) != kTaken.end();
}

bool plain_character(char c) {
    constexpr std::string_view kPlain = " ._+-/%()=;";
    return letter(c) || digit(c) || (static_cast<unsigned char>(c) & 0x80U) != 0 ||
           kPlain.find(c) != std::string_view::npos;
}

bool plain(std::string_view words) {
    if (words.empty() || words.back() == ' ' || taken_for_another(words)) return false;
    const char first = words.front();
    const bool sign = (first == '-' || first == '+') && words.size() > 1 && digit(words[1]);
    const bool letter =
        reading::letter(first) || digit(first) || (static_cast<unsigned char>(first) & 0x80U) != 0;
    return (sign || letter) && std::ranges::all_of(words, plain_character);
}

std::string in_quotes(std::string_view words) {
    std::string out = "\"";
    for (const char c : words) {
        if (c == '\n') {
            out += "\\n";
        } else if (c == '\t') {
            out += "\\t";
        } else {
            if (c == '"' || c == '\\') out += '\\';
            out += c;
        }
    }
    return out + "\"";
}

std::string_view line_end(std::string_view text) {
    const std::size_t at = text.find_first_of("\r\n");
    if (at == std::string_view::npos || text[at] == '\n') return "\n";
    return text.substr(at, 2) == "\r\n" ? "\r\n" : "\r";
}

Node node_of(const std::string& yaml) {
    return parse(Source(yaml)).root.value_or(Node{});
}

}  // namespace

std::string yaml_words(std::string_view words) {
    return plain(words) ? std::string(words) : in_quotes(words);
}

Splice::Splice(std::string_view text)
    : original_(text),
      source_(text),
      root_(parse(source_).root.value_or(Node{})),
      json_(root_.is_map() && in_brackets(source_, root_) && !root_.children.empty() &&
            source_.text().at(root_.children.front().at) == '"') {}

void Splice::patch(std::size_t at, std::size_t length, std::string text) {
    patches_.push_back({.at = at, .length = length, .text = std::move(text)});
}

// The column that `at` stands in, as spaces.
std::size_t Splice::indent_of(std::size_t at) const {
    return at - source_.start_of(source_.line_of(at));
}

std::string Splice::words(const std::string& yaml) const {
    const bool bare = json_ && !yaml.empty() &&
                      std::string_view("[{\"").find(yaml.front()) == std::string_view::npos;
    return bare ? in_quotes(yaml) : yaml;
}

std::string Splice::written(const Pair& entry) const {
    return words(entry.key) + ": " + words(entry.value);
}

std::string Splice::in_braces(const std::vector<Pair>& item) const {
    std::string out;
    for (const Pair& entry : item)
        out += (out.empty() ? "{" : ", ") + written(entry);
    return out + "}";
}

void Splice::mean(const Node& parent, const Node* before, const std::string& yaml) {
    // Whatever is added is a piece of a map or an item of a list, and reads alike on its own.
    Node piece = node_of(yaml);
    auto& children = meant_[&parent].children;
    if (parent.is_list()) {
        children.emplace_back(before, std::move(piece));
        return;
    }
    for (Node& child : piece.children)
        children.emplace_back(before, std::move(child));
}

void Splice::replace(const Node& value, const std::string& yaml, const Node* key) {
    std::size_t from = value.at;
    const std::size_t to = end_of(source_, value, key);
    const std::size_t colon = key != nullptr ? after_colon(source_, *key) : kNoOffset;
    lost_ = lost_ || to == kNoOffset || value.is_empty();
    if (lost_) return;
    std::string text = words(yaml);
    const bool inline_value = value.is_scalar() || in_brackets(source_, value);
    // What stood on lines of its own comes up beside its key.
    if (!inline_value && colon != kNoOffset &&
        source_.text().find_first_not_of(" \t\r\n", colon) == from) {
        from = colon;
        text.insert(0, " ");
    }
    const std::size_t first = key != nullptr ? key->at : value.at;
    const std::size_t line = source_.start_of(source_.line_of(first));
    for (const std::string& comment : comments_in(source_, value))
        patch(line, 0, std::string(indent_of(first), ' ') + comment + "\n");
    patch(from, to - from, std::move(text));
    meant_[&value].value = node_of(words(yaml));
}

void Splice::insert(const Node& map, const Node& before, const Pair& entry) {
    const bool brackets = in_brackets(source_, map);
    const std::string between = brackets ? ", " : "\n" + std::string(indent_of(before.at), ' ');
    patch(before.at, 0, written(entry) + between);
    mean(map, &before, "{" + written(entry) + "}");
}

// The end of the line on which the last entry of a list or map ends, and of comments below that
// are indented as belonging to it.
std::size_t Splice::end_of_entries(const Node& parent, std::size_t indent) const {
    const std::size_t end = end_of(source_, parent);
    if (end == kNoOffset) return kNoOffset;
    std::size_t line = source_.line_of(end);
    // A block scalar's end is the end of its last line.
    for (std::size_t next = line + 1; next < source_.lines(); ++next) {
        const std::string_view words = source_.line(next);
        const std::size_t first = words.find_first_not_of(' ');
        if (first == std::string_view::npos) continue;
        const bool own = words[first] == '#' && (first > indent || indent == 0);
        if (!own) break;
        line = next;
    }
    return source_.start_of(line) + source_.line(line).size();
}

void Splice::append_lines(const Node& parent, std::size_t indent, const std::string& lines) {
    const std::size_t at = end_of_entries(parent, indent);
    lost_ = lost_ || at == kNoOffset;
    if (lost_) return;
    std::string text;
    std::size_t from = 0;
    while (from < lines.size()) {
        const std::size_t to = std::min(lines.find('\n', from), lines.size());
        text += "\n" + std::string(indent, ' ') + lines.substr(from, to - from);
        from = to + 1;
    }
    patch(at, 0, std::move(text));
}

void Splice::append_in_brackets(const Node& parent, const std::string& entry) {
    if (parent.children.empty()) {
        patch(parent.at + 1, 0, entry);
        return;
    }
    const Node* const key =
        parent.is_map() ? &parent.children[parent.children.size() - 2] : nullptr;
    const std::size_t end = end_of(source_, parent.children.back(), key);
    lost_ = lost_ || end == kNoOffset;
    if (!lost_) patch(end, 0, ", " + entry);
}

void Splice::append(const Node& map, const Pair& entry) {
    if (in_brackets(source_, map)) {
        append_in_brackets(map, written(entry));
    } else {
        append_lines(map, indent_of(map.at), written(entry));
    }
    mean(map, nullptr, "{" + written(entry) + "}");
}

void Splice::append_item(const Node& list, const std::vector<Pair>& item) {
    if (in_brackets(source_, list)) {
        append_in_brackets(list, in_braces(item));
    } else {
        std::string lines;
        for (const Pair& entry : item)
            lines += (lines.empty() ? "- " : "\n  ") + written(entry);
        append_lines(list, indent_of(list.at), lines);
    }
    mean(list, nullptr, in_braces(item));
}

void Splice::append_list(const Node& map, const std::string& name, const std::vector<Pair>& item) {
    if (in_brackets(source_, map)) {
        append_in_brackets(map, words(name) + ": [" + in_braces(item) + "]");
    } else {
        std::string lines = name + ":";
        for (const Pair& entry : item)
            lines += (&entry == item.data() ? "\n  - " : "\n    ") + written(entry);
        append_lines(map, indent_of(map.at), lines);
    }
    mean(map, nullptr, "{" + words(name) + ": [" + in_braces(item) + "]}");
}

Node Splice::meant(const Node& node) const {
    const auto change = meant_.find(&node);
    if (change != meant_.end() && change->second.value) return *change->second.value;
    Node out = node;
    out.children.clear();
    const auto add = [&](const Node* before) {
        if (change == meant_.end()) return;
        for (const auto& [place, child] : change->second.children)
            if (place == before) out.children.push_back(child);
    };
    for (const Node& child : node.children) {
        add(&child);
        out.children.push_back(meant(child));
    }
    add(nullptr);
    return out;
}

std::optional<std::string> Splice::text() const {
    if (lost_) return std::nullopt;
    std::vector<Patch> patches = patches_;
    std::ranges::stable_sort(patches, [](const Patch& a, const Patch& b) {
        return a.at < b.at || (a.at == b.at && a.length == 0 && b.length > 0);
    });
    const std::string_view whole = original_;
    const std::size_t mark = whole.starts_with(kByteOrderMark) ? kByteOrderMark.size() : 0;
    const std::string_view end = line_end(whole);
    std::string out(whole.substr(0, mark));
    std::size_t done = mark;
    for (const Patch& each : patches) {
        if (each.at + mark < done) return std::nullopt;
        out += whole.substr(done, each.at + mark - done);
        for (const char c : each.text)
            out += c == '\n' ? end : std::string_view(&c, 1);
        done = each.at + mark + each.length;
    }
    out += whole.substr(done);
    if (refuse_text(out)) return std::nullopt;
    const Tree tree = parse(Source(out));
    const bool as_meant = tree.root && tree.complaints.empty() && alike(*tree.root, meant(root_));
    return as_meant ? std::optional(std::move(out)) : std::nullopt;
}

}  // namespace trialfit::reading
