// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <trialfit/job/validity/references.hpp>
#include <trialfit/job/validity/spin.hpp>
#include <trialfit/job/validity/validate.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::job {

namespace {

constexpr std::string_view kIndexMend = "give it the index of one that the job has";
constexpr std::string_view kFigureMend = "give it a finite figure";

bool holds(int index, std::size_t count) {
    return index >= 0 && static_cast<std::size_t>(index) < count;
}

std::string in_quotes(std::string_view name) {
    return "'" + std::string(name) + "'";
}

// What every validator of a section has: the job, and where to complain.
class Finder {
public:
    Finder(const Job& job, Complaints& complaints) : job_(job), complaints_(complaints) {}

protected:
    void say(Place at, std::string fault, std::string_view mend) {
        complaints_.push_back({.at = at, .fault = std::move(fault), .mend = std::string(mend)});
    }

    [[nodiscard]] const Part* part(PartId index) const {
        return holds(index, job_.parts.size()) ? &job_.parts[index.at()] : nullptr;
    }

    void index(bool sound, Place at, const std::string& what) {
        if (!sound) say(at, what + " is none that the job has", kIndexMend);
    }

    void face(FaceRef ref, Place at, const std::string& what) {
        const Part* const of = part(ref.part);
        index(of != nullptr && holds(ref.face, of->faces.size()), at, what);
    }

    // A ring, cone or thread: `list` is the part's list of that kind.
    template <typename Feature>
    void feature(FeatureRef<Feature> ref, std::vector<Feature> Part::*list, Place at,
                 const std::string& what) {
        const Part* const of = part(ref.part);
        index(of != nullptr && holds(ref.index, (of->*list).size()), at, what);
    }

    void figure(double value, Place at, const std::string& what) {
        if (!std::isfinite(value)) say(at, what + " is not finite", kFigureMend);
    }

    void at_least_zero(double value, Place at, const std::string& what) {
        if (!std::isfinite(value) || value < 0.0)
            say(at, what + " is less than 0, or not finite", "give it a figure of at least 0");
    }

    void size(const Given& given, const std::string& what, bool may_be_unmeasured = false) {
        const quantity::Size& size = given.size;
        if (may_be_unmeasured && size.is_unmeasured()) return;
        if (!std::isfinite(size.nominal + size.lower) || !std::isfinite(size.upper - size.lower))
            return say(given.at, what + " is not finite", kFigureMend);
        if (size.lower > size.upper)
            return say(given.at, "the limits of " + what + " are the wrong way round", "swap them");
        const quantity::Spread& spread = size.spread;
        if (!(spread.sigmas > 0.0) || !std::isfinite(spread.sigmas) ||
            !(spread.scatter_sd >= 0.0) || !std::isfinite(spread.scatter_sd))
            say(given.at, "the spread of " + what + " is no spread",
                "give it 'sigmas' above 0 and a scatter of at least 0");
        if (given.gauge)
            index(holds(*given.gauge, job_.gauges.size()), given.at, "the gauge of " + what);
    }

    void positive(const Given& given, const std::string& what, bool may_be_unmeasured = false) {
        size(given, what, may_be_unmeasured);
        if (given.size.nominal <= 0.0) say(given.at, what + " is not above 0", "mend it");
    }

    // NOLINTBEGIN(*-non-private-member-variables-in-classes): what both finders work on
    const Job& job_;
    Complaints& complaints_;
    // NOLINTEND(*-non-private-member-variables-in-classes)
};

class PartFinder : Finder {
public:
    PartFinder(const Job& job, PartId index, Complaints& complaints)
        : Finder(job, complaints),
          part_(job.parts[index.at()]),
          who_("part " + in_quotes(part_.name)) {}

    void look() {
        faces();
        for (const Ring& ring : part_.rings)
            look(ring);
        for (const Cone& cone : part_.cones)
            look(cone);
        for (const Thread& thread : part_.threads)
            look(thread);
        for (const Seat& seat : part_.seats)
            look(seat);
        changes();
        centring();
    }

private:
    void own_face(FaceId face, Place at, const std::string& what) {
        index(holds(face, part_.faces.size()), at, what);
    }

