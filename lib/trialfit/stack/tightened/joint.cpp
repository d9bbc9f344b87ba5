// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/model/cone_seat.hpp>
#include <trialfit/stack/tightened/joint.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/fastening/torque.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

// Half of the diameter that a ring's bore may stand off the cone and still be round it: a boss is
// drawn with one bore, the cone has two diameters.
constexpr double kBoreOverCone = 1.25;

class JointBuilder {
public:
    JointBuilder(const Model& model, const Members& who)
        : model_(model), job_(model.job()), mm_(quantity::mm_per(job_.units)) {
        joint_.who = who;
    }

    std::variant<Joint, job::Complaints> run() {
        cone();
        if (complaints_.empty()) threads();
        if (!complaints_.empty()) return complaints_;
        bodies();
        nut_face();
        return std::move(joint_);
    }

private:
    [[nodiscard]] const job::Part& part(job::PartId index) const {
        return job_.parts.at(index.at());
    }
    [[nodiscard]] const job::Part& hub() const { return part(joint_.who.hub); }
    [[nodiscard]] const job::Part& shaft() const { return part(joint_.who.shaft); }
    [[nodiscard]] const job::Cone& hub_cone() const {
        return hub().cones.at(joint_.who.seat->own_cone.at());
    }
    [[nodiscard]] const job::Cone& shaft_cone() const {
        return shaft().cones.at(joint_.who.seat->on_cone.index.at());
    }

    // From the shaft's gauge plane, mm.
    [[nodiscard]] Bounds from_gauge(const Station& station) const {
        const job::FaceRef gauge{joint_.who.shaft, shaft_cone().at_face};
        Bounds at = bounds(model_, model_.gap({.face = gauge}, station), 1.0);
        at.middle *= mm_;
        at.worst = {.lo = at.worst.lo * mm_, .hi = at.worst.hi * mm_};
        return at;
    }

    // The middle of from_gauge(), without its bounds; infinite where it is open.
    [[nodiscard]] double middle_from_gauge(const Station& station) const {
        const job::FaceRef gauge{joint_.who.shaft, shaft_cone().at_face};
        const Form along = model_.gap({.face = gauge}, station);
        if (model_.unmeasured().open(along)) return std::numeric_limits<double>::infinity();
        return value(model_.ties().adjusted(along), model_.columns().middle) * mm_;
    }

    void complain(job::Place at, std::string fault, std::string mend,
                  job::Remedy remedy = job::Remedy::none) {
        complaints_.push_back(
            {.at = at, .fault = std::move(fault), .mend = std::move(mend), .remedy = remedy});
    }

    void cone() {
        const job::Cone& on = shaft_cone();
        if (on.taper < 0.0)
            return complain(
                on.at,
                fmt::format("'{}.{}' narrows inboard, so no nut outboard of it draws a hub home",
                            shaft().name, on.name),
                "mend the sign of its taper");
        const auto shape = [](const job::Cone& cone) {
            return ConeShape{.dia = cone.dia.size.nominal,
                             .taper = cone.taper,
                             .length = cone.length.size.nominal};
        };
        joint_.taper = on.taper;
        const Bearing bearing = seat_on_cone(shape(on), shape(hub_cone())).bearing;
        joint_.even = bearing == Bearing::whole;
        joint_.at_small_end =
            bearing == Bearing::hub_small_end || bearing == Bearing::shaft_small_end;
        const Bounds gauge = from_gauge({.face = {joint_.who.hub, hub_cone().at_face}});
        const auto metal = hub_metal();
        const HubPlace hub_at{.gauge = gauge.middle, .metal = metal};
        // What stands on a size that nobody has measured is no number.
        if (gauge.open() || on.dia.size.is_unmeasured() || hub_cone().dia.size.is_unmeasured() ||
            (metal && !(std::isfinite(metal->lo) && std::isfinite(metal->hi))) || unsure_metal()) {
            const double open = std::numeric_limits<double>::quiet_NaN();
            joint_.contact = {.length = open, .mean_dia = open};
            joint_.contacts = {joint_.contact};
            return;
        }
        joint_.contact = contact(gauge.middle, on.length.size.middle(),
                                 hub_cone().length.size.middle(), on.dia.size.middle(), hub_at);
        for (const double of_shaft : ends(on.length))
            for (const double of_hub : ends(hub_cone().length))
                for (const double z : turning_places(gauge.worst, of_shaft, of_hub, hub_at))
                    for (const double dia : ends(on.dia))
                        joint_.contacts.push_back(contact(z, of_shaft, of_hub, dia, hub_at));
        const auto least = std::ranges::min_element(joint_.contacts, {}, &Contact::length);
        if (least->length > 0.0 && joint_.contact.length > 0.0) return;
        complain(joint_.who.seat->at,
                 fmt::format("'{}' and '{}' do not reach each other's cones in the worst case",
                             hub().name, shaft().name),
                 {}, job::Remedy::see_position);
    }

