// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/survey/suspect/gauges.hpp>
#include <trialfit/survey/suspect/next.hpp>
#include <utility>

namespace trialfit::survey {

namespace {

using stack::Form;
using stack::Model;

// Advice that takes less than this share off the deciding check's doubt is none.
constexpr double kLeastGain = 0.1;

struct Deciding {
    std::string name;
    Form form;
    stack::Verdict verdict = stack::Verdict::holds;
    double margin = std::numeric_limits<double>::infinity();
};

void take_worse(std::optional<Deciding>& now, Deciding other) {
    const bool worse = !now || other.verdict > now->verdict ||
                       (other.verdict == now->verdict && other.margin < now->margin);
    if (worse) now = std::move(other);
}

// What decides the job now: the worst verdict, and of those the least to spare in the worst case.
std::optional<Deciding> deciding(const Model& model) {
    std::optional<Deciding> worst;
    for (const job::Check& check : model.job().checks) {
        const stack::Question asked = stack::question(model, check);
        const auto level =
            check.at_least ? stack::threshold(model, check, *check.at_least) : std::nullopt;
        const std::size_t which = stack::deciding(model, asked, level, stack::Judge::worst, 1.0);
        const stack::CheckResult result = stack::answer(model, check, stack::Judge::worst, 1.0);
        if (result.verdict == stack::Verdict::not_judged) continue;
        take_worse(worst, {.name = check.name,
                           .form = asked.differences[which].least,
                           .verdict = result.verdict,
                           .margin = result.judged_margin});
    }
    for (const stack::Clearance& pair : stack::clearances(model, stack::Judge::worst, 1.0).pairs) {
        if (pair.verdict == stack::Verdict::not_judged) continue;
        take_worse(worst, {.name = pair.inboard + " to " + pair.outboard,
                           .form = stack::gap_at_axis(model, pair),
                           .verdict = pair.verdict,
                           .margin = pair.gap.least().worst.lo - pair.at_least});
    }
    return worst;
}

}  // namespace

std::vector<MeasureNext> measure_next(const Model& bound,
                                      const stack::Ties::Adjustment& adjustment) {
    constexpr std::size_t kMost = 3;
    if (bound.job().gauges.empty()) return {};
    const std::optional<Deciding> check = deciding(bound);
    if (!check) return {};
    const stack::SizeColumns& columns = bound.columns();
    const double variance = bound.ties().covariance(check->form, check->form, columns);
    // The covariance of an adjusted form with a size is the form's sensitivity to it times its
    // variance.
    const Form adjusted = bound.ties().adjusted(check->form);
    std::vector<MeasureNext> all;
    for (Eigen::SparseVector<double>::InnerIterator it(adjusted.sensitivities); it; ++it) {
        const double as_written = columns.sd[it.index()] * columns.sd[it.index()];
        const stack::Variable& size = bound.sizes()[static_cast<std::size_t>(it.index())];
        if (as_written == 0.0 || size.floats) continue;
        const job::Gauge* gauge = finest_for(bound, size.measured);
        if (gauge == nullptr) continue;
        const double shared = it.value() * as_written;
        const double own = as_written - adjustment.cofactor[it.index()];
        const double read = gauge->half_width * gauge->half_width / 3.0;
        const double then = variance - shared * shared / (own + read);
        MeasureNext next{.check = check->name,
                         .size = size.label,
                         .by_half_width = gauge->half_width,
                         .gauge = gauge->name,
                         .sd_now = std::sqrt(variance),
                         .sd_then = std::sqrt(std::max(0.0, then))};
        if (next.sd_then <= (1.0 - kLeastGain) * next.sd_now) all.push_back(std::move(next));
    }
    std::ranges::stable_sort(all, {}, &MeasureNext::sd_then);
    if (all.size() > kMost) all.resize(kMost);
    return all;
}

}  // namespace trialfit::survey
