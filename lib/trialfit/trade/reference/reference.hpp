// SPDX-License-Identifier: MIT
// Reference values as `table` shows them: each figure with its unit and where it comes from.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// One figure, or one range, or words.
struct ReferenceRow {
    std::string what;
    std::optional<double> value;  ///< of a range, its lower end
    std::optional<double> upper;  ///< its upper end
    std::string words;            ///< where it is no figure
    std::string unit;             ///< "mm", "deg", "MPa"; empty for a plain number
    std::string source;           ///< the standard or book, or the formula
};

struct Reference {
    std::string kind;    ///< "thread"
    std::string asked;   ///< "M10x1.25-6g"
    std::string answer;  ///< in one sentence
    std::vector<ReferenceRow> rows;
    std::vector<std::string> notes;
};

/// A kind of reference, for help: its name, how it is asked, what it gives.
struct ReferenceKind {
    std::string_view name;
    std::string_view example;
    std::string_view what;
};
[[nodiscard]] const std::vector<ReferenceKind>& reference_kinds();

/// Looks up what `words` ask: the kind first ("fit", "25H7/g6"). Words beyond the kind may be split
/// at blanks in any way. Lengths in mm. A reason where the kind is not known (with the nearest
/// name), or what is asked cannot be read or is outside of the source.
[[nodiscard]] Result<Reference> reference(const std::vector<std::string>& words);

}  // namespace trialfit::trade
