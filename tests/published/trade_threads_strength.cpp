// SPDX-License-Identifier: MIT
// Stripping and engagement of threads.
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/fastening/engagement.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {
namespace {

constexpr double kInch = 25.4;

StripAreas areas_of(const std::string& designation) {
    return strip_areas(thread(designation).value()).value();
}

}  // namespace

TEST_CASE("strip areas at an engagement of one diameter") {
    testing::for_each_case("trade_threads_strip.yaml", [](const YAML::Node& row) {
        const auto name = row["case"].as<std::string>();
        const ThreadForm form = thread(name).value();
        const StripAreas usual = areas_of(name + "-6g");
        testing::check_all(row,
                           {{"tensile", stress_area_mm2(form)},
                            {"bolt_6g", usual.bolt_mm2_per_mm * form.d_mm},
                            {"bolt_4g6g", areas_of(name + "-4g6g").bolt_mm2_per_mm * form.d_mm},
                            {"nut", usual.nut_mm2_per_mm * form.d_mm}});
    });
}

TEST_CASE("engagement for equal strengths") {
    testing::for_each_case("trade_threads_equal_strength.yaml", [](const YAML::Node& row) {
        const ThreadForm form = thread(row["case"].as<std::string>()).value();
        const StripAreas areas = strip_areas(form).value();
        const double area = stress_area_mm2(form);
        const EngagementNeeded found = engagement_needed(area, areas, 1.0, 1.0);
        testing::check_all(row, {{"stress_area", area},
                                 {"bolt", areas.bolt_mm2_per_mm},
                                 {"nut", areas.nut_mm2_per_mm},
                                 {"ratio", found.strength_ratio},
                                 {"equal_strength", found.equal_strength_mm},
                                 {"in_diameters", found.equal_strength_mm / form.d_mm}});
    });
}

TEST_CASE("a tapped hole in aluminium") {
    testing::for_each_case("trade_threads_tapped_hole.yaml", [](const YAML::Node& row) {
        const YAML::Node given = row["given"];
        StripAreas areas;
        if (given["designation"]) {
            areas = areas_of(given["designation"].as<std::string>());
        } else {
            ThreadLimits bolt;
            bolt.major.min_mm = given["bolt_major"].as<double>();
            bolt.pitch.min_mm = 8.862;  // only the bolt's own area looks at it
            ThreadLimits nut;
            nut.tolerance.internal = true;
            nut.pitch.max_mm = given["nut_pitch"].as<double>();
            nut.minor.max_mm = 8.676;  // likewise
            areas = strip_areas(bolt, nut, given["pitch"].as<double>()).value();
        }
        const auto load = given["load"].as<double>();
        const auto shear = given["shear"].as<double>();
        const double length = engagement_for_load_mm(load, areas.nut_mm2_per_mm, shear);
        testing::check_all(
            row, {{"nut", areas.nut_mm2_per_mm}, {"engagement", length}, {"worked", length}});
        CHECK(strip_load_N(areas.nut_mm2_per_mm, length, shear) == doctest::Approx(load));
    });
}

TEST_CASE("inch threads: areas for each inch of engagement") {
    testing::for_each_case("trade_threads_strip_inch.yaml", [](const YAML::Node& row) {
        const ThreadForm form = thread(row["case"].as<std::string>()).value();
        const double nut = strip_areas(form).value().nut_mm2_per_mm / kInch;
        testing::check_all(row, {{"tensile", stress_area_mm2(form) / kInch / kInch},
                                 {"core", core_area_mm2(form) / kInch / kInch},
                                 {"nut", nut},
                                 {"worked", nut}});
    });
}

TEST_CASE("rules of the workshop for engagement") {
    const std::map<std::string, TappedMetal> metals{{"steel", TappedMetal::steel},
                                                    {"cast_iron", TappedMetal::cast_iron},
                                                    {"brass", TappedMetal::brass},
                                                    {"aluminium", TappedMetal::aluminium}};
    testing::for_each_case("trade_threads_engagement_rules.yaml", [&](const YAML::Node& row) {
        const YAML::Node given = row["given"];
        if (given["metal"]) {
            testing::check_all(
                row, {{"multiple", thumb_engagement(metals.at(given["metal"].as<std::string>()))}});
            return;
        }
        const auto found =
            recommended_engagement(given["tensile_over"].as<double>() + 1.0,
                                   given["class"].as<std::string>(), given["fine"].as<bool>());
        testing::check_all(row, {{"multiple", found.value()}});
    });
}

}  // namespace trialfit::trade
