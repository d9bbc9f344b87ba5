// SPDX-License-Identifier: MIT
// Laws that hold for any job, tried on every example.
#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <functional>
#include <optional>
#include <random>
#include <support/examples.hpp>
#include <support/fewer.hpp>
#include <support/givens.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/model/model.hpp>
#include <utility>

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
namespace reading = trialfit::reading;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

constexpr double kInch = 25.4;

Model model_of(const job::Job& job) {
    return std::get<Model>(Model::of(job));
}

std::vector<job::FaceRef> every_face(const job::Job& job) {
    std::vector<job::FaceRef> faces;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (std::size_t f = 0; f < job.parts[p].faces.size(); ++f) {
            faces.push_back({static_cast<int>(p), static_cast<int>(f)});
        }
    }
    return faces;
}

// Calls `look(inboard, outboard)` for every two faces of the job.
void for_each_gap(const job::Job& job,
                  const std::function<void(job::FaceRef, job::FaceRef)>& look) {
    const std::vector<job::FaceRef> faces = every_face(job);
    for (const job::FaceRef a : faces) {
        for (const job::FaceRef b : faces) {
            if (!(a == b)) look(a, b);
        }
    }
}

Bounds gap(const Model& model, job::FaceRef a, job::FaceRef b) {
    return bounds(model, model.gap({.face = a}, {.face = b}), 1.0);
}

void check_near(const Bounds& found, const Bounds& expected, double within) {
    REQUIRE(found.open() == expected.open());
    if (found.open()) return;
    CHECK(std::abs(found.nominal - expected.nominal) < within);
    CHECK(std::abs(found.middle - expected.middle) < within);
    CHECK(std::abs(found.worst.lo - expected.worst.lo) < within);
    CHECK(std::abs(found.worst.hi - expected.worst.hi) < within);
    CHECK(std::abs(found.rss.lo - expected.rss.lo) < within);
    CHECK(std::abs(found.rss.hi - expected.rss.hi) < within);
}

void check_same_gaps(const job::Job& one, const job::Job& other, double scale, double within) {
    const Model a = model_of(one);
    const Model b = model_of(other);
    for_each_gap(one, [&](job::FaceRef from, job::FaceRef to) {
        Bounds scaled = gap(b, from, to);
        for (double* x : {&scaled.nominal, &scaled.middle, &scaled.worst.lo, &scaled.worst.hi,
                          &scaled.rss.lo, &scaled.rss.hi}) {
            *x *= scale;
        }
        check_near(scaled, gap(a, from, to), within);
    });
}

quantity::Size negated(quantity::Size size) {
    size.nominal = -size.nominal;
    size.lower = -std::exchange(size.upper, -size.lower);
    return size;
}

// A part on a face floats outboard of it, so that its image is one that was pushed outboard.
void mirror_play(job::Seat& seat) {
    if (!seat.play) return;
    if (seat.kind == job::SeatKind::face_on_face) {
        seat.kind = job::SeatKind::face_at_offset;
        seat.offset = job::Given{.size = quantity::exact(0.0)};
        seat.pushed = job::Pushed::out;
    } else if (seat.pushed != job::Pushed::not_stated) {
        seat.pushed = seat.pushed == job::Pushed::in ? job::Pushed::out : job::Pushed::in;
    }
}

job::Job mirrored(job::Job job) {
    for_each_given(job, [](job::Given& given, Along along) {
        if (along == Along::axis) given.size = negated(given.size);
    });
    for (job::Part& part : job.parts) {
        for (job::Ring& ring : part.rings) {
            std::swap(ring.inboard, ring.outboard);
            ring.inboard.beyond = -ring.inboard.beyond;
            ring.outboard.beyond = -ring.outboard.beyond;
        }
        for (job::Cone& cone : part.cones)
            cone.taper = -cone.taper;
        for (job::Seat& seat : part.seats)
            mirror_play(seat);
    }
    return job;
}

