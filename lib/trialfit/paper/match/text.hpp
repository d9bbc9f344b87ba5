// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/match/answers.hpp>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/document/text.hpp>
#include <vector>

namespace trialfit::paper {

/// Which kit fits, then a line each, best first: as it comes, what decides it, what it takes, the
/// odds and the price. `most`: how many are listed at most.
[[nodiscard]] Document document_of(const match::MatchAnswer& answer, std::size_t most);
[[nodiscard]] std::string match_text(const match::MatchAnswer& answer, const Style& style);

/// One page with a card for each kit, best first, for `paper` ("A4"). `sections`: of the first
/// candidates, in their order; nothing where one cannot be drawn.
[[nodiscard]] std::string match_html(const match::MatchAnswer& answer,
                                     const std::vector<std::optional<draw::Section>>& sections,
                                     const std::string& paper);

/// Validates against schemas/match.schema.json.
[[nodiscard]] std::string match_json(const match::MatchAnswer& answer);

}  // namespace trialfit::paper
