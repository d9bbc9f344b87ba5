// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/study/expected.hpp>
#include <vector>

namespace trialfit::study {
struct Building;
}

namespace trialfit {

/// Makes a job in memory by names. A part is "plate"; its faces, rings, cones and threads are
/// "plate.front"; beside another name of the same part, "back" will do for "plate.back". A name may
/// be used before it is given. Sizes are in the words of the format ("10 +-0.05", "25 h7",
/// "12.48 by caliper"), in the job's unit unless they say another; + is outboard. Parts go on in
/// the order in which they are named, inside out.
///
/// Nothing is judged before build(). What a job may hold beyond this (timing, record, feelers,
/// states, materials, skims, laps) is put into the job that it gives.
class JobBuilder {
public:
    explicit JobBuilder(std::string title, quantity::Unit units = quantity::Unit::mm);

    /// Least gap between a turning and a still part, >= 0.
    JobBuilder& running_clearance(double clearance);
    /// ISO 2768-1 class of sizes written bare: 'f', 'm', 'c' or 'v'.
    JobBuilder& general_tolerance(char of);
    /// What one shim costs in a plan, >= 0.
    JobBuilder& shim_cost(double cost);
    /// A gauge and the half-width that a reading by it is good to, >= 0.
    JobBuilder& gauge(std::string name, double half_width);

    struct PartOptions {
        bool turns = false;
        std::string material{};
    };
    JobBuilder& part(std::string name);
    JobBuilder& part(std::string name, PartOptions options);

    /// The face that its part's other faces are measured from.
    JobBuilder& zero(std::string face);
    /// How far outboard of `from` a face lies. Given again, it is dimensioned twice.
    JobBuilder& face(const std::string& face, std::string size, std::string from);

    /// A solid ring from a face `to` another, or a length (> 0) `below` (inboard) or `above` it.
    struct RingOptions {
        std::string from;
        std::string to{};
        double below = 0.0;
        double above = 0.0;
        std::string bore = "0";
        std::string od;
    };
    JobBuilder& ring(const std::string& ring, RingOptions of);

    /// A cone of diameter `dia` at the face `at`; taper as "1 in 5"; length outboard of the face.
    struct ConeOptions {
        std::string at;
        std::string dia;
        std::string taper;
        std::string length;
    };
    JobBuilder& cone(const std::string& cone, ConeOptions of);

    /// A thread between two faces; incomplete over `lead_in` near `to`, over `run_out` near `from`.
    struct ThreadOptions {
        std::string form;  ///< "M10x1.25-6g"
        std::string from;
        std::string to;
        std::string lead_in = "0";
        std::string run_out = "0";
        std::string property_class{};  ///< "8.8"
    };
    JobBuilder& thread(const std::string& thread, ThreadOptions of);

    /// How a part is held by a face: home on another part's face or, with `offset`, that far
    /// outboard of it; with play, as job::Seat::play.
    struct SeatOptions {
        std::string offset{};
        std::string play{};
        /// Thicknesses that may lie between the two faces, how many of them, and those that do.
        std::vector<std::string> shim_stock{};
        int shims_at_most = 3;
        std::vector<std::string> shims_fitted{};
        double shims_hold = 0.0;  ///< half-width of a shim without limits of its own, >= 0
    };
    JobBuilder& sits(std::string face, std::string against);
    JobBuilder& sits(std::string face, std::string against, SeatOptions how);
    /// A hub on a shaft's cone.
    JobBuilder& sits_on_cone(std::string cone, std::string against);

    /// A face that may be turned back. `keep` > 0 must remain from `measure`; the lathe `holds`
    /// +-that; costs as job::Cut.
    struct CutOptions {
        std::string measure;
        double keep = 0.0;
        double holds = 0.0;
        double cost = job::Cut{}.cost;
        double cost_per_mm = job::Cut{}.cost_per_mm;
        std::string note{};
        std::string read_by{};  ///< a gauge
    };
    JobBuilder& cut(std::string face, CutOptions how);

    /// Limits of a check: a length ("0.5"); of an overlap also "75 %"; of an engagement also
    /// "0.8 d", "6 pitches" and, at least, "strength". At least one of the first two.
    struct Limits {
        std::string at_least{};
        std::string at_most{};
        std::string aim{};
    };
    /// The axial gap from an inboard face to an outboard one.
    JobBuilder& gap(std::string check, std::string inboard, std::string outboard, Limits limits);
    /// The engagement of two threads.
    JobBuilder& engagement(std::string check, std::string one, std::string other, Limits limits);
    /// How much of the ring `of` the ring `by` spans.
    JobBuilder& overlap(std::string check, std::string of, std::string by, Limits limits);
    /// The radial gap between two rings, one nested in the other; it has no aim.
    JobBuilder& air_gap(std::string check, std::string one, std::string other, Limits limits);
    /// A trial-fit reading: `to` minus `from` with these parts fitted, all of them where empty.
    JobBuilder& reading(std::string reading, std::string from, std::string to, std::string is,
                        std::vector<std::string> fitted = {});

    /// The job, which Study::of takes. Or every fault in the order in which things were named, then
    /// those of job::validate; none has a place.
    [[nodiscard]] Expected<job::Job> build() const;

private:
    using Step = std::function<void(study::Building&)>;

    JobBuilder& then(Step step);

    job::Job job_;
    std::vector<Step> naming_;      ///< what gives a name
    std::vector<Step> describing_;  ///< what uses names
};

}  // namespace trialfit
