// SPDX-License-Identifier: MIT
// Reads spec/w3_*.txt, the planner's problem without a job around it.
#pragma once

#include <trialfit/numerics/planner/problem.hpp>

#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace trialfit::testing {

/// Rows of numbers, comment lines left out.
inline std::vector<std::vector<double>> numbers_of(const std::string& path) {
    std::ifstream file(path);
    if (!file) throw std::runtime_error("cannot read " + path);
    std::vector<std::vector<double>> lines;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line[0] == '#') continue;
        std::istringstream words(line);
        std::vector<double>& numbers = lines.emplace_back();
        for (double number = 0.0; words >> number;)
            numbers.push_back(number);
    }
    return lines;
}

/// Faces: greatest depth, set-up cost, cost per mm, half-width uncut and cut. A stock shared by all
/// seats: thickness, half-width, pieces, price. Rows: lower, upper, gap, fixed half-width, then the
/// coefficients of faces and seats.
inline numerics::Problem read_w3(const std::string& path) {
    const auto lines = numbers_of(path);
    std::size_t at = 0;
    const auto count = [&] { return static_cast<std::size_t>(lines.at(at++).at(0)); };
    numerics::Problem problem;
    const std::size_t faces = count();
    const std::size_t first_face = at;
    for (std::size_t f = 0; f < faces; ++f) {
        const auto& face = lines.at(at++);
        problem.activities.push_back({"face " + std::to_string(f), 0.0, face[0], face[1], face[2]});
    }
    const int at_most = static_cast<int>(lines.at(at).at(1));
    const std::size_t seats = count();
    const std::size_t kinds = count();
    numerics::Bin seat;
    for (std::size_t k = 0; k < kinds; ++k) {
        const auto& shim = lines.at(at++);
        problem.stock.push_back({shim[0], shim[1], shim[3], static_cast<int>(shim[2])});
        seat.stock.push_back(k);
    }
    seat.at_most = at_most;
    problem.bins.assign(seats, seat);
    const std::size_t rows = count();
    for (std::size_t r = 0; r < rows; ++r) {
        const auto& line = lines.at(at++);
        numerics::ConstraintRow row;
        row.name = "row " + std::to_string(r);
        row.lower = line[0];
        row.upper = line[1];
        row.gap = line[2];
        row.fixed_half_width = line[3];
        for (std::size_t f = 0; f < faces; ++f) {
            const auto& face = lines[first_face + f];
            const double by = line.at(4 + f);
            row.activities.push_back({by, 0.0, std::abs(by) * face[3], std::abs(by) * face[4]});
        }
        row.bins.assign(line.begin() + static_cast<std::ptrdiff_t>(4 + faces), line.end());
        problem.rows.push_back(row);
    }
    return problem;
}

}  // namespace trialfit::testing
