// SPDX-License-Identifier: MIT
// Basic sizes, areas and strengths of threads.
#include <doctest/doctest.h>

#include <cmath>
#include <map>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {
namespace {

ThreadForm form_of(const YAML::Node& row) {
    const YAML::Node given = row["given"];
    if (given && given["designation"])
        return thread(given["designation"].as<std::string>()).value();
    if (row["designation"]) return thread(row["designation"].as<std::string>()).value();
    return thread(row["case"].as<std::string>()).value();
}

}  // namespace

TEST_CASE("basic profile of metric threads") {
    testing::for_each_case("trade_threads_profile.yaml", [](const YAML::Node& row) {
        const ThreadForm form = form_of(row);
        const BasicProfile basic = basic_profile(form);
        testing::check_all(row, {{"pitch", form.pitch_mm},
                                 {"triangle", basic.triangle_mm},
                                 {"pitch_diameter", basic.pitch_mm},
                                 {"minor", basic.minor_mm},
                                 {"root", basic.root_mm}});
    });
}

TEST_CASE("areas of metric threads") {
    testing::for_each_case("trade_threads_areas.yaml", [](const YAML::Node& row) {
        const ThreadForm form = form_of(row);
        const double area = stress_area_mm2(form);
        testing::check_all(row, {{"area", area}, {"iso", area}, {"core", core_area_mm2(form)}});
    });
}

TEST_CASE("basic sizes and areas of unified threads") {
    testing::for_each_case("trade_threads_unified_basic.yaml", [](const YAML::Node& row) {
        const ThreadForm form = form_of(row);
        const BasicProfile basic = basic_profile(form);
        constexpr double kInch = 25.4;
        testing::check_all(row, {{"pitch", basic.pitch_mm / kInch},
                                 {"minor", basic.minor_mm / kInch},
                                 {"unr_minor", unr_minor_mm(form) / kInch},
                                 {"core", core_area_mm2(form) / kInch / kInch},
                                 {"tensile", stress_area_mm2(form) / kInch / kInch}});
    });
}

TEST_CASE("strengths of property classes") {
    testing::for_each_case("trade_threads_property.yaml", [](const YAML::Node& row) {
        const auto found =
            bolt_strength(row["given"]["class"].as<std::string>(), row["given"]["d"].as<double>())
                .value();
        testing::check_all(row, {{"tensile", found.tensile_MPa},
                                 {"yield", found.yield_MPa},
                                 {"proof", found.proof_MPa}});
    });
}

TEST_CASE("ultimate and proof loads of bolts") {
    testing::for_each_case("trade_threads_bolt_loads.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const auto found =
            bolt_loads(form_of(row), row["given"]["class"].as<std::string>()).value();
        const auto share = row["within_share"].as<double>();
        const auto ultimate = row["expect"]["ultimate"].as<double>();
        const auto proof = row["expect"]["proof"].as<double>();
        CHECK(std::abs(found.ultimate_N - ultimate) <= share * ultimate);
        CHECK(std::abs(found.proof_N - proof) <= share * proof);
    });
}

TEST_CASE("proof stresses and loads of nuts") {
    testing::for_each_case("trade_threads_nuts.yaml", [](const YAML::Node& row) {
        const auto nut_class = row["given"]["class"].as<std::string>();
        testing::check_all(row,
                           {{"load", nut_proof_load_N(form_of(row), nut_class).value()},
                            {"stress", nut_proof_stress_MPa(form_of(row), nut_class).value()}});
    });
}

}  // namespace trialfit::trade
