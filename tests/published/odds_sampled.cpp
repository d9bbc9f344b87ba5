// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <support/published.hpp>
#include <trialfit/numerics/random/sampler.hpp>
#include <vector>

namespace numerics = trialfit::numerics;
namespace odds = trialfit::odds;

namespace {

numerics::Distribution normal_or_uniform(const YAML::Node& size) {
    const bool is_normal = static_cast<bool>(size["normal"]);
    const auto n = size[is_normal ? "normal" : "uniform"].as<std::vector<double>>();
    return is_normal ? numerics::normal(n.at(0), n.at(1)) : numerics::uniform(n.at(0), n.at(1));
}

}  // namespace

TEST_CASE("a product of sizes, sampled") {
    trialfit::testing::for_each_case("odds_sampled.yaml", [](const YAML::Node& each) {
        const YAML::Node given = each["given"];
        numerics::Population sizes;
        for (const char* name : {"m_R", "dm_R", "rho_a", "rho_W", "rho_R"})
            sizes.sizes.push_back(normal_or_uniform(given[name]));
        const auto interval = each["expect"]["interval"].as<std::vector<double>>();
        const auto evaluator = [&](std::span<const double> x, std::span<double> out) {
            constexpr std::size_t n = numerics::kBlock;
            for (std::size_t s = 0; s < n; ++s) {
                const double buoyancy =
                    (x[2 * n + s] - 1.2) * (1.0 / x[3 * n + s] - 1.0 / x[4 * n + s]);
                const double y = (x[s] + x[n + s]) * (1.0 + buoyancy) - 100000.0;
                const double off = y - 1.234;
                out[s] = y >= interval[0] && y <= interval[1] ? 1.0 : 0.0;
                out[n + s] = y;
                out[2 * n + s] = off * off;
            }
        };
        const auto found = numerics::sample(numerics::Sampler(sizes), 3, evaluator,
                                            {.samples = 4'000'000, .seed = 12});
        const auto n = static_cast<double>(found.samples);
        const auto sd = each["expect"]["sd"].as<double>();
        const auto inside = each["expect"]["inside"].as<double>();
        CHECK(std::abs(found.mean[0] - inside) < 4.0 * std::sqrt(inside * (1.0 - inside) / n));
        CHECK(std::abs(found.mean[1] - each["expect"]["mean"].as<double>()) <
              4.0 * sd / std::sqrt(n));
        CHECK(std::abs(found.mean[2] - sd * sd) < 4.0 * std::sqrt(found.variance[2] / n));
    });
}
