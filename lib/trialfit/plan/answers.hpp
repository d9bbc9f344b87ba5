// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/plan/messages.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/change/changes.hpp>
#include <vector>

// What `plan` answers: plain data, ready for any printer. Lengths in the file's unit. Names are as
// the job file writes them ("plate.front").
namespace trialfit::plan {

/// How a cut may be shared out: `rough` passes of `depth` each, then a light one of `last`.
struct Passes {
    int rough = 0;
    double depth = 0.0;
    double last = 0.0;
};

/// A face to be turned back.
struct CutMade {
    std::string part;
    std::string face;  ///< "plate.front"
    std::string from;  ///< the face that it is measured from
    bool turns = false;
    /// Nobody has measured the distance between the two: only `remove` is known, `now` and `finish`
    /// are 0, and what must remain is not judged.
    bool by_amount = false;
    double now = 0.0;     ///< distance between the two, nominal; > 0
    double finish = 0.0;  ///< what it is to be; > 0
    double remove = 0.0;  ///< now - finish
    double holds = 0.0;   ///< half-width that the lathe holds
    double keep = 0.0;    ///< what must remain
    /// Readings of the finished size (by amount: of what came off): any combination within all
    /// windows of the plan passes once it is recorded, each reading judged with `read_within`. Two
    /// cuts that share what must come off cannot both have room about the least work, so that a
    /// window may lie off the finish.
    stack::Range window;
    bool no_window = false;    ///< no reading is sure to pass
    std::string read_by;       ///< the gauge; empty where none is known
    double read_within = 0.0;  ///< the greater of `holds` and the gauge's half-width
    Passes passes;
    bool thin = false;  ///< what is left is thin for its diameter
    double cost = 0.0;
    std::string note;
    /// The least that `now` may be by its limits and the readings, where that is below what the cut
    /// is to leave: metal that is to come off may be gone already.
    std::optional<double> may_be{};
};

/// A cone to be lapped with its partner.
struct LapMade {
    std::string part;
    std::string cone;           ///< "rotor.bore"
    double off_diameter = 0.0;  ///< both parts together
    double moves = 0.0;         ///< how far the hub goes towards the large end, >= 0
    stack::Range window;        ///< of off_diameter
    double at_most = 0.0;
    quantity::Size dia_after;  ///< of this cone, all that comes off counted on it
    double cost = 0.0;
    std::string note;
};

/// A ring's bore or outside to be skimmed. All on diameter.
struct SkimMade {
    std::string part;
    std::string ring;  ///< "rotor.magnets"
    bool bore = false;
    bool turns = false;
    double now = 0.0;
    double finish = 0.0;
    double remove = 0.0;  ///< metal off, on diameter; half of it is gained all round
    double holds = 0.0;
    double keep = 0.0;            ///< wall that must remain; 0 where the job gives none
    std::optional<double> until;  ///< diameter that must not be passed
    double wall = 0.0;            ///< what is left of it, nominal
    stack::Range window;          ///< as a cut's, as are the three after it
    bool no_window = false;
    std::string read_by;
    double read_within = 0.0;
    Passes passes;  ///< depths as the tool is fed, on radius
    double cost = 0.0;
    std::string note;
    std::optional<double> may_be{};  ///< as a cut's; of a bore the greatest
};

/// A part to be centred by hand within its clearance.
struct CentringMade {
    std::string part;
    std::string on;      ///< "case"
    double play = 0.0;   ///< the clearance as it is, at most, on diameter
    double to = 0.0;     ///< what may be left of it
    double gains = 0.0;  ///< what that is worth all round, at worst
    double cost = 0.0;
};

/// One piece of a stack of shims.
struct Piece {
    double thickness = 0.0;
    std::string written;
    bool fitted = false;  ///< lay there before
};

/// What is to lie in a seat for shims.
struct StackMade {
    std::string part;
    std::string face;     ///< the part's own: "stator.base"
    std::string against;  ///< "plate.front"
    std::vector<Piece> stack;
    std::vector<Piece> taken_out;
    double height = 0.0;  ///< of the stack
    double before = 0.0;  ///< of what lay there
    double cost = 0.0;
    /// Of a seat with a rule of rounding: what the aim asks for, all else as planned, and the rule.
    std::optional<double> wanted;
    std::optional<job::Rounding> round;
};

/// What a distance that was read at the trial fit should read once the work is done and every part
/// is on its seat.
struct ReadingAfter {
    std::string from;
    std::string to;  ///< `to` less `from` along the axis
    double nominal = 0.0;
    stack::Range worst;  ///< of the sizes; the gauge's own error is not in it
    std::string as_in;   ///< the reading of the job that reads within it already; else empty
};

/// One plan, with every check as it will be.
struct PlanMade {
    double cost = 0.0;
    /// What plans are ranked by: the cost, the shims of seats that are set to an aim aside.
    double cost_ranked = 0.0;
    bool set_to_aim = false;  ///< shims were chosen for an aim, whatever they cost
    std::vector<CutMade> cuts;
    std::vector<LapMade> laps;
    std::vector<CentringMade> centrings;  ///< before any skim
    std::vector<SkimMade> skims;
    std::vector<StackMade> shims;  ///< every seat that takes shims and has or had some
    stack::CheckAnswer after;
    std::vector<ReadingAfter> readings;
    /// No plan that competes with it is ranked before it; nor any of the same rank better by its
    /// aims.
    bool proven = false;
    bool untied = false;
    stack::Changes changes;
    /// Where metal that is to come off may be gone already (`may_be`): whether the plan holds only
    /// if it is not.
    bool needs_metal = false;
};

/// A demand or limit that takes part in a conflict.
struct Stands {
    enum class Kind {
        clearance,  ///< a gap that must be at least `limit`
        least,      ///< a check's at_least
        most,       ///< a check's at_most
        keep,       ///< a cut can come no further than finish size `limit`
        lap,        ///< a cone can be lapped by no more than `limit`
        shims,      ///< a seat's stock and count
        skim,       ///< a ring can be skimmed no further than to `limit`
        rounding,   ///< a seat's rule of rounding
    };
    Kind kind = Kind::clearance;
    std::string name;  ///< the check, "plate.front to rotor.rim", the face, cone, ring, part
    std::string
        difference;     ///< of an engagement or overlap: the one of its four that stands in the way
    std::string state;  ///< of a job with states
    double limit = 0.0;
    std::string written;         ///< of a limit in other words: "75 %"
    std::optional<double> best;  ///< what it comes to as things stand, judged; none by odds
    std::optional<double> odds;  ///< by odds: the chance that it holds as things stand
};

/// Why there is no plan.
struct NoPlan {
    /// These cannot all hold; leave out any one and the rest can (`irreducible`).
    std::vector<Stands> members;
    bool irreducible = false;
    /// The two members ask the opposite of the same two faces: an automatic clearance and a check.
    bool opposed = false;
    /// The one limit that would have to give least, and by how much.
    std::optional<Stands> relaxed;
    double relaxed_by = 0.0;
    bool sought = true;  ///< false where the search for that one was stopped
    /// Demands that fail now and that nothing which may be cut, lapped or shimmed moves.
    std::vector<Stands> immovable;
};

struct PlanAnswer {
    std::string file;
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    stack::Judge judge = stack::Judge::worst;
    double inflate = 1.0;
    std::optional<double> odds_level;
    /// What changes the answer and so stands before it, see job::warnings.
    std::vector<stack::Warning> warnings{};
    stack::CheckAnswer before;
    std::vector<PlanMade> plans;  ///< cheapest first, each of another kind
    /// Kinds of plan that rank with the first, itself counted, and whether there may be more.
    std::size_t ties = 0;
    bool more_ties = false;
    bool proven = false;             ///< of every plan shown; with no plan, that none exists
    double bound = 0.0;              ///< no plan is cheaper than this
    bool stopped = false;            ///< the search was cut short
    bool nothing_to_change = false;  ///< the job has no cuts, laps or shims in stock at all
    std::optional<NoPlan> conflict;
    std::vector<Note> notes;
    std::vector<stack::NotAssessed> not_assessed;
};

}  // namespace trialfit::plan
