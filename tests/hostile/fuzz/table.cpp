// SPDX-License-Identifier: MIT
// Lines of words looked up as `table` looks them up: reference values or a reason, both printed.
#include <trialfit/paper/reference/text.hpp>
#include <trialfit/trade/reference/reference.hpp>

#include "harness.hpp"

namespace trialfit::fuzz {

namespace {

std::vector<std::string> words_of(std::string_view line) {
    std::vector<std::string> words;
    while (!line.empty()) {
        const std::size_t end = std::min(line.find(' '), line.size());
        if (end > 0) words.emplace_back(line.substr(0, end));
        line.remove_prefix(std::min(end + 1, line.size()));
    }
    return words;
}

}  // namespace

TRIALFIT_HARNESS(table_harness) {
    const std::string text = text_of(bytes, size);
    const std::string line = text.substr(0, text.find('\n'));
    const auto found = trade::reference(words_of(line));
    if (!found) {
        hold(!found.reason().empty(), "a reason is told");
        return 0;
    }
    hold_printed(paper::reference_text(*found, {}), line);
    hold_printed(paper::reference_text(*found, {.brief = true, .width = 40, .ascii = true}), line);
    hold_printed(paper::reference_json(*found), line);
    return 0;
}

}  // namespace trialfit::fuzz
