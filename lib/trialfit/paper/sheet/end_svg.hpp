// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/sheet/end_view.hpp>

namespace trialfit::paper {

/// The end view on a page of its own, lying, with its title block: the gap by the clock, how to
/// move the still part, where the turning one runs out; beside it what the readings say.
[[nodiscard]] draw::Drawing end_drawn(const sheet::EndAnswer& answer, const draw::PageSize& page,
                                      const DrawnBy& by);
/// The same as SVG.
[[nodiscard]] std::string end_svg(const sheet::EndAnswer& answer, const draw::PageSize& page,
                                  const DrawnBy& by);

}  // namespace trialfit::paper
