// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/index.hpp>
#include <utility>
#include <variant>
#include <vector>

// Changes of a job file's text. All else in it stays byte for byte: comments, order, layout, line
// ends. Names are the file's ("plate.front", "stator"); sizes are in the words of the format ("5.53
// ±0.03", "5.21 by caliper") and without signs.
namespace trialfit::reading {

/// A face is turned back to `size` from the face that its cut is measured from. Where other things
/// are measured from the face as it was, that place stays in the file under a name of its own (see
/// job/former.hpp).
struct FinishSize {
    std::string face;
    std::string size;
};

/// The shims under a part are these; none where the list is empty. `seat`: which of its seats,
/// where more than one takes shims.
struct FittedShims {
    std::string part;
    std::vector<std::string> shims;
    std::optional<job::SeatId> seat;
};

/// A cone's diameter at its gauge plane.
struct ConeDiameter {
    std::string cone;
    std::string dia;
};

/// A ring's bore or outside diameter.
struct RingDiameter {
    std::string ring;
    bool bore = false;
    std::string dia;
};

/// What is left of a part's clearance once it is centred by hand.
struct CentredBetter {
    std::string part;
    std::string clearance;
};

/// A reading taken after the work: `to` minus `from`. `pushed`: "in", "out" or empty.
struct MeasuredReading {
    std::string name;
    std::string from;
    std::string to;
    std::string is;
    std::string pushed;
};

/// One more entry in the record, at its end. What is empty is not written.
struct RecordedEntry {
    std::string date;
    std::string who;
    std::string note;
    std::vector<std::pair<std::string, std::string>> as_cut;               ///< face, size
    std::vector<std::pair<std::string, std::vector<std::string>>> fitted;  ///< part, shims
    std::vector<MeasuredReading> measured;
    bool planned = false;                                         ///< nobody has done it yet
    std::vector<std::pair<std::string, std::string>> as_skimmed;  ///< ring, diameter
    std::vector<std::pair<std::string, std::string>> lapped;      ///< cone, what came off
    std::vector<std::pair<std::string, std::string>> centred;     ///< part, what is left
    std::vector<std::pair<std::string, std::string>> taken_off;   ///< face, what came off it
};

using Change =
    std::variant<FinishSize, FittedShims, ConeDiameter, RingDiameter, CentredBetter, RecordedEntry>;

/// The changed text, which reads as a job. Or nothing, and why; warnings about the changed text
/// come with it, too. The complaints' places are in `about`: the text as it was where a change
/// cannot be made (a name that is none, a layout that cannot be followed), the text as it would
/// have become where that is no job.
struct Edited {
    std::optional<std::string> text;
    job::Complaints complaints;
    std::string about;
};

/// Makes the changes one after the other. `text` must read as a job. The result is read again, and
/// every entry of it that was not to change is as it was.
[[nodiscard]] Edited edited(std::string_view text, const std::vector<Change>& changes);

}  // namespace trialfit::reading
