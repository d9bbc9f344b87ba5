// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr std::size_t kLongestName = 200;

std::string_view kind_of(const Node& node) {
    switch (node.kind) {
        case Node::Kind::list:
            return "a list";
        case Node::Kind::map:
            return "a group of 'key: value' entries";
        case Node::Kind::scalar:
            return "a single value";
        case Node::Kind::empty:
            break;
    }
    return "empty";
}

}  // namespace

std::vector<Entry> entries(const Node& map) {
    std::vector<Entry> all;
    if (!map.is_map()) return all;
    all.reserve(map.children.size() / 2);
    for (std::size_t i = 0; i + 1 < map.children.size(); i += 2)
        all.push_back({map.children[i], map.children[i + 1]});
    return all;
}

// What a key of an earlier format is called now; empty where it never was one.
static std::string_view renamed(std::string_view key) {
    return key == "grip" ? "engagement" : std::string_view();
}

Fields::Fields(Reader& reader, const Node& node, std::string what,
               std::initializer_list<std::string_view> keys, std::string_view on_for)
    : reader_(reader), node_(node), what_(std::move(what)), on_for_(on_for) {
    if (!node.is_map()) {
        reader.error(
            node, fmt::format("{} is {}", what_, kind_of(node)),
            fmt::format("write its entries as 'key: value', first of all '{}:'", *keys.begin()));
        return;
    }
    NameIndex known;
    for (const std::string_view key : keys)
        known.add(std::string(key));
    const std::vector<Entry> all = entries(node);
    const auto both = [&](const Entry& entry) { return meant_by(entry.key.scalar) == on_for; };
    if (!on_for.empty() && std::ranges::count_if(all, both) > 1)
        reader.error(node, fmt::format("{} has '{}' and 'on', which say the same", what_, on_for),
                     fmt::format("keep '{}'", on_for));
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i > 0 && refuse_comma(reader, all[i - 1], all[i])) continue;
        check_key(all[i], known);
    }
}

void Fields::check_key(const Entry& entry, const NameIndex& known) {
    const std::string& key = entry.key.scalar;
    if (known.find(meant_by(key)) >= 0) {
        if (entry.value.is_empty())
            reader_.error(entry.key, fmt::format("{} has nothing after '{}:'", what_, key),
                          "fill it in, or take the line away");
        return;
    }
    const std::string fault = fmt::format("{} is not a key of {}", quoted(key), what_);
    const std::size_t colon = key.find(':');
    if (entry.value.is_empty() && colon != std::string::npos && colon + 1 < key.size())
        return reader_.error(
            entry.key, fault,
            fmt::format("a space belongs after the colon: '{}: {}'", clipped(key.substr(0, colon)),
                        clipped(key.substr(colon + 1))));
    const std::string_view now = renamed(key);
    if (!now.empty() && known.find(now) >= 0) {
        meant_.emplace_back(now);
        return reader_.error(entry.key, fault, fmt::format("this key is now '{}'", now));
    }
    const std::string meant = known.nearest(key);
    if (!meant.empty()) meant_.push_back(meant);
    reader_.error(entry.key, fault,
                  meant.empty()
                      ? fmt::format("its keys are {}", known.listed({}, known.names().size()))
                      : fmt::format("did you mean '{}'?", meant));
}

std::string_view Fields::meant_by(std::string_view written) const {
    return written == "on" && !on_for_.empty() ? on_for_ : written;
}

const Node* Fields::find(std::string_view key) const {
    if (!node_.is_map()) return nullptr;
    for (std::size_t i = 0; i + 1 < node_.children.size(); i += 2)
        if (meant_by(node_.children[i].scalar) == key)
            return node_.children[i + 1].is_empty() ? nullptr : &node_.children[i + 1];
    return nullptr;
}

bool Fields::written(std::string_view key) const {
    if (!node_.is_map()) return false;
    for (std::size_t i = 0; i + 1 < node_.children.size(); i += 2)
        if (meant_by(node_.children[i].scalar) == key) return true;
    return std::ranges::find(meant_, key) != meant_.end();
}

const Node* Fields::need(std::string_view key, std::string_view example) const {
    if (node_.is_map() && !written(key))
        reader_.error(node_, fmt::format("{} has no '{}'", what_, key),
                      fmt::format("add '{}'", example));
    return find(key);
}

bool expect_list(Reader& reader, const Node& node, std::string_view what,
                 std::string_view example) {
    if (node.is_list()) {
        if (node.children.empty())
            reader.error(node, fmt::format("{} is an empty list", what),
                         fmt::format("write it like {}, or take it away", example));
        return true;
    }
    reader.error(node, fmt::format("{} is {}, not a list", what, kind_of(node)),
                 fmt::format("write it like {}", example));
    return false;
}

std::span<const Node> items_of(Reader& reader, const Node* node, std::string_view what,
                               std::string_view example) {
    if (node == nullptr || !expect_list(reader, *node, what, example)) return {};
    return node->children;
}

bool expect_names(Reader& reader, const Node& node, std::string_view what,
                  std::string_view example) {
    if (node.is_map()) return true;
    reader.error(node, fmt::format("{} is {}, not a group of named entries", what, kind_of(node)),
                 fmt::format("write it like {}", example));
    return false;
}

bool split_by_comma(const Entry& entry) {
    const std::string& key = entry.key.scalar;
    return entry.value.is_empty() && !key.empty() && key.front() >= '0' && key.front() <= '9';
}

bool refuse_comma(Reader& reader, const Entry& before, const Entry& entry) {
    const std::string& first = before.value.scalar;
    const bool figure = before.value.is_scalar() && !first.empty() && first.back() >= '0' &&
                        first.back() <= '9' && before.value.style == Node::Style::plain;
    if (!figure || !split_by_comma(entry)) return false;
    const std::string& rest = entry.key.scalar;
    reader.error(before.value,
                 fmt::format("{} is written with a decimal comma", quoted(first + "," + rest)),
                 fmt::format("write '{}.{}'", clipped(first), clipped(rest)));
    return true;
}

void check_name(Reader& reader, const Entry& entry, std::string_view kind) {
    if (!split_by_comma(entry)) return check_name(reader, entry.key, kind);
    reader.error(entry.key,
                 fmt::format("{} cannot be the name of a {}", quoted(entry.key.scalar), kind),
                 "if this is the rest of a size, write a decimal point, not a comma");
}

void check_name(Reader& reader, const Node& name, std::string_view kind) {
    const std::string& text = name.scalar;
    const bool sound =
        !text.empty() && letter(text.front()) && std::ranges::all_of(text, [](char c) {
            return letter(c) || (c >= '0' && c <= '9') || c == '_' || c == '-';
        });
    if (!sound)
        return reader.error(
            name, fmt::format("{} cannot be the name of a {}", quoted(text), kind),
            "a name begins with a letter and goes on with letters, digits, _ and -");
    if (text.size() > kLongestName)
        reader.error(name,
                     fmt::format("the name of the {} {} is longer than {} letters", kind,
                                 quoted(text), kLongestName),
                     "find a shorter one");
}

}  // namespace trialfit::reading
