// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <random>
#include <string>
#include <support/messages.hpp>
#include <trialfit/trialfit.hpp>
#include <vector>

using namespace trialfit;

namespace {

// A rotor on a plate, two depths read from its outer face.
std::string jam(const std::string& plate, const std::string& together = "10.02 by caliper") {
    return fmt::format(R"(trialfit: 1
units: mm
gauges: {{caliper: 0.03}}
parts:
- part: engine
  faces: {{pad: zero, cone: unmeasured from pad, end: unmeasured from cone}}
- part: plate
  sits: {{face: back, against: engine.pad}}
  faces: {{back: zero, front: {} from back}}
  cuts: [{{face: front, measure: back, keep: 5.5, holds: 0.02}}]
- part: rotor
  turns: true
  sits: {{face: hub, against: engine.cone, offset: 0 exact}}
  faces: {{hub: zero, rim: unmeasured from hub, outer: unmeasured from hub}}
readings:
- {{reading: alone, from: rotor.outer, to: engine.end, is: 13.97 by caliper, fitted: [engine, rotor]}}
- {{reading: together, from: rotor.outer, to: engine.end, is: {}, touching: [plate.front, rotor.rim]}}
checks:
- {{check: clears, gap: [plate.front, rotor.rim], at_least: 0.5}}
)",
                       plate, together);
}

stack::CheckAnswer checked(const std::string& text) {
    const auto study = Study::read(text);
    REQUIRE(study);
    const auto answer = study->check();
    REQUIRE(answer);
    return *answer;
}

}  // namespace

// 13.97 less 10.02, by hand.
TEST_CASE("two readings fix a gap of which no size is measured") {
    const stack::CheckResult found = checked(jam("unmeasured")).checks.at(0);
    CHECK(found.verdict == stack::Verdict::fails);
    CHECK(found.value.nominal == doctest::Approx(10.02 - 13.97).epsilon(1e-12));
    CHECK(found.value.worst.lo == doctest::Approx(-3.95 - 0.06).epsilon(1e-12));
    CHECK(found.value.worst.hi == doctest::Approx(-3.95 + 0.06).epsilon(1e-12));
}

TEST_CASE("a gap that no reading fixes is not judged, and the size that would fix it is named") {
    std::string text = jam("10 by caliper");
    const std::size_t from = text.find("- {reading: together");
    text.erase(from, text.find("checks:") - from);
    const stack::CheckAnswer answer = checked(text);
    CHECK(answer.verdict == stack::Verdict::not_judged);
    const stack::CheckResult& found = answer.checks.at(0);
    CHECK(found.verdict == stack::Verdict::not_judged);
    CHECK(found.value.open());
    const auto* const open = testing::message<stack::LeftOpen>(found.not_judged_for.value());
    REQUIRE(open != nullptr);
    CHECK(open->alone.empty());
    CHECK(open->all ==
          std::vector<std::string>{"engine.cone from engine.pad", "rotor.rim from rotor.hub"});
    // With the rim measured the cone alone is left.
    const std::size_t rim = text.find("rim: unmeasured");
    text.replace(rim, 15, "rim: -8 by caliper");
    const stack::CheckResult nearer = checked(text).checks.at(0);
    const auto* const one = testing::message<stack::LeftOpen>(nearer.not_judged_for.value());
    REQUIRE(one != nullptr);
    CHECK(one->alone == std::vector<std::string>{"engine.cone from engine.pad"});
}

TEST_CASE("odds of what is open are not given, those of what readings fix are") {
    const auto fixed = Study::read(jam("unmeasured", "14.6 by caliper"))->odds();
    REQUIRE(fixed);
    CHECK(fixed->checks.at(0).mean == doctest::Approx(14.6 - 13.97).epsilon(1e-12));
    CHECK(fixed->checks.at(0).sd == doctest::Approx(0.03 * std::sqrt(2.0 / 3.0)).epsilon(1e-9));
    std::string text = jam("10 by caliper");
    const std::size_t from = text.find("- {reading: together");
    text.erase(from, text.find("checks:") - from);
    const auto open = Study::read(text)->odds();
    REQUIRE(open);
    CHECK(open->checks.at(0).open);
    CHECK(open->judged == 0);
}

