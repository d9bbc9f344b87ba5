// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/words/words.hpp>

#include "demo_answer.hpp"

using namespace trialfit;
using stack::CheckKind;
using stack::Verdict;
using testing::check;
using testing::clearance;

namespace {

stack::CheckAnswer answer_of(Verdict verdict, std::vector<stack::Clearance> clearances,
                             std::vector<stack::CheckResult> checks = {}) {
    stack::CheckAnswer out;
    out.verdict = verdict;
    out.clearances = std::move(clearances);
    out.checks = std::move(checks);
    return out;
}

stack::Bounds about(double middle, double worst, double rss) {
    return {middle, middle, {middle - worst, middle + worst}, {middle - rss, middle + rss}};
}

stack::CheckResult engagement(double least, double value, Verdict verdict) {
    stack::CheckResult out = check("nut engagement", CheckKind::engagement, "nut.thread",
                                   "crank.thread", about(value, 0.5, 0.2), verdict);
    out.at_least = least;
    return out;
}

}  // namespace

TEST_CASE("first contact: who lands on what, how far from its seat") {
    CHECK(paper::headline(testing::fouling_rotor()) ==
          "Does not fit: the rotor's rim lands on the plate's front 4.00 mm before the rotor seats "
          "on the cone. 1 other check fails too, 1 is doubtful.");
    stack::CheckAnswer face_seat = testing::fouling_rotor();
    face_seat.clearances.resize(1);
    face_seat.checks.clear();
    face_seat.first_contact->seat = "crank.shoulder";
    CHECK(paper::headline(face_seat) ==
          "Does not fit: the rotor's rim lands on the plate's front 4.00 mm before the rotor seats "
          "on the crank's shoulder.");
}

TEST_CASE("first contact only in the worst case is a doubt") {
    stack::CheckAnswer a = answer_of(
        Verdict::doubtful,
        {clearance("plate.front", "rotor.rim", 0.0, about(0.1, 0.22, 0.05), Verdict::doubtful)});
    a.first_contact = testing::rim_on_plate();
    a.first_contact->stands_proud = {0.0, {0.0, 0.12}, {0.0, 0.0}};
    CHECK(paper::headline(a) ==
          "Doubtful: in the worst case the rotor's rim lands on the plate's front up to 0.12 mm "
          "before the rotor seats on the cone.");
}

TEST_CASE("a clearance that fails without touching") {
    CHECK(
        paper::headline(answer_of(
            Verdict::fails,
            {clearance("plate.front", "rotor.rim", 0.5, about(0.3, 0.1, 0.1), Verdict::fails)})) ==
        "Does not fit: the rotor's rim clears the plate's front by only 0.30 mm; at least 0.50 mm "
        "is needed.");
    stack::Clearance touching =
        clearance("crank.end", "washer.under", 0.0, about(0.0, 0.1, 0.1), Verdict::fails);
    touching.more_than = true;
    CHECK(paper::headline(answer_of(Verdict::fails, {touching})) ==
          "Does not fit: the washer's under touches the crank's end; more than 0.00 mm is needed.");
    CHECK(paper::headline(
              answer_of(Verdict::fails, {clearance("springs.top", "cover.inside +3", 0.5,
                                                   about(-0.3, 0.1, 0.1), Verdict::fails)})) ==
          "Does not fit: the cover's inside +3 fouls the springs' top by 0.30 mm.");
}

TEST_CASE("a check that fails") {
    CHECK(paper::headline(answer_of(Verdict::fails, {}, {engagement(7.0, 6.75, Verdict::fails)})) ==
          "Does not fit: 'nut engagement' is 6.75 mm; at least 7.00 mm is needed.");
    stack::CheckResult most = check("end float", CheckKind::gap, "washer.top", "cover.thrust",
                                    about(0.78, 0.1, 0.04), Verdict::fails);
    most.at_least = 0.05;
    most.at_most = 0.35;
    CHECK(paper::headline(answer_of(Verdict::fails, {}, {most})) ==
          "Does not fit: 'end float' is 0.78 mm; 0.35 mm is the most allowed.");
}

TEST_CASE("the worst of several is named, the others counted") {
    CHECK(paper::headline(
              answer_of(Verdict::fails,
                        {clearance("a.x", "b.y", 0.5, about(0.4, 0.1, 0.1), Verdict::fails),
                         clearance("c.x", "d.y", 0.5, about(0.2, 0.1, 0.1), Verdict::fails),
                         clearance("e.x", "f.y", 0.5, about(0.3, 0.1, 0.1), Verdict::fails)})) ==
          "Does not fit: the d's y clears the c's x by only 0.20 mm; at least 0.50 mm is needed. "
          "2 other checks fail too.");
}

