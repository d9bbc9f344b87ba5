// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/index.hpp>
#include <trialfit/quantity/size.hpp>
#include <trialfit/trade/thread/thread.hpp>
#include <vector>

// The plain data of a part. Lengths are in the file's unit; + is outboard, away from the crankcase.
// References are resolved by the reader: an index into Job::parts and into that part's list.
namespace trialfit::job {

/// A size as the file gives it: the numbers, the words they were written in, and where.
struct Given {
    quantity::Size size;
    std::string written;
    Place at;
    /// The gauge that read it.
    std::optional<GaugeId> gauge{};
};

/// A face of some part.
struct FaceRef {
    PartId part;
    FaceId face;

    [[nodiscard]] bool operator==(const FaceRef&) const = default;
    [[nodiscard]] auto operator<=>(const FaceRef&) const = default;
};

/// A ring, cone or thread of some part.
template <typename Feature>
struct FeatureRef {
    PartId part;
    Index<Feature> index;

    [[nodiscard]] bool operator==(const FeatureRef&) const = default;
    [[nodiscard]] auto operator<=>(const FeatureRef&) const = default;
};
using RingRef = FeatureRef<Ring>;
using ConeRef = FeatureRef<Cone>;
using ThreadRef = FeatureRef<Thread>;

/// How far outboard a face lies from another face of the same part.
struct Dimension {
    Given distance;
    FaceId from;
};

/// A named axial position on a part. One face of a part is its zero; each other has at least one
/// dimension, and more than one where the part is dimensioned more than once.
struct Face {
    std::string name;
    Place at;
    bool zero = false;
    std::vector<Dimension> dimensions;
};

/// An end of a ring: a face, or `beyond` (signed, without spread) outboard of it.
struct RingEnd {
    FaceId face;
    double beyond = 0.0;
};

/// A solid ring between two faces, `inboard` nominally inboard of `outboard`.
struct Ring {
    std::string name;
    Place at;
    RingEnd inboard;
    RingEnd outboard;
    Given bore;
    Given outside;
    /// Written as a plain number: fine for drawing, too little where a radial gap hangs on it.
    bool bore_bare = false;
    bool outside_bare = false;

    /// Whether both diameters were measured.
    [[nodiscard]] bool measured() const {
        return !bore.size.is_unmeasured() && !outside.size.is_unmeasured();
    }
    /// Of two rings of which one lies within the other, whether this is the outer one: by their
    /// bores, or by their outsides where a bore is unmeasured.
    [[nodiscard]] bool lies_round(const Ring& other) const {
        const bool bores = !bore.size.is_unmeasured() && !other.bore.size.is_unmeasured();
        return bores ? bore.size.nominal > other.bore.size.nominal
                     : outside.size.nominal > other.outside.size.nominal;
    }
};

/// A cone: diameter `dia` at the face `at_face`, its gauge plane.
struct Cone {
    std::string name;
    Place at;
    FaceId at_face;
    Given dia;
    /// Diameter lost per length going outboard; 1:5 is 0.2. Negative where the cone narrows
    /// inboard. Never 0.
    double taper = 0.0;
    std::string taper_written;
    /// Length of the cone outboard of its gauge plane.
    Given length;
};

/// A thread between two faces. The thread near `to` is incomplete over `lead_in`, near `from` over
/// `run_out`; incomplete thread does not count as engagement. `from` may lie outboard of `to`.
struct Thread {
    std::string name;
    Place at;
    trade::ThreadForm form;
    FaceId from;
    FaceId to;
    Given lead_in;
    Given run_out;
    /// Property class of the bolt or the nut as written, "8.8"; empty where the job gives none.
    std::string property_class;
    Place property_class_at;
};

/// A thickness that shims are sold or found in; `pieces` where the job says how many there are.
struct ShimStock {
    Given thickness;
    std::optional<int> pieces;
};

/// How the thickness that a seat's shims ought to have is brought to one that is sold.
enum class RoundingWay { down, up, nearest, last_digit };

struct Rounding {
    RoundingWay way = RoundingWay::down;
    double step = 0.0;  ///< > 0; for last_digit, what the last digit counts
    Place at;
};

/// What may lie, and what lies, between a seat's two faces.
struct Shims {
    std::vector<ShimStock> stock;
    int at_most = 0;
    bool at_most_said = true;  ///< by the file, and not a usual number
    std::vector<Given> fitted;
    /// Half-width of a shim that states no limits of its own.
    double holds = 0.0;
    std::optional<Rounding> round;
    Place at;
};

/// A key in its slots. Height beyond the room that the slots leave holds the hub off its cone where
/// the slot floors follow the cone, and not at all where they are parallel to the axis.
struct Key {
    Given height;
    Given room;
    bool floors_follow_cone = true;
    Place at;
};

/// Which way a part that floats was held while something was measured: in (towards the crankcase)
/// or out.
enum class Pushed { not_stated, in, out };

enum class SeatKind { face_on_face, cone_on_cone, face_at_offset };

/// One way in which a part is held. A part with two seats is over-determined; they are reconciled.
struct Seat {
    SeatKind kind = SeatKind::face_on_face;
    Place at;
    /// The part's own face and the face sat against: face_on_face and face_at_offset alone.
    FaceId own;
    FaceRef against;
    /// The part's own cone and the cone sat on: cone_on_cone alone.
    ConeId own_cone;
    ConeRef on_cone;
    /// face_at_offset: how far outboard of `against` the own face lies.
    std::optional<Given> offset;
    /// The part floats by this much in all: least and greatest play, >= 0. Face on face it moves
    /// one way, outboard from the contact; at an offset to both sides of it, unless `pushed` says
    /// where in its play the part was when the offset was measured.
    std::optional<Given> play;
    /// Stated only where there are an offset and a play.
    Pushed pushed = Pushed::not_stated;
    std::optional<Shims> shims;
    std::optional<Key> key;

