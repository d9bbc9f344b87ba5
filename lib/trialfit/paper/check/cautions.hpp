// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/stack/cautions.hpp>
#include <vector>

// The words of the cautions. They stand here and nowhere else.
namespace trialfit::paper {

/// What an answer leads its reader to do next.
enum class NextWork { judge, cut, sheet, tighten, time, record, start };

/// Those of a job's cautions that this work calls for, in the same order.
[[nodiscard]] std::vector<stack::Caution> called_for(const std::vector<stack::Caution>& all,
                                                     NextWork work);

/// "may_burst": the code in JSON.
[[nodiscard]] std::string_view code(stack::Caution caution);
/// The whole caution, two to four sentences.
[[nodiscard]] std::string_view words_of(stack::Caution caution);
/// A few words, to be listed.
[[nodiscard]] std::string_view in_brief(stack::Caution caution);

/// words_of each that `work` calls for.
[[nodiscard]] std::vector<std::string> whole_cautions(const std::vector<stack::Caution>& all,
                                                      NextWork work);
/// The same under their heading; without items where there is none.
[[nodiscard]] Cautions cautions_block(const std::vector<stack::Caution>& all, NextWork work);
/// All in one sentence that names the command which tells them whole.
[[nodiscard]] std::string cautions_line(const std::vector<stack::Caution>& all);
/// Codes, as the key `cautions` of every answer has them.
[[nodiscard]] nlohmann::ordered_json cautions_json(const std::vector<stack::Caution>& all,
                                                   NextWork work);

/// Every caution there is, whole: what the command of that name prints.
[[nodiscard]] std::string every_caution(const Style& style);
[[nodiscard]] std::string every_caution_json();

/// The heading above cautions, on every page and in every text.
inline constexpr std::string_view kCautionsHeading = "Before metal comes off or the engine runs";

}  // namespace trialfit::paper
