// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <trialfit/seat/told.hpp>
#include <trialfit/stack/metal.hpp>

namespace trialfit::seat {

namespace {

constexpr std::string_view kAssumedSource =
    "not stated: what workshop tables of dry to lightly oiled steel commonly span; common "
    "practice, "
    "no source";

Estimate same(double value) {
    return {value, value, value};
}

class Inputs {
public:
    void add(Quantity what, const Estimate& value, std::string unit, std::string source) {
        list_.push_back(
            {.what = what, .value = value, .unit = std::move(unit), .source = std::move(source)});
    }
    void add(Quantity what, const std::optional<stack::Figure>& figure, std::string unit) {
        if (figure) add(what, same(figure->value), std::move(unit), figure->source);
    }
    void friction(Quantity what, const std::optional<job::Span>& given, const Estimate& taken) {
        add(what, taken, "",
            given ? fmt::format("line {}", given->at.line) : std::string(kAssumedSource));
    }
    void contact(const Joint& joint) {
        Estimate length = same(joint.contact.length);
        Estimate dia = same(joint.contact.mean_dia);
        for (const Contact& each : joint.contacts) {
            length.least = std::min(length.least, each.length);
            length.greatest = std::max(length.greatest, each.length);
            dia.least = std::min(dia.least, each.mean_dia);
            dia.greatest = std::max(dia.greatest, each.mean_dia);
        }
        add(Quantity::contact_length, length, "mm", "the job's cones and rings");
        add(Quantity::contact_diameter, dia, "mm", "the job's cones");
    }
    [[nodiscard]] std::vector<Input> take() { return std::move(list_); }

private:
    std::vector<Input> list_;
};

std::optional<HubNotJudged> hub_unjudged(const job::Job& job, const Joint& joint) {
    using Why = HubNotJudged::Why;
    HubNotJudged open{.hub = job.parts.at(static_cast<std::size_t>(joint.who.hub)).name};
    const stack::Metal metal = stack::metal(job, joint.who.hub);
    open.material = metal.name;
    if (std::isnan(joint.contact.length)) return std::nullopt;  // seat tells of it apart
    if (joint.hub_od <= 0.0) {
        open.why = Why::no_ring_round_cone;
    } else if (joint.hub_yield) {
        return std::nullopt;
    } else if (metal.name.empty()) {
        open.why = Why::no_material;
    } else {
        open.why = metal.tensile_mpa ? Why::no_yield_point : Why::yield_not_known;
    }
    return open;
}

std::optional<NutNotJudged> nut_unjudged(const job::Job& job, const Joint& joint) {
    const job::Thread& nut = job::at(job, joint.who.threads.nut);
    if (joint.nut_proof_load || nut.property_class.empty()) return std::nullopt;
    return NutNotJudged{.property_class = nut.property_class, .form = nut.form.written};
}

}  // namespace

std::vector<Input> inputs(const job::Job& job, const Joint& joint, const Tightening& tightening,
                          const TurningHub& turning, const TorqueNeeded& needed) {
    const job::SeatService& given = *job.seat;
    Inputs list;
    if (given.nut_torque_nm)
        list.add(Quantity::nut_torque, tightening.torque_nm, "N m",
                 fmt::format("line {}", given.nut_torque_nm->at.line));
    list.friction(Quantity::thread_friction, given.thread_friction, tightening.thread_friction);
    list.friction(Quantity::under_nut_friction, given.under_nut_friction, tightening.face_friction);
    list.friction(Quantity::cone_friction, given.cone_friction, tightening.cone_friction);
    if (needed.torque_nm)
        list.add(Quantity::needed_torque, same(*needed.torque_nm), "N m", needed.source);
    if (!turning.counted.empty())
        list.add(Quantity::inertia, same(turning.body.inertia_kg_m2), "kg m2",
                 fmt::format("rings and densities of {}", fmt::join(turning.counted, ", ")));
    list.contact(joint);
    list.add(Quantity::face_diameter, joint.face_mean, "mm", joint.face_source);
    list.add(Quantity::bolt_yield, joint.bolt_yield, "MPa");
    if (joint.strength) {
        list.add(Quantity::bolt_strength, joint.strength->bolt_mpa, "MPa");
        list.add(Quantity::nut_strength, joint.strength->nut_mpa, "MPa");
    }
    if (joint.hub_od > 0.0)
        list.add(Quantity::hub_outside, same(joint.hub_od), "mm",
                 joint.hub_od_ring + ", the least along the cone");
    list.add(Quantity::hub_yield, joint.hub_yield, "MPa");
    return list.take();
}

std::vector<NotJudged> not_judged(const job::Job& job, const Joint& joint,
                                  const TurningHub& turning, const TorqueNeeded& needed,
                                  bool draw_up_known) {
    const job::SeatService& given = *job.seat;
    std::vector<NotJudged> list;
    const auto unless = [&list](bool judged, NotStated what) {
        if (!judged) list.emplace_back(what);
    };
    unless(given.nut_torque_nm.has_value(), NotStated::nut_torque);
    unless(given.engine_torque_nm || given.crank_acceleration_rad_s2, NotStated::needed_torque);
    if (needed.unknown) list.emplace_back(NeededInPart{.for_want_of = *needed.unknown});
    if (const auto friction = stack::friction_missing(given))
        list.emplace_back(FrictionNotStated{.which = *friction});
    if (const auto hub = hub_unjudged(job, joint)) list.emplace_back(*hub);
    if (!joint.bolt_yield)
        list.emplace_back(BoltNotJudged{.thread = job::thread_name(job, joint.who.threads.bolt)});
    if (joint.strength_unknown) list.emplace_back(StripNotJudged{.why = *joint.strength_unknown});
    if (const auto nut = nut_unjudged(job, joint)) list.emplace_back(*nut);
    unless(draw_up_known || !given.nut_torque_nm || joint.hub_od <= 0.0,
           NotStated::draw_up_materials);
    unless(!given.speed_rpm || turning.spinning.has_value(), NotStated::spinning_material);
    return list;
}

std::vector<Note> notes(const job::Job& job, const Joint& joint, const Tightening& tightening,
                        const TurningHub& turning, bool readings_bind) {
    std::vector<Note> list;
    const auto note = [&list](bool applies, Remark remark) {
        if (applies) list.emplace_back(remark);
    };
    note(!joint.even, Remark::bears_at_one_end);
    note(joint.taper / 2.0 >= tightening.cone_friction.least, Remark::lets_go_by_itself);
    note(job.seat->crank_acceleration_rad_s2 && job.seat->engine_torque_nm,
         Remark::both_torques_stated);
    list.insert(list.end(), turning.not_counted.begin(), turning.not_counted.end());
    note(readings_bind, Remark::readings_bind);
    note(!readings_bind && !job.readings.empty(), Remark::readings_set_aside);
    note(true, Remark::tighten_repeatedly);
    return list;
}

std::vector<NotAssessed> not_assessed() {
    return {NotAssessed::burst_and_speed, NotAssessed::balance,  NotAssessed::heat,
            NotAssessed::fatigue,         NotAssessed::evenness, NotAssessed::stays_tight};
}

}  // namespace trialfit::seat
