// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/job/former.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/sheet/live/place.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/index.hpp>
#include <utility>

namespace trialfit::sheet {

namespace {

using job::SizeRole;
using stack::at;

// A new size has a column of its own even where it is good to nothing at all; less than any
// rounding (stack::kRounding).
constexpr double kHair = 1e-12;
// A field takes no less than this share of what must remain: so far, figures are held to move
// evenly.
constexpr double kLeastOfKeep = 0.5;
// A skim without a limit of its own takes off no more than this share of the diameter.
constexpr double kMostSkimmed = 0.1;

job::Given given_of(double value, double half_width) {
    const double half = std::max(half_width, kHair);
    return {.size = quantity::reading(value, half), .written = quantity::plain(value), .at = {}};
}

class Planned {
public:
    explicit Planned(const plan::PlanMade* plan) : plan_(plan) {}

    [[nodiscard]] std::string cut(const std::string& face) const {
        if (plan_ == nullptr) return {};
        for (const plan::CutMade& made : plan_->cuts)
            if (made.face == face && !made.by_amount) return quantity::plain(made.finish);
        return {};
    }

    [[nodiscard]] std::string take(const std::string& face) const {
        if (plan_ == nullptr) return {};
        for (const plan::CutMade& made : plan_->cuts)
            if (made.face == face && made.by_amount) return quantity::plain(made.remove);
        return {};
    }

    [[nodiscard]] std::string shims(const std::string& part) const {
        std::string told;
        if (plan_ == nullptr) return told;
        for (const plan::StackMade& made : plan_->shims) {
            if (made.part != part) continue;
            for (const plan::Piece& piece : made.stack)
                told += (told.empty() ? "" : " + ") + quantity::plain(piece.thickness);
            if (told.empty()) told = "none";
        }
        return told;
    }

    [[nodiscard]] std::string skim(const std::string& ring, bool bore) const {
        if (plan_ == nullptr) return {};
        for (const plan::SkimMade& made : plan_->skims)
            if (made.ring == ring && made.bore == bore) return quantity::plain(made.finish);
        return {};
    }

    [[nodiscard]] std::string lap(const std::string& cone) const {
        if (plan_ == nullptr) return {};
        for (const plan::LapMade& made : plan_->laps)
            if (made.cone == cone) return quantity::plain(made.off_diameter);
        return {};
    }

    [[nodiscard]] std::string centring(const std::string& part) const {
        if (plan_ == nullptr) return {};
        for (const plan::CentringMade& made : plan_->centrings)
            if (made.part == part) return quantity::plain(made.to);
        return {};
    }

private:
    const plan::PlanMade* plan_;
};

class Finder {
public:
    Finder(const job::Job& job, const plan::PlanMade* plan) : job_(job), planned_(plan) {}

    LivePlaces find() {
        for (const job::PartId p : job::indices(job_.parts)) {
            const job::Part& part = job_.parts[at(p)];
            for (const job::Cut& cut : part.cuts)
                add_cut(p, cut);
            for (const job::SeatId s : job::indices(part.seats))
                if (part.seats[at(s)].shims && !part.seats[at(s)].shims->stock.empty())
                    add_shims(p, s);
            for (const job::Lap& lap : part.laps)
                add_lap(p, lap);
            for (const job::Skim& skim : part.skims)
                add_skim(p, skim);
            if (part.centred && part.centred->centre_to) add_centring(p, *part.centred);
        }
        return std::move(found_);
    }

private:
    void add(LivePlace place, double reference) {
        place.field.reference = typed(place.field, reference);
        found_.all.push_back(std::move(place));
    }

    [[nodiscard]] std::string gauge(const std::optional<job::GaugeId>& of) const {
        return of ? job_.gauges[at(*of)].name : "";
    }
    [[nodiscard]] double good_to(const std::optional<job::GaugeId>& of, double holds) const {
        return of ? job_.gauges[at(*of)].half_width : holds;
    }

