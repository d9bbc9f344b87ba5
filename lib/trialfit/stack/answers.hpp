// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/job/check.hpp>
#include <trialfit/job/part.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/messages.hpp>
#include <utility>
#include <variant>
#include <vector>

// What the stack answers: plain data, ready for any printer. Lengths in the file's unit. Names are
// as the job file writes them ("plate.front").
namespace trialfit::stack {

/// What can hurt someone in the work that a job is about. Their words stand in
/// paper/check/cautions.hpp.
enum class Caution {
    may_burst,        ///< something that turns was cut, may be cut, or is thrown on a shaft end
    nut_works_loose,  ///< a nut draws the hub home
    magnets,          ///< a rotor that may carry magnets goes on
    lathe,            ///< metal comes off
    puller,           ///< a hub has to come off its cone again
    spark_plug,       ///< an engine with an ignition is turned by hand
    running_engine,   ///< it is looked at as it runs
    advance,          ///< a firing point is set
    weight,           ///< a rotor is made heavier, or lighter, for the sake of starting
    maker,            ///< whose figures come first; for every job
};

/// A figure with its extremes over every stated range at once, and at the middles of all ranges.
struct Estimate {
    double least = 0.0;
    double middle = 0.0;
    double greatest = 0.0;
};

// Which of the things that are judged something is: what two answers about one job are matched by,
// whatever the things are called.

/// A place on the axis: `beyond` outboard of a face.
struct Station {
    job::FaceRef face;
    double beyond = 0.0;

    [[nodiscard]] auto operator<=>(const Station&) const = default;
};

/// A check on a gap, an engagement or an overlap: an index into Job::checks.
struct CheckId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const CheckId&) const = default;
};

/// A check on a radial gap: an index into Job::air_gaps.
struct AirGapId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const AirGapId&) const = default;
};

/// What the program asks for by itself: an index into Model::automatic_checks().
struct ClampId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const ClampId&) const = default;
};

/// An automatic clearance: the two ring ends that may meet. Each two places have one.
struct ClearanceId {
    Station inboard;
    Station outboard;

    [[nodiscard]] auto operator<=>(const ClearanceId&) const = default;
};

/// A radial gap: the two rings.
struct RadialId {
    job::RingRef inner;
    job::RingRef outer;

    [[nodiscard]] auto operator<=>(const RadialId&) const = default;
};

using JudgedId = std::variant<CheckId, AirGapId, ClampId, ClearanceId, RadialId>;

struct Range {
    double lo = 0.0;
    double hi = 0.0;

    [[nodiscard]] bool operator==(const Range&) const = default;
};

/// A value as far as the sizes' limits fix it, with every part that floats at one place.
struct Fixed {
    /// At the written nominals.
    double nominal = 0.0;
    /// At the middles of the limits; differs from the nominal where limits are unequal.
    double middle = 0.0;
    /// All limits at once.
    Range worst;
    /// Root-sum-square of the half-widths about the middle, times the inflation factor.
    Range rss;

    /// Whether nothing measured fixes it: the ranges are then without end, nominal and middle
    /// infinite.
    [[nodiscard]] bool open() const { return std::isinf(worst.lo) && std::isinf(worst.hi); }
};

/// The value of a gap, engagement or overlap. Where the play of a part moves it, `nominal` and
/// `middle` stay at the stated place, and the ranges run from the least of the one end of the
/// movement to the greatest of the other.
struct Bounds : Fixed {
    /// What a limit is held against where a part's play moves the value: its least and its greatest
    /// over the movement.
    struct Ends {
        Fixed least;
        Fixed greatest;
    };
    std::optional<Ends> moving{};

    [[nodiscard]] const Fixed& least() const { return moving ? moving->least : *this; }
    [[nodiscard]] const Fixed& greatest() const { return moving ? moving->greatest : *this; }
    /// Whether nothing measured fixes it at its stated place or at an end of its movement.
    [[nodiscard]] bool open() const {
        return Fixed::open() || (moving && (moving->least.open() || moving->greatest.open()));
    }
    /// Half of how far the value moves, at the middle of the play; 0 where nothing moves it.
    [[nodiscard]] double travel() const {
        return moving && !open() ? (moving->greatest.middle - moving->least.middle) / 2.0 : 0.0;
    }
};

/// `not_judged`: something that the figure stands on is not given. From best to worst.
enum class Verdict { holds, not_judged, doubtful, fails };

/// A state of the job: temperatures in degrees Celsius, of all parts and of those that differ.
struct StateTold {
    std::string name;
    double all_c = 20.0;
    std::vector<std::pair<std::string, double>> parts{};
    /// Of the state "tightened": how far the nut draws the hub home, in the file's unit.
    struct DrawnHome {
        double nominal = 0.0;
        Range worst;
    };
    std::optional<DrawnHome> drawn_home{};
};

/// What a finding is in one state of the job.
struct InState {
    std::string state;
    Bounds value;
    Verdict verdict = Verdict::holds;
};

