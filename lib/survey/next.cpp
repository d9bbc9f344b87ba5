// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/requirements.hpp>
#include <trialfit/survey/next.hpp>

namespace trialfit::survey {

namespace {

using stack::Form;
using stack::Model;

struct Deciding {
    std::string check;
    Form form;
    double in_sd = std::numeric_limits<double>::infinity();
};

double sd_of(const Model& model, const Form& form) {
    return std::sqrt(std::max(0.0, model.ties().covariance(form, form, model.columns())));
}

// The check whose margin is the fewest of its own sd from nothing, either way.
std::optional<Deciding> deciding_check(const Model& model) {
    Deciding best;
    for (const job::Check& check : model.job().checks) {
        const stack::Question asked = stack::question(model, check);
        const auto level =
            check.at_least ? stack::threshold(model, check, *check.at_least) : std::nullopt;
        const std::size_t which = stack::deciding(model, asked, level, stack::Judge::worst, 1.0);
        const double sd = sd_of(model, asked.differences[which].form);
        if (sd <= 0.0) continue;
        const double margin = stack::answer(model, check, stack::Judge::worst, 1.0).nominal_margin;
        const double in_sd = std::abs(margin) / sd;
        if (in_sd < best.in_sd)
            best = {.check = check.name, .form = asked.differences[which].form, .in_sd = in_sd};
    }
    if (best.check.empty()) return std::nullopt;
    return best;
}

Form alone(const Model& model, int size) {
    stack::FormBuilder builder;
    builder.add(size, 1.0);
    return std::move(builder).build(model.columns().nominal.size());
}

}  // namespace

std::vector<MeasureNext> measure_next(const Model& bound) {
    constexpr std::size_t kMost = 3;
    const auto& gauges = bound.job().gauges;
    if (gauges.empty()) return {};
    const auto best = std::min_element(
        gauges.begin(), gauges.end(),
        [](const job::Gauge& a, const job::Gauge& b) { return a.half_width < b.half_width; });
    const std::optional<Deciding> check = deciding_check(bound);
    if (!check) return {};
    const double variance = bound.ties().covariance(check->form, check->form, bound.columns());
    const double gauge = best->half_width * best->half_width / 3.0;
    std::vector<MeasureNext> all;
    for (int size = 0; size < static_cast<int>(bound.sizes().size()); ++size) {
        if (bound.columns().sd[size] == 0.0) continue;
        const Form form = alone(bound, size);
        const double shared = bound.ties().covariance(check->form, form, bound.columns());
        if (shared == 0.0) continue;
        const double own = bound.ties().covariance(form, form, bound.columns());
        const double then = variance - shared * shared / (own + gauge);
        all.push_back({.check = check->check,
                       .size = bound.sizes()[static_cast<std::size_t>(size)].label,
                       .by_half_width = best->half_width,
                       .gauge = best->name,
                       .sd_now = std::sqrt(variance),
                       .sd_then = std::sqrt(std::max(0.0, then))});
    }
    std::stable_sort(all.begin(), all.end(), [](const MeasureNext& a, const MeasureNext& b) {
        return a.sd_then < b.sd_then;
    });
    if (all.size() > kMost) all.resize(kMost);
    return all;
}

}  // namespace trialfit::survey