    // What the fields of a cut by size and of one by amount have in common.
    [[nodiscard]] LivePlace place_of(job::PartId p, const job::Cut& cut,
                                     LiveField::Kind kind) const {
        const job::Part& part = job_.parts[at(p)];
        const std::optional<job::GaugeId> read_by = job::gauge_of(part, cut);
        return {.field = {.kind = kind,
                          .what = job::name(job_, job::FaceRef{p, cut.face}),
                          .from = job::name(job_, job::FaceRef{p, cut.measure}),
                          .read_by = gauge(read_by),
                          .half_width = good_to(read_by, cut.holds),
                          .bounds = {},
                          .reference = {},
                          .planned = {}},
                .part = p,
                .cut = &cut,
                .seat = {},
                .cone = {},
                .ring = {},
                .size = {SizeRole::dimension, p, cut.face, 0},
                .sign = job::outboard_sign(part, cut)};
    }

    void add_cut(job::PartId p, const job::Cut& cut) {
        const job::Part& part = job_.parts[at(p)];
        const double now = job::thickness(part, cut);
        const double most = job::greatest_thickness(part, cut);
        if (!std::isfinite(now) || !std::isfinite(most)) return add_take(p, cut);
        LivePlace place = place_of(p, cut, LiveField::Kind::cut);
        place.field.now = now;
        place.field.least = kLeastOfKeep * cut.keep;
        place.field.most = most;
        place.field.bounds = {{.nominal = cut.keep, .worst = cut.keep}};
        place.field.planned = planned_.cut(place.field.what);
        add(std::move(place), now);
    }

    // Nobody knows how much is there: what came off says where the face lies now.
    void add_take(job::PartId p, const job::Cut& cut) {
        LivePlace place = place_of(p, cut, LiveField::Kind::take);
        place.field.least = place.field.half_width;
        place.field.most = cut.keep;
        place.field.planned = planned_.take(place.field.what);
        place.sign = -place.sign;
        add(std::move(place), 0.0);
    }

    void add_shims(job::PartId p, job::SeatId s) {
        const job::Shims& shims = *job_.parts[at(p)].seats[at(s)].shims;
        double thickest = 0.0;
        for (const job::ShimStock& each : shims.stock)
            thickest = std::max(thickest, each.thickness.size.nominal);
        const double one = shims.stock.front().thickness.size.nominal;
        add({.field = {.kind = LiveField::Kind::shims,
                       .what = job_.parts[at(p)].name,
                       .from = {},
                       .read_by = {},
                       .half_width = shims.holds,
                       .now = one,
                       .most = thickest,
                       .bounds = {},
                       .reference = {},
                       .planned = planned_.shims(job_.parts[at(p)].name)},
             .part = p,
             .seat = s,
             .cone = {},
             .ring = {},
             .size = {SizeRole::shim, p, s, 0}},
            one);
    }

    void add_lap(job::PartId p, const job::Lap& lap) {
        const job::ConeRef cone{p, lap.cone};
        const std::string name = job::cone_name(job_, cone);
        if (lap.at_most_on_diameter <= 0.0) return;
        const double sign = stack::lap_sign(job_, cone);
        add({.field = {.kind = LiveField::Kind::lap,
                       .what = name,
                       .from = {},
                       .read_by = {},
                       .most = lap.at_most_on_diameter,
                       .bounds = {},
                       .reference = {},
                       .dia = job_.parts[at(p)].cones[at(lap.cone)].dia.size.nominal,
                       .dia_sign = sign,
                       .planned = planned_.lap(name)},
             .part = p,
             .seat = {},
             .cone = cone,
             .ring = {},
             .size = {SizeRole::cone_diameter, p, lap.cone, 0},
             .sign = sign},
            0.0);
    }

