// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/trade/cone/cone_joint.hpp>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/strength/materials.hpp>

// The table of a hub on its cone.
namespace trialfit::trade {

namespace {

constexpr std::string_view kSeat = "seat";
constexpr std::string_view kCones = "Khurmi and Gupta, Theory of Machines, ch. 10";
constexpr std::string_view kPressed = "Lame; Shigley, Mechanical Engineering Design, eq. 3-56";

// A cone, its friction, and what else is asked of it.
struct OnCone {
    ConeBearing cone;
    double friction = 0.0;
    QueryWords rest;
};

// A taper may be several words: the most that read as one are taken.
Result<OnCone> on_cone(const QueryWords& words) {
    for (std::size_t n = std::min<std::size_t>(words.size(), 6); n > 0; --n) {
        const auto behind = words.begin() + static_cast<std::ptrdiff_t>(n);
        const auto found = taper(joined(QueryWords(words.begin(), behind)));
        if (!found) continue;
        const QueryWords rest(behind, words.end());
        const auto dia = rest.size() < 3 ? std::nullopt : length_mm(rest[0]);
        const auto friction = rest.size() < 3 ? std::nullopt : decimal(rest[1]);
        if (!dia || !friction || !(*friction > 0.0) || !(*friction < 1.0)) break;
        return OnCone{.cone = {.taper = std::abs(*found), .mean_dia = *dia, .length = 0.0},
                      .friction = *friction,
                      .rest = QueryWords(rest.begin() + 2, rest.end())};
    }
    return ask_like(
        "a taper, the mean diameter, a friction such as 0.12 and a force (15000N), a torque (60Nm) "
        "or a draw-up (0.2mm) are needed",
        kSeat);
}

// What pushes the hub home, as it is written.
struct Push {
    std::optional<double> force_n;
    std::optional<double> torque_n_mm;
    std::optional<double> draw_up;
};
Push push_of(std::string_view written) {
    Push push{.force_n = with_unit(written, "N"), .torque_n_mm = with_unit(written, "Nm")};
    if (push.torque_n_mm) *push.torque_n_mm *= 1e3;
    if (!push.force_n && !push.torque_n_mm) push.draw_up = length_mm(written);
    return push;
}

// By force and friction alone; with a pressure, the length of cone that it takes.
Result<Reference> by_force(const OnCone& asked, const Push& push) {
    const ConeBearing& cone = asked.cone;
    const auto force = push.force_n
                           ? Result<double>(*push.force_n)
                           : axial_force_for_torque(cone, asked.friction, *push.torque_n_mm);
    if (!force) return force.why();
    const auto grip = cone_grip(cone, asked.friction, *force);
    if (!grip) return grip.why();
    const auto still = cone_grip(cone, asked.friction, *force, Seating::still);
    Reference out;
    out.rows = {figure("force along the axis", *force, "N", push.force_n ? "as asked" : kCones),
                figure("torque at which it slips round", grip->torque_n_mm / 1e3, "Nm", kCones),
                figure("the same, friction on the way home left out", still->torque_n_mm / 1e3,
                       "Nm", kCones),
                figure("force square to the cone", grip->normal_force_n, "N", kCones),
                figure("force that pulls it off, below 0: it comes off alone",
                       grip->pull_off_force_n, "N", kCones)};
    if (push.torque_n_mm)
        if (const auto hold =
                axial_force_for_torque(cone, asked.friction, *push.torque_n_mm, Seating::still))
            out.rows.push_back(figure("force along the axis, friction on the way home left out",
                                      *hold, "N", kCones));
    if (asked.rest.size() < 2) return out;
    const auto pressure = with_unit(asked.rest[1], "MPa");
    if (!pressure) return ask_like("'" + asked.rest[1] + "' is no pressure (0.1MPa)", kSeat);
    const auto length = cone_length_for(cone, grip->normal_force_n, *pressure);
    if (!length) return length.why();
    out.rows.push_back(figure("length of cone at that pressure", *length, "mm", kCones));
    const WornCone ends =
        cone_ends(cone.mean_dia, cone.taper, *length * std::hypot(1.0, cone.taper / 2.0));
    const auto worn = worn_cone_grip(ends, asked.friction, *pressure);
    if (ends.small_dia > 0.0 && worn) {
        out.rows.push_back(figure("worn in by slipping, force along the axis at that pressure",
                                  worn->axial_force_n, "N", kCones));
        out.rows.push_back(
            figure("worn in by slipping, torque", worn->torque_n_mm / 1e3, "Nm", kCones));
    }
    return out;
}

// With the length of the cone, the hub's outside and the metals: how far it goes and its stress.
Result<Reference> drawn_up(OnCone asked, const Push& push) {
    const QueryWords& rest = asked.rest;
    const auto length = length_mm(rest[1]);
    const auto hub = length_mm(rest[2]);
    if (!length || !hub)
        return ask_like("the cone's length or the hub's outside is no length", kSeat);
    const auto of_shaft = material(rest.size() > 3 ? rest[3] : "steel");
    if (!of_shaft) return of_shaft.why();
    const auto of_hub = material(rest.size() > 4 ? rest[4] : "steel");
    if (!of_hub) return of_hub.why();
    if (!of_shaft->elastic() || !of_hub->elastic())
        return Reason{"one of these materials has no modulus; name metals"};
    asked.cone.length = *length;
    const ConeBodies bodies{
        .hub_od = *hub, .shaft = *of_shaft->elastic(), .hub = *of_hub->elastic()};
    const auto press =
        push.force_n       ? press_from_force(asked.cone, bodies, asked.friction, *push.force_n)
        : push.torque_n_mm ? press_for_torque(asked.cone, bodies, asked.friction, *push.torque_n_mm)
                           : press_from_draw_up(asked.cone, bodies, asked.friction, *push.draw_up);
    if (!press) return press.why();
    Reference out;
    out.rows = {
        figure("draw-up along the axis", press->draw_up, "mm", "1 / taper"),
        figure("interference on the diameter", press->interference, "mm", "draw-up times taper"),
        figure("pressure on the cone", press->pressure_mpa, "MPa", kPressed),
        figure("hub at its bore, hoop stress", press->hub_hoop_mpa, "MPa", kPressed),
        figure("force along the axis", press->seat_force_n, "N", kCones),
        figure("torque at which it slips round", press->torque_n_mm / 1e3, "Nm", kCones),
        figure("force that pulls it off, below 0: it comes off alone", press->pull_off_force_n, "N",
               kCones)};
    return out;
}

}  // namespace

Result<Reference> seat_reference(const QueryWords& words) {
    const auto asked = on_cone(words);
    if (!asked) return asked.why();
    const Push push = push_of(asked->rest[0]);
    if (!push.force_n && !push.torque_n_mm && !push.draw_up)
        return ask_like("'" + asked->rest[0] +
                            "' is no force (15000N), torque (60Nm) or draw-up "
                            "(0.2mm)",
                        kSeat);
    if (push.draw_up && asked->rest.size() < 3)
        return ask_like("a draw-up needs the cone's length and the hub's outside as well", kSeat);
    if (asked->rest.size() > 5) return ask_like("that is asked for too much", kSeat);
    const auto found = asked->rest.size() < 3 ? by_force(*asked, push) : drawn_up(*asked, push);
    if (!found) return found.why();
    Reference out = *found;
    out.answer = "A hub on a cone of 1 in " + shown(std::round(1e3 / asked->cone.taper) / 1e3) +
                 ", mean diameter " + shown(asked->cone.mean_dia) + " mm, friction " +
                 shown(asked->friction) + ".";
    out.notes = {
        "Friction is a guess, and so are these figures. A cone that bears at one end, or is not "
        "clean and dry, holds less.",
        "Nothing here says that the hub stands it: hold the stress to the grade's yield. Cast iron "
        "has none."};
    return out;
}

}  // namespace trialfit::trade
