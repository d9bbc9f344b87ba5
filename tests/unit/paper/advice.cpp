// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/check/advice.hpp>

#include "demo_answer.hpp"

using namespace trialfit;
using stack::CheckKind;
using stack::Verdict;

namespace {

stack::CheckResult gap(std::string name, stack::Bounds value, std::optional<double> at_least,
                       std::optional<double> at_most, Verdict verdict) {
    stack::CheckResult out = testing::check(std::move(name), CheckKind::gap, "washer.top",
                                            "cover.thrust", value, verdict);
    out.at_least = at_least;
    out.at_most = at_most;
    return out;
}

stack::CheckAnswer answer(Verdict verdict, std::vector<stack::Clearance> clearances,
                          std::vector<stack::CheckResult> checks) {
    stack::CheckAnswer out;
    out.file = "job.yaml";
    out.verdict = verdict;
    out.clearances = std::move(clearances);
    out.checks = std::move(checks);
    return out;
}

std::string all_of(const stack::CheckAnswer& given) {
    std::string out;
    for (const paper::Item& step : paper::advice(given)) {
        out += step.text + "\n";
        if (!step.command.empty()) out += "$ " + step.command + "\n";
    }
    return out;
}

constexpr const char* kSpread =
    "If you move a face, all parts on it move too, and every cut or shim has an error of its own: "
    "write the new size into the job and check again before you cut.\n";
constexpr const char* kMeasure =
    "Measure again before you cut or buy: metal does not grow back. The sizes that the figure "
    "stands on, biggest first:\n";

}  // namespace

TEST_CASE("a gap with two limits: far enough, and not too far") {
    CHECK(
        all_of(answer(Verdict::fails, {},
                      {gap("end float", {0.78, 0.78, {0.676, 0.884}, {0.74, 0.82}}, 0.05, 0.35,
                           Verdict::fails)})) ==
        std::string(kMeasure) +
            "$ trialfit why job.yaml \"end float\"\n"
            "For 'end float' to hold in the worst case: move washer.top 0.54 to 0.62 mm outboard, "
            "or cover.thrust 0.54 to 0.62 mm inboard, or split that.\n" +
            kSpread);
}

TEST_CASE("a range wider than its limits cannot be moved between them") {
    CHECK(
        all_of(answer(Verdict::fails, {},
                      {gap("end float", {0.78, 0.78, {0.5, 1.0}, {0.6, 0.9}}, 0.1, 0.3,
                           Verdict::fails)}))
            .find("For 'end float' to hold in the worst case: measure its sizes better first: they "
                  "vary by more than its limits allow, and no cut or shim mends that.\n") !=
        std::string::npos);
}

TEST_CASE("a clearance and a check about the same gap are advised on once") {
    const stack::Clearance twin = testing::clearance(
        "washer.top", "cover.thrust", 0.5, {0.1, 0.1, {0.0, 0.2}, {0.0, 0.2}}, Verdict::fails);
    const stack::CheckResult asks_more =
        gap("room", {0.1, 0.1, {0.0, 0.2}, {0.0, 0.2}}, 0.6, std::nullopt, Verdict::fails);
    const std::string by_check = all_of(answer(Verdict::fails, {twin}, {asks_more}));
    CHECK(by_check.find("For 'room' to hold") != std::string::npos);
    CHECK(by_check.find("For 'washer.top to cover.thrust'") == std::string::npos);
    stack::CheckResult asks_less = asks_more;
    asks_less.at_least = 0.4;
    const std::string by_clearance = all_of(answer(Verdict::fails, {twin}, {asks_less}));
    CHECK(by_clearance.find("For 'room' to hold") == std::string::npos);
    CHECK(by_clearance.find("For 'washer.top to cover.thrust'") != std::string::npos);
    // What the check asks at its other end is still its own.
    asks_less.at_most = 0.15;
    CHECK(all_of(answer(Verdict::fails, {twin}, {asks_less})).find("For 'room' to hold") !=
          std::string::npos);
}

