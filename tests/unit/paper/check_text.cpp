// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/layout.hpp>

#include "demo_answer.hpp"

using namespace trialfit;

namespace {

// Commands apart: they are there to be copied, and whole however long they are.
std::size_t widest_line(const std::string& text) {
    std::istringstream lines(text);
    std::size_t widest = 0;
    for (std::string line; std::getline(lines, line);)
        if (!line.starts_with("       trialfit why"))
            widest = std::max(widest, paper::columns(line));
    return widest;
}

}  // namespace

TEST_CASE("what check found, whole") {
    CHECK(paper::check_text(testing::fouling_rotor(), {}) ==
          R"(Does not fit: the rotor's rim lands on the plate's front 4.00 mm before the
rotor seats on the cone. 1 other check fails too, 1 is doubtful.

Rotor on a pump engine (pump.yaml). Lengths in mm, judged by the worst case.

First contact: rotor.rim on plate.front. The rotor stops 4.00 mm before its seat
(worst case 3.70 to 4.31, RSS 3.90 to 4.10). All other figures assume that it
sits.

Clearances            needed   nominal      worst case             RSS
                              (middle)
plate.front to         ≥0.50     -4.00  -4.31 to -3.70  -4.10 to -3.90  FAILS
  rotor.rim
stator.coil_out to     ≥0.50      0.90    0.20 to 1.80    0.65 to 1.35  doubtful
  rotor.cup_floor               (1.00)
rotor.nut_seat to      ≥0.50      6.00    5.10 to 6.90    5.50 to 6.50  holds
  cover.inside
The tightest pair of each two parts; --all lists the rest.

Checks              needed  nominal    worst case           RSS
magnets over poles   ≥6.00     7.90  7.10 to 8.40  7.50 to 8.30  holds
    overlap, stator.poles by rotor.magnets: 99 % of the length, 75 % needed
nut engagement       ≥7.00     6.75  6.20 to 7.30  6.40 to 7.10  FAILS
    engagement, nut.thread on crank.thread, 0.7 d needed

Doubtful, and why
  - stator.coil_out to rotor.cup_floor: 0.90 nominal; 0.20 with every size at
    its bad limit, 0.30 short of the 0.50 needed. RSS 0.65 to 1.35: that would
    hold.

What to do next
  1. Measure again before you cut or buy: metal does not grow back. The sizes
     that the figure stands on, biggest first:
       trialfit why pump.yaml plate.front rotor.rim
  2. Which size to measure better, so that 'stator.coil_out to rotor.cup_floor'
     is no longer in doubt:
       trialfit why pump.yaml stator.coil_out rotor.cup_floor
  3. For 'plate.front to rotor.rim' to hold in the worst case: move plate.front
     4.81 mm inboard, or rotor.rim 4.81 mm outboard, or split the 4.81.
  4. For 'nut engagement' to hold in the worst case: let 0.80 mm more thread
     engage (a longer thread, a longer nut, or a thinner washer where the nut
     does not run out of thread).
  5. If you move a face, all parts on it move too, and every cut or shim has an
     error of its own: write the new size into the job and check again before
     you cut.

Notes
  - The file's 2 trial-fit readings were set aside: every figure here is from
    the sizes as written.

Not assessed
  - burst strength and safe speed of the rotor
  - balance
  - heat: every size is taken as it was measured, cold
  - radial gaps, runout, centring and tilt
)");
}

TEST_CASE("a fit, whole") {
    stack::CheckAnswer a;
    a.file = "a job.yaml";
    a.judge = stack::Judge::rss;
    a.inflate = 1.5;
    a.clearances = {testing::clearance("plate.front", "rotor.rim", 0.5,
                                       {0.7, 0.7, {0.4, 1.0}, {0.6, 0.8}}, stack::Verdict::holds)};
    a.clearances[0].tightest = false;
    a.not_assessed = {stack::LeftOut::balance};
    CHECK(paper::check_text(a, {}) ==
          R"(Fits: nothing touches, judged by RSS. Tightest: plate.front to rotor.rim, 0.60
mm by RSS where at least 0.50 mm is needed.

a job.yaml. Lengths in mm, judged by RSS. RSS half-widths times 1.5.

Clearances                needed  nominal    worst case           RSS
plate.front to rotor.rim   ≥0.50     0.70  0.40 to 1.00  0.60 to 0.80  holds

What to do next
  1. 1 check holds by RSS but not in the worst case: likely, not certain, and
     one engine is not an average. Without --judge rss the worst case is judged.
  2. Trial-fit it and read one gap back: 'plate.front to rotor.rim' should come
     out at 0.70 mm. A reading outside 0.40 to 1.00 says that one of the sizes
     is wrong.

Not assessed
  - balance
)");
}

TEST_CASE("a job that asks for nothing") {
    stack::CheckAnswer a;
    a.file = "job.yaml";
    const std::string text = paper::check_text(a, {});
    CHECK(
        text.starts_with("Nothing to judge: no two rings of this job can meet, and it asks for "
                         "no check.\n"));
    CHECK(text.find("Clearances") == std::string::npos);
    CHECK(text.find("1. Give the parts rings") != std::string::npos);
}

TEST_CASE("names of any length stay within the width") {
    stack::CheckAnswer a = testing::fouling_rotor();
    const std::string part(200, 'p');
    const std::string face(200, 'f');
    a.title = std::string(300, 't');
    a.clearances[0].inboard = part + "." + face;
    a.clearances[1].outboard = part + "." + face;
    a.checks[0].name = "漢字 " + std::string(200, 'c');
    a.checks[1].first = part + "." + face;
    a.first_contact->outboard = part + "." + face;
    a.first_contact->part = part;
    a.notes = {stack::OffsetGrowsWithSeat{.parts = {std::string(500, 'n')}}};
    CHECK(widest_line(paper::check_text(a, {})) <= 80);
    CHECK(widest_line(paper::check_text(testing::fouling_rotor(), {.width = 60})) <= 60);
}

TEST_CASE("nothing that a job is named can reach the terminal as a command") {
    stack::CheckAnswer a = testing::fouling_rotor();
    a.title = "\x1b[2J\x1b]0;title\a";
    a.file = "\x1b[31m.yaml";
    a.checks[0].name = "over\x1b[8m poles";
    a.checks[0].at_least_written = "75\x1b[m %";
    a.notes = {stack::FollowsNut{.parts = {"\x1b[5m"}}};
    a.not_assessed = {stack::PartnerNotKnown{.thread = "\x1b[5m"}};
    a.not_judged = {{.check = "\x1b[5m", .why = stack::ThreadStrengthNotKnown{"\x1b[5m"}}};
    CHECK(paper::check_text(a, {}).find('\x1b') == std::string::npos);
}

TEST_CASE("colour says nothing that the words do not") {
    const std::string plain = paper::check_text(testing::fouling_rotor(), {});
    const std::string coloured = paper::check_text(testing::fouling_rotor(), {.colour = true});
    std::string stripped;
    for (std::size_t i = 0; i < coloured.size(); ++i) {
        if (coloured[i] == '\x1b') i = coloured.find('m', i) + 1;
        if (i < coloured.size()) stripped += coloured[i];
        if (i < coloured.size() && coloured[i] == '\x1b') {
            stripped.pop_back();
            --i;
        }
    }
    CHECK(coloured != plain);
    CHECK(stripped == plain);
}
