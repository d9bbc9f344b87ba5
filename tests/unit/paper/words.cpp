// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/plan/words.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>

namespace paper = trialfit::paper;

TEST_CASE("names in sentences") {
    CHECK(paper::spoken("plate.front") == "the plate's front");
    CHECK(paper::spoken("springs.top") == "the springs' top");
    CHECK(paper::spoken("cover.inside +3") == "the cover's inside +3");
    CHECK(paper::spoken("the cone") == "the cone");
    CHECK(paper::columns(paper::spoken(std::string(200, 'a') + "." + std::string(200, 'b'))) <= 70);
}

TEST_CASE("words of a shell command") {
    CHECK(paper::shell_word("plate.front") == "plate.front");
    CHECK(paper::shell_word("nut engagement") == "\"nut engagement\"");
    CHECK(paper::shell_word("races' gap") == "\"races' gap\"");
    CHECK(paper::shell_word("5\" `rm` $x \\") == "\"5\\\" \\`rm\\` \\$x \\\\\"");
    CHECK(paper::shell_word("") == "\"\"");
    CHECK(paper::shell_word("µm") == "\"µm\"");
}

TEST_CASE("counting") {
    CHECK(paper::counted(1, "check") == "1 check");
    CHECK(paper::counted(0, "check") == "0 checks");
}

TEST_CASE("that no single limit is enough is said only where it was looked for to the end") {
    const trialfit::plan::PlanAnswer answer;
    trialfit::plan::NoPlan why;
    CHECK(paper::told_conflict(why, answer).least.starts_with("No single limit is enough"));
    why.sought = false;
    CHECK(paper::told_conflict(why, answer).least ==
          "Whether any one limit alone is enough was not found out in the time that there was.");
}
