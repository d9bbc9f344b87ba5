// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/seat/change/changes.hpp>
#include <trialfit/stack/model/cone_seat.hpp>

namespace trialfit::seat {

namespace {

void shift(job::Given& given, double by) {
    given.size.nominal += by;
    given.size.lower += by;
    given.size.upper += by;
}

// What the shaft's diameter must lose for the hub to come in by 1.
double diameter_for_travel(const job::Cone& shaft, const job::Cone& hub) {
    const auto shape = [](const job::Cone& cone) {
        return stack::ConeShape{
            .dia = cone.dia.size.nominal, .taper = cone.taper, .length = cone.length.size.nominal};
    };
    return 1.0 / stack::seat_on_cone(shape(shaft), shape(hub)).by_dia;
}

}  // namespace

job::Job drawn_up(const job::Job& job, job::PartId hub, double draw_up) {
    job::Job moved = job;
    moved.readings.clear();  // taken before the nut was tightened
    moved.before.reset();
    moved.seat.reset();  // so that nobody draws it up a second time
    job::Part& part = moved.parts.at(static_cast<std::size_t>(hub));
    for (job::Seat& seat : part.seats) {
        if (seat.offset) shift(*seat.offset, -draw_up);
        if (seat.kind != job::SeatKind::cone_on_cone) continue;
        job::Cone& shaft = moved.parts.at(static_cast<std::size_t>(seat.on_cone.part))
                               .cones.at(static_cast<std::size_t>(seat.on_cone.index));
        const job::Cone& own = part.cones.at(static_cast<std::size_t>(seat.own_cone));
        shift(shaft.dia, -draw_up * diameter_for_travel(shaft, own));
    }
    return moved;
}

job::Job cut_to_keep(const job::Job& job, job::PartId part, const job::Cut& cut, double size_now) {
    job::Job changed = job;
    changed.readings.clear();
    changed.before.reset();
    job::Part& of = changed.parts.at(static_cast<std::size_t>(part));
    const double inwards = size_now > 0.0 ? -1.0 : 1.0;  // towards the face it is measured from
    const double moves = inwards * std::max(std::abs(size_now) - cut.keep, 0.0);
    for (std::size_t f = 0; f < of.faces.size(); ++f)
        for (job::Dimension& dimension : of.faces[f].dimensions) {
            if (static_cast<int>(f) == cut.face) shift(dimension.distance, moves);
            if (dimension.from == cut.face) shift(dimension.distance, -moves);
        }
    for (job::Cone& cone : of.cones) {
        if (cone.at_face != cut.face) continue;
        shift(cone.dia, -cone.taper * moves);
        shift(cone.length, -moves);
    }
    return changed;
}

}  // namespace trialfit::seat