job::Job in_other_unit(job::Job job) {
    const bool to_inch = job.units == quantity::Unit::mm;
    const auto convert = [&](double& x) { x = to_inch ? x / kInch : x * kInch; };
    for_each_given(job, [&](job::Given& given, Along) {
        convert(given.size.nominal);
        convert(given.size.lower);
        convert(given.size.upper);
        convert(given.size.spread.scatter_sd);
    });
    for (job::Part& part : job.parts) {
        for (job::Ring& ring : part.rings) {
            convert(ring.inboard.beyond);
            convert(ring.outboard.beyond);
        }
    }
    job.units = to_inch ? quantity::Unit::inch : quantity::Unit::mm;
    return job;
}

}  // namespace

TEST_CASE("mirroring the axis negates every gap") {
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const job::Job other = mirrored(job);
        const Model a = model_of(job);
        const Model b = model_of(other);
        for_each_gap(job, [&](job::FaceRef from, job::FaceRef to) {
            const Bounds here = gap(a, from, to);
            const Bounds there = gap(b, from, to);
            check_near({{.nominal = -there.nominal,
                         .middle = -there.middle,
                         .worst = {-there.worst.hi, -there.worst.lo},
                         .rss = {-there.rss.hi, -there.rss.lo}}},
                       here, 1e-12);
        });
    }
}

TEST_CASE("mirroring the axis leaves engagements and overlaps as they are") {
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const job::Job other = mirrored(job);
        const Model a = model_of(job);
        const Model b = model_of(other);
        for (const job::Check& check : job.checks) {
            const Question asked = question(a, check);
            if (asked.kind == CheckKind::gap) continue;
            check_near(value_of(b, question(b, check), 1.0), value_of(a, asked, 1.0), 1e-12);
        }
    }
}

TEST_CASE("each sensitivity is the derivative") {
    constexpr double kStep = 1e-4;
    int tried = 0;
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const Model model = model_of(job);
        int givens = 0;
        job::Job counted = job;
        for_each_given(counted, [&](job::Given&, Along) { ++givens; });
        for (int g = 0; g < givens; g += static_cast<int>(stride(5))) {
            const auto moved = [&](double by) {
                job::Job changed = job;
                int i = 0;
                for_each_given(changed, [&](job::Given& given, Along) {
                    if (i++ != g) return;
                    given.size.nominal += by;
                    given.size.lower += by;
                    given.size.upper += by;
                });
                return changed;
            };
            const job::Job up = moved(kStep);
            const job::Job down = moved(-kStep);
            const auto built_up = Model::of(up);
            const auto built_down = Model::of(down);
            if (built_up.index() != 0 || built_down.index() != 0) continue;
            const Model& a = std::get<Model>(built_up);
            const Model& b = std::get<Model>(built_down);
            // Of a size that nobody has measured there is no nominal to change.
            const Eigen::VectorXd change =
                ((a.columns().nominal - b.columns().nominal) / (2 * kStep))
                    .unaryExpr([](double by) { return std::isnan(by) ? 0.0 : by; });
            // A bare length is a constant of the geometry, no size; the play's middle is its own.
            if (change.isZero()) continue;
            ++tried;
            for_each_gap(job, [&](job::FaceRef from, job::FaceRef to) {
                const double derivative =
                    (gap(a, from, to).nominal - gap(b, from, to).nominal) / (2 * kStep);
                const Form form = model.ties().adjusted(model.gap({.face = from}, {.face = to}));
                if (model.unmeasured().open(form)) return;
                CHECK(form.sensitivities.dot(change) ==
                      doctest::Approx(derivative).epsilon(1e-8).scale(1.0));
            });
        }
    }
    CHECK(tried > 50);
}

