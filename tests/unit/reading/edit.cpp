// SPDX-License-Identifier: MIT
#include <filesystem>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/reading/edit/splice.hpp>
#include <vector>

#include "support.hpp"

namespace trialfit::test {

namespace {

using reading::Change;
using reading::ConeDiameter;
using reading::Edited;
using reading::edited;
using reading::FinishSize;
using reading::FittedShims;
using reading::RecordedEntry;

std::string done(std::string_view text, const Change& change) {
    const Edited after = edited(text, {change});
    CHECK(rendered(after.complaints) == "");
    REQUIRE(after.text);
    return *after.text;
}

std::string refused(std::string_view text, const Change& change) {
    const Edited after = edited(text, {change});
    CHECK(!after.text);
    return rendered(after.complaints);
}

constexpr const char* kHead = "trialfit: 1\ngauges: {caliper: 0.03}\nparts:\n";

// A plate whose front is `front`, written as it stands.
std::string plate(const std::string& front) {
    return std::string(kHead) +
           "  - part: plate   # the one that is thick\n"
           "    faces:\n"
           "      back: zero   # against the case\n"
           "      front:" +
           front +
           "\n"
           "    rings: {disc: {from: back, to: front, bore: 40, od: 100}}\n"
           "    cuts: [{face: front, measure: back, keep: 5.5, holds: \u00b10.03}]\n";
}

const FinishSize kTurned{.face = "plate.front", .size = "5.53 \u00b10.03"};

}  // namespace

TEST_CASE("a size is replaced and every other byte stays") {
    const std::string fresh = " 5.53 \u00b10.03 from back";
    CHECK(done(plate(" 10.00 by caliper from back"), kTurned) == plate(fresh));
    CHECK(done(plate(" 10.00 by caliper from back   # measured twice"), kTurned) ==
          plate(fresh + "   # measured twice"));
    CHECK(done(plate("   \"10.00 by caliper from back\"   #x"), kTurned) ==
          plate("  " + fresh + "   #x"));
    CHECK(done(plate(" '[10.00, 10.01] by caliper from back'"), kTurned) == plate(fresh));
    CHECK(done(plate(" {size: 10, plus: 0.1, minus: 0, from: back} # long"), kTurned) ==
          plate(fresh + " # long"));
    CHECK(done(plate(" [10.00 by caliper from back]"), kTurned) == plate(fresh));
    CHECK(done(plate(" 10.00 by caliper\n        from back # two lines"), kTurned) ==
          plate(fresh + " # two lines"));
}

TEST_CASE("a size on lines of its own comes up beside its key, and its comments stay above") {
    const std::string fresh = " 5.53 \u00b10.03 from back";
    CHECK(done(plate("\n        - 10.00 by caliper from back"), kTurned) == plate(fresh));
    const std::string text = done(
        plate("\n        size: 10.00   # by the old caliper\n        by: caliper\n        from: "
              "back"),
        kTurned);
    CHECK(text == with(plate(fresh), "      front:", "      # by the old caliper\n      front:"));
    const std::string after_key =
        done(plate("   # as found\n        - 10.00 by caliper from back"), kTurned);
    CHECK(after_key == plate("   # as found\n        5.53 \u00b10.03 from back"));
}

TEST_CASE("line ends, byte order mark and a last line without end stay as they are") {
    const auto crlf = [](const std::string& text) {
        std::string out;
        for (const char c : text)
            out += c == '\n' ? "\r\n" : std::string(1, c);
        return out;
    };
    const std::string before = plate(" 10.00 by caliper from back");
    const std::string after = plate(" 5.53 \u00b10.03 from back");
    CHECK(done(crlf(before), kTurned) == crlf(after));
    CHECK(done("\xEF\xBB\xBF" + before, kTurned) == "\xEF\xBB\xBF" + after);
    CHECK(done("\xEF\xBB\xBF" + crlf(before), kTurned) == "\xEF\xBB\xBF" + crlf(after));
    const RecordedEntry entry{.date = "2026-11-25", .note = "turned"};
    const std::string added = "record:\n  - date: 2026-11-25\n    note: turned\n";
    CHECK(done(crlf(before), entry) == crlf(before + added));
    const std::string cut_short = before.substr(0, before.size() - 1);
    CHECK(done(cut_short, entry) == before + added.substr(0, added.size() - 1));
}

TEST_CASE("what was measured from a face that is cut goes on from where the face was") {
    const std::string before = std::string(kHead) +
                               "  - part: stator\n"
                               "    faces:\n"
                               "      base: zero   # sits here\n"
                               "      out: 4.00 by caliper from base\n"
                               "      pole: {size: 4.6, plus: 0.2, minus: 0.2, from: base}\n"
                               "    rings: {roof: {from: base, below: 2, bore: 10, od: 20}}\n"
                               "    cuts: [{face: base, measure: out, keep: 3, holds: 0.05}]\n";
    const std::string after = done(before, FinishSize{"stator.base", "3.50 by caliper"});
    CHECK(after ==
          std::string(kHead) +
              "  - part: stator\n"
              "    faces:\n"
              "      base: -3.50 by caliper from out\n"
              "      base_before_cut_roof: -2 exact from base_before_cut\n"
              "      base_before_cut: zero   # sits here\n"
              "      out: 4.00 by caliper from base_before_cut\n"
              "      pole: {size: 4.6, plus: 0.2, minus: 0.2, from: base_before_cut}\n"
              "    rings: {roof: {from: base_before_cut_roof, to: base, bore: 10, od: 20}}\n"
              "    cuts: [{face: base, measure: out, keep: 3, holds: 0.05}]\n");
    // Cut again, the face has nothing measured from it any more.
    const std::string again = done(after, FinishSize{"stator.base", "3.20..3.25"});
    CHECK(again == with(after, "-3.50 by caliper", "-3.25..-3.2"));
}

TEST_CASE("a cone's gauge plane and a stand-off stay where the metal was") {
    const std::string before =
        std::string(kHead) +
        "  - part: crank\n"
        "    faces: {big: zero, end: 30 exact from big}\n"
        "    cone: {at: big, dia: 16 exact, taper: 1 in 5, length: 16}\n"
        "  - part: hub\n"
        "    sits:\n"
        "      - {cone: bore, against: crank.cone}\n"
        "      - {face: boss, against: crank.big, offset: 2 \u00b10.1}\n"
        "    faces: {boss: zero, top: 20 \u00b10.1 from boss}\n"
        "    cones: {bore: {at: boss, dia: 15.6 \u00b10.01, taper: 1 in 5, length: 16}}\n"
        "    cuts: [{face: boss, measure: top, keep: 10, holds: 0.05}]\n";
    const std::string after = done(before, FinishSize{"hub.boss", "18 \u00b10.05"});
    CHECK(after.find("boss: -18 \u00b10.05 from top, boss_before_cut: zero, top: 20 \u00b10.1 from "
                     "boss_before_cut}") != std::string::npos);
    CHECK(after.find("{face: boss_before_cut, against: crank.big") != std::string::npos);
    CHECK(after.find("{at: boss_before_cut, dia") != std::string::npos);
    CHECK(done(before, ConeDiameter{"hub.bore", "15.62 \u00b10.01"}) ==
          with(before, "15.6 \u00b10.01", "15.62 \u00b10.01"));
    CHECK(done(before, ConeDiameter{"crank.cone", "15.95 exact"}) ==
          with(before, "16 exact", "15.95 exact"));
}

TEST_CASE("shims are replaced where they stand and added where they do not") {
    const auto job = [](const std::string& shims) {
        return std::string(kHead) +
               "  - part: case\n    faces: {floor: zero}\n"
               "  - part: lid\n    faces: {rim: zero}\n"
               "    sits:\n      face: rim\n      against: case.floor\n      shims:" +
               shims + "\n";
    };
    const FittedShims two{.part = "lid", .shims = {"0.5", "0.3 \u00b10.01"}};
    const std::string fresh = "fitted: [0.5, 0.3 \u00b10.01]";
    CHECK(done(job(" {fitted: [1.6], stock: [0.5]} # s"), two) ==
          job(" {" + fresh + ", stock: [0.5]} # s"));
    CHECK(done(job(" {stock: [0.5]}   # s"), two) == job(" {stock: [0.5], " + fresh + "}   # s"));
    CHECK(done(job("\n        stock: [0.5] # s\n        holds: 0.01"), two) ==
          job("\n        stock: [0.5] # s\n        holds: 0.01\n        " + fresh));
    CHECK(done(job("\n        fitted:\n          - 1.6\n        holds: 0.01"), two) ==
          job("\n        " + fresh + "\n        holds: 0.01"));
    CHECK(done(job("\n        fitted:\n          - 1.6   # brass\n          - 0.2   # steel\n"
                   "        holds: 0.01"),
               two) ==
          job("\n        # brass\n        " + fresh + "   # steel\n        holds: 0.01"));
    CHECK(done(job(" {fitted: [1.6, 0.2], stock: [0.5]}"),
               FittedShims{.part = "lid", .shims = {}}) == job(" {fitted: [], stock: [0.5]}"));
    CHECK(refused(job(" {stock: [0.5]}"), FittedShims{.part = "case", .shims = {"1"}}) ==
          "4:11: error: the seat of part 'case' has no 'shims'; add them to its 'sits'\n");
}

TEST_CASE("an entry joins the record in the layout that it has") {
    const std::string job = plate(" 10.00 by caliper from back");
    const RecordedEntry entry{.date = "2026-11-26",
                              .who = "a friend",
                              .note = "hot: \"7\" # was it?",
                              .as_cut = {{"plate.front", "[5.63, 5.64] by caliper"}},
                              .fitted = {}};
    const std::string lines =
        "  - date: 2026-11-26\n    who: a friend\n"
        "    note: \"hot: \\\"7\\\" # was it?\"\n"
        "    as_cut: {plate.front: \"[5.63, 5.64] by caliper\"}\n";
    CHECK(done(job + "# the end\n\n", entry) == job + "# the end\nrecord:\n" + lines + "\n");
    const std::string block = job + "record:\n  - date: 2026-11-25   # cold\n";
    CHECK(done(block + "    # still cold\n# below all\n", entry) ==
          block + "    # still cold\n" + lines + "# below all\n");
    const std::string flow = job + "record: [{date: 2026-11-25, note: x}]   # cold\n";
    CHECK(done(flow, RecordedEntry{.date = "2026-11-26", .note = "12"}) ==
          with(flow, "note: x}", "note: x}, {date: 2026-11-26, note: \"12\"}"));
    const std::string scalar = job + "record:\n- date: 2026-11-25\n  note: |\n    one\n\n    two\n";
    CHECK(done(scalar + "\n", RecordedEntry{.date = "2026-11-26"}) ==
          scalar + "- date: 2026-11-26\n\n");
    // Before other sections, not behind them.
    const std::string head = std::string("record:\n  - date: 2026-11-25\n");
    CHECK(done(head + job, RecordedEntry{.date = "2026-11-26"}) ==
          head + "  - date: 2026-11-26\n" + job);
}

TEST_CASE("a job written as JSON stays JSON") {
    const std::string json =
        "{\"trialfit\": 1, \"parts\": [{\"part\": \"plate\", \"faces\": {\"back\": \"zero\", "
        "\"front\": \"10 \u00b10.05 from back\"}, \"cuts\": [{\"face\": \"front\", \"measure\": "
        "\"back\", \"keep\": 5, \"holds\": 0.03}]}]}\n";
    CHECK(done(json, kTurned) == with(json, "10 \u00b10.05", "5.53 \u00b10.03"));
    CHECK(done(json, RecordedEntry{.date = "2026-11-26", .note = "x"}) ==
          with(json, "}]}]}\n",
               "}]}], \"record\": [{\"date\": \"2026-11-26\", \"note\": \"x\"}]}\n"));
}

TEST_CASE("a change that is no job is refused in terms of the text as it would be") {
    const std::string job = plate(" 10.00 by caliper from back");
    CHECK(refused(job, FinishSize{"plate.frnt", "5"}) == "error: 'plate.frnt' is not a face\n");
    CHECK(refused(job, FinishSize{"plate.back", "5"}) ==
          "6:7: error: 'plate.back' has no entry under 'cuts'; add one to its part: it says where "
          "the finish size is measured from\n");
    CHECK(refused(job, RecordedEntry{.date = "yesterday"}) ==
          "11:11: error: 'yesterday' is not a date; write it like '2026-11-25'\n");
    CHECK(refused(job, FinishSize{"plate.front", "5 by eye"}) ==
          "7:19: error: 'eye' is not one of the file's gauges; add it under 'gauges' with the "
          "half-width it is good to\n");
}

TEST_CASE("a part behind the place for a kit is found") {
    const auto job = [](const std::string& front) {
        return std::string(kHead) +
               "  - part: case\n"
               "    faces: {floor: zero}\n"
               "  - kit: here\n"
               "  - part: plate\n"
               "    sits: {face: back, against: case.floor}\n"
               "    faces: {back: zero, front: " +
               front +
               " from back}\n"
               "    cuts: [{face: front, measure: back, keep: 5.5, holds: \u00b10.03}]\n";
    };
    CHECK(done(job("10 exact"), kTurned) == job("5.53 \u00b10.03"));
}

TEST_CASE("every example takes every change that it can, and nothing else of it changes") {
    int changes = 0;
    for (const auto& file : std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/examples")) {
        if (file.path().extension() != ".yaml") continue;
        CAPTURE(file.path().string());
        const std::string text = file_text(file.path().string());
        const job::Job job = read(text);
        std::vector<Change> all{RecordedEntry{.date = "2030-01-02", .note = "a note: with #"}};
        for (const job::Part& part : job.parts) {
            for (const job::Cut& cut : part.cuts)
                all.emplace_back(FinishSize{
                    part.name + "." + part.faces[static_cast<std::size_t>(cut.face)].name,
                    "12.34 exact"});
            for (const job::Seat& seat : part.seats)
                if (seat.shims) all.emplace_back(FittedShims{.part = part.name, .shims = {"0.7"}});
            for (const job::Cone& cone : part.cones)
                all.emplace_back(ConeDiameter{part.name + "." + cone.name, "12.34 exact"});
        }
        for (const Change& change : all) {
            const Edited after = edited(text, {change});
            if (!after.text) {
                // A size out of place may turn a ring round; the text is sound all the same.
                CHECK(rendered(after.complaints).find("laid out") == std::string::npos);
                continue;
            }
            ++changes;
            CHECK(after.text->size() + 60 > text.size());
        }
        const Edited together = edited(text, all);
        CHECK(rendered(together.complaints).find("laid out") == std::string::npos);
    }
    CHECK(changes > 40);
}

}  // namespace trialfit::test
