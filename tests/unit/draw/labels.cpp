// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <support/examples.hpp>
#include <trialfit/draw/page/obstacles.hpp>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/stack/check/check.hpp>

using namespace trialfit;

TEST_CASE("length of a line within a tapered solid, by hand") {
    // A cone from radius 10 at z = 0 to radius 8 at z = 10, bored 4.
    const draw::Solid cone{
        .z0 = 0.0, .z1 = 10.0, .inner0 = 4.0, .inner1 = 4.0, .outer0 = 10.0, .outer1 = 8.0};
    CHECK(draw::length_within({{-5.0, 6.0}, {20.0, 6.0}}, cone, 0.0) == doctest::Approx(10.0));
    // At radius 9 the flank is met half way.
    CHECK(draw::length_within({{-5.0, 9.0}, {20.0, 9.0}}, cone, 0.0) == doctest::Approx(5.0));
    CHECK(draw::length_within({{5.0, 0.0}, {5.0, 20.0}}, cone, 0.0) == doctest::Approx(5.0));
    CHECK(draw::length_within({{-5.0, 3.0}, {20.0, 3.0}}, cone, 0.0) == 0.0);
    CHECK(draw::length_within({{-5.0, 3.0}, {20.0, 3.0}}, cone, 1.5) == doctest::Approx(13.0));
    CHECK(draw::length_within({{11.0, 6.0}, {20.0, 6.0}}, cone, 0.0) == 0.0);
}

TEST_CASE("a line meets a box where any of its points lies in it") {
    const draw::Box box{0.0, 0.0, 4.0, 2.0};
    CHECK(draw::line_meets({-1.0, 1.0}, {5.0, 1.0}, box));
    CHECK(draw::line_meets({1.0, 1.0}, {2.0, 1.5}, box));
    CHECK(draw::line_meets({-1.0, 1.0}, {1.0, -1.0}, box));
    CHECK_FALSE(draw::line_meets({-1.0, 0.5}, {0.5, -1.0}, box));
    CHECK_FALSE(draw::line_meets({5.0, 0.0}, {5.0, 2.0}, box));
    CHECK_FALSE(draw::line_meets({-3.0, 1.0}, {-1.0, 1.0}, box));
}

TEST_CASE("turning and still parts are told apart without colour in every example") {
    for (const job::Job& job : testing::every_example()) {
        CAPTURE(job.file);
        const auto outcome = draw::section(job, {});
        const auto* const section = std::get_if<draw::Section>(&outcome);
        REQUIRE(section != nullptr);
        draw::View view{.section = section, .words = {}};
        view.hatching = draw::hatches({view});
        REQUIRE(view.hatching.size() == section->parts.size());
        draw::Drawing drawing;
        draw::draw_metal(view, {.scale = 1.0, .x0 = 0.0, .axis = 0.0}, {}, drawing);
        for (std::size_t p = 0; p < section->parts.size(); ++p) {
            CAPTURE(section->parts[p].name);
            CHECK((view.hatching[p].degrees < 90.0) == section->parts[p].turns);
        }
        for (const draw::Path& path : drawing.paths) {
            if (path.fill == draw::Fill::turning) CHECK(section->parts[path.parts.at(0)].turns);
            if (path.fill == draw::Fill::still) CHECK_FALSE(section->parts[path.parts.at(0)].turns);
        }
    }
}

TEST_CASE("details are of the scales of ISO 5455") {
    // 0.3 mm wanted 4 mm large: 20 to 1 gives 6, 10 to 1 would give 3.
    CHECK(draw::detail_scale(0.3, 4.0, quantity::Unit::mm) == std::optional(20.0));
    CHECK(draw::detail_scale(0.01, 4.0, quantity::Unit::inch) ==
          std::optional(20.0 * quantity::mm_per(quantity::Unit::inch)));
    CHECK_FALSE(draw::detail_scale(1e-6, 4.0, quantity::Unit::mm));
}

TEST_CASE("letters of datums and details do not meet") {
    CHECK(draw::datum_letter(0) == "A");
    CHECK(draw::datum_letter(2) == "C");
    CHECK(draw::detail_letter(0) == "Z");
    CHECK(draw::detail_letter(2) == "X");
}
