// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <utility>
#include <vector>

namespace trialfit::reading {

/// `words` as YAML writes them on one line: plain where nobody can mistake them, else in double
/// quotes.
[[nodiscard]] std::string yaml_words(std::string_view words);

/// A key and its value as YAML on one line: {"front", "5.53 ±0.03 from back"}.
struct Pair {
    std::string key;
    std::string value;
};

/// Changes the text of a YAML file and leaves every byte of the rest alone: comments, order,
/// layout, line ends, byte order mark. Changes are gathered first, on the entries of root(), and
/// made all at once by text().
class Splice {
public:
    /// `text` as it came; it must have a tree without complaints.
    explicit Splice(std::string_view text);
    Splice(const Splice&) = delete;
    Splice(Splice&&) = delete;
    Splice& operator=(const Splice&) = delete;
    Splice& operator=(Splice&&) = delete;
    ~Splice() = default;

    [[nodiscard]] const Node& root() const { return root_; }
    [[nodiscard]] const Source& source() const { return source_; }

    /// Puts `yaml` in the place of a value or a key. Comments within what goes are kept on lines of
    /// their own above it. `key`: the value's, where it has one.
    void replace(const Node& value, const std::string& yaml, const Node* key = nullptr);
    /// Adds an entry to a map, before the key `before` of it, or after all others.
    void insert(const Node& map, const Node& before, const Pair& entry);
    void append(const Node& map, const Pair& entry);
    /// Adds a map to a list; or to a map the key `name` with a list of one such map.
    void append_item(const Node& list, const std::vector<Pair>& item);
    void append_list(const Node& map, const std::string& name, const std::vector<Pair>& item);

    /// The changed text. Nothing where it does not read as was meant: a layout that is not followed
    /// here, which a person has to change.
    [[nodiscard]] std::optional<std::string> text() const;

private:
    struct Patch {
        std::size_t at = 0;
        std::size_t length = 0;
        std::string text;
    };
    // What becomes of an entry: another value, or more children (before a child, or behind all).
    struct Meant {
        std::optional<Node> value;
        std::vector<std::pair<const Node*, Node>> children;
    };

    void patch(std::size_t at, std::size_t length, std::string text);
    void append_lines(const Node& parent, std::size_t indent, const std::string& lines);
    void append_in_brackets(const Node& parent, const std::string& entry);
    [[nodiscard]] std::size_t indent_of(std::size_t at) const;
    [[nodiscard]] std::size_t end_of_entries(const Node& parent, std::size_t indent) const;
    [[nodiscard]] std::string words(const std::string& yaml) const;
    [[nodiscard]] std::string written(const Pair& entry) const;
    [[nodiscard]] std::string in_braces(const std::vector<Pair>& item) const;
    [[nodiscard]] Node meant(const Node& node) const;
    void mean(const Node& parent, const Node* before, const std::string& yaml);

    std::string original_;
    Source source_;
    Node root_;
    /// Keys in double quotes: a file that other programs may read as JSON.
    bool json_ = false;
    bool lost_ = false;
    std::vector<Patch> patches_;
    std::map<const Node*, Meant> meant_;
};

}  // namespace trialfit::reading
