// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/job/former.hpp>
#include <utility>

using namespace trialfit;

namespace {

job::Face face(const char* name, int from, quantity::Size size) {
    job::Face out{.name = name, .at = {}, .zero = from < 0, .dimensions = {}};
    if (from >= 0)
        out.dimensions = {{.distance = {.size = size, .written = {}, .at = {}}, .from = from}};
    return out;
}

// A boss, a seat at `seat` from it, a step 6 inboard of the seat and a rim 16 inboard of the step.
job::Part hub(quantity::Size seat) {
    job::Part part{.name = "hub"};
    part.faces = {face("boss", -1, {}), face("seat", 0, seat),
                  face("step", 1, quantity::toleranced(-6.0, -0.1, 0.1)),
                  face("rim", 2, quantity::toleranced(-16.0, -0.2, 0.2))};
    return part;
}

}  // namespace

TEST_CASE("how thick a part is at a cut needs the sizes between the two faces alone") {
    const job::Cut cut{.at = {}, .face = 3, .measure = 1};
    for (const quantity::Size& seat :
         {quantity::toleranced(20.0, -0.1, 0.1), quantity::unmeasured()}) {
        const job::Part part = hub(seat);
        CHECK(job::thickness(part, cut) == doctest::Approx(22.0));
        CHECK(job::greatest_thickness(part, cut) >= 22.3 - 1e-9);
        CHECK(job::least_thickness(part, cut) <= 21.7 + 1e-9);
        CHECK(job::outboard_sign(part, cut) == -1.0);
    }
    CHECK(job::greatest_thickness(hub(quantity::unmeasured()), cut) == doctest::Approx(22.3));
}

TEST_CASE("where a size between them is unmeasured, nobody knows how thick it is") {
    const job::Cut cut{.at = {}, .face = 3, .measure = 0};
    const job::Part part = hub(quantity::unmeasured());
    CHECK(std::isnan(job::thickness(part, cut)));
    CHECK_FALSE(std::isfinite(job::greatest_thickness(part, cut)));
    CHECK_FALSE(std::isfinite(job::least_thickness(part, cut)));
}
