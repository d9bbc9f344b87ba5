// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/plan/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <variant>
#include <vector>

// What a page needs to work out by itself what `check` would say of the parts as they are cut,
// shimmed, skimmed, lapped and centred. A face that was cut is new metal with a size of its own,
// and a shim that was laid is, too: every figure moves evenly with what was measured there, and its
// ranges with it. Which old sizes drop out depends on which fields are filled in. For most fields
// that is the same whatever the others hold, and their changes add up; fields of which that is not
// so (faces whose sizes a third one or a reading ties) make a group, and the figures are given for
// each choice of its fields. Lengths in the file's unit.
namespace trialfit::stack {
class Model;
struct Options;
}  // namespace trialfit::stack

namespace trialfit::sheet {

/// What stands in a field: its middle, its half-width, and the sum of the squares of the
/// half-widths of the sizes in it (a stack of shims has several).
struct LiveSize {
    double middle = 0.0;
    double half_width = 0.0;
    double squares = 0.0;
};

/// What must not be passed by the work of a field: `nominal` by the size itself, `worst` by its bad
/// limit. A least, or where `is_most` a greatest.
struct LiveBound {
    double nominal = 0.0;
    double worst = 0.0;
    bool is_most = false;
};

/// Where something measured after the work is typed in.
struct LiveField {
    /// What is typed: of a cut the distance from `from`; of a cut of what nobody has measured what
    /// came off the face; of shims each thickness; of a skim the
    /// diameter; of a lap what came off the diameters; of a centring what is left of the clearance,
    /// on diameter, at most.
    enum class Kind { cut, take, shims, skim, lap, centring };
    Kind kind = Kind::cut;
    /// The face, the ring's bore or outside ("rotor.skirt.bore"), the cone; of shims and centring
    /// the part.
    std::string what;
    std::string from;         ///< of a cut: the face that it is measured from
    std::string read_by;      ///< of a cut, a take and a skim: the gauge; empty where none is known
    double half_width = 0.0;  ///< what one reading, or one shim, is good to
    double now = 0.0;         ///< what would be typed of the parts as they are; one shim
    double least = 0.0;       ///< what it takes at least
    double most = 0.0;        ///< what it takes at most; of shims the thickest in stock
    std::vector<LiveBound> bounds;
    LiveSize reference;     ///< what the figures are given at
    bool bore = false;      ///< of a skim
    double dia = 0.0;       ///< of a lap: the cone's diameter now
    double dia_sign = 0.0;  ///< of a lap: +1 where it makes the diameter larger
    /// What the cheapest plan makes of it: "5.46", "0.5 + 0.3", "none".
    std::string planned;
};

/// A figure at the references of the fields filled in, and what it gains by a unit more in each
/// field of the answer.
struct LiveFigure {
    stack::Bounds at;
    std::vector<double> by;
};

/// The figures of a finding for one choice of the fields filled in.
struct LiveFigures {
    std::vector<LiveFigure> value;  ///< what is judged is the least of them (LiveFinding::widest)
    /// Held to `at_least` in place of `value`, where not empty: the share of the length comes off.
    std::vector<LiveFigure> over;
    /// Held to `at_most` in place of `value`, where not empty.
    std::vector<LiveFigure> under;
    /// Two rings lie over one another only where the upper worst end of each is above 0; empty
    /// where that is not asked.
    std::vector<LiveFigure> within;
    bool not_judged = false;  ///< whatever is typed
    bool may_miss = false;    ///< not judged where it does not hold
};

/// Fields of which what one changes depends on what the others hold.
struct LiveGroup {
    std::vector<std::size_t> fields;  ///< into LiveAnswer::fields, ascending
    /// Of every choice of them, by its bits (bit 0: the first field), the fields of no group blank.
    std::vector<LiveFigures> of;
};

struct LiveLimit {
    double limit = 0.0;
    bool more_than = false;
    double share = 0.0;  ///< of the length engaged or overlapped, on top of `limit`
};

/// A clearance, a radial gap, a check or a reading in one of the job's states. What several groups
/// change adds up: nominal, middle and worst case, of an RSS range its middle and the square of its
/// half-width.
struct LiveFinding {
    enum class Kind { clearance, radial, check, reading };
    Kind kind = Kind::clearance;
    std::string name;
    std::string state;
    std::optional<LiveLimit> at_least;
    std::optional<LiveLimit> at_most;
    /// Of an air gap with an upper limit, which is judged apart: what is judged is the greatest of
    /// the figures, not the least.
    bool widest = false;
    bool one_of_two = false;  ///< the gap's other limit has a finding of its own
    LiveFigures blank;        ///< with no field filled in
    std::vector<LiveGroup> groups;
};

/// A reading of the job, to be taken again with every part on its seat.
struct LiveReading {
    std::string name;
    std::string from;
    std::string to;           ///< `to` less `from` along the axis
    std::string read_by;      ///< the gauge; empty where none is known
    double half_width = 0.0;  ///< what one reading is good to
    /// What it ought to be, cold; nothing where that is not worked out.
    std::optional<LiveFinding> should{};
};

/// What stands apart from every finding, see stack::CheckAnswer::verdict_apart, for every choice of
/// the fields that change it.
struct LiveApart {
    std::vector<std::size_t> fields;
    std::vector<stack::Verdict> of;  ///< as LiveGroup::of
};

/// What the page does not work out, and so names a command for.
struct LiveLeftOut {
    enum class Kind {
        radial_gaps,  ///< they do not move evenly with what is typed
        tightened,    ///< the draw-up may hang on what is cut
        open_work,    ///< skims and centring of what nobody has measured
        tied,         ///< work on sizes that are bound to others
        uneven,       ///< findings that do not move evenly with what is typed
        more_fields,
    };
    Kind kind = Kind::radial_gaps;
    std::vector<std::string> names{};
};

struct LiveAnswer {
    stack::Judge judge = stack::Judge::worst;
    double inflate = 1.0;
    std::vector<LiveField> fields;  ///< at most kMostLiveFields
    std::vector<LiveReading> readings;
    std::vector<LiveFinding> findings;  ///< state by state, in the same order
    LiveApart apart;
    std::vector<LiveLeftOut> left_out;
    /// Where the file plans work: how many entries of its record are of work done. What is typed
    /// goes by the parts as those left them.
    std::optional<std::size_t> entries_done;
};
/// The time that a page takes to make grows with the square of its fields: with twelve, a second
/// and a half for a job of kMostLiveRings rings (measured, one core).
inline constexpr std::size_t kMostLiveFields = 12;
/// Fields of one group: there are figures for each choice of them.
inline constexpr std::size_t kMostLiveTogether = 6;
/// Of a job with more rings than this nothing is worked out: its page would grow too large.
inline constexpr std::size_t kMostLiveRings = 40;

/// Why nothing is worked out on a page.
enum class NotLive : int {
    no_place,        ///< no work is allowed on a size that was measured
    many_rings,      ///< more than kMostLiveRings
    growth_unknown,  ///< of warm_of_unknown_growth(); what they move is not judged
    uneven,          ///< figures do not move evenly with what is typed
    other_parts,     ///< the answer is not of the parts as they are: supposed, or of an earlier day
    planned_in_part,  ///< part of a plan is done, and what is left of it is not by itself in the
                      ///< file
    readings_aside,   ///< the readings are set aside, which `check` binds
};

/// The names of the parts that are warm in any state and of which nothing says how far they grow.
[[nodiscard]] std::vector<std::string> warm_of_unknown_growth(const stack::Model& model);

/// What the page works out. `model` is of the parts as they are, `options` what it was made with,
/// `plan` the cheapest, if any.
[[nodiscard]] std::variant<LiveAnswer, NotLive> live(const stack::Model& model,
                                                     const stack::Options& options,
                                                     const plan::PlanMade* plan);

}  // namespace trialfit::sheet
