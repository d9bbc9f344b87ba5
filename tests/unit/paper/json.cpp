// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <limits>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <trialfit/paper/printed.hpp>
#include <utility>

#include "demo_answer.hpp"
#include "why_answer.hpp"

using namespace trialfit;
using Json = nlohmann::ordered_json;

namespace {

std::vector<std::string> keys(const Json& object) {
    std::vector<std::string> out;
    for (const auto& [key, value] : object.items())
        out.push_back(key);
    return out;
}

}  // namespace

TEST_CASE("check's keys, in their order") {
    const Json json = Json::parse(paper::check_json(testing::fouling_rotor()));
    CHECK(keys(json) ==
          std::vector<std::string>{"trialfit", "command", "file", "units", "judge", "inflate",
                                   "title", "verdict", "clearances", "implied_left_out", "checks",
                                   "radial", "first_contact", "notes", "not_assessed", "cautions"});
    CHECK(keys(json["clearances"][0]) ==
          std::vector<std::string>{"between", "rings", "at_least", "more_than", "nominal", "middle",
                                   "worst", "rss", "verdict", "tightest"});
    CHECK(keys(json["checks"][1]) ==
          std::vector<std::string>{"check", "kind", "between", "nominal", "middle", "worst", "rss",
                                   "at_least", "at_most", "at_least_written", "verdict"});
    CHECK(keys(json["first_contact"]["stands_proud"]) ==
          std::vector<std::string>{"nominal", "worst", "rss"});
}

TEST_CASE("check's values") {
    const Json json = Json::parse(paper::check_json(testing::fouling_rotor()));
    CHECK(json["trialfit"] == 1);
    CHECK(json["command"] == "check");
    CHECK(json["units"] == "mm");
    CHECK(json["judge"] == "worst");
    CHECK(json["verdict"] == "fails");
    CHECK(json["clearances"][0]["between"] == Json::array({"plate.front", "rotor.rim"}));
    CHECK(json["clearances"][0]["rings"] == Json::array({"plate.ring", "rotor.ring"}));
    CHECK(json["first_contact"]["rings"] == Json::array({"plate.disc", "rotor.skirt"}));
    CHECK(json["clearances"][0]["worst"] == Json::array({-4.305, -3.695}));
    CHECK(json["clearances"][1]["nominal"] == 0.9);
    CHECK(json["clearances"][1]["middle"] == 1.0);
    CHECK(json["clearances"][1]["verdict"] == "doubtful");
    CHECK(json["checks"][0]["kind"] == "overlap");
    CHECK(json["checks"][0]["share"] == 0.9875);
    CHECK(json["checks"][0]["at_most"].is_null());
    CHECK(json["checks"][1]["at_least"] == 7.0);
    CHECK(json["first_contact"]["between"] == Json::array({"plate.front", "rotor.rim"}));
    CHECK(json["first_contact"]["stands_proud"]["nominal"] == 4.0);
}

TEST_CASE("nothing is rounded") {
    stack::CheckAnswer a;
    const double third = 1.0 / 3.0;
    a.clearances = {testing::clearance("a.x", "b.y", 0.1, {third, third, {-1e-17, 1e300}, {0, 1}},
                                       stack::Verdict::holds)};
    const Json json = Json::parse(paper::check_json(a));
    CHECK(json["clearances"][0]["nominal"].get<double>() == third);
    CHECK(json["clearances"][0]["worst"][0].get<double>() == -1e-17);
    CHECK(json["clearances"][0]["worst"][1].get<double>() == 1e300);
    CHECK(json["clearances"][0]["at_least"].get<double>() == 0.1);
    CHECK(json["first_contact"].is_null());
    CHECK(json["checks"] == Json::array());
    CHECK(json["not_assessed"] == Json::array());
}

TEST_CASE("what JSON cannot say does not spoil it") {
    stack::CheckAnswer a;
    a.file = "caf\xe9.yaml";
    a.title = "\x01\"quoted\"";
    const std::string text = paper::check_json(a);
    const Json json = Json::parse(text);
    CHECK(json["file"] == "caf\uFFFD.yaml");
    CHECK(json["title"] == "\x01\"quoted\"");
    CHECK(text.ends_with("}\n"));
}

TEST_CASE("an answer with a figure that is none does not come out") {
    const auto sound = [] {
        stack::CheckAnswer answer;
        answer.clearances = {testing::clearance("a.b", "c.d", 0.5, {1, 1, {0.9, 1.1}, {0.95, 1.05}},
                                                stack::Verdict::holds)};
        answer.checks = {testing::check("room", stack::CheckKind::gap, "a.b", "c.d",
                                        {1, 1, {0.9, 1.1}, {0.95, 1.05}}, stack::Verdict::holds)};
        answer.first_contact = testing::rim_on_plate();
        return answer;
    };
    CHECK(!paper::check_json(sound()).empty());
    stack::CheckAnswer answer = sound();
    double* const figures[] = {&answer.clearances[0].at_least,
                               &answer.clearances[0].gap.nominal,
                               &answer.clearances[0].gap.middle,
                               &answer.clearances[0].gap.worst.lo,
                               &answer.clearances[0].gap.rss.hi,
                               &answer.checks[0].value.nominal,
                               &answer.checks[0].value.worst.hi,
                               &answer.first_contact->stands_proud.nominal,
                               &answer.first_contact->stands_proud.worst.lo,
                               &answer.inflate};
    for (double* const figure : figures)
        for (const double none :
             {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
            const double was = std::exchange(*figure, none);
            CHECK_THROWS_AS(static_cast<void>(paper::check_json(answer)), std::logic_error);
            *figure = was;
        }
}

TEST_CASE("why's keys and values") {
    const Json json = Json::parse(paper::why_json(testing::doubtful_gap()));
    CHECK(keys(json) == std::vector<std::string>{
                            "trialfit", "command",  "file",    "units",     "judge",   "inflate",
                            "name",     "kind",     "between", "nominal",   "middle",  "worst",
                            "rss",      "at_least", "at_most", "more_than", "verdict", "sd",
                            "constant", "chain",    "notes"});
    CHECK(keys(json["chain"][0]) == std::vector<std::string>{"size", "written", "line", "column",
                                                             "nominal", "limits", "sensitivity",
                                                             "half_width", "worst_share",
                                                             "variance_share", "if_halved"});
    CHECK(json["chain"][1]["size"] == "rotor.bore dia");
    CHECK(json["chain"][1]["sensitivity"] == -5.0);
    CHECK(json["chain"][1]["line"] == 61);
    CHECK(json["chain"][0]["if_halved"]["worst"] == Json::array({0.6, 1.4}));
    CHECK(json["verdict"] == "doubtful");
}
