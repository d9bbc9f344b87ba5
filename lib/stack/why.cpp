// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check.hpp>
#include <trialfit/stack/clearances.hpp>
#include <trialfit/stack/listing.hpp>
#include <trialfit/stack/radial.hpp>
#include <trialfit/stack/requirements.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;

job::Complaints unknown(const std::string& fault, std::string_view word,
                        const std::vector<std::string>& names, const std::string& what) {
    const std::string meant = quantity::nearest(word, names);
    job::Complaint complaint{.fault = fault};
    if (!meant.empty()) {
        complaint.mend = fmt::format("did you mean '{}'?", meant);
    } else if (names.empty()) {
        complaint.mend = fmt::format("the job has no {}", what);
    } else {
        std::vector<std::string> quoted;
        quoted.reserve(names.size());
        for (const std::string& name : names)
            quoted.push_back("'" + name + "'");
        complaint.mend = fmt::format("the {} are {}", what, some_of(quoted, 12));
    }
    return {complaint};
}

std::optional<job::FaceRef> face_named(const job::Job& job, std::string_view name) {
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
        const auto& faces = job.parts[static_cast<std::size_t>(p)].faces;
        for (int f = 0; f < static_cast<int>(faces.size()); ++f) {
            if (job::name(job, job::FaceRef{p, f}) == name) return job::FaceRef{p, f};
        }
    }
    return std::nullopt;
}

job::Complaints unknown_face(const job::Job& job, std::string_view name) {
    std::vector<std::string> names;
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
        const auto& faces = job.parts[static_cast<std::size_t>(p)].faces;
        for (int f = 0; f < static_cast<int>(faces.size()); ++f)
            names.push_back(job::name(job, job::FaceRef{p, f}));
    }
    return unknown(fmt::format("'{}' is not a face", name), name, names, "faces");
}

// The size known twice as well: half the width about the same middle, half the scatter.
quantity::Size halved(const quantity::Size& size) {
    quantity::Size better = size;
    const double quarter = size.half_width() / 2.0;
    better.lower = size.middle() - quarter;
    better.upper = size.middle() + quarter;
    better.spread.scatter_sd = size.spread.scatter_sd / 2.0;
    return better;
}

// The bounds of `form` were one size known twice as well. Untied sizes: by the change of its own
// term alone, so that a long chain costs no more than its length.
Bounds if_halved(const Model& model, const Form& form, int size, const Bounds& now,
                 double inflate) {
    const quantity::Size better = halved(model.sizes()[static_cast<std::size_t>(size)].size);
    if (model.ties().empty()) {
        const double reach =
            std::abs(form.sensitivities.coeff(size)) * model.columns().half_width[size];
        Bounds after = now;
        after.worst = {.lo = now.worst.lo + reach / 2.0, .hi = now.worst.hi - reach / 2.0};
        const double half = (now.rss.hi - now.rss.lo) / 2.0;
        const double share = inflate * reach;
        const double left = std::sqrt(std::max(0.0, half * half - 0.75 * share * share));
        after.rss = {.lo = now.middle - left, .hi = now.middle + left};
        return after;
    }
    SizeColumns sizes = model.columns();
    sizes.half_width[size] = better.half_width();
    sizes.sd[size] = better.sd();
    sizes.lower[size] = better.lower;
    sizes.upper[size] = better.upper;
    const Ties ties(model.closures(), sizes);
    return ties.contradictions().empty() ? bounds(ties, sizes, form, inflate) : now;
}

std::vector<Contribution> chain_of(const Model& model, const Form& form, const Bounds& now,
                                   double inflate) {
    const Form adjusted = model.ties().adjusted(form);
    double reach = 0.0;
    double variance = 0.0;
    for (Iterator it(adjusted.sensitivities); it; ++it) {
        reach += std::abs(it.value()) * model.columns().half_width[it.index()];
        variance += std::pow(it.value() * model.columns().sd[it.index()], 2);
    }
    std::vector<Contribution> chain;
    for (Iterator it(adjusted.sensitivities); it; ++it) {
        const auto index = static_cast<int>(it.index());
        const Variable& variable = model.sizes()[static_cast<std::size_t>(index)];
        Contribution each{.size = variable.label,
                          .written = variable.written,
                          .at = variable.at,
                          .value = variable.size};
        each.sensitivity = it.value();
        each.half_width = std::abs(it.value()) * model.columns().half_width[index];
        each.worst_share = reach > 0.0 ? each.half_width / reach : 0.0;
        each.variance_share =
            variance > 0.0 ? std::pow(it.value() * model.columns().sd[index], 2) / variance : 0.0;
        each.if_halved = if_halved(model, form, index, now, inflate);
        chain.push_back(std::move(each));
    }
    std::stable_sort(chain.begin(), chain.end(), [](const Contribution& a, const Contribution& b) {
        return a.half_width > b.half_width;
    });
    return chain;
}

double sd_of(const Model& model, const Form& form) {
    return model.ties().adjusted(form).sensitivities.cwiseProduct(model.columns().sd).norm();
}

// A radial gap as a question: the least of its forms decides.
Question question_of(const RadialQuestion& radial) {
    Question asked{.kind = CheckKind::air_gap, .first = radial.inner, .second = radial.outer};
    for (const Form& form : radial.least)
        asked.differences.push_back({.form = form, .words = "the radial gap"});
    return asked;
}

