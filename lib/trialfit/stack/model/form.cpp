// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/stack/model/form.hpp>

namespace trialfit::stack {

SizeColumns columns(const std::vector<quantity::Size>& sizes) {
    const auto n = static_cast<Eigen::Index>(sizes.size());
    SizeColumns all{.nominal = Eigen::VectorXd(n),
                    .middle = Eigen::VectorXd(n),
                    .half_width = Eigen::VectorXd(n),
                    .sd = Eigen::VectorXd(n),
                    .lower = Eigen::VectorXd(n),
                    .upper = Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < n; ++i) {
        const quantity::Size& size = sizes[static_cast<std::size_t>(i)];
        all.nominal[i] = size.nominal;
        all.middle[i] = size.middle();
        all.half_width[i] = size.half_width();
        all.sd[i] = size.sd();
        all.lower[i] = size.lower;
        all.upper[i] = size.upper;
    }
    return all;
}

double value(const Form& form, const Eigen::VectorXd& x) {
    return form.constant + form.sensitivities.dot(x);
}

Form difference(const Form& outboard, const Form& inboard) {
    FormBuilder builder;
    builder.add(outboard, 1.0);
    builder.add(inboard, -1.0);
    return std::move(builder).build(outboard.sensitivities.size());
}

void FormBuilder::add(const Form& form, double times) {
    constant_ += times * form.constant;
    for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it) {
        add(static_cast<int>(it.index()), times * it.value());
    }
}

Form FormBuilder::build(Eigen::Index sizes) && {
    std::ranges::sort(terms_, {}, &Term::size);
    Form form{.constant = constant_, .sensitivities = Eigen::SparseVector<double>(sizes)};
    form.sensitivities.reserve(static_cast<Eigen::Index>(terms_.size()));
    for (std::size_t i = 0; i < terms_.size();) {
        const int size = terms_[i].size;
        double sensitivity = 0.0;
        for (; i < terms_.size() && terms_[i].size == size; ++i)
            sensitivity += terms_[i].sensitivity;
        if (sensitivity != 0.0) form.sensitivities.insertBack(size) = sensitivity;
    }
    return form;
}

}  // namespace trialfit::stack
