// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/plan/messages.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/model.hpp>
#include <variant>
#include <vector>

// From a job to linear demands on what is cut, lapped and shimmed.
//
// The mathematics of a cut. Let d be the form of a cuttable face f less its measuring face m, in
// the sizes as they are. Cut, f lies at m + F, F being a size of its own: the finish size (with the
// sign of d) and the lathe's `holds`. So the new f lies F - d outboard of the old one, and nothing
// else in the part moves: faces dimensioned from f were measured from metal that stays. What does
// move is whatever touches f: a part on it, a ring that ends there, a check's own face. A gap G
// meets f some number k of times (+1 where it ends at f, -1 where it begins there, the same for the
// seats that it crosses), so with the set C of cuts made
//
//     G_C = G + sum over f in C of k_f (F_f - d_f),
//
// linear in C, and k_f does not hang on which other cuts are made (no measuring face is itself
// cut). With F = sign(d) (|d^| - t), d^ the nominal distance and t the metal taken off, the gap's
// middle gains -k sign(d) t + k (d^ - middle of d), and a size x_i has the sensitivity
// s_i - sum over f in C of k_f d_f,i: old spreads drop out where they cancel, `holds` comes in.
// The same k for shims: G gains k_q (stack - what is fitted). A lap by a moves the hub as if its
// own diameter were a larger: the form's sensitivity to the diameter, times a. In a state of the
// job, k carries the growth of the part.
//
// A ring skimmed and a part centred by hand are the same again: a diameter or a clearance x is made
// anew as F, and a radial gap with the sensitivity k to it gains k (F - x). Radial gaps hang on
// where parts lie along the axis in two ways only: whether the two rings lie in each other at all
// (Either: the gap is wide enough, or one ring lies wholly on one side of the other), and by how
// far a tilted part leans over there, which is taken as things stand (Demand::leans).
//
// The k are read off the job assembled anew with every face cut (stack::carried_out), so that they
// cannot differ from what `check` makes of the job when the work is done.
namespace trialfit::plan {

/// A length that work makes anew: its old size drops out of whatever leans on it.
struct NewLength {
    stack::Form old;        ///< in the model's sizes
    double start = 0.0;     ///< the new one's middle at depth 0
    double by_depth = 0.0;  ///< what a unit of depth adds to that
    double holds = 0.0;     ///< the new one's half-width
    double written = 0.0;   ///< of a diameter: the old nominal as the job has it
    bool read = false;      ///< it is a gauge's, which may lie anywhere within it
};

/// A face that may be cut.
struct FaceCut {
    job::PartId part;
    const job::Cut* cut = nullptr;
    double now = 0.0;   ///< |d^|, of the adjusted sizes; 0 by amount
    double sign = 1.0;  ///< +1 where the face lies outboard of its measuring face
    double most = 0.0;  ///< greatest depth
    /// Nobody has measured d and nothing gives it: how much comes off is asked for, and what must
    /// remain is not judged. The new face then lies F from the old one, F = -sign t.
    bool by_amount = false;
    NewLength length;  ///< of d
};

/// A ring that may be skimmed; depths are on diameter.
struct RingSkim {
    job::PartId part;
    const job::Skim* skim = nullptr;
    double now = 0.0;   ///< the diameter, of the adjusted sizes
    double most = 0.0;  ///< greatest depth that `keep` and `until` leave
    NewLength length;   ///< of the diameter
};

/// A part that may be centred by hand; there is no depth to it.
struct HandCentring {
    job::PartId part;
    const job::Centring* centring = nullptr;
    NewLength length;  ///< of the clearance
};

/// A cone that may be lapped.
struct ConeLap {
    job::PartId part;
    const job::Lap* lap = nullptr;
};

using Work = std::variant<FaceCut, ConeLap, RingSkim, HandCentring>;

/// What the work makes anew; null for a lap.
[[nodiscard]] const NewLength* new_length(const Work& work);
[[nodiscard]] quantity::Size held(const NewLength& length);

/// A seat whose shims may be changed: one that names a stock.
struct ShimSeat {
    job::PartId part;
    job::SeatId seat;
    const job::Shims* shims = nullptr;
    std::vector<stack::Form> pieces;  ///< each fitted piece, in the model's sizes
};

/// lower <= form <= upper, whatever is judged.
struct PlanDemand {
    std::string name;
    /// What it is asked for; nothing of a rule of rounding, of what skims leave, of rings apart.
    std::optional<stack::JudgedId> of{};
    /// Index into Demands::seats: a rule of rounding, on the middle alone.
    std::optional<std::size_t> rounded_seat{};
    std::string difference;  ///< of an engagement or an overlap
    std::string state;
    stack::Form now;               ///< as things stand, in the model's sizes
    std::vector<double> by_work;   ///< k of each work; of a lap, gap gained per unit lapped
    std::vector<double> by_stack;  ///< k of each seat
    double lower = 0.0;
    double upper = 0.0;
    bool more_than = false;  ///< greater than `lower`, not merely as much
    /// Of two rings' nominal diameters, as they decide whether the rings can meet along the axis:
    /// no sizes are in it, and what is skimmed counts from the nominal that the job has.
    bool diameters = false;
    std::optional<double> aim;
    /// One of several that a single check or gap asks at once: by odds, each holding is not enough.
    bool together = false;
    /// How far a tilted part leans over here hangs on what is decided, too.
    bool leans = false;
    /// It may ask more than must hold (leans() aside): a way to do without was left out.
    bool over_asks = false;
    /// Eccentricities and tilts are in it, all in their worst directions. The odds draw directions,
    /// so that by odds it asks for more than must hold.
    bool drawn = false;
};

/// Ways to meet one thing asked: all demands of any one way are enough.
struct Either {
    std::vector<std::vector<PlanDemand>> ways;
    /// The first way is a radial gap, the others that the rings lie clear of each other.
    bool radial = false;
    /// The first way is a clearance along the axis, in every state; the others that skims leave no
    /// rings there which overlap in diameter, so that nothing is asked.
    bool lapses = false;
};

/// Whether a demand's limits bind its middle alone: no limits or spreads count.
[[nodiscard]] inline bool middle_alone(const PlanDemand& demand) {
    return demand.rounded_seat.has_value() || demand.diameters;
}

/// Whether a demand may ask more than must hold.
[[nodiscard]] inline bool may_over_ask(const PlanDemand& demand) {
    return demand.leans || demand.over_asks;
}

struct Demands {
    std::vector<Work> works;      ///< part by part: cuts, laps, skims, centring
    std::vector<ShimSeat> seats;  ///< part by part
    /// Every automatic clearance of every pair, every check and every rounding rule, in every
    /// state.
    std::vector<PlanDemand> all;
    /// Every at_most on an engagement or an overlap, and every radial gap, in each state; and every
    /// automatic clearance that skims may do away with.
    std::vector<Either> either;
    std::vector<Note> notes;  ///< what could not be taken into account
};

/// A radial gap to be minded.
struct Nesting {
    stack::RadialGap gap;  ///< in any state
    bool wide = false;     ///< it must be wide enough; that the rings lie clear is not offered
};

/// `nested`: the radial gaps that are there as things stand, and any that a plan was found to bring
/// about.
/// `fouled`: clearances that a plan was found to take away, of a job with so many rings that not
/// every pair is asked for from the first. No more are asked for once the clock is over.
[[nodiscard]] Demands demands(const stack::Model& model, const std::vector<Nesting>& nested,
                              const std::vector<stack::Clearance>& fouled,
                              numerics::Deadline& clock);
[[nodiscard]] Demands demands(const stack::Model& model, const std::vector<Nesting>& nested = {});

}  // namespace trialfit::plan
