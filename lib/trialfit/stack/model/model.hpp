// SPDX-License-Identifier: MIT
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/form.hpp>
#include <trialfit/stack/model/ties.hpp>
#include <trialfit/stack/model/unmeasured.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::stack {

/// What a key holds its hub off its cone by, where it may or may not be higher than its room:
/// max(0, per_excess * (height - room)), >= 0.
struct KeyStandOff {
    int height = -1;  ///< columns of the two sizes
    int room = -1;
    double per_excess = 0.0;
};

/// What kind of distance a size is, and so what it is measured with.
enum class Measured {
    length,    ///< between two faces of one part
    depth,     ///< along the axis from one part to another: a seat's offset, a trial-fit reading
    diameter,  ///< of a cone or a ring
    play,      ///< a movement
    lay,       ///< where a part lay in its play when a reading was taken
    other,     ///< runout, a key, a thread's end
};

/// One independent variable x_i of a job, with the words to name it by.
struct Variable {
    job::SizeId id;
    quantity::Size size;
    std::string label;    ///< "plate.front from plate.back"
    std::string written;  ///< "10.00 by caliper"
    job::Place at;
    std::optional<job::GaugeId> gauge{};  ///< the gauge that read it: an index into Job::gauges
    /// A part's play: how far it moves. Not to be known better by measuring.
    bool floats = false;
    /// A stand-off whose spread is that of a key and its room: `size` has its limits only.
    std::optional<KeyStandOff> key{};
    /// The part that it is a length of and grows with when warm (index into Job::parts); none for
    /// a play and for a reading's own value.
    std::optional<job::PartId> grows_with{};
    Measured measured = Measured::other;
};

/// A part that rests by one of its ring ends on another part's instead of on its seat.
struct Jam {
    job::PartId part;
    Station own;
    Station against;
};

/// A part that lay off its seat by more than its sizes can explain: a trial fit after work that
/// still reads short.
struct StandsOff {
    job::PartId part;
    double by = 0.0;     ///< outboard of its seat, > 0, in the file's unit
    double doubt = 0.0;  ///< the standard deviation of that
    /// The pair that holds it, as stated or as the tightest of those fitted; nothing where no
    /// fitted part lies under it. `clears`: by how much it should clear with the part seated.
    std::optional<Jam> held;
    bool held_stated = false;
    double clears = 0.0;
};

/// How the parts lay when a reading was taken: which reading, and which parts were jammed. A
/// reading with a part that stands off says where that part lay and binds no sizes.
struct TrialFit {
    int reading = -1;
    std::vector<Jam> jams;
    std::optional<StandsOff> stands_off{};
};

/// The columns of the sizes that radial gaps hang on, -1 where there is none; all empty where the
/// job asks for no radial gap.
struct RadialSizes {
    std::vector<int> centring;             ///< of each part: the clearance on diameter
    std::vector<std::vector<int>> runout;  ///< of each part
    std::vector<int> face_runout;          ///< of each part
    std::vector<std::vector<int>> bore;    ///< of each part's rings
    std::vector<std::vector<int>> outside;
};

/// Whether anything in the job lets radial gaps be assessed: a centring, a runout or an air gap.
[[nodiscard]] bool asks_radial(const job::Job& job);

/// How the parts are in one state of the job: `growth` of each part is 1 + expansion * (T - 20 C),
/// the factor on each of its lengths.
struct Warmth {
    std::string state;
    std::vector<double> growth;
    /// The parts that are warm and of which nothing says how far they grow: their growth is 1.
    std::vector<job::PartId> unknown{};
};

using job::kTightened;

/// The assembled job: every face's axial position as a linear form in the sizes, all parts on their
/// seats. Positions count from the zero of the part that all else stands on; only differences have
/// a meaning. Within a part by its dimensions, between parts by the seats.
/// Holds a reference to the job, which must outlive it.
class Model {
public:
    /// The model, or complaints where a face is tied to nothing. Sizes that contradict each other
    /// still make a model, for the survey; see contradictions().
    [[nodiscard]] static std::variant<Model, job::Complaints> of(const job::Job& job);

