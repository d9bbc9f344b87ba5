// SPDX-License-Identifier: MIT
#include <string>
#include <string_view>

#include "everything.hpp"
#include "support.hpp"

using namespace trialfit;
using test::complaints;

// Refusals that tests/hostile does not pin, and that one fault brings one complaint. Each case
// changes one place of a sound job.

namespace {

const std::string kJob = R"(trialfit: 1
gauges: {caliper: 0.03}
parts:
  - part: case
    faces: {floor: zero}
  - part: shaft
    sits: {face: base, against: case.floor}
    faces: {base: zero, big: 2 exact from base, end: 40 ±0.1 from base}
    cone: {at: big, dia: 16 ±0.01, taper: 1 in 5, length: 16}
    thread: {form: M10x1.25-6g, from: big, to: end}
  - part: plate
    sits: {face: back, against: case.floor, shims: {stock: [0.2], at_most: 2}}
    faces: {back: zero, front: 10 by caliper from back}
    rings: {disc: {from: back, to: front, bore: 40, od: 100}}
)";

std::string changed(std::string_view old, std::string_view fresh) {
    return complaints(test::with(kJob, old, fresh));
}

std::string added(std::string_view more) {
    return complaints(kJob + std::string(more));
}

}  // namespace

TEST_CASE("the job that the cases change is sound") {
    CHECK(complaints(kJob).empty());
    CHECK(complaints(test::kEverything).empty());
}

TEST_CASE("keys without a value, and values of the wrong kind") {
    CHECK(changed("gauges: {caliper: 0.03}", "gauges: {caliper: 0.03}\ntitle:") ==
          "3:1: error: the job has nothing after 'title:'; fill it in, or take the line away\n");
    CHECK(
        changed("sits: {face: base, against: case.floor}", "sits:") ==
        "7:5: error: part 'shaft' has nothing after 'sits:'; fill it in, or take the line away\n");
    CHECK(changed("{caliper: 0.03}", "[caliper]") ==
          "2:9: error: 'gauges' is a list, not a group of named entries; write it like 'gauges: "
          "{caliper: SIZE}'\n"
          "13:38: error: 'caliper' is no gauge of this file, which names none; add 'gauges: "
          "{caliper: SIZE}', the half-width it is good to\n");
    CHECK(changed("rings: {disc: {from: back, to: front, bore: 40, od: 100}}", "rings: disc") ==
          "14:12: error: 'rings' of part 'plate' is a single value, not a group of named entries; "
          "write it like 'rings: {disc: {from: back, to: front, bore: 40, od: 100}}'\n");
    CHECK(changed("part: shaft", "part: shaft\n    turns: yes") ==
          "7:12: error: 'turns' of part 'shaft' is 'yes'; write true or false\n");
    CHECK(changed("part: shaft", "part: shaft\n    turns: \"true\"") ==
          "7:12: error: 'turns' of part 'shaft' is 'true'; write true or false, without quotes\n");
    CHECK(changed("bore: 40", "bore: [40]") ==
          "14:49: error: this size is a list; write it on one line, like '12.5 ±0.05'\n");
    CHECK(
        changed("trialfit: 1", "trialfit: \"1\"") ==
        "1:11: error: this file is in version '1' of the format, and this program reads version 1; "
        "write 'trialfit: 1'\n");
}

TEST_CASE("entries that are not there are pointed at where they belong") {
    CHECK(changed("  - part: shaft", "  -\n\n  - part: shaft") ==
          "6:3: error: this part is empty; write its entries as 'key: value', first of all "
          "'part:'\n");
    CHECK(changed("stock: [0.2]", "stock: [0.2, , 0.5]") ==
          "12:64: error: this size is empty; write it on one line, like '12.5 ±0.05'\n");
    CHECK(changed("faces: {floor: zero}", "faces:\n      floor: zero\n      rim:\n") ==
          "7:7: error: face 'rim' has no size; write 'zero' or a size, as in 'SIZE from floor'\n");
}

TEST_CASE("a size in a block of text") {
    CHECK(changed("faces: {floor: zero}", "faces:\n      floor: zero\n      rim: >5") ==
          "7:12: error: face 'rim' has no size; write 'zero' or a size, as in 'SIZE from "
          "floor'\n");
}