TEST_CASE("doubtful") {
    const stack::Clearance near =
        clearance("plate.front", "rotor.rim", 0.5, about(0.7, 0.3, 0.1), Verdict::doubtful);
    CHECK(paper::headline(answer_of(Verdict::doubtful, {near})) ==
          "Doubtful: the rotor's rim clears the plate's front by 0.70 mm nominal but by 0.40 mm "
          "in the worst case; at least 0.50 mm is needed.");
    const stack::Clearance fouls =
        clearance("plate.front", "rotor.rim", 0.5, about(0.7, 0.9, 0.1), Verdict::doubtful);
    CHECK(paper::headline(
              answer_of(Verdict::doubtful, {fouls}, {engagement(7.0, 7.25, Verdict::doubtful)})) ==
          "Doubtful: the rotor's rim clears the plate's front by 0.70 mm nominal but fouls it by "
          "0.20 mm in the worst case. 1 other check is doubtful.");
    CHECK(paper::headline(
              answer_of(Verdict::doubtful, {}, {engagement(7.0, 7.25, Verdict::doubtful)})) ==
          "Doubtful: 'nut engagement' is 7.25 mm nominal but 6.75 mm in the worst case; at "
          "least 7.00 "
          "mm is needed.");
    stack::CheckAnswer by_rss =
        answer_of(Verdict::doubtful, {}, {engagement(7.0, 7.1, Verdict::doubtful)});
    by_rss.judge = stack::Judge::rss;
    CHECK(paper::headline(by_rss) ==
          "Doubtful: 'nut engagement' is 7.10 mm nominal but 6.90 mm by RSS; at least 7.00 mm is "
          "needed.");
}

TEST_CASE("it fits") {
    const stack::Clearance clear =
        clearance("plate.front", "rotor.rim", 0.5, about(1.5, 0.3, 0.1), Verdict::holds);
    CHECK(paper::headline(answer_of(
              Verdict::holds, {clear},
              {engagement(7.0, 9.0, Verdict::holds), engagement(7.0, 8.0, Verdict::holds)})) ==
          "Fits: nothing touches and both checks hold, even in the worst case. Tightest: nut "
          "engagement, "
          "7.50 mm in the worst case where at least 7.00 mm is needed.");
    CHECK(paper::headline(answer_of(Verdict::holds, {clear})) ==
          "Fits: nothing touches, even in the worst case. Tightest: plate.front to rotor.rim, "
          "1.20 mm in the worst case where at least 0.50 mm is needed.");
    stack::CheckAnswer by_rss =
        answer_of(Verdict::holds, {}, {engagement(7.0, 8.0, Verdict::holds)});
    by_rss.judge = stack::Judge::rss;
    CHECK(paper::headline(by_rss) ==
          "Fits: the one check holds, judged by RSS. Tightest: nut engagement, 7.80 mm by RSS "
          "where at "
          "least 7.00 mm is needed.");
    CHECK(paper::headline(answer_of(Verdict::holds, {})) ==
          "Nothing to judge: no two rings of this job can meet, and it asks for no check.");
}

TEST_CASE("a headline speaks the file's unit, in its decimals") {
    stack::CheckAnswer inches = answer_of(
        Verdict::fails,
        {clearance("plate.front", "rotor.rim", 0.02, about(0.0104, 0.002, 0.001), Verdict::fails)});
    inches.units = quantity::Unit::inch;
    CHECK(paper::headline(inches) ==
          "Does not fit: the rotor's rim clears the plate's front by only 0.0104 inch; at "
          "least 0.0200 inch is needed.");
    // 0.4996 of 0.5 must not read as 0.50 of 0.50.
    CHECK(
        paper::headline(answer_of(Verdict::fails,
                                  {clearance("plate.front", "rotor.rim", 0.5,
                                             about(0.4996, 0.0002, 0.0001), Verdict::fails)})) ==
        "Does not fit: the rotor's rim clears the plate's front by only 0.4996 mm; at least 0.5000 "
        "mm is needed.");
}

TEST_CASE("an air gap's two limits are told apart, each with its own value") {
    stack::CheckResult air = check("air gap", CheckKind::air_gap, "stator.poles", "rotor.magnets",
                                   about(0.75, 0.1, 0.05), Verdict::doubtful);
    air.at_least = 0.35;
    air.at_most = 0.95;
    air.greatest = about(0.91, 0.1, 0.05);
    CHECK(
        paper::headline(answer_of(Verdict::doubtful, {}, {air})) ==
        "Doubtful: 'air gap (greatest)' is 0.91 mm nominal but 1.01 mm in the worst case; 0.95 mm "
        "is the most allowed.");
    air.greatest = about(0.97, 0.1, 0.05);
    air.verdict = Verdict::fails;
    CHECK(paper::headline(answer_of(Verdict::fails, {}, {air})) ==
          "Does not fit: 'air gap (greatest)' is 0.97 mm; 0.95 mm is the most allowed.");
}

TEST_CASE("what was not judged stands in the first line, and so does a warning") {
    stack::CheckAnswer a = answer_of(
        Verdict::not_judged,
        {clearance("plate.front", "rotor.rim", 0.5, about(1.5, 0.3, 0.1), Verdict::holds)});
    a.warnings = {stack::TapersDiffer{.hub = {"rotor.bore", "1:5"},
                                      .shaft = {"crank.cone", "1:10"},
                                      .bearing = stack::Bearing::hub_large_end}};
    const stack::NotJudged open{.check = "nut engagement",
                                .why = stack::ThreadStrengthNotKnown{.thread = "nut.thread"}};
    a.not_judged = {open, open, open};
    CHECK(paper::headline(a) == paper::words(a.warnings.front()) +
                                    " NOT JUDGED: " + paper::words(open) +
                                    ". 2 others are not judged either. What was judged holds.");
}

TEST_CASE("odds that hold are likely, no more") {
    stack::CheckAnswer a = answer_of(Verdict::holds, {}, {engagement(7.0, 8.0, Verdict::holds)});
    a.odds_level = 0.99;
    CHECK(paper::headline(a) ==
          "Likely fits: the one check holds, each with odds of at least 0.99.");
}
