// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <trialfit/trade/reference/reference.hpp>

using namespace trialfit::trade;

namespace {

double value_of(const Reference& of, std::string_view what) {
    for (const ReferenceRow& each : of.rows)
        if (each.what == what) return each.value.value_or(0.0);
    FAIL("no row " << what);
    return 0.0;
}

TEST_CASE("balance: G/w, its mass moment and its force, split between two planes") {
    // By hand: 6.3 mm/s at 6000 rpm is 6.3/(200 pi) mm = 10.027 um; of 2.5 kg 25.067 g mm.
    const Reference found = *reference({"balance", "G6.3", "6000rpm", "2.5", "10", "30"});
    const double e_mm = 6.3 / (200.0 * std::numbers::pi);
    CHECK(value_of(found, "eccentricity of the mass") == doctest::Approx(e_mm * 1e3));
    CHECK(value_of(found, "unbalance in all") == doctest::Approx(e_mm * 2500.0));
    CHECK(value_of(found, "force that it makes") ==
          doctest::Approx(e_mm / 1e3 * 2.5 * std::pow(200.0 * std::numbers::pi, 2)));
    // Three to one, kept to 70 and 30 %.
    CHECK(value_of(found, "in the first plane") == doctest::Approx(0.7 * e_mm * 2500.0));
    CHECK(value_of(found, "in the second plane") == doctest::Approx(0.3 * e_mm * 2500.0));
}

TEST_CASE("lathe: ridges of a round nose, and the customary cuts alone") {
    const Reference found = *reference({"lathe", "0.1", "0.4"});
    CHECK(value_of(found, "height of the ridges left") ==
          doctest::Approx(0.01 / 3.2).epsilon(0.01));
    CHECK(value_of(found, "depth of cut, at most") == doctest::Approx(0.5));
    CHECK(reference({"lathe"})->rows.size() + 2 == found.rows.size());
}

TEST_CASE("what cannot be asked of them says how to ask") {
    CHECK(reference({"lathe", "0.1"}).reason() ==
          "the feed and the tool's nose radius are needed, or neither; of a sharp tool its angles, "
          "side and end (lathe 0.1 sharp 30deg 7deg); ask like `table lathe 0.1 0.4`");
    CHECK(reference({"lathe", "1", "0.4"}).reason() == "feed must lie between 0 and 0.8, not 1");
    CHECK(reference({"balance", "G6.3", "fast", "2.5"}).reason() ==
          "'fast' is no speed; ask like `table balance G6.3 6000 2.5`");
    CHECK(reference({"balance", "G0", "6000", "2.5"}).reason() ==
          "'G0' is no grade; ask like `table balance G6.3 6000 2.5`");
    CHECK(reference({"balance", "G6.3", "6000", "-1"}).reason() ==
          "'-1' is no mass; ask like `table balance G6.3 6000 2.5`");
    CHECK(reference({"gap", "wide"}).reason() ==
          "'wide' is asked for too much; ask like `table gap`");
}

}  // namespace