    void faces() {
        const auto zeros = std::ranges::count_if(part_.faces, &Face::zero);
        if (zeros != 1)
            say(part_.at, who_ + (zeros == 0 ? " has no zero" : " has more than one zero"),
                "one of its faces is the zero that the others are measured from");
        for (const Face& face : part_.faces)
            for (const Dimension& each : face.dimensions) {
                own_face(each.from, face.at, "the face that " + face.name + " is measured from");
                size(each.distance, "the size of " + part_.name + "." + face.name, true);
            }
    }

    void look(const Ring& ring) {
        const std::string what = "ring " + in_quotes(part_.name + "." + ring.name);
        for (const RingEnd& end : {ring.inboard, ring.outboard}) {
            own_face(end.face, ring.at, "an end of " + what);
            figure(end.beyond, ring.at, "an end of " + what);
        }
        size(ring.bore, "the bore of " + what, true);
        size(ring.outside, "the outside of " + what, true);
        // A skim that is tried may leave nothing of a ring; its 'keep' is what forbids it.
        const bool tried = std::ranges::any_of(part_.skims, [&](const Skim& skim) {
            return holds(skim.ring, part_.rings.size()) && &part_.rings[skim.ring.at()] == &ring;
        });
        if (!tried && ring.bore.size.nominal >= ring.outside.size.nominal)
            say(ring.at, "the bore of " + what + " is not smaller than its outside",
                "were they swapped?");
    }

    void look(const Cone& cone) {
        const std::string what = "cone " + in_quotes(part_.name + "." + cone.name);
        own_face(cone.at_face, cone.at, "the gauge plane of " + what);
        positive(cone.dia, "the diameter of " + what, true);
        positive(cone.length, "the length of " + what);
        if (!std::isfinite(cone.taper) || cone.taper == 0.0)
            say(cone.at, "the taper of " + what + " is 0, or not finite",
                "1:5 is 0.2; a cone that narrows inboard has a negative one");
    }

    void look(const Thread& thread) {
        const std::string what = "thread " + in_quotes(part_.name + "." + thread.name);
        own_face(thread.from, thread.at, "the beginning of " + what);
        own_face(thread.to, thread.at, "the end of " + what);
        size(thread.lead_in, "'lead_in' of " + what);
        size(thread.run_out, "'run_out' of " + what);
        if (!(thread.form.d_mm > 0.0) || !(thread.form.pitch_mm > 0.0) ||
            !std::isfinite(thread.form.d_mm + thread.form.pitch_mm))
            say(thread.at, "the form of " + what + " has no diameter or no pitch",
                "read it by trade::thread(\"M10x1.25-6g\")");
    }

    void look(const Seat& seat) {
        const std::string what = "the seat of " + who_;
        const bool cone = seat.kind == SeatKind::cone_on_cone;
        const Part* const below = part(seat.below());
        index(cone ? holds(seat.own_cone, part_.cones.size()) : holds(seat.own, part_.faces.size()),
              seat.at, "what is seated by " + what);
        index(below != nullptr && (cone ? holds(seat.on_cone.index, below->cones.size())
                                        : holds(seat.against.face, below->faces.size())),
              seat.at, "what is sat against by " + what);
        if ((seat.kind == SeatKind::face_at_offset) != seat.offset.has_value())
            say(seat.at, what + " and its offset do not agree",
                "a seat at an offset has one, and no other has");
        if (seat.offset) size(*seat.offset, "the offset of " + what, true);
        if (seat.play) size(*seat.play, "the play of " + who_, true);
        if (seat.play && !seat.play->size.is_unmeasured())
            at_least_zero(seat.play->size.lower, seat.play->at, "the play of " + who_);
        if (seat.key) {
            size(seat.key->height, "the height of the key of " + who_);
            size(seat.key->room, "the room for the key of " + who_);
        }
        if (seat.shims) shims(*seat.shims);
    }

    void shims(const Shims& shims) {
        const std::string what = "a shim under " + who_;
        // A plan's shims may be stood in for by one of any thickness.
        for (const Given& each : shims.fitted)
            size(each, what);
        for (const ShimStock& each : shims.stock)
            positive(each.thickness, what);
        at_least_zero(shims.holds, shims.at, "'holds' of the shims under " + who_);
        if (shims.at_most < 0)
            say(shims.at, "'at_most' of the shims under " + who_ + " is less than 0", "mend it");
        if (shims.round && !(shims.round->step > 0.0 && std::isfinite(shims.round->step)))
            say(shims.round->at, "the step of the shims under " + who_ + " is not above 0",
                "mend it");
    }

