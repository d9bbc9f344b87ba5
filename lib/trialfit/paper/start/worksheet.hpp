// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/draw/section/lettered.hpp>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/start/start.hpp>
#include <trialfit/quantity/units.hpp>
#include <vector>

namespace trialfit::paper {

/// The letters that have a place on a drawing, and where.
[[nodiscard]] std::vector<draw::LetterAt> letters_drawn(const StartKind& kind);

/// The page to measure by: part by part a drawing with letters and a form. `pictures`: of the
/// template's job, by draw::lettered; no size of it comes onto the page.
[[nodiscard]] Document worksheet(const StartKind& kind, quantity::Unit units,
                                 const std::vector<draw::Lettered>& pictures);

/// The same as one HTML page for `paper` ("A4", "Letter").
[[nodiscard]] std::string worksheet_html(const StartKind& kind, quantity::Unit units,
                                         const std::vector<draw::Lettered>& pictures,
                                         const std::string& paper);

}  // namespace trialfit::paper
