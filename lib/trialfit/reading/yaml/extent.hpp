// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <vector>

// Where the entries of a tree end, which the YAML reader does not say. All offsets are in the
// source's text; npos where an entry is laid out in a way that is not followed here.
namespace trialfit::reading {

inline constexpr std::size_t kNoOffset = std::string::npos;

/// Whether a list or a map is written in brackets.
[[nodiscard]] bool in_brackets(const Source& source, const Node& node);

/// One past the last byte of a value, a key, a list or a map; of a value that is not there, one
/// past the mark (colon or dash) that asks for it, `key` being the key where there is one.
[[nodiscard]] std::size_t end_of(const Source& source, const Node& node, const Node* key = nullptr);

/// One past the colon behind a key.
[[nodiscard]] std::size_t after_colon(const Source& source, const Node& key);

/// The comments within `node`, without their line ends, in order.
[[nodiscard]] std::vector<std::string> comments_in(const Source& source, const Node& node);

}  // namespace trialfit::reading