namespace {

// The least and the greatest value of a form over the corners of its sizes' limits; nothing where
// there are none, or too many.
std::optional<Range> corners_of(const Model& model, const Form& form) {
    const auto n = static_cast<std::size_t>(form.sensitivities.nonZeros());
    if (n == 0 || n > 10) return std::nullopt;
    Range found{.lo = INFINITY, .hi = -INFINITY};
    for (std::size_t corner = 0; corner < (std::size_t{1} << n); ++corner) {
        double at = form.constant;
        std::size_t bit = 0;
        for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it, ++bit) {
            const bool high = ((corner >> bit) & 1U) != 0;
            at += it.value() * (high ? model.columns().upper : model.columns().lower)[it.index()];
        }
        found = {.lo = std::min(found.lo, at), .hi = std::max(found.hi, at)};
    }
    return found;
}

}  // namespace

TEST_CASE("the worst case is reached at a corner of the limits") {
    int tried = 0;
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const Model model = model_of(job);
        if (!model.ties().empty()) continue;
        for_each_gap(job, [&](job::FaceRef from, job::FaceRef to) {
            const Form form = model.gap({.face = from}, {.face = to});
            if (model.unmeasured().open(form)) return;
            const auto least = corners_of(model, model.least_end(form));
            const auto most = corners_of(model, model.greatest_end(form));
            if (!least || !most) return;
            const Range worst = gap(model, from, to).worst;
            CHECK(std::abs(worst.lo - least->lo) < 1e-12);
            CHECK(std::abs(worst.hi - most->hi) < 1e-12);
            ++tried;
        });
    }
    CHECK(tried > 500);
}

TEST_CASE("100,000 draws within the limits never pass the worst case of any check") {
    std::mt19937_64 random(1);  // NOLINT(*-msc51-cpp): a fixed seed, so that a failure comes again
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    constexpr unsigned kDraws = fewer(100000);
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const Model model = model_of(job);
        // Tied sizes cannot be drawn one by one.
        if (!model.ties().empty()) continue;
        const SizeColumns& sizes = model.columns();
        std::vector<std::pair<Question, Range>> asked;
        for (const job::Check& check : job.checks) {
            const Question each = question(model, check);
            asked.emplace_back(each, value_of(model, each, 1.0).worst);
        }
        Eigen::VectorXd x(sizes.nominal.size());
        double furthest_out = 0.0;
        for (unsigned draw = 0; draw < kDraws; ++draw) {
            for (Eigen::Index i = 0; i < x.size(); ++i) {
                x[i] = sizes.lower[i] + unit(random) * (sizes.upper[i] - sizes.lower[i]);
            }
            for (const auto& [each, worst] : asked) {
                double least = INFINITY;
                double most = INFINITY;
                for (const auto& difference : each.differences) {
                    least = std::min(least, value(difference.least, x));
                    most = std::min(most, value(difference.greatest, x));
                }
                furthest_out = std::max({furthest_out, worst.lo - least, most - worst.hi});
            }
        }
        CHECK(furthest_out < 1e-12);
    }
}

TEST_CASE("RSS lies inside the worst case") {
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const Model model = model_of(job);
        const bool tied = !model.ties().empty();
        for_each_gap(job, [&](job::FaceRef from, job::FaceRef to) {
            const Bounds found = gap(model, from, to);
            CHECK(found.rss.lo >= found.worst.lo - 1e-12);
            CHECK(found.rss.hi <= found.worst.hi + 1e-12);
            // Least squares knows of no limits: a bad reading may draw the middle out of them.
            if (tied) return;
            CHECK(found.worst.lo <= found.middle + 1e-12);
            CHECK(found.middle <= found.worst.hi + 1e-12);
        });
    }
}

