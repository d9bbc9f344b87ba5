// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/shims.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

#include <trialfit/numerics/planner/stacks.hpp>

namespace trialfit::plan {

namespace {

constexpr double kGrid = 1e-9;  // lengths nearer than this are the same

double last_digit(double steps) {
    const double whole = std::round(steps);
    const double tens = std::floor(whole / 10.0) * 10.0;
    const double digit = whole - tens;
    if (digit <= 2.0) return tens;
    return digit <= 7.0 ? tens + 5.0 : tens + 10.0;
}

}  // namespace

double rounded(double length, job::RoundingWay way, double step) {
    constexpr double kWholeStep = 1e-6;
    const double steps = length / step;
    switch (way) {
        case job::RoundingWay::down:
            return step * std::floor(steps + kWholeStep);
        case job::RoundingWay::up:
            return step * std::ceil(steps - kWholeStep);
        case job::RoundingWay::nearest:
            return step * std::ceil(steps - 0.5 - kWholeStep);
        case job::RoundingWay::last_digit:
            return step * last_digit(steps);
    }
    return length;
}

RoundedFrom rounded_from(const job::Rounding& rounding) {
    const double step = rounding.step;
    const double hair = 1e-6 * step;
    switch (rounding.way) {
        case job::RoundingWay::down:
            return {.least = -hair, .most = step - 2.0 * hair, .grid = step};
        case job::RoundingWay::up:
            return {.least = 2.0 * hair - step, .most = hair, .grid = step};
        case job::RoundingWay::nearest:
            return {.least = 2.0 * hair - 0.5 * step, .most = 0.5 * step + hair, .grid = step};
        case job::RoundingWay::last_digit:
            break;
    }
    // Whole steps two to either side, and what is rounded to them.
    return {.least = -2.5 * step, .most = 2.5 * step - hair, .grid = 5.0 * step};
}

StackWant stack_for_float(double room, double least_float, double greatest_float,
                          std::optional<double> float_aim) {
    StackWant want;
    want.least = std::max(room - greatest_float, 0.0);
    want.greatest = std::max(room - least_float, 0.0);
    if (float_aim) want.aim = std::max(room - *float_aim, 0.0);
    return want;
}

double room_from_trial(double fitted, double measured_float) {
    return fitted + measured_float;
}

double uncompressed(double needed, double share) {
    return needed * (1.0 + share);
}

std::optional<StackPick> pick_stack(const std::vector<numerics::StockItem>& stock,
                                    const StackWant& want, int at_least, int at_most) {
    numerics::Problem problem;
    problem.stock = stock;
    problem.bins.push_back({"", std::vector<std::size_t>(stock.size()), at_least, at_most});
    std::iota(problem.bins[0].stock.begin(), problem.bins[0].stock.end(), std::size_t{0});
    for (numerics::StockItem& shim : problem.stock)
        shim.price = 0.0;
    const numerics::StackChoice choice =
        stack_choice(problem, 0, std::vector<bool>(stock.size(), false));
    const numerics::StackPoint* best = nullptr;
    const auto rank = [&](const numerics::StackPoint& point) {
        const double away = want.aim ? std::abs(point.thickness - *want.aim) : 0.0;
        return std::tuple(std::round(away / kGrid), point.count, point.thickness);
    };
    for (const numerics::StackPoint& point : choice.points) {
        if (point.thickness - point.spread < want.least - kGrid ||
            point.thickness + point.spread > want.greatest + kGrid)
            continue;
        if (best == nullptr || rank(point) < rank(*best)) best = &point;
    }
    if (best == nullptr) return std::nullopt;
    return StackPick{best->stacks.front(), best->thickness, best->spread};
}

}  // namespace trialfit::plan
