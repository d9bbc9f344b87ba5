// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <trialfit/paper/reference/text.hpp>

using namespace trialfit;

namespace {

trade::Reference invented() {
    trade::Reference out;
    out.kind = "size";
    out.asked = "12 z9";
    out.answer = "An invented answer.";
    out.rows = {{.what = "one", .value = 1.23456789, .unit = "mm", .source = "first book"},
                {.what = "two", .value = 0.5, .upper = 0.75, .unit = "mm", .source = "second book"},
                {.what = "three", .words = "in words", .source = "first book"}};
    out.notes = {"A note."};
    return out;
}

TEST_CASE("each figure points to its source, which is named once") {
    CHECK(paper::reference_text(invented(), {.colour = false, .width = 60}) ==
          "An invented answer.\n"
          "\n"
          "one                1.23457  mm  [1]\n"
          "two              0.5..0.75  mm  [2]\n"
          "three: in words                 [1]\n"
          "\n"
          "Sources\n"
          "  [1] first book\n"
          "  [2] second book\n"
          "\n"
          "A note.\n");
}

TEST_CASE("as JSON a figure is whole, a range two figures, words words") {
    const auto json = nlohmann::json::parse(paper::reference_json(invented()));
    CHECK(json.at("kind") == "size");
    CHECK(json.at("rows").at(0).at("value") == 1.23456789);
    CHECK(json.at("rows").at(1).at("limits") == nlohmann::json::array({0.5, 0.75}));
    CHECK(json.at("rows").at(2).at("words") == "in words");
    CHECK(json.at("rows").at(2).at("source") == "first book");
}

}  // namespace