WhyAnswer chain_answer(const Model& model, const Question& asked, std::size_t which,
                       const Options& options) {
    const Form& form = asked.differences[which].form;
    WhyAnswer answer;
    answer.file = model.job().file;
    answer.units = model.job().units;
    answer.first = asked.first;
    answer.second = asked.second;
    answer.kind = asked.kind;
    answer.judge = options.judge;
    answer.inflate = options.inflate;
    if (asked.kind != CheckKind::gap) answer.deciding = asked.differences[which].words;
    answer.value = bounds(model, form, options.inflate);
    answer.sd = sd_of(model, form);
    answer.constant = form.constant;
    answer.chain = chain_of(model, form, answer.value, options.inflate);
    answer.notes = model.notes();
    answer.state = model.state();
    return answer;
}

// The radial gap of two rings, where these are the names of two that have one.
std::optional<std::variant<WhyAnswer, job::Complaints>> why_radial(const job::Job& job,
                                                                   std::string_view one,
                                                                   std::string_view other,
                                                                   const Options& options) {
    const auto first = job::ring_named(job, one);
    const auto second = job::ring_named(job, other);
    if (!first || !second || !asks_radial(job)) return std::nullopt;
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = in_states(std::move(std::get<Model>(built)));
    const std::vector<RadialGap> pairs = radial_gaps(states, options.judge, options.inflate);
    const auto pair = std::find_if(pairs.begin(), pairs.end(), [&](const RadialGap& each) {
        return (each.inner == one && each.outer == other) ||
               (each.inner == other && each.outer == one);
    });
    const Model& model = in_state(states, pair == pairs.end() ? std::string() : pair->state);
    const Question asked = question_of(radial_question(model, *first, *second));
    const std::size_t which = deciding(model, asked, {}, options.judge, options.inflate);
    WhyAnswer answer = chain_answer(model, asked, which, options);
    answer.name = fmt::format("radial gap of {} in {}", asked.first, asked.second);
    if (pair == pairs.end()) return answer;
    answer.at_least = pair->at_least;
    answer.more_than = pair->more_than;
    answer.verdict = pair->verdict;
    return answer;
}

}  // namespace

std::variant<WhyAnswer, job::Complaints> why(const job::Job& job, std::string_view check_name,
                                             const Options& options) {
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = in_states(std::move(std::get<Model>(built)));
    for (const job::AirGap& each : job.air_gaps) {
        if (each.name != check_name) continue;
        const CheckResult result = stack::answer(states, each, options.judge, options.inflate);
        const Model& model = in_state(states, result.state);
        const Question asked = question_of(radial_question(model, each.one, each.other));
        const std::size_t which = deciding(model, asked, {}, options.judge, options.inflate);
        WhyAnswer answer = chain_answer(model, asked, which, options);
        answer.name = each.name;
        answer.at_least = result.at_least;
        answer.verdict = result.verdict;
        return answer;
    }
    const auto check =
        std::find_if(job.checks.begin(), job.checks.end(),
                     [&](const job::Check& each) { return each.name == check_name; });
    if (check == job.checks.end()) {
        std::vector<std::string> names;
        for (const job::Check& each : job.checks)
            names.push_back(each.name);
        for (const job::AirGap& each : job.air_gaps)
            names.push_back(each.name);
        return unknown(fmt::format("no check is called '{}'", check_name), check_name, names,
                       "checks");
    }
    const CheckResult result = stack::answer(states, *check, options.judge, options.inflate);
    const Model& model = in_state(states, result.state);
    const Question asked = question(model, *check);
    const auto at_least =
        check->at_least ? threshold(model, *check, *check->at_least) : std::nullopt;
    const std::size_t which = deciding(model, asked, at_least, options.judge, options.inflate);
    WhyAnswer answer = chain_answer(model, asked, which, options);
    answer.name = check->name;
    answer.at_least = result.at_least;
    answer.at_most = result.at_most;
    answer.verdict = result.verdict;
    return answer;
}

std::variant<WhyAnswer, job::Complaints> why_gap(const job::Job& job, std::string_view inboard,
                                                 std::string_view outboard,
                                                 const Options& options) {
    if (auto radial = why_radial(job, inboard, outboard, options)) return std::move(*radial);
    const auto from = face_named(job, inboard);
    if (!from) return unknown_face(job, inboard);
    const auto to = face_named(job, outboard);
    if (!to) return unknown_face(job, outboard);
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = in_states(std::move(std::get<Model>(built)));
    const Search search = clearances(states, options.judge, options.inflate);
    const auto pair =
        std::find_if(search.pairs.rbegin(), search.pairs.rend(), [&](const Clearance& each) {
            return each.inboard == inboard && each.outboard == outboard;
        });
    const bool asked = pair != search.pairs.rend();
    const Model& model = in_state(states, asked ? pair->state : std::string());
    Question question = question_of_gap(model, *from, *to);
    if (asked) question.differences.front().form = least_gap(model, *pair);
    WhyAnswer answer = chain_answer(model, question, 0, options);
    answer.name = fmt::format("gap from {} to {}", inboard, outboard);
    if (!asked) return answer;
    answer.at_least = pair->at_least;
    answer.more_than = pair->more_than;
    answer.verdict = pair->verdict;
    return answer;
}

}  // namespace trialfit::stack
