// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/survey/answers.hpp>

using namespace trialfit;
using namespace trialfit::paper;
using namespace trialfit::survey;

namespace {

FeelersFound uneven() {
    FeelersFound found;
    found.name = "air gap";
    found.still = "stator.poles";
    found.turning = "rotor.body";
    found.still_part = "stator";
    found.turning_part = "rotor";
    found.gauge = "feeler";
    found.half_width = 0.015;
    found.judgement = Judgement::agree;
    found.freedom = 3;
    found.mean = {.is = 0.25, .sd = 0.003};
    found.offset =
        FeelerVector{.amount = {.is = 0.052, .sd = 0.004}, .towards_deg = 301.0, .seen = true};
    found.runout = FeelerVector{.amount = {.is = 0.128, .sd = 0.004}, .seen = true};
    found.eccentricity = FeelerFigure{.is = 0.128, .sd = 0.004};
    found.best_least = FeelerFigure{.is = 0.122, .sd = 0.005};
    found.best_most = FeelerFigure{.is = 0.378, .sd = 0.005};
    found.even_up = EvenUp{.part = "plate",
                           .by = {.is = 0.052, .sd = 0.004},
                           .towards_deg = 121.0,
                           .room = 0.2,
                           .least = {.is = 0.122, .sd = 0.005},
                           .most = {.is = 0.378, .sd = 0.005}};
    found.readings = {{.is = 0.25, .sd = 0.01}};
    return found;
}

bool says(const std::vector<std::string>& all, const std::string& words) {
    return std::any_of(all.begin(), all.end(), [&](const std::string& each) {
        return each.find(words) != std::string::npos;
    });
}

}  // namespace

TEST_CASE("the clock is told to the nearest half hour") {
    CHECK(o_clock(0.0) == "12 o'clock");
    CHECK(o_clock(7.4) == "12 o'clock");
    CHECK(o_clock(7.6) == "half past 12");
    CHECK(o_clock(120.0) == "4 o'clock");
    CHECK(o_clock(136.0) == "half past 4");
    CHECK(o_clock(352.0) == "half past 11");
    CHECK(o_clock(353.0) == "12 o'clock");
    CHECK(o_clock(360.0) == "12 o'clock");
    CHECK(o_clock(480.0) == "4 o'clock");
}

TEST_CASE("which way to move the plate, by how much, and that its room is enough") {
    const Lengths words;
    FeelersFound found = uneven();
    CHECK(says(feeler_findings(found, words), "Move the plate 0.05 mm towards 4 o'clock"));
    CHECK_FALSE(says(feeler_findings(found, words), "not enough"));
    found.even_up->room = 0.02;
    CHECK(says(feeler_findings(found, words), "0.02 to move in, on diameter, which is not enough"));
    found.offset_mixed = true;
    CHECK(says(feeler_findings(found, words), "As the rotor stood"));
    CHECK_FALSE(says(feeler_findings(found, words), "Move the plate"));
}

TEST_CASE("no setting can give what eccentricity alone takes") {
    FeelersFound found = uneven();
    found.limits = {{.check = "book",
                     .at_least = 0.25,
                     .can_reach = SettingReach::cannot,
                     .at_most = 0.4,
                     .can_keep = SettingReach::can}};
    const auto all = feeler_findings(found, {});
    CHECK(says(all,
               "No setting can give 0.25 mm here ('book'): eccentricity alone is 0.13 and the mean "
               "gap is 0.25. The best is 0.12"));
    CHECK(says(all,
               "0.38 (usual error 0.005) at the widest place, where 'book' asks for "
               "at most 0.40 mm"));
    found.limits[0].can_reach = SettingReach::cannot_tell;
    CHECK(says(feeler_findings(found, {}), "these readings cannot tell"));
}

TEST_CASE("an offset beyond the file's limits on centring is told") {
    FeelersFound found = uneven();
    found.offset_stated = 0.05;
    CHECK_FALSE(says(feeler_findings(found, {}), "more than the file's limits"));  // within 2 sd
    found.offset_stated = 0.04;
    CHECK(says(feeler_findings(found, {}), "more than the file's limits on centring allow, 0.04"));
}

TEST_CASE("what could not be told is said, with why and where it shows") {
    FeelersFound found = uneven();
    found.not_told = {
        {.term = FeelerTerm::runout, .why = NotTold::not_turned, .shows_in = {FeelerTerm::offset}},
        {.term = FeelerTerm::taper, .why = NotTold::one_height},
        {.term = FeelerTerm::still_leans, .why = NotTold::one_height}};
    const auto all = feeler_not_told(found);
    REQUIRE(all.size() == 2);
    CHECK(says(all, "The rotor was never turned"));
    CHECK(says(all, "What there is of it shows in the offset"));
    CHECK(says(all, "one height, so nothing tells the taper and how far the still part leans"));
}

TEST_CASE("readings that do not agree advise nothing, unless one alone is left out") {
    FeelersFound found = uneven();
    found.judgement = Judgement::cannot_tell;
    CHECK(feeler_findings(found, {}).size() == 1);
    CHECK(says(feeler_findings(found, {}), "cannot tell which of them is wrong"));
    found.judgement = Judgement::suspect;
    found.readings[0].suspect = true;
    found.readings[0].left_out = true;
    CHECK(says(feeler_findings(found, {}), "One reading is out of step with the others: at 12"));
    CHECK(says(feeler_findings(found, {}), "Move the plate"));
}

TEST_CASE("what moving does not cure") {
    FeelersFound found = uneven();
    found.span = 12.0;
    found.turning_cocked =
        FeelerVector{.amount = {.is = 0.06, .sd = 0.01}, .towards_deg = 150.0, .seen = true};
    found.taper = FeelerFigure{.is = -0.05, .sd = 0.01};
    const auto all = feeler_findings(found, {});
    // atan(0.06 / 12) = 0.286 degrees.
    CHECK(says(all,
               "The rotor is cocked by 0.06 over 12 (0.29 degrees), outboard towards 5 o'clock "
               "of its own mark"));
    CHECK(says(all, "0.05 wider all round at the inboard end, over 12: a ring is tapered"));
    CHECK_FALSE(says(all, "leans"));
}

TEST_CASE("names from a file cannot move the cursor, and nothing runs past 80 columns") {
    FeelersFound found = uneven();
    found.name =
        "air \x1b[31mgap\xe2\x80\xae and a name that goes on for longer than any page is wide";
    found.still_part = found.name;
    found.even_up->part = found.name;
    const std::string text = text_of(feelers_section(found, quantity::Unit::mm), {});
    CHECK(text.find('\x1b') == std::string::npos);
    CHECK(text.find("\xe2\x80\xae") == std::string::npos);
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = text.find('\n', start);
        CHECK(columns(text.substr(start, end - start)) <= 80);
        start = end + 1;
    }
}