/// What a verdict is judged by. `odds`, where a later floor has them, is no matter of the stack.
enum class Judge { worst, rss };

/// One automatic clearance: an inboard ring end of a later part over an outboard ring end of an
/// earlier part.
struct Clearance {
    std::string inboard;        ///< end of the earlier part's ring: "plate.front", "cap.top -5"
    std::string outboard;       ///< end of the later part's
    std::string inboard_face;   ///< the face that this end is, or lies beyond
    std::string outboard_face;  ///< the same
    std::string inboard_ring;
    std::string outboard_ring;
    /// The rings themselves, and their ends that may meet.
    job::RingRef inboard_of;
    job::RingRef outboard_of;
    job::RingEnd inboard_end;
    job::RingEnd outboard_end;
    /// Where the two rings overlap furthest out; tilt takes most off the gap there.
    double dia = 0.0;
    /// A diameter of the two rings is unmeasured: they may miss each other.
    bool may_miss = false;
    /// Whether the directions of eccentricities or tilts matter: the bounds take them at the worst.
    bool several_directions = false;
    /// Least gap that passes. `more_than`: it must be greater than this (0), not merely reach it.
    double at_least = 0.0;
    bool more_than = false;
    Bounds gap;
    Verdict verdict = Verdict::holds;
    /// Where it is not judged: what it stands on and the job does not give.
    std::optional<NotJudgedFor> not_judged_for{};
    /// The chance that it holds, and that it fails (with digits of its own where that is tiny),
    /// where a later floor has worked them out.
    std::optional<double> odds;
    std::optional<double> fails;
    /// The tightest pair of these two parts (the others are shown on request).
    bool tightest = true;
    /// Of a job with states: the one that decides, which all the figures here are of, and what it
    /// is in each.
    std::string state{};
    std::vector<InState> in_states{};
};

/// `clamp`: the thread left free where a nut comes home; the program asks for it by itself.
enum class CheckKind { gap, engagement, overlap, air_gap, clamp };

/// The least radial gap round the turn between two nested rings, one turning and one still.
struct RadialGap {
    std::string inner;  ///< the ring within: "stator.poles"
    std::string outer;  ///< the ring round it: "rotor.magnets"
    job::RingRef inner_ring;
    job::RingRef outer_ring;
    double at_least = 0.0;
    /// It must be greater than `at_least`, not merely reach it.
    bool more_than = false;
    Bounds gap;
    Verdict verdict = Verdict::holds;
    std::optional<NotJudgedFor> not_judged_for{};  ///< as for a clearance
    /// What it would hang on and the job does not give. Taken as none.
    std::vector<NotGiven> not_given;
    bool several_directions = false;  ///< as for a clearance
    std::optional<double> odds;
    std::optional<double> fails;
    /// As for a clearance.
    bool tightest = true;
    std::string state{};
    std::vector<InState> in_states{};
};

/// Which of what is judged a clearance is, in every answer about the same job.
[[nodiscard]] inline JudgedId id_of(const Clearance& pair) {
    return ClearanceId{.inboard = {.face = {pair.inboard_of.part, pair.inboard_end.face},
                                   .beyond = pair.inboard_end.beyond},
                       .outboard = {.face = {pair.outboard_of.part, pair.outboard_end.face},
                                    .beyond = pair.outboard_end.beyond}};
}

/// The same of a radial gap.
[[nodiscard]] inline JudgedId id_of(const RadialGap& gap) {
    return RadialId{.inner = gap.inner_ring, .outer = gap.outer_ring};
}

/// The answer to one check of the job.
struct CheckResult {
    JudgedId id;
    std::string name;
    CheckKind kind = CheckKind::gap;
    /// Asked for by the program itself, not by the job.
    bool automatic = false;
    /// It must be greater than `at_least`, not merely reach it.
    bool more_than = false;
    /// The two faces, threads or rings it is about, as the check names them.
    std::string first;
    std::string second;
    /// A gap, an engagement or an overlap, in the file's unit.
    Bounds value;
    /// Limits in the file's unit (a share's: of the nominal length of the ring).
    std::optional<double> at_least;
    std::optional<double> at_most;
    std::string at_least_written;
    std::string at_most_written;
    /// Overlap only: nominal share of the ring's length.
    std::optional<double> share;
    std::optional<double> at_least_share;
    std::optional<double> at_most_share;
    /// By how much the check passes (>= 0) or misses (< 0) in the judged case and at nominal.
    /// An air gap with an upper limit: the greatest gap round the turn, which that limit is on.
    std::optional<Bounds> greatest;
    double judged_margin = 0.0;
    double nominal_margin = 0.0;
    Verdict verdict = Verdict::holds;
    /// Where it is not judged: what it stands on and the job does not give.
    std::optional<NotJudgedFor> not_judged_for{};
    /// The chance that it holds, and that it fails (with digits of its own where that is tiny),
    /// where a later floor has worked them out.
    std::optional<double> odds;
    std::optional<double> fails;
    /// As for a clearance.
    std::string state{};
    std::vector<InState> in_states{};
};