TEST_CASE("an engagement and an overlap are mended in their own ways") {
    stack::CheckAnswer a = testing::fouling_rotor();
    a.checks[0].verdict = Verdict::fails;
    a.checks[0].value = {5.0, 5.0, {4.5, 5.5}, {4.7, 5.3}};
    const std::string text = all_of(a);
    CHECK(text.find(
              "For 'magnets over poles' to hold in the worst case: let rotor.magnets span 1.50 mm "
              "more of stator.poles.\n") != std::string::npos);
    CHECK(text.find(
              "For 'nut engagement' to hold in the worst case: let 0.80 mm more thread engage (a "
              "longer thread, a longer nut, or a thinner washer where the nut does not run out of "
              "thread).\n") != std::string::npos);
}

TEST_CASE("judged by RSS, RSS is what must be mended") {
    stack::CheckAnswer a = answer(
        Verdict::fails, {},
        {gap("room", {0.1, 0.1, {-0.5, 0.7}, {0.0, 0.2}}, 0.6, std::nullopt, Verdict::fails)});
    a.judge = stack::Judge::rss;
    CHECK(all_of(a).find("For 'room' to hold by RSS: move washer.top 0.60 mm inboard, or "
                         "cover.thrust 0.60 mm outboard, or split the 0.60") != std::string::npos);
}

TEST_CASE("a ring's end beyond its face is asked about by its face") {
    stack::Clearance beyond = testing::clearance(
        "case.floor", "cap.top -5", 0.5, {0.6, 0.6, {0.4, 0.8}, {0.5, 0.7}}, Verdict::doubtful);
    beyond.outboard_face = "cap.top";
    CHECK(all_of(answer(Verdict::doubtful, {beyond}, {}))
              .find("$ trialfit why job.yaml case.floor cap.top\n") != std::string::npos);
}

TEST_CASE("many failures are not all advised on") {
    std::vector<stack::CheckResult> many(
        8, gap("room", {0.1, 0.1, {0.0, 0.2}, {0.0, 0.2}}, 0.6, std::nullopt, Verdict::fails));
    CHECK(all_of(answer(Verdict::fails, {}, many))
              .find("\n3 other checks fail too; the tables above have them.\n") !=
          std::string::npos);
}

TEST_CASE("doubts say how far it can go and what RSS says") {
    const auto one = [](stack::Bounds value, double least) {
        return paper::doubts(answer(Verdict::doubtful, {},
                                    {gap("room", value, least, std::nullopt, Verdict::doubtful)}));
    };
    CHECK(one({1.0, 1.0, {0.2, 1.8}, {0.65, 1.35}}, 0.6) ==
          std::vector<std::string>{"room: 1.00 nominal; 0.20 with every size at its bad limit, "
                                   "0.40 short of the 0.60 needed. RSS 0.65 to 1.35: that would "
                                   "hold."});
    CHECK(one({0.1, 0.1, {-0.2, 0.4}, {-0.1, 0.3}}, 0.0) ==
          std::vector<std::string>{"room: 0.10 nominal; -0.20 with every size at its bad limit, "
                                   "where they foul. RSS -0.10 to 0.30: that would not hold "
                                   "either."});
    stack::CheckAnswer over =
        answer(Verdict::doubtful, {},
               {gap("room", {0.3, 0.3, {0.1, 0.5}, {0.2, 0.4}}, 0.05, 0.35, Verdict::doubtful)});
    over.judge = stack::Judge::rss;
    CHECK(paper::doubts(over) ==
          std::vector<std::string>{"room: 0.30 nominal; 0.40 by RSS, 0.05 over the 0.35 allowed."});
    CHECK(paper::doubts(answer(Verdict::holds, {}, {})).empty());
}

TEST_CASE("an engine has an inside to move towards, and the plan comes first where there is one") {
    stack::CheckAnswer a = answer(
        Verdict::fails, {},
        {gap("room", {0.1, 0.1, {0.0, 0.2}, {0.0, 0.2}}, 0.6, std::nullopt, Verdict::fails)});
    CHECK(all_of(a).find("trialfit plan") == std::string::npos);
    a.cautions = {stack::Caution::spark_plug};
    a.may_change = true;
    CHECK(all_of(a).find("move washer.top 0.60 mm towards the engine, or cover.thrust 0.60 mm away "
                         "from the engine, or split the 0.60.") != std::string::npos);
    CHECK(
        all_of(a).starts_with("Let the plan work out what to cut or shim, with every check at "
                              "once:\n$ trialfit plan job.yaml\n"));
}
