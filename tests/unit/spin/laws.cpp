// SPDX-License-Identifier: MIT
// Laws of `spin`: ranges against corners and draws, units, a weight of no thickness.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <random>
#include <unit/spin/spin_job.hpp>

using namespace trialfit;
using doctest::Approx;
using spin::Estimate;
using testing::changed;
using testing::kDiscJob;
using testing::spun;

namespace {

// Every range of the job, with its limits, as its words stand in kDiscJob.
struct Ranged {
    std::string words;  // "drag: {} N m"
    std::string is;     // as the job has it: "0.5"
    double least;
    double greatest;
};

const std::vector<Ranged> kRanges{
    {"crank_inertia: {} kg cm2", "20", 18.0, 22.0},
    {"drag: {} N m", "0.5", 0.3, 0.7},
    {"bore: {} exact", "45", 44.9, 45.1},
    {"compression: {}", "6.4", 6.0, 6.8},
    {"exponent: {}", "1.3", 1.25, 1.35},
    {"closes_at: {} deg", "92", 88.0, 96.0},
    {"air_pressure: {} kPa", "100", 96.0, 103.0},
    {"under_piston: {}", "0.8", 0.7, 1.0},
    {"spark_from: {} rpm", "450", 420.0, 480.0},
    {"idle: {} rpm", "1200", 1100.0, 1300.0},
    {"stroke: {} exact", "44", 43.9, 44.1},
    {"rod: {} exact", "90", 89.5, 90.5},
    {"fire_at: {} deg", "8", 6.0, 10.0},
    {"od: {} exact}}", "100", 99.8, 100.2},
    {"out: {} exact", "20", 19.8, 20.2},
    {"to: out, bore: {} exact", "20", 16.0, 24.0},
};

std::string put(const std::string& words, const std::string& figure) {
    std::string out = words;
    return out.replace(out.find("{}"), 2, figure);
}

// The range in the words of its own kind: a size has limits about a nominal.
std::string as_range(const Ranged& each) {
    if (each.words.find("deg") != std::string::npos)
        return put(each.words, fmt::format("{}..{}", each.least, each.greatest));
    std::string words = put(each.words, fmt::format("{}..{}", each.least, each.greatest));
    const std::size_t exact = words.find(" exact");
    if (exact != std::string::npos) words.erase(exact, 6);
    return words;
}

std::string with_starter(const std::string& starter) {
    return changed(kDiscJob, {{"speed: 900 rpm", starter}});
}

void within(const Estimate& range, double figure) {
    const double slack = 1e-9 * (std::abs(range.greatest) + 1.0);
    CHECK(figure >= range.least - slack);
    CHECK(figure <= range.greatest + slack);
}

// The figures that ranges are told of.
struct Told {
    const char* name;
    double (*least)(const spin::SpinAnswer&);
    double (*middle)(const spin::SpinAnswer&);
    double (*greatest)(const spin::SpinAnswer&);
};
#define TOLD(name, expression)                                              \
    Told {                                                                  \
        name, [](const spin::SpinAnswer& a) { return (expression).least; }, \
            [](const spin::SpinAnswer& a) { return (expression).middle; },  \
            [](const spin::SpinAnswer& a) { return (expression).greatest; } \
    }

const std::vector<Told> kTold{
    TOLD("inertia", a.inertia.known_kg_m2),
    TOLD("trapped", a.compression->trapped_cm3),
    TOLD("gas to the spark", a.compression->to_firing->gas_j),
    TOLD("work to the spark", a.compression->to_firing->work_j),
    TOLD("loss to the spark", *a.compression->to_firing->loss_j),
    TOLD("work to the top", a.compression->to_top.work_j),
    TOLD("loss to the top", *a.compression->to_top.loss_j),
    TOLD("energy", *a.started->energy_j),
    TOLD("speed", *a.started->rpm),
    TOLD("speed at the spark", a.spark->has),
    TOLD("needed energy", a.needed->energy_j),
    TOLD("unevenness", *a.unevenness),
    TOLD("rim", *a.running.front().rim_m_s),
    TOLD("stored", *a.running.front().stored_j),
};
#undef TOLD

struct StarterRange {
    const char* range;
    const char* key;
    double least;
    double greatest;
};

}  // namespace

