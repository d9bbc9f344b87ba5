// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <sstream>
#include <trialfit/trade/reference.hpp>

using namespace trialfit::trade;

namespace {

std::vector<std::string> words_of(std::string_view text) {
    std::istringstream in{std::string(text)};
    std::vector<std::string> out;
    for (std::string word; in >> word;)
        out.push_back(word);
    return out;
}

Reference table(std::string_view asked) {
    return *reference(words_of(asked));
}

const ReferenceRow& row(const Reference& of, std::string_view what) {
    for (const ReferenceRow& each : of.rows)
        if (each.what == what) return each;
    FAIL("no row " << what);
    return of.rows.front();
}

TEST_CASE("every kind's own example answers, and every figure has its source") {
    for (const ReferenceKind& kind : reference_kinds()) {
        CAPTURE(kind.example);
        const auto found = reference(words_of(kind.example));
        REQUIRE(found.ok());
        CHECK(found->kind == kind.name);
        CHECK_FALSE(found->answer.empty());
        CHECK(found->rows.size() >= 2);
        for (const ReferenceRow& each : found->rows) {
            CAPTURE(each.what);
            CHECK_FALSE(each.source.empty());
            CHECK(each.value.has_value() == each.words.empty());
        }
    }
}

// ISO 286-1:2010 by way of its common examples (from memory): 25H7 +21/0, g6 -7/-20, 17k5 +9/+1.
TEST_CASE("fits and sizes come out as the standard has them") {
    const Reference fit = table("fit 25 H7/g6");
    CHECK(row(fit, "hole H7, deviations").upper == 0.021);
    CHECK(*row(fit, "shaft g6, deviations").value == doctest::Approx(-0.020));
    CHECK(*row(fit, "clearance (negative: interference)").value == doctest::Approx(0.007));
    CHECK(fit.answer == "25 H7/g6 is a clearance fit.");
    CHECK(table("fit 25H7/k6").answer.find("transition") != std::string::npos);
    CHECK(table("fit 25H7/s6").answer.find("interference") != std::string::npos);
    CHECK(table("size 17 k5").answer == "17 k5 is 17.001..17.009 mm.");
    CHECK(table("general 12.5 f").answer ==
          "12.5 mm without a tolerance is held to ±0.1 mm in class f.");
    CHECK(table("general 2").rows.size() == 6);  // class v has none up to 3 mm
}

TEST_CASE("a taper from its ends is the cone of that taper") {
    const Reference ends = table("taper 13 19 29.5");
    const Reference cone = table("cone 13 to 19 over 29.5");
    REQUIRE(ends.rows.size() == cone.rows.size());
    for (std::size_t i = 0; i < ends.rows.size(); ++i)
        CHECK(std::abs(*ends.rows[i].value) == doctest::Approx(std::abs(*cone.rows[i].value)));
    CHECK(*row(table("cone 1:5"), "travel along it for 0.01 mm on the diameter").value ==
          doctest::Approx(0.05));
}

TEST_CASE("a piston's height and angle are asked in any unit, blanks or none") {
    const double deg = *row(table("piston 43 87 1.4mm"), "crank angle before the top").value;
    CHECK(*row(table("piston 43 mm 87mm 1.4 mm"), "crank angle before the top").value == deg);
    CHECK(*row(table("piston 43 87 17 deg"), "crank angle before the top").value == 17.0);
    const Reference tilted = table("piston 43 87 1.4mm tilt 60deg offset -0.5");
    CHECK(*row(tilted, "gauge in the tilted plug hole reads").value == doctest::Approx(2.8));
    const double before = *row(tilted, "crank angle before the top").value;
    CHECK(*row(tilted, "crank angle after the top").value != doctest::Approx(before));
    CHECK(*row(table("piston 1in 2in 0.1in"), "piston below its top").value ==
          doctest::Approx(2.54));
}

TEST_CASE("what cannot be looked up is refused with the mend") {
    const auto why = [](std::string_view asked) { return reference(words_of(asked)).reason(); };
    CHECK(why("tread M10") == "there is no table of 'tread'; did you mean 'thread'?");
    CHECK(why("general") == "no length is given; ask like `table general 12.5 m`");
    CHECK(why("piston 43 87 1.4") ==
          "'1.4' may be a height or an angle; write '1.4mm' or '1.4deg'");
    CHECK(why("piston 43 87 190deg") == "the crank angle before the top is 0 to 180 degrees");
    CHECK(why("piston 43 87 1mm tilt") ==
          "'tilt' is neither 'offset 0.5' nor 'tilt 15deg'; ask like `table piston 43 87 1.4mm`");
    CHECK(why("taper 13 13 5") == "both diameters are the same: that is no cone");
    CHECK(why("taper 13 19 1") == "a taper of 6 is steeper than 90 degrees; the length comes last");
    CHECK(why("material alumium").find("did you mean") != std::string::npos);
}

}  // namespace
