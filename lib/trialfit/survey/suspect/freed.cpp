// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <optional>
#include <trialfit/numerics/distribution/chi_square.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/freed.hpp>
#include <trialfit/survey/suspect/judging.hpp>
#include <trialfit/survey/suspect/slips.hpp>
#include <trialfit/survey/trial_fit/contacts.hpp>
#include <utility>
#include <variant>

namespace trialfit::survey {

namespace {

using stack::at;
using stack::Model;

// Each size takes a survey of its own.
constexpr std::size_t kMostSizes = 150;

// The job with that size unmeasured; nothing of a size that can not be.
std::optional<job::Job> without(const job::Job& job, job::SizeId id) {
    using Role = job::SizeRole;
    job::Job freed = job;
    job::Part& part = freed.parts.at(at(id.part));
    if (id.role == Role::dimension)
        part.faces.at(at(id.index)).dimensions.at(at(id.nth)).distance.size =
            quantity::unmeasured();
    else if (id.role == Role::seat_offset)
        part.seats.at(at(id.index)).offset->size = quantity::unmeasured();
    else if (id.role == Role::cone_diameter)
        part.cones.at(at(id.index)).dia.size = quantity::unmeasured();
    else
        return std::nullopt;
    return freed;
}

std::optional<Suspect> freed_suspect(const Model& model, int size, double chi_square) {
    const stack::Variable& variable = model.sizes()[at(size)];
    const auto job = without(model.job(), variable.id);
    if (!job) return std::nullopt;
    const auto built = Model::of(*job);
    const Model* const free = std::get_if<Model>(&built);
    if (free == nullptr) return std::nullopt;
    const auto laid = contacts(*free);
    const auto* const contact = std::get_if<Contacts>(&laid);
    if (contact == nullptr) return std::nullopt;
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& found : contact->readings)
        if (found.binds()) misfits.push_back(free->misfit(found.fit));
    const Model bound = free->bound_by(misfits);
    const auto rest = bound.ties().adjust(bound.columns(), bound.columns().middle);
    const auto column = bound.column_of(variable.id);
    if (!column || !bound.ties().contradictions().empty() ||
        numerics::chi_square_survival(rest.chi_square, rest.freedom) < kByChance)
        return std::nullopt;
    stack::FormBuilder builder;
    builder.add(*column, 1.0);
    const stack::Form is = bound.unmeasured().known(
        std::move(builder).build(static_cast<Eigen::Index>(bound.sizes().size())));
    if (bound.unmeasured().open(is)) return std::nullopt;
    constexpr double kNoInflation = 1.0;
    constexpr double kSigmas = 3.0;  // of a half-width of RSS
    const stack::Fixed found = stack::fixed_bounds(bound.ties(), bound.columns(), is, kNoInflation);
    const double own = model.columns().sd[size];
    Suspect suspect{.name = variable.label,
                    .kind = SuspectKind::size,
                    .at = variable.at,
                    .written = variable.written,
                    .is = model.columns().middle[size]};
    suspect.should_be = found.nominal;
    suspect.off_by = suspect.is - suspect.should_be;
    suspect.should_be_sd = (found.rss.hi - found.rss.lo) / 2.0 / kSigmas;
    suspect.chi_square_drop = chi_square - rest.chi_square;
    suspect.slip =
        slip_of(suspect, suspect.is, std::hypot(own, suspect.should_be_sd), model.job().units);
    suspect.size = variable.id;
    return suspect;
}

}  // namespace

std::vector<Suspect> freed_suspects(const Model& model, double chi_square) {
    std::vector<Suspect> all;
    if (model.job().before != nullptr || model.sizes().size() > kMostSizes) return all;
    for (int size = 0; size < static_cast<int>(model.sizes().size()); ++size)
        if (auto suspect = freed_suspect(model, size, chi_square))
            all.push_back(std::move(*suspect));
    std::ranges::stable_sort(all, std::ranges::greater{}, &Suspect::chi_square_drop);
    return all;
}

}  // namespace trialfit::survey
