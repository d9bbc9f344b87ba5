// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

// Where the parts' axes lie against each other: offsets and tilts as vectors across the axis.
//
// What is known of an eccentricity is its length; unless two lie on one axis, its direction is
// anyone's guess. The vectors of the still parts keep their directions against each other, and so
// do those of the turning parts, which turn as one with the shaft. So each side has its sum, a
// vector; as the shaft turns, the turning sum comes to stand against the still one, and the least
// gap over a turn is what is left after both lengths. With one vector a side that is exact whatever
// its direction. With more, the length of a sum is at most the sum of lengths: the bounds take that
// (worst directions), the odds draw the directions.
namespace trialfit::stack {

/// A vector across the axis: share * (the size + beyond) long, in the size's own direction (against
/// it where negative). One size has one direction wherever it comes in.
struct Vector {
    int size = -1;
    double share = 0.0;
    double beyond = 0.0;
};

/// What lies between two parts' axes: the vectors of still parts and those of turning parts.
struct Vectors {
    std::vector<Vector> still;
    std::vector<Vector> turning;

    [[nodiscard]] bool none() const { return still.empty() && turning.empty(); }
    /// Whether directions matter: two or more add up on one side.
    [[nodiscard]] bool several() const { return still.size() > 1 || turning.size() > 1; }
};

/// Adds `times` the length of each vector to a form: as they add up in their worst directions.
void add_worst(const Vectors& vectors, double times, FormBuilder& into);

/// The parts on the way from one to the other by what they are centred on, or by what they sit on,
/// without the one where the two ways meet.
[[nodiscard]] std::vector<job::PartId> way_by_centring(const Model& model, job::PartId one,
                                                       job::PartId other);
[[nodiscard]] std::vector<job::PartId> way_by_seats(const Model& model, job::PartId one,
                                                    job::PartId other);

/// How far two parts lean against each other, as vectors of slope (length per length): face runout
/// over its diameter, or where a part gives its runout at two heights the slope of its axis; each
/// leans what sits on it as well. Empty where no part on the way leans.
[[nodiscard]] Vectors leans(const Model& model, job::PartId one, job::PartId other);
/// Whether any part of the job says how it leans.
[[nodiscard]] bool any_leans(const job::Job& job);
[[nodiscard]] bool says_how_it_leans(const job::Part& part);

/// What warming adds to the clearance (on diameter) of the register that centres a part, where the
/// job gives the register's diameter: a ring of each part, one of which fits the other to within
/// the clearance: times (clearance + adds). A register that closes does so down to nothing: its
/// limits warm are those cold plus what warming adds, and at least 0.
struct WarmRegister {
    bool known = false;
    double adds = 0.0;
    double times = 1.0;
};
[[nodiscard]] WarmRegister warm_register(const Model& model, job::PartId index);

}  // namespace trialfit::stack
