// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/plan/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <variant>
#include <vector>

// What a page needs to work out by itself what `check` would say of the parts as they are cut and
// shimmed. A face that was cut is new metal with a size of its own, and a shim that was laid is,
// too: nothing else hangs on them, so that every figure moves evenly with what was measured there,
// and its ranges with it. Which old sizes drop out depends on which faces were cut, so that each
// set of fields filled in has figures of its own. Lengths in the file's unit.
namespace trialfit::stack {
class Model;
struct Options;
}  // namespace trialfit::stack

namespace trialfit::sheet {

/// Where something measured after the work is typed in.
struct LiveField {
    enum class Kind { cut, shims };
    Kind kind = Kind::cut;
    /// The face; of shims, the part whose seat they lie in.
    std::string what;
    std::string from;         ///< of a cut: the face that it is measured from
    std::string read_by;      ///< of a cut: the gauge; empty where none is known
    double half_width = 0.0;  ///< what one reading, or one shim, is good to
    double most = 0.0;        ///< of a cut: greatest distance now; the thickest shim in stock
    double keep = 0.0;        ///< of a cut: what must remain
    double least = 0.0;       ///< of a cut: what it takes at least
    double reference = 0.0;   ///< what the figures are given at: the distance now, or one shim
    /// What the cheapest plan makes of it: "5.46", "0.5 + 0.3", "none".
    std::string planned;
};

/// A reading of the job, to be taken again with every part on its seat.
struct LiveReading {
    std::string name;
    std::string from;
    std::string to;           ///< `to` less `from` along the axis
    std::string read_by;      ///< the gauge; empty where none is known
    double half_width = 0.0;  ///< what one reading is good to
};

/// A figure at the references of the fields filled in, and what it gains by a unit more in each.
struct LiveFigure {
    stack::Bounds at;
    std::vector<double> by;
};

struct LiveLimit {
    double limit = 0.0;
    bool more_than = false;
    double share = 0.0;  ///< of the length engaged or overlapped, on top of `limit`
    /// What is held to it, where that is not the value itself: the share of the length comes off.
    std::vector<LiveFigure> over;
};

/// A clearance or a check in one of the job's states. Its value is the least of the figures.
struct LiveFinding {
    std::string name;
    std::string state;
    bool check = false;  ///< of the job, or the program's own; else a clearance
    std::vector<LiveFigure> value;
    std::optional<LiveLimit> at_least;
    std::optional<LiveLimit> at_most;
    bool not_judged = false;  ///< whatever is typed
    bool may_miss = false;    ///< not judged where it does not hold: a ring is unmeasured
};

struct LiveSet {
    std::vector<bool> filled;  ///< of each field
    /// What stands apart from every finding, see stack::CheckAnswer::verdict_apart.
    stack::Verdict apart = stack::Verdict::holds;
    std::vector<LiveFinding> findings;  ///< state by state, in the same order
    std::vector<LiveFigure> readings;   ///< what each ought to read, cold
};

/// What the page does not work out, and so names a command for.
enum class LiveLeftOut {
    radial_gaps,
    tightened,   ///< the draw-up may hang on what is cut
    other_work,  ///< laps, skims, centring, and cuts of what nobody has measured
    more_fields,
};

struct LiveAnswer {
    stack::Judge judge = stack::Judge::worst;
    double inflate = 1.0;
    std::vector<LiveField> fields;  ///< at most kMostLiveFields
    std::vector<LiveReading> readings;
    std::vector<LiveSet> sets;  ///< of every choice of fields, none filled in first
    std::vector<LiveLeftOut> left_out;
    /// Where the file plans work: how many entries of its record are of work done. What is typed
    /// goes by the parts as those left them.
    std::optional<std::size_t> entries_done;
};
inline constexpr std::size_t kMostLiveFields = 4;
/// Of a job with more rings than this nothing is worked out: its page would grow too large.
inline constexpr std::size_t kMostLiveRings = 40;

/// Why nothing is worked out on a page.
enum class NotLive : int {
    no_place,        ///< no face may be cut and no seat shimmed, in a size that was measured
    many_rings,      ///< more than kMostLiveRings
    growth_unknown,  ///< of a warm part; what it moves is not judged
    uneven,          ///< figures do not move evenly with what is typed
    other_parts,     ///< the answer is not of the parts as they are: supposed, or of an earlier day
    planned_in_part,  ///< part of a plan is done, and what is left of it is not by itself in the
                      ///< file
    readings_aside,   ///< the readings are set aside, which `check` binds
};

/// What the page works out. `model` is of the parts as they are, `options` what it was made with,
/// `plan` the cheapest, if any.
[[nodiscard]] std::variant<LiveAnswer, NotLive> live(const stack::Model& model,
                                                     const stack::Options& options,
                                                     const plan::PlanMade* plan);

}  // namespace trialfit::sheet
