// SPDX-License-Identifier: MIT
// An engine and one or two kits, the files parted by lines that are a percent sign: joined,
// matched, printed, and written as one file, which reads.
#include <trialfit/match/match.hpp>
#include <trialfit/match/present.hpp>
#include <trialfit/match/written.hpp>
#include <trialfit/paper/match/text.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <trialfit/reading/read.hpp>

#include "harness.hpp"

namespace trialfit::fuzz {

namespace {

void hold_joined(const reading::Joiner& joiner, const std::vector<std::size_t>& kits) {
    const reading::Joined joined = joiner.joined(kits);
    hold(joined.job || !joined.complaints.empty(), "a job, or why there is none");
    for (const reading::FileComplaint& each : joined.complaints)
        hold(each.file < joiner.size(), "a complaint is about one of the files");
    if (!joined.job) return;
    const auto text = joiner.text(kits);
    hold(text.text || !text.complaints.empty(), "a text, or why there is none");
}

void hold_matched(const reading::Joiner& joiner,
                  const std::vector<std::vector<std::size_t>>& combinations,
                  const std::string& given) {
    const match::MatchAnswer answer = match::match(joiner, combinations, {.threads = 1});
    hold(answer.candidates.size() == combinations.size(), "every candidate is answered");
    hold_printed(paper::match_text(answer, {}), given);
    hold_printed(paper::match_json(answer), given);
    std::vector<std::optional<draw::Section>> sections;
    for (const match::Candidate& each : answer.candidates)
        sections.push_back(match::section_of(joiner, each));
    hold_printed(paper::match_html(answer, sections, "A4"), given);
    for (const match::Candidate& each : answer.candidates) {
        const match::Written written = match::written(joiner, each);
        hold(written.text || !written.complaints.empty(), "a job, or why there is none");
        if (written.text) hold(reading::read_job(*written.text, "").job.has_value(), "it reads");
    }
}

}  // namespace

TRIALFIT_HARNESS(joins_harness) {
    constexpr std::size_t kMostFiles = 3;
    const std::string text = text_of(bytes, size);
    std::vector<reading::NamedText> files;
    for (std::string& piece : pieces(text, "%", kMostFiles))
        files.push_back({.name = "file" + std::to_string(files.size()), .text = std::move(piece)});
    if (files.size() < 2) return 0;
    const reading::Joiner joiner(files);
    static_cast<void>(joiner.head());
    if (!joiner.unreadable(0).empty()) return 0;
    std::vector<std::vector<std::size_t>> combinations{{1}};
    if (files.size() == kMostFiles) combinations = {{1}, {2}, {1, 2}, {2, 1}};
    for (const std::vector<std::size_t>& kits : combinations) {
        bool readable = true;
        for (const std::size_t kit : kits)
            readable = readable && joiner.unreadable(kit).empty();
        if (readable) hold_joined(joiner, kits);
    }
    hold_matched(joiner, combinations, text);
    return 0;
}

}  // namespace trialfit::fuzz
