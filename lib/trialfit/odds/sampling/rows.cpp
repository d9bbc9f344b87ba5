// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <trialfit/odds/sampling/distribution_of.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <utility>

namespace trialfit::odds {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;
using stack::Form;

// Tied sizes up to so many are drawn by a root of their covariance, which takes time by the cube of
// their number (0.1 s for these); more are drawn as given and then adjusted.
constexpr std::size_t kMostFactored = 250;
// Of more tied sizes than a job of a few parts has, what a few forms have of them is drawn instead:
// as many variates as forms.
constexpr std::size_t kFewTied = 40;

std::size_t at(Eigen::Index i) {
    return static_cast<std::size_t>(i);
}

// The tied sizes' share of a form, and the rest of it left out.
Form tied_part(const stack::Model& model, const Form& form) {
    stack::FormBuilder builder;
    for (Iterator it(form.sensitivities); it; ++it) {
        const auto size = static_cast<int>(it.index());
        if (model.ties().tied(size)) builder.add(size, it.value());
    }
    return std::move(builder).build(form.sensitivities.size());
}

}  // namespace

Spreads::Spreads(const stack::Model& model, const std::vector<Form>& forms,
                 const std::vector<stack::Vector>& vectors)
    : model_(&model), place_(model.sizes().size(), -1) {
    const auto take_in = [&](int size) {
        Eigen::Index& place = place_[static_cast<std::size_t>(size)];
        if (place >= 0) return;
        place = 0;
        (model.ties().tied(size) ? tied_ : untied_).push_back(size);
    };
    for (const Form& form : forms)
        for (Iterator it(form.sensitivities); it; ++it)
            take_in(static_cast<int>(it.index()));
    for (const stack::Vector& each : vectors) {
        take_in(each.size);
        if (std::find(directed_.begin(), directed_.end(), each.size) == directed_.end())
            directed_.push_back(each.size);
    }
    for (const int size : untied_) {
        place_[at(size)] = static_cast<Eigen::Index>(population_.sizes.size());
        population_.sizes.push_back(distribution_of(model.sizes()[at(size)].size));
    }
    const numerics::Distribution round = numerics::uniform(-std::numbers::pi, std::numbers::pi);
    population_.sizes.insert(population_.sizes.end(), directed_.size(), round);
    lay_tied(forms, vectors.empty());
}

std::size_t Spreads::counted_as_normal() const {
    const std::vector<int> bound = model_->ties().with_mates(tied_);
    return at(std::count_if(bound.begin(), bound.end(), [&](int size) {
        const quantity::Size& own = model_->sizes()[at(size)].size;
        return !own.is_unmeasured() && own.half_width() > 0.0 &&
               own.spread.shape != quantity::Shape::normal;
    }));
}

Spreads::Terms Spreads::tied_terms(const Form& form) const {
    Terms terms;
    for (Iterator it(form.sensitivities); it; ++it)
        if (model_->ties().tied(static_cast<int>(it.index())))
            terms.emplace_back(static_cast<int>(it.index()), it.value());
    return terms;
}

// The tied sizes, or what forms have of them, come last in the population.
void Spreads::lay_tied(const std::vector<Form>& forms, bool may_sum) {
    const stack::Model& model = *model_;
    if (tied_.size() > kFewTied && may_sum)
        for (const Form& form : forms)
            if (Terms terms = tied_terms(form); !terms.empty())
                sums_.try_emplace(std::move(terms), sums_.size());
    if (!sums_.empty() && sums_.size() <= kMostFactored && 2 * sums_.size() < tied_.size())
        return lay_sums();
    sums_.clear();
    const bool many = tied_.size() > kMostFactored;
    if (many) tied_ = model.ties().with_mates(tied_);
    for (std::size_t i = 0; i < tied_.size(); ++i)
        place_[at(tied_[i])] = static_cast<Eigen::Index>(population_.sizes.size() + i);
    if (many) {
        stack::Ties::Parted parted = model.ties().parted(tied_, model.columns());
        population_.means = std::move(parted.means);
        population_.adjusted = {
            .sd = std::move(parted.sd), .gain = parted.gain, .rows = parted.rows};
        return;
    }
    stack::Ties::Joint joint = model.ties().joint(tied_, model.columns());
    population_.means = std::move(joint.means);
    population_.covariance = std::move(joint.covariance);
}

