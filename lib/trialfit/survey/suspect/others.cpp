// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/others.hpp>
#include <utility>

namespace trialfit::survey {

using stack::at;
using stack::Form;

namespace {

constexpr double kLeastVariance = 1e-12;  // the square of 1e-6, see the header
constexpr double kAnyLength_mm = 10.0;    // what an unmeasured size may be out by before it is read

}  // namespace

Others::Others(const stack::Model& model, const std::vector<const Form*>& forms)
    : model_(model), variance_(model.columns().sd.cwiseAbs2()) {
    std::vector<Form> all;
    all.reserve(forms.size());
    for (const Form* form : forms)
        all.push_back(*form);
    unmeasured_ = stack::Unmeasured(std::move(all), model.is_unmeasured());
    for (const Form& form : unmeasured_.closures())
        if (!unmeasured_.any() || form.sensitivities.nonZeros() > 0) forms_.push_back(form);
    const auto n = static_cast<Eigen::Index>(forms_.size());
    if (n == 0) return;
    Eigen::MatrixXd between(n, n);
    Eigen::VectorXd are(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        are[i] = stack::value(forms_[at(i)], model.columns().middle);
        for (Eigen::Index j = 0; j <= i; ++j)
            between(i, j) = between(j, i) = shared(forms_[at(i)], forms_[at(j)]);
        between(i, i) += kLeastVariance;
    }
    factor_.emplace(between);
    solved_ = factor_->solve(are);
}

Others::Given Others::given(const Form& written) const {
    const Form misfit = unmeasured_.known(written);
    if (unmeasured_.open(misfit))
        return {.is = 0.0,
                .sd = quantity::convert(kAnyLength_mm, quantity::Unit::mm, model_.job().units)};
    double variance = shared(misfit, misfit) + kLeastVariance;
    double is = stack::value(misfit, model_.columns().middle);
    if (factor_) {
        const auto n = static_cast<Eigen::Index>(forms_.size());
        Eigen::VectorXd with(n);
        for (Eigen::Index i = 0; i < n; ++i)
            with[i] = shared(misfit, forms_[at(i)]);
        is -= with.dot(solved_);
        variance -= with.dot(factor_->solve(with).col(0));
    }
    return {.is = is, .sd = std::sqrt(std::max(variance, kLeastVariance))};
}

double Others::chi_square(const Form& misfit) const {
    const Given given = this->given(misfit);
    return (given.is / given.sd) * (given.is / given.sd);
}

double Others::cost(const Form& misfit) const {
    const Given given = this->given(misfit);
    return (given.is / given.sd) * (given.is / given.sd) + 2.0 * std::log(given.sd);
}

double Others::shared(const Form& a, const Form& b) const {
    return a.sensitivities.cwiseProduct(variance_).dot(b.sensitivities);
}

}  // namespace trialfit::survey