TEST_CASE("references: what is near, what there is, what kind it is") {
    CHECK(changed("cone: {at: big", "cone: {at: bog") ==
          "9:16: error: the cone of part 'shaft' is at 'bog', which is not a face of part 'shaft'; "
          "did you mean 'big'?\n");
    CHECK(changed("cone: {at: big", "cone: {at: shaft.big") ==
          "9:16: error: the cone of part 'shaft' is at 'shaft.big', which is not a face of part "
          "'shaft'; did you mean 'big'?\n");
    CHECK(changed("sits: {face: back, against: case.floor", "sits: {face: back, against: floor") ==
          "12:33: error: part 'plate' sits against 'floor', which is not a face; did you mean "
          "'case.floor'?\n");
    CHECK(changed("sits: {face: back, against: case.floor", "sits: {face: back, against: shaft") ==
          "12:33: error: part 'plate' sits against 'shaft', which is not a face; it has "
          "'shaft.base', 'shaft.big' and 'shaft.end'\n");
    CHECK(
        changed("sits: {face: back, against: case.floor", "sits: {face: back, against: bed.wall") ==
        "12:33: error: part 'plate' sits against 'bed.wall', which is not a face; write it as "
        "'part.face'; the parts are 'case', 'shaft' and 'plate'\n");
    CHECK(changed("sits: {face: back, against: case.floor", "sits: {face: back, against: [case]") ==
          "12:33: error: part 'plate' sits against a list; write 'part.face'\n");
    CHECK(
        changed("against: case.floor, shims", "against: shaft.thread, shims") ==
        "12:33: error: part 'plate' sits against 'shaft.thread', which is a thread and not a face; "
        "the faces of 'shaft' are 'base', 'big' and 'end'\n");
    CHECK(added("checks: [{check: c, engagement: [shaft.thread, plate.thread], at_least: 5}]\n") ==
          "15:48: error: check 'c' names 'plate.thread', which is not a thread; did you mean "
          "'shaft.thread'?\n");
}

TEST_CASE("a face that is not tied to the zero, alone and in company") {
    CHECK(changed("end: 40 ±0.1 from base", "end: 40 ±0.1 from tip, tip: -1 ±0.1 from end") ==
          "8:49: error: the sizes of part 'shaft' do not say how far 'end' and 'tip' lie from its "
          "zero 'base'; the size from 'base' to one of them is missing, as in 'end: SIZE from "
          "base'\n");
    // A face that another fault leaves in the air brings no second complaint, nor do its rings.
    CHECK(changed("front: 10 by caliper from back", "front: 10 by caliper from bck") ==
          "13:51: error: face 'front' is measured from 'bck', which is not a face of part 'plate'; "
          "did you mean 'back'?\n");
    CHECK(changed("front: 10 by caliper from back", "front: ten from back") ==
          "13:32: error: 'ten' is not a size; write it like '12.5 ±0.05', '25 h7' or '12.48 by "
          "caliper'\n");
    CHECK(
        changed("front: 10 by caliper from back", "front: 10,5 exact from back") ==
        "13:32: error: '10,5 exact from back' is written with a decimal comma; write '10.5 exact "
        "from back'\n"
        "13:35: error: '5 exact from back' cannot be the name of a face; if this is the rest of a "
        "size, write a decimal point, not a comma\n");
}

TEST_CASE("seats that hold too much or too little") {
    CHECK(
        changed("sits: {face: back, against: case.floor, shims: {stock: [0.2], at_most: 2}}",
                "sits: []") ==
        "12:11: error: 'sits' is an empty list; write it like '{face: FACE, against: part.face}', "
        "or take it away\n");
    CHECK(changed("{stock: [0.2], at_most: 2}", "{at_most: 2}") ==
          "12:52: error: the shims of part 'plate' have neither 'stock' nor 'fitted'; add 'stock: "
          "[SIZE, SIZE]' or 'fitted: [SIZE]'\n");
    CHECK(changed("{stock: [0.2], at_most: 2}", "{stock: [0.2], holds: ±0.2}") ==
          "12:61: error: a shim of '0.2' that holds ±0.2 may be nothing at all; mend the thickness "
          "or "
          "'holds'\n");
    CHECK(changed("{stock: [0.2], at_most: 2}", "{stock: [{thickness: 0.2, pieces: -1}]}") ==
          "12:86: error: 'pieces' is '-1'; it is a whole number, at least 0\n");
    CHECK(
        changed("sits: {face: base", "sits: {cone: cone, key: {height: 3 h9}") ==
        "7:29: error: the key of part 'shaft' has no 'room'; add 'room: SIZE'\n"
        "7:29: error: the key of part 'shaft' has no 'floors'; add 'floors: cone'\n"
        "7:54: error: part 'shaft' sits against 'case.floor', which is a face and not a cone; part "
        "'case' has no cones\n");
}

