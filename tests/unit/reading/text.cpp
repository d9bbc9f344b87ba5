// SPDX-License-Identifier: MIT
#include <string>

#include "everything.hpp"
#include "support.hpp"

using namespace trialfit;
using test::complaints;

TEST_CASE("encodings") {
    CHECK(complaints("\xFF\xFE"
                     "a\0") ==
          "error: the file is written in UTF-16; save it as UTF-8 in the editor\n");
    CHECK(complaints("a: \xFF\n") ==
          "1:4: error: the byte FF is not UTF-8 text; save the file as UTF-8 in the editor\n");
    // Latin-1, overlong, surrogate, beyond Unicode, cut short.
    for (const char* bytes : {"\xE9", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80",
                              "\xF4\x90\x80\x80", "\xE2\x82", "\xF0\x9F\x98", "\x80"}) {
        const std::string told = complaints("ü: \u20AC\n " + std::string(bytes) + "\n");
        CAPTURE(told);
        CHECK(told.starts_with("2:2: error: the byte "));
        CHECK(told.ends_with(" is not UTF-8 text; save the file as UTF-8 in the editor\n"));
    }
    CHECK(
        complaints(std::string_view("a: b\0\n", 6)) ==
        "1:5: error: a character that cannot be typed (code 0); delete it; is this a text file?\n");
    CHECK(complaints("a: \x1B[0m\n") ==
          "1:4: error: a character that cannot be typed (code 27); delete it\n");
}

TEST_CASE("columns count characters, whatever the line ends and the byte order mark") {
    const std::string plain = "trialfit: 1\ngauges: {\"ü€𝄞\": 0.03 cm}\nparts: []\n";
    const std::string expected =
        "2:10: error: 'ü€𝄞' cannot be the name of a gauge; a name begins with a letter and goes on "
        "with letters, digits, _ and -\n"
        "2:22: error: 'cm' is not a unit of this file format; write mm, um, in or thou\n"
        "3:8: error: 'parts' is an empty list; write it like '- part: NAME', one after the other, "
        "or "
        "take it away\n";
    CHECK(complaints(plain) == expected);
    CHECK(complaints("\xEF\xBB\xBF" + plain) == expected);
    std::string windows;
    std::string old_mac;
    for (const char c : plain) {
        windows += c == '\n' ? "\r\n" : std::string(1, c);
        old_mac += c == '\n' ? '\r' : c;
    }
    CHECK(complaints(windows) == expected);
    CHECK(complaints("\xEF\xBB\xBF" + windows) == expected);
    CHECK(complaints(old_mac) == expected);
}

TEST_CASE("line ends and byte order mark change nothing in the job") {
    const std::string plain = test::kEverything;
    std::string windows = "\xEF\xBB\xBF";
    for (const char c : plain)
        windows += c == '\n' ? "\r\n" : std::string(1, c);
    const job::Job one = test::read(plain);
    const job::Job other = test::read(windows);
    CHECK(one.title == other.title);
    CHECK(one.parts.at(2).cuts.at(0).note == other.parts.at(2).cuts.at(0).note);
    CHECK(one.readings.at(0).is.at == other.readings.at(0).is.at);
}

TEST_CASE("a place within a value, in quotes or not, and never in a folded one") {
    const std::string head =
        "trialfit: 1\ngauges: {caliper: 0.03}\nparts:\n  - part: a\n    faces:\n";
    CHECK(complaints(head + "      back: zero\n      front: 10 by calliper from back\n") ==
          "7:20: error: 'calliper' is not one of the file's gauges; did you mean 'caliper'?\n");
    CHECK(complaints(head + "      back: zero\n      front: \"10 by calliper from back\"\n") ==
          "7:21: error: 'calliper' is not one of the file's gauges; did you mean 'caliper'?\n");
    CHECK(complaints(head + "      back: zero\n      front: 10 by caliper from bak\n") ==
          "7:33: error: face 'front' is measured from 'bak', which is not a face of part 'a'; did "
          "you mean 'back'?\n");
    CHECK(complaints(head + "      back: zero\n      front: 10 by\n        calliper from back\n") ==
          "7:14: error: 'calliper' is not one of the file's gauges; did you mean 'caliper'?\n");
}
