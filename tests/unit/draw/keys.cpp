// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <support/examples.hpp>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

using namespace trialfit;

namespace {

// A hub on a 1 in 5 cone from 16 down, with a key `height` high in a room of 4.0.
draw::Section keyed(const std::string& height, const std::string& floors) {
    const reading::Outcome outcome = reading::read_job(
        "trialfit: 1\nunits: mm\nparts:\n"
        "  - part: crank\n    turns: true\n    faces: {big: zero, small: 16.0 ±0.1 from big}\n"
        "    cone: {at: big, dia: 16.00 ±0.01, taper: 1 in 5, length: 16}\n"
        "  - part: hub\n    turns: true\n"
        "    sits: {cone: cone, against: crank.cone, key: {height: " +
            height + " ±0.01, room: 4.00 ±0.01, floors: " + floors +
            "}}\n"
            "    faces: {in: zero, out: 16.0 ±0.1 from in}\n"
            "    cone: {at: in, dia: 16.00 ±0.01, taper: 1 in 5, length: 16}\n"
            "    rings: {boss: {from: in, to: out, bore: 16, od: 40}}\n"
            "checks:\n  - {check: place, gap: [crank.big, hub.in], at_least: -1}\n",
        "key.yaml");
    for (const job::Complaint& each : outcome.complaints)
        FAIL_CHECK(each.fault, "; ", each.mend);
    REQUIRE(outcome.job);
    return std::get<draw::Section>(draw::section(*outcome.job, {}));
}

double across(const draw::Loop& loop, std::size_t low, std::size_t high) {
    return loop[high].r - loop[low].r;
}

}  // namespace

TEST_CASE("a key is drawn to its height, in a slot of its room, half in either part") {
    const draw::Section section = keyed("3.80", "axis");
    REQUIRE(section.keys.size() == 1);
    const draw::KeyDrawn& key = section.keys.front();
    REQUIRE(key.slot.size() == 4);
    // The cone's radius in the middle of 16 mm: (16 - 16/2/5) / 2.
    CHECK(key.at.r == doctest::Approx(7.2));
    CHECK(across(key.slot, 0, 3) == doctest::Approx(4.0));
    CHECK(across(key.metal, 0, 3) == doctest::Approx(3.8));
    CHECK(key.slot[0].r == doctest::Approx(5.2));
    CHECK(key.slot[0].r == doctest::Approx(key.slot[1].r));
    CHECK(key.metal[0] == key.slot[0]);
}

TEST_CASE("floors that follow the cone are drawn so, and a key too tall meets the hub's floor") {
    const draw::Section fits = keyed("3.80", "cone");
    CHECK(fits.keys.front().slot[0].r - fits.keys.front().slot[1].r ==
          doctest::Approx(0.6 * 16.0 / 5.0 / 2.0));
    // 0.3 too tall: the hub stands off by 2 x 0.3 x 5 = 3, so that its floor lies 0.3 further out.
    const draw::Section tall = keyed("4.30", "cone");
    CHECK(across(tall.keys.front().slot, 0, 3) == doctest::Approx(4.3));
    CHECK(across(tall.keys.front().metal, 0, 3) == doctest::Approx(4.3));
}

TEST_CASE("a key is white with dashes on the page, named, and explained under the view") {
    const auto section = std::get<draw::Section>(
        draw::section(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/loose-rotor.yaml"), {}));
    REQUIRE(section.keys.size() == 1);
    const auto outcome = paper::section_drawing({section}, {297.0, 210.0, true}, std::nullopt, {});
    const auto& page = std::get<draw::Drawing>(outcome);
    CHECK(std::any_of(page.paths.begin(), page.paths.end(), [](const draw::Path& path) {
        return path.fill == draw::Fill::paper && path.pen == draw::Pen::unsure;
    }));
    const auto says = [&](const std::string& strong, const std::string& words) {
        return std::any_of(page.texts.begin(), page.texts.end(), [&](const draw::Text& text) {
            return text.strong == strong && text.words.find(words) != std::string::npos;
        });
    };
    CHECK(says("key", "high"));
    CHECK(says("", "length and place not given"));
}