TEST_CASE("a face of unknown thickness is cut by amount, and what must remain is not judged") {
    const auto answer = Study::read(jam("unmeasured"))->plan();
    REQUIRE(answer);
    REQUIRE(!answer->plans.empty());
    const plan::PlanMade& best = answer->plans.front();
    REQUIRE(best.cuts.size() == 1);
    CHECK(best.cuts[0].by_amount);
    // 3.95 + 0.06 to be sure, 0.5 of clearance, 0.02 that the lathe may be out.
    CHECK(best.cuts[0].remove == doctest::Approx(4.53).epsilon(1e-9));
    CHECK(best.after.verdict == stack::Verdict::not_judged);
    CHECK(best.after.checks.at(0).verdict == stack::Verdict::holds);
    CHECK(testing::message<job::KeepNotJudged>(best.after.warnings) != nullptr);
    // Read to 0.03, the plate adds that.
    const auto measured = Study::read(jam("10.2 by caliper"))->plan();
    REQUIRE(measured);
    REQUIRE(!measured->plans.empty());
    CHECK(!measured->plans.front().cuts.at(0).by_amount);
    CHECK(measured->plans.front().cuts.at(0).finish == doctest::Approx(10.2 - 4.56).epsilon(1e-9));
}

TEST_CASE("a job with unmeasured sizes is written, and reads again to the same answer") {
    const auto study = Study::read(jam("unmeasured"));
    REQUIRE(study);
    const auto yaml = study->yaml();
    REQUIRE(yaml);
    CHECK(yaml->find("unmeasured from pad") != std::string::npos);
    const stack::CheckResult again = checked(*yaml).checks.at(0);
    CHECK(again.value.worst == checked(jam("unmeasured")).checks.at(0).value.worst);
}

TEST_CASE("survey has nothing to compare where every reading is needed") {
    const auto answer = Study::read(jam("unmeasured"))->survey();
    REQUIRE(answer);
    CHECK(answer->freedom == 0);
    CHECK(answer->judgement == survey::Judgement::nothing_to_compare);
}

TEST_CASE("a size that no reading finds cannot be unmeasured") {
    const auto study = Study::read(
        "trialfit: 1\nunits: mm\nparts:\n- part: a\n  faces: {z: zero}\n"
        "  cones: {c: {at: z, dia: 20 exact, taper: 1 in 5, length: unmeasured}}\n");
    REQUIRE(!study);
    CHECK(study.complaints().at(0).fault ==
          "this size cannot be 'unmeasured': no reading finds it");
    CHECK(study.complaints().at(0).at.line == 6);
}

namespace {

// A chain of parts along the axis and readings across it, some sizes unmeasured: written as
// such, or as a size known to 100 mm, which says hardly more.
struct Chain {
    std::vector<double> sizes;
    std::vector<bool> unmeasured;
    struct Span {
        int from = 0;
        int to = 0;
        double is = 0.0;
    };
    std::vector<Span> readings;
};

constexpr int kSizes = 7;

Chain chain_of(std::mt19937_64& random) {
    const auto any = [&](double from, double to) {
        return std::uniform_real_distribution<double>(from, to)(random);
    };
    Chain chain;
    std::vector<double> at{0.0};
    for (int i = 0; i < kSizes; ++i) {
        chain.sizes.push_back(std::round(any(2.0, 20.0) * 100.0) / 100.0);
        chain.unmeasured.push_back(any(0.0, 1.0) < 0.45);
        at.push_back(at.back() + chain.sizes.back() + any(-0.02, 0.02));
    }
    const int readings = 2 + static_cast<int>(any(0.0, 4.0));
    for (int r = 0; r < readings; ++r) {
        const int from = static_cast<int>(any(0.0, kSizes));
        const int to = from + 1 + static_cast<int>(any(0.0, kSizes - from));
        const double is = at[static_cast<std::size_t>(to)] - at[static_cast<std::size_t>(from)];
        chain.readings.push_back({from, to, std::round((is + any(-0.03, 0.03)) * 100.0) / 100.0});
    }
    return chain;
}

// Every gap from the ground to a face, as checks. `known_to`: how an unmeasured size is written.
std::string text_of(const Chain& chain, const std::string& known_to) {
    std::string text =
        "trialfit: 1\nunits: mm\ngauges: {caliper: 0.05}\nparts:\n- part: p\n  faces:\n"
        "    f0: zero\n";
    for (int i = 0; i < kSizes; ++i) {
        const auto s = static_cast<std::size_t>(i);
        const std::string size = !chain.unmeasured[s] ? fmt::format("{} \u00b10.04", chain.sizes[s])
                                 : known_to.empty()
                                     ? std::string("unmeasured")
                                     : fmt::format("{} {}", chain.sizes[s], known_to);
        text += fmt::format("    f{}: {} from f{}\n", i + 1, size, i);
    }
    text += "readings:\n";
    for (std::size_t r = 0; r < chain.readings.size(); ++r) {
        const Chain::Span& span = chain.readings[r];
        text += fmt::format("- {{reading: r{}, from: p.f{}, to: p.f{}, is: {} by caliper}}\n", r,
                            span.from, span.to, span.is);
    }
    text += "checks:\n";
    for (int i = 1; i <= kSizes; ++i)
        text += fmt::format("- {{check: c{0}, gap: [p.f0, p.f{0}], at_least: 1}}\n", i);
    return text;
}

}  // namespace

