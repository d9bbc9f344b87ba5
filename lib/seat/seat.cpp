// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/seat/cuts.hpp>
#include <trialfit/seat/drawn.hpp>
#include <trialfit/seat/findings.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>

namespace trialfit::seat {

namespace {

constexpr std::string_view kAssumed =
    "assumed: steel, dry to lightly oiled; common practice, no source";

class Seating {
public:
    explicit Seating(const job::Job& job) : job_(job) {}

    std::variant<SeatAnswer, job::Complaints> run() {
        if (!job_.seat)
            return job::Complaints{
                {.fault = "the file has no 'seat' section, so there is nothing to ask of the seat",
                 .mend = "add 'seat: {nut_torque: 30..40 N m, engine_torque: 9 N m}' with figures "
                         "of your own"}};
        auto built = stack::Model::of(job_);
        if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
        const auto& model = std::get<stack::Model>(built);
        auto made = stack::joint_of(model);
        if (auto* complaints = std::get_if<job::Complaints>(&made)) return std::move(*complaints);
        joint_ = std::get<Joint>(std::move(made));
        frictions();
        if (joint_.taper / 2.0 >= tightening_.cone_friction.greatest) return self_releasing();
        turning_ = turning(model, joint_.who.hub);
        needed_ = needed(*job_.seat, turning_);
        names();
        torque();
        findings(model);
        inputs();
        notes();
        texts();
        return std::move(answer_);
    }

private:
    [[nodiscard]] const job::Part& part(int index) const {
        return job_.parts.at(static_cast<std::size_t>(index));
    }

    void friction(const std::optional<job::Span>& given, const Estimate& taken,
                  std::string_view what) {
        answer_.inputs.push_back(
            {.what = std::string(what),
             .value = taken,
             .unit = "",
             .source = given ? fmt::format("line {}", given->at.line) : std::string(kAssumed)});
    }

    void frictions() {
        const job::SeatService& given = *job_.seat;
        tightening_ = stack::tightening_of(given);
        friction(given.thread_friction, tightening_.thread_friction, "friction in the thread");
        friction(given.under_nut_friction, tightening_.face_friction, "friction under the nut");
        friction(given.cone_friction, tightening_.cone_friction, "friction on the cone");
    }

    [[nodiscard]] job::Complaints self_releasing() const {
        const job::Part& shaft = part(joint_.who.shaft);
        const job::Cone& cone =
            shaft.cones.at(static_cast<std::size_t>(joint_.who.seat->against.face));
        return {{.at = cone.at,
                 .fault = fmt::format(
                     "'{}.{}' lets go by itself: half its taper is {:.3g}, and the friction on it "
                     "at most {:.3g}",
                     shaft.name, cone.name, joint_.taper / 2.0, tightening_.cone_friction.greatest),
                 .mend = "a cone that steep needs a clutch or a bolted flange; if the taper is a "
                         "slip, mend it (1 in 5 is 0.2), or mend 'cone_friction'"}};
    }

    void names() {
        answer_.title = job_.title;
        answer_.file = job_.file;
        answer_.units = job_.units;
        answer_.hub = part(joint_.who.hub).name;
        answer_.shaft = part(joint_.who.shaft).name;
        answer_.nut = part(joint_.who.nut).name;
        answer_.needed_nm = needed_.torque_nm;
    }

    // Without a stated torque the figures are those of the torques that hold, or, where none do, of
    // the greatest that the metal bears.
    void torque() {
        answer_.torque_range = torque_range(joint_, tightening_, needed_);
        answer_.torque_stated = job_.seat->nut_torque_nm.has_value();
        if (!answer_.torque_stated) {
            const TorqueRange& holds = answer_.torque_range;
            const double top = holds.unbounded ? holds.least : holds.greatest;
            const double bottom = holds.none ? top : holds.least;
            tightening_.torque_nm = {bottom, (bottom + top) / 2.0, top};
        }
        answer_.nut_torque_nm = tightening_.torque_nm;
    }

    void findings(const stack::Model& model) {
        answer_.findings = load_findings(joint_, tightening_, needed_);
        for (Finding& each : other_findings(job_, joint_, turning_))
            answer_.findings.push_back(std::move(each));
        answer_.held_nm = over_all(joint_, tightening_, &Load::cone_torque_nm);
        answer_.verdict = worst_of(answer_.findings);
        draw_up(model);
        answer_.cuts = cut_costs(model, joint_, tightening_, needed_, turning_);
        // Something that could not be judged is not something that holds.
        const bool judged = needed_.torque_nm && joint_.bolt_yield && joint_.even;
        if (!judged || !answer_.torque_stated)
            answer_.verdict = stack::worse(answer_.verdict, stack::Verdict::doubtful);
    }

