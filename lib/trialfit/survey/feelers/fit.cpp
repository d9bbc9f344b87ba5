// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <trialfit/numerics/linear/dense.hpp>
#include <trialfit/survey/feelers/fit.hpp>
#include <utility>

namespace trialfit::survey {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr std::array kTerms{FeelerTerm::mean,  FeelerTerm::offset,      FeelerTerm::runout,
                            FeelerTerm::taper, FeelerTerm::still_leans, FeelerTerm::turning_cocked};
// Least eigenvalue of the unit columns' products: terms that come nearer to one another than this
// (a rotor turned by less than 16 degrees) have ten times the uncertainty, and more, that they
// would have apart.
constexpr double kApart = 0.01;
// Of half the angle between two places that count as one: 16 degrees.
constexpr double kAlike_sin = 0.14;
// Share of a term left out that shows in another one.
constexpr double kShows = 0.1;
constexpr double kNothing = 1e-9;
constexpr double kHalfTurn_deg = 180.0;
constexpr double kTurn_deg = 360.0;

double radians(double degrees) {
    return degrees * std::numbers::pi / kHalfTurn_deg;
}

// Heights as -1 to +1 over those read.
VectorXd scaled_heights(const std::vector<FeelerObservation>& readings) {
    const auto [low, high] = std::ranges::minmax_element(readings, {}, &FeelerObservation::height);
    const double middle = (low->height + high->height) / 2.0;
    const double half = (high->height - low->height) / 2.0;
    VectorXd scaled = VectorXd::Zero(static_cast<Index>(readings.size()));
    if (half <= kNothing) return scaled;
    for (Index i = 0; i < scaled.size(); ++i)
        scaled[i] = (readings[static_cast<std::size_t>(i)].height - middle) / half;
    return scaled;
}

// All ten columns, each row divided by its reading's sd.
MatrixXd whitened(const std::vector<FeelerObservation>& readings, bool still_outside) {
    const VectorXd z = scaled_heights(readings);
    const double side = still_outside ? 1.0 : -1.0;
    MatrixXd rows(z.size(), kUnknowns);
    for (Index i = 0; i < z.size(); ++i) {
        const FeelerObservation& each = readings[static_cast<std::size_t>(i)];
        const double still = radians(each.clock_deg);
        const double turning = radians(each.clock_deg - each.rotor_deg);
        const Eigen::Vector2d to_still = side * Eigen::Vector2d{std::cos(still), std::sin(still)};
        const Eigen::Vector2d to_turning =
            -side * Eigen::Vector2d{std::cos(turning), std::sin(turning)};
        rows.row(i) << 1.0, to_still.transpose(), to_turning.transpose(), z[i],
            z[i] * to_still.transpose(), z[i] * to_turning.transpose();
        rows.row(i) /= each.sd;
    }
    return rows;
}

MatrixXd beside(const MatrixXd& left, const MatrixXd& right) {
    MatrixXd both(right.rows(), left.cols() + right.cols());
    both << left, right;
    return both;
}

// Whether the columns are there and stand apart from each other.
bool stand_apart(const MatrixXd& columns) {
    if (columns.cols() > columns.rows()) return false;
    const double most = columns.colwise().norm().maxCoeff();
    if (columns.colwise().norm().minCoeff() <= kNothing * most) return false;
    const MatrixXd unit = columns.colwise().normalized();
    return numerics::symmetric_eigen(unit.transpose() * unit).values[0] >= kApart;
}

// The one direction that two columns vary in, where all that they hold is along it.
std::optional<Eigen::Vector2d> only_direction(const MatrixXd& pair) {
    const auto [values, vectors] = numerics::symmetric_eigen(pair.transpose() * pair);
    if (values[0] > kApart * values[1]) return std::nullopt;
    Eigen::Vector2d direction = vectors.col(1);
    if (direction[1] < -kNothing || (std::abs(direction[1]) <= kNothing && direction[0] < 0.0))
        direction = -direction;
    return direction;
}

double degrees_of(double towards_12, double towards_3) {
    const double degrees = std::atan2(towards_3, towards_12) * kHalfTurn_deg / std::numbers::pi;
    return degrees < 0.0 ? degrees + kTurn_deg : degrees;
}

bool alike(double one_deg, double other_deg) {
    return std::abs(std::sin(radians(one_deg - other_deg) / 2.0)) < kAlike_sin;
}

NotTold why_not(const std::vector<FeelerObservation>& readings, FeelerTerm term, bool no_height) {
    const auto all = [&](auto angle) {
        return std::ranges::all_of(readings, [&](const FeelerObservation& each) {
            return alike(angle(each), angle(readings.front()));
        });
    };
    const bool of_height = term >= FeelerTerm::taper;
    if (of_height && no_height) return NotTold::one_height;
    const bool of_turning = term == FeelerTerm::runout || term == FeelerTerm::turning_cocked;
    if (of_turning && all([](const FeelerObservation& each) { return each.rotor_deg; }))
        return NotTold::not_turned;
    if (of_turning &&
        all([](const FeelerObservation& each) { return each.clock_deg - each.rotor_deg; }))
        return NotTold::turned_with_feeler;
    const bool of_still = term == FeelerTerm::offset || term == FeelerTerm::still_leans;
    if (of_still && all([](const FeelerObservation& each) { return each.clock_deg; }))
        return NotTold::one_place;
    return NotTold::too_few;
}

// Chooses the terms that can be told apart, each given by columns of `basis` over the ten unknowns.
class Chooser {
public:
    Chooser(const std::vector<FeelerObservation>& readings, const MatrixXd& rows)
        : readings_(readings), rows_(rows), columns_(rows.rows(), 0), basis_(kUnknowns, 0) {}

