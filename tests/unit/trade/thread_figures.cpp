// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/fastening/thread_figures.hpp>

namespace trialfit::trade {

TEST_CASE("the figures of a named class show that side only") {
    const auto bolt = thread_figures("M10x1.25-5g6g").value();
    REQUIRE(bolt.bolt);
    CHECK_FALSE(bolt.nut);
    CHECK(bolt.bolt->tolerance == thread_class("5g6g").value());
    CHECK(bolt.group->normal_up_to_mm == 12.0);
    CHECK(bolt.stress_area_mm2 == stress_area_mm2(bolt.form));
    CHECK(bolt.core_area_mm2 < bolt.stress_area_mm2);
    // Strip area per mm times this length is twice the stress area, by its definition.
    CHECK(bolt.strip.bolt_mm2_per_mm * bolt.equal_strength_mm ==
          doctest::Approx(2.0 * bolt.stress_area_mm2).epsilon(1e-14));
    const auto nut = thread_figures("M10x1.25-6H").value();
    CHECK(nut.nut);
    CHECK_FALSE(nut.bolt);
}

TEST_CASE("the figures of a bare designation show both sides in their usual classes") {
    const auto found = thread_figures("3/8-24 UNF").value();
    REQUIRE(found.bolt);
    REQUIRE(found.nut);
    CHECK(found.bolt->tolerance.unified == 2);
    CHECK_FALSE(found.bolt->tolerance.internal);
    CHECK(found.nut->tolerance.internal);
    CHECK_FALSE(found.group);  // ISO 965 has none for inch threads
}

TEST_CASE("figures are refused where a thread has no limits") {
    CHECK_FALSE(thread_figures("M10x12.5").ok());
    CHECK_FALSE(thread_figures("M400x6").ok());
    CHECK_FALSE(thread_figures("M2x0.4-6e").ok());
}

}  // namespace trialfit::trade
