// SPDX-License-Identifier: MIT
// Laws of every example's drawing: texts apart and on the page, metal of parts at rest apart.
#include <doctest/doctest.h>

#include <support/examples.hpp>
#include <trialfit/draw/layout.hpp>
#include <trialfit/paper/section_words.hpp>

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
                            shared += draw::area({draw::loop_of(c)});
                INFO(job.file, ": ", one.name, " and ", other.name);
                CHECK(shared < 1e-6 * section.r_max * section.r_max);
            }
        }
    }
}