    void cost(double once, double per_mm, Place at) {
        at_least_zero(once, at, "a cost of work on " + who_);
        at_least_zero(per_mm, at, "a cost of work on " + who_);
    }

    void changes() {
        for (const Cut& cut : part_.cuts) {
            own_face(cut.face, cut.at, "the face of a cut of " + who_);
            own_face(cut.measure, cut.at, "the face that a cut of " + who_ + " is measured from");
            at_least_zero(cut.keep, cut.at, "'keep' of a cut of " + who_);
            at_least_zero(cut.holds, cut.at, "'holds' of a cut of " + who_);
            cost(cut.cost, cut.cost_per_mm, cut.at);
        }
        for (const Lap& lap : part_.laps) {
            index(holds(lap.cone, part_.cones.size()), lap.at, "the cone of a lap of " + who_);
            figure(lap.at_most_on_diameter, lap.at, "'at_most' of a lap of " + who_);
            cost(lap.cost, 0.0, lap.at);
        }
        for (const Skim& skim : part_.skims) {
            index(holds(skim.ring, part_.rings.size()), skim.at, "the ring of a skim of " + who_);
            at_least_zero(skim.keep, skim.at, "'keep' of a skim of " + who_);
            at_least_zero(skim.holds, skim.at, "'holds' of a skim of " + who_);
            if (skim.until) at_least_zero(*skim.until, skim.at, "'until' of a skim of " + who_);
            cost(skim.cost, skim.cost_per_mm, skim.at);
        }
    }

    void centring() {
        if (part_.centred) {
            const Centring& by = *part_.centred;
            index(part(by.on) != nullptr, by.at, "what " + who_ + " is centred on");
            size(by.clearance, "the clearance of " + who_);
            if (by.centre_to) at_least_zero(*by.centre_to, by.at, "'centre_to' of " + who_);
            cost(by.centre_cost, 0.0, by.at);
        }
        for (const Runout& out : part_.runout) {
            size(out.is, "the runout of " + who_);
            if (out.face || part_.runout.size() > 1)
                own_face(out.face.value_or(-1), out.at, "the place of a runout of " + who_);
        }
        if (part_.runout.size() > 2 ||
            (part_.runout.size() == 2 && part_.runout[0].face == part_.runout[1].face))
            say(part_.at, "the runouts of " + who_ + " are not one, nor two at different heights",
                "mend them");
        if (!part_.face_runout) return;
        size(part_.face_runout->is, "the face runout of " + who_);
        if (!(part_.face_runout->dia > 0.0) || !std::isfinite(part_.face_runout->dia))
            say(part_.face_runout->at,
                "the diameter of the face runout of " + who_ + " is not above 0", "mend it");
    }

    const Part& part_;
    std::string who_;
};

class JobFinder : Finder {
public:
    JobFinder(const Job& job, Complaints& complaints) : Finder(job, complaints) {}

    void look() {
        if (job_.parts.empty())
            return say({}, "the job has no part", "give it the parts that go on, inside out");
        for (std::size_t p = 0; p < job_.parts.size(); ++p)
            PartFinder(job_, static_cast<int>(p), complaints_).look();
        // What follows looks at parts through their seats.
        if (!complaints_.empty()) return;
        seats();
        head();
        asked();
        measured(job_.readings);
        feelers();
        service();
        record();
        index(job_.in_force <= job_.record.size(), {}, "the last entry of the record in force");
        if (job_.timing) timing(*job_.timing);
    }

    void look_at_timing() {
        head();
        if (job_.timing) timing(*job_.timing);
    }

private:
    void seats() {
        const Part* root = nullptr;
        for (const Part& each : job_.parts) {
            if (!each.seats.empty()) continue;
            if (root != nullptr)
                say(each.at, "part " + in_quotes(each.name) + " does not say how it sits",
                    "only one part goes without a seat");
            root = &each;
        }
        if (root == nullptr || circle())
            say({}, "the parts sit on each other in a circle",
                "one part stands on nothing, and every other leads to it");
    }

