// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/draw/section/faces.hpp>
#include <trialfit/draw/section/profile.hpp>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/draw/section/stations.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

std::vector<Line> moved(std::vector<Line> lines, double by) {
    for (Line& line : lines) {
        line.from.z += by;
        line.to.z += by;
    }
    return lines;
}

// A solid shaft does not end in mid-air: it goes on, as thick as the thinner of its two ends.
std::vector<Line> presumed(const std::vector<Solid>& pieces) {
    std::vector<Line> out;
    const Solid* last = nullptr;
    for (const Solid& piece : pieces) {
        if (piece.inner0 > 0.0 || piece.inner1 > 0.0) continue;
        if (last != nullptr && piece.z0 > last->z1) {
            const double r = std::min(last->outer1, piece.outer0);
            out.push_back({{last->z1, r}, {piece.z0, r}});
        }
        last = &piece;
    }
    return out;
}

PartShape shape_of(const job::Part& part, const Profile& profile, double off) {
    PartShape out{.name = part.name, .turns = part.turns, .material = part.material};
    out.over_others = profile.over_others;
    out.off_place = off;
    std::vector<Solid> known;
    std::vector<Solid> unsure;
    for (const Solid& solid : profile.solids)
        (solid.unsure ? unsure : known).push_back(solid);
    Union metal = united(known);
    for (const Loop& loop : metal.outline) {
        out.outline.push_back(moved(loop, off));
        if (off > 0.0) out.in_place.push_back(loop);
    }
    const auto add = [&out, off](Solid piece) {
        piece.z0 += off;
        piece.z1 += off;
        out.pieces.push_back(piece);
    };
    for (const Solid& piece : metal.pieces)
        add(piece);
    out.presumed = presumed(out.pieces);
    const Union guessed = united(unsure);
    for (const Loop& loop : guessed.outline)
        out.unsure.push_back(moved(loop, off));
    for (const Solid& piece : guessed.pieces)
        add(piece);
    out.seams = moved(std::move(metal.seams), off);
    out.threads = moved(profile.threads, off);
    out.bare_cones = moved(profile.bare_cones, off);
    return out;
}

// The stretch of metal between the two ends that foul, where both parts have some.
std::vector<Loop> zone_of(const std::vector<Solid>& inboard, const std::vector<Solid>& outboard,
                          double from, double to) {
    std::vector<Solid> both;
    const Solid stretch = straight(from, to, 0.0, std::numeric_limits<double>::max());
    for (const Solid& a : inboard) {
        for (const Solid& b : outboard) {
            for (const Solid& piece : common(a, b)) {
                if (piece.z0 >= stretch.z1 || piece.z1 <= stretch.z0) continue;
                both.push_back(piece);
            }
        }
    }
    return united(both).outline;
}

std::vector<Foul> fouls_of(const std::vector<Profile>& profiles, const Faces& faces,
                           const std::vector<stack::Clearance>& pairs) {
    std::vector<Foul> out;
    for (const stack::Clearance& pair : pairs) {
        if (pair.gap.nominal >= -stack::kRounding || !pair.tightest) continue;
        const auto one = pair.inboard_of.part.at();
        const auto other = pair.outboard_of.part.at();
        const double from = faces[other][pair.outboard_end.face.at()] + pair.outboard_end.beyond;
        const double to = faces[one][pair.inboard_end.face.at()] + pair.inboard_end.beyond;
        out.push_back({.zone = zone_of(profiles[one].solids, profiles[other].solids, from, to),
                       .inboard = pair.inboard,
                       .outboard = pair.outboard,
                       .depth = -pair.gap.nominal,
                       .inboard_part = one,
                       .outboard_part = other});
    }
    return out;
}

// Where a seat's shims lie: between the two faces, as wide as both parts are there.
std::vector<Loop> shim_zone(const job::Job& job, std::size_t over, const job::Seat& seat, double z0,
                            double z1) {
    std::vector<Loop> out;
    for (const job::Ring& a : job.parts[seat.against.part.at()].rings) {
        for (const job::Ring& b : job.parts[over].rings) {
            const double inner = std::max(a.bore.size.nominal, b.bore.size.nominal) / 2.0;
            const double outer = std::min(a.outside.size.nominal, b.outside.size.nominal) / 2.0;
            if (a.outboard.face != seat.against.face || b.inboard.face != seat.own ||
                inner >= outer || z0 >= z1)
                continue;
            out.push_back(loop_of(straight(z0, z1, inner, outer)));
        }
    }
    return out;
}

