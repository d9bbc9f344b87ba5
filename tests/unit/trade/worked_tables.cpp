// SPDX-License-Identifier: MIT
// Tables that work a figure out, each held to a printed example of the formula it shows.
#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>
#include <trialfit/trade/reference/reference.hpp>

using namespace trialfit::trade;
using doctest::Approx;

namespace {

Result<Reference> asked(const std::string& text) {
    std::istringstream in{text};
    std::vector<std::string> words;
    for (std::string word; in >> word;)
        words.push_back(word);
    return reference(words);
}

double figure_of(const std::string& text, std::string_view what) {
    CAPTURE(text);
    const auto found = asked(text);
    if (!found) FAIL(found.reason());
    for (const ReferenceRow& each : found->rows)
        if (each.what == what) return each.value.value();
    FAIL("no row " << what);
    return 0.0;
}

// Khurmi and Gupta, Theory of Machines, ex. 10.32 and 10.31 (T exact, not as rounded there).
TEST_CASE("seat: what a force does on a cone, and what force a torque needs") {
    const std::string flywheel = "seat 1:10 20 0.12 20000N";
    CHECK(figure_of(flywheel, "torque at which it slips round") == Approx(141.35283));
    CHECK(figure_of(flywheel, "the same, friction on the way home left out") == Approx(480.59963));
    CHECK(figure_of(flywheel, "force that pulls it off, below 0: it comes off alone") ==
          Approx(8235.294));
    const std::string clutch = "seat 12.5 deg half 500 0.2 429.7183Nm 0.1MPa";
    CHECK(figure_of(clutch, "force along the axis") == Approx(3538.291));
    CHECK(figure_of(clutch, "force along the axis, friction on the way home left out") ==
          Approx(1860.1615));
    CHECK(figure_of(clutch, "force square to the cone") == Approx(8594.367));
    // Along the slope 54.71344, along the axis that times the cosine of 12.5 degrees.
    CHECK(figure_of(clutch, "length of cone at that pressure") == Approx(53.41650));
    CHECK(figure_of("seat 20 deg half 375 0.2 572.9578Nm 0.25MPa",
                    "worn in by slipping, force along the axis at that pressure") ==
          Approx(4978.434));
}

TEST_CASE("seat: a hub drawn up on its cone, whichever of its figures is known") {
    const std::string drawn = "seat 1:10 20 0.12 0.2mm 20 40";
    CHECK(figure_of(drawn, "pressure on the cone") == Approx(77.625));
    CHECK(figure_of(drawn, "hub at its bore, hoop stress") == Approx(129.375));
    CHECK(figure_of(drawn, "force along the axis") == Approx(16582.8968));
    CHECK(figure_of(drawn, "torque at which it slips round") == Approx(117.201971));
    CHECK(figure_of("seat 1:10 20 0.12 16582.8968N 20 40", "draw-up along the axis") ==
          Approx(0.2));
    CHECK(figure_of("seat 1:10 20 0.12 117.201971Nm 20 40 steel steel", "draw-up along the axis") ==
          Approx(0.2));
    CHECK(figure_of("seat 1:10 20 0.12 0.2mm 20 40 steel aluminium", "pressure on the cone") ==
          Approx(31.9390413));
}

// VDI 2230:2001 based table: 48.0 kN and 90 Nm. Shigley: K 0.18939 for 3/4-16 at 0.15.
TEST_CASE("torque: preload and torque by friction, and nut factors") {
    const std::string fine = "torque M12x1.25 8.8 0.12";
    CHECK(figure_of(fine, "preload that takes 90 % of the least yield strength") ==
          Approx(48.04e3).epsilon(1e-3));
    CHECK(figure_of(fine, "torque for it, under a hexagon head or nut") ==
          Approx(90.3).epsilon(2e-3));
    const std::string inch = "torque 3/4-16 UNF grade 5 0.15";
    CHECK(figure_of(inch, "torque for each N of preload and mm of diameter") ==
          Approx(0.18939).epsilon(1e-4));
    CHECK(figure_of(inch, "the same, another way") == Approx(0.1894).epsilon(0.01));
}

TEST_CASE("engagement: as recommended in steel, and by a shear strength") {
    CHECK(figure_of("engagement M10 8.8", "recommended in steel of over 360 MPa") == Approx(10.0));
    CHECK(figure_of("engagement M10x1.25 8.8", "recommended in steel of over 360 MPa") ==
          Approx(12.5));
    // 1220 MPa on 58.0 mm2 at 21.477 mm2 for each mm, 130 MPa.
    CHECK(figure_of("engagement M10 12.9 130MPa", "metal of a shear strength of 130 MPa") ==
          Approx(1220.0 * 58.0 / (21.4769 * 130.0)).epsilon(1e-4));
}

// Machinery's Handbook, 31st ed., p. 644-645 and 701; the factor is 0.38 at nu = 1/3.
TEST_CASE("shrink by a stress, and discs on a cone") {
    CHECK(figure_of("shrink 250 375 170MPa", "shrink-fit factor") == Approx(0.227).epsilon(0.1));
    const double by_rule = figure_of("shrink 250 375 170MPa", "interference on the diameter");
    CHECK(by_rule == Approx(0.252).epsilon(0.02));
    CHECK(figure_of("shrink 200 300 0.1", "hub by the rule for thin tubes, which says too little") <
          figure_of("shrink 200 300 0.1", "hub at its bore, hoop stress"));
    CHECK(figure_of("taper discs 1.5in 1in 5in", "inches of diameter per foot") ==
          Approx(1.201502818));
    CHECK(figure_of("taper discs 1.5in 1.25in 3/4 in/ft", "discs' centres apart") ==
          Approx(4.001952648 * 25.4));
    CHECK(figure_of("cone 1:5",
                    "diameter that a minute of error in the side's angle makes over 20 mm") ==
          Approx(0.011752).epsilon(1e-4));
    CHECK(figure_of("cone 1:5", "stand-off for that") == Approx(0.05876).epsilon(1e-4));
}

// Khurmi and Gupta, ex. 15.3, exact: 6.561732 m/s at 74.528931 degrees.
TEST_CASE("piston: speeds at the engine's own") {
    const std::string engine = "piston 600 1000 60deg 200rpm";
    CHECK(figure_of(engine, "greatest piston speed") == Approx(6.561732).epsilon(1e-6));
    CHECK(figure_of(engine, "crank angle after the top at that") ==
          Approx(74.528931).epsilon(1e-6));
    CHECK(figure_of(engine, "piston speed there") < 6.56);
}

TEST_CASE("piston: where it all but stands no straight line is told") {
    const auto tells = [](const std::string& text) {
        const auto found = asked(text);
        if (!found) FAIL(found.reason());
        return std::ranges::any_of(found->rows, [](const ReferenceRow& each) {
            return each.what == "crank angle for 0.01 mm there";
        });
    };
    CHECK(tells("piston 43 87 17deg"));
    CHECK(tells("piston 43 87 3deg"));
    CHECK_FALSE(tells("piston 43 87 0deg offset 5"));
    CHECK_FALSE(tells("piston 43 87 0.0001mm"));
    CHECK_FALSE(tells("piston 43 87 180deg"));
    CHECK_FALSE(tells("piston 43 87 43mm"));
    CHECK(figure_of("piston 43 87 180deg", "piston travel for one degree there") == 0.0);
    // The whole stroke, which an offset pin's crank gives back with its last digit.
    CHECK(figure_of("piston 43 87 43mm offset 5", "piston below its top") == Approx(43.0));
}

TEST_CASE("ring: mass, inertia, stress and speeds") {
    CHECK(figure_of("ring 24 100 25 steel", "mass") == Approx(1.452562487));
    CHECK(figure_of("ring 24 100 25 steel", "inertia about its axis") == Approx(1.920287608e-3));
    // About an axis 60 mm beside it: m 0.06^2 more.
    CHECK(figure_of("ring 24 100 25 steel off 60", "inertia about an axis 60 mm beside it") ==
          Approx(1.920287608e-3 + 1.452562487 * 0.0036));
    CHECK(figure_of("ring 24 100 25 steel 12000rpm", "hoop stress, mean") == Approx(13.40444928));
    // The speeds are those at which the stress is what was asked.
    const double first =
        figure_of("ring 200 600 25 steel 620MPa", "revolutions per minute, bore at 620 MPa");
    CHECK(figure_of("ring 200 600 25 steel " + std::to_string(first) + "rpm",
                    "hoop stress at the bore") == Approx(620.0).epsilon(1e-6));
    const double all = figure_of("ring 200 600 25 steel 620MPa",
                                 "revolutions per minute, mean hoop stress at 620 MPa");
    CHECK(all / first == Approx(1.322585).epsilon(1e-3));  // Boresi and Schmidt, ex. 11.8, nu 0.29
    CHECK(figure_of("ring 0 100 10 steel 7MPa 800rpm", "diameter of a thin rim at 7 MPa") ==
          Approx(figure_of("ring 0 100 10 steel 7MPa", "speed of a thin rim at 7 MPa") * 60e3 /
                 (3.14159265 * 800.0)));
    const std::string slipping = "ring 0 300 10 steel 1000rpm 7.824Nm";
    const double inertia = figure_of("ring 0 300 10 steel", "inertia about its axis");
    const double w = 1000.0 * 3.14159265358979 / 30.0;
    CHECK(figure_of(slipping, "time to that speed by a joint that slips at that torque") ==
          Approx(inertia * w / 7.824));
    CHECK(figure_of(slipping, "heat in the joint") == Approx(inertia * w * w / 2.0));
}

TEST_CASE("growth: free, held, tied") {
    CHECK(figure_of("growth 12 60K 6061 against 1020", "difference") == Approx(8.568e-3));
    CHECK(figure_of("growth 12 -60K 6061 against 1020", "difference") == Approx(-8.568e-3));
    // E alpha dT, and less by the room.
    CHECK(figure_of("growth 2500 40K steel", "steel, stress where it cannot grow") ==
          Approx(207000.0 * 11.7e-6 * 40.0));
    CHECK(figure_of("growth 2500 40K steel room 0.5", "steel, stress with 0.5 mm of room") ==
          Approx(207000.0 * (11.7e-6 * 40.0 - 0.5 / 2500.0)));
    CHECK(figure_of("growth 2500 40K steel 50MPa", "steel, room that leaves it at 50 MPa") ==
          Approx(2500.0 * (11.7e-6 * 40.0 - 50.0 / 207000.0)));
    // Equal forces.
    const std::string tied = "growth 300 150K steel against aluminium 400mm2 200mm2";
    CHECK(400.0 * figure_of(tied, "steel tied to the other, stress") ==
          Approx(200.0 * figure_of(tied, "aluminium tied to the other, stress")));
    CHECK(figure_of(tied, "growth of both, tied") > figure_of(tied, "growth of steel"));
    CHECK(figure_of(tied, "growth of both, tied") < figure_of(tied, "growth of aluminium"));
}

// Shop manuals: 0.25 to 0.45 for a float of 0.20 to 0.40. Ghosh and Mallik: 0.01433207.
TEST_CASE("growth: a stress that is never reached needs no room") {
    CHECK(figure_of("growth 60 80K steel 1000MPa", "steel, room that leaves it at 1000 MPa") ==
          0.0);
}

TEST_CASE("shim by room and float, and the ridges of a sharp tool") {
    const auto shims = asked("shim 38.10+41.25+0.30 30+49 0.20 0.40");
    REQUIRE(shims.ok());
    CHECK(*shims->rows.front().value == Approx(0.25));
    CHECK(*shims->rows.front().upper == Approx(0.45));
    CHECK(*shims->rows.back().value == Approx(0.45));
    CHECK(figure_of("lathe 0.125 sharp 30deg 7deg", "height of the ridges left") ==
          Approx(0.01433207));
}

TEST_CASE("what cannot be asked of them says how to ask") {
    for (const char* text : {"seat",
                             "seat 1:10 20 0.12",
                             "seat 1:10 20 1.2 15000N",
                             "seat 1:10 20 0.12 15000",
                             "seat 1:10 20 0.12 0.2mm",
                             "seat 1:10 20 0.12 15kN",
                             "torque",
                             "torque M10 8.8",
                             "torque M10 8.8 0",
                             "ring 24 100",
                             "ring 24 100 25",
                             "ring 24 100 25 steel off",
                             "ring 24 100 25 steel 8Nm",
                             "growth 60 -80K steel 50MPa",
                             "growth 60",
                             "growth 60 80K",
                             "growth 60 hot steel",
                             "growth 60 80K steel 5mm2",
                             "shim 38 37",
                             "shim 38 37 0.4 0.2",
                             "shim 38+x 37 0.2 0.4",
                             "lathe 0.1 sharp 30",
                             "taper discs 40 30",
                             "taper discs 30 40 120"}) {
        CAPTURE(text);
        const auto found = asked(text);
        REQUIRE_FALSE(found.ok());
        CHECK(found.reason().find("table ") != std::string_view::npos);
    }
    CHECK(asked("shim 37 38 0.2 0.4").reason() == "there is no room for a shim and that float");
    CHECK(asked("ring 100 24 25 steel").reason().find("bore") != std::string_view::npos);
    CHECK_FALSE(asked("seat 1:10 20 0.12 0.2mm 20 15").ok());
    CHECK_FALSE(asked("seat 1:10 20 0.12 0.2mm 20 40 nylon").ok());
    CHECK_FALSE(asked("taper discs 40 30 4").ok());
    CHECK_FALSE(asked("ring 24 100 25 steel 6000rpm 8000rpm").ok());
    CHECK_FALSE(asked("growth 60 80K steel 50MPa 60MPa").ok());
}

TEST_CASE("what comes to no finite figure is refused") {
    const std::string much(300, '9');
    for (const std::string& text :
         {"shrink 25 40 " + much + "MPa", "lathe " + much + " " + much,
          "seat 1:10 " + much + " 0.12 " + much + "N", "ring 0 " + much + " " + much + " steel",
          "growth " + much + " " + much + "K steel", "shrink " + much + " " + much + "9 1"})
        CHECK(asked(text).reason() ==
              "one of these numbers is too large or too small to work with");
}

}  // namespace
