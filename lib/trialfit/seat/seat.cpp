// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/job/validity/doubts.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/seat/change/cuts.hpp>
#include <trialfit/seat/change/drawn.hpp>
#include <trialfit/seat/findings.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/seat/told.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/cautions.hpp>
#include <utility>

namespace trialfit::seat {

namespace {

bool finite(const Estimate& each) {
    return std::isfinite(each.least) && std::isfinite(each.middle) && std::isfinite(each.greatest);
}

// Every figure that leaves is a number: stated ranges are bounded, so that only their product can
// pass what a double holds.
job::Complaints beyond_any_figure(const SeatAnswer& answer, job::Place at) {
    bool all = finite(answer.draw_up) && std::isfinite(answer.needed_nm.value_or(0.0)) &&
               std::isfinite(answer.torque_limits.cone_needs.value_or(0.0)) &&
               std::isfinite(answer.torque_limits.most.value_or(0.0));
    for (const SeatFinding& each : answer.findings)
        all = all && finite(each.value);
    for (const Input& each : answer.inputs)
        all = all && finite(each.value);
    if (all) return {};
    return {{.at = at,
             .fault = "the figures of 'seat' and the parts make numbers beyond any measure",
             .mend = "mend torque, friction, class, sizes and materials: one of them is far off"}};
}

class Seating {
public:
    Seating(const job::Job& job, const stack::Options& options) : job_(job), options_(options) {}

    std::variant<SeatAnswer, job::Complaints> run() {
        if (!job_.seat)
            return job::Complaints{
                {.fault = "the file has no 'seat' section, so there is nothing to ask of the seat",
                 .mend = "add 'seat: {nut_torque: FIGURE N m, engine_torque: FIGURE N m}' with "
                         "figures of your own"}};
        auto built = stack::model_for(job_, options_);
        if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
        const auto& model = std::get<stack::Model>(built);
        auto made = stack::joint_of(model);
        if (auto* complaints = std::get_if<job::Complaints>(&made)) return std::move(*complaints);
        joint_ = std::get<Joint>(std::move(made));
        tightening_ = stack::tightening_of(*job_.seat);
        if (joint_.taper / 2.0 >= tightening_.cone_friction.greatest) return self_releasing();
        turning_ = turning(model, joint_.who.hub);
        needed_ = needed(*job_.seat, turning_);
        answer();
        if (model.unmeasured().any() || rings_open()) leave_open();
        if (job::Complaints beyond = beyond_any_figure(answer_, job_.seat->at); !beyond.empty())
            return beyond;
        return std::move(answer_);
    }

private:
    [[nodiscard]] const job::Part& part(job::PartId index) const {
        return job_.parts.at(static_cast<std::size_t>(index));
    }

    [[nodiscard]] job::Complaints self_releasing() const {
        const job::Part& shaft = part(joint_.who.shaft);
        const job::Cone& cone =
            shaft.cones.at(static_cast<std::size_t>(joint_.who.seat->on_cone.index));
        return {{.at = cone.at,
                 .fault = fmt::format(
                     "'{}.{}' lets go by itself: half its taper is {:.3g}, and the friction on it "
                     "at most {:.3g}",
                     shaft.name, cone.name, joint_.taper / 2.0, tightening_.cone_friction.greatest),
                 .mend = "a cone that steep needs a clutch or a bolted flange; if the taper is a "
                         "slip, mend it (1 in 5 is 0.2), or mend 'cone_friction'"}};
    }

    [[nodiscard]] bool rings_open() const {
        return std::any_of(job_.parts.begin(), job_.parts.end(), [](const job::Part& each) {
            return std::any_of(each.rings.begin(), each.rings.end(),
                               [](const job::Ring& ring) { return !ring.measured(); });
        });
    }

