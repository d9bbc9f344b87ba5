// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <random>
#include <trialfit/numerics/linear/feasible_set.hpp>

using trialfit::numerics::FeasibleSet;
using trialfit::numerics::LinearProgram;
using trialfit::numerics::maximum;

TEST_CASE("one row: the best of a budget goes to the greatest objective first") {
    // max 3x + 2y + z with x + y + z = 2.5, all in 0..1: x = y = 1, z = 0.5.
    LinearProgram program{.objective = Eigen::Vector3d(3, 2, 1),
                          .rows = Eigen::RowVector3d(1, 1, 1),
                          .right = Eigen::VectorXd::Constant(1, 2.5),
                          .lower = Eigen::Vector3d::Zero(),
                          .upper = Eigen::Vector3d::Ones()};
    CHECK(maximum(program).value() == doctest::Approx(5.5).epsilon(1e-14));
}

TEST_CASE("no x keeps the row: nothing") {
    LinearProgram program{.objective = Eigen::Vector2d(1, 0),
                          .rows = Eigen::RowVector2d(1, 1),
                          .right = Eigen::VectorXd::Constant(1, 3.0),
                          .lower = Eigen::Vector2d::Zero(),
                          .upper = Eigen::Vector2d::Ones()};
    CHECK_FALSE(maximum(program).has_value());
}

TEST_CASE("a row said twice and a fixed variable do no harm") {
    LinearProgram program{.objective = Eigen::Vector3d(1, -1, 0),
                          .rows = Eigen::MatrixXd::Ones(2, 3),
                          .right = Eigen::Vector2d(1.0, 2.0),
                          .lower = Eigen::Vector3d(0, 0, 0.25),
                          .upper = Eigen::Vector3d(1, 1, 0.25)};
    program.rows.row(1) *= 2.0;
    CHECK(maximum(program).value() == doctest::Approx(0.75).epsilon(1e-14));
}

TEST_CASE(
    "no point within the rows beats the maximum, and mirrored bounds give the mirrored least") {
    std::mt19937 random(20);  // NOLINT(*-msc51-cpp): a fixed seed, so that a failure comes again
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    for (int round = 0; round < 200; ++round) {
        const int n = 3 + round % 6;
        const int k = 1 + round % 3;
        LinearProgram program;
        const auto vary = [&] { return any(random); };
        program.objective = Eigen::VectorXd::NullaryExpr(n, vary);
        program.rows = Eigen::MatrixXd::NullaryExpr(k, n, vary);
        program.lower =
            Eigen::VectorXd::NullaryExpr(n, [&] { return -1.0 - std::abs(any(random)); });
        program.upper =
            Eigen::VectorXd::NullaryExpr(n, [&] { return 1.0 + std::abs(any(random)); });
        const Eigen::VectorXd inside = Eigen::VectorXd::NullaryExpr(n, vary);
        program.right = program.rows * inside;
        const double most = maximum(program).value();
        CHECK(program.objective.dot(inside) <= most + 1e-12);
        LinearProgram mirrored = program;
        mirrored.rows = -program.rows;
        mirrored.objective = -program.objective;
        mirrored.lower = -program.upper;
        mirrored.upper = -program.lower;
        CHECK(maximum(mirrored).value() == doctest::Approx(most).epsilon(1e-11));
        mirrored.objective = program.objective;
        CHECK(-maximum(mirrored).value() <= program.objective.dot(inside) + 1e-12);
    }
}

TEST_CASE("extremes, asked again and with one variable narrowed, are those of the program anew") {
    std::mt19937 random(21);  // NOLINT(*-msc51-cpp): a fixed seed, so that a failure comes again
    std::uniform_real_distribution<double> any(-1.0, 1.0);
    const auto vary = [&] { return any(random); };
    int none = 0;
    for (int round = 0; round < 60; ++round) {
        const int n = 3 + round % 6;
        const int k = 1 + round % 3;
        LinearProgram program{.objective = Eigen::VectorXd::NullaryExpr(n, vary),
                              .rows = Eigen::MatrixXd::NullaryExpr(k, n, vary),
                              .right = Eigen::VectorXd(k),
                              .lower = Eigen::VectorXd::Constant(n, -1.0),
                              .upper = Eigen::VectorXd::Constant(n, 1.0)};
        program.objective[0] = 0.0;
        program.rows.col(n - 1) = -2.0 * program.rows.col(n - 2);  // move as one
        program.rows.col(1).setZero();                             // moves no row
        program.right = program.rows * Eigen::VectorXd::NullaryExpr(n, vary);
        const FeasibleSet set = FeasibleSet::of(program).value();
        const Eigen::SparseVector<double> objective = program.objective.sparseView();
        LinearProgram turned = program;
        turned.objective *= -1.0;
        for (int time = 0; time < 2; ++time) {
            CHECK(set.extremes(objective).greatest == maximum(program).value());
            CHECK(set.extremes(objective).least == -maximum(turned).value());
        }
        std::vector<FeasibleSet::Narrowed> all;
        for (int j = 0; j < n; ++j)
            all.push_back({.variable = j, .half_width = 0.5});
        const auto found = set.extremes_if(objective, all);
        for (int j = 0; j < n; ++j) {
            LinearProgram narrowed = program;
            narrowed.lower[j] = -0.5;
            narrowed.upper[j] = 0.5;
            const auto most = maximum(narrowed);
            const auto& own = found[static_cast<std::size_t>(j)];
            REQUIRE(own.has_value() == most.has_value());
            none += most ? 0 : 1;
            if (most) CHECK(own->greatest == doctest::Approx(*most).epsilon(1e-9));
            narrowed.objective *= -1.0;
            if (most) CHECK(own->least == doctest::Approx(-*maximum(narrowed)).epsilon(1e-9));
        }
    }
    CHECK(none > 0);
}
