// SPDX-License-Identifier: MIT
// A measured pile of more sizes than a covariance is made for.
#include <doctest/doctest.h>

#include <cmath>
#include <support/jobs.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace job = trialfit::job;
using namespace trialfit::odds;
using namespace trialfit::testing;
using trialfit::stack::Form;
using trialfit::stack::Model;

namespace {

constexpr int kWashers = 400;

// The pile came out 0.01 over its middle.
Model measured(const job::Job& pile) {
    const auto built = Model::of(pile);
    const auto& model = std::get<Model>(built);
    Form height = model.gap({.face = {0, 0}}, {.face = {kWashers, 1}});
    height.constant -= 1.0 * kWashers + 0.01;
    return model.bound_by({height});
}

// The height of each washer `step` apart, and of the pile up to each.
std::vector<Form> heights(const Model& model, int step) {
    std::vector<Form> all;
    for (int i = 1; i <= kWashers; i += step) {
        all.push_back(model.gap({.face = {i, 0}}, {.face = {i, 1}}));
        all.push_back(model.gap({.face = {0, 0}}, {.face = {i, 1}}));
    }
    return all;
}

Eigen::VectorXd lot(const Spreads& spreads, const Form& form) {
    const std::vector<double> all = spreads.row(form, 0.0, 0.0).coefficients;
    const auto untied = spreads.population().sizes.size();
    return Eigen::Map<const Eigen::VectorXd>(&all[untied],
                                             static_cast<Eigen::Index>(all.size() - untied));
}

void same_as_the_ties(const Model& model, const std::vector<Form>& forms) {
    const Spreads spreads(model, forms);
    for (std::size_t i = 0; i < forms.size(); i += 7) {
        const Form& a = forms[i];
        const Form& b = forms[(3 * i + 1) % forms.size()];
        const double expected = model.ties().covariance(a, b, model.columns());
        const double scale = std::sqrt(model.ties().covariance(a, a, model.columns()) *
                                       model.ties().covariance(b, b, model.columns()));
        const double found =
            spreads.population().joint_covariance(lot(spreads, a), lot(spreads, b));
        CHECK(std::abs(found - expected) <= 1e-10 * scale + 1e-15);
        const double mean = a.constant + lot(spreads, a).dot(spreads.population().means);
        CHECK(mean == doctest::Approx(
                          trialfit::stack::value(model.ties().adjusted(a), model.columns().middle))
                          .epsilon(1e-12));
    }
}

}  // namespace

TEST_CASE("a few forms of many tied sizes are drawn as they are, many by their sizes") {
    const job::Job job = pile(kWashers);
    const Model model = measured(job);
    REQUIRE(model.ties().contradictions().empty());
    const std::vector<Form> few = heights(model, 5);
    const Spreads sums(model, few);
    CHECK(sums.population().means.size() == 159);  // the first washer is also the first pile
    CHECK_FALSE(sums.population().adjusted.has_value());
    same_as_the_ties(model, few);
    const std::vector<Form> many = heights(model, 1);
    const Spreads sizes(model, many);
    CHECK(sizes.population().means.size() == kWashers);
    CHECK(sizes.population().adjusted.has_value());
    same_as_the_ties(model, many);
}