    [[nodiscard]] static std::array<double, 2> ends(const job::Given& given) {
        return {given.size.lower, given.size.upper};
    }

    // The hub at the middles of all sizes, from the shaft's gauge plane: its own gauge plane, and
    // where its metal round the cone begins and ends. mm.
    struct HubPlace {
        double gauge = 0.0;
        std::optional<Range> metal;
    };

    // What of the hub can bear, from its gauge plane outboard: its cone, as far as metal is round
    // it. mm.
    [[nodiscard]] Range bearing_part(double of_hub, const HubPlace& hub_at) const {
        Range part{.lo = 0.0, .hi = of_hub * mm_};
        if (!hub_at.metal) return part;
        return {.lo = std::max(part.lo, hub_at.metal->lo - hub_at.gauge),
                .hi = std::min(part.hi, hub_at.metal->hi - hub_at.gauge)};
    }

    // Where the contact is longest or shortest as the hub's gauge plane goes from one end of `z` to
    // the other: at the ends, and between them where ends of hub and shaft are level.
    [[nodiscard]] std::vector<double> turning_places(const Range& z, double of_shaft, double of_hub,
                                                     const HubPlace& hub_at) const {
        const Range hub = bearing_part(of_hub, hub_at);
        std::vector<double> places{z.lo, z.hi};
        for (const double level : {-hub.lo, of_shaft * mm_ - hub.hi})
            if (z.lo < level && level < z.hi) places.push_back(level);
        return places;
    }

    // The lengths of both cones in common; the hub's gauge plane lies z mm outboard of the shaft's.
    // Lengths and diameter in the file's unit.
    [[nodiscard]] Contact contact(double z, double of_shaft, double of_hub, double dia,
                                  const HubPlace& hub_at) const {
        const Range hub = bearing_part(of_hub, hub_at);
        const double from = std::max(0.0, z + hub.lo);
        const double to = std::min(of_shaft * mm_, z + hub.hi);
        const double where = joint_.even ? (from + to) / 2.0 : to;
        return {.length = to - from, .mean_dia = dia * mm_ - joint_.taper * where};
    }

    [[nodiscard]] double hub_gauge_middle() const {
        return middle_from_gauge({.face = {joint_.who.hub, hub_cone().at_face}});
    }

    [[nodiscard]] static Station station(job::PartId part, const job::RingEnd& end) {
        return {.face = {part, end.face}, .beyond = end.beyond};
    }

    // Rings of the hub that may be round the cone.
    [[nodiscard]] bool round_cone(const job::Ring& ring) const {
        const double widest = std::max(shaft_cone().dia.size.upper, hub_cone().dia.size.upper);
        return ring.bore.size.lower <= widest * kBoreOverCone &&
               ring.outside.size.nominal > hub_cone().dia.size.nominal;
    }

    // Whether a ring that nobody has measured may lie round the cone, or be the shaft's bore.
    [[nodiscard]] bool unsure_metal() const {
        const auto open = [](const job::Ring& ring) { return ring.bore.size.is_unmeasured(); };
        const double widest = hub_cone().dia.size.upper * kBoreOverCone;
        return std::ranges::any_of(shaft().rings, open) ||
               std::ranges::any_of(hub().rings, [&](const job::Ring& ring) {
                   return open(ring) || (!ring.measured() && ring.bore.size.lower <= widest);
               });
    }