// The second answer never eliminates anything: its sizes are all tied by least squares and by the
// linear program. A spread of 100 mm in place of none shifts an adjusted middle by some
// (0.05/100)^2 of what it hangs on.
TEST_CASE("eliminated sizes give the same as sizes that are hardly known, over made-up chains") {
    std::mt19937_64 random(20261129);
    int fixed = 0;
    int open = 0;
    for (int n = 0; n < 200; ++n) {
        const Chain chain = chain_of(random);
        const auto one = Study::read(text_of(chain, ""));
        const auto other = Study::read(text_of(chain, "\u00b1100"));
        REQUIRE(one);
        REQUIRE(other);
        const auto eliminated = one->check();
        const auto wide = other->check();
        CAPTURE(text_of(chain, ""));
        REQUIRE(eliminated.has_value() == wide.has_value());
        if (!eliminated) continue;  // readings that contradict each other, by both
        for (std::size_t c = 0; c < eliminated->checks.size(); ++c) {
            const stack::Bounds& a = eliminated->checks[c].value;
            const stack::Bounds& b = wide->checks[c].value;
            CAPTURE(c);
            const bool loose = b.worst.hi - b.worst.lo > 50.0;
            CHECK(a.open() == loose);
            loose ? ++open : ++fixed;
            if (loose) continue;
            CHECK(a.middle == doctest::Approx(b.middle).epsilon(1e-5));
            CHECK(a.worst.lo == doctest::Approx(b.worst.lo).epsilon(1e-6));
            CHECK(a.worst.hi == doctest::Approx(b.worst.hi).epsilon(1e-6));
        }
    }
    CHECK(fixed > 200);
    CHECK(open > 100);
}

TEST_CASE("an unmeasured size that is given what was found of it changes no gap") {
    std::mt19937_64 random(7);
    int looked = 0;
    for (int n = 0; n < 60; ++n) {
        const Chain chain = chain_of(random);
        const auto study = Study::read(text_of(chain, ""));
        REQUIRE(study);
        const auto before = study->check();
        if (!before) continue;
        for (int i = 0; i < kSizes; ++i) {
            if (!chain.unmeasured[static_cast<std::size_t>(i)]) continue;
            const auto gap = study->why_gap(fmt::format("p.f{}", i), fmt::format("p.f{}", i + 1));
            REQUIRE(gap);
            if (gap->value.open()) continue;
            const auto given =
                study->with(fmt::format("p.f{}", i + 1),
                            fmt::format("{:.12f}..{:.12f}", gap->value.worst.lo - 1e-9,
                                        gap->value.worst.hi + 1e-9));
            REQUIRE(given);
            const auto after = given->check();
            REQUIRE(after);
            for (std::size_t c = 0; c < before->checks.size(); ++c) {
                const stack::Bounds& a = before->checks[c].value;
                const stack::Bounds& b = after->checks[c].value;
                CHECK(a.open() == b.open());
                if (a.open()) continue;
                CHECK(b.worst.lo == doctest::Approx(a.worst.lo).epsilon(1e-7));
                CHECK(b.worst.hi == doctest::Approx(a.worst.hi).epsilon(1e-7));
            }
            ++looked;
        }
    }
    CHECK(looked > 30);
}
