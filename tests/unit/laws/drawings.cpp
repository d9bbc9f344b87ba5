// SPDX-License-Identifier: MIT
// Laws of every example's drawing: texts apart and on the page, metal of parts at rest apart.
#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>
#include <support/area.hpp>
#include <support/examples.hpp>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/sheet/before_after.hpp>

using namespace trialfit;

namespace {

draw::Drawing drawn(const draw::Section& section, const draw::PageSize& page) {
    draw::PageWords words{.title = "Title", .lines = {"Answer"}, .foot = {"Foot"}};
    words.in_place = "where it should sit";
    words.fouls = "metal in the way";
    words.shims = "shims";
    const auto out =
        draw::laid_out({{&section, paper::section_words(section, 26)}}, words, page, std::nullopt);
    REQUIRE(std::holds_alternative<draw::Drawing>(out));
    return std::get<draw::Drawing>(out);
}

void hold_texts(const draw::Drawing& drawing) {
    const draw::Box page{0.0, 0.0, drawing.width, drawing.height};
    for (std::size_t i = 0; i < drawing.texts.size(); ++i) {
        const draw::Text& one = drawing.texts[i];
        INFO(one.strong, one.words);
        CHECK(page.holds(one.box));
        for (std::size_t j = i + 1; j < drawing.texts.size(); ++j) {
            INFO(drawing.texts[j].strong, drawing.texts[j].words);
            CHECK_FALSE(one.box.meets(drawing.texts[j].box));
        }
    }
}

}  // namespace

TEST_CASE("no two texts of a drawing overlap, and none leaves the page") {
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto outcome = draw::section(job, {});
        REQUIRE(std::holds_alternative<draw::Section>(outcome));
        const auto& section = std::get<draw::Section>(outcome);
        hold_texts(drawn(section, {297.0, 210.0, true}));
        hold_texts(drawn(section, {210.0, 297.0, true}));
        hold_texts(drawn(section, {186.0, 125.0, false}));
    }
}

TEST_CASE("parts at rest do not lie in one another, threads in their nuts aside") {
    for (const job::Job& job : testing::every_example()) {
        const auto outcome = draw::section(job, {});
        const auto& section = std::get<draw::Section>(outcome);
        for (const draw::PartShape& one : section.parts) {
            for (const draw::PartShape& other : section.parts) {
                if (&one >= &other || one.over_others || other.over_others) continue;
                double shared = 0.0;
                for (const draw::Solid& a : one.pieces)
                    for (const draw::Solid& b : other.pieces)
                        for (const draw::Solid& c : draw::common(a, b))
                            shared += testing::area({draw::loop_of(c)});
                INFO(job.file, ": ", one.name, " and ", other.name);
                CHECK(shared < 1e-6 * section.r_max * section.r_max);
            }
        }
    }
}

TEST_CASE("before and after a plan, no two texts overlap, and metal to take off is marked") {
    std::size_t planned = 0;
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto outcome = sheet::before_and_after(job, {});
        const auto* both = std::get_if<sheet::BeforeAfter>(&outcome);
        if (both == nullptr || !both->after) continue;
        ++planned;
        for (const draw::Removal& each : both->before.removals)
            CHECK(testing::area(each.zone) > 0.0);
        CHECK(both->after->check.verdict == stack::Verdict::holds);
        draw::View before{&both->before, paper::section_words(both->before, 26)};
        draw::View after{&*both->after, paper::section_words(*both->after, 26)};
        before.words.heading = "Before.";
        before.words.heading_lines = {"One line of what is said of it.", "And one more."};
        after.words.heading = "After.";
        after.words.heading_lines = {"It holds."};
        const auto out = draw::laid_out({before, after}, {.title = "Title", .foot = {"Foot"}},
                                        {210.0, 297.0, true}, std::nullopt);
        REQUIRE(std::holds_alternative<draw::Drawing>(out));
        hold_texts(std::get<draw::Drawing>(out));
    }
    CHECK(planned >= 5);
}

TEST_CASE("an air gap is dimensioned across, where it is") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/off-centre-plate.yaml");
    const auto section = std::get<draw::Section>(draw::section(job, {}));
    std::vector<draw::SectionDimension> across;
    std::copy_if(section.dimensions.begin(), section.dimensions.end(), std::back_inserter(across),
                 [](const draw::SectionDimension& each) { return each.across; });
    REQUIRE(across.size() == 1);
    // The file: poles bored 74.50, body turned to 73.99.
    CHECK(across.front().from.r == doctest::Approx(73.99 / 2.0));
    CHECK(across.front().to.r == doctest::Approx(74.50 / 2.0));
    CHECK(across.front().from.z == across.front().to.z);
    const auto metal_at = [&](const char* part, double r) {
        return std::any_of(
            section.parts.begin(), section.parts.end(), [&](const draw::PartShape& shape) {
                return shape.name == part && std::any_of(shape.pieces.begin(), shape.pieces.end(),
                                                         [&](const draw::Solid& s) {
                                                             return s.z0 <= across.front().from.z &&
                                                                    s.z1 >= across.front().from.z &&
                                                                    s.inner0 <= r && s.outer0 >= r;
                                                         });
            });
    };
    CHECK(metal_at("rotor", 73.99 / 2.0 - 0.001));
    CHECK(metal_at("stator", 74.50 / 2.0 + 0.001));
    CHECK_FALSE(metal_at("rotor", 74.2 / 2.0));
    // Its words stand beside the view, with what eccentricity takes off it said.
    const draw::SectionWords words = paper::section_words(section, 26);
    const auto at = static_cast<std::size_t>(
        std::find_if(section.dimensions.begin(), section.dimensions.end(),
                     [](const draw::SectionDimension& each) { return each.across; }) -
        section.dimensions.begin());
    CHECK(words.dimensions[at].rest == " air gap");
    CHECK(words.dimensions[at].below == "at the narrowest, 0.150 needed");
}

TEST_CASE("a hub on another taper is drawn open where it does not bear") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/unequal-tapers.yaml");
    const auto section = std::get<draw::Section>(draw::section(job, {}));
    const auto open = std::find_if(section.dimensions.begin(), section.dimensions.end(),
                                   [](const draw::SectionDimension& each) {
                                       return each.kind == draw::DimensionKind::open_cone;
                                   });
    REQUIRE(open != section.dimensions.end());
    // By hand: the shaft's 1 in 5 and the hub's 1 in 4.92 meet at one end of a contact of some
    // length; at the other the radii differ by half of that length times what the tapers differ.
    const double differ = (1.0 / 4.92 - 1.0 / 5.0) / 2.0;
    CHECK(open->value > 10.0 * differ);
    CHECK(open->value <= 36.0 * differ);
    CHECK(open->to.r - open->from.r == doctest::Approx(open->value));
    CHECK(open->across);
    const draw::SectionWords words = paper::section_words(section, 26);
    const auto at = static_cast<std::size_t>(open - section.dimensions.begin());
    CHECK(words.dimensions[at].rest == " open here: the tapers differ");
    CHECK(paper::section_in_words(section).find("stands open by") != std::string::npos);
    // Equal tapers have nothing of it.
    const auto even = std::get<draw::Section>(
        draw::section(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml"), {}));
    CHECK(std::none_of(even.dimensions.begin(), even.dimensions.end(), [](const auto& each) {
        return each.kind == draw::DimensionKind::open_cone;
    }));
}
