// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/style.hpp>

namespace paper = trialfit::paper;

TEST_CASE("columns count characters, not bytes") {
    CHECK(paper::columns("") == 0);
    CHECK(paper::columns("±0.05") == 5);
    CHECK(paper::columns("Läufer") == 6);
    CHECK(paper::columns("漢字") == 4);
    CHECK(paper::columns("e\u0301") == 1);  // e and a combining accent
    CHECK(paper::columns("\xff\xfe") == 2);
}

TEST_CASE("nothing in a text can move the cursor, colour the terminal or hide letters") {
    CHECK(paper::harmless("a\tb\r\nc") == "a b  c");
    CHECK(paper::harmless("\x1b[31mred") == "\uFFFD[31mred");
    CHECK(paper::harmless(std::string("nul\0bell\a", 9)) == "nul\uFFFDbell\uFFFD");
    CHECK(paper::harmless("c1 \u009b2J") == "c1 \uFFFD2J");
    // Longer than they need be, half a pair of UTF-16, beyond Unicode: a byte each.
    CHECK(paper::harmless("\xE0\x9C\x9E") == "\uFFFD\uFFFD\uFFFD");
    CHECK(paper::harmless("\xED\xA0\x80|\xED\x9F\xBF") == "\uFFFD\uFFFD\uFFFD|\uD7FF");
    CHECK(paper::harmless("\xF0\x8F\xBF\xBF") == "\uFFFD\uFFFD\uFFFD\uFFFD");
    CHECK(paper::harmless("\xF4\x90\x80\x80|\xF4\x8F\xBF\xBF") ==
          "\uFFFD\uFFFD\uFFFD\uFFFD|\U0010FFFF");
    CHECK(paper::harmless("turned \u202eround\u202c\u200b") == "turned \uFFFDround\uFFFD\uFFFD");
    CHECK(paper::harmless("cut \xe2\x82 short") == "cut \uFFFD\uFFFD short");
    CHECK(paper::harmless("overlong \xc0\xae") == "overlong \uFFFD\uFFFD");
    CHECK(paper::harmless("12.5 ±0.05 µm 漢") == "12.5 ±0.05 µm 漢");
}

TEST_CASE("a long text is shortened in its middle") {
    CHECK(paper::shortened("plate.front", 11) == "plate.front");
    CHECK(paper::shortened("plate.front", 10) == "plat...ont");
    CHECK(paper::shortened("ßßßßßßßßßßß", 9) == "ßßß...ßßß");
    CHECK(paper::shortened("漢字漢字漢字", 8) == "漢...字");
    CHECK(paper::shortened("plate.front", 2) == "..");
    CHECK(paper::columns(paper::shortened(std::string(200, 'x'), 60)) == 60);
}

TEST_CASE("padding goes by columns") {
    CHECK(paper::right("±1", 4) == "  ±1");
    CHECK(paper::left("漢", 4) == "漢  ");
    CHECK(paper::left("longer", 3) == "longer");
}

TEST_CASE("wrapping breaks at spaces and shortens what cannot be broken") {
    CHECK(paper::wrapped("one two three", 7) == std::vector<std::string>{"one two", "three"});
    CHECK(paper::wrapped("  one   two ", 80) == std::vector<std::string>{"one two"});
    CHECK(paper::wrapped("", 10) == std::vector<std::string>{""});
    CHECK(paper::wrapped("a abcdefghijkl", 8) == std::vector<std::string>{"a", "abc...kl"});
    CHECK(paper::wrapped("±±± ±±±", 7) == std::vector<std::string>{"±±± ±±±"});
}

TEST_CASE("a paragraph hangs from what leads it in") {
    CHECK(paper::paragraph("one two three", 11, "1. ") == "1. one two\n   three\n");
    CHECK(paper::paragraph("", 11, "- ") == "- \n");
}

TEST_CASE("colour only where the style has it") {
    CHECK(paper::painted({}, paper::Ink::bad, "FAILS") == "FAILS");
    const paper::Style colour{.colour = true};
    CHECK(paper::painted(colour, paper::Ink::bad, "FAILS") == "\x1b[1;31mFAILS\x1b[0m");
    CHECK(paper::painted(colour, paper::Ink::plain, "holds") == "holds");
    CHECK(paper::painted(colour, paper::Ink::good, "").empty());
}
