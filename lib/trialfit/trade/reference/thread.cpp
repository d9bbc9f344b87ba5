// SPDX-License-Identifier: MIT
#include <trialfit/trade/fastening/thread_figures.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>

// The table of a thread.
namespace trialfit::trade {

namespace {

std::string name_of(const ThreadClass& of) {
    if (of.unified > 0) return std::to_string(of.unified) + (of.internal ? "B" : "A");
    const auto field = [](const ToleranceField& each) {
        return std::to_string(each.grade) + each.position;
    };
    return of.pitch == of.crest ? field(of.pitch) : field(of.pitch) + field(of.crest);
}

void add_diameter(Reference& out, const std::string& what, const DiameterLimits& limits,
                  std::string_view source) {
    if (limits.min_mm && limits.max_mm)
        out.rows.push_back(between(what, *limits.min_mm, *limits.max_mm, "mm", source));
    else if (limits.min_mm)
        out.rows.push_back(figure(what + ", least", *limits.min_mm, "mm", source));
    else if (limits.max_mm)
        out.rows.push_back(figure(what + ", greatest", *limits.max_mm, "mm", source));
}

void add_side(Reference& out, const std::optional<ThreadLimits>& limits, std::string_view source) {
    if (!limits) return;
    const std::string side =
        (limits->tolerance.internal ? "nut " : "bolt ") + name_of(limits->tolerance);
    add_diameter(out, side + ", major diameter", limits->major, source);
    add_diameter(out, side + ", pitch diameter", limits->pitch, source);
    add_diameter(out, side + ", minor diameter", limits->minor, source);
}

// Where a metric and a unified thread's figures stand.
struct Sources {
    std::string_view profile;
    std::string_view limits;
    std::string_view stress_area;
    std::string_view core_area;
};

Sources sources_of(ThreadSeries series) {
    if (is_metric(series))
        return {"ISO 68-1:1998, ISO 724:1993", "ISO 965-1:2013, ISO 965-3",
                "ISO 898-1:2013, 9.1.6.1", "pi/4 d3^2"};
    return {"ASME B1.1-2003, section 3", "ASME B1.1-2003, section 5", "ASME B1.1-2003, appendix B",
            "ASME B1.1-2003, appendix B"};
}

void add_profile(Reference& out, const ThreadFigures& found, const Sources& sources) {
    out.rows.push_back(figure("diameter d", found.form.d_mm, "mm", sources.profile));
    out.rows.push_back(figure("pitch P", found.form.pitch_mm, "mm", sources.profile));
    if (found.form.per_inch > 0.0)
        out.rows.push_back(figure("threads per inch", found.form.per_inch, "", sources.profile));
    out.rows.push_back(figure("pitch diameter d2", found.basic.pitch_mm, "mm", sources.profile));
    out.rows.push_back(figure("minor diameter D1", found.basic.minor_mm, "mm", sources.profile));
    out.rows.push_back(figure("minor diameter d3", found.basic.root_mm, "mm", sources.profile));
    out.rows.push_back(
        figure("engaged depth H1", found.basic.engaged_depth_mm, "mm", sources.profile));
}

void add_strength(Reference& out, const ThreadFigures& found, const Sources& sources) {
    constexpr std::string_view kStrip = "FED-STD-H28/2B, diameters at least material";
    out.rows.push_back(figure("stress area", found.stress_area_mm2, "mm2", sources.stress_area));
    out.rows.push_back(figure("core area", found.core_area_mm2, "mm2", sources.core_area));
    out.rows.push_back(figure("thread shear area of the bolt, per mm", found.strip.bolt_mm2_per_mm,
                              "mm2", kStrip));
    out.rows.push_back(
        figure("thread shear area of the nut, per mm", found.strip.nut_mm2_per_mm, "mm2", kStrip));
    out.rows.push_back(figure("engagement that develops the bolt, nut as strong",
                              found.equal_strength_mm, "mm", kStrip));
    if (found.group)
        out.rows.push_back(between("normal engagement, group N", found.group->normal_over_mm,
                                   found.group->normal_up_to_mm, "mm", "ISO 965-1:2013, table 2"));
}

}  // namespace

Result<Reference> thread_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no thread is named", "thread");
    const auto found = thread_figures(joined(words));
    if (!found) return found.why();
    const Sources sources = sources_of(found->form.series);
    Reference out;
    const ThreadForm& form = found->form;
    const std::string pitch = form.per_inch > 0.0 ? shown(form.per_inch) + " threads per inch"
                                                  : "pitch " + shown(form.pitch_mm) + " mm";
    out.answer = joined(words) + ": " + std::string(name(form.series)) + " thread, " +
                 shown(form.d_mm) + " mm, " + pitch + (form.left_hand ? ", left-hand." : ".");
    add_profile(out, *found, sources);
    add_side(out, found->bolt, sources.limits);
    add_side(out, found->nut, sources.limits);
    add_strength(out, *found, sources);
    return out;
}

}  // namespace trialfit::trade
