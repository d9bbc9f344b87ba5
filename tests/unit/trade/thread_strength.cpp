// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/trade/fastening/engagement.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/fastening/torque.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {

TEST_CASE("a weaker nut needs more thread, a stronger one does not need less") {
    const ThreadForm form = thread("M10x1.25-6g").value();
    const StripAreas areas = strip_areas(form).value();
    const double area = stress_area_mm2(form);
    const auto strong = engagement_needed(area, areas, 1040.0, 1040.0);
    CHECK(strong.strength_ratio < 1.0);
    CHECK(strong.needed_mm == strong.equal_strength_mm);
    const auto weak = engagement_needed(area, areas, 1040.0, 300.0);
    CHECK(weak.strength_ratio > 1.0);
    // At Q the nut's thread strips, at half its tensile strength, exactly when the bolt breaks.
    CHECK(strip_load_N(areas.nut_mm2_per_mm, weak.needed_mm, 150.0) ==
          doctest::Approx(1040.0 * area).epsilon(1e-12));
    // At Le the bolt's does.
    CHECK(areas.bolt_mm2_per_mm * strong.equal_strength_mm ==
          doctest::Approx(2.0 * area).epsilon(1e-14));
}

TEST_CASE("a designation's own class is used for its side") {
    const auto bolt = strip_areas(thread("M10-4h").value()).value();
    const auto usual = strip_areas(thread("M10").value()).value();
    const auto nut = strip_areas(thread("M10-8H").value()).value();
    CHECK(bolt.bolt_mm2_per_mm > usual.bolt_mm2_per_mm);
    CHECK(bolt.nut_mm2_per_mm > usual.nut_mm2_per_mm);
    CHECK(nut.bolt_mm2_per_mm < usual.bolt_mm2_per_mm);
    CHECK(strip_areas(thread("M10-6g").value())->nut_mm2_per_mm == usual.nut_mm2_per_mm);
}

TEST_CASE("strip areas want a bolt and a nut") {
    const ThreadForm form = thread("M10").value();
    const auto bolt = thread_limits(form, usual_class(form, false)).value();
    CHECK(strip_areas(bolt, bolt, 1.5).reason() ==
          "strip areas need the limits of a bolt and those of its nut, in this order");
    CHECK_FALSE(strip_areas(thread("M400x6").value()).ok());
}

TEST_CASE("property classes that do not exist are refused with the mend") {
    CHECK(bolt_strength("8.9", 10.0).reason() ==
          "'8.9' is no property class; write 8.8, 10.9, A2-70 or grade 5");
    CHECK(bolt_strength("9.8", 20.0).reason() ==
          "property class 9.8 has no strength for 20 mm; take another class");
    CHECK_FALSE(bolt_strength("8.8", 0.0).ok());
    CHECK(bolt_strength("8.8", 16.0)->proof_MPa == 580.0);
    CHECK(bolt_strength("8.8", 16.001)->proof_MPa == 600.0);
    CHECK(bolt_strength("grade 5", 25.4)->tensile_MPa == doctest::Approx(827.4).epsilon(1e-4));
    CHECK_FALSE(bolt_loads(thread("M48").value(), "8.8").ok());
    CHECK_FALSE(nut_proof_load_N(thread("3/8-24 UNF").value(), "8").ok());
    CHECK_FALSE(nut_proof_load_N(thread("M6x0.75").value(), "8").ok());
    CHECK_FALSE(nut_proof_load_N(thread("M10").value(), "9").ok());
    CHECK(nut_class_for("10.9") == "10");
    CHECK(nut_class_for("A2-70").empty());
}

// ISO 898-2: a nut of the bolt's class bears more than the bolt's own proof load.
TEST_CASE("the nut that belongs to a bolt bears its proof load") {
    for (const char* size : {"M5", "M6", "M8", "M10", "M12", "M16", "M20", "M24", "M10x1.25"})
        for (const char* of : {"5.8", "6.8", "8.8", "10.9", "12.9"}) {
            const ThreadForm form = thread(size).value();
            const auto nut = nut_proof_load_N(form, nut_class_for(of));
            if (!nut) continue;  // fine pitches below class 8
            CAPTURE(size);
            CAPTURE(of);
            CHECK(*nut >= bolt_loads(form, of)->proof_N);
        }
}

TEST_CASE("engagement rules know no other metal or class") {
    CHECK_FALSE(recommended_engagement(360.0, "8.8", false));
    CHECK_FALSE(recommended_engagement(400.0, "12.9", true));
    CHECK_FALSE(recommended_engagement(400.0, "4.6", false));
}

TEST_CASE("torque and preload") {
    const ThreadForm form = thread("M10x1.25").value();
    // Without friction only the thread's slope is left, as VDI 2230 rounds 1/(2 pi).
    CHECK(torque_for_preload_Nmm(form, 1000.0, {0.0, 0.0}, 12.8) ==
          doctest::Approx(160.0 * 1.25).epsilon(1e-14));
    CHECK(allowed_preload_N(form, 640.0, 0.2, 0.9) < allowed_preload_N(form, 640.0, 0.1, 0.9));
    CHECK(allowed_preload_N(form, 640.0, 0.1, 0.45) ==
          doctest::Approx(allowed_preload_N(form, 640.0, 0.1, 0.9) / 2.0).epsilon(1e-14));
    // Two textbooks' nut factors agree but for small terms.
    CHECK(nut_factor(form, {0.15, 0.15}) ==
          doctest::Approx(nut_factor_handbook(form, {0.15, 0.15})).epsilon(0.01));
    // MIL-HDBK-60 by hand: P/(2 pi) alone without friction.
    CHECK(nut_factor_handbook(form, {0.0, 0.0}) * 10.0 ==
          doctest::Approx(0.198943678864869).epsilon(1e-14));
    CHECK_FALSE(hexagon_face(11.0));
}

}  // namespace trialfit::trade