    void choose(FeelerFit& fit) {
        for (const FeelerTerm term : kTerms)
            if (!take(term, fit)) leave_out_.push_back(term);
        for (const FeelerTerm term : leave_out_)
            fit.not_told.push_back({.term = term, .why = reason(term), .shows_in = shows_in(term)});
    }
    [[nodiscard]] const MatrixXd& columns() const { return columns_; }
    [[nodiscard]] const MatrixXd& basis() const { return basis_; }

private:
    bool take(FeelerTerm term, FeelerFit& fit) {
        const FeelerBlock block = block_of(term);
        MatrixXd directions = MatrixXd::Zero(kUnknowns, block.size);
        directions.block(block.at, 0, block.size, block.size).setIdentity();
        if (add(term, directions)) return true;
        if (block.size < 2) return false;
        const auto only = only_direction(rows_.middleCols(block.at, 2));
        if (!only) return false;
        directions = MatrixXd::Zero(kUnknowns, 1);
        directions.block(block.at, 0, 2, 1) = *only;
        if (!add(term, directions)) return false;
        fit.along_deg.emplace_back(term, degrees_of((*only)[0], (*only)[1]));
        return true;
    }

    bool add(FeelerTerm term, const MatrixXd& directions) {
        MatrixXd more = beside(columns_, rows_ * directions);
        if (!stand_apart(more)) return false;
        for (Index i = 0; i < directions.cols(); ++i)
            owner_.push_back(term);
        columns_ = std::move(more);
        basis_ = beside(basis_, directions);
        return true;
    }

    [[nodiscard]] NotTold reason(FeelerTerm term) const {
        const bool no_height =
            rows_.col(block_of(FeelerTerm::taper).at).norm() <= kNothing * rows_.col(0).norm();
        return why_not(readings_, term, no_height);
    }

    // What the terms that are told would make of one that is not.
    [[nodiscard]] std::vector<FeelerTerm> shows_in(FeelerTerm term) const {
        std::vector<FeelerTerm> in;
        const FeelerBlock block = block_of(term);
        const MatrixXd lost = rows_.middleCols(block.at, block.size);
        if (lost.norm() <= kNothing * rows_.col(0).norm() || columns_.cols() == 0) return in;
        const MatrixXd taken = numerics::least_squares(columns_, lost);
        for (Index i = 0; i < columns_.cols(); ++i) {
            const FeelerTerm owner = owner_[static_cast<std::size_t>(i)];
            const bool known = std::ranges::find(in, owner) != in.end();
            const double share = columns_.col(i).norm() * taken.row(i).norm() / lost.norm();
            if (!known && share > kShows) in.push_back(owner);
        }
        return in;
    }

