// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/study/building.hpp>
#include <trialfit/study/job_builder.hpp>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/thread/thread.hpp>
#include <utility>

namespace trialfit {

using reading::Bare;
using study::Building;
using study::FeatureKind;

JobBuilder::JobBuilder(std::string title, quantity::Unit units) {
    job_.title = std::move(title);
    job_.units = units;
}

JobBuilder& JobBuilder::then(Step step) {
    describing_.push_back(std::move(step));
    return *this;
}

JobBuilder& JobBuilder::running_clearance(double clearance) {
    job_.running_clearance = clearance;
    return *this;
}

JobBuilder& JobBuilder::general_tolerance(char of) {
    job_.general_tolerance = of;
    return *this;
}

JobBuilder& JobBuilder::shim_cost(double cost) {
    job_.shim_cost = cost;
    return *this;
}

JobBuilder& JobBuilder::gauge(std::string name, double half_width) {
    job_.gauges.push_back({.name = std::move(name), .at = {}, .half_width = half_width});
    return *this;
}

JobBuilder& JobBuilder::part(std::string name) {
    return part(std::move(name), PartOptions{});
}

JobBuilder& JobBuilder::part(std::string name, PartOptions options) {
    naming_.emplace_back([name = std::move(name), options = std::move(options)](Building& to) {
        to.add_part({.name = name, .turns = options.turns, .material = options.material});
    });
    return *this;
}

JobBuilder& JobBuilder::zero(std::string face) {
    naming_.emplace_back([face = std::move(face)](Building& to) {
        if (job::Face* const added = to.add_face(face)) added->zero = true;
    });
    return *this;
}

JobBuilder& JobBuilder::face(const std::string& face, std::string size, std::string from) {
    naming_.emplace_back([face](Building& to) { (void)to.add_face(face); });
    return then([face, size = std::move(size), from = std::move(from)](Building& to) {
        const auto ref = to.find(face, FeatureKind::face);
        if (!ref) return;
        job::Dimension dimension;
        dimension.from = to.own_face(ref->part, from, face);
        dimension.distance = to.size(size, Bare::general_tolerance, face);
        to.part(ref->part).faces[static_cast<std::size_t>(ref->index)].dimensions.push_back(
            std::move(dimension));
    });
}

JobBuilder& JobBuilder::ring(const std::string& ring, RingOptions of) {
    naming_.emplace_back(
        [ring](Building& to) { to.add_feature(ring, FeatureKind::ring, &job::Part::rings); });
    return then([ring, of = std::move(of)](Building& to) {
        const auto ref = to.find(ring, FeatureKind::ring);
        if (!ref) return;
        job::Ring& made = to.part(ref->part).rings[static_cast<std::size_t>(ref->index)];
        made.inboard.face = to.own_face(ref->part, of.from, ring);
        made.outboard.face =
            of.to.empty() ? made.inboard.face : to.own_face(ref->part, of.to, ring);
        made.inboard.beyond = of.below > 0.0 ? -of.below : 0.0;
        made.outboard.beyond = of.above > 0.0 ? of.above : 0.0;
        const int ends =
            (of.to.empty() ? 0 : 1) + (of.below != 0.0 ? 1 : 0) + (of.above != 0.0 ? 1 : 0);
        if (ends != 1 || of.below < 0.0 || of.above < 0.0)
            to.fault(fmt::format("ring '{}' does not have one other end", ring),
                     "give one of 'to', 'below' > 0 and 'above' > 0");
        const auto bare = [](const job::Given& given) {
            return given.size.spread.shape == quantity::Shape::exact && !given.gauge &&
                   !given.written.ends_with("exact");
        };
        made.bore = to.size(of.bore, Bare::exact, ring);
        made.outside = to.size(of.od, Bare::exact, ring);
        made.bore_bare = bare(made.bore);
        made.outside_bare = bare(made.outside);
    });
}

JobBuilder& JobBuilder::cone(const std::string& cone, ConeOptions of) {
    naming_.emplace_back(
        [cone](Building& to) { to.add_feature(cone, FeatureKind::cone, &job::Part::cones); });
    return then([cone, of = std::move(of)](Building& to) {
        const auto ref = to.find(cone, FeatureKind::cone);
        if (!ref) return;
        job::Cone& made = to.part(ref->part).cones[static_cast<std::size_t>(ref->index)];
        made.at_face = to.own_face(ref->part, of.at, cone);
        made.dia = to.size(of.dia, Bare::general_tolerance, cone);
        made.length = to.size(of.length, Bare::exact, cone);
        made.taper_written = of.taper;
        if (const auto taper = trade::taper(of.taper))
            made.taper = *taper;
        else
            to.fault(fmt::format("cone '{}': {}", cone, taper.reason()), "");
    });
}

JobBuilder& JobBuilder::thread(const std::string& thread, ThreadOptions of) {
    naming_.emplace_back([thread](Building& to) {
        to.add_feature(thread, FeatureKind::thread, &job::Part::threads);
    });
    return then([thread, of = std::move(of)](Building& to) {
        const auto ref = to.find(thread, FeatureKind::thread);
        if (!ref) return;
        job::Thread& made = to.part(ref->part).threads[static_cast<std::size_t>(ref->index)];
        made.from = to.own_face(ref->part, of.from, thread);
        made.to = to.own_face(ref->part, of.to, thread);
        made.lead_in = to.size(of.lead_in, Bare::exact, thread);
        made.run_out = to.size(of.run_out, Bare::exact, thread);
        made.property_class = of.property_class;
        if (const auto form = trade::thread(of.form))
            made.form = *form;
        else
            to.fault(fmt::format("thread '{}': {}", thread, form.reason()), "");
    });
}

JobBuilder& JobBuilder::sits(std::string face, std::string against) {
    return sits(std::move(face), std::move(against), SeatOptions{});
}

JobBuilder& JobBuilder::sits(std::string face, std::string against, SeatOptions how) {
    return then(
        [face = std::move(face), against = std::move(against), how = std::move(how)](Building& to) {
            const auto own = to.need(face, FeatureKind::face, "a seat");
            const auto other =
                to.need(against, FeatureKind::face, fmt::format("the seat of '{}'", face));
            if (!own || !other) return;
            job::Seat seat;
            seat.own = own->index;
            seat.against = {other->part, other->index};
            if (!how.offset.empty()) {
                seat.kind = job::SeatKind::face_at_offset;
                seat.offset = to.size(how.offset, Bare::general_tolerance, face);
            }
            if (!how.play.empty()) seat.play = to.size(how.play, Bare::exact, face);
            if (!how.shim_stock.empty() || !how.shims_fitted.empty()) {
                job::Shims shims{.holds = how.shims_hold};
                for (const std::string& stock : how.shim_stock)
                    shims.stock.push_back({.thickness = to.shim(stock, how.shims_hold, face)});
                for (const std::string& fitted : how.shims_fitted)
                    shims.fitted.push_back(to.shim(fitted, how.shims_hold, face));
                if (!shims.stock.empty()) shims.at_most = how.shims_at_most;
                seat.shims = std::move(shims);
            }
            to.part(own->part).seats.push_back(std::move(seat));
        });
}

JobBuilder& JobBuilder::sits_on_cone(std::string cone, std::string against) {
    return then([cone = std::move(cone), against = std::move(against)](Building& to) {
        const auto own = to.need(cone, FeatureKind::cone, "a seat");
        const auto other =
            to.need(against, FeatureKind::cone, fmt::format("the seat of '{}'", cone));
        if (!own || !other) return;
        job::Seat seat;
        seat.kind = job::SeatKind::cone_on_cone;
        seat.own_cone = own->index;
        seat.on_cone = {other->part, other->index};
        to.part(own->part).seats.push_back(std::move(seat));
    });
}

JobBuilder& JobBuilder::cut(std::string face, CutOptions how) {
    return then([face = std::move(face), how = std::move(how)](Building& to) {
        const auto ref = to.need(face, FeatureKind::face, "a cut");
        if (!ref) return;
        to.part(ref->part).cuts.push_back({.face = ref->index,
                                           .measure = to.own_face(ref->part, how.measure, face),
                                           .keep = how.keep,
                                           .holds = how.holds,
                                           .cost = how.cost,
                                           .cost_per_mm = how.cost_per_mm,
                                           .note = how.note,
                                           .read_by = to.gauge(how.read_by)});
    });
}

JobBuilder& JobBuilder::gap(std::string check, std::string inboard, std::string outboard,
                            Limits limits) {
    return then([check = std::move(check), inboard = std::move(inboard),
                 outboard = std::move(outboard), limits = std::move(limits)](Building& to) {
        const std::string who = fmt::format("check '{}'", check);
        const auto one = to.need(inboard, FeatureKind::face, who);
        const auto other = to.need(outboard, FeatureKind::face, who);
        if (!one || !other) return;
        to.add_check(
            check,
            job::GapOf{.inboard = {one->part, one->index}, .outboard = {other->part, other->index}},
            {limits.at_least, limits.at_most, limits.aim});
    });
}

JobBuilder& JobBuilder::engagement(std::string check, std::string one, std::string other,
                                   Limits limits) {
    return then([check = std::move(check), one = std::move(one), other = std::move(other),
                 limits = std::move(limits)](Building& to) {
        const std::string who = fmt::format("check '{}'", check);
        const auto first = to.need(one, FeatureKind::thread, who);
        const auto second = to.need(other, FeatureKind::thread, who);
        if (!first || !second) return;
        to.add_check(
            check,
            job::EngagementOf{.one = first->as<job::Thread>(), .other = second->as<job::Thread>()},
            {limits.at_least, limits.at_most, limits.aim});
    });
}

JobBuilder& JobBuilder::overlap(std::string check, std::string of, std::string by, Limits limits) {
    return then([check = std::move(check), of = std::move(of), by = std::move(by),
                 limits = std::move(limits)](Building& to) {
        const std::string who = fmt::format("check '{}'", check);
        const auto first = to.need(of, FeatureKind::ring, who);
        const auto second = to.need(by, FeatureKind::ring, who);
        if (!first || !second) return;
        to.add_check(check,
                     job::OverlapOf{.of = first->as<job::Ring>(), .by = second->as<job::Ring>()},
                     {limits.at_least, limits.at_most, limits.aim});
    });
}

JobBuilder& JobBuilder::air_gap(std::string check, std::string one, std::string other,
                                Limits limits) {
    return then([check = std::move(check), one = std::move(one), other = std::move(other),
                 limits = std::move(limits)](Building& to) {
        const std::string who = fmt::format("check '{}'", check);
        const auto first = to.need(one, FeatureKind::ring, who);
        const auto second = to.need(other, FeatureKind::ring, who);
        if (!limits.aim.empty())
            to.fault(fmt::format("{} has an aim, and is an air gap", who),
                     "take it away: no cut along the axis moves an air gap");
        if (!first || !second) return;
        job::AirGap gap{
            .name = check, .one = first->as<job::Ring>(), .other = second->as<job::Ring>()};
        gap.at_least = to.limit(limits.at_least, {}, check);
        gap.at_most = to.limit(limits.at_most, {}, check);
        to.job.air_gaps.push_back(std::move(gap));
    });
}

JobBuilder& JobBuilder::reading(std::string reading, std::string from, std::string to_face,
                                std::string is, std::vector<std::string> fitted) {
    return then([reading = std::move(reading), from = std::move(from), to_face = std::move(to_face),
                 is = std::move(is), fitted = std::move(fitted)](Building& to) {
        const std::string who = fmt::format("reading '{}'", reading);
        const auto one = to.need(from, FeatureKind::face, who);
        const auto other = to.need(to_face, FeatureKind::face, who);
        if (!one || !other) return;
        job::Reading made{
            .name = reading, .from = {one->part, one->index}, .to = {other->part, other->index}};
        made.is = to.size(is, Bare::general_tolerance, reading);
        for (const std::string& name : fitted)
            if (const job::PartId part = to.need_part(name, who); part >= 0)
                made.fitted.push_back(part);
        std::ranges::sort(made.fitted);
        to.job.readings.push_back(std::move(made));
    });
}

Expected<job::Job> JobBuilder::build() const {
    Building building{.job = job_, .faults = {}};
    for (const Step& step : naming_)
        step(building);
    for (const Step& step : describing_)
        step(building);
    if (!building.faults.empty()) return std::move(building.faults);
    job::Complaints complaints = job::validate(building.job);
    if (job::any_error(complaints)) return complaints;
    return {std::move(building.job), std::move(complaints)};
}

}  // namespace trialfit