    // What hangs on a length that nobody has measured is left out, and said.
    void leave_open() {
        LengthsOpen open;
        for (const SeatFinding& each : answer_.findings)
            if (!finite(each.value) && each.id != FindingId::contact)
                open.figures.push_back(each.id);
        // Loads on a cone whose contact is open are not among the findings at all.
        if (std::isnan(joint_.contact.length)) {
            if (answer_.nut_torque_nm) open.figures.push_back(FindingId::cone_torque);
            open.figures.push_back(FindingId::contact);
        }
        if (std::isnan(joint_.face_mean.middle) && answer_.nut_torque_nm)
            open.figures.push_back(FindingId::preload);
        if (open.figures.empty()) return;
        const auto not_finite = [](const auto& each) { return !finite(each.value); };
        std::erase_if(answer_.findings, not_finite);
        std::erase_if(answer_.inputs, not_finite);
        std::erase_if(answer_.moved, [](const Moved& each) {
            return !std::isfinite(each.nominal_before) || !std::isfinite(each.nominal_after);
        });
        answer_.cuts.clear();
        answer_.torque_limits = {};
        if (answer_.held_nm && !finite(*answer_.held_nm)) answer_.held_nm.reset();
        answer_.not_judged.emplace_back(std::move(open));
        answer_.verdict = stack::worse(worst_of(answer_.findings), stack::Verdict::not_judged);
        answer_.verdict = stack::worse(answer_.verdict, answer_.seated.verdict);
        for (const Moved& each : answer_.moved)
            answer_.verdict = stack::worse(answer_.verdict, each.verdict);
    }

    void answer() {
        names();
        findings();
        draw_up();
        answer_.not_judged = not_judged(job_, joint_, turning_, needed_, answer_.draw_up_known);
        if (answer_.seated.verdict == stack::Verdict::not_judged)
            answer_.not_judged.insert(answer_.not_judged.begin(), *answer_.seated.why);
        if (!joint_.even) uneven();
        if (!answer_.not_judged.empty())
            answer_.verdict = stack::worse(answer_.verdict, stack::Verdict::not_judged);
        limits();
        costs();
        if (answer_.seated.verdict == stack::Verdict::fails || key_in_the_way() || !joint_.even)
            as_if_seated();
        answer_.inputs = inputs(job_, joint_, tightening_, turning_, needed_);
        answer_.notes = notes(job_, joint_, tightening_, turning_, !options_.readings.empty());
        answer_.not_assessed = not_assessed();
        answer_.cautions = stack::cautions(job_);
    }

    void names() {
        answer_.title = job_.title;
        answer_.file = job_.file;
        for (job::Doubt& each : job::doubts(job_))
            answer_.warnings.emplace_back(std::move(each));
        answer_.units = job_.units;
        answer_.hub = part(joint_.who.hub).name;
        answer_.shaft = part(joint_.who.shaft).name;
        answer_.nut = part(joint_.who.nut).name;
        answer_.needed_nm = needed_.torque_nm;
        answer_.more_may_be_needed = needed_.unknown.has_value();
    }

    void findings() {
        if (job_.seat->nut_torque_nm) {
            answer_.nut_torque_nm = tightening_.torque_nm;
            answer_.findings = load_findings(joint_, tightening_, needed_);
            answer_.held_nm = over_all(joint_, tightening_, &Load::cone_torque_nm);
        }
        for (SeatFinding& each : other_findings(job_, joint_, turning_))
            answer_.findings.push_back(std::move(each));
        answer_.verdict = worst_of(answer_.findings);
    }

    void draw_up() {
        const double mm = quantity::mm_per(job_.units);
        Estimate travel;
        if (answer_.nut_torque_nm) {
            travel = over_all(joint_, tightening_, &Load::draw_up_mm);
            answer_.draw_up_known = !std::isnan(travel.middle);
        }
        if (answer_.draw_up_known)
            answer_.draw_up = {travel.least / mm, travel.middle / mm, travel.greatest / mm};
        Drawn found = drawn(job_, options_, joint_.who.hub, answer_.draw_up);
        answer_.seated = std::move(found.seated);
        answer_.moved = std::move(found.moved);
        answer_.verdict = stack::worse(answer_.verdict, answer_.seated.verdict);
        // What did not hold before is for `check` to say.
        for (const Moved& each : answer_.moved)
            if (each.verdict > each.verdict_before)
                answer_.verdict = stack::worse(answer_.verdict, each.verdict);
        if (answer_.draw_up_known) advance_by(travel);
    }

