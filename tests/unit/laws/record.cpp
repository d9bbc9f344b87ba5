// SPDX-License-Identifier: MIT
// The record against the file: a cut that is recorded is the same job as one written into the
// sizes.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <support/examples.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/survey/survey.hpp>

using namespace trialfit;

namespace {

job::Job read(const reading::Edited& edited) {
    for (const job::Complaint& each : edited.complaints)
        INFO(each.fault);
    REQUIRE(edited.text);
    const reading::Outcome outcome = reading::read_job(*edited.text, "edited.yaml");
    REQUIRE(outcome.job);
    return std::get<job::Job>(stack::as_built(*outcome.job, outcome.job->record.size()));
}

void hold_alike(const stack::Bounds& one, const stack::Bounds& other) {
    REQUIRE(one.open() == other.open());
    if (one.open()) return;
    constexpr double kAlike = 1e-9;  // both are sums of the same sizes, in another order
    CHECK(std::abs(one.nominal - other.nominal) < kAlike);
    CHECK(std::abs(one.worst.lo - other.worst.lo) < kAlike);
    CHECK(std::abs(one.worst.hi - other.worst.hi) < kAlike);
    CHECK(std::abs(one.rss.lo - other.rss.lo) < kAlike);
    CHECK(std::abs(one.rss.hi - other.rss.hi) < kAlike);
}

void hold_alike(const stack::CheckAnswer& one, const stack::CheckAnswer& other) {
    CHECK(one.verdict == other.verdict);
    REQUIRE(one.checks.size() == other.checks.size());
    for (std::size_t i = 0; i < one.checks.size(); ++i) {
        INFO(one.checks[i].name);
        hold_alike(one.checks[i].value, other.checks[i].value);
    }
    REQUIRE(one.clearances.size() == other.clearances.size());
    for (const stack::Clearance& each : one.clearances) {
        INFO(each.inboard, " to ", each.outboard);
        const auto same = std::find_if(
            other.clearances.begin(), other.clearances.end(), [&](const stack::Clearance& c) {
                return c.inboard == each.inboard && c.outboard == each.outboard &&
                       c.inboard_ring == each.inboard_ring && c.outboard_ring == each.outboard_ring;
            });
        REQUIRE(same != other.clearances.end());
        hold_alike(each.gap, same->gap);
    }
}

double distance(const job::Job& job, const job::Part& part, const job::Cut& cut) {
    job::Job alone;
    alone.gauges = job.gauges;
    alone.parts.push_back(part);
    alone.parts.front().seats.clear();
    alone.parts.front().centred.reset();
    const auto model = std::get<stack::Model>(stack::model_for(alone, {}));
    return std::abs(stack::value(model.gap({.face = {0, cut.measure}}, {.face = {0, cut.face}}),
                                 model.columns().nominal));
}

}  // namespace

TEST_CASE("a cut on record answers as the finish size written into the file does") {
    std::size_t held = 0;
    for (const auto& entry : std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/examples")) {
        if (entry.path().extension() != ".yaml") continue;
        const std::string text = testing::text_of(entry.path());
        const job::Job job = testing::job_in(entry.path());
        if (!job.record.empty()) continue;  // its faces are not as its sizes say
        for (const job::Part& part : job.parts) {
            for (const job::Cut& cut : part.cuts) {
                const std::string face =
                    part.name + "." + part.faces[static_cast<std::size_t>(cut.face)].name;
                const double finish = 0.5 * (cut.keep + distance(job, part, cut));
                const std::string size = fmt::format("{:.3f} \u00b10.017", finish);
                INFO(job.file, ": ", face, " ", size);
                reading::RecordedEntry recorded{.date = "2026-11-25"};
                recorded.as_cut.emplace_back(face, size);
                const job::Job by_record = read(reading::edited(text, {recorded}));
                const job::Job by_size =
                    read(reading::edited(text, {reading::FinishSize{.face = face, .size = size}}));
                hold_alike(std::get<stack::CheckAnswer>(stack::check(by_record, {})),
                           std::get<stack::CheckAnswer>(stack::check(by_size, {})));
                ++held;
            }
        }
    }
    CHECK(held >= 5);
}

TEST_CASE("a reading recorded with shims is of the shims fitted with it") {
    const std::string text = testing::text_of(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
    reading::RecordedEntry entry{.date = "2026-11-25"};
    entry.fitted.emplace_back("stator", std::vector<std::string>{"0.5 ±0.02", "0.3 ±0.02"});
    entry.measured.push_back({.name = "shims together",
                              .from = "plate.front",
                              .to = "stator.base",
                              .is = "0.83 ±0.005",
                              .pushed = {}});
    const job::Job now = read(reading::edited(text, {entry}));
    REQUIRE(now.readings.back().name == "shims together");
    CHECK(now.readings.back().entries == 1);
    const auto gap = [](const job::Job& job, const stack::Options& options) {
        const auto model = std::get<stack::Model>(stack::model_for(job, options));
        const auto face = [&](const std::string& name) {
            for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
                const auto& faces = job.parts[static_cast<std::size_t>(p)].faces;
                for (int f = 0; f < static_cast<int>(faces.size()); ++f)
                    if (job::name(job, job::FaceRef{p, f}) == name) return job::FaceRef{p, f};
            }
            return job::FaceRef{};
        };
        return stack::bounds(
            model, model.gap({.face = face("plate.front")}, {.face = face("stator.base")}), 1.0);
    };
    // As written the pieces make 0.76 to 0.84; the reading leaves 0.825 to 0.835 of that.
    const stack::Bounds written = gap(now, {});
    CHECK(written.worst.lo == doctest::Approx(0.76));
    CHECK(written.worst.hi == doctest::Approx(0.84));
    stack::Options bound;
    bound.readings = std::get<std::vector<stack::TrialFit>>(survey::evidence(now));
    const stack::Bounds read_back = gap(now, bound);
    CHECK(read_back.worst.lo == doctest::Approx(0.825));
    CHECK(read_back.worst.hi == doctest::Approx(0.835));
}