void Spreads::lay_sums() {
    const auto count = static_cast<Eigen::Index>(sums_.size());
    const auto sizes = static_cast<Eigen::Index>(model_->sizes().size());
    const stack::SizeColumns& columns = model_->columns();
    population_.means.resize(count);
    population_.covariance.resize(count, count);
    for (const auto& [terms, column] : sums_) {
        stack::FormBuilder builder;
        for (const auto& [size, times] : terms)
            builder.add(size, times);
        const Form adjusted = model_->ties().adjusted(std::move(builder).build(sizes));
        const Eigen::VectorXd weighed =
            Eigen::VectorXd(adjusted.sensitivities).cwiseProduct(columns.sd.cwiseAbs2());
        const auto i = static_cast<Eigen::Index>(column);
        population_.means[i] = stack::value(adjusted, columns.middle);
        for (const auto& [others, other] : sums_) {
            double covariance = 0.0;
            for (const auto& [size, times] : others)
                covariance += times * weighed[size];
            population_.covariance(i, static_cast<Eigen::Index>(other)) = covariance;
        }
    }
    population_.covariance =
        (0.5 * (population_.covariance + population_.covariance.transpose())).eval();
}

std::vector<numerics::Contributor> contributors(const stack::Model& model, const Form& form) {
    std::vector<numerics::Contributor> all;
    for (Iterator it(form.sensitivities); it; ++it) {
        const auto size = static_cast<int>(it.index());
        if (model.ties().tied(size)) continue;
        all.push_back({.sensitivity = it.value(),
                       .distribution = distribution_of(model.sizes()[at(size)].size)});
    }
    const Form tied = tied_part(model, form);
    if (tied.sensitivities.nonZeros() > 0) {
        const double mean = stack::value(model.ties().adjusted(tied), model.columns().middle);
        const double variance = model.ties().covariance(tied, tied, model.columns());
        all.push_back({.sensitivity = 1.0,
                       .distribution = numerics::normal(mean, std::sqrt(std::max(0.0, variance)))});
    }
    return all;
}

std::vector<int> Spreads::sizes_of(const Form& form) const {
    std::vector<int> sizes;
    bool tied = false;
    for (Iterator it(form.sensitivities); it; ++it) {
        const auto size = static_cast<int>(it.index());
        if (model_->ties().tied(size)) {
            tied = true;
        } else {
            sizes.push_back(size);
        }
    }
    if (tied) sizes.push_back(-1);
    return sizes;
}

numerics::SumDistribution Spreads::distribution(const Form& form) const {
    const std::vector<numerics::Contributor> all = contributors(form);
    return numerics::SumDistribution(all, form.constant);
}

std::size_t Spreads::column_of(int size) const {
    return at(place_.at(static_cast<std::size_t>(size)));
}

std::size_t Spreads::direction_of(int size) const {
    const auto it = std::find(directed_.begin(), directed_.end(), size);
    return untied_.size() + at(it - directed_.begin());
}

numerics::LinearCheck Spreads::row(const Form& form, double lower, double upper) const {
    const std::size_t untied = population_.sizes.size();
    numerics::LinearCheck row{
        .coefficients = std::vector<double>(untied + at(population_.means.size()), 0.0),
        .constant = form.constant,
        .lower = lower,
        .upper = upper};
    for (Iterator it(form.sensitivities); it; ++it) {
        if (!sums_.empty() && model_->ties().tied(static_cast<int>(it.index()))) continue;
        row.coefficients[at(place_[at(it.index())])] = it.value();
    }
    if (sums_.empty()) return row;
    if (const Terms terms = tied_terms(form); !terms.empty())
        row.coefficients[untied + sums_.at(terms)] = 1.0;
    return row;
}

}  // namespace trialfit::odds