TEST_CASE("no draw within the ranges leaves what is told, and the draws come near both ends") {
    std::mt19937_64 random(7);
    for (const StarterRange& starter :
         {StarterRange{"speed: 880..940 rpm", "speed: {} rpm", 880.0, 940.0},
          StarterRange{"energy: 13..16 J", "energy: {} J", 13.0, 16.0},
          StarterRange{"torque: 3..3.6 N m, turns: 1", "torque: {} N m, turns: 1", 3.0, 3.6}}) {
        CAPTURE(starter.range);
        std::string ranged = with_starter(starter.range);
        for (const Ranged& each : kRanges)
            ranged = changed(ranged, {{put(each.words, each.is), as_range(each)}});
        const auto told = spun(ranged);
        std::vector<double> lowest(kTold.size(), 1e300);
        std::vector<double> highest(kTold.size(), -1e300);
        for (int draw = 0; draw < 600; ++draw) {
            // Corners mostly: there the extremes lie.
            const auto figure = [&](double least, double greatest) {
                const double share = std::uniform_real_distribution<>(0.0, 1.0)(random);
                if (draw % 3 == 0) return least + share * (greatest - least);
                return share < 0.5 ? least : greatest;
            };
            std::string one = with_starter(
                put(starter.key, fmt::format("{}", figure(starter.least, starter.greatest))));
            for (const Ranged& each : kRanges)
                one = changed(
                    one, {{put(each.words, each.is),
                           put(each.words, fmt::format("{}", figure(each.least, each.greatest)))}});
            const auto drawn = spun(one);
            for (std::size_t i = 0; i < kTold.size(); ++i) {
                CAPTURE(kTold[i].name);
                const double is = kTold[i].middle(drawn);
                within({kTold[i].least(told), 0.0, kTold[i].greatest(told)}, is);
                lowest[i] = std::min(lowest[i], is);
                highest[i] = std::max(highest[i], is);
            }
        }
        for (std::size_t i = 0; i < kTold.size(); ++i) {
            CAPTURE(kTold[i].name);
            const double width = kTold[i].greatest(told) - kTold[i].least(told);
            // 17 ranges seldom meet in one corner by chance; a range twice too wide is found.
            CHECK(highest[i] - lowest[i] > 0.5 * width);
        }
    }
}

TEST_CASE("each range alone, at its two ends, is told to the digit") {
    for (const Ranged& each : kRanges) {
        // Both drops hang on these two, and are taken as independent.
        const bool encloses = each.words.starts_with("stroke") || each.words.starts_with("rod");
        CAPTURE(each.words);
        const auto with = [&](const std::string& words) {
            return spun(changed(kDiscJob, {{put(each.words, each.is), words}}));
        };
        const auto told = with(as_range(each));
        const auto low = with(put(each.words, fmt::format("{}", each.least)));
        const auto high = with(put(each.words, fmt::format("{}", each.greatest)));
        for (const Told& figure : kTold) {
            CAPTURE(figure.name);
            const double one = figure.middle(low);
            const double other = figure.middle(high);
            const double slack = encloses ? 2e-3 : 1e-11;
            CHECK(figure.least(told) == Approx(std::min(one, other)).epsilon(slack));
            CHECK(figure.greatest(told) == Approx(std::max(one, other)).epsilon(slack));
        }
    }
}

TEST_CASE("the same engine in inches gives the same answer") {
    const auto metric = spun(kDiscJob);
    const auto inch = [](double mm) { return fmt::format("{:.17g} exact", mm / 25.4); };
    const auto inches = spun(changed(kDiscJob, {{"units: mm", "units: in"},
                                                {"offset: 5 exact", "offset: " + inch(5)},
                                                {"end: 60 exact", "end: " + inch(60)},
                                                {"od: 19", "od: " + inch(19)},
                                                {"out: 20 exact", "out: " + inch(20)},
                                                {"bore: 20 exact", "bore: " + inch(20)},
                                                {"od: 100 exact", "od: " + inch(100)},
                                                {"stroke: 44 exact", "stroke: " + inch(44)},
                                                {"rod: 90 exact", "rod: " + inch(90)},
                                                {"bore: 45 exact", "bore: " + inch(45)}}));
    for (const Told& figure : kTold) {
        CAPTURE(figure.name);
        CHECK(figure.middle(inches) == Approx(figure.middle(metric)).epsilon(1e-12));
    }
}

TEST_CASE("an inertia is the same in every unit") {
    const auto of = [](const std::string& words) {
        return spun(changed(kDiscJob, {{"20 kg cm2", words}})).inertia.crank_kg_m2->middle;
    };
    CHECK(of("20 kg cm2") == Approx(2e-3).epsilon(1e-15));
    CHECK(of("0.002 kg m2") == Approx(2e-3).epsilon(1e-15));
    CHECK(of("20000 g cm2") == Approx(2e-3).epsilon(1e-15));
    CHECK(of("2000 kg mm2") == Approx(2e-3).epsilon(1e-15));
    // 1 lb in2 = 0.45359237 * 0.0254^2 kg m2
    CHECK(of("10 lb in2") == Approx(2.92639653e-3).epsilon(1e-9));
}

TEST_CASE("a weight of no thickness changes nothing") {
    const auto weight = [](const std::string& thickness) {
        return spun(kDiscJob.substr(0, kDiscJob.find("timing:")) +
                    "  - part: weight\n    turns: true\n    material: steel\n"
                    "    sits: {face: back, against: disc.out}\n"
                    "    faces: {back: zero, front: " +
                    thickness +
                    " exact from back}\n"
                    "    rings: {disc: {from: back, to: front, bore: 20, od: 90}}\n" +
                    kDiscJob.substr(kDiscJob.find("timing:")));
    };
    const auto without = spun(kDiscJob);
    const auto none = weight("1e-9");
    const auto some = weight("6");
    CHECK(some.spark->has.middle > without.spark->has.middle + 10.0);
    for (const Told& figure : kTold) {
        CAPTURE(figure.name);
        CHECK(figure.middle(none) == Approx(figure.middle(without)).epsilon(1e-8));
    }
    // What the answer says of going without a part is what the job without it answers.
    REQUIRE(some.inertia.parts.size() == 2);
    CHECK(some.inertia.parts.back().without->at_firing_rpm ==
          Approx(without.spark->has.middle).epsilon(1e-9));
}
