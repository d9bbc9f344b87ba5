// SPDX-License-Identifier: MIT
#include <array>
#include <trialfit/trade/fastening/engagement.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/fastening/torque.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/strength/materials.hpp>
#include <trialfit/trade/strength/thermal.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>
#include <trialfit/trade/thread/profile.hpp>

// Tables of what holds: bolts and nuts by class, threads in softer metals, shrink fits.
namespace trialfit::trade {

namespace {

constexpr std::string_view kShearOut = "FED-STD-H28/2B, diameters at least material";

// The last word is the class, or the last two are ("grade 5"); what is before it the thread.
struct ThreadAndClass {
    ThreadForm form;
    std::string property_class;
};
Result<ThreadAndClass> thread_and_class(const QueryWords& words, std::string_view kind) {
    if (words.size() < 2) return ask_like("a thread and a property class are needed", kind);
    const std::ptrdiff_t of_class = words.size() > 2 && *(words.end() - 2) == "grade" ? 2 : 1;
    const auto form = thread(joined(QueryWords(words.begin(), words.end() - of_class)));
    if (!form) return form.why();
    return ThreadAndClass{*form, joined(QueryWords(words.end() - of_class, words.end()))};
}

// "class 8.8", "grade 5"
std::string named(std::string_view property_class) {
    return (property_class.starts_with("grade") ? "" : "class ") + std::string(property_class);
}

std::string_view bolt_standard(std::string_view property_class) {
    if (property_class.front() == 'A') return "ISO 3506-1 (from memory)";
    return property_class.front() == 'g' ? "SAE J429 (from memory)" : "ISO 898-1:2013, table 3";
}

struct Tapped {
    std::string_view material;
    TappedMetal metal;
};
constexpr std::array<Tapped, 4> kTapped{{{"1020", TappedMetal::steel},
                                         {"g3000", TappedMetal::cast_iron},
                                         {"6061 t6", TappedMetal::aluminium},
                                         {"356 t6", TappedMetal::aluminium}}};

// What a maker of fasteners recommends in tapped steel, where it has a figure for the class.
void add_recommended(Reference& out, const ThreadAndClass& asked) {
    constexpr std::array<double, 3> kSteels{360.0, 500.0, 800.0};
    for (const double over : kSteels)
        if (const auto times = recommended_engagement(
                over + 1.0, asked.property_class, asked.form.series == ThreadSeries::metric_fine))
            out.rows.push_back(figure("recommended in steel of over " + shown(over) + " MPa",
                                      *times * asked.form.d_mm, "mm",
                                      "a fastener wholesaler's technical page, M6 to M16"));
}

constexpr std::string_view kHandbook = "Machinery's Handbook, 31st ed., p. 644-645";

// The interference by the handbook's rule, in mm, with the factor as a row.
Result<double> interference_for(Reference& out, const ShrinkPair& pair, double stress_mpa) {
    const auto share = shrink_fit_factor(pair);
    if (!share) return share.why();
    const auto allowance = shrink_allowance(pair, stress_mpa);
    if (!allowance) return allowance.why();
    out.rows = {figure("stress of the hub that it is for", stress_mpa, "MPa", "as asked"),
                figure("shrink-fit factor", *share, "", kHandbook),
                figure("interference for each mm of diameter", *allowance, "mm", kHandbook)};
    return *allowance * pair.joint_dia;
}

}  // namespace

Result<Reference> bolt_reference(const QueryWords& words) {
    const auto asked = thread_and_class(words, "bolt");
    if (!asked) return asked.why();
    const auto strength = bolt_strength(asked->property_class, asked->form.d_mm);
    if (!strength) return strength.why();
    const std::string_view source = bolt_standard(asked->property_class);
    Reference out;
    out.answer = asked->form.written + " of " + named(asked->property_class) + ".";
    out.rows = {figure("tensile strength, least", strength->tensile_MPa, "MPa", source),
                figure("yield strength, least", strength->yield_MPa, "MPa", source)};
    if (const auto loads = bolt_loads(asked->form, asked->property_class)) {
        constexpr std::string_view kLoads = "stress area to three figures times the strength";
        out.rows.push_back(figure("load that breaks it, least", loads->ultimate_N, "N", kLoads));
        if (strength->proof_MPa > 0.0) {
            out.rows.push_back(
                figure("stress under proof load", strength->proof_MPa, "MPa", source));
            out.rows.push_back(figure("proof load", loads->proof_N, "N", kLoads));
        }
    }
    if (const auto nut = nut_class_for(asked->property_class); !nut.empty())
        out.rows.push_back(saying("nut that goes with it", "class " + std::string(nut),
                                  "ISO 898-2:2012, table 1"));
    out.notes = {"The printed tables cut some loads off: they differ from these by up to 0.6 %."};
    return out;
}

Result<Reference> engagement_reference(const QueryWords& words) {
    const double shear = words.empty() ? 0.0 : with_unit(words.back(), "MPa").value_or(0.0);
    const auto asked = thread_and_class(
        shear > 0.0 ? QueryWords(words.begin(), words.end() - 1) : words, "engagement");
    if (!asked) return asked.why();
    const auto bolt = bolt_strength(asked->property_class, asked->form.d_mm);
    if (!bolt) return bolt.why();
    const auto areas = strip_areas(asked->form);
    if (!areas) return areas.why();
    Reference out;
    out.answer = "Thread that must engage before the bolt " + asked->form.written + " of " +
                 named(asked->property_class) + " breaks, by what it is screwed into.";
    for (const Tapped& each : kTapped) {
        const Material metal = *material(each.material);
        const double needed = engagement_needed(stress_area_mm2(asked->form), *areas,
                                                bolt->tensile_MPa, metal.tensile_mpa->value)
                                  .needed_mm;
        out.rows.push_back(
            figure(std::string(metal.description), needed, "mm",
                   std::string(kShearOut) + "; " + std::string(metal.tensile_mpa->source)));
    }
    constexpr std::string_view kThumb =
        "rule of thumb (Design News column on thread engagement, citing the Industrial Fasteners "
        "Institute)";
    const double d = asked->form.d_mm;
    out.rows.push_back(
        figure("rule for steel", thumb_engagement(TappedMetal::steel) * d, "mm", kThumb));
    out.rows.push_back(
        figure("rule for cast iron", thumb_engagement(TappedMetal::cast_iron) * d, "mm", kThumb));
    out.rows.push_back(
        figure("rule for aluminium", thumb_engagement(TappedMetal::aluminium) * d, "mm", kThumb));
    add_recommended(out, *asked);
    if (const auto loads = bolt_loads(asked->form, asked->property_class); shear > 0.0 && loads)
        out.rows.push_back(
            figure("metal of a shear strength of " + shown(shear) + " MPa",
                   engagement_for_load_mm(loads->ultimate_N, areas->nut_mm2_per_mm, shear), "mm",
                   kShearOut));
    out.notes = {
        "Whole threads only: add what the ends are short of. Where the metal's grade is not known "
        "take the greater figure, or ask for its strength."};
    return out;
}

Result<Reference> torque_reference(const QueryWords& words) {
    const auto friction = words.size() < 3 ? std::nullopt : decimal(words.back());
    if (!friction || !(*friction > 0.0) || !(*friction < 1.0))
        return ask_like("a thread, a property class and a friction such as 0.12 are needed",
                        "torque");
    const auto asked = thread_and_class(QueryWords(words.begin(), words.end() - 1), "torque");
    if (!asked) return asked.why();
    const auto strength = bolt_strength(asked->property_class, asked->form.d_mm);
    if (!strength) return strength.why();
    constexpr double kShareOfYield = 0.9;
    constexpr std::string_view kVdi = "VDI 2230:2001, sheet 1 (from memory)";
    const ThreadForm& form = asked->form;
    const Friction both{.thread = *friction, .face = *friction};
    const double preload = allowed_preload_N(form, strength->yield_MPa, *friction, kShareOfYield);
    Reference out;
    out.answer = form.written + " of " + named(asked->property_class) + " at a friction of " +
                 shown(*friction) + " on thread and face.";
    out.rows = {figure("preload that takes 90 % of the least yield strength", preload, "N", kVdi)};
    if (const auto face = hexagon_face(form.d_mm))
        out.rows.push_back(
            figure("torque for it, under a hexagon head or nut",
                   torque_for_preload_Nmm(form, preload, both, face->mean_mm()) / 1e3, "Nm", kVdi));
    out.rows.push_back(figure("torque for each N of preload and mm of diameter",
                              nut_factor(form, both), "",
                              "Shigley, Mechanical Engineering Design, 5th ed., eq. 8-19"));
    out.rows.push_back(figure("the same, another way", nut_factor_handbook(form, both), "",
                              "MIL-HDBK-60, eq. 100.5.1"));
    out.notes = {
        "Friction is a guess, and so is the torque: this is no setting. The engine maker's torque "
        "comes first.",
        "On a cone the hub may stand less than the bolt: `seat` in a job file judges both."};
    return out;
}

Result<Reference> shrink_reference(const QueryWords& words) {
    if (words.size() < 3 || words.size() > 5)
        return ask_like("shaft, hub outside and interference are needed", "shrink");
    const auto shaft = length_mm(words[0]);
    const auto hub = length_mm(words[1]);
    const auto stress = with_unit(words[2], "MPa");
    auto interference = length_mm(words[2]);
    if (!shaft || !hub || (!interference && !stress))
        return ask_like("one of the lengths is none", "shrink");
    const auto of_shaft = material(words.size() > 3 ? words[3] : "steel");
    if (!of_shaft) return of_shaft.why();
    const auto of_hub = material(words.size() > 4 ? words[4] : "steel");
    if (!of_hub) return of_hub.why();
    if (!of_shaft->elastic() || !of_hub->elastic())
        return Reason{"one of these materials has no modulus; name metals"};
    const ShrinkPair pair{.joint_dia = *shaft,
                          .hub_od = *hub,
                          .shaft = *of_shaft->elastic(),
                          .hub = *of_hub->elastic()};
    Reference out;
    if (stress) {
        const auto needed = interference_for(out, pair, *stress);
        if (!needed) return needed.why();
        interference = *needed;
    }
    const auto found = shrink_from_interference(pair, *interference);
    if (!found) return found.why();
    constexpr std::string_view kLame = "Lame; Shigley, Mechanical Engineering Design, eq. 3-56";
    out.answer = "A " + std::string(of_hub->name) + " hub shrunk on a solid " +
                 std::string(of_shaft->name) + " shaft.";
    const double wall = (*hub - *shaft) / 2.0;
    for (const ReferenceRow& row :
         {figure("interference on the diameter", *interference, "mm",
                 stress ? kHandbook : std::string_view("as asked")),
          figure("pressure between them", found->pressure_mpa, "MPa", kLame),
          figure("hub at its bore, hoop stress", found->hub_joint.hoop_mpa, "MPa", kLame),
          figure("hub at its bore, equivalent stress", von_mises_mpa(found->hub_joint), "MPa",
                 kLame),
          figure("hub by the rule for thin tubes, which says too little",
                 thin_tube_hoop_mpa(*shaft, wall, found->pressure_mpa), "MPa", "p d / 2 t"),
          figure("shaft, hoop stress", found->shaft_joint.hoop_mpa, "MPa", kLame)})
        out.rows.push_back(row);
    if (of_hub->expansion_per_k)
        out.rows.push_back(
            figure("hub warmer than the shaft to go on without room",
                   warming_for_growth_k(*interference, *shaft, of_hub->expansion_per_k->value), "K",
                   of_hub->expansion_per_k->source));
    out.notes = {
        "Nothing here says that the hub stands it: hold the stress to the grade's yield. "
        "Cast iron has none."};
    return out;
}

}  // namespace trialfit::trade