// A plate dimensioned twice, 10 by itself and 10.12 as two steps, each within 0.05: both hold only
// from 10.02 to 10.05, where least squares put the middle at 10.04 and the RSS would reach 10.08.
TEST_CASE("RSS of sizes that disagree ends where the worst case does") {
    const reading::Outcome outcome = reading::read_job(R"(trialfit: 1
title: A plate dimensioned twice
units: mm
parts:
- part: plate
  faces:
    back: zero
    step: 6 ±0.05 from back
    front: [4.12 ±0.05 from step, 10 ±0.05 from back]
checks:
- {check: thickness, gap: [plate.back, plate.front], at_most: 10.06}
)",
                                                       "plate.yaml");
    REQUIRE(outcome.job);
    const Model model = model_of(*outcome.job);
    const Bounds found = gap(model, {0, 0}, {0, 2});
    CHECK(found.middle == doctest::Approx(10.04).epsilon(1e-12));
    CHECK(found.worst.lo == doctest::Approx(10.02).epsilon(1e-12));
    CHECK(found.worst.hi == doctest::Approx(10.05).epsilon(1e-12));
    CHECK(found.rss.lo == found.worst.lo);
    CHECK(found.rss.hi == found.worst.hi);
    CHECK(verdict(found, {.least = -INFINITY, .most = 10.06}, Judge::rss) == Verdict::holds);
}

TEST_CASE("splitting one size into two of the same total changes no nominal and no worst case") {
    int tried = 0;
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const Model whole = model_of(job);
        // Two halves of a tied size weigh differently in an adjustment, as two measurements would.
        if (!whole.ties().empty()) continue;
        for (std::size_t p = 0; p < job.parts.size(); ++p) {
            for (std::size_t f = 0; f < job.parts[p].faces.size(); ++f) {
                if (job.parts[p].faces[f].dimensions.size() != 1) continue;
                job::Job split = job;
                job::Part& part = split.parts[p];
                job::Dimension& first = part.faces[f].dimensions[0];
                first.distance.size = {.nominal = first.distance.size.nominal / 2,
                                       .lower = first.distance.size.lower / 2,
                                       .upper = first.distance.size.upper / 2,
                                       .spread = first.distance.size.spread};
                job::Face between{.name = "between", .dimensions = {first}};
                first.from = static_cast<int>(part.faces.size());
                part.faces.push_back(between);
                const Model halves = model_of(split);
                for_each_gap(job, [&](job::FaceRef from, job::FaceRef to) {
                    const Bounds a = gap(whole, from, to);
                    const Bounds b = gap(halves, from, to);
                    REQUIRE(a.open() == b.open());
                    if (a.open()) return;
                    CHECK(std::abs(a.nominal - b.nominal) < 1e-12);
                    CHECK(std::abs(a.worst.lo - b.worst.lo) < 1e-12);
                    CHECK(std::abs(a.worst.hi - b.worst.hi) < 1e-12);
                });
                ++tried;
            }
        }
    }
    CHECK(tried > 20);
}

TEST_CASE("moving a part's zero changes nothing") {
    int tried = 0;
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        for (std::size_t p = 0; p < job.parts.size(); ++p) {
            for (std::size_t f = 0; f < job.parts[p].faces.size(); ++f) {
                const job::Face& face = job.parts[p].faces[f];
                const bool from_zero =
                    face.dimensions.size() == 1 &&
                    job.parts[p].faces[static_cast<std::size_t>(face.dimensions[0].from)].zero;
                if (!from_zero) continue;
                job::Job moved = job;
                job::Part& part = moved.parts[p];
                job::Dimension back = part.faces[f].dimensions[0];
                job::Face& old_zero = part.faces[static_cast<std::size_t>(back.from)];
                back.from = static_cast<int>(f);
                back.distance.size = negated(back.distance.size);
                old_zero.zero = false;
                old_zero.dimensions.push_back(back);
                part.faces[f].zero = true;
                part.faces[f].dimensions.clear();
                check_same_gaps(job, moved, 1.0, 1e-12);
                ++tried;
            }
        }
    }
    CHECK(tried > 10);
}

TEST_CASE("inch and millimetre files agree") {
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const job::Job other = in_other_unit(job);
        check_same_gaps(job, other, job.units == quantity::Unit::mm ? kInch : 1.0 / kInch,
                        1e-12 * kInch);
    }
}
