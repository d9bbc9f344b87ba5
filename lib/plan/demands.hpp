// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/stack/carry_out.hpp>
#include <trialfit/stack/clearances.hpp>
#include <trialfit/stack/model.hpp>
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
// The k are read off the job assembled anew with every face cut (stack::carried_out), so that they
// cannot differ from what `check` makes of the job when the work is done.
namespace trialfit::plan {

/// A face that may be cut.
struct FaceCut {
    int part = -1;
    const job::Cut* cut = nullptr;
    double now = 0.0;      ///< |d^|, of the adjusted sizes
    double sign = 1.0;     ///< +1 where the face lies outboard of its measuring face
    stack::Form distance;  ///< d, in the model's sizes
};

/// A cone that may be lapped.
struct ConeLap {
    int part = -1;
    const job::Lap* lap = nullptr;
};

using Work = std::variant<FaceCut, ConeLap>;

/// A seat whose shims may be changed: one that names a stock.
struct ShimSeat {
    int part = -1;
    int seat = -1;
    const job::Shims* shims = nullptr;
    std::vector<stack::Form> pieces;  ///< each fitted piece, in the model's sizes
};

/// lower <= form <= upper, whatever is judged.
struct Demand {
    std::string name;
    int check = -1;          ///< index into Job::checks; -1 for an automatic clearance
    std::string difference;  ///< of a grip or an overlap
    std::string state;
    stack::Form now;               ///< as things stand, in the model's sizes
    std::vector<double> by_work;   ///< k of each cut; gap gained per unit lapped
    std::vector<double> by_stack;  ///< k of each seat
    double lower = 0.0;
    double upper = 0.0;
    bool more_than = false;  ///< greater than `lower`, not merely as much
    std::optional<double> aim;
};

struct Demands {
    std::vector<Work> works;      ///< part by part, cuts before laps
    std::vector<ShimSeat> seats;  ///< part by part
    /// Every automatic clearance of every pair, and every check, in every state.
    std::vector<Demand> all;
    /// Of each at_most on a grip or an overlap, in each state: one of these is enough.
    std::vector<std::vector<Demand>> either;
    std::vector<std::string> notes;  ///< what could not be taken into account
};

[[nodiscard]] Demands demands(const stack::Model& model);

}  // namespace trialfit::plan
