// SPDX-License-Identifier: MIT
#include <algorithm>
#include <string_view>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/extent.hpp>
#include <trialfit/reading/yaml/yaml_fault.hpp>

namespace trialfit::reading {

namespace {

std::size_t skip_blanks(const std::string& text, std::size_t at) {
    while (at < text.size() && blank(text[at]))
        ++at;
    return at;
}

// Past white space, comments and `marks`: what may stand between entries.
std::size_t skip_between(const std::string& text, std::size_t at, std::string_view marks) {
    while (at < text.size()) {
        if (text[at] == '#') {
            at = std::min(text.find('\n', at), text.size());
        } else if (blank(text[at]) || marks.find(text[at]) != std::string_view::npos) {
            ++at;
        } else {
            break;
        }
    }
    return at;
}

// A plain scalar reads as it is written, but for white space, which is folded where a line ends.
std::size_t end_of_plain(const std::string& text, const Node& node) {
    std::size_t at = node.at;
    for (std::size_t i = 0; i < node.scalar.size();) {
        if (blank(node.scalar[i])) {
            if (at >= text.size() || !blank(text[at])) return kNoOffset;
            i = skip_blanks(node.scalar, i);
            at = skip_blanks(text, at);
        } else if (at < text.size() && text[at] == node.scalar[i]) {
            ++i;
            ++at;
        } else {
            return kNoOffset;
        }
    }
    return at;
}

// A block scalar goes on over every line that is empty or indented as its first one is.
std::size_t end_of_block_scalar(const Source& source, const Node& node) {
    const auto indent = [](std::string_view line) { return line.find_first_not_of(" \r"); };
    std::size_t line = source.line_of(node.at);
    std::size_t end = source.start_of(line) + source.line(line).size();
    std::size_t own = std::string_view::npos;
    for (++line; line < source.lines(); ++line) {
        const std::size_t here = indent(source.line(line));
        if (here == std::string_view::npos) continue;
        if (own == std::string_view::npos) own = here;
        if (here < own || own == 0) break;
        end = source.start_of(line) + source.line(line).size();
    }
    return end;
}

std::size_t end_of_scalar(const Source& source, const Node& node) {
    if (node.style == Node::Style::block) return end_of_block_scalar(source, node);
    if (node.style == Node::Style::plain) return end_of_plain(source.text(), node);
    const std::size_t quote = end_of_quote(source.text(), node.at);
    return quote == std::string::npos ? kNoOffset : quote + 1;
}

std::size_t end_of_children(const Source& source, const Node& node) {
    const std::vector<Node>& children = node.children;
    if (children.empty()) return node.at + 1;
    const Node* const key = node.is_map() ? &children[children.size() - 2] : nullptr;
    return end_of(source, children.back(), key);
}

void leaves(const Source& source, const Node& node, std::vector<std::size_t>& ends) {
    if (node.is_scalar()) {
        ends.push_back(node.at);
        ends.push_back(end_of_scalar(source, node));
    }
    for (const Node& child : node.children)
        leaves(source, child, ends);
}

}  // namespace

bool in_brackets(const Source& source, const Node& node) {
    const char mark = node.at < source.text().size() ? source.text()[node.at] : ' ';
    return (node.is_list() && mark == '[') || (node.is_map() && mark == '{');
}

std::size_t after_colon(const Source& source, const Node& key) {
    const std::size_t end = end_of_scalar(source, key);
    if (end == kNoOffset) return kNoOffset;
    const std::size_t colon = skip_between(source.text(), end, "");
    if (colon >= source.text().size() || source.text()[colon] != ':') return kNoOffset;
    return colon + 1;
}

std::size_t end_of(const Source& source, const Node& node, const Node* key) {
    if (node.is_empty()) return key != nullptr ? after_colon(source, *key) : node.at + 1;
    if (node.is_scalar()) return end_of_scalar(source, node);
    const std::size_t last = end_of_children(source, node);
    if (last == kNoOffset || !in_brackets(source, node)) return last;
    const char close = node.is_list() ? ']' : '}';
    const std::size_t at = skip_between(source.text(), last, ",:");
    return at < source.text().size() && source.text()[at] == close ? at + 1 : kNoOffset;
}

std::vector<std::string> comments_in(const Source& source, const Node& node) {
    std::vector<std::string> comments;
    const std::size_t end = end_of(source, node);
    if (end == kNoOffset || node.is_scalar()) return comments;
    std::vector<std::size_t> bounds{node.at};
    leaves(source, node, bounds);
    bounds.push_back(end);
    for (std::size_t i = 0; i + 1 < bounds.size(); i += 2) {
        const std::string_view gap =
            std::string_view(source.text()).substr(bounds[i], bounds[i + 1] - bounds[i]);
        for (std::size_t at = gap.find('#'); at != std::string_view::npos; at = gap.find('#', at)) {
            std::size_t stop = std::min(gap.find('\n', at), gap.size());
            const std::size_t line_end = stop;
            while (stop > at && blank(gap[stop - 1]))
                --stop;
            comments.emplace_back(gap.substr(at, stop - at));
            at = line_end;
        }
    }
    return comments;
}

}  // namespace trialfit::reading
