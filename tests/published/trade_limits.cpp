// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/fit/limits.hpp>

namespace trialfit::trade {
namespace {

// Just inside the lower end of a step, and its upper end.
std::array<double, 2> ends_of(const YAML::Node& given) {
    return {given["over"].as<double>() + 0.001, given["up_to"].as<double>()};
}

void require_um(double found_mm, double expected_um, double within_um) {
    CHECK(std::abs(found_mm * 1000.0 - expected_um) <= within_um);
}

}  // namespace

TEST_CASE("standard tolerances of every grade and step") {
    testing::for_each_case("trade_limits_grades.yaml", [](const YAML::Node& row) {
        for (const double size : ends_of(row["given"]))
            for (const auto& cell : row["expect"]) {
                const auto grade = cell.first.as<std::string>();
                CAPTURE(grade);
                CAPTURE(size);
                require_um(standard_tolerance_mm(std::stoi(grade.substr(2)), size).value(),
                           cell.second.as<double>(), row["within"].as<double>());
            }
    });
}

TEST_CASE("fundamental deviations of every letter and step") {
    testing::for_each_case("trade_limits_fundamental.yaml", [](const YAML::Node& row) {
        for (const double size : ends_of(row["given"]))
            for (const auto& cell : row["expect"]) {
                const auto letter = cell.first.as<std::string>();
                CAPTURE(letter);
                CAPTURE(size);
                const auto found = deviations(letter + "6", size).value();
                const bool upper = letter == "f" || letter == "g" || letter == "h";
                require_um(upper ? found.upper_mm : found.lower_mm, cell.second.as<double>(),
                           row["within"].as<double>());
            }
    });
}

TEST_CASE("limits of tight holes of every step") {
    testing::for_each_case("trade_limits_holes.yaml", [](const YAML::Node& row) {
        for (const double size : ends_of(row["given"]))
            for (const auto& cell : row["expect"]) {
                const auto name = cell.first.as<std::string>();
                CAPTURE(name);
                CAPTURE(size);
                const auto found = deviations(name, size).value();
                const auto within = row["within"].as<double>();
                require_um(found.upper_mm, cell.second[0].as<double>(), within);
                require_um(found.lower_mm, cell.second[1].as<double>(), within);
            }
    });
}

TEST_CASE("designations") {
    testing::for_each_case("trade_limits_designations.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const auto size = row["given"]["size"].as<double>();
        const auto found = deviations(row["given"]["class"].as<std::string>(), size).value();
        const YAML::Node expect = row["expect"];
        const auto within = row["within"].as<double>();
        require_um(found.upper_mm, expect["deviations"][0].as<double>(), within);
        require_um(found.lower_mm, expect["deviations"][1].as<double>(), within);
        CHECK(std::abs(size + found.lower_mm - expect["limits"][0].as<double>()) <= within);
        CHECK(std::abs(size + found.upper_mm - expect["limits"][1].as<double>()) <= within);
    });
}

TEST_CASE("fits") {
    testing::for_each_case("trade_limits_fits.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const auto found = fit(row["case"].as<std::string>()).value();
        const auto within = row["within"].as<double>();
        require_um(found.greatest_clearance_mm(), row["expect"]["greatest"].as<double>(), within);
        require_um(found.least_clearance_mm(), row["expect"]["least"].as<double>(), within);
    });
}

}  // namespace trialfit::trade
