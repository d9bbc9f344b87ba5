// SPDX-License-Identifier: MIT
#include <string>

#include "support.hpp"

using trialfit::test::complaints;

TEST_CASE("tabs in the indentation") {
    const char* const told = "a tab in the indentation; indent with spaces\n";
    CHECK(complaints("a:\n\tb: 1\n") == std::string("2:1: error: ") + told);
    CHECK(complaints("a:\n  b: 1\n\tc: 2\n") == std::string("3:1: error: ") + told);
    CHECK(complaints("a:\n  b: 1\n \tc: 2\n") == std::string("3:2: error: ") + told);
    CHECK(complaints("\ta: 1\n") == std::string("1:1: error: ") + told);
}

TEST_CASE("repeated readings without their quotes") {
    const char* const told =
        "error: '[1, 2] by caliper' begins with a bracket and goes on after it; put quotes round "
        "it: \"[1, 2] by caliper\"\n";
    CHECK(complaints("a: [1, 2] by caliper\nb: 1\n") == std::string("1:4: ") + told);
    CHECK(complaints("a: {x: [1, 2] by caliper, y: 2}\n") == std::string("1:8: ") + told);
    CHECK(complaints("a:\n  - [1, 2] by caliper  # note\n") == std::string("2:5: ") + told);
}

TEST_CASE("colons and spaces") {
    CHECK(complaints("a:1\nb: 1\n") ==
          "1:3: error: a space is missing after the colon; write 'key: value'\n");
    CHECK(complaints("a: 1\nb:1\nc: 2\n") ==
          "2:3: error: a space is missing after the colon; write 'key: value'\n");
    CHECK(complaints("title Foo\nunits: mm\n") ==
          "1:1: error: 'title Foo' has no colon; write 'key: value', or 'key:' over lines that are "
          "indented\n");
    CHECK(complaints("title: b: c\n") ==
          "1:9: error: a second colon in one line; begin a new line, or put the value in quotes\n");
    CHECK(complaints(": d\n") ==
          "1:1: error: a key is missing before the colon; write 'key: value'\n");
}

TEST_CASE("indentation") {
    CHECK(
        complaints("title: b\n  x: c\n") ==
        "2:3: error: this line is indented more than the one that it follows; line it up with the "
        "line above\n");
    const char* const told =
        "error: this line does not line up with those above it; give it the same indentation as "
        "the lines that it belongs with\n";
    CHECK(complaints("a:\n    b: 2\n  c: 1\n") == std::string("3:3: ") + told);
    CHECK(complaints("a: 1\n- b\n") == std::string("2:1: ") + told);
    CHECK(complaints("- a\nb: 1\n") ==
          "2:1: error: this line does not go on with what stands above it; a job file is made of "
          "lines like 'key: value'\n");
    CHECK(complaints("a: - 5\n") ==
          "1:4: error: a list cannot begin in the line of its key; begin '- ' in the next line, or "
          "write the list in brackets\n");
}

TEST_CASE("brackets") {
    const char* const brace = "error: '{' is opened here and not closed; write '}' where it ends\n";
    const char* const bracket =
        "error: '[' is opened here and not closed; write ']' where it ends\n";
    CHECK(complaints("x: 1\na: {b: 1, c: 2\nd: 3\n") == std::string("2:4: ") + brace);
    CHECK(complaints("x: 1\na: [b, c\nd: 3\n") == std::string("2:4: ") + bracket);
    CHECK(complaints("x: 1\na: [b, c\n") == std::string("2:4: ") + bracket);
    CHECK(complaints("x: 1\na: [[b, c], [c, d]\n") == std::string("2:4: ") + bracket);
    // A bracket in a comment or within quotes is none.
    CHECK(complaints("x: ']' # ]\na: [b, '}', c\n") == std::string("2:4: ") + bracket);
    CHECK(complaints("x: 1\na: [b, c}\n") == "2:9: error: '[' is closed by '}'; write ']'\n");
    CHECK(complaints("x: ]\n") ==
          "1:4: error: ']' closes nothing; take it away, or put the value in quotes\n");
    CHECK(complaints("a: {b: 1 c: 2}\n") ==
          "1:10: error: a comma is missing before this; put ', ' between the entries\n");
    CHECK(complaints("a: {b: 1\n  c: 2}\n") ==
          "2:3: error: a comma is missing before this; put ', ' between the entries\n");
}

