// SPDX-License-Identifier: MIT
#pragma once

#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <trialfit/reading/reader.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <vector>

namespace trialfit::reading {

/// One key of a map and its value.
struct Entry {
    const Node& key;
    const Node& value;
};

/// The entries of a map, in order; none where the node is no map.
[[nodiscard]] std::vector<Entry> entries(const Node& map);

/// A map with a fixed set of keys. Building it complains of a node that is no map, of unknown keys
/// and of keys without a value; none of these is complained of twice.
class Fields {
public:
    /// `what`: the map in the user's words, "ring 'disc' of part 'plate'". `on_for`: the key that
    /// may also be written 'on', as it was before: YAML 1.1 takes 'on' for true.
    Fields(Reader& reader, const Node& node, std::string what,
           std::initializer_list<std::string_view> keys, std::string_view on_for = {});

    /// Whether the node is a map.
    [[nodiscard]] bool ok() const { return node_.is_map(); }
    [[nodiscard]] const std::string& what() const { return what_; }
    [[nodiscard]] const Node& node() const { return node_; }
    /// The value of a key; null where it is not written or has no value.
    [[nodiscard]] const Node* find(std::string_view key) const;
    /// Whether a key is written, with or without a value, or was meant by one that is not known.
    [[nodiscard]] bool written(std::string_view key) const;
    /// As find(); complains where the key is not written, with the mend "add '...'".
    [[nodiscard]] const Node* need(std::string_view key, std::string_view example) const;

private:
    void check_key(const Entry& entry, const NameIndex& known);
    // The key that a written one stands for.
    [[nodiscard]] std::string_view meant_by(std::string_view written) const;

    Reader& reader_;
    const Node& node_;
    std::string what_;
    std::string_view on_for_;
    std::vector<std::string> meant_;
};

/// Whether the node is a list; complains where it is not. `example` shows how to write it.
[[nodiscard]] bool expect_list(Reader& reader, const Node& node, std::string_view what,
                               std::string_view example);
/// The items of the list; none where the node is null or, which is complained of, no list.
[[nodiscard]] std::span<const Node> items_of(Reader& reader, const Node* node,
                                             std::string_view what, std::string_view example);
/// Whether the node is a map of names (or empty, which is complained of); complains where not.
[[nodiscard]] bool expect_names(Reader& reader, const Node& node, std::string_view what,
                                std::string_view example);
/// A name without a value that begins with a digit: what a decimal comma leaves in a map on one
/// line.
[[nodiscard]] bool split_by_comma(const Entry& entry);
/// Complains of a figure that a decimal comma has parted into the value of the entry `before` and
/// the name of `entry`. Whether it did.
bool refuse_comma(Reader& reader, const Entry& before, const Entry& entry);
/// Complains of a name with characters that no name may have.
void check_name(Reader& reader, const Node& name, std::string_view kind);
void check_name(Reader& reader, const Entry& entry, std::string_view kind);

}  // namespace trialfit::reading