TEST_CASE("a part listed before the one it sits on is refused") {
    const std::string text =
        test::with(kJob, "face: base, against: case.floor", "face: base, against: plate.front");
    CHECK(complaints(text) ==
          "7:11: error: part 'shaft' sits against part 'plate', which is listed after it; parts "
          "are listed in the order in which they go on; put 'plate' first\n");
}

TEST_CASE("a reading that does not say which way the part with play was pushed") {
    const std::string reading =
        "readings: [{reading: r, from: case.floor, to: shaft.end, is: 40 by caliper}]\n";
    CHECK(added(reading).empty());
    const std::string floats = test::with(kJob, "face: base, against: case.floor",
                                          "face: base, against: case.floor, play: 0.1");
    CHECK(complaints(floats + reading) ==
          "15:12: warning: reading 'r' does not say which way the part with play was pushed; add "
          "'pushed: in' or 'pushed: out'\n");
}

TEST_CASE("a size read twice by a gauge that is said to be never wrong") {
    const std::string head = "trialfit: 1\ngauges: {block: 0, caliper: 0.03}\nparts:\n";
    const auto said = [&](const std::string& face) {
        return complaints(head + "  - {part: case, faces: {floor: zero, end: " + face + "}}\n");
    };
    CHECK(said("10 by block from floor").empty());
    CHECK(said("[10.0 by caliper from floor, 10.0 by block from floor]").empty());
    CHECK(said("[10.0 by block from floor, 10.0 by block from floor]") ==
          "4:71: warning: 'case.end' is read more than once by 'block', a gauge that is said to be "
          "never wrong; give 'block' under 'gauges' the half-width that it is good to\n");
}

TEST_CASE("checks and their limits") {
    const auto limit = [](std::string_view words) {
        return added("checks: [{check: c, gap: [case.floor, shaft.end], " + std::string(words) +
                     "}]\n");
    };
    CHECK(limit("at_least: -1, at_most: 0.5 in, aim: 0").empty());
    CHECK(limit("at_least: 0.7 d") ==
          "15:61: error: 'at_least' of check 'c' is '0.7 d'; only an engagement is counted so; "
          "write a "
          "length\n");
    CHECK(limit("at_least: ±1") ==
          "15:61: error: '±1' has no size before its tolerance; write it like '12.5 ±1'\n");
    CHECK(limit("at_least: 1 ±0.1") ==
          "15:63: error: '1 ±0.1' is not one plain length here; write '1'\n");
    CHECK(added("checks: [{check: c, engagement: [shaft.thread, shaft.thread], at_most: "
                "strength}]\n") ==
          "15:48: error: both threads of check 'c' are on part 'shaft'; name the nut's thread and "
          "the "
          "shaft's\n"
          "15:72: error: 'at_most' of check 'c' is 'strength'; strength is asked for with "
          "'at_least'\n");
}

TEST_CASE("materials, states and the record") {
    CHECK(changed("part: case", "part: case\n    material: chees") ==
          "5:15: error: 'chees' is not a material known here; describe it under 'materials'\n");
    CHECK(added("materials: [{material: a, expansion: 23}]\n") ==
          "15:38: error: 'expansion' is '23'; it is per kelvin, as in 23e-6\n");
    CHECK(added("materials: [{material: a, expansion: \"23e-6\"}]\n") ==
          "15:38: error: 'expansion' is a number in quotes; take the quotes away\n");
    CHECK(added("states: {run: }\n") ==
          "15:10: error: state 'run' has no temperature; write 'run: 20 C'\n");
    CHECK(added("record: [{date: 2026-02-29}]\n") ==
          "15:17: error: '2026-02-29' is not a date; write it like '2026-11-25'\n");
    CHECK(added("record: [{date: 2028-02-29}]\n").empty());
    CHECK(added("record: [{date: 2026-01-01, fitted: {shaft: [0.5]}}]\n") ==
          "15:38: error: the seat of part 'shaft' has no 'shims'; add them to its 'sits'\n");
}

TEST_CASE("all faults come at once, in the order of their places, up to a hundred") {
    std::string text = "trialfit: 1\nparts:\n";
    for (int i = 0; i < 150; ++i)
        text += "  - {part: p" + std::to_string(i) + ", faces: {a: zro}}\n";
    const reading::Outcome outcome = reading::read_job(text, "test.yaml");
    REQUIRE(outcome.complaints.size() == 101);
    for (std::size_t i = 1; i < 100; ++i)
        CHECK(outcome.complaints[i - 1].at <= outcome.complaints[i].at);
    CHECK(outcome.complaints.back().fault == "there are more faults than these 100");
    CHECK(outcome.complaints.back().mend == "mend these first");
}
