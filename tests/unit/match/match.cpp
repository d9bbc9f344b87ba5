// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <string>
#include <support/examples.hpp>
#include <trialfit/match/match.hpp>
#include <trialfit/match/present.hpp>
#include <trialfit/match/rank.hpp>
#include <trialfit/match/written.hpp>
#include <trialfit/paper/match/text.hpp>
#include <vector>

using namespace trialfit;
using match::Standing;
using reading::Joiner;

namespace {

Joiner kits(const std::string& engine, const std::vector<std::string>& names) {
    const std::filesystem::path folder = TRIALFIT_SOURCE_DIR "/examples/kits";
    std::vector<reading::NamedText> files{{engine, testing::text_of(folder / engine)}};
    for (const std::string& name : names)
        files.push_back({name, testing::text_of(folder / name)});
    return Joiner(files);
}

std::vector<std::vector<std::size_t>> each_alone(const Joiner& joiner) {
    std::vector<std::size_t> all;
    for (std::size_t i = 1; i < joiner.size(); ++i)
        all.push_back(i);
    return match::combinations({all});
}

const std::vector<std::string> kFive{"kit-a.yaml", "kit-b.yaml", "kit-c.yaml", "kit-d.yaml",
                                     "kit-e.yaml"};

}  // namespace

TEST_CASE("combinations take one of each group, the last group fastest") {
    CHECK(match::combinations({{1, 2}, {3, 4}}) ==
          std::vector<std::vector<std::size_t>>{{1, 3}, {1, 4}, {2, 3}, {2, 4}});
    CHECK(match::combinations({{1}, {}}).empty());
}

TEST_CASE("candidates rank by standing, then cost, price, odds and the order they were named in") {
    const auto made = [](Standing standing, double cost, std::optional<double> price, double odds) {
        match::Candidate out{.standing = standing, .price = price, .odds = odds};
        if (standing != Standing::after_plan) return out;
        out.plan.emplace();
        out.plan->plans.emplace_back().cost = cost;
        return out;
    };
    const auto holds = made(Standing::holds, 0.0, 90.0, 1.0);
    const auto cheaper = made(Standing::holds, 0.0, 80.0, 1.0);
    const auto unpriced = made(Standing::holds, 0.0, std::nullopt, 1.0);
    const auto by_plan = made(Standing::after_plan, 1.0, 10.0, 0.1);
    const auto by_less = made(Standing::after_plan, 0.5, 99.0, 0.0);
    const auto likelier = made(Standing::doubtful, 0.0, 10.0, 0.9);
    const auto doubtful = made(Standing::doubtful, 0.0, 10.0, 0.8);
    const auto open = made(Standing::not_judged, 0.0, 1.0, 1.0);
    CHECK(match::before(cheaper, holds));
    CHECK(match::before(holds, unpriced));
    CHECK(match::before(unpriced, by_less));
    CHECK(match::before(by_less, by_plan));
    CHECK(match::before(by_plan, likelier));
    CHECK(match::before(likelier, doubtful));
    CHECK(match::before(doubtful, open));
    CHECK_FALSE(match::before(holds, holds));
}

TEST_CASE("each of the five kits stands as its file says") {
    const Joiner joiner = kits("engine.yaml", kFive);
    const match::MatchAnswer answer = match::match(joiner, each_alone(joiner));
    REQUIRE(answer.candidates.size() == 5);
    std::string told;
    for (const match::Candidate& each : answer.candidates)
        told += answer.files[each.files.front()] + " ";
    CHECK(told == "kit-b.yaml kit-c.yaml kit-a.yaml kit-d.yaml kit-e.yaml ");
    CHECK(answer.candidates[0].standing == Standing::holds);
    CHECK(answer.candidates[1].plan->plans.front().shims.front().height == 2.0);
    CHECK(answer.candidates[1].plan->plans.front().cuts.empty());
    CHECK(answer.candidates[2].plan->plans.front().cuts.front().face == "plate.front");
    CHECK(answer.candidates[3].standing == Standing::no_plan);
    CHECK(answer.candidates[4].standing == Standing::not_judged);
    CHECK_FALSE(answer.candidates[4].odds.has_value());
}

TEST_CASE("a weight that clears and holds fits only where it starts, too") {
    const Joiner joiner = kits("pump-motor.yaml", {"weight-thin.yaml", "weight-wide.yaml"});
    const match::MatchAnswer answer = match::match(joiner, each_alone(joiner));
    REQUIRE(answer.candidates.size() == 2);
    CHECK(answer.files[answer.candidates[0].files.front()] == "weight-wide.yaml");
    CHECK(answer.candidates[0].standing == Standing::holds);
    CHECK(answer.candidates[1].check->verdict == stack::Verdict::holds);
    CHECK(answer.candidates[1].standing == Standing::no_plan);
}

