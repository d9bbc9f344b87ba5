// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/reading/names/name_index.hpp>
#include <utility>

namespace trialfit::reading {

bool NameIndex::add(std::string name) {
    names_.push_back(std::move(name));
    return index_.emplace(names_.back(), static_cast<int>(names_.size()) - 1).second;
}

int NameIndex::find(std::string_view name) const {
    const auto found = index_.find(std::string(name));
    return found == index_.end() ? -1 : found->second;
}

std::string NameIndex::nearest(std::string_view word) const {
    // One letter is like any other.
    if (names_.size() > kMostCompared || word.size() < 2) return {};
    return quantity::nearest(word, names_);
}

std::string NameIndex::listed(std::string_view prefix, std::size_t most) const {
    std::vector<std::string_view> named;
    for (const std::string& name : names_)
        if (!name.empty()) named.emplace_back(name);
    const std::size_t count = std::min(named.size(), most);
    std::string list;
    for (std::size_t i = 0; i < count; ++i) {
        const bool last = i + 1 == count && count == named.size();
        if (i > 0) list += last ? " and " : ", ";
        list += fmt::format("'{}{}'", prefix, named[i]);
    }
    if (count < named.size()) list += fmt::format(" and {} more", named.size() - count);
    return list;
}

}  // namespace trialfit::reading
