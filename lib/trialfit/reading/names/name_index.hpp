// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace trialfit::reading {

/// Names in the order in which they were given, found by name.
class NameIndex {
public:
    /// Adds a name; the first to bear it is the one found. Whether it was new.
    bool add(std::string name);
    /// The index of a name, or -1.
    [[nodiscard]] int find(std::string_view name) const;
    /// The name most like `word`; empty where none is, or where there are too many to compare.
    [[nodiscard]] std::string nearest(std::string_view word) const;
    /// "'back', 'front' and 'rim'", cut short after `most`; empty where none has a name.
    [[nodiscard]] std::string listed(std::string_view prefix = {}, std::size_t most = 6) const;
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

private:
    std::vector<std::string> names_;
    std::unordered_map<std::string, int> index_;
};

/// More names than this are not searched for the one that was meant.
inline constexpr std::size_t kMostCompared = 1000;

}  // namespace trialfit::reading
