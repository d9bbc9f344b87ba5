// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/draw/section/shapes.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/change/changes.hpp>
#include <variant>
#include <vector>

// The section above the axis of a job: what is drawn, and where. Plain data; lengths in the file's
// unit, axial positions from the zero of the first part, at nominal sizes, adjusted where readings
// bind them.
namespace trialfit::stack {
class Model;
struct Options;
}  // namespace trialfit::stack

namespace trialfit::draw {

/// A part's metal.
struct PartShape {
    std::string name;
    bool turns = false;
    std::string material;        ///< as the job has it; empty where it says nothing
    char general_tolerance = 0;  ///< ISO 2768-1 class of its bare sizes, 0 where none is stated
    /// Where it comes to rest: even-odd, and the same as pieces that do not overlap.
    std::vector<Loop> outline;
    std::vector<Solid> pieces;
    std::vector<Line> seams;
    std::vector<Line> threads;
    std::vector<Line> bare_cones;
    /// Where a shaft must go on between two pieces of its metal, though the job gives none there.
    std::vector<Line> presumed;
    /// Metal of which nothing measured says where it ends, as far out as `outline`.
    std::vector<Loop> unsure;
    /// Drawn over what it reaches into (an external thread).
    bool over_others = false;
    /// How far outboard of its place it comes to rest, >= 0, and where it should sit; the outline
    /// is empty where it does sit there.
    double off_place = 0.0;
    std::vector<Loop> in_place;
};

/// Metal of two parts that would be in the same place if both sat where they should.
struct Foul {
    std::vector<Loop> zone;
    std::string inboard;
    std::string outboard;
    double depth = 0.0;  ///< by how much they foul, > 0
    std::size_t inboard_part = 0;
    std::size_t outboard_part = 0;
};

/// Shims that lie between two parts.
struct ShimsDrawn {
    std::vector<Loop> zone;  ///< empty where no rings say how wide they are
    std::vector<double> thicknesses;
    std::size_t under = 0;  ///< the part that they lie on
    std::size_t over = 0;   ///< the part that lies on them
};

/// A key between a hub and a shaft. The job gives its height and the room for it, and not how long
/// it is, where along the cone it lies, nor how the room is shared out: it is drawn about the
/// middle of the cones' contact, half of the room in either part.
struct KeyDrawn {
    Point at;  ///< the middle of the cones' contact
    /// The room: the floor of the shaft's slot, then the hub's; empty where a size is unmeasured or
    /// the slot would reach the axis.
    Loop slot;
    Loop metal;  ///< the key on the floor of the shaft's slot; empty as `slot`
    double height = 0.0;
    double room = 0.0;
    std::size_t hub = 0;
    std::size_t shaft = 0;
};

/// A face that work is measured from. Its letter goes by its place in the list: A, B and so on.
struct DatumFace {
    std::string face;
    Point at;
};

/// A size that work is to reach: along the axis from a datum, or on diameter (`datum` is nothing
/// then).
struct FinishDrawn {
    std::string of;  ///< the face or ring
    std::size_t part = 0;
    double finish = 0.0;
    double least = 0.0;  ///< by what the lathe holds
    double most = 0.0;
    std::optional<std::size_t> datum;  ///< index into Section::datums
    Point from;                        ///< on the datum; on diameter the same as `to`
    Point to;
};

/// Metal that a plan takes off: where it lies with the parts at rest, and how much along the axis,
/// or on diameter.
struct Removal {
    std::vector<Loop> zone;
    std::string of;       ///< the face or ring
    double amount = 0.0;  ///< > 0
    bool on_diameter = false;
    std::size_t part = 0;
};

/// `open_cone`: the radial gap at the end at which a hub's cone does not bear, its taper being
/// another than the shaft's.
enum class DimensionKind { check, clearance, radial, stands_proud, open_cone };

/// A distance to be shown where it is: along the axis with both ends at one radius, or across it
/// (`across`) with both at one axial position. Measured with every part where it should sit, except
/// what stands proud.
struct SectionDimension {
    DimensionKind kind = DimensionKind::check;
    /// Into the answer's checks, clearances or radial gaps; the part that stands proud; the hub.
    std::size_t index = 0;
    Point from;
    Point to;
    bool across = false;
    double value = 0.0;
    stack::Verdict verdict = stack::Verdict::holds;
    /// The parts that one across is between.
    std::vector<std::size_t> parts{};
};

/// Turns of a thread that are not whole, at one of its ends.
struct LeadInDrawn {
    Point whole;  ///< where the whole turns end
    Point end;    ///< where the thread ends
    std::string thread;
};

/// Where a hub's cone of another taper than its shaft's touches it: at one end of the contact.
struct BearingEnd {
    Point at;
    std::size_t hub = 0;
    std::size_t shaft = 0;
};

/// Everything that a drawing shows.
struct Section {
    std::string title;
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    /// Work is drawn as done that nobody has done yet.
    bool planned = false;
    /// Entries of the job's record that came after the state that is drawn.
    std::size_t later_entries = 0;
    std::vector<PartShape> parts;
    std::vector<ShimsDrawn> shims;
    std::vector<KeyDrawn> keys;
    std::vector<LeadInDrawn> lead_ins;
    std::vector<BearingEnd> bearings;
    std::vector<Foul> fouls;
    std::vector<Removal> removals;
    std::vector<SectionDimension> dimensions;
    /// Of work that is drawn as done: see mark_finishes().
    std::vector<DatumFace> datums;
    std::vector<FinishDrawn> finishes;
    /// Checks that there is no room for: those that hold most easily.
    std::size_t checks_left_out = 0;
    /// Extent of all metal, drawn and in place.
    double z_min = 0.0;
    double z_max = 0.0;
    double r_max = 0.0;
    /// What `check` says of the job.
    stack::CheckAnswer check;
};

/// The section of a job as it stands. Parts go on in file order; each rests on its seat or on the
/// first thing that it meets, and takes along what sits on it. Complaints as stack::check, and one
/// where the job has nothing to draw.
[[nodiscard]] std::variant<Section, job::Complaints> section(const job::Job& job,
                                                             const stack::Options& options);

/// The same of a model and what `check` says of it, for a job whose model is made otherwise (after
/// a plan's work).
[[nodiscard]] std::variant<Section, job::Complaints> section(const stack::Model& model,
                                                             const stack::Options& options,
                                                             stack::CheckAnswer check);

/// Puts into `before`, the section of the model's job, the metal that `changes` take off by cuts
/// and skims.
void mark_removals(const stack::Model& model, const stack::Changes& changes, Section& before);

/// Puts into `after`, the section of the model's job, the sizes that `changes` gave it, each with
/// the datum that it is measured from. What is cut by amount alone has no finish size. section()
/// does so for work that is planned.
void mark_finishes(const stack::Model& model, const stack::Changes& changes, Section& after);

/// How far outboard of where it should sit each part comes to rest.
[[nodiscard]] std::vector<double> rests(const job::Job& job,
                                        const std::vector<stack::Clearance>& pairs);

/// A diameter to be lettered, in the file's unit: its extension line begins at `edge`.
struct LetteredDiameter {
    std::string letter;
    Point edge;
};

/// One picture: the section of some parts, each where it should sit.
struct Lettered {
    std::string part;  ///< empty: all parts together
    /// Its dimensions are those with a letter, in the order of `letters`; nothing else is told.
    Section section;
    std::vector<std::string> letters;
    std::vector<LetteredDiameter> diameters;  ///< the smallest first
};

/// A page that a section is drawn on, mm.
struct PageSize {
    double width = 297.0;
    double height = 210.0;
    /// With a margin for a printer, a title and a foot; without, the views alone, and as high as
    /// they need (up to `height`).
    bool framed = true;
};

/// Why a drawing at the scale asked for does not go on the page: what it takes, mm.
struct TooLarge {
    double width = 0.0;
    double height = 0.0;
};

}  // namespace trialfit::draw