    // Takes away what sits on nothing that is still there, until nothing more can be taken.
    [[nodiscard]] bool circle() const {
        std::vector<std::size_t> waits(job_.parts.size(), 0);
        std::vector<std::vector<std::size_t>> carries(job_.parts.size());
        std::vector<std::size_t> free;
        for (std::size_t p = 0; p < job_.parts.size(); ++p) {
            waits[p] = job_.parts[p].seats.size();
            for (const Seat& seat : job_.parts[p].seats)
                carries[seat.below().at()].push_back(p);
            if (waits[p] == 0) free.push_back(p);
        }
        for (std::size_t next = 0; next < free.size(); ++next)
            for (const std::size_t p : carries[free[next]])
                if (--waits[p] == 0) free.push_back(p);
        return free.size() != job_.parts.size();
    }

    void head() {
        if (job_.running_clearance)
            at_least_zero(*job_.running_clearance, {}, "the running clearance");
        if (job_.radial_clearance)
            at_least_zero(*job_.radial_clearance, {}, "the radial clearance");
        at_least_zero(job_.shim_cost, {}, "the cost of a shim");
        for (const Gauge& gauge : job_.gauges)
            at_least_zero(gauge.half_width, gauge.at, "the gauge " + in_quotes(gauge.name));
    }

    template <typename Asked>
    void limits(const Asked& check, const std::string& what) {
        if (check.at_least) figure(check.at_least->value, check.at, "'at_least' of " + what);
        if (check.at_most) figure(check.at_most->value, check.at, "'at_most' of " + what);
        if (!check.at_least && !check.at_most)
            say(check.at, what + " has no limit", "give it 'at_least' or 'at_most'");
        if (check.at_least && check.at_most && check.at_least->in == check.at_most->in &&
            check.at_least->value > check.at_most->value)
            say(check.at, what + " asks for at least more than at most", "swap them");
    }

    void asked() {
        for (const Check& check : job_.checks) {
            const std::string what = "check " + in_quotes(check.name);
            limits(check, what);
            if (check.aim) figure(check.aim->value, check.at, "'aim' of " + what);
            std::visit([&](const auto& of) { asked_of(of, check.at, "what is asked by " + what); },
                       check.of);
        }
        for (const AirGap& gap : job_.air_gaps) {
            const std::string what = "check " + in_quotes(gap.name);
            limits(gap, what);
            feature(gap.one, &Part::rings, gap.at, "what is asked by " + what);
            feature(gap.other, &Part::rings, gap.at, "what is asked by " + what);
        }
    }

    void asked_of(const GapOf& of, Place at, const std::string& what) {
        face(of.inboard, at, what);
        face(of.outboard, at, what);
    }
    void asked_of(const EngagementOf& of, Place at, const std::string& what) {
        feature(of.one, &Part::threads, at, what);
        feature(of.other, &Part::threads, at, what);
    }
    void asked_of(const OverlapOf& of, Place at, const std::string& what) {
        feature(of.of, &Part::rings, at, what);
        feature(of.by, &Part::rings, at, what);
    }
    // Asked by the program alone.
    template <typename Other>
    void asked_of(const Other& /*of*/, Place /*at*/, const std::string& /*what*/) {}

    void measured(const std::vector<Reading>& readings) {
        for (const Reading& reading : readings) {
            const std::string what = "reading " + in_quotes(reading.name);
            face(reading.from, reading.at, "where " + what + " is taken from");
            face(reading.to, reading.at, "where " + what + " is taken to");
            size(reading.is, what);
            for (const int fitted : reading.fitted)
                index(part(fitted) != nullptr, reading.at, "a part fitted for " + what);
            if (!reading.touching) continue;
            face(reading.touching->inboard, reading.at, "what touched for " + what);
            face(reading.touching->outboard, reading.at, "what touched for " + what);
        }
    }

    void feelers() {
        for (const Feelers& each : job_.feelers) {
            const std::string what = "feelers " + in_quotes(each.name);
            feature(each.still, &Part::rings, each.at, "the still ring of " + what);
            feature(each.turning, &Part::rings, each.at, "the turning ring of " + what);
            index(holds(each.gauge, job_.gauges.size()), each.at, "the gauge of " + what);
            for (const FeelerRound& round : each.rounds) {
                if (round.height) face(*round.height, round.at, "the height of a round of " + what);
                figure(round.rotor_deg + round.below, round.at, "a round of " + what);
                for (const FeelerGap& gap : round.gaps)
                    if (!(gap.least <= gap.most) || !std::isfinite(gap.most - gap.least) ||
                        !std::isfinite(gap.clock_deg))
                        say(gap.at, "a leaf of " + what + " is not finite, or the wrong way round",
                            "mend it");
            }
        }
    }

