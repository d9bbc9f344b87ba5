// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/trialfit.hpp>

#include "../../support/examples.hpp"

namespace trialfit {

namespace {

std::string example(const std::string& name) {
    return TRIALFIT_SOURCE_DIR "/examples/" + name + ".yaml";
}

Study demo() {
    auto study = Study::read_file(example("pump-engine"));
    REQUIRE(study);
    return *std::move(study);
}

// Fault; mend.
template <typename T>
std::string why_not(const Expected<T>& answer) {
    CHECK(!answer);
    REQUIRE(!answer.complaints().empty());
    return answer.complaints().front().fault + "; " + answer.complaints().front().mend;
}

}  // namespace

TEST_CASE("a text that is no job comes back as records with places") {
    const auto study = Study::read("trialfit: 1\ntitel: x\nparts: []\n", "job.yaml");
    CHECK(!study);
    REQUIRE(study.complaints().size() == 2);
    CHECK(study.complaints()[0].at == job::Place{2, 1});
    CHECK(study.complaints()[0].mend == "did you mean 'title'?");
    CHECK(study.complaints()[0].severity == job::Severity::error);
    CHECK_THROWS_AS((void)study.value(), std::bad_optional_access);
    CHECK(why_not(Study::read_file("/no/such/file")) ==
          "No such file or directory; name a job file that is there and may be read");
    CHECK(why_not(Study::read_file(TRIALFIT_SOURCE_DIR)) ==
          "Is a directory; name a job file that is there and may be read");
}

TEST_CASE("a sound job may come with warnings") {
    const auto study = Study::read(
        "trialfit: 1\nparts:\n"
        "  - {part: a, faces: {f: zero}}\n"
        "  - {part: b, sits: {face: g, against: a.f, offset: 1 exact, play: 0..1}, "
        "faces: {g: zero}}\n"
        "readings:\n  - {reading: r, from: a.f, to: b.g, is: 1 exact}\n",
        "job.yaml");
    REQUIRE(study);
    REQUIRE(study.complaints().size() == 1);
    CHECK(study.complaints()[0].severity == job::Severity::warning);
}

TEST_CASE("a size is changed by its name, and only it") {
    const Study study = demo();
    const auto changed = study.with("stator.coil_out", "11.2 +-0.1");
    REQUIRE(changed);
    const auto before = study.why("rotor clear of coils");
    const auto after = changed->why("rotor clear of coils");
    REQUIRE(before);
    REQUIRE(after);
    CHECK(after->value.nominal - before->value.nominal == doctest::Approx(14.0 - 11.2));
    REQUIRE(changed->job().parts.size() == study.job().parts.size());
    for (const std::string& name : study.sizes()) {
        CAPTURE(name);
        const auto same = study.with(name, "1000 exact");
        if (same) CHECK(same->sizes() == study.sizes());
    }
    // What was asked first is as it was.
    CHECK(study.why("rotor clear of coils")->value.nominal == before->value.nominal);
}

TEST_CASE("a bare number keeps the limits that a size had about it") {
    const Study study = demo();
    const auto coil = [](const Study& of) {
        for (const job::Part& part : of.job().parts)
            for (const job::Face& face : part.faces)
                if (face.name == "coil_out") return face.dimensions.at(0).distance;
        return job::Given{};
    };
    const job::Given moved = coil(*study.with("stator.coil_out", "11.2"));
    CHECK(moved.size.nominal == 11.2);
    CHECK(moved.size.half_width() == doctest::Approx(0.3));
    CHECK(moved.written == "11.2 \u00b10.3");
    const job::Given by_gauge = coil(*study.with("stator.coil_out", "11.2 by caliper"));
    CHECK(by_gauge.gauge);
    CHECK(by_gauge.size.half_width() == doctest::Approx(0.03));
    CHECK(coil(*study.with("stator.coil_out", "0.5 in")).size.nominal == doctest::Approx(12.7));
}

TEST_CASE("every kind of size has a name") {
    auto read = Study::read_file(TRIALFIT_SOURCE_DIR "/tests/hostile/accepted/every-key.yaml");
    REQUIRE(read);
    const std::vector<std::string> names = read->sizes();
    for (const std::string name :
         {"case.rim", "plate.front", "crank.offset", "crank.play", "stator.shims", "rotor.bore",
          "crank.stub.od", "stator.poles.od", "nut.inside.lead_in", "stator.clearance",
          "rotor.runout", "crank.runout at big", "rotor.face_runout", "rotor alone",
          "after the cut"}) {
        CAPTURE(name);
        CHECK(std::count(names.begin(), names.end(), name) == 1);
    }
    // The record has cut the face since: there its size stands.
    const auto changed = read->with("plate.front", "9.97");
    REQUIRE(changed);
    CHECK(changed->job().record[0].as_cut[0].size.size.nominal == 9.97);
    const auto shims = read->with("stator.shims", "0.2 + 0.5 exact");
    REQUIRE(shims);
    REQUIRE(shims->job().record[0].fitted[0].shims.size() == 2);
    CHECK(shims->job().record[0].fitted[0].shims[0].size == quantity::toleranced(0.2, -0.01, 0.01));
    CHECK(shims->job().record[0].fitted[0].shims[1].size == quantity::exact(0.5));
    CHECK(read->with("stator.shims", "none")->job().record[0].fitted[0].shims.empty());
}

TEST_CASE("what is no size of the job, or no size at all, is refused with a mend") {
    const Study study = demo();
    CHECK(why_not(study.with("plate.frnt", "5")) ==
          "no size of this job is called 'plate.frnt'; did you mean 'plate.front'?");
    CHECK(why_not(study.with("plate.front", "5,5")) ==
          "the size for 'plate.front': '5,5' is written with a decimal comma; write '5.5'");
    CHECK(why_not(study.with("stator.shims", "0.2 + x")) ==
          "the size for 'stator.shims': 'x' is not a size; write it like '12.5 \u00b10.05', '25 "
          "h7' or '12.48 by caliper'");
    // Too much is no fault of the size and still one of the job.
    CHECK(!study.with("rotor.skirt.bore", "95 exact"));
}

TEST_CASE("a face that was cut is put into the record, and the readings before it stand") {
    const Study study = demo();
    const auto cut = study.cut("plate.front", "5.53", "2026-11-25");
    REQUIRE(cut);
    const auto both = cut->cut("rotor.rim", "15.53 +-0.05", "2026-11-26");
    REQUIRE(both);
    const auto before = both->check({.entries = 0});
    const auto after = both->check();
    REQUIRE(before);
    REQUIRE(after);
    CHECK(before->verdict == stack::Verdict::fails);
    CHECK(after->verdict == stack::Verdict::holds);
    CHECK(both->plan()->plans.at(0).cost == 0.0);
    CHECK(both->job().record[0].as_cut[0].size.written == "5.53 \u00b10.03");
    CHECK(why_not(study.cut("plate.back", "5", "2026-11-25")) ==
          "this job lists no cut of 'plate.back'; list it under the cuts of its part");
    CHECK(why_not(study.cut("plate.front", "5.53", "25.11.2026")) ==
          "'25.11.2026' is not a date; write it like '2026-11-25'");
    CHECK(why_not(study.cut("plate.front", "12", "2026-11-25")) ==
          "'plate.front' was at most 10.03 before and is '12 \u00b10.03' after the cut; metal does "
          "not grow: mend the one that was measured wrong");
    CHECK(!cut->cut("plate.front", "5.7", "2026-11-26"));
    CHECK(!study.cut("plate.front", "-5.53", "2026-11-25"));
}

TEST_CASE("options are the program's") {
    const Study study = demo();
    StudyOptions by_odds;
    by_odds.odds_level = 0.5;
    CHECK(study.check(by_odds)->odds_level == 0.5);
    CHECK(study.check({.judge = stack::Judge::rss, .inflate = 1.5})->inflate == 1.5);
    CHECK(study.check({.all_pairs = true})->clearances.size() > study.check()->clearances.size());
    OddsOptions few;
    few.samples = 10'000;
    few.seed = 7;
    few.threads = 1;
    const auto odds = study.odds(few);
    REQUIRE(odds);
    CHECK(odds->seed == 7);
    CHECK(find_odds(*odds, "nut engagement")->fails < 1e-6);
    CHECK(find_odds(*odds, "no such check") == nullptr);
    CHECK(find_check(*study.check(), "nut engagement")->verdict == stack::Verdict::holds);
    CHECK(find_check(*study.check(), "no such check") == nullptr);
    CHECK(study.plan({.top = 1})->plans.size() == 1);
    CHECK(why_not(study.why("nut engagment")).find("did you mean 'nut engagement'?") !=
          std::string::npos);
    CHECK(study.why_gap("plate.front", "rotor.rim")->value.nominal < 0.0);
    CHECK(study.section()->parts.size() == study.job().parts.size());
    CHECK(study.sheet()->record.sha256.size() == 64);
}

TEST_CASE("a job without a section says so and nothing else") {
    const auto study = Study::read_file(example("gearbox-end-float"));
    REQUIRE(study);
    CHECK(!study->seat());
    CHECK(!study->timing());
    CHECK(study->check());
}

}  // namespace trialfit
