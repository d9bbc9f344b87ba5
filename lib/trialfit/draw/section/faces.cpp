// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/section/faces.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

using stack::Form;
using Forms = std::vector<std::vector<Form>>;
using Sizes = Eigen::SparseVector<double>::InnerIterator;

constexpr double kUsual_mm = 10.0;  // of a length of which nothing is known
constexpr double kShare = 0.25;     // of the length of all that is known
constexpr int kSweeps = 50;

Forms positions(const stack::Model& model) {
    const job::Job& job = model.job();
    Forms out(job.parts.size());
    const stack::Station root{.face = {0, 0}};
    for (std::size_t p = 0; p < job.parts.size(); ++p)
        for (std::size_t f = 0; f < job.parts[p].faces.size(); ++f)
            out[p].push_back(model.ties().adjusted(
                model.gap(root, {.face = {static_cast<int>(p), static_cast<int>(f)}})));
    return out;
}

// A lever that is no number has no part in it.
double finite_part(const Form& form, const Eigen::VectorXd& sizes) {
    double sum = std::isfinite(form.constant) ? form.constant : 0.0;
    for (Sizes it(form.sensitivities); it; ++it)
        if (std::isfinite(it.value())) sum += it.value() * sizes[it.index()];
    return sum;
}

Faces values(const Forms& forms, const Eigen::VectorXd& sizes) {
    Faces out(forms.size());
    for (std::size_t p = 0; p < forms.size(); ++p)
        for (const Form& form : forms[p])
            out[p].push_back(finite_part(form, sizes));
    return out;
}

Eigen::VectorXd guessed(const stack::Model& model, double length) {
    Eigen::VectorXd sizes = model.columns().nominal;
    const std::vector<bool> open = model.is_unmeasured();
    for (std::size_t i = 0; i < open.size(); ++i)
        if (open[i]) sizes[static_cast<Eigen::Index>(i)] = length;
    return sizes;
}

double usual_length(const job::Job& job, const FacesDrawn& drawn) {
    double low = 0.0;
    double high = 0.0;
    for (std::size_t p = 0; p < drawn.at.size(); ++p)
        for (std::size_t f = 0; f < drawn.at[p].size(); ++f) {
            if (!drawn.known[p][f]) continue;
            low = std::min(low, drawn.at[p][f]);
            high = std::max(high, drawn.at[p][f]);
        }
    const double usual = quantity::convert(kUsual_mm, quantity::Unit::mm, job.units);
    return high > low ? kShare * (high - low) : usual;
}

// The lengths of rings that stand on a size that nobody has measured.
std::vector<Form> open_lengths(const stack::Model& model, const Forms& forms) {
    std::vector<Form> out;
    for (std::size_t p = 0; p < forms.size(); ++p)
        for (const job::Ring& ring : model.job().parts[p].rings) {
            Form length = stack::difference(forms[p][ring.outboard.face.at()],
                                            forms[p][ring.inboard.face.at()]);
            length.constant += ring.outboard.beyond - ring.inboard.beyond;
            if (model.unmeasured().open(length)) out.push_back(std::move(length));
        }
    return out;
}

// Moves the guessed sizes the least way to where each of those rings in turn is at least `least`
// long, again and again.
void stretch(const std::vector<Form>& lengths, const std::vector<bool>& open, double least,
             Eigen::VectorXd& sizes) {
    for (int sweep = 0; sweep < kSweeps; ++sweep) {
        bool all = true;
        for (const Form& length : lengths) {
            const double short_by = least - stack::value(length, sizes);
            if (!(short_by > 1e-9 * least)) continue;
            all = false;
            double steepness = 0.0;
            for (Sizes it(length.sensitivities); it; ++it)
                if (open[static_cast<std::size_t>(it.index())])
                    steepness += it.value() * it.value();
            for (Sizes it(length.sensitivities); it; ++it)
                if (open[static_cast<std::size_t>(it.index())])
                    sizes[it.index()] += short_by / steepness * it.value();
        }
        if (all) return;
    }
}

}  // namespace

job::Job with_rings_guessed(job::Job job) {
    constexpr double kBore = 0.6;  // of the outside diameter
    double widest = quantity::convert(kUsual_mm, quantity::Unit::mm, job.units);
    for (const job::Part& part : job.parts)
        for (const job::Ring& ring : part.rings)
            if (!ring.outside.size.is_unmeasured())
                widest = std::max(widest, ring.outside.size.nominal);
    for (job::Part& part : job.parts)
        for (job::Ring& ring : part.rings) {
            const bool no_bore = ring.bore.size.is_unmeasured();
            if (ring.outside.size.is_unmeasured())
                ring.outside.size.nominal = no_bore || ring.bore.size.nominal <= 0.0
                                                ? widest / 2.0
                                                : ring.bore.size.nominal / kBore;
            if (no_bore) ring.bore.size.nominal = kBore * ring.outside.size.nominal;
        }
    return job;
}

FacesDrawn faces_drawn(const stack::Model& model) {
    const Forms forms = positions(model);
    FacesDrawn out;
    bool any_open = false;
    for (const std::vector<Form>& part : forms) {
        out.known.emplace_back();
        for (const Form& form : part) {
            out.known.back().push_back(!model.unmeasured().open(form));
            any_open = any_open || !out.known.back().back();
        }
    }
    Eigen::VectorXd sizes = guessed(model, 0.0);
    out.at = values(forms, sizes);
    if (!any_open) return out;
    const double length = usual_length(model.job(), out);
    sizes = guessed(model, length);
    stretch(open_lengths(model, forms), model.is_unmeasured(), length / 2.0, sizes);
    out.at = values(forms, sizes);
    return out;
}

}  // namespace trialfit::draw