TEST_CASE("a hub of another taper than its shaft's fails, and no plan mends it") {
    const std::filesystem::path folder = TRIALFIT_SOURCE_DIR "/examples/kits";
    std::string kit = testing::text_of(folder / "kit-a.yaml");
    const std::string equal = "taper: 1 in 5";
    kit.replace(kit.find(equal), equal.size(), "taper: 1:4.92");
    const Joiner joiner({{"engine.yaml", testing::text_of(folder / "engine.yaml")}, {"kit", kit}});
    const match::MatchAnswer answer = match::match(joiner, {{1}});
    const match::Candidate& only = answer.candidates.front();
    REQUIRE(only.check);
    CHECK(only.check->verdict == stack::Verdict::fails);
    CHECK(only.standing == Standing::no_plan);
    CHECK(paper::match_text(answer, {}).find("not judged") == std::string::npos);
}

TEST_CASE("a kit of which nothing is judged does not fit for that") {
    const Joiner joiner(
        {{"engine.yaml", "trialfit: 1\nparts:\n  - part: case\n    faces: {floor: zero}\n"},
         {"kit.yaml",
          "trialfit: 1\nparts:\n  - part: plate\n    sits: {face: back, against: "
          "case.floor}\n    faces: {back: zero, front: 5 exact from back}\n    cuts: "
          "[{face: front, measure: back, keep: 4, holds: 0.01}]\n"}});
    const match::MatchAnswer answer = match::match(joiner, {{1}});
    REQUIRE(answer.candidates.front().check);
    CHECK(answer.candidates.front().standing == Standing::not_judged);
    CHECK_FALSE(answer.candidates.front().odds);
    CHECK(paper::match_text(answer, {}).find("Nothing to judge") != std::string::npos);
}

TEST_CASE("what is left open after a plan is told, not seat or start") {
    const std::filesystem::path folder = TRIALFIT_SOURCE_DIR "/examples/kits";
    std::string kit = testing::text_of(folder / "kit-a.yaml");
    const std::string known = "magnet_out: 13.0 ±0.2 from rim";
    kit.replace(kit.find(known), known.size(), "magnet_out: unmeasured from rim");
    const Joiner joiner({{"engine.yaml", testing::text_of(folder / "engine.yaml")}, {"kit", kit}});
    const match::MatchAnswer answer = match::match(joiner, {{1}});
    const match::Candidate& only = answer.candidates.front();
    REQUIRE(only.check);
    CHECK(only.check->verdict == stack::Verdict::fails);
    CHECK(only.standing == Standing::not_judged);
    const std::string text = paper::match_text(answer, {});
    CHECK(text.find("seat or start") == std::string::npos);
    CHECK(text.find("after its cheapest plan: ") != std::string::npos);
}

TEST_CASE("the answer is the same for any number of threads") {
    const Joiner joiner = kits("engine.yaml", kFive);
    const auto all = match::combinations({{1, 2, 3, 4, 5}});
    const std::string one = paper::match_json(match::match(joiner, all, {.threads = 1}));
    for (const unsigned threads : {2U, 3U, 8U})
        CHECK(paper::match_json(match::match(joiner, all, {.threads = threads})) == one);
}

TEST_CASE("a match that is stopped tells what it judged") {
    const Joiner joiner = kits("engine.yaml", kFive);
    std::atomic<bool> stop{false};
    const match::MatchAnswer answer =
        match::match(joiner, each_alone(joiner),
                     {.threads = 1, .stop = &stop, .progress = [&](std::size_t done) {
                          if (done == 2) stop = true;
                      }});
    CHECK(answer.stopped);
    CHECK(answer.asked == 5);
    CHECK(answer.candidates.size() == 2);
}

TEST_CASE("what is written reads to the answers that it was ranked by") {
    const Joiner joiner = kits("engine.yaml", kFive);
    const match::MatchAnswer answer = match::match(joiner, each_alone(joiner));
    for (const match::Candidate& each : answer.candidates) {
        CAPTURE(answer.files[each.files.front()]);
        const match::Written written = match::written(joiner, each);
        REQUIRE(written.text);
        // Comments of both files are kept.
        CHECK(written.text->find("# Invented demo data: the shaft end") != std::string::npos);
        CHECK(written.text->find("# Invented demo data: a kit") != std::string::npos);
        CHECK(written.text->find("kit: here") == std::string::npos);
    }
    // A candidate whose figures are others than its text has is not written.
    match::Candidate wrong = answer.candidates.front();
    wrong.check->checks.front().value.worst.lo += 0.01;
    CHECK_FALSE(match::written(joiner, wrong).text.has_value());
}

TEST_CASE("a card's drawing has the figures of its candidate, readings and all") {
    const std::filesystem::path demo = TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml";
    const Joiner joiner(
        {{"demo.yaml", testing::text_of(demo)}, {"nothing.yaml", "trialfit: 1\nparts: []\n"}});
    const match::MatchAnswer answer = match::match(joiner, {{1}});
    REQUIRE(answer.candidates.front().check);
    const auto section = match::section_of(joiner, answer.candidates.front());
    REQUIRE(section);
    const auto& drawn = section->check.clearances.front();
    const auto& judged = answer.candidates.front().check->clearances.front();
    CHECK(drawn.gap.nominal == judged.gap.nominal);
    CHECK(drawn.gap.worst == judged.gap.worst);
}
