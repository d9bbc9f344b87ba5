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
        const double sd = sd_of(model, asked.differences[which].least);
        if (sd <= 0.0) continue;
        const double margin = stack::answer(model, check, stack::Judge::worst, 1.0).nominal_margin;
        const double in_sd = std::abs(margin) / sd;
        if (in_sd < best.in_sd)
            best = {.check = check.name, .form = asked.differences[which].least, .in_sd = in_sd};
    }
    if (best.check.empty()) return std::nullopt;
    return best;
}

}  // namespace

std::vector<MeasureNext> measure_next(const Model& bound,
                                      const stack::Ties::Adjustment& adjustment) {
    constexpr std::size_t kMost = 3;
    const auto& gauges = bound.job().gauges;
    if (gauges.empty()) return {};
    const auto best = std::min_element(
        gauges.begin(), gauges.end(),
        [](const job::Gauge& a, const job::Gauge& b) { return a.half_width < b.half_width; });
    const std::optional<Deciding> check = deciding_check(bound);
    if (!check) return {};
    const stack::SizeColumns& columns = bound.columns();
    const double variance = bound.ties().covariance(check->form, check->form, columns);
    const double gauge = best->half_width * best->half_width / 3.0;
    // The covariance of an adjusted form with a size is the form's sensitivity to it times its
    // variance.
    const Form adjusted = bound.ties().adjusted(check->form);
    std::vector<MeasureNext> all;
    for (Eigen::SparseVector<double>::InnerIterator it(adjusted.sensitivities); it; ++it) {
        const double as_written = columns.sd[it.index()] * columns.sd[it.index()];
        const stack::Variable& size = bound.sizes()[static_cast<std::size_t>(it.index())];
        if (as_written == 0.0 || size.floats) continue;
        const double shared = it.value() * as_written;
        const double own = as_written - adjustment.cofactor[it.index()];
        const double then = variance - shared * shared / (own + gauge);
        all.push_back({.check = check->check,
                       .size = size.label,
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
