// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/form.hpp>
#include <trialfit/stack/ties.hpp>
#include <variant>
#include <vector>

namespace trialfit::stack {

/// One independent variable x_i of a job, with the words to name it by.
struct Variable {
    quantity::Size size;
    std::string label;    ///< "plate.front from plate.back"
    std::string written;  ///< "10.00 by caliper"
    job::Place at;
};

/// A place on the axis: `beyond` outboard of a face.
struct Station {
    job::FaceRef face;
    double beyond = 0.0;
};

/// The assembled job: every face's axial position as a linear form in the sizes, all parts on their
/// seats. Positions count from the zero of the part that all else stands on; only differences have
/// a meaning. Within a part by its dimensions, between parts by the seats (design 3, "Positions").
/// Holds a reference to the job, which must outlive it.
class Model {
public:
    /// The model, or complaints where sizes contradict each other or a face is tied to nothing.
    [[nodiscard]] static std::variant<Model, job::Complaints> of(const job::Job& job);

    [[nodiscard]] const job::Job& job() const { return *job_; }
    [[nodiscard]] const std::vector<Variable>& sizes() const { return sizes_; }
    [[nodiscard]] const SizeColumns& columns() const { return columns_; }
    [[nodiscard]] const std::vector<Form>& closures() const { return closures_; }
    [[nodiscard]] const Ties& ties() const { return ties_; }
    /// Facts found while seating the parts: unequal tapers, a key too tall.
    [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }

    /// `outboard` minus `inboard` in the sizes as written (before any adjustment).
    [[nodiscard]] Form gap(const Station& inboard, const Station& outboard) const;

    /// The sizes' column of what a thread's `lead_in` or `run_out` is, or -1 where it has no
    /// spread.
    [[nodiscard]] int lead_in_size(job::FeatureRef thread) const;
    [[nodiscard]] int run_out_size(job::FeatureRef thread) const;

private:
    friend class Assembler;
    Model() = default;

    // One step from a face to the next face on the way to the root of all positions.
    struct Step {
        int up = -1;     // the face stepped to, -1 at the root
        int edge = -1;   // index into edges_
        double way = 0;  // +1 where the edge leads from `up` to this face, -1 against it
        int depth = -1;  // steps to the root, -1 where the face is not tied to it
    };

    [[nodiscard]] int node(job::FaceRef face) const;
    void walk(int node, int until, double sign, FormBuilder& into) const;
    [[nodiscard]] int meeting_of(int a, int b) const;

    const job::Job* job_ = nullptr;
    std::vector<Variable> sizes_;
    SizeColumns columns_;
    std::vector<int> first_node_;  // of each part
    std::vector<Form> edges_;      // distance along each step
    std::vector<Step> steps_;      // of each face
    std::vector<Form> closures_;
    Ties ties_;
    std::vector<std::vector<int>> lead_in_size_;
    std::vector<std::vector<int>> run_out_size_;
    std::vector<std::string> notes_;
};

}  // namespace trialfit::stack
