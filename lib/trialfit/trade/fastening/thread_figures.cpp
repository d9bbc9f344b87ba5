// SPDX-License-Identifier: MIT
#include <trialfit/trade/fastening/thread_figures.hpp>

namespace trialfit::trade {

Result<ThreadFigures> thread_figures(std::string_view designation) {
    const auto form = thread(designation);
    if (!form) return form.why();
    const auto strip = strip_areas(*form);
    if (!strip) return strip.why();
    ThreadFigures figures;
    figures.form = *form;
    figures.basic = basic_profile(*form);
    for (const bool internal : {false, true}) {
        if (form->tolerance && form->tolerance->internal != internal) continue;
        const auto limits =
            thread_limits(*form, form->tolerance.value_or(usual_class(*form, internal)));
        if (!limits) return limits.why();
        (internal ? figures.nut : figures.bolt) = *limits;
    }
    figures.stress_area_mm2 = stress_area_mm2(*form);
    figures.core_area_mm2 = core_area_mm2(*form);
    figures.strip = *strip;
    figures.equal_strength_mm =
        engagement_needed(figures.stress_area_mm2, *strip, 1.0, 1.0).equal_strength_mm;
    if (is_metric(form->series)) {
        const auto group = engagement_group(form->pitch_mm, form->d_mm);
        if (group) figures.group = *group;
    }
    return figures;
}

}  // namespace trialfit::trade