    const std::vector<FeelerObservation>& readings_;
    const MatrixXd& rows_;
    MatrixXd columns_;
    MatrixXd basis_;
    std::vector<FeelerTerm> owner_;
    std::vector<FeelerTerm> leave_out_;
};

}  // namespace

FeelerBlock block_of(FeelerTerm term) {
    switch (term) {
        case FeelerTerm::mean:
            return {.at = 0, .size = 1};
        case FeelerTerm::offset:
            return {.at = 1, .size = 2};
        case FeelerTerm::runout:
            return {.at = 3, .size = 2};
        case FeelerTerm::taper:
            return {.at = 5, .size = 1};
        case FeelerTerm::still_leans:
            return {.at = 6, .size = 2};
        case FeelerTerm::turning_cocked:
            break;
    }
    return {.at = 8, .size = 2};
}

bool FeelerFit::told(FeelerTerm term) const {
    return std::ranges::none_of(not_told,
                                [&](const FeelerNotTold& each) { return each.term == term; });
}

bool FeelerFit::mixed(FeelerTerm term) const {
    return std::ranges::any_of(not_told, [&](const FeelerNotTold& each) {
        return std::ranges::find(each.shows_in, term) != each.shows_in.end();
    });
}

FeelerFit fit_feelers(const std::vector<FeelerObservation>& readings, bool still_outside) {
    const MatrixXd rows = whitened(readings, still_outside);
    FeelerFit fit;
    Chooser chooser(readings, rows);
    chooser.choose(fit);
    const MatrixXd& a = chooser.columns();
    VectorXd read(rows.rows());
    VectorXd sd(rows.rows());
    for (Index i = 0; i < rows.rows(); ++i) {
        const FeelerObservation& each = readings[static_cast<std::size_t>(i)];
        sd[i] = each.sd;
        read[i] = each.gap / each.sd;
    }
    const VectorXd solved = numerics::least_squares(a, read);
    const auto [thin, inverse] = numerics::thin_qr(a);
    fit.unknowns.value = chooser.basis() * solved;
    fit.unknowns.covariance =
        chooser.basis() * inverse * inverse.transpose() * chooser.basis().transpose();
    const VectorXd left = read - a * solved;
    fit.residual = left.cwiseProduct(sd);
    fit.redundancy = (1.0 - thin.rowwise().squaredNorm().array()).max(0.0).matrix();
    fit.freedom = static_cast<int>(a.rows() - a.cols());
    fit.chi_square = fit.freedom > 0 ? left.squaredNorm() : 0.0;
    return fit;
}

namespace {

// The gap's mean, and how far the turning and the still one lie from the axis, at one end.
struct AtEnd {
    double mean;
    double runout;
    double leans;
    double offset;
};

AtEnd at_end(const VectorXd& x, double z) {
    return {.mean = x[0] + z * x[5],
            .runout = std::hypot(x[3] + z * x[8], x[4] + z * x[9]),
            .leans = std::hypot(x[6], x[7]),
            .offset = std::hypot(x[1] + z * x[6], x[2] + z * x[7])};
}

using OfEnds = std::function<double(const AtEnd&, const AtEnd&)>;

FeelerFigure propagated(const FeelerUnknowns& gap, const OfEnds& of) {
    const auto at = [&](const VectorXd& x) { return of(at_end(x, -1.0), at_end(x, 1.0)); };
    VectorXd slope(kUnknowns);
    for (Index i = 0; i < kUnknowns; ++i) {
        // A step well under every uncertainty, so that a bend (at no runout, say) is stepped over
        // only where the bend lies within the uncertainty itself.
        const double step = 1e-3 * std::sqrt(gap.covariance(i, i)) + 1e-12;
        VectorXd up = gap.value;
        VectorXd down = gap.value;
        up[i] += step;
        down[i] -= step;
        slope[i] = (at(up) - at(down)) / (2.0 * step);
    }
    return {.is = at(gap.value), .sd = std::sqrt(std::max(0.0, slope.dot(gap.covariance * slope)))};
}

}  // namespace