    [[nodiscard]] const job::Job& job() const { return *job_; }
    [[nodiscard]] const std::vector<Variable>& sizes() const { return sizes_; }
    /// The column of a size; nothing where the model needs no such size (it has no limits apart,
    /// say).
    [[nodiscard]] std::optional<int> column_of(job::SizeId id) const;
    /// Sizes that closures tie have the middle of their limits as nominal: what was measured in
    /// more than one way is adjusted from one start.
    [[nodiscard]] const SizeColumns& columns() const { return columns_; }
    /// With all that they give of sizes that nobody has measured put in; those used up for that are
    /// zero.
    [[nodiscard]] const std::vector<Form>& closures() const { return unmeasured_.closures(); }
    /// The same as they are written, unmeasured sizes and all.
    [[nodiscard]] const std::vector<Form>& closures_as_written() const { return closures_; }
    [[nodiscard]] const Unmeasured& unmeasured() const { return unmeasured_; }
    /// Of each size, whether nobody has measured it.
    [[nodiscard]] std::vector<bool> is_unmeasured() const;
    [[nodiscard]] const Ties& ties() const { return ties_; }
    /// One complaint for each group of sizes given more than once that no sizes within their limits
    /// can meet; empty where all agree. Readings that bind the model are not looked at.
    [[nodiscard]] job::Complaints contradictions() const;
    /// What is asked of the job without its asking: that nuts come home
    /// (stack/clearance/clamping.hpp).
    [[nodiscard]] const std::vector<job::Check>& automatic_checks() const {
        return automatic_checks_;
    }
    /// The tapers that differ: such a hub can rock on its cone.
    [[nodiscard]] const std::vector<TapersDiffer>& warnings() const { return warnings_; }
    /// Facts found while seating the parts: a key too tall.
    [[nodiscard]] const std::vector<Note>& notes() const { return notes_; }

    [[nodiscard]] const RadialSizes& radial() const { return radial_; }
    /// Where a face may lie at most, as written, from the root of all positions: a quick bound that
    /// forgets which sizes two faces share.
    [[nodiscard]] std::vector<std::vector<Range>> reach() const;

    /// `outboard` minus `inboard` in the sizes as written (before any adjustment), with every part
    /// that floats at its stated place. Sizes that nobody has measured stand in it only where the
    /// closures leave it open (unmeasured().open()).
    [[nodiscard]] Form gap(const Station& inboard, const Station& outboard) const;

    /// `form` with every part that floats at that end of its play that makes it least or greatest:
    /// the part's play comes in as a size of its own (-|k|/2 and +|k|/2 times the play about a
    /// stated offset; one way only from a contact, or where it was pushed when it was measured).
    [[nodiscard]] Form least_end(const Form& form) const { return at_an_end(form, -1.0); }
    [[nodiscard]] Form greatest_end(const Form& form) const { return at_an_end(form, 1.0); }
    /// Whether a part's play moves `form`.
    [[nodiscard]] bool moves(const Form& form) const;

    /// The same with the parts as they lay for a reading: jammed parts off their seats, play where
    /// the crank was pushed (half of the total play in or out), or anywhere in it where the reading
    /// does not say.
    [[nodiscard]] Form gap(const TrialFit& fit, const Station& inboard,
                           const Station& outboard) const;
    /// What the reading ought to be less what it is: zero if all sizes and the reading are right.
    [[nodiscard]] Form misfit(const TrialFit& fit) const;
    /// The parts that the way from one face to the other leads over, rising, and those among them
    /// whose seats it crosses.
    struct Way {
        std::vector<job::PartId> parts;
        std::vector<job::PartId> seats;
    };
    [[nodiscard]] Way way(const TrialFit& fit, job::FaceRef from, job::FaceRef to) const;
    /// Whether `part` is, or carries on its seats, `other`.
    [[nodiscard]] bool carries(job::PartId part, job::PartId other) const;
    /// The column of a reading's own value.
    [[nodiscard]] int reading_size(int reading) const {
        return reading_size_.at(static_cast<std::size_t>(reading));
    }

