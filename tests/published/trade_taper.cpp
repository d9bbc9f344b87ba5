// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/cone/taper.hpp>

namespace trialfit::trade {
namespace {

double number(const YAML::Node& node) {
    return node.as<double>();
}

void near(double found, const YAML::Node& expected, const YAML::Node& within) {
    CHECK(std::abs(found - number(expected)) <= number(within));
}

double seconds(const YAML::Node& dms) {
    return number(dms[0]) * 3600.0 + number(dms[1]) * 60.0 + number(dms[2]);
}

TaperFigures figures_of(const YAML::Node& row) {
    const YAML::Node given = row["given"];
    if (!given) return taper_figures(taper(row["case"].as<std::string>()).value());
    if (given["included_deg"])
        return taper_figures(taper_of_half_angle_deg(number(given["included_deg"]) / 2.0));
    return taper_figures(taper(given["taper"].as<std::string>()).value());
}

}  // namespace

TEST_CASE("angles from the ratio, and the ratio from the angle") {
    testing::for_each_case("trade_taper_angles.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const TaperFigures found = figures_of(row);
        const YAML::Node expect = row["expect"];
        const YAML::Node within = row["within"];
        if (expect["one_in"]) {
            near(found.one_in, expect["one_in"], within["one_in"]);
            return;
        }
        near(found.included_deg, expect["included_deg"], within["included_deg"]);
        near(found.included_deg * std::numbers::pi / 180.0, expect["included_rad"],
             within["included_rad"]);
        near(found.half_deg, expect["half_deg"], within["half_deg"]);
        CHECK(std::abs(found.included_deg * 3600.0 - seconds(expect["included_dms"])) <=
              number(within["seconds"]));
    });
}

TEST_CASE("inches per foot") {
    testing::for_each_case("trade_taper_per_foot.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const TaperFigures found = figures_of(row);
        const YAML::Node expect = row["expect"];
        const YAML::Node within = row["within"];
        near(found.one_in, expect["one_in"], within["exact"]);
        if (!expect["half_deg"]) return;
        near(found.included_deg, expect["included_deg"], within["exact"]);
        near(found.half_deg, expect["half_deg"], within["exact"]);
        CHECK(std::abs(found.included_deg * 3600.0 - seconds(expect["included_dms"])) <=
              number(within["seconds"]));
        CHECK(std::abs(found.half_deg * 3600.0 - seconds(expect["half_dms"])) <=
              number(within["seconds"]));
    });
}

TEST_CASE("tapers from ends and length") {
    testing::for_each_case("trade_taper_ends.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const YAML::Node given = row["given"];
        const auto length = given["length"].as<std::string>();
        const auto found = taper_figures(taper(given["large"].as<std::string>() + " to " +
                                               given["small"].as<std::string>() + " over " + length)
                                             .value());
        const YAML::Node expect = row["expect"];
        const YAML::Node within = row["within"];
        near(found.per_foot_in, expect["per_foot_in"], within["per_foot_in"]);
        near(found.half_deg, expect["half_deg"], within["half_deg"]);
        near(found.per_foot_in, expect["worked_per_foot_in"], within["worked"]);
        near(found.half_deg, expect["worked_half_deg"], within["worked"]);
    });
}

TEST_CASE("tapers as written") {
    testing::for_each_case("trade_taper_written.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const TaperFigures found = figures_of(row);
        near(found.half_deg, row["expect"]["half_deg"], row["within"]["half_deg"]);
        near(found.one_in, row["expect"]["one_in"], row["within"]["one_in"]);
    });
}

TEST_CASE("travel and diameter") {
    testing::for_each_case("trade_taper_travel.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const YAML::Node given = row["given"];
        const YAML::Node expect = row["expect"];
        const double t = taper(given["taper"].as<std::string>()).value();
        if (given["diameter_change"]) {
            const double change = number(given["diameter_change"]);
            near(travel_for_diameter(t, change), expect["travel"], row["within"]);
        } else if (given["half_error_deg"]) {
            const double diameter = diameter_for_half_angle_error(
                t, number(given["half_error_deg"]), number(given["length"]));
            near(diameter, expect["diameter"], row["within"]);
            near(travel_for_diameter(t, diameter), expect["travel"], row["within"]);
        } else {
            for (const std::size_t end : {0U, 1U})
                near(diameter_for_travel(t, number(given["drive_up"][end])) * 1000.0,
                     expect["interference_um"][end], row["within"]);
        }
    });
}

TEST_CASE("discs") {
    testing::for_each_case("trade_taper_discs.yaml", [](const YAML::Node& row) {
        CAPTURE(row["case"].as<std::string>());
        const YAML::Node given = row["given"];
        const double large = number(given["large"]);
        const double small = number(given["small"]);
        const double found = given["distance"]
                                 ? per_foot_of_discs(large, small, number(given["distance"]))
                                 : disc_distance(large, small, number(given["per_foot_in"]));
        near(found, row["expect"]["printed"], row["within"]["printed"]);
        near(found, row["expect"]["worked"], row["within"]["worked"]);
    });
}

}  // namespace trialfit::trade
