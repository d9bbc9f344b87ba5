// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/reader.hpp>
#include <unordered_map>

namespace trialfit::reading {

/// Free words as a name, each used once among those of its kind ("check").
class FreeNames {
public:
    FreeNames(Reader& reader, std::string_view kind) : reader_(reader), kind_(kind) {}

    /// The name under the key of the kind; empty where there is none, which is complained of.
    std::string take(const Fields& fields);
    void taken(const std::string& name, job::Place at) { first_.emplace(name, at); }

private:
    Reader& reader_;
    std::string_view kind_;
    std::unordered_map<std::string, job::Place> first_;
};

/// Whether the node is a list of exactly two items; complains where it is not.
[[nodiscard]] bool is_pair(Reader& reader, const Node& node, std::string_view what,
                           std::string_view example);

}  // namespace trialfit::reading