    void add_skim(job::PartId p, const job::Skim& skim) {
        const job::RingRef ref{p, skim.ring};
        const job::Ring& ring = job_.parts[at(p)].rings[at(skim.ring)];
        const quantity::Size& size = (skim.bore ? ring.bore : ring.outside).size;
        const quantity::Size& other = (skim.bore ? ring.outside : ring.bore).size;
        const std::string name = job::ring_name(job_, ref);
        const std::string what = name + (skim.bore ? ".bore" : ".od");
        if (size.is_unmeasured() || other.is_unmeasured()) {
            found_.open_work.push_back(what);
            return;
        }
        const std::optional<job::GaugeId> read_by =
            skim.read_by ? skim.read_by : (skim.bore ? ring.bore : ring.outside).gauge;
        std::vector<LiveBound> bounds;
        const double wall = skim.bore ? -2.0 * skim.keep : 2.0 * skim.keep;
        if (skim.keep > 0.0)
            bounds.push_back({.nominal = other.nominal + wall,
                              .worst = (skim.bore ? other.lower : other.upper) + wall,
                              .is_most = skim.bore});
        if (skim.until)
            bounds.push_back({.nominal = *skim.until, .worst = *skim.until, .is_most = skim.bore});
        // The most that is off: twice what the nearest bound allows.
        double off = kMostSkimmed * size.nominal;
        for (const LiveBound& bound : bounds)
            off = std::min(off, 2.0 * std::abs(size.nominal - bound.nominal));
        const double half = good_to(read_by, skim.holds);
        add({.field = {.kind = LiveField::Kind::skim,
                       .what = what,
                       .from = {},
                       .read_by = gauge(read_by),
                       .half_width = half,
                       .now = size.nominal,
                       .least = skim.bore ? size.lower : size.nominal - off,
                       .most = skim.bore ? size.nominal + off : size.upper,
                       .bounds = std::move(bounds),
                       .reference = {},
                       .bore = skim.bore,
                       .planned = planned_.skim(name, skim.bore)},
             .part = p,
             .seat = {},
             .cone = {},
             .ring = ref,
             .size = {skim.bore ? SizeRole::ring_bore : SizeRole::ring_outside, p, skim.ring, 0}},
            size.nominal);
    }

    void add_centring(job::PartId p, const job::Centring& centred) {
        const quantity::Size& clearance = centred.clearance.size;
        if (clearance.is_unmeasured()) {
            found_.open_work.push_back(job_.parts[at(p)].name);
            return;
        }
        add({.field = {.kind = LiveField::Kind::centring,
                       .what = job_.parts[at(p)].name,
                       .from = {},
                       .read_by = {},
                       .now = clearance.upper,
                       .most = clearance.upper,
                       .bounds = {},
                       .reference = {},
                       .planned = planned_.centring(job_.parts[at(p)].name)},
             .part = p,
             .seat = {},
             .cone = {},
             .ring = {},
             .size = {SizeRole::centring_clearance, p, 0, 0}},
            clearance.upper);
    }

    const job::Job& job_;
    Planned planned_;
    LivePlaces found_;
};

}  // namespace

LivePlaces live_places(const job::Job& job, const plan::PlanMade* plan) {
    return Finder(job, plan).find();
}

LiveSize typed(const LiveField& field, double value, int pieces) {
    switch (field.kind) {
        case LiveField::Kind::lap:
            return {.middle = value};
        case LiveField::Kind::centring:
            return {
                .middle = value / 2.0, .half_width = value / 2.0, .squares = value * value / 4.0};
        case LiveField::Kind::cut:
        case LiveField::Kind::take:
        case LiveField::Kind::shims:
        case LiveField::Kind::skim:
            break;
    }
    return {.middle = value * pieces,
            .half_width = field.half_width * pieces,
            .squares = field.half_width * field.half_width * pieces};
}

void add_work(const LivePlace& place, double value, int pieces, stack::Changes& changes) {
    const LiveField& field = place.field;
    switch (field.kind) {
        case LiveField::Kind::cut:
        case LiveField::Kind::take:
            changes.cuts.push_back({.part = place.part,
                                    .face = place.cut->face,
                                    .measure = place.cut->measure,
                                    .size = given_of(place.sign * value, field.half_width),
                                    .by_amount = field.kind == LiveField::Kind::take});
            return;
        case LiveField::Kind::shims: {
            stack::Restacked laid{.part = place.part, .seat = place.seat, .shims = {}};
            for (int piece = 0; piece < pieces; ++piece)
                laid.shims.push_back({.shim = given_of(value, field.half_width)});
            changes.stacks.push_back(std::move(laid));
            return;
        }
        case LiveField::Kind::skim:
            changes.skims.push_back({.ring = place.ring,
                                     .bore = field.bore,
                                     .size = given_of(value, field.half_width)});
            return;
        case LiveField::Kind::lap:
            changes.laps.push_back({.cone = place.cone, .off_diameter = value});
            return;
        case LiveField::Kind::centring:
            changes.centrings.push_back(
                {.part = place.part, .clearance = given_of(value / 2.0, value / 2.0)});
            return;
    }
}

}  // namespace trialfit::sheet