    void draw_up(const stack::Model& model) {
        const double mm = quantity::mm_per(job_.units);
        const Estimate travel = over_all(joint_, tightening_, &Load::draw_up_mm);
        answer_.draw_up_known = !std::isnan(travel.middle);
        if (answer_.draw_up_known)
            answer_.draw_up = {travel.least / mm, travel.middle / mm, travel.greatest / mm};
        Drawn found = drawn(model, joint_.who.hub, answer_.draw_up);
        answer_.seated = std::move(found.seated);
        answer_.moved = std::move(found.moved);
        answer_.verdict = stack::worse(answer_.verdict, answer_.seated.verdict);
        for (const Moved& each : answer_.moved) {
            // What did not hold before is for `check` to say.
            if (each.verdict > each.verdict_before)
                answer_.verdict = stack::worse(answer_.verdict, each.verdict);
            limit_torque(each);
        }
        TorqueRange& range = answer_.torque_range;
        range.none = range.least > range.greatest;
        // The nut must still be able to advance by the draw-up.
        for (Finding& each : answer_.findings) {
            if (each.id != "thread_left" || !answer_.draw_up_known) continue;
            each.value.least -= travel.greatest;
            each.value.middle -= travel.middle;
            each.value.greatest -= travel.least;
            each.verdict = verdict(each.value, each.at_least, each.at_most);
            answer_.verdict = stack::worse(answer_.verdict, *each.verdict);
        }
    }

    // A gap that draw-up takes up limits the torque as a stress does: it goes with the draw-up, and
    // the draw-up with the torque.
    void limit_torque(const Moved& each) {
        if (each.verdict_before != stack::Verdict::holds) return;
        const auto margin = [&](const stack::Range& worst) {
            const double infinity = std::numeric_limits<double>::infinity();
            return std::min(each.at_least ? worst.lo - *each.at_least : infinity,
                            each.at_most ? *each.at_most - worst.hi : infinity);
        };
        const double before = margin(each.worst_before);
        const double lost = before - margin(each.worst_after);
        if (!(lost > 0.0)) return;
        const double most = tightening_.torque_nm.greatest * before / lost;
        if (most >= answer_.torque_range.greatest) return;
        answer_.torque_range.greatest = most;
        answer_.torque_range.above = each.name;
        answer_.torque_range.unbounded = false;
    }

    void input(std::string what, Estimate value, std::string unit, std::string source) {
        answer_.inputs.push_back({.what = std::move(what),
                                  .value = value,
                                  .unit = std::move(unit),
                                  .source = std::move(source)});
    }
    void input(std::string what, const std::optional<stack::Figure>& figure, std::string unit) {
        if (figure)
            input(std::move(what), {figure->value, figure->value, figure->value}, std::move(unit),
                  figure->source);
    }

    void inputs() {
        const job::SeatService& given = *job_.seat;
        answer_.inputs.insert(
            answer_.inputs.begin(),
            {.what = "nut torque",
             .value = tightening_.torque_nm,
             .unit = "N m",
             .source = given.nut_torque_nm
                           ? fmt::format("line {}", given.nut_torque_nm->at.line)
                           : "not stated: the torques within which everything holds"});
        if (needed_.torque_nm)
            input("torque to be held", {*needed_.torque_nm, *needed_.torque_nm, *needed_.torque_nm},
                  "N m", needed_.source);
        if (!turning_.counted.empty()) {
            const double inertia = turning_.body.inertia_kg_m2;
            input("inertia of what turns with the hub", {inertia, inertia, inertia}, "kg m2",
                  fmt::format("rings and densities of {}", fmt::join(turning_.counted, ", ")));
        }
        contact_input();
        input("mean diameter under the nut", joint_.face_mean, "mm", joint_.face_source);
        input("yield strength of the external thread", joint_.bolt_yield, "MPa");
        if (joint_.strength) {
            input("strength that the external thread strips by", joint_.strength->bolt_mpa, "MPa");
            input("strength that the internal thread strips by", joint_.strength->nut_mpa, "MPa");
        }
        if (joint_.hub_od > 0.0)
            input("outside diameter of the hub", {joint_.hub_od, joint_.hub_od, joint_.hub_od},
                  "mm", joint_.hub_od_ring + ", the least along the cone");
        input("yield strength of the hub", joint_.hub_yield, "MPa");
    }

