// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/stack/check/left_open.hpp>
#include <trialfit/stack/model/index.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

// What a form has of unmeasured sizes: their columns and its sensitivities.
std::vector<std::pair<int, double>> unknowns_of(const Model& model, const Form& form) {
    std::vector<std::pair<int, double>> unknowns;
    for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it)
        if (model.sizes()[at(it.index())].size.is_unmeasured())
            unknowns.emplace_back(static_cast<int>(it.index()), it.value());
    return unknowns;
}

// Whether the one is a multiple of the other.
bool alike(const std::vector<std::pair<int, double>>& a,
           const std::vector<std::pair<int, double>>& b) {
    constexpr double kSame = 1e-9;
    if (a.size() != b.size() || a.empty()) return false;
    const double ratio = a.front().second / b.front().second;
    return std::equal(a.begin(), a.end(), b.begin(), [&](const auto& one, const auto& other) {
        return one.first == other.first &&
               std::abs(one.second - ratio * other.second) <= kSame * std::abs(one.second);
    });
}

}  // namespace

LeftOpen left_open_for(const Model& model, const Form& open) {
    LeftOpen found;
    const auto wanted = unknowns_of(model, model.unmeasured().known(open));
    for (int size = 0; size < static_cast<int>(model.sizes().size()); ++size) {
        if (!model.sizes()[at(size)].size.is_unmeasured()) continue;
        FormBuilder alone;
        alone.add(size, 1.0);
        const Form own = model.unmeasured().known(
            std::move(alone).build(static_cast<Eigen::Index>(model.sizes().size())));
        if (alike(unknowns_of(model, own), wanted))
            found.alone.push_back(model.sizes()[at(size)].label);
    }
    if (!found.alone.empty()) return found;
    for (const auto& [size, sensitivity] : wanted)
        found.all.push_back(model.sizes()[at(size)].label);
    return found;
}

LeftOpen left_open_for(const Model& model, const Question& question) {
    for (const Question::Difference& each : question.differences)
        for (const Form* form : {&each.stated, &each.least, &each.greatest})
            if (model.unmeasured().open(*form)) return left_open_for(model, *form);
    return {};
}

}  // namespace trialfit::stack
