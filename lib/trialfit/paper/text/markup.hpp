// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

// Text from a job on its way into XML or HTML.
namespace trialfit::paper {

/// `text` harmless (layout.hpp) and with & < > " ' as character references: safe between tags and
/// in quoted attributes.
[[nodiscard]] std::string escaped(std::string_view text);

/// `text` between marks that keep letters of a right-to-left script from reordering what stands
/// around it (Unicode FSI and PDI); plain ASCII as it is. Apply after harmless().
[[nodiscard]] std::string isolated(std::string_view text);

/// A coordinate: at most 2 decimals (a hundredth of a millimetre on paper), no trailing zeros.
[[nodiscard]] std::string coordinate(double value);

}  // namespace trialfit::paper
