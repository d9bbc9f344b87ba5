// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>

namespace paper = trialfit::paper;

namespace {

paper::Table two_columns(const std::string& name, const std::string& figure) {
    paper::Table out;
    out.columns = {paper::Column::names("Checks"), "nominal\n(middle)"};
    out.add({name, {figure, paper::Ink::plain, "(1.10)"}});
    return out;
}

}  // namespace

TEST_CASE("names to the left, figures to the right") {
    CHECK(paper::table(two_columns("nut engagement", "1.00"), {}) ==
          "Checks           nominal\n"
          "                (middle)\n"
          "nut engagement      1.00\n"
          "                  (1.10)\n");
}

TEST_CASE("long names wrap, and a word that cannot is shortened") {
    CHECK(paper::table(two_columns("a name of very many words", "1.00"), {.width = 30}) ==
          "Checks                 nominal\n"
          "                      (middle)\n"
          "a name of very            1.00\n"
          "  many words            (1.10)\n");
    CHECK(paper::table(two_columns(std::string(200, 'x'), "1.00"), {.width = 30}) ==
          "Checks                 nominal\n"
          "                      (middle)\n"
          "xxxxxxxxx...xxxxxxxx      1.00\n"
          "                        (1.10)\n");
}

TEST_CASE("figures that leave the names little room stand under them") {
    CHECK(paper::table(two_columns("a name of very many words", "1.00"), {.width = 29}) ==
          "Checks   nominal\n"
          "        (middle)\n"
          "a name of very many words\n"
          "            1.00\n"
          "          (1.10)\n");
}

TEST_CASE("figures that do not fit at all are listed one a line") {
    CHECK(paper::table(two_columns("nut engagement", "123456789.00"), {.width = 19}) ==
          "nut engagement\n"
          "    nominal\n"
          "    123456789.00\n"
          "    (1.10)\n");
}

TEST_CASE("a remark runs under its row") {
    paper::Table table = two_columns("nut engagement", "1.00");
    table.rows[0].remark = "engagement, nut.thread on crank.thread";
    CHECK(paper::table(table, {.width = 30}) ==
          "Checks           nominal\n"
          "                (middle)\n"
          "nut engagement      1.00\n"
          "                  (1.10)\n"
          "    engagement, nut.thread on\n"
          "    crank.thread\n");
}

TEST_CASE("a table without rows is no text") {
    paper::Table table = two_columns("nut engagement", "1.00");
    table.rows.clear();
    CHECK(paper::table(table, {}).empty());
}

TEST_CASE("colour does not move a column") {
    paper::Table table = two_columns("nut engagement", "1.00");
    table.rows[0].cells[1].ink = paper::Ink::bad;
    CHECK(paper::table(table, {.colour = true}) ==
          "\x1b[2mChecks\x1b[0m           \x1b[2mnominal\x1b[0m\n"
          "                \x1b[2m(middle)\x1b[0m\n"
          "nut engagement      \x1b[1;31m1.00\x1b[0m\n"
          "                  \x1b[1;31m(1.10)\x1b[0m\n");
}
