// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/strength/materials.hpp>
#include <trialfit/trade/strength/rotor.hpp>
#include <trialfit/trade/strength/thermal.hpp>

// Tables of bodies that turn and that warm up: a plain ring, a length.
namespace trialfit::trade {

namespace {

constexpr std::string_view kRing = "ring";
constexpr std::string_view kGrowth = "growth";
constexpr std::string_view kSpun = "Shigley, Mechanical Engineering Design, eq. 3-55";
constexpr std::string_view kRim = "Khurmi and Gupta, Theory of Machines, ch. 16";
constexpr std::string_view kSteiner = "parallel axes";
constexpr std::string_view kHooke = "Hooke's law and alpha L dT";

// Takes the first word with that unit out of the words. One more is left, and then belongs to
// nothing.
std::optional<double> taken(QueryWords& words, std::string_view unit) {
    for (auto at = words.begin(); at != words.end(); ++at) {
        const auto value = with_unit(*at, unit);
        if (!value) continue;
        words.erase(at);
        return value;
    }
    return {};
}

// Takes `name` with the length behind it out of the words; a reason where that is no length.
Result<std::optional<double>> taken_length(QueryWords& words, std::string_view name,
                                           std::string_view kind) {
    const auto at = std::find(words.begin(), words.end(), name);
    if (at == words.end()) return std::optional<double>();
    const auto length = at + 1 == words.end() ? std::nullopt : length_mm(*(at + 1));
    if (!length) return ask_like("'" + std::string(name) + "' is followed by a length", kind);
    words.erase(at, at + 2);
    return length;
}

struct AskedRing {
    double bore = 0.0;
    double od = 0.0;
    double length = 0.0;
    Material of;
    std::optional<double> rpm;
    std::optional<double> stress_mpa;
    std::optional<double> torque_n_mm;
    std::optional<double> off;
};

Result<AskedRing> asked_ring(QueryWords words) {
    AskedRing asked;
    asked.rpm = taken(words, "rpm");
    asked.stress_mpa = taken(words, "MPa");
    asked.torque_n_mm = taken(words, "Nm");
    if (asked.torque_n_mm) *asked.torque_n_mm *= 1e3;
    const auto off = taken_length(words, "off", kRing);
    if (!off) return off.why();
    asked.off = *off;
    if (asked.torque_n_mm && !asked.rpm)
        return ask_like("a torque (8Nm) is asked of with a speed (6000rpm)", kRing);
    if (words.size() < 4)
        return ask_like("bore (0: solid), outside, length and material are needed", kRing);
    const auto bore = words[0] == "0" ? std::optional<double>(0.0) : length_mm(words[0]);
    const auto od = length_mm(words[1]);
    const auto length = length_mm(words[2]);
    if (!bore || !od || !length) return ask_like("one of the lengths is none", kRing);
    asked.bore = *bore;
    asked.od = *od;
    asked.length = *length;
    const auto of = material(joined(QueryWords(words.begin() + 3, words.end())));
    if (!of) return of.why();
    asked.of = *of;
    if (!of->density_kg_m3)
        return Reason{"there is no density at hand of " + std::string(of->name)};
    return asked;
}

// What spinning does to it: at a speed, and the speeds at which it comes to a stress.
std::optional<Reason> add_spinning(Reference& out, const AskedRing& asked) {
    const SpinningRing ring{.bore = asked.bore,
                            .od = asked.od,
                            .density_kg_m3 = asked.of.density_kg_m3->value,
                            .poisson = asked.of.poisson ? asked.of.poisson->value : 0.0};
    if (!asked.of.poisson) return Reason{"there is no Poisson's ratio at hand of this material"};
    if (asked.rpm) {
        const auto stress = spinning_ring(ring, *asked.rpm);
        if (!stress) return stress.why();
        out.rows.push_back(figure("speed of the rim", stress->rim_speed_m_s, "m/s", "w r"));
        out.rows.push_back(figure("hoop stress at the bore", stress->hoop_bore_mpa, "MPa", kSpun));
        out.rows.push_back(figure("hoop stress at the rim", stress->hoop_rim_mpa, "MPa", kSpun));
        out.rows.push_back(figure("greatest radial stress", stress->radial_most_mpa, "MPa", kSpun));
        out.rows.push_back(
            figure("hoop stress, mean", stress->mean_hoop_mpa, "MPa", "balance of one half"));
    }
    if (!asked.stress_mpa) return {};
    const std::string at = " at " + shown(*asked.stress_mpa) + " MPa";
    const auto first = first_yield_rpm(ring, *asked.stress_mpa);
    const auto all = fully_plastic_rpm(ring, *asked.stress_mpa);
    const auto rim = thin_rim_speed_m_s(ring.density_kg_m3, *asked.stress_mpa);
    if (!first) return first.why();
    if (!all) return all.why();
    if (!rim) return rim.why();
    out.rows.push_back(figure("revolutions per minute, bore" + at, *first, "", kSpun));
    out.rows.push_back(figure("revolutions per minute, mean hoop stress" + at, *all, "",
                              "Boresi and Schmidt, Advanced Mechanics of Materials, ex. 11.8"));
    out.rows.push_back(figure("speed of a thin rim" + at, *rim, "m/s", kRim));
    if (asked.rpm)
        out.rows.push_back(figure("diameter of a thin rim" + at,
                                  diameter_of_rim_speed(*rim, *asked.rpm), "mm", kRim));
    return {};
}

struct AskedGrowth {
    double length = 0.0;
    double warming_k = 0.0;
    std::vector<Material> of;  // one, or two
    std::vector<double> areas_mm2;
    std::optional<double> stress_mpa;
    std::optional<double> room;
};

Result<AskedGrowth> asked_growth(QueryWords words) {
    AskedGrowth asked;
    asked.stress_mpa = taken(words, "MPa");
    while (const auto area = taken(words, "mm2"))
        asked.areas_mm2.push_back(*area);
    const auto room = taken_length(words, "room", kGrowth);
    if (!room) return room.why();
    asked.room = *room;
    if (words.size() < 3) return ask_like("length, warming and material are needed", kGrowth);
    const auto length = length_mm(words[0]);
    const std::string_view warming = words[1];
    const auto kelvin =
        decimal(trimmed(warming.substr(0, warming.size() - (warming.ends_with('K') ? 1 : 0))));
    if (!length || !kelvin) return ask_like("a length and a warming (80K) are needed", kGrowth);
    asked.length = *length;
    asked.warming_k = *kelvin;
    const auto against = std::find(words.begin() + 2, words.end(), "against");
    std::vector<QueryWords> names{QueryWords(words.begin() + 2, against)};
    if (against != words.end()) names.emplace_back(against + 1, words.end());
    for (const QueryWords& name : names) {
        const auto of = material(joined(name));
        if (!of) return of.why();
        if (!of->expansion_per_k)
            return Reason{"there is no expansion at hand of " + std::string(of->name)};
        asked.of.push_back(*of);
    }
    if ((asked.stress_mpa || asked.room) &&
        (!(asked.warming_k > 0.0) || !asked.of.front().modulus_mpa))
        return ask_like("a stress or a room is asked of a metal that grows warmer", kGrowth);
    if (!asked.areas_mm2.empty() && (asked.areas_mm2.size() != 2 || asked.of.size() != 2))
        return ask_like("areas (707mm2 396mm2) are of two materials, in their order", kGrowth);
    return asked;
}

// Kept from growing: between walls, with some room, or tied to the other.
std::optional<Reason> add_held(Reference& out, const AskedGrowth& asked) {
    const Material& one = asked.of.front();
    if (!one.modulus_mpa) return {};
    const double expansion = one.expansion_per_k->value;
    const double modulus = one.modulus_mpa->value;
    const std::string name(one.name);
    const auto held = [&](double room) {
        return held_bar_stress_mpa(asked.length, expansion, asked.warming_k, modulus, room);
    };
    if (asked.warming_k > 0.0) {
        out.rows.push_back(
            figure(name + ", stress where it cannot grow", held(0.0), "MPa", kHooke));
        if (asked.room)
            out.rows.push_back(figure(name + ", stress with " + shown(*asked.room) + " mm of room",
                                      held(*asked.room), "MPa", kHooke));
        if (asked.stress_mpa)
            out.rows.push_back(
                figure(name + ", room that leaves it at " + shown(*asked.stress_mpa) + " MPa",
                       std::max(0.0, room_for_stress(asked.length, expansion, asked.warming_k,
                                                     modulus, *asked.stress_mpa)),
                       "mm", kHooke));
    }
    if (asked.areas_mm2.empty()) return {};
    std::array<TiedBar, 2> bars;
    for (std::size_t i = 0; i < 2; ++i) {
        if (!asked.of[i].modulus_mpa) return Reason{"one of these materials has no modulus"};
        bars[i] = {.area_mm2 = asked.areas_mm2[i],
                   .modulus_mpa = asked.of[i].modulus_mpa->value,
                   .expansion_per_k = asked.of[i].expansion_per_k->value};
    }
    const bool first_more = bars[0].expansion_per_k >= bars[1].expansion_per_k;
    const auto tied = first_more ? tied_bars(bars[0], bars[1], asked.warming_k)
                                 : tied_bars(bars[1], bars[0], asked.warming_k);
    if (!tied) return tied.why();
    for (std::size_t i = 0; i < 2; ++i)
        out.rows.push_back(figure(std::string(asked.of[i].name) + " tied to the other, stress",
                                  (i == 0) == first_more ? tied->more_mpa : tied->less_mpa, "MPa",
                                  kHooke));
    out.rows.push_back(figure("growth of both, tied", tied->strain * asked.length, "mm", kHooke));
    return {};
}

}  // namespace

Result<Reference> ring_reference(const QueryWords& words) {
    const auto asked = asked_ring(words);
    if (!asked) return asked.why();
    const auto body =
        ring_inertia(asked->bore, asked->od, asked->length, asked->of.density_kg_m3->value);
    if (!body) return body.why();
    Reference out;
    out.answer = "A plain ring of " + std::string(asked->of.name) + ", " + shown(asked->bore) +
                 " bore, " + shown(asked->od) + " outside, " + shown(asked->length) + " mm long.";
    out.rows = {
        figure("mass", body->mass_kg, "kg", asked->of.density_kg_m3->source),
        figure("inertia about its axis", body->inertia_kg_m2, "kg m2", "m (D^2 + d^2) / 8")};
    if (asked->off)
        out.rows.push_back(figure("inertia about an axis " + shown(*asked->off) + " mm beside it",
                                  about_axis_at(*body, *asked->off).inertia_kg_m2, "kg m2",
                                  kSteiner));
    if (asked->rpm || asked->stress_mpa)
        if (const auto reason = add_spinning(out, *asked)) return *reason;
    if (asked->rpm && asked->torque_n_mm) {
        const SpinUp up = spin_up(*body, *asked->torque_n_mm, *asked->rpm);
        out.rows.push_back(figure("time to that speed by a joint that slips at that torque",
                                  up.time_s, "s", "Khurmi and Gupta, Theory of Machines"));
        out.rows.push_back(figure("heat in the joint", up.slip_heat_j, "J", "J w^2 / 2"));
    }
    out.notes = {
        "This is a plain, sound ring. Holes, slots, magnets, cracks, castings and cuts make it "
        "burst at a lower speed: nothing here says that a rotor may be run."};
    return out;
}

Result<Reference> growth_reference(const QueryWords& words) {
    const auto asked = asked_growth(words);
    if (!asked) return asked.why();
    Reference out;
    out.answer = shown(asked->length) + " mm, " + shown(std::abs(asked->warming_k)) + " K " +
                 (asked->warming_k < 0.0 ? "colder." : "warmer.");
    std::vector<double> grown;
    for (const Material& each : asked->of) {
        grown.push_back(
            thermal_growth(asked->length, each.expansion_per_k->value, asked->warming_k));
        out.rows.push_back(figure("growth of " + std::string(each.name), grown.back(), "mm",
                                  each.expansion_per_k->source));
    }
    if (grown.size() == 2)
        out.rows.push_back(figure("difference", grown[0] - grown[1], "mm", "of the two above"));
    if (const auto reason = add_held(out, *asked)) return *reason;
    out.notes = {
        "All of it as warm as that, and even. A job file judges gaps in states of its own."};
    return out;
}

}  // namespace trialfit::trade