    /// The part sat on, whichever way.
    [[nodiscard]] PartId below() const {
        return kind == SeatKind::cone_on_cone ? on_cone.part : against.part;
    }
};

/// A face that may be turned back, measured from the face `measure` of the same part.
struct Cut {
    Place at;
    FaceId face;
    FaceId measure;
    /// Length that must remain between the two faces, > 0.
    double keep = 0.0;
    /// Half-width that the lathe holds, >= 0.
    double holds = 0.0;
    double cost = 1.0;
    double cost_per_mm = 0.1;
    std::string note;
    /// The gauge that will read it, where the job says so.
    std::optional<GaugeId> read_by{};
};

/// A cone that may be lapped: up to `at_most` off the diameters, both parts together.
struct Lap {
    Place at;
    ConeId cone;
    double at_most_on_diameter = 0.0;
    double cost = 1.0;
    std::string note;
};

/// A ring's bore or outside that may be skimmed: given more room by turning its diameter.
struct Skim {
    Place at;
    RingId ring;
    bool bore = false;
    /// Wall that must remain, > 0; 0 where the job gives none.
    double keep = 0.0;
    /// Diameter that must not be passed: least for an outside, greatest for a bore.
    std::optional<double> until;
    /// Half-width on diameter that the lathe holds, >= 0.
    double holds = 0.0;
    double cost = 1.0;
    double cost_per_mm = 0.1;  ///< of diameter
    std::string note;
    std::optional<GaugeId> read_by{};  ///< as a cut's
};

/// What brings a part's axis near another part's. `bearing` and `bolts`: it is centred on a part as
/// a whole; `reg` (a register, a spigot in its bore): on a ring; `cone`: on a cone.
enum class CentredBy { reg, cone, bearing, bolts };

struct Centring {
    Place at;
    CentredBy by = CentredBy::reg;
    PartId on;
    /// As the file names it: "case.spigot".
    std::string on_written;
    /// On diameter, >= 0; 0 for a cone.
    Given clearance;
    /// The part may be centred by hand within that clearance until no more than this is left of it,
    /// on diameter.
    std::optional<double> centre_to;
    double centre_cost = 0.5;
};

/// How far a part runs out: total indicator reading >= 0, at the height of `face`, or all along.
struct Runout {
    Place at;
    Given is;
    std::optional<FaceId> face{};
};

/// How far a face runs out along the axis, total indicator reading on the diameter `dia`: the part
/// is cocked by is/dia.
struct FaceRunout {
    Place at;
    Given is;
    double dia = 0.0;
};

/// A solid that moves as one along the axis.
struct Part {
    std::string name;
    Place at;
    bool turns = false;
    std::string material;
    std::vector<Face> faces;
    std::vector<Ring> rings;
    std::vector<Cone> cones;
    std::vector<Thread> threads;
    /// None for the part that all else stands on; more than one where the seats are redundant.
    std::vector<Seat> seats;
    std::vector<Cut> cuts;
    std::vector<Lap> laps;
    std::vector<Skim> skims;
    std::optional<Centring> centred;
    /// None, one, or two at different heights.
    std::vector<Runout> runout;
    std::optional<FaceRunout> face_runout;
    /// Of the file that the part is written in, where that is not the job's (0 for none).
    std::optional<char> general_tolerance;
};

}  // namespace trialfit::job
