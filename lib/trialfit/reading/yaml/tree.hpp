// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <vector>

namespace trialfit::reading {

/// One entry of a job file: a value, a list, or a map of keys and values. Keeps the place of each,
/// which a YAML reader's own nodes do not.
struct Node {
    enum class Kind : std::uint8_t { empty, scalar, list, map };
    enum class Style : std::uint8_t { plain, quoted, block };

    Kind kind = Kind::empty;
    Style style = Style::plain;
    /// Offset in the source's text; of a quoted scalar, of its quote.
    std::uint32_t at = 0;
    std::string scalar;
    /// A list's items; a map's keys and values in turn, the keys being scalars, each written once.
    std::vector<Node> children;

    [[nodiscard]] bool is_scalar() const { return kind == Kind::scalar; }
    [[nodiscard]] bool is_list() const { return kind == Kind::list; }
    [[nodiscard]] bool is_map() const { return kind == Kind::map; }
    [[nodiscard]] bool is_empty() const { return kind == Kind::empty; }
};

/// A file's one document. No tree where the text is not YAML or is more than a job file may hold;
/// the one complaint then says why. With a tree, the complaints name keys that are written twice
/// (the first is kept).
struct Tree {
    std::optional<Node> root;
    job::Complaints complaints;
};

/// The tree of a YAML text, with the place of each node; complaints where it is none, or holds what
/// a job file may not (anchors, tags, a second document, a key twice).
[[nodiscard]] Tree parse(const Source& source);

/// Whether two entries say the same, wherever they stand and however they are laid out.
[[nodiscard]] bool alike(const Node& one, const Node& other);

/// The value of a key; null where the node is no map or has no such key.
[[nodiscard]] const Node* value_of(const Node& map, std::string_view key);

}  // namespace trialfit::reading
