// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/match/answers.hpp>
#include <vector>

// Sentences about kits, shared by the text, the page and the JSON.
namespace trialfit::paper {

/// "holds", "holds after a plan", "doubtful", "no plan", "not judged".
[[nodiscard]] std::string_view word(match::Standing standing);

/// "plate-b.yaml", or "plate-b.yaml + stator-2.yaml".
[[nodiscard]] std::string kit_words(const match::Candidate& candidate,
                                    const match::MatchAnswer& answer);

/// What decides it as it comes: "rotor.rim to plate.front is 0.42 mm in the worst case; at least
/// 0.50 mm is needed"; empty where nothing has a limit, or it was not judged.
[[nodiscard]] std::string told_tightest(const match::Candidate& candidate);

/// What it takes: "nothing", "turn the plate's front to 5.53", "no plan mends it", or why it is
/// not judged.
[[nodiscard]] std::string told_takes(const match::Candidate& candidate,
                                     const match::MatchAnswer& answer);

/// How it is tightened and whether it starts, where the engine's file asks: a sentence each.
[[nodiscard]] std::vector<std::string> told_running(const match::Candidate& candidate);

/// The answer in a few sentences.
[[nodiscard]] std::string match_headline(const match::MatchAnswer& answer);

}  // namespace trialfit::paper