    // The nut must still be able to advance by the draw-up.
    void advance_by(const Estimate& travel) {
        for (SeatFinding& each : answer_.findings) {
            if (each.id != FindingId::thread_left) continue;
            each.value.least -= travel.greatest;
            each.value.middle -= travel.middle;
            each.value.greatest -= travel.least;
            each.verdict = verdict(each.value, each.at_least, each.at_most);
            answer_.verdict = stack::worse(answer_.verdict, *each.verdict);
        }
    }

    void limits() {
        const bool all_judged = answer_.not_judged.empty() && joint_.even;
        answer_.torque_limits = torque_limits(joint_, tightening_, needed_, all_judged);
        // What is asked, or the friction, is known in part only: the least is no figure to go by.
        if (needed_.unknown || stack::friction_missing(*job_.seat))
            answer_.torque_limits.cone_needs.reset();
        if (!all_judged) return;
        for (const Moved& each : answer_.moved)
            limit_torque(each);
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
        TorqueLimits& limits = answer_.torque_limits;
        const double most = tightening_.torque_nm.greatest * before / lost;
        if (limits.most && most >= *limits.most) return;
        limits.most = most;
        limits.most_by = each.name;
    }

    // What the cuts would cost is told of the sizes as written: a reading says nothing of a face
    // that is not there yet.
    void costs() {
        if (!answer_.nut_torque_nm) return;
        const auto built = stack::Model::of(job_);
        const auto made = stack::joint_of(std::get<stack::Model>(built));
        if (const auto* as_written = std::get_if<Joint>(&made))
            answer_.cuts = cut_costs(std::get<stack::Model>(built), *as_written, tightening_,
                                     needed_, turning_);
        if (answer_.not_judged.empty()) return;
        for (CutCost& each : answer_.cuts)
            each.verdict = stack::worse(each.verdict, stack::Verdict::not_judged);
    }

    void uneven() {
        answer_.verdict = stack::Verdict::fails;
        answer_.warnings.emplace_back(
            TouchesAtOneEnd{.hub = answer_.hub, .small_end = joint_.at_small_end});
    }

    // Whether the key holds the hub off its cone, or keeps it from going on, at its nominal sizes.
    [[nodiscard]] bool key_in_the_way() const {
        return std::ranges::any_of(answer_.findings, [](const SeatFinding& each) {
            return (each.id == FindingId::key_room || each.id == FindingId::key_entry) &&
                   each.verdict == stack::Verdict::fails;
        });
    }

    // Figures of a hub that is not where they take it to be hold nothing.
    void as_if_seated() {
        for (SeatFinding& each : answer_.findings)
            if (each.verdict && each.id != FindingId::key_room && each.id != FindingId::key_entry &&
                each.id != FindingId::thread_left)
                each.verdict = stack::Verdict::not_judged;
        for (Moved& each : answer_.moved)
            each.verdict = stack::Verdict::not_judged;
        for (CutCost& each : answer_.cuts)
            each.verdict = stack::worse(each.verdict, stack::Verdict::not_judged);
    }

    const job::Job& job_;
    const stack::Options& options_;
    Joint joint_;
    Tightening tightening_;
    TurningHub turning_;
    TorqueNeeded needed_;
    SeatAnswer answer_;
};

}  // namespace

std::variant<SeatAnswer, job::Complaints> seat(const job::Job& job, const stack::Options& options) {
    std::variant<SeatAnswer, job::Complaints> outcome = Seating(job, options).run();
    if (auto* const answer = std::get_if<SeatAnswer>(&outcome)) {
        const std::vector<job::Warning> first = job::warnings(job);
        answer->warnings.insert(answer->warnings.begin(), first.begin(), first.end());
    }
    return outcome;
}

}  // namespace trialfit::seat