    // Where they begin and end; nothing where there are none.
    [[nodiscard]] std::optional<Range> hub_metal() const {
        std::optional<Range> metal;
        for (const job::Ring& ring : hub().rings) {
            if (!round_cone(ring)) continue;
            const double from = middle_from_gauge(station(joint_.who.hub, ring.inboard));
            const double to = middle_from_gauge(station(joint_.who.hub, ring.outboard));
            if (!std::isfinite(from) || !std::isfinite(to)) return Range{from, to};
            metal =
                metal ? Range{std::min(metal->lo, from), std::max(metal->hi, to)} : Range{from, to};
        }
        return metal;
    }

    void threads() {
        const job::EngagementOf engagement{.one = joint_.who.threads.nut,
                                           .other = joint_.who.threads.bolt};
        joint_.form = job::at(job_, joint_.who.threads.bolt).form;
        const auto areas = strip_areas(job_, joint_.who.threads);
        if (!areas) return complain(job::at(job_, joint_.who.threads.bolt).at, areas.reason(), "");
        joint_.strip_areas = *areas;
        const auto strength = pair_strength(job_, joint_.who.threads);
        if (const auto* known = std::get_if<PairStrength>(&strength)) joint_.strength = *known;
        if (const auto* unknown = std::get_if<ThreadStrengthNotKnown>(&strength))
            joint_.strength_unknown = *unknown;
        joint_.bolt_yield = thread_metal(job_, joint_.who.threads.bolt, false).yield_mpa;
        const job::Thread& nut = job::at(job_, joint_.who.threads.nut);
        if (const auto load = trade::nut_proof_load_N(nut.form, nut.property_class))
            joint_.nut_proof_load =
                Figure{*load, fmt::format("ISO 898-2, class {} of line {}", nut.property_class,
                                          nut.property_class_at.line)};
        job::Check check;
        check.of = engagement;
        joint_.engaged = in_mm(value_of(model_, question(model_, check), 1.0));
        joint_.thread_left = in_mm(thread_left());
        if (joint_.engaged.greatest > 0.0) return;
        complain(job::at(job_, joint_.who.own).at,
                 fmt::format("'{}' does not reach any whole thread of '{}'",
                             job::thread_name(job_, joint_.who.own),
                             job::thread_name(job_, joint_.who.shafts)),
                 {}, job::Remedy::see_engagement);
    }

    [[nodiscard]] Estimate in_mm(const Bounds& value) const {
        return {.least = value.worst.lo * mm_,
                .middle = value.middle * mm_,
                .greatest = value.worst.hi * mm_};
    }

    // The inboard end of a thread, and the thread that is not whole there.
    struct Inboard {
        job::FaceRef face;
        const job::Given* incomplete = nullptr;
    };
    [[nodiscard]] Inboard inboard(job::ThreadRef ref) const {
        const job::Thread& thread = job::at(job_, ref);
        const job::FaceRef from{ref.part, thread.from};
        const job::FaceRef to{ref.part, thread.to};
        const Form along = model_.gap({.face = from}, {.face = to});
        const bool outwards = bounds(model_, along, 1.0).nominal >= 0.0;
        return outwards ? Inboard{from, &thread.run_out} : Inboard{to, &thread.lead_in};
    }

    // From the last whole thread inboard on the shaft to the nut's inboard end: how far the nut may
    // still advance. Same for a bolt's tip and the bottom of its thread.
    [[nodiscard]] Bounds thread_left() const {
        const Inboard on_shaft = inboard(joint_.who.shafts);
        const Inboard on_nut = inboard(joint_.who.own);
        Bounds left =
            bounds(model_, model_.gap({.face = on_shaft.face}, {.face = on_nut.face}), 1.0);
        const quantity::Size& less = on_shaft.incomplete->size;
        left.middle -= less.middle();
        left.worst.lo -= less.upper;
        left.worst.hi -= less.lower;
        return left;
    }

