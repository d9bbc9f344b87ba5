// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <trialfit/seat/told.hpp>
#include <trialfit/stack/metal.hpp>

namespace trialfit::seat {

namespace {

constexpr std::string_view kAssumed =
    "not stated: what workshop tables of dry to lightly oiled steel commonly span; common "
    "practice, "
    "no source";

Estimate same(double value) {
    return {value, value, value};
}

class Inputs {
public:
    void add(std::string what, const Estimate& value, std::string unit, std::string source) {
        list_.push_back({.what = std::move(what),
                         .value = value,
                         .unit = std::move(unit),
                         .source = std::move(source)});
    }
    void add(std::string what, const std::optional<stack::Figure>& figure, std::string unit) {
        if (figure) add(std::move(what), same(figure->value), std::move(unit), figure->source);
    }
    void friction(std::string what, const std::optional<job::Span>& given, const Estimate& taken) {
        add(std::move(what), taken, "",
            given ? fmt::format("line {}", given->at.line) : std::string(kAssumed));
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
        add("length of the cone in contact", length, "mm", "the job's cones and rings");
        add("mean diameter of the cone in contact", dia, "mm", "the job's cones");
    }
    [[nodiscard]] std::vector<Input> take() { return std::move(list_); }

private:
    std::vector<Input> list_;
};

std::string hub_unjudged(const job::Job& job, const Joint& joint) {
    const std::string& name = job.parts.at(static_cast<std::size_t>(joint.who.hub)).name;
    if (joint.hub_od <= 0.0)
        return fmt::format("stress in '{}': no ring of it lies round the cone", name);
    if (joint.hub_yield) return {};
    const stack::Metal metal = stack::metal(job, joint.who.hub);
    if (metal.name.empty()) return fmt::format("stress in '{}': it has no material", name);
    if (metal.tensile_mpa)
        return fmt::format(
            "stress in '{}': {} has no yield point, and what breaks it is no limit to be used up",
            name, metal.name);
    return fmt::format(
        "stress in '{}': '{}' says nothing of its yield; name a grade, or state 'strength' under "
        "'materials'",
        name, metal.name);
}

std::string nut_unjudged(const job::Job& job, const Joint& joint) {
    const job::Thread& nut = stack::thread_of(job, joint.who.threads.nut);
    if (joint.nut_proof_load || nut.property_class.empty()) return {};
    return fmt::format("the nut's proof load: nothing is known of class {} on {}",
                       nut.property_class, nut.form.written);
}

}  // namespace

std::vector<Input> inputs(const job::Job& job, const Joint& joint, const Tightening& tightening,
                          const Turning& turning, const Needed& needed) {
    const job::SeatService& given = *job.seat;
    Inputs list;
    if (given.nut_torque_nm)
        list.add("nut torque", tightening.torque_nm, "N m",
                 fmt::format("line {}", given.nut_torque_nm->at.line));
    list.friction("friction in the thread", given.thread_friction, tightening.thread_friction);
    list.friction("friction under the nut", given.under_nut_friction, tightening.face_friction);
    list.friction("friction on the cone", given.cone_friction, tightening.cone_friction);
    if (needed.torque_nm)
        list.add("torque to be held", same(*needed.torque_nm), "N m", needed.source);
    if (!turning.counted.empty())
        list.add("inertia of what turns with the hub", same(turning.body.inertia_kg_m2), "kg m2",
                 fmt::format("rings and densities of {}", fmt::join(turning.counted, ", ")));
    list.contact(joint);
    list.add("mean diameter under the nut", joint.face_mean, "mm", joint.face_source);
    list.add("yield strength of the external thread", joint.bolt_yield, "MPa");
    if (joint.strength) {
        list.add("strength that the external thread strips by", joint.strength->bolt_mpa, "MPa");
        list.add("strength that the internal thread strips by", joint.strength->nut_mpa, "MPa");
    }
    if (joint.hub_od > 0.0)
        list.add("outside diameter of the hub", same(joint.hub_od), "mm",
                 joint.hub_od_ring + ", the least along the cone");
    list.add("yield strength of the hub", joint.hub_yield, "MPa");
    return list.take();
}

std::vector<std::string> not_judged(const job::Job& job, const Joint& joint, const Turning& turning,
                                    const Needed& needed, bool draw_up_known) {
    const job::SeatService& given = *job.seat;
    std::vector<std::string> list;
    const auto unless = [&list](bool judged, std::string text) {
        if (!judged && !text.empty()) list.push_back(std::move(text));
    };
    unless(given.nut_torque_nm.has_value(),
           "what the nut's torque does: 'seat' states no 'nut_torque'; take the engine maker's");
    unless(given.engine_torque_nm || given.crank_acceleration_rad_s2,
           "whether the cone holds enough: 'seat' states neither 'engine_torque' nor "
           "'crank_acceleration'");
    unless(needed.unknown.empty(), "what 'crank_acceleration' asks of the cone: " + needed.unknown);
    const std::string friction = stack::friction_missing(given);
    unless(friction.empty(), fmt::format("whether it holds at the friction that there is: 'seat' "
                                         "states no '{}'",
                                         friction));
    unless(false, hub_unjudged(job, joint));
    unless(joint.bolt_yield.has_value(),
           fmt::format("stress in the thread: nothing says how strong '{}' is; give it a 'class'",
                       job::thread_name(job, joint.who.threads.bolt)));
    unless(joint.strength.has_value(), "stripping of the threads: " + joint.strength_unknown);
    unless(false, nut_unjudged(job, joint));
    unless(draw_up_known || !given.nut_torque_nm || joint.hub_od <= 0.0,
           "how far the nut draws the hub home: the materials of hub and shaft are not known");
    unless(!given.speed_rpm || turning.spinning.has_value(),
           "hoop stress at 'speed': no ring that turns with the hub has a material");
    return list;
}

std::vector<std::string> notes(const job::Job& job, const Joint& joint,
                               const Tightening& tightening, const Turning& turning,
                               bool readings_bind) {
    std::vector<std::string> list;
    const auto note = [&list](bool applies, std::string text) {
        if (applies) list.push_back(std::move(text));
    };
    note(!joint.even,
         "The hub bears at one end only: pressure and hub stress are greater there than reckoned, "
         "and what the cone holds is reckoned at the smaller end of the contact.");
    note(joint.taper / 2.0 >= tightening.cone_friction.least,
         "At the least friction the cone lets go by itself once the nut slackens: the nut alone "
         "keeps it.");
    note(job.seat->crank_acceleration_rad_s2 && job.seat->engine_torque_nm,
         "Both engine_torque and crank_acceleration are stated; the one that asks more of the cone "
         "is taken.");
    for (const std::string& each : turning.not_counted)
        note(true, "Not in the inertia: " + each + ".");
    note(readings_bind,
         "The file's readings bind the sizes; what a cut would cost is told of the "
         "sizes as written.");
    note(!readings_bind && !job.readings.empty(),
         "The file's readings are set aside: these figures are from the sizes as written.");
    note(true,
         "Tighten, slacken and tighten again; read the stand-off again, and once more after the "
         "first heat.");
    return list;
}

std::vector<std::string> not_assessed() {
    return {"burst strength and safe speed of the rotor", "balance",
            "heat: fits and preload as they are cold",
            "fatigue, fretting, and the notch of a keyway or a thread's end",
            // NOLINTNEXTLINE(bugprone-suspicious-missing-comma): one sentence
            "how even the contact is: the cone is taken to bear all along (blue it: look for 70 % "
            "or more)",
            "whether the nut stays tight: settling, washers, locking"};
}

}  // namespace trialfit::seat
