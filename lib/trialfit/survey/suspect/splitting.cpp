// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/gauges.hpp>
#include <trialfit/survey/suspect/splitting.hpp>

namespace trialfit::survey {

namespace {

using stack::at;
using stack::Form;
using stack::Measured;
using stack::Model;

// Suspects whose values for a measurement lie nearer to one another than this, in sd.
constexpr double kApart_sd = 4.0;
// A shift below this, in the file's unit, is rounding.
constexpr double kLeastShift = 1e-9;
// Faces of one part that are tried against each other, at most.
constexpr std::size_t kMostFaces = 40;

// A measurement that may be made, and what it would read if all figures were right.
struct Candidate {
    SplitBy by;
    Form form;
    Measured kind = Measured::length;
};

class Splitter {
public:
    Splitter(const Model& model, const std::vector<Suspect>& suspects)
        : model_(model), suspects_(suspects) {
        for (const Suspect& each : suspects) {
            Eigen::VectorXd shift = Eigen::VectorXd::Zero(model.columns().middle.size());
            for (Eigen::Index i = 0; i < shift.size(); ++i)
                if (concerns(each, at(i))) shift[i] = -each.off_by;
            shifts_.push_back(std::move(shift));
        }
    }

    [[nodiscard]] std::optional<SplitBy> best() const {
        std::optional<SplitBy> best;
        std::size_t fewest = suspects_.size();
        Eigen::Index least_sizes = 0;
        for (Candidate& each : candidates()) {
            const Eigen::Index sizes = each.form.sensitivities.nonZeros();
            SplitBy split = outcomes_of(std::move(each));
            std::size_t left = 0;
            for (const SplitBy::Outcome& outcome : split.outcomes)
                left = std::max(left, outcome.left.size());
            if (left == suspects_.size()) continue;
            // Of two that leave as many, the one over fewer sizes is the plainer to measure.
            if (left > fewest || (left == fewest && (!best || sizes >= least_sizes))) continue;
            fewest = left;
            least_sizes = sizes;
            best = std::move(split);
        }
        return best;
    }

private:
    [[nodiscard]] bool concerns(const Suspect& suspect, std::size_t size) const {
        const stack::Variable& variable = model_.sizes()[size];
        switch (suspect.kind) {
            case SuspectKind::gauge:
                return variable.gauge && variable.gauge == suspect.gauge;
            case SuspectKind::touching:
                return false;
            case SuspectKind::reading:
            case SuspectKind::size:
                break;
        }
        return variable.id == suspect.size;
    }

    // Figures once more first, so that they are taken where nothing splits better.
    [[nodiscard]] std::vector<Candidate> candidates() const {
        std::vector<Candidate> all;
        for (const Suspect& each : suspects_) {
            if (each.kind == SuspectKind::gauge || each.kind == SuspectKind::touching) continue;
            for (int i = 0; i < static_cast<int>(model_.sizes().size()); ++i) {
                if (!concerns(each, at(i))) continue;
                stack::FormBuilder builder;
                builder.add(i, 1.0);
                all.push_back({.by = {.what = each.name},
                               .form = std::move(builder).build(model_.columns().middle.size()),
                               .kind = model_.sizes()[at(i)].measured});
            }
        }
        for (const job::PartId part : job::indices(model_.job().parts))
            add_faces_of(part, all);
        return all;
    }

    void add_faces_of(job::PartId part, std::vector<Candidate>& all) const {
        const auto& faces = model_.job().parts[at(part)].faces;
        const int most = static_cast<int>(std::min(faces.size(), kMostFaces));
        for (int a = 0; a < most; ++a) {
            for (int b = a + 1; b < most; ++b) {
                Form form = model_.gap({.face = {part, a}}, {.face = {part, b}});
                const bool touched =
                    std::ranges::any_of(shifts_, [&](const Eigen::VectorXd& shift) {
                        return std::abs(form.sensitivities.dot(shift)) > kLeastShift;
                    });
                if (!touched) continue;
                const bool rising = stack::value(form, model_.columns().middle) >= 0.0;
                const std::string from = job::name(model_.job(), job::FaceRef{part, a});
                const std::string to = job::name(model_.job(), job::FaceRef{part, b});
                if (!rising) form = stack::difference({.sensitivities = zero()}, form);
                all.push_back({.by = {.from = rising ? from : to, .to = rising ? to : from},
                               .form = std::move(form),
                               .kind = Measured::length});
            }
        }
    }

    [[nodiscard]] Eigen::SparseVector<double> zero() const {
        return Eigen::SparseVector<double>(model_.columns().middle.size());
    }

    [[nodiscard]] SplitBy outcomes_of(Candidate candidate) const {
        SplitBy split = std::move(candidate.by);
        const job::Gauge* gauge = finest_for(model_, candidate.kind);
        if (gauge != nullptr) split.gauge = gauge->name;
        const double read = gauge != nullptr ? gauge->half_width * gauge->half_width / 3.0 : 0.0;
        const double sd = std::sqrt(
            read + candidate.form.sensitivities.cwiseProduct(model_.columns().sd).squaredNorm());
        const double as_written = stack::value(candidate.form, model_.columns().middle);
        std::vector<double> is(suspects_.size());
        std::vector<std::size_t> order(suspects_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        for (std::size_t s = 0; s < is.size(); ++s)
            is[s] = as_written + candidate.form.sensitivities.dot(shifts_[s]);
        std::ranges::stable_sort(order,
                                 [&](std::size_t a, std::size_t b) { return is[a] < is[b]; });
        double last = 0.0;
        for (const std::size_t s : order) {
            if (split.outcomes.empty() || is[s] - last > kApart_sd * sd)
                split.outcomes.push_back({.is = is[s]});
            split.outcomes.back().left.push_back(s);
            last = is[s];
        }
        for (SplitBy::Outcome& outcome : split.outcomes)
            std::ranges::sort(outcome.left);
        return split;
    }

    const Model& model_;
    const std::vector<Suspect>& suspects_;
    std::vector<Eigen::VectorXd> shifts_;
};

}  // namespace

std::optional<SplitBy> splitting_measurement(const Model& unbound,
                                             const std::vector<Suspect>& suspects) {
    if (suspects.size() < 2) return std::nullopt;
    return Splitter(unbound, suspects).best();
}

}  // namespace trialfit::survey
