// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/check.hpp>
#include <trialfit/job/feelers.hpp>
#include <trialfit/job/part.hpp>
#include <trialfit/job/service.hpp>
#include <trialfit/job/size_id.hpp>
#include <trialfit/job/spin.hpp>
#include <trialfit/quantity/units.hpp>
#include <vector>

namespace trialfit::job {

/// What a gauge can read: between two faces of one part; that, and along the axis from part to part
/// (a depth rod); a diameter; a radial gap.
enum class GaugeReads { length, depth, diameter, gap };

/// A gauge and the half-width a reading by it is good to, in the file's unit.
struct Gauge {
    std::string name;
    Place at;
    double half_width = 0.0;
    /// What the file says that it reads; where it says nothing, it reads what the file used it for.
    std::vector<GaugeReads> reads{};
};

/// A piece of planned work, in the words of the file: "plate.front", "5.53 ±0.03".
struct PlannedWork {
    enum class Kind { cut, taken_off, skim, lap, centring, shims };
    Kind kind = Kind::cut;
    std::string what;
    std::string to;  ///< shims: "0.5 + 0.3", empty for none; a lap: what comes off
};

/// One file: an assembly, what is asked of it, what may be changed. All lengths in `units`.
struct Job {
    /// The name the file was read under, for messages.
    std::string file;
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    /// Least gap between a turning and a still part; nothing where the job does not say.
    std::optional<double> running_clearance;
    /// The same for radial gaps, where the job gives it; running_clearance holds for them
    /// otherwise.
    std::optional<double> radial_clearance;
    /// ISO 2768-1 class for sizes written bare: 'f', 'm', 'c', 'v', or 0 where none is stated.
    char general_tolerance = 0;
    double shim_cost = 0.1;
    /// Of a kit on offer, in the buyer's money.
    std::optional<double> price;
    /// The index into `parts` before which a kit's parts are joined in; nothing where the file has
    /// no such place.
    std::optional<std::size_t> kit_here;
    std::vector<Gauge> gauges;
    /// In the order in which they go on, inside out.
    std::vector<Part> parts;
    std::vector<Check> checks;
    /// Those of its checks that are on a radial gap.
    std::vector<AirGap> air_gaps;
    std::vector<Reading> readings;
    std::vector<Feelers> feelers;
    std::vector<OwnMaterial> materials;
    std::vector<State> states;
    std::optional<SeatService> seat;
    std::optional<Timing> timing;
    std::optional<Spin> spin;
    std::vector<RecordEntry> record;
    /// How many of the record's entries are in force: 0 as the file is read, see
    /// stack::as_built().
    std::size_t in_force = 0;
    /// The job as it was before the last entry in force; null where none is.
    std::shared_ptr<const Job> before;
    /// What became of the sizes of `before`, see stack::carried_out().
    SizesCarried carried;
    /// Work that this job takes as done and that nobody has done yet, see stack::as_built(). The
    /// parts as they are then lie in `before`.
    std::vector<PlannedWork> planned;
    /// What is only supposed of it, in words: "plate.front 5.46", see study::suppose().
    std::vector<std::string> supposed;
};

/// What a reference points at, which the job must have.
[[nodiscard]] const Face& at(const Job& job, FaceRef face);
[[nodiscard]] const Ring& at(const Job& job, RingRef ring);
[[nodiscard]] const Cone& at(const Job& job, ConeRef cone);
[[nodiscard]] const Thread& at(const Job& job, ThreadRef thread);

/// "part.face", as the job file writes it.
[[nodiscard]] std::string name(const Job& job, FaceRef face);
[[nodiscard]] std::string ring_name(const Job& job, RingRef ring);
/// The face of that name; nothing where there is none.
[[nodiscard]] std::optional<FaceRef> face_named(const Job& job, std::string_view face);
/// The ring of that name ("plate.disc"), of the whole job or of one part (an index into
/// Job::parts); nothing where there is none.
[[nodiscard]] std::optional<RingRef> ring_named(const Job& job, std::string_view name);
[[nodiscard]] std::optional<RingRef> ring_named(const Job& job, PartId part, std::string_view name);
[[nodiscard]] std::string thread_name(const Job& job, ThreadRef thread);
[[nodiscard]] std::string cone_name(const Job& job, ConeRef cone);
/// "plate.front", or "cover.inside +3" for an end that lies beyond its face.
[[nodiscard]] std::string name(const Job& job, PartId part, RingEnd end);

}  // namespace trialfit::job