// Shims that are fitted, between the faces that they lie on.
std::vector<ShimsDrawn> shims_of(const job::Job& job, const Faces& faces,
                                 const std::vector<double>& off) {
    std::vector<ShimsDrawn> out;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const job::Seat& seat : job.parts[p].seats) {
            if (seat.kind != job::SeatKind::face_on_face || !seat.shims ||
                seat.shims->fitted.empty())
                continue;
            const auto under = seat.against.part.at();
            const double z0 = faces[under][seat.against.face.at()] + off[under];
            const double z1 = faces[p][seat.own.at()] + off[under];
            ShimsDrawn shims{.zone = shim_zone(job, p, seat, z0, z1), .under = under, .over = p};
            for (const job::Given& each : seat.shims->fitted)
                shims.thicknesses.push_back(each.size.nominal);
            out.push_back(std::move(shims));
        }
    }
    return out;
}

// A key is drawn from here to as far from the other end, in shares of the cones' contact.
constexpr double kKeyFrom = 0.2;

// The slots of a key and the key in them, between two axial positions of a seat. The floors follow
// the cones or lie along the axis, as the job has it; a key too tall for its room holds the cones
// apart, so that its top meets the hub's floor.
void draw_key_in(const job::Key& key, const Line& shaft, const Line& hub, KeyDrawn& into) {
    const double room = key.room.size.nominal;
    const double height = key.height.size.nominal;
    const auto along = [&](const Line& cone, double over) {
        Line floor = cone;
        if (!key.floors_follow_cone) floor.from.r = floor.to.r = (cone.from.r + cone.to.r) / 2.0;
        floor.from.r += over;
        floor.to.r += over;
        return floor;
    };
    const auto between = [](const Line& low, const Line& high) {
        return Loop{low.from, low.to, high.to, high.from};
    };
    const Line floor = along(shaft, -room / 2.0);
    if (!std::isfinite(room + height) || !(std::min(floor.from.r, floor.to.r) > 0.0)) return;
    into.slot = between(floor, along(hub, room / 2.0));
    Line top = floor;
    top.from.r += height;
    top.to.r += height;
    into.metal = between(floor, top);
}

// Keys, each at the middle of its cones' contact.
std::vector<KeyDrawn> keys_of(const job::Job& job, const Faces& faces,
                              const std::vector<double>& off) {
    std::vector<KeyDrawn> out;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const job::Seat& seat : job.parts[p].seats) {
            if (seat.kind != job::SeatKind::cone_on_cone || !seat.key) continue;
            const auto shaft = seat.on_cone.part.at();
            const job::Cone& hub = job.parts[p].cones[seat.own_cone.at()];
            const job::Cone& on = job::at(job, seat.on_cone);
            const double hub_z = faces[p][hub.at_face.at()] + off[p];
            const double on_z = faces[shaft][on.at_face.at()] + off[shaft];
            const double from = std::max(hub_z, on_z);
            const double to =
                std::min(hub_z + hub.length.size.nominal, on_z + on.length.size.nominal);
            const double z = (from + to) / 2.0;
            const auto line = [&](const job::Cone& cone, double at) {
                const auto point = [&](double share) {
                    const double where = from + share * (to - from);
                    return Point{where, (cone.dia.size.nominal - cone.taper * (where - at)) / 2.0};
                };
                return Line{point(kKeyFrom), point(1.0 - kKeyFrom)};
            };
            const Line shaft_line = line(on, on_z);
            const double r = (shaft_line.from.r + shaft_line.to.r) / 2.0;
            if (!(to > from) || !std::isfinite(r)) continue;
            out.push_back({.at = {z, r},
                           .slot = {},
                           .metal = {},
                           .height = seat.key->height.size.nominal,
                           .room = seat.key->room.size.nominal,
                           .hub = p,
                           .shaft = shaft});
            draw_key_in(*seat.key, shaft_line, line(hub, hub_z), out.back());
        }
    }
    return out;
}