GapReach as_it_lies(const FeelerUnknowns& gap) {
    const auto least = [](const AtEnd& e) { return e.mean - e.runout - e.offset; };
    const auto most = [](const AtEnd& e) { return e.mean + e.runout + e.offset; };
    return {.least = propagated(gap,
                                [&](const AtEnd& low, const AtEnd& high) {
                                    return std::min(least(low), least(high));
                                }),
            .most = propagated(gap, [&](const AtEnd& low, const AtEnd& high) {
                return std::max(most(low), most(high));
            })};
}

GapReach evened_up(const FeelerUnknowns& gap) {
    FeelerUnknowns centred = gap;
    const FeelerBlock offset = block_of(FeelerTerm::offset);
    centred.value.segment(offset.at, offset.size).setZero();
    centred.covariance.middleRows(offset.at, offset.size).setZero();
    centred.covariance.middleCols(offset.at, offset.size).setZero();
    return as_it_lies(centred);
}

GapReach best_setting(const FeelerUnknowns& gap) {
    return {.least = propagated(gap,
                                [](const AtEnd& low, const AtEnd& high) {
                                    const double a = low.mean - low.runout;
                                    const double b = high.mean - high.runout;
                                    return std::min({a, b, (a + b) / 2.0 - low.leans});
                                }),
            .most = propagated(gap, [](const AtEnd& low, const AtEnd& high) {
                const double a = low.mean + low.runout;
                const double b = high.mean + high.runout;
                return std::max({a, b, (a + b) / 2.0 + low.leans});
            })};
}

FeelerFigure eccentricity(const FeelerUnknowns& gap) {
    return propagated(
        gap, [](const AtEnd& low, const AtEnd& high) { return std::max(low.runout, high.runout); });
}

FeelerFigure figure_of(const FeelerFit& fit, FeelerTerm term, double times) {
    const Index at = block_of(term).at;
    return {.is = times * fit.unknowns.value[at],
            .sd = times * std::sqrt(fit.unknowns.covariance(at, at))};
}

FeelerVector vector_of(const FeelerFit& fit, FeelerTerm term, double times) {
    // Upper 5 % points of chi-square with one and with two degrees of freedom (NIST/SEMATECH
    // e-Handbook of Statistical Methods, 1.3.6.7.4).
    constexpr double kOneInTwenty1 = 3.841;
    constexpr double kOneInTwenty2 = 5.991;
    const Index at = block_of(term).at;
    const Eigen::Vector2d v = times * fit.unknowns.value.segment(at, 2);
    const Eigen::Matrix2d c = times * times * fit.unknowns.covariance.block(at, at, 2, 2);
    FeelerVector out;
    for (const auto& [owner, along] : fit.along_deg)
        if (owner == term) out.along_deg = along;
    out.amount.is = v.norm();
    out.towards_deg = degrees_of(v[0], v[1]);
    Eigen::Vector2d along = v;
    if (out.along_deg)
        along << std::cos(radians(*out.along_deg)), std::sin(radians(*out.along_deg));
    else if (v.norm() == 0.0)
        along << 1.0, 0.0;
    along.normalize();
    const Eigen::Vector2d across{-along[1], along[0]};
    out.amount.sd = std::sqrt(std::max(0.0, along.dot(c * along)));
    if (out.along_deg) {
        out.seen = v.squaredNorm() > kOneInTwenty1 * out.amount.sd * out.amount.sd;
        return out;
    }
    out.seen = v.dot(numerics::SemidefiniteFactor(c).solve(v).col(0)) > kOneInTwenty2;
    if (v.norm() > 0.0)
        out.towards_sd_deg =
            std::min(kHalfTurn_deg, std::sqrt(std::max(0.0, across.dot(c * across))) / v.norm() *
                                        kHalfTurn_deg / std::numbers::pi);
    return out;
}

}  // namespace trialfit::survey