    void contact_input() {
        Estimate length{joint_.contact.length, joint_.contact.length, joint_.contact.length};
        Estimate dia{joint_.contact.mean_dia, joint_.contact.mean_dia, joint_.contact.mean_dia};
        for (const Contact& each : joint_.contacts) {
            length.least = std::min(length.least, each.length);
            length.greatest = std::max(length.greatest, each.length);
            dia.least = std::min(dia.least, each.mean_dia);
            dia.greatest = std::max(dia.greatest, each.mean_dia);
        }
        input("length of the cone in contact", length, "mm", "the job's cones and rings");
        input("mean diameter of the cone in contact", dia, "mm", "the job's cones");
    }

    void notes() {
        const auto note = [&](std::string text) { answer_.notes.push_back(std::move(text)); };
        if (!answer_.torque_stated)
            note("The file states no nut_torque: nothing can be said to hold until it does.");
        if (!joint_.even)
            note(
                "The two tapers differ, so the hub bears at one end only: pressure and hub stress "
                "are greater there than reckoned, and what the cone holds is reckoned at the "
                "smaller end of the contact. Blue it and lap it before relying on any figure.");
        if (joint_.taper / 2.0 >= tightening_.cone_friction.least)
            note(
                "At the least friction the cone lets go by itself once the nut slackens: the nut "
                "alone keeps it.");
        if (job_.seat->crank_acceleration_rad_s2 && job_.seat->engine_torque_nm)
            note(
                "Both engine_torque and crank_acceleration are stated; the one that asks more of "
                "the cone is taken.");
        for (const std::string& name : turning_.without_density)
            note(
                fmt::format("'{}' turns with the hub but has no material of known density: it is "
                            "not in the inertia.",
                            name));
        if (!job_.readings.empty())
            note("The file's readings are set aside: these figures are from the sizes as written.");
        const auto wide = std::any_of(answer_.inputs.begin(), answer_.inputs.end(),
                                      [](const Input& each) { return each.source == kAssumed; });
        if (wide) note("Friction was assumed where the file states none; state it to narrow this.");
    }

    void texts() {
        auto& not_assessed = answer_.not_assessed;
        not_assessed = {"burst strength and safe speed of the rotor", "balance",
                        "heat: fits and preload as they are cold",
                        "fatigue, fretting, and the notch of a keyway or a thread's end",
                        // NOLINTNEXTLINE(bugprone-suspicious-missing-comma): one sentence
                        "how even the contact is: the cone is taken to bear all along (blue it: "
                        "look for 70 % or more)",
                        "whether the nut stays tight: settling, washers, locking"};
        if (!needed_.torque_nm)
            not_assessed.emplace_back(
                "what the cone has to hold: state engine_torque, or crank_acceleration with the "
                "hub's material");
        if (!joint_.bolt_yield)
            not_assessed.push_back(fmt::format(
                "stress in the thread: nothing says how strong '{}' is; give it a class or a "
                "material",
                job::thread_name(job_, joint_.who.threads.bolt)));
        if (!joint_.strength)
            not_assessed.push_back("stripping of the threads: " + joint_.strength_unknown);
        if (joint_.hub_od <= 0.0)
            not_assessed.emplace_back("stress in the hub: no ring of it lies round the cone");
        if (joint_.hub_od > 0.0 && !joint_.hub_yield)
            not_assessed.emplace_back("whether the hub stands its stress: it has no material");
        if (!answer_.draw_up_known)
            not_assessed.emplace_back(
                "draw-up along the axis: it needs the materials of hub and shaft");
        answer_.notes.emplace_back(
            "Tighten, slacken and tighten again; read the stand-off again, and once more after the "
            "first heat.");
        answer_.cautions = stack::cautions(job_);
    }

    const job::Job& job_;
    Joint joint_;
    Tightening tightening_;
    Turning turning_;
    Needed needed_;
    SeatAnswer answer_;
};

}  // namespace

std::variant<SeatAnswer, job::Complaints> seat(const job::Job& job) {
    return Seating(job).run();
}

}  // namespace trialfit::seat