    /// This model with its parts grown as `warmth` says: every length of a part times its growth, a
    /// seat's offset with the part sat against, its shims and key with the part itself; play stays
    /// as written. What ties the sizes was measured cold and stays as it is; so misfit() has a
    /// meaning in the cold model only.
    [[nodiscard]] Model in_state(const Warmth& warmth) const;
    /// This model with the hub of its seat section drawn home by its draw-up. Needs
    /// known_draw_up().
    [[nodiscard]] Model tightened() const;
    /// How far the nut draws that hub up its cone, from where it first touches, by the sizes as
    /// written (stack/tightened/load.hpp): along the axis, >= 0. Null where it is not known, or
    /// nothing.
    [[nodiscard]] const quantity::Size* known_draw_up() const;
    /// The state's name; empty where the job has none.
    [[nodiscard]] const std::string& state() const { return warmth_.state; }
    /// The parts that are warm in the model's state and of which nothing says how far they grow.
    [[nodiscard]] const std::vector<job::PartId>& growth_unknown() const { return warmth_.unknown; }
    /// This model with each of those parts in turn grown by a thousandth (those beyond the first
    /// few all at once): a figure that it changes stands on them.
    struct Grown {
        std::vector<job::PartId> parts;
        std::shared_ptr<const Model> model;
    };
    [[nodiscard]] const std::vector<Grown>& with_unknown_grown() const {
        return with_unknown_grown_;
    }
    /// Factor on the lengths of a part in the model's state.
    [[nodiscard]] double growth(job::PartId part) const {
        return warmth_.growth.empty() ? 1.0 : warmth_.growth[part.at()];
    }

    /// This model with more closures that the sizes must meet (readings). Check
    /// ties().contradictions() of the result.
    [[nodiscard]] Model bound_by(const std::vector<Form>& closures) const;

    /// The sizes' column of what a thread's `lead_in` or `run_out` is, or -1 where it has no
    /// spread.
    [[nodiscard]] int lead_in_size(job::ThreadRef thread) const;
    [[nodiscard]] int run_out_size(job::ThreadRef thread) const;

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

    // The position of a face relative to the root face, step by step, with jams in force.
    struct Travel {
        FormBuilder position;
        Way way;
    };
    [[nodiscard]] Travel travel(const TrialFit& fit, const Station& to) const;
    [[nodiscard]] Way way_by_seats(int from, int to) const;
    [[nodiscard]] double roam(const Form& edge) const;
    [[nodiscard]] Form at_an_end(const Form& form, double sign) const;
    [[nodiscard]] Form with_play_as_pushed(const TrialFit& fit, const Form& form) const;

    [[nodiscard]] int node(job::FaceRef face) const;
    [[nodiscard]] job::FaceRef face_at(int node) const;
    // Makes the closures bind: what is unmeasured is worked out, the rest is adjusted.
    void tie();
    void walk(int node, int until, double sign, FormBuilder& into) const;
    [[nodiscard]] int meeting_of(int a, int b) const;
    void learn_draw_up();

    const job::Job* job_ = nullptr;
    std::vector<Variable> sizes_;
    SizeColumns columns_;
    std::vector<int> first_node_;          // of each part
    std::vector<Form> edges_;              // distance along each step
    std::vector<job::PartId> edge_owner_;  // the part whose bare lengths each edge's constant is
    std::vector<Step> steps_;              // of each face
    std::vector<Form> closures_;
    Unmeasured unmeasured_;
    // What a closure of the job's own sizes says a second time; readings' closures have none.
    struct Origin {
        std::string what;
        job::Place at;
    };
    std::vector<Origin> closure_of_;
    Ties ties_;
    std::vector<job::PartId> owner_;  // part of each face
    std::vector<int> play_size_;      // of each part: its stated place in its play, or -1
    std::vector<std::size_t> float_;  // the parts that have a play, ascending
    std::vector<Range> play_ends_;    // of each part: how far it may move, in shares of its play
    std::vector<int> total_play_;     // of each part: the whole of its play, or -1
    std::vector<int> reading_size_;   // of each reading: its own value
    // Of each reading: the parts that float, and where each lay in its play.
    std::vector<std::vector<std::pair<int, int>>> reading_play_;
    std::vector<std::vector<int>> lead_in_size_;
    std::vector<std::vector<int>> run_out_size_;
    // The draw-up of the hub: its column (exactly 0 where it is not known), and the step that it
    // shortens when tightened, + where the cone narrows outboard.
    struct DrawUpStep {
        int size = -1;
        int edge = -1;
        double sign = 0.0;
    };
    DrawUpStep draw_up_;
    std::vector<Note> notes_;
    std::vector<TapersDiffer> warnings_;
    std::vector<job::Check> automatic_checks_;
    Warmth warmth_;
    std::vector<Grown> with_unknown_grown_;
    RadialSizes radial_;
};

}  // namespace trialfit::stack