TEST_CASE("quotes") {
    CHECK(complaints("x: \"abc\ny: 1\n") ==
          "1:4: error: a quote is opened here and not closed; write \" where the value ends\n");
    CHECK(complaints("x: 'it''s\ny: 1\n") ==
          "1:4: error: a quote is opened here and not closed; write ' where the value ends\n");
    CHECK(complaints("a: \"x\" y\n") ==
          "1:8: error: text after the closing quote; put the whole value between one pair of "
          "quotes\n");
    CHECK(complaints("a: \"\\q\"\n") ==
          "1:7: error: '\\' has a meaning of its own between double quotes; use single quotes, or "
          "write it twice\n");
}

TEST_CASE("anchors, aliases, tags and marks that begin no value") {
    CHECK(complaints("a: &x 1\nb: *x\n") ==
          "1:4: error: a value cannot begin with '&'; put it in quotes; job files have no anchors "
          "and no aliases\n");
    CHECK(complaints("a: *x\n") ==
          "1:4: error: a value cannot begin with '*'; put it in quotes; job files have no anchors "
          "and no aliases\n");
    for (const char* text : {"a: !foo 1\n", "a: !!str 1\n", "a: ! 1\n", "a: !foo [1]\n"})
        CHECK(
            complaints(text) ==
            "1:4: error: a value cannot begin with '!'; put it in quotes, or leave the mark out\n");
    CHECK(complaints("a: @x\n") == "1:4: error: a value cannot begin with '@'; put it in quotes\n");
    CHECK(complaints("a: % x\n") ==
          "1:4: error: a value cannot begin with '%'; put it in quotes\n");
}

TEST_CASE("more than one document, and none") {
    CHECK(complaints("---\na: 1\n---\nb: 1\n") ==
          "3:1: error: a second document begins here; keep each job in a file of its own\n");
    for (const char* text : {"", "\n", "# only a comment\n", "---\n", "\xEF\xBB\xBF"})
        CHECK(complaints(text) ==
              "1:1: error: the file holds no job; begin it with 'trialfit: 1'; 'trialfit start' "
              "writes one to fill in\n");
    CHECK(complaints("hello") ==
          "1:1: error: the job is a single value; write its entries as 'key: value', first of all "
          "'trialfit:'\n");
    // This one sends the YAML reader round in a circle.
    CHECK(complaints(",") ==
          "1:1: error: this line does not go on with what stands above it; a job file is made of "
          "lines like 'key: value'\n");
}

TEST_CASE("keys that are lists, and keys written twice") {
    CHECK(complaints("{[a]: b}\n") ==
          "1:2: error: a list or a map cannot be a key; write 'key: value'\n");
    CHECK(
        complaints("trialfit: 1\ntitle: a\nparts: []\ntitle: b\n") ==
        "3:8: error: 'parts' is an empty list; write it like '- part: NAME', one after the other, "
        "or take it away\n"
        "4:1: error: 'title' is written twice; it stands first in line 2; keep one of the two\n");
}

TEST_CASE("nesting and size are bounded") {
    const std::string deep = "a: " + std::string(10000, '[') + std::string(10000, ']') + "\n";
    CHECK(complaints(deep) ==
          "1:53: error: lists and maps are nested more than 50 deep here; a job file needs no more "
          "than ten; is a bracket or some indentation amiss?\n");
    CHECK(complaints("a: " + std::string(10000, '[')) ==
          "1:10003: error: '[' is opened here and not closed; write ']' where it ends\n");
    std::string steps;
    for (std::size_t i = 0; i < 200; ++i)
        steps += std::string(i, ' ') + "a:\n";
    CHECK(
        complaints(steps) ==
        "51:51: error: lists and maps are nested more than 50 deep here; a job file needs no more "
        "than ten; is a bracket or some indentation amiss?\n");
    std::string many = "a: [";
    for (int i = 0; i < 300000; ++i)
        many += "1,";
    CHECK(
        complaints(many + "]\n") ==
        "1:599999: error: the file has more than 300000 entries; a job has a few hundred; is this "
        "the right file?\n");
    const std::string runs_on = complaints("a: [" + many.substr(3) + "]]\n");
    CAPTURE(runs_on);
    CHECK(
        runs_on.ends_with(": error: one entry runs on over more than 150000 commas, brackets and "
                          "the like; is a bracket or a quote not closed, or is this the wrong "
                          "file?\n"));
    CHECK(complaints(std::string(300000, '\n')) ==
          "error: the file has more than 300000 lines; a job has a few hundred; is this the right "
          "file?\n");
    CHECK(complaints(std::string((4U << 20U) + 1, ' ')) ==
          "error: the file is larger than 4 MiB; a job file is a few pages of text; is this the "
          "right file?\n");
}