    void bodies() {
        const Metal of_shaft = metal(job_, joint_.who.shaft);
        const Metal of_hub = metal(job_, joint_.who.hub);
        joint_.shaft_elastic = of_shaft.elastic();
        joint_.hub_elastic = of_hub.elastic();
        joint_.hub_yield = of_hub.yield_mpa;
        const double gauge = hub_gauge_middle();
        const double from = std::max(0.0, gauge);
        const double to = from + joint_.contact.length;
        double least = std::numeric_limits<double>::infinity();
        for (const job::Ring& ring : hub().rings) {
            if (!round_cone(ring) || !reaches(joint_.who.hub, ring, from, to)) continue;
            if (ring.outside.size.lower >= least) continue;
            least = ring.outside.size.lower;
            joint_.hub_od_ring = hub().name + "." + ring.name;
        }
        if (std::isfinite(least)) joint_.hub_od = least * mm_;
        for (const job::Ring& ring : shaft().rings) {
            const double bore = ring.bore.size.upper * mm_;
            if (bore < joint_.contact.mean_dia && reaches(joint_.who.shaft, ring, from, to))
                joint_.shaft_bore = std::max(joint_.shaft_bore, bore);
        }
        // A hub no thicker than its cone is a drawing that cannot be meant.
        double widest = 0.0;
        for (const Contact& each : joint_.contacts)
            widest = std::max(widest, each.mean_dia);
        if (joint_.hub_od <= widest) joint_.hub_od = 0.0;
    }

    [[nodiscard]] bool reaches(int of, const job::Ring& ring, double from, double to) const {
        // A ring of unknown length may reach as far as it likes.
        return !(middle_from_gauge(station(of, ring.inboard)) >= to) &&
               !(middle_from_gauge(station(of, ring.outboard)) <= from);
    }

    // A ring of the part that ends at the face, and whether at its inboard or its outboard end.
    [[nodiscard]] const job::Ring* ring_at(job::FaceRef face, bool inboard_end) const {
        for (const job::Ring& ring : part(face.part).rings) {
            const job::RingEnd& end = inboard_end ? ring.inboard : ring.outboard;
            if (end.face == face.face && end.beyond == 0.0) return &ring;
        }
        return nullptr;
    }

    void face_open() {
        const double open = std::numeric_limits<double>::quiet_NaN();
        joint_.face_mean = {open, open, open};
        joint_.face_source = "not measured";
    }

    // What a hexagon bears on is narrower than the ring that it is drawn as, by how much depends on
    // its make: both are taken, as a range.
    void nut_face() {
        const double d = joint_.form.d_mm;
        const auto standard = trade::hexagon_face(d);
        double bore = d;
        std::optional<double> outside;
        for (const job::Seat& seat : part(joint_.who.nut).seats) {
            if (seat.kind != job::SeatKind::face_on_face) continue;
            const job::Ring* const over = ring_at({joint_.who.nut, seat.own}, true);
            const job::Ring* const under = ring_at(seat.against, false);
            for (const job::Ring* ring : {over, under}) {
                if (ring == nullptr) continue;
                if (!ring->measured()) return face_open();
                bore = std::max(bore, ring->bore.size.nominal * mm_);
                const double od = ring->outside.size.nominal * mm_;
                outside = outside ? std::min(*outside, od) : od;
            }
        }
        double least = outside.value_or(standard ? standard->outside_mm : 1.5 * d);
        const double greatest = std::max(least, outside.value_or(least));
        joint_.face_source = outside    ? "the rings at the nut's face"
                             : standard ? "ISO 4014 face, ISO 273 hole"
                                        : "assumed: 1.5 d over d, common practice, no source";
        if (outside && standard && standard->outside_mm < least && standard->outside_mm > bore) {
            least = standard->outside_mm;
            joint_.face_source += "; its least as ISO 4014 has it";
        }
        if (least <= bore) bore = std::min(bore, d);
        joint_.face_mean = {.least = (least + bore) / 2.0,
                            .middle = (least + greatest + 2.0 * bore) / 4.0,
                            .greatest = (greatest + bore) / 2.0};
    }

    const Model& model_;
    const job::Job& job_;
    double mm_;
    Joint joint_;
    job::Complaints complaints_;
};

}  // namespace

std::variant<Joint, job::Complaints> joint_of(const Model& model) {
    const auto who = members_of(model.job());
    if (const auto* complaints = std::get_if<job::Complaints>(&who)) return *complaints;
    return JointBuilder(model, std::get<Members>(who)).run();
}

}  // namespace trialfit::stack
