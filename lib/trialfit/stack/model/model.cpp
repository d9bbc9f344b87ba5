// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <string_view>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <utility>

namespace trialfit::stack {

int Model::node(job::FaceRef face) const {
    return first_node_.at(face.part.at()) + face.face;
}

// Adds `sign` times the position of `node` relative to `until`, a face on its way to the root.
void Model::walk(int node, int until, double sign, FormBuilder& into) const {
    while (node != until) {
        const Step& step = steps_[static_cast<std::size_t>(node)];
        into.add(edges_[static_cast<std::size_t>(step.edge)], sign * step.way);
        node = step.up;
    }
}

int Model::meeting_of(int a, int b) const {
    const auto step = [this](int n) -> const Step& { return steps_[static_cast<std::size_t>(n)]; };
    while (step(a).depth > step(b).depth)
        a = step(a).up;
    while (step(b).depth > step(a).depth)
        b = step(b).up;
    while (a != b) {
        a = step(a).up;
        b = step(b).up;
    }
    return a;
}

Form Model::gap(const Station& inboard, const Station& outboard) const {
    const int from = node(inboard.face);
    const int to = node(outboard.face);
    const int meeting = meeting_of(from, to);
    FormBuilder builder;
    walk(to, meeting, 1.0, builder);
    walk(from, meeting, -1.0, builder);
    builder.add(outboard.beyond * growth(outboard.face.part) -
                inboard.beyond * growth(inboard.face.part));
    return unmeasured_.known(std::move(builder).build(static_cast<Eigen::Index>(sizes_.size())));
}

std::vector<bool> Model::is_unmeasured() const {
    std::vector<bool> unmeasured(sizes_.size());
    for (std::size_t i = 0; i < sizes_.size(); ++i)
        unmeasured[i] = sizes_[i].size.is_unmeasured();
    return unmeasured;
}

void Model::tie() {
    unmeasured_ = Unmeasured(closures_, is_unmeasured());
    ties_ = Ties(unmeasured_.closures(), columns_);
}

bool asks_radial(const job::Job& job) {
    return !job.air_gaps.empty() || std::ranges::any_of(job.parts, [](const job::Part& part) {
        return part.centred || !part.runout.empty() || part.face_runout;
    });
}

// The furthest that a part's play may move along a step.
double Model::roam(const Form& edge) const {
    double furthest = 0.0;
    for (const std::size_t p : float_) {
        if (edge.sensitivities.coeff(play_size_[p]) == 0.0) continue;
        const double share = std::max(-play_ends_[p].lo, play_ends_[p].hi);
        furthest += share * columns_.upper[total_play_[p]];
    }
    return furthest;
}

std::vector<std::vector<Range>> Model::reach() const {
    std::vector<Range> of(steps_.size());
    std::vector<int> order(steps_.size());
    std::iota(order.begin(), order.end(), 0);
    const auto step = [this](int n) -> const Step& { return steps_[static_cast<std::size_t>(n)]; };
    std::ranges::stable_sort(order, [&](int a, int b) { return step(a).depth < step(b).depth; });
    for (const int n : order) {
        if (step(n).up < 0) continue;
        const Form& edge = edges_[static_cast<std::size_t>(step(n).edge)];
        if (unmeasured_.open(edge)) {
            constexpr double kAnywhere = std::numeric_limits<double>::infinity();
            of[static_cast<std::size_t>(n)] = {.lo = -kAnywhere, .hi = kAnywhere};
            continue;
        }
        const double middle = step(n).way * value(edge, columns_.middle);
        const double half = edge.sensitivities.cwiseAbs().dot(columns_.half_width) + roam(edge);
        const Range& up = of[static_cast<std::size_t>(step(n).up)];
        of[static_cast<std::size_t>(n)] = {.lo = up.lo + middle - half,
                                           .hi = up.hi + middle + half};
    }
    std::vector<std::vector<Range>> parts;
    parts.reserve(first_node_.size());
    for (std::size_t p = 0; p < first_node_.size(); ++p) {
        const auto first = of.begin() + first_node_[p];
        const auto faces = static_cast<std::ptrdiff_t>(job_->parts[p].faces.size());
        parts.emplace_back(first, first + faces);
    }
    return parts;
}

Model Model::in_state(const Warmth& warmth) const {
    Model warm = *this;
    warm.warmth_ = warmth;
    const auto grown = [&](std::optional<job::PartId> part) {
        return part ? warm.growth(*part) : 1.0;
    };
    for (std::size_t e = 0; e < warm.edges_.size(); ++e) {
        Form& edge = warm.edges_[e];
        edge.constant *= grown(edge_owner_[e]);
        for (Eigen::SparseVector<double>::InnerIterator it(edge.sensitivities); it; ++it)
            it.valueRef() *= grown(sizes_[static_cast<std::size_t>(it.index())].grows_with);
    }
    constexpr std::size_t kOneByOne = 6;
    for (const job::PartId part : warmth.unknown) {
        if (warm.with_unknown_grown_.size() <= kOneByOne) warm.with_unknown_grown_.emplace_back();
        warm.with_unknown_grown_.back().parts.push_back(part);
    }
    for (Grown& each : warm.with_unknown_grown_) {
        constexpr double kProbe = 1e-3;
        Warmth probe = warmth;
        probe.unknown.clear();
        for (const job::PartId part : each.parts)
            probe.growth[part.at()] += kProbe;
        each.model = std::make_shared<const Model>(in_state(probe));
    }
    return warm;
}

// Nothing is known of where in its range it lies.
void Model::learn_draw_up() {
    if (draw_up_.size < 0) return;
    const std::variant<DrawUp, DrawUpUnknown> outcome = draw_up(*this);
    const auto* const found = std::get_if<DrawUp>(&outcome);
    if (found == nullptr || found->travel.greatest <= 0.0) return;
    const Estimate& travel = found->travel;
    quantity::Size size = quantity::reading((travel.least + travel.greatest) / 2.0,
                                            (travel.greatest - travel.least) / 2.0);
    size.nominal = travel.middle;
    sizes_[static_cast<std::size_t>(draw_up_.size)].size = size;
    const SizeColumns one = stack::columns({size});
    for (const auto column : {&SizeColumns::nominal, &SizeColumns::middle, &SizeColumns::half_width,
                              &SizeColumns::sd, &SizeColumns::lower, &SizeColumns::upper})
        (columns_.*column)[draw_up_.size] = (one.*column)[0];
}

const quantity::Size* Model::known_draw_up() const {
    if (draw_up_.size < 0) return nullptr;
    const quantity::Size& size = sizes_[static_cast<std::size_t>(draw_up_.size)].size;
    return size.upper > 0.0 ? &size : nullptr;
}

Model Model::tightened() const {
    Model drawn = *this;
    drawn.warmth_.state = kTightened;
    drawn.edges_[static_cast<std::size_t>(draw_up_.edge)].sensitivities.coeffRef(draw_up_.size) =
        -draw_up_.sign;
    return drawn;
}

job::Complaints Model::contradictions() const {
    job::Complaints complaints;
    const std::string_view unit = quantity::name(job_->units);
    for (const std::vector<int>& group : ties_.contradictions()) {
        std::size_t worst = closure_of_.size();
        double apart = -1.0;
        for (const int closure : group) {
            const auto c = static_cast<std::size_t>(closure);
            if (c >= closure_of_.size()) continue;
            const double misfit = std::abs(value(closures()[c], columns_.middle));
            if (misfit <= apart) continue;
            worst = c;
            apart = misfit;
        }
        if (worst == closure_of_.size()) continue;
        const double allowed = closures()[worst].sensitivities.cwiseAbs().dot(columns_.half_width);
        complaints.push_back(
            {.at = closure_of_[worst].at,
             .fault = fmt::format("the sizes contradict each other: {} differs by {:.4g} {} from "
                                  "what the others give, "
                                  "and all their limits together allow {:.4g} {}",
                                  closure_of_[worst].what, apart, unit, allowed, unit),
             .mend = {},
             .remedy = job::Remedy::weigh_sizes});
    }
    return complaints;
}

int Model::lead_in_size(job::ThreadRef thread) const {
    return lead_in_size_.at(thread.part.at()).at(thread.index.at());
}

int Model::run_out_size(job::ThreadRef thread) const {
    return run_out_size_.at(thread.part.at()).at(thread.index.at());
}

std::optional<int> Model::column_of(job::SizeId id) const {
    const auto found = std::ranges::find(sizes_, id, &Variable::id);
    if (found == sizes_.end()) return std::nullopt;
    return static_cast<int>(found - sizes_.begin());
}

}  // namespace trialfit::stack