// Turns that are not whole, of parts where they should sit.
std::vector<LeadInDrawn> lead_ins_of(const job::Job& job, const Faces& faces) {
    std::vector<LeadInDrawn> out;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (std::size_t t = 0; t < job.parts[p].threads.size(); ++t) {
            const job::Thread& thread = job.parts[p].threads[t];
            const auto [w0, w1] = whole_turns(thread, faces[p]);
            const auto [z0, z1] = std::minmax(faces[p][thread.from.at()], faces[p][thread.to.at()]);
            const double r = thread.form.d_mm / 2.0 / quantity::mm_per(job.units);
            const std::string name =
                job::thread_name(job, {static_cast<int>(p), static_cast<int>(t)});
            if (w0 > z0) out.push_back({{w0, r}, {z0, r}, name});
            if (w1 < z1) out.push_back({{w1, r}, {z1, r}, name});
        }
    }
    return out;
}

void measure(Section& section) {
    section.z_min = std::numeric_limits<double>::infinity();
    section.z_max = -section.z_min;
    const auto see = [&section](const Point& point) {
        section.z_min = std::min(section.z_min, point.z);
        section.z_max = std::max(section.z_max, point.z);
        section.r_max = std::max(section.r_max, point.r);
    };
    for (const PartShape& part : section.parts) {
        for (const std::vector<Loop>* loops : {&part.outline, &part.in_place, &part.unsure})
            for (const Loop& loop : *loops)
                for (const Point& point : loop)
                    see(point);
        for (const Line& line : part.bare_cones) {
            see(line.from);
            see(line.to);
        }
    }
    for (const SectionDimension& dimension : section.dimensions) {
        see(dimension.from);
        see(dimension.to);
    }
}

}  // namespace

std::variant<Section, job::Complaints> section(const stack::Model& model,
                                               const stack::Options& options,
                                               stack::CheckAnswer check) {
    const job::Job job = with_rings_guessed(model.job());
    Section out{.title = job.title,
                .file = job.file,
                .units = job.units,
                .planned = !job.planned.empty(),
                .later_entries = job.record.size() - job.in_force};
    out.check = std::move(check);
    const FacesDrawn drawn = faces_drawn(model);
    const Faces& faces = drawn.at;
    const std::vector<stack::Clearance> pairs =
        stack::clearances(model, options.judge, options.inflate).pairs;
    const std::vector<double> off = rests(job, pairs);
    std::vector<Profile> profiles;
    bool anything = false;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        profiles.push_back(profile(job, static_cast<int>(p), faces[p], drawn.known[p]));
        anything = anything || !profiles[p].solids.empty() || !profiles[p].bare_cones.empty();
        out.parts.push_back(shape_of(job.parts[p], profiles[p], off[p]));
        out.parts.back().general_tolerance =
            job.parts[p].general_tolerance.value_or(job.general_tolerance);
    }
    if (!anything)
        return job::Complaints{
            {.fault = "no part has a ring or a cone, so there is nothing to draw",
             .mend = "give the parts rings: {from, to, bore, od}"}};
    out.shims = shims_of(job, faces, off);
    out.keys = keys_of(job, faces, off);
    out.lead_ins = lead_ins_of(job, faces);
    out.bearings = bearing_ends(job, faces);
    out.fouls = fouls_of(profiles, faces, stack::listed(pairs, false));
    out.dimensions = dimensions(job, faces, off, out.check);
    out.checks_left_out = job.checks.size() - shown_checks(job, out.check).size();
    mark_finishes(model, stack::planned_changes(model.job()), out);
    measure(out);
    return out;
}

std::variant<Section, job::Complaints> section(const job::Job& job, const stack::Options& options) {
    auto checked = stack::check(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&checked)) return std::move(*complaints);
    auto built = stack::model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    return section(std::get<stack::Model>(built), options,
                   std::move(std::get<stack::CheckAnswer>(checked)));
}

}  // namespace trialfit::draw