/// What a part that is pushed home rests on instead of its seat.
struct FirstContact {
    std::string inboard;
    std::string outboard;
    std::string inboard_ring;
    std::string outboard_ring;
    std::string part;   ///< the part that stands proud
    job::PartId proud;  ///< the same
    /// The face that it was to seat on: "plate.front"; empty for a cone.
    std::string seat;
    struct StandsProud {
        double nominal = 0.0;
        Range worst;
        Range rss;
    } stands_proud;
    /// Of a job with states: the one in which it does.
    std::string state{};
};

/// Everything `check` finds.
struct CheckAnswer {
    std::string title;
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    Judge judge = Judge::worst;
    double inflate = 1.0;
    /// Judged by the odds instead: the least chance that counts as holding.
    std::optional<double> odds_level;
    Verdict verdict = Verdict::holds;
    /// What stands apart from every finding makes of it: a limit that was passed, tapers that
    /// differ, a part that stands off its seat.
    Verdict verdict_apart = Verdict::holds;
    /// The states that everything was judged in; none where the job gives none.
    std::vector<StateTold> states;
    /// Tightest pair of each two parts, and any other pair with a worse verdict; with `all_pairs`,
    /// every pair. Worst verdict first, then smallest nominal gap.
    std::vector<Clearance> clearances;
    /// Whether pairs were left out because pairs in between prove that they clear (large jobs).
    bool implied_left_out = false;
    std::vector<CheckResult> checks;
    /// Radial gaps, listed as the clearances are; none where the job says nothing of them.
    std::vector<RadialGap> radial;
    std::optional<FirstContact> first_contact;
    /// What changes the answer and so stands before it, the gravest first.
    std::vector<Warning> warnings;
    /// What was asked and could not be judged, and why: the answer then never holds.
    std::vector<NotJudged> not_judged;
    /// The first turning part that sits on a cone: whether the nut's torque holds it there is for
    /// the seat to judge, and not judged here. Empty where there is none.
    std::string held_by_cone{};
    /// Facts found on the way that the person should know: unequal tapers, a key too tall,
    /// redundant sizes reconciled, readings set aside.
    std::vector<Note> notes;
    std::vector<NotAssessed> not_assessed;
    std::vector<Caution> cautions;
    /// Whether the job allows anything to be cut, lapped, skimmed, centred or shimmed.
    bool may_change = false;
};

/// One size's part in a check.
struct Contribution {
    std::string size;     ///< "plate.front from plate.back"
    std::string written;  ///< "10.00 by caliper"
    job::Place at;
    quantity::Size value;
    double sensitivity = 0.0;
    /// A part's play: it moves the value. What it adds is a movement and not a doubt.
    bool moves = false;
    /// |s| h: what it adds to the worst-case half-width.
    double half_width = 0.0;
    double worst_share = 0.0;     ///< of the worst-case half-width, 0 to 1
    double variance_share = 0.0;  ///< of the variance by the spreads' sd, 0 to 1
    /// The check's bounds if this size were known twice as well (its half-width halved about the
    /// middle of its limits); as they are for a movement.
    Bounds if_halved;
    /// The chance that the check fails if this size alone had half its spread, where a later floor
    /// has worked it out.
    std::optional<double> fails_if_halved;
};

/// The limit of a check that decides.
enum class Side { at_least, at_most };

/// The chain behind one check or clearance, biggest contributor first.
struct WhyAnswer {
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    /// The check's; empty for the gap of two faces or rings that no check names.
    std::string name;
    /// What is judged; nothing where the two faces or rings are none that anything is asked of.
    std::optional<JudgedId> id{};
    std::string first;
    std::string second;
    CheckKind kind = CheckKind::gap;
    /// Engagement and overlap are the least of four differences: the one that decides, in words.
    std::string deciding;
    /// What check says of it; of an air gap whose upper limit decides, the greatest gap.
    Bounds value;
    std::optional<double> at_least;
    std::optional<double> at_most;
    bool more_than = false;
    /// The limit that the chain is about: of two, the one with the least to spare.
    Side side = Side::at_least;
    Verdict verdict = Verdict::holds;
    std::optional<NotJudgedFor> not_judged_for{};
    /// Of a job with states: the one that decides.
    std::string state{};
    Judge judge = Judge::worst;
    double inflate = 1.0;
    double sd = 0.0;
    /// The chance that it holds, and that it fails, where a later floor has worked them out.
    std::optional<double> odds;
    std::optional<double> fails;
    /// The constant part of the form (fixed lengths such as `below: 5`).
    double constant = 0.0;
    std::vector<Contribution> chain;
    std::vector<Note> notes;
    /// What changes the answer and so stands before it, see job::warnings.
    std::vector<job::Warning> warnings{};
};

}  // namespace trialfit::stack
