// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <support/examples.hpp>
#include <trialfit/draw/section/faces.hpp>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

using namespace trialfit;

TEST_CASE("a face that nothing places is drawn by a guess, one that is known where it lies") {
    for (const job::Job& job : testing::every_example()) {
        CAPTURE(job.file);
        const auto built = stack::Model::of(job);
        const auto* const model = std::get_if<stack::Model>(&built);
        REQUIRE(model != nullptr);
        const draw::FacesDrawn drawn = draw::faces_drawn(*model);
        for (std::size_t p = 0; p < job.parts.size(); ++p)
            for (std::size_t f = 0; f < job.parts[p].faces.size(); ++f) {
                CHECK(std::isfinite(drawn.at[p][f]));
                const stack::Form form = model->gap(
                    {.face = {0, 0}}, {.face = {static_cast<int>(p), static_cast<int>(f)}});
                CHECK(drawn.known[p][f] == !model->unmeasured().open(form));
                if (drawn.known[p][f])
                    CHECK(drawn.at[p][f] ==
                          doctest::Approx(stack::value(model->ties().adjusted(form),
                                                       model->columns().nominal)));
            }
    }
}

TEST_CASE("every ring of every example has some length, however little of it is measured") {
    for (job::Job job : testing::every_example()) {
        CAPTURE(job.file);
        for (job::Part& part : job.parts)
            for (job::Face& face : part.faces)
                for (job::Dimension& size : face.dimensions)
                    size.distance.size = quantity::unmeasured();
        job.readings.clear();
        const auto built = stack::Model::of(job);
        const auto* const model = std::get_if<stack::Model>(&built);
        REQUIRE(model != nullptr);
        const draw::FacesDrawn drawn = draw::faces_drawn(*model);
        for (std::size_t p = 0; p < job.parts.size(); ++p)
            for (const job::Ring& ring : job.parts[p].rings) {
                const auto at = [&](const job::RingEnd& end) {
                    return drawn.at[p][static_cast<std::size_t>(end.face)] + end.beyond;
                };
                CAPTURE(job.parts[p].name + "." + ring.name);
                CHECK(at(ring.outboard) > at(ring.inboard));
            }
    }
}
