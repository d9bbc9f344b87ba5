// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/paper/text/style.hpp>

namespace trialfit::paper {

/// Complaints as text, in their order, each
///
///     FILE:LINE:COL: error: FAULT; MEND
///       the line of the source
///           ^
///
/// or `FILE: error: FAULT; MEND` where the complaint has no place. `source` is the text that was
/// read (UTF-8, with or without byte order mark, any line ends). Lines over 76 columns are cut to a
/// window round the caret; nothing of the source can move the cursor. More than 200 complaints are
/// counted, not printed; a count closes the text where there are more than 3.
[[nodiscard]] std::string complaints_text(const job::Complaints& complaints, std::string_view file,
                                          std::string_view source, const Style& style);

}  // namespace trialfit::paper
