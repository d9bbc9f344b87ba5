// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/nearest.hpp>

namespace trialfit::quantity {

namespace {

// Words longer than this are no slips of the finger; the bound keeps hostile files cheap.
constexpr std::size_t kLongestWord = 200;

std::string lowered(std::string_view word) {
    return small(word);
}

// Optimal string alignment distance (Damerau 1964, restricted): rows of the usual table.
std::size_t edits(const std::string& a, const std::string& b) {
    std::vector<std::size_t> before(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replace, last[j] + 1, row[j - 1] + 1});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before.swap(last);
        last.swap(row);
    }
    return last[b.size()];
}

}  // namespace

std::string nearest(std::string_view word, const std::vector<std::string>& names) {
    if (word.empty() || word.size() > kLongestWord) return {};
    const std::string low = lowered(word);
    std::size_t fewest = std::max<std::size_t>(1, word.size() / 3) + 1;
    std::string best;
    for (const std::string& name : names) {
        const std::size_t longer = std::max(name.size(), low.size());
        const std::size_t shorter = std::min(name.size(), low.size());
        if (longer - shorter >= fewest) continue;
        const std::size_t distance = edits(low, lowered(name));
        if (distance < fewest) {
            fewest = distance;
            best = name;
        }
    }
    return best;
}

}  // namespace trialfit::quantity
