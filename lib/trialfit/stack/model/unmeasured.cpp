// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/stack/model/unmeasured.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

using UnknownIterator = Eigen::SparseVector<double>::InnerIterator;

// A coefficient below this, of closures whose coefficients are about 1, is what rounding leaves.
constexpr double kRounded = 1e-10;

// Replaces `size` in a form by the form `is`.
void put_in(Form& form, int size, const Form& is) {
    const double times = form.sensitivities.coeff(size);
    if (times == 0.0) return;
    FormBuilder builder;
    builder.add(form, 1.0);
    builder.add(size, -times);
    builder.add(is, times);
    form = std::move(builder).build(form.sensitivities.size());
    form.sensitivities.prune(1.0, kRounded);
}

// The size that a closure gives, solved for it.
Form solved_for(const Form& closure, int size) {
    const double own = closure.sensitivities.coeff(size);
    FormBuilder builder;
    builder.add(closure, -1.0 / own);
    builder.add(size, 1.0);
    Form is = std::move(builder).build(closure.sensitivities.size());
    is.sensitivities.prune(1.0, kRounded);
    return is;
}

struct Pivot {
    std::size_t closure = 0;
    int size = -1;
    double coefficient = 0.0;
};

}  // namespace

Unmeasured::Unmeasured(std::vector<Form> closures, const std::vector<bool>& is_unmeasured)
    : closures_(std::move(closures)) {
    if (std::ranges::find(is_unmeasured, true) == is_unmeasured.end()) return;
    is_unmeasured_ = is_unmeasured;
    std::vector<bool> used(closures_.size(), false);
    while (true) {
        Pivot pivot;
        for (std::size_t c = 0; c < closures_.size(); ++c) {
            if (used[c]) continue;
            for (UnknownIterator it(closures_[c].sensitivities); it; ++it) {
                if (!is_unmeasured_[static_cast<std::size_t>(it.index())] ||
                    std::abs(it.value()) <= std::max(std::abs(pivot.coefficient), kRounded))
                    continue;
                pivot = {c, static_cast<int>(it.index()), it.value()};
            }
        }
        if (pivot.size < 0) return;
        Form is = solved_for(closures_[pivot.closure], pivot.size);
        for (Form& closure : closures_)
            put_in(closure, pivot.size, is);
        for (Given& each : given_)
            put_in(each.is, pivot.size, is);
        used[pivot.closure] = true;
        closures_[pivot.closure] = {.constant = 0.0,
                                    .sensitivities = Eigen::SparseVector<double>(
                                        static_cast<Eigen::Index>(is_unmeasured.size()))};
        given_.push_back({pivot.size, std::move(is)});
    }
}

Form Unmeasured::known(Form form) const {
    for (const Given& each : given_)
        put_in(form, each.size, each.is);
    return form;
}

bool Unmeasured::open(const Form& form) const {
    if (!any()) return false;
    for (UnknownIterator it(form.sensitivities); it; ++it)
        if (is_unmeasured_[static_cast<std::size_t>(it.index())] || !std::isfinite(it.value()))
            return true;
    return false;
}

}  // namespace trialfit::stack
