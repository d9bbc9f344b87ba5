// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <sstream>
#include <trialfit/trade/reference/reference.hpp>

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
    const Reference ends = table("taper 14 20 29");
    const Reference cone = table("cone 14 to 20 over 29");
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
          "'tilt' is neither 'offset 0.5', 'tilt 15deg' nor '5000rpm'; ask like `table piston 43 "
          "87 1.4mm`");
    CHECK(why("taper 13 13 5") == "both diameters are the same: that is no cone");
    CHECK(why("taper 13 19 1") == "a taper of 6 is steeper than 90 degrees; the length comes last");
    CHECK(why("material alumium").find("did you mean") != std::string::npos);
}

// DIN 6888 (1956): 3 x 5 has a disc of 13, slots 3.8 and 1.4, and a length of 12.65 as printed.
TEST_CASE("Woodruff keys, and how much of its slots a key fills") {
    const Reference key = table("key 3x5");
    CHECK(*row(key, "disc, diameter").value == 13.0);
    CHECK(*row(key, "length along the shaft").value == doctest::Approx(12.65).epsilon(4e-4));
    CHECK(*row(key, "clearance over the key").value == doctest::Approx(0.2));
    CHECK(*row(key, "share of the slots' depth that the key fills").value ==
          doctest::Approx(500.0 / 5.2));
    CHECK(table("key woodruff 3 x 5").answer == key.answer);
    CHECK(*row(table("key 1/8x1/2in"), "key, height").value == doctest::Approx(0.203 * 25.4));
    CHECK(table("key woodruff").rows.size() > 10);
}

// ISO 898-1:2013 and ISO 898-2: M10 of 8.8 breaks at 46400 N; its nut's proof load is 50500 N.
TEST_CASE("bolts and nuts by class") {
    CHECK(*row(table("bolt M10 8.8"), "load that breaks it, least").value ==
          doctest::Approx(46400.0).epsilon(0.006));
    CHECK(row(table("bolt M10 8.8"), "nut that goes with it").words == "class 8");
    CHECK(*row(table("nut M10"), "regular nut of class 8, proof load").value == 50500.0);
    CHECK(*row(table("nut M5"), "regular nut of class 8, proof load").value == 12140.0);
    CHECK(row(table("nut M10x1.25"), "regular nut of class 8, proof load").source ==
          "ISO 898-6 (not checked against the standard)");
    CHECK_FALSE(reference({"bolt", "M10"}));
    CHECK_FALSE(reference({"bolt", "M10", "7.7"}));
    // A class of two words, as it is written and as one.
    const Reference graded = table("bolt 1/4-20 UNC grade 5");
    CHECK(graded.answer == "1/4-20 UNC of grade 5.");
    CHECK(*row(graded, "yield strength, least").value == doctest::Approx(92.0 * 6.894757));
    CHECK(reference({"bolt", "1/4-20 UNC", "grade 5"})->answer == graded.answer);
    CHECK(table("engagement 3/8-24 UNF grade 8").rows.size() == 7);
    CHECK_FALSE(reference(words_of("bolt grade 5")));
}

TEST_CASE("softer metal and a stronger bolt need more thread") {
    const auto needed = [](std::string_view asked, std::string_view what) {
        return *row(table(asked), what).value;
    };
    constexpr std::string_view kIron = "grey iron G3000; it has no yield point";
    constexpr std::string_view kWrought = "wrought aluminium 6061-T6";
    CHECK(needed("engagement M10 8.8", kIron) > needed("engagement M10 8.8", kWrought));
    CHECK(needed("engagement M10 10.9", kIron) > needed("engagement M10 8.8", kIron));
    CHECK(needed("engagement M10 8.8", "rule for cast iron") == 15.0);
}

// Shigley, 8th ed., problem 3-68 in mm: shaft 25.4, hub 50.8, 0.0508 on the diameter, 30e6 psi:
// 22500 psi between them, 37500 in the hub.
TEST_CASE("a straight shrink fit") {
    const Reference fit = table("shrink 25.4 50.8 0.0508");
    const double psi = 6.894757e-3 * 207000.0 / (30e6 * 6.894757e-3);
    CHECK(*row(fit, "pressure between them").value == doctest::Approx(22500.0 * psi).epsilon(1e-6));
    CHECK(*row(fit, "hub at its bore, hoop stress").value ==
          doctest::Approx(37500.0 * psi).epsilon(1e-6));
    CHECK_FALSE(reference({"shrink", "25", "20", "0.02"}));
    CHECK_FALSE(reference({"shrink", "25"}));
}

// Mechanical Engineer's Pocket Book, 3rd ed., 5.4.11; DIN 862 and 863, extracts.
TEST_CASE("conical shaft ends and gauges") {
    CHECK(*row(table("end 20"), "diameter half-way along").value == doctest::Approx(18.9));
    CHECK(row(table("end 20"), "thread").words == "M12x1.25");
    CHECK_FALSE(reference({"end", "21"}));
    CHECK(*row(table("gauge 50"), "caliper, vernier 0.05").value == 0.05);
    CHECK(*row(table("gauge 25"), "micrometer").value == 0.004);
    // Where no caliper and no micrometer reaches, a dial's own range says nothing of the length.
    CHECK(table("gauge 600").rows.size() == 5);
    CHECK(reference(words_of("gauge 601")).reason() ==
          "no limit is tabulated for 601 mm; state the gauge's own");
}

TEST_CASE("a size in inches has no digits that nobody wrote") {
    CHECK(table("thread 3/8-24 UNF-2A").answer.find("9.525 mm") != std::string::npos);
}

}  // namespace
