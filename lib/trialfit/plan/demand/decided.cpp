// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/job/former.hpp>
#include <trialfit/plan/demand/decided.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/model/index.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

using stack::at;
using stack::Form;
using stack::FormBuilder;

constexpr double kUnlimited = std::numeric_limits<double>::infinity();

// The parts' cuts, laps and seats, as far as there is anything to decide.
class Deciding {
public:
    explicit Deciding(const stack::Model& model, Demands& into)
        : model_(model), job_(model.job()), into_(into) {}

    void gather() {
        for (const job::PartId p : job::indices(job_.parts)) {
            const job::Part& part = job_.parts[at(p)];
            for (const job::Cut& cut : part.cuts)
                add(p, cut);
            for (const job::Lap& lap : part.laps)
                if (lap.at_most_on_diameter > 0.0)
                    into_.works.emplace_back(ConeLap{.part = p, .lap = &lap});
            for (const job::Skim& skim : part.skims)
                add(p, skim);
            if (part.centred && part.centred->centre_to && stack::asks_radial(job_))
                add(p, *part.centred);
            const std::optional<job::SeatId> seat = stack::holding_seat(model_, p);
            if (!seat) continue;
            const std::optional<job::Shims>& shims = part.seats[at(*seat)].shims;
            if (shims && !shims->stock.empty()) add(p, *seat, *shims);
        }
        tell_stand_offs();
    }

private:
    void add(job::PartId p, const job::Cut& cut) {
        FaceCut face{.part = p, .cut = &cut};
        face.length.old = model_.gap({.face = {.part = p, .face = cut.measure}},
                                     {.face = {.part = p, .face = cut.face}});
        if (model_.unmeasured().open(face.length.old)) return add_by_amount(std::move(face));
        const double now = adjusted(face.length.old);
        face.sign = now < 0.0 ? -1.0 : 1.0;
        face.now = std::abs(now);
        face.length.start = now;
        face.length.by_depth = -face.sign;
        face.length.holds = cut.holds;
        face.most = face.now - cut.keep - cut.holds;
        if (face.most < 0.0) {
            into_.notes.emplace_back(NoRoomToCut{.face = job::name(job_, job::FaceRef{p, cut.face}),
                                                 .now = face.now,
                                                 .keep = cut.keep,
                                                 .holds = cut.holds});
            return;
        }
        into_.works.emplace_back(std::move(face));
    }

    // No more may come off than any shaft end is long: what remains is not known.
    void add_by_amount(FaceCut face) {
        constexpr double kMost_mm = 1000.0;
        face.by_amount = true;
        face.sign = job::outboard_sign(job_.parts[at(face.part)], *face.cut);
        face.most = quantity::convert(kMost_mm, quantity::Unit::mm, job_.units);
        face.length.old = {.constant = 0.0,
                           .sensitivities = Eigen::SparseVector<double>(
                               static_cast<Eigen::Index>(model_.sizes().size()))};
        face.length.by_depth = -face.sign;
        face.length.holds = face.cut->holds;
        into_.works.emplace_back(std::move(face));
    }

    // The wall is what remains in the worst case, the other diameter being what it is.
    void add(job::PartId p, const job::Skim& skim) {
        const std::string name = job::ring_name(job_, {p, skim.ring});
        if (!stack::asks_radial(job_)) {
            into_.notes.emplace_back(NoRadialGapAsked{.ring = name});
            return;
        }
        const stack::RadialSizes& sizes = model_.radial();
        const int bore = sizes.bore[at(p)][at(skim.ring)];
        const int outside = sizes.outside[at(p)][at(skim.ring)];
        RingSkim ring{.part = p, .skim = &skim};
        ring.length.old = alone(skim.bore ? bore : outside);
        ring.now = adjusted(ring.length.old);
        ring.length.start = ring.now;
        ring.length.by_depth = skim.bore ? 1.0 : -1.0;
        ring.length.holds = skim.holds;
        const job::Ring& written = job_.parts[at(p)].rings[at(skim.ring)];
        ring.length.written = (skim.bore ? written.bore : written.outside).size.nominal;
        ring.most = kUnlimited;
        const quantity::Size& other = model_.sizes()[at(skim.bore ? outside : bore)].size;
        if (skim.keep > 0.0)
            ring.most = skim.bore ? other.lower - 2.0 * skim.keep - ring.now
                                  : ring.now - other.upper - 2.0 * skim.keep;
        if (skim.until)
            ring.most = std::min(ring.most, ring.length.by_depth * (*skim.until - ring.now));
        ring.most -= skim.holds;
        if (ring.most < 0.0) {
            into_.notes.emplace_back(NoRoomToSkim{.ring = name, .holds = skim.holds});
            return;
        }
        into_.works.emplace_back(std::move(ring));
    }

    void add(job::PartId p, const job::Centring& centring) {
        const double left = *centring.centre_to;
        if (left >= centring.clearance.size.upper) return;
        HandCentring by_hand{.part = p, .centring = &centring};
        by_hand.length.old = alone(model_.radial().centring[at(p)]);
        by_hand.length.start = 0.5 * left;
        by_hand.length.holds = 0.5 * left;
        into_.works.emplace_back(std::move(by_hand));
    }

    [[nodiscard]] double adjusted(const Form& form) const {
        return stack::value(model_.ties().adjusted(form), model_.columns().nominal);
    }
    [[nodiscard]] Form alone(int size) const {
        FormBuilder builder;
        builder.add(size, 1.0);
        return std::move(builder).build(model_.columns().nominal.size());
    }

    // A stand-off was measured from the face as it was.
    void tell_stand_offs() {
        for (const job::PartId p : job::indices(job_.parts))
            for (const job::Seat& seat : job_.parts[at(p)].seats) {
                if (seat.kind != job::SeatKind::face_at_offset) continue;
                for (const job::FaceRef face : {seat.against, job::FaceRef{p, seat.own}})
                    if (job::cut_of(job_, face) != nullptr)
                        into_.notes.emplace_back(OffsetStays{.part = job_.parts[at(p)].name,
                                                             .from = job::name(job_, seat.against),
                                                             .cut = job::name(job_, face)});
            }
    }

    void add(job::PartId p, job::SeatId seat, const job::Shims& shims) {
        if (!shims.at_most_said)
            into_.notes.emplace_back(
                ShimCountTaken{.part = job_.parts[at(p)].name, .most = shims.at_most});
        ShimSeat place{.part = p, .seat = seat, .shims = &shims};
        for (int i = 0; i < static_cast<int>(shims.fitted.size()); ++i)
            place.pieces.push_back(form_of({job::SizeRole::shim, p, seat, i}, shims.fitted[at(i)]));
        into_.seats.push_back(std::move(place));
    }

    // An exact shim is no size of the model's but a constant.
    [[nodiscard]] Form form_of(job::SizeId id, const job::Given& piece) const {
        FormBuilder builder;
        if (const std::optional<int> column = model_.column_of(id)) {
            builder.add(*column, 1.0);
        } else {
            builder.add(piece.size.nominal);
        }
        return std::move(builder).build(static_cast<Eigen::Index>(model_.sizes().size()));
    }

    const stack::Model& model_;
    const job::Job& job_;
    Demands& into_;
};

}  // namespace

Demands decided(const stack::Model& model) {
    Demands all;
    Deciding(model, all).gather();
    return all;
}

}  // namespace trialfit::plan
