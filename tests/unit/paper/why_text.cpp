// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/printed.hpp>

#include "why_answer.hpp"

using namespace trialfit;

TEST_CASE("the chain behind a doubtful gap, whole") {
    CHECK(paper::why_text(testing::doubtful_gap(), {}) ==
          R"(rotor clear of coils: 1.00 mm nominal; at least 0.60 is needed: doubtful, since
in the worst case it is 0.45 to 1.55.

The gap from stator.coil_out to rotor.cup_floor in pump.yaml, lengths in mm.
  nominal     1.00
  worst case  0.45 to 1.55
  RSS         0.65 to 1.35
  spread      0.117 (one standard deviation)

Where it comes from, biggest first
  adds  of worst  of the  effect  value  size
            case  spread
±0.300      55 %    73 %      -1  14.00  stator.coil_out from stator.base:
                                           14.0 ±0.3, line 52
±0.200      36 %    24 %      -5  15.60  rotor.bore dia: 15.60 ±0.04, line 61
±0.050       9 %     2 %      -1  10.00  plate.front from plate.back: 10.00
                                           ±0.05, line 40
±0.000       0 %     0 %      +1   1.60  case.gasket: 1.6 exact, line 90
Effect: by how much the figure moves when the size grows by 1.
Exact lengths: -2.00.

If you measured one size twice as exactly, in the worst case it would be
  - stator.coil_out from stator.base: 0.60 to 1.40, and it holds
  - rotor.bore dia: 0.55 to 1.45
  - plate.front from plate.back: 0.48 to 1.53
)");
}

TEST_CASE("the first line of a chain is its verdict") {
    stack::WhyAnswer a = testing::doubtful_gap();
    const auto first_line = [&a] {
        const std::string text = paper::why_text(a, {.width = 200});
        return text.substr(0, text.find('\n'));
    };
    a.verdict = stack::Verdict::fails;
    CHECK(first_line() ==
          "rotor clear of coils: 1.00 mm nominal; at least 0.60 is needed: it "
          "FAILS.");
    a.verdict = stack::Verdict::holds;
    CHECK(first_line() ==
          "rotor clear of coils: 1.00 mm nominal; at least 0.60 is needed: it "
          "holds even in the worst case (0.45 to 1.55).");
    a.judge = stack::Judge::rss;
    CHECK(first_line() ==
          "rotor clear of coils: 1.00 mm nominal; at least 0.60 is needed: it "
          "holds by RSS (0.65 to 1.35).");
    a.at_most = 2.0;
    a.more_than = true;
    CHECK(first_line() ==
          "rotor clear of coils: 1.00 mm nominal; 0.60 to 2.00 is allowed: it holds "
          "by RSS (0.65 to 1.35).");
    a.at_most.reset();
    CHECK(first_line() ==
          "rotor clear of coils: 1.00 mm nominal; more than 0.60 is needed: it "
          "holds by RSS (0.65 to 1.35).");
    a.at_least.reset();
    CHECK(first_line() == "rotor clear of coils: 1.00 mm nominal; nothing is asked of it.");
}

TEST_CASE("an engagement says which of its ends decides") {
    stack::WhyAnswer a = testing::doubtful_gap();
    a.kind = stack::CheckKind::engagement;
    a.first = "nut.thread";
    a.second = "crank.thread";
    a.deciding = "nut.top minus nut.seat";
    CHECK(paper::why_text(a, {.width = 200})
              .find("The engagement of nut.thread on crank.thread in pump.yaml, lengths in mm. It "
                    "is the "
                    "least of four distances; here nut.top minus nut.seat decides.\n") !=
          std::string::npos);
}

TEST_CASE("no chain: nothing varies") {
    stack::WhyAnswer a = testing::doubtful_gap();
    a.chain.clear();
    a.constant = 0.0;
    CHECK(paper::why_text(a, {}).find("\nNo size comes into it: it is fixed.\n") !=
          std::string::npos);
}

TEST_CASE("a very long chain is cut short and says so") {
    stack::WhyAnswer a = testing::doubtful_gap();
    a.chain.assign(1000, a.chain[0]);
    const std::string text = paper::why_text(a, {});
    CHECK(text.find("... and 940 smaller ones; --json has them all.\n") != std::string::npos);
    CHECK(text.size() < 20000);
}

TEST_CASE("what fails at nominal is not mended by measuring") {
    stack::WhyAnswer a = testing::doubtful_gap();
    a.verdict = stack::Verdict::fails;
    const std::string text = paper::why_text(a, {});
    CHECK(text.find("It fails at nominal: to measure better narrows") != std::string::npos);
    CHECK(text.find("and it holds") == std::string::npos);
}