    void service() {
        for (const State& state : job_.states) {
            figure(state.all_c, state.at, "the temperature of state " + in_quotes(state.name));
            for (const auto& [which, at_c] : state.part_c) {
                index(part(which) != nullptr, state.at, "a part of state " + in_quotes(state.name));
                figure(at_c, state.at, "a temperature of state " + in_quotes(state.name));
            }
        }
        for (const OwnMaterial& own : job_.materials)
            for (const auto& value : {own.expansion_per_k, own.density_kg_m3, own.modulus_mpa,
                                      own.poisson, own.strength_mpa, own.tensile_mpa})
                if (value) figure(*value, own.at, "a figure of material " + in_quotes(own.name));
        if (!job_.seat) return;
        const SeatService& seat = *job_.seat;
        if (seat.hub) index(part(*seat.hub) != nullptr, seat.at, "the hub of 'seat'");
        if (seat.nut) feature(*seat.nut, &Part::threads, seat.at, "the nut of 'seat'");
        for (const auto& span :
             {seat.nut_torque_nm, seat.thread_friction, seat.under_nut_friction, seat.cone_friction,
              seat.engine_torque_nm, seat.crank_acceleration_rad_s2, seat.speed_rpm})
            if (span && (!(span->least <= span->greatest) || !(span->least >= 0.0) ||
                         !std::isfinite(span->greatest)))
                say(span->at, "a range of 'seat' is the wrong way round, negative or not finite",
                    "give the least first");
    }

    void record() {
        for (const RecordEntry& entry : job_.record) {
            for (const RecordEntry::AsCut& each : entry.as_cut) {
                face(each.face, entry.at, "a face cut by the record");
                size(each.size, "a finish size of the record");
            }
            for (const RecordEntry::Fitted& each : entry.fitted) {
                index(part(each.part) != nullptr, entry.at, "a part fitted by the record");
                for (const Given& shim : each.shims)
                    positive(shim, "a shim of the record");
            }
            for (const RecordEntry::AsSkimmed& each : entry.as_skimmed)
                size(each.size, "a diameter skimmed by the record");
            for (const RecordEntry::Lapped& each : entry.lapped)
                at_least_zero(each.off, entry.at, "what the record laps off a cone");
            for (const RecordEntry::Centred& each : entry.centred)
                size(each.clearance, "a clearance left by the record");
            measured(entry.measured);
        }
    }

    void timing(const Timing& timing) {
        positive(timing.stroke, "the stroke");
        positive(timing.rod, "the rod");
        for (const std::optional<Given>* each :
             {&timing.pin_offset, &timing.plug_tilt, &timing.rim_dia, &timing.stator_dia})
            if (*each) size(**each, "a size of 'timing'");
        for (const auto* angle : {&timing.fire_at, &timing.fires_now})
            if (*angle) size((*angle)->value, "a firing point of 'timing'");
        for (const TimingMark& mark : timing.marks)
            size(mark.angle.value, "mark " + in_quotes(mark.name));
        if (timing.gauge)
            index(holds(*timing.gauge, job_.gauges.size()), timing.at, "the gauge of 'timing'");
        if (timing.slot) {
            positive(timing.slot->dia, "the circle of the slot");
            positive(timing.slot->length, "the length of the slot");
            for (const auto* each : {&timing.slot->screw, &timing.slot->free_earlier})
                if (*each) size(**each, "a size of the slot");
        }
        for (std::size_t c = 0; c < timing.curves.size(); ++c) {
            const Curve& curve = timing.curves[c];
            index(curve.on != CurveOn::curve || holds(curve.on_curve.value_or(-1), c), curve.at,
                  "the curve that " + in_quotes(curve.name) + " adds to");
            for (const trade::CurvePoint& point : curve.points)
                figure(point.rpm + point.degrees, curve.at, "curve " + in_quotes(curve.name));
        }
    }
};

}  // namespace

Complaints validate(const Job& job) {
    Complaints complaints;
    JobFinder(job, complaints).look();
    for (const Complaints& more : {lost_references(job), validate_spin(job)})
        complaints.insert(complaints.end(), more.begin(), more.end());
    return complaints;
}

Complaints validate_timing(const Job& job) {
    Complaints complaints;
    JobFinder(job, complaints).look_at_timing();
    return complaints;
}

}  // namespace trialfit::job
