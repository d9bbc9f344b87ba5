// SPDX-License-Identifier: MIT
// Tolerances and limits of size of threads.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/thread/limits.hpp>
#include <trialfit/trade/thread/tolerance.hpp>

namespace trialfit::trade {
namespace {

ThreadForm form_named(const YAML::Node& row) {
    const YAML::Node name = row["designation"] ? row["designation"] : row["case"];
    return thread(name.as<std::string>()).value();
}

void near(double found, const YAML::Node& expected, double within) {
    CAPTURE(found);
    CAPTURE(expected.as<std::string>());
    CHECK(std::abs(found - expected.as<double>()) <= within);
}

void near(const DiameterLimits& found, const YAML::Node& expected, double within,
          double unit_mm = 1.0) {
    near(found.min_mm.value() / unit_mm, expected[0], within);
    near(found.max_mm.value() / unit_mm, expected[1], within);
}

// Just inside the lower end of a step, and its upper end.
std::array<double, 2> group_ends(const YAML::Node& given) {
    return {given["over"].as<double>() + 0.001, given["up_to"].as<double>()};
}

void check_grades(const YAML::Node& cells, ThreadTolerance of, double pitch, double d,
                  double within) {
    for (const auto& cell : cells) {
        const int grade = cell.first.as<int>();
        CAPTURE(grade);
        CAPTURE(d);
        near(thread_tolerance_um(of, grade, pitch, d).value(), cell.second, within);
    }
}

void check_pitch_table(const std::string& file, ThreadTolerance of) {
    testing::for_each_case(file, [of](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        for (const double d : group_ends(row["given"]))
            check_grades(row["expect"], of, row["given"]["pitch"].as<double>(), d,
                         row["within"].as<double>());
    });
}

void check_bolt(const YAML::Node& row) {
    const YAML::Node bolt = row["bolt"];
    const auto of = thread_class(bolt["class"].as<std::string>()).value();
    const auto found = thread_limits(form_named(row), of).value();
    const auto within = row["within"].as<double>();
    if (bolt["pitch_min"]) {
        near(found.pitch.min_mm.value(), bolt["pitch_min"], within);
        return;
    }
    near(found.major, bolt["major"], within);
    near(found.pitch, bolt["pitch"], within);
    near(found.minor, bolt["minor"], row["within_bolt_minor"].as<double>());
}

void check_nut(const YAML::Node& row) {
    const YAML::Node nut = row["nut"];
    const auto of = thread_class(nut["class"].as<std::string>()).value();
    const auto found = thread_limits(form_named(row), of).value();
    near(found.pitch, nut["pitch"], row["within"].as<double>());
    near(found.minor, nut["minor"], row["within"].as<double>());
}

void check_both(const YAML::Node& row) {
    CAPTURE(row["case"].as<std::string>());
    REQUIRE((row["bolt"] || row["nut"]));
    if (row["bolt"]) check_bolt(row);
    if (row["nut"]) check_nut(row);
}

}  // namespace

TEST_CASE("fundamental deviations") {
    testing::for_each_case("trade_threads_deviations.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const auto pitch = row["given"]["pitch"].as<double>();
        const auto within = row["within"].as<double>();
        for (const auto& cell : row["expect"])
            near(-thread_deviation_um(cell.first.as<char>(), pitch).value(), cell.second, within);
        near(thread_deviation_um('G', pitch).value(), row["expect"]["g"], within);
    });
}

TEST_CASE("pitch diameter tolerances of bolts") {
    check_pitch_table("trade_threads_bolt_pitch.yaml", ThreadTolerance::bolt_pitch);
    check_pitch_table("trade_threads_bolt_pitch_full.yaml", ThreadTolerance::bolt_pitch);
}

TEST_CASE("pitch diameter tolerances of nuts") {
    check_pitch_table("trade_threads_nut_pitch.yaml", ThreadTolerance::nut_pitch);
    check_pitch_table("trade_threads_nut_pitch_full.yaml", ThreadTolerance::nut_pitch);
}

TEST_CASE("crest diameter tolerances") {
    for (const char* file : {"trade_threads_crest.yaml", "trade_threads_crest_full.yaml"})
        testing::for_each_case(file, [](const YAML::Node& row) {
            CAPTURE(row["case"].as<std::string>());
            const auto pitch = row["given"]["pitch"].as<double>();
            const auto within = row["within"].as<double>();
            const YAML::Node expect = row["expect"];
            check_grades(expect["bolt_major"], ThreadTolerance::bolt_major, pitch, 10.0, within);
            check_grades(expect["nut_minor"], ThreadTolerance::nut_minor, pitch, 10.0, within);
        });
}

TEST_CASE("limits of size, 6g and 6H") {
    testing::for_each_case("trade_threads_limits.yaml", check_both);
}

TEST_CASE("limits of size in other classes") {
    testing::for_each_case("trade_threads_limits_classes.yaml", check_both);
}

TEST_CASE("engagement groups") {
    testing::for_each_case("trade_threads_engagement_groups.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        for (const double d : group_ends(row["given"])) {
            const auto found = engagement_group(row["given"]["pitch"].as<double>(), d).value();
            near(found.normal_over_mm, row["expect"]["over"], row["within"].as<double>());
            near(found.normal_up_to_mm, row["expect"]["up_to"], row["within"].as<double>());
        }
    });
}

TEST_CASE("limits of unified threads, 2A and 2B") {
    testing::for_each_case("trade_threads_unified_limits.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        constexpr double kInch = 25.4;
        const auto within = row["within"].as<double>();
        const YAML::Node expect = row["expect"];
        const ThreadForm form = form_named(row);
        const auto bolt = thread_limits(form, {false, 2, {}, {}}).value();
        const auto nut = thread_limits(form, {true, 2, {}, {}}).value();
        if (expect["nut_pitch_max"]) {
            near(nut.pitch.max_mm.value() / kInch, expect["nut_pitch_max"], within);
            return;
        }
        near((form.d_mm - bolt.major.max_mm.value()) / kInch, expect["allowance"], within);
        near(bolt.major, expect["bolt_major"], within, kInch);
        near(bolt.pitch, expect["bolt_pitch"], within, kInch);
        near(nut.pitch, expect["nut_pitch"], within, kInch);
        near(nut.minor, expect["nut_minor"], within, kInch);
    });
}

}  // namespace trialfit::trade
