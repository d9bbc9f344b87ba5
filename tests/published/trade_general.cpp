// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <support/published.hpp>
#include <trialfit/trade/fit/general.hpp>

namespace trialfit::trade {

TEST_CASE("general tolerances of every class and step") {
    testing::for_each_case("trade_general.yaml", [](const YAML::Node& row) {
        const auto over = row["given"]["over"].as<double>();
        // The first step of the table includes its lower end; all others begin above it.
        const double least = over == 0.5 ? over : over + 0.001;
        for (const double length : {least, row["given"]["up_to"].as<double>()})
            for (const auto& cell : row["expect"]) {
                const auto name = cell.first.as<std::string>();
                CAPTURE(name);
                CAPTURE(length);
                const auto found = general_half_width_mm(general_class(name).value(), length);
                if (cell.second.as<std::string>() == "none") {
                    CHECK_FALSE(found.ok());
                    continue;
                }
                CHECK(std::abs(found.value() - cell.second.as<double>()) <=
                      row["within"].as<double>());
            }
    });
}

}  // namespace trialfit::trade
