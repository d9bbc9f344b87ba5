// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/check/if_halved.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/listing.hpp>
#include <trialfit/stack/radial/radial.hpp>
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

job::Complaints unknown_face(const job::Job& job, std::string_view name) {
    std::vector<std::string> names;
    for (const job::PartId p : job::indices(job.parts)) {
        const auto& faces = job.parts[p.at()].faces;
        for (const job::FaceId f : job::indices(faces))
            names.push_back(job::name(job, job::FaceRef{p, f}));
    }
    return unknown(fmt::format("'{}' is not a face", name), name, names, "faces");
}

// What a chain is about: the forms whose least (or, of an air gap's upper limit, greatest) is the
// value, and the one of them that decides.
struct Chained {
    Question question;
    std::size_t which = 0;
    Side side = Side::at_least;
    bool greatest = false;

    [[nodiscard]] const Form& deciding() const {
        const Question::Difference& difference = question.differences[which];
        return side == Side::at_least ? difference.least : difference.greatest;
    }
};

std::vector<Contribution> chain_of(const Model& model, const Chained& about, const Bounds& now,
                                   double inflate) {
    const Form adjusted = model.ties().adjusted(about.deciding());
    double reach = 0.0;
    double variance = 0.0;
    for (Iterator it(adjusted.sensitivities); it; ++it) {
        reach += std::abs(it.value()) * model.columns().half_width[it.index()];
        variance += std::pow(it.value() * model.columns().sd[it.index()], 2);
    }
    std::vector<int> sizes;
    for (Iterator it(adjusted.sensitivities); it; ++it)
        if (!model.sizes()[static_cast<std::size_t>(it.index())].floats)
            sizes.push_back(static_cast<int>(it.index()));
    const std::vector<Bounds> better =
        if_halved(model, about.question, about.greatest, sizes, now, inflate);
    auto halved = better.begin();
    std::vector<Contribution> chain;
    for (Iterator it(adjusted.sensitivities); it; ++it) {
        const auto index = static_cast<int>(it.index());
        const Variable& variable = model.sizes()[static_cast<std::size_t>(index)];
        Contribution each{.size = variable.label,
                          .written = variable.written,
                          .at = variable.at,
                          .value = variable.size};
        each.sensitivity = it.value();
        each.moves = variable.floats;
        each.half_width = std::abs(it.value()) * model.columns().half_width[index];
        each.worst_share = reach > 0.0 ? each.half_width / reach : 0.0;
        each.variance_share =
            variance > 0.0 ? std::pow(it.value() * model.columns().sd[index], 2) / variance : 0.0;
        each.if_halved = each.moves ? now : *halved++;
        chain.push_back(std::move(each));
    }
    std::ranges::stable_sort(chain, std::ranges::greater{}, &Contribution::half_width);
    return chain;
}

double sd_of(const Model& model, const Form& form) {
    return model.ties().adjusted(form).sensitivities.cwiseProduct(model.columns().sd).norm();
}

// The forms of a radial gap as a question: held to its lower limit by the least, to its upper one
// by the greatest.
Chained radial_chain(const Model& model, const RadialQuestion& radial, Side side, Judge judge,
                     double inflate) {
    Chained about{
        .question = {.kind = CheckKind::air_gap, .first = radial.inner, .second = radial.outer},
        .side = side,
        .greatest = side == Side::at_most};
    for (const Form& form : about.greatest ? radial.greatest : radial.least) {
        about.question.differences.push_back(
            {.stated = form, .least = form, .greatest = form, .words = "the radial gap"});
    }
    if (!about.greatest) {
        about.which = deciding(model, about.question, {}, judge, inflate);
        return about;
    }
    double most = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < radial.greatest.size(); ++i) {
        const double high = judged(bounds(model, radial.greatest[i], inflate), judge).hi;
        if (high <= most + kRounding) continue;
        most = high;
        about.which = i;
    }
    return about;
}

// An upper limit on the least of four is kept by the one that stays lowest.
std::size_t lowest(const Model& model, const Question& asked, Judge judge, double inflate) {
    std::size_t best = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < asked.differences.size(); ++i) {
        const double high =
            judged(bounds(model, asked.differences[i].stated, inflate).greatest(), judge).hi;
        if (high >= least - kRounding) continue;
        least = high;
        best = i;
    }
    return best;
}

// How far a check's limits leave room in the judged case; the side with less of it decides.
Side deciding_side(const CheckResult& result, Judge judge) {
    if (!result.at_most) return Side::at_least;
    if (!result.at_least) return Side::at_most;
    const Bounds& upper = result.greatest ? *result.greatest : result.value;
    const double below = judged(result.value.least(), judge).lo - *result.at_least;
    const double above = *result.at_most - judged(upper.greatest(), judge).hi;
    return above < below ? Side::at_most : Side::at_least;
}

WhyAnswer chain_answer(const Model& model, const Chained& about, const Bounds& value,
                       const Options& options) {
    WhyAnswer answer;
    answer.file = model.job().file;
    answer.units = model.job().units;
    answer.first = about.question.first;
    answer.second = about.question.second;
    answer.kind = about.question.kind;
    answer.judge = options.judge;
    answer.inflate = options.inflate;
    if (answer.kind != CheckKind::gap)
        answer.deciding = about.question.differences[about.which].words;
    answer.value = value;
    answer.side = about.side;
    if (!value.open()) {
        answer.sd = sd_of(model, about.deciding());
        answer.constant = about.deciding().constant;
        answer.chain = chain_of(model, about, value, options.inflate);
    }
    answer.notes = model.notes();
    answer.warnings = job::warnings(model.job());
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
    const std::vector<Model> states = in_states(std::get<Model>(built));
    const std::vector<RadialGap> pairs = radial_gaps(states, options.judge, options.inflate);
    const auto pair = std::ranges::find_if(pairs, [&](const RadialGap& each) {
        return (each.inner_ring == *first && each.outer_ring == *second) ||
               (each.inner_ring == *second && each.outer_ring == *first);
    });
    const Model& model = in_state(states, pair == pairs.end() ? std::string() : pair->state);
    const RadialQuestion radial = radial_question(model, *first, *second);
    const Chained about =
        radial_chain(model, radial, Side::at_least, options.judge, options.inflate);
    WhyAnswer answer =
        chain_answer(model, about, least_of(model, radial.least, options.inflate), options);
    if (pair == pairs.end()) return answer;
    answer.id = id_of(*pair);
    answer.at_least = pair->at_least;
    answer.more_than = pair->more_than;
    answer.verdict = pair->verdict;
    answer.not_judged_for = pair->not_judged_for;
    return answer;
}

WhyAnswer why_air_gap(const std::vector<Model>& states, const job::AirGap& check,
                      const Options& options) {
    const CheckResult result = stack::answer(states, check, options.judge, options.inflate);
    const Model& model = in_state(states, result.state);
    const RadialQuestion radial = radial_question(model, check.one, check.other);
    const Side side = deciding_side(result, options.judge);
    const Chained about = radial_chain(model, radial, side, options.judge, options.inflate);
    WhyAnswer answer =
        chain_answer(model, about, about.greatest ? *result.greatest : result.value, options);
    answer.name = check.name;
    answer.at_least = result.at_least;
    answer.at_most = result.at_most;
    answer.verdict = result.verdict;
    answer.not_judged_for = result.not_judged_for;
    return answer;
}

WhyAnswer why_check(const std::vector<Model>& states, const job::Check& check,
                    const Options& options) {
    const CheckResult result = stack::answer(states, check, options.judge, options.inflate);
    const Model& model = in_state(states, result.state);
    Chained about{.question = question(model, check), .side = deciding_side(result, options.judge)};
    const auto at_least = check.at_least ? threshold(model, check, *check.at_least) : std::nullopt;
    about.which = about.side == Side::at_most
                      ? lowest(model, about.question, options.judge, options.inflate)
                      : deciding(model, about.question, at_least, options.judge, options.inflate);
    WhyAnswer answer = chain_answer(model, about, result.value, options);
    answer.name = check.name;
    answer.at_least = result.at_least;
    answer.at_most = result.at_most;
    answer.more_than = result.more_than;
    answer.verdict = result.verdict;
    answer.not_judged_for = result.not_judged_for;
    return answer;
}

}  // namespace

std::variant<WhyAnswer, job::Complaints> why(const job::Job& job, std::string_view check_name,
                                             const Options& options) {
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = in_states(std::get<Model>(built));
    std::vector<std::string> names;
    const auto of = [&](JudgedId id, WhyAnswer answer) {
        answer.id = id;
        return answer;
    };
    const auto& automatic = states.front().automatic_checks();
    for (std::size_t c = 0; c < job.air_gaps.size(); ++c)
        if (job.air_gaps[c].name == check_name)
            return of(AirGapId{c}, why_air_gap(states, job.air_gaps[c], options));
    for (std::size_t c = 0; c < job.checks.size(); ++c) {
        if (job.checks[c].name == check_name)
            return of(CheckId{c}, why_check(states, job.checks[c], options));
        names.push_back(job.checks[c].name);
    }
    for (std::size_t c = 0; c < automatic.size(); ++c) {
        if (automatic[c].name == check_name)
            return of(ClampId{c}, why_check(states, automatic[c], options));
        names.push_back(automatic[c].name);
    }
    for (const job::AirGap& each : job.air_gaps)
        names.push_back(each.name);
    return unknown(fmt::format("no check is called '{}'", check_name), check_name, names, "checks");
}

std::variant<WhyAnswer, job::Complaints> why_gap(const job::Job& job, std::string_view inboard,
                                                 std::string_view outboard,
                                                 const Options& options) {
    if (auto radial = why_radial(job, inboard, outboard, options)) return std::move(*radial);
    const auto from = job::face_named(job, inboard);
    if (!from) return unknown_face(job, inboard);
    const auto to = job::face_named(job, outboard);
    if (!to) return unknown_face(job, outboard);
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = in_states(std::get<Model>(built));
    const Search search = clearances(states, options.judge, options.inflate);
    const auto pair =
        std::find_if(search.pairs.rbegin(), search.pairs.rend(), [&](const Clearance& each) {
            return each.inboard == inboard && each.outboard == outboard;
        });
    const bool asked = pair != search.pairs.rend();
    const Model& model = in_state(states, asked ? pair->state : std::string());
    Chained about{.question = question_of_gap(model, *from, *to)};
    if (asked) {
        Question::Difference& gap = about.question.differences.front();
        gap.stated = tilted_gap(model, *pair);
        gap.least = least_gap(model, *pair);
    }
    WhyAnswer answer = chain_answer(
        model, about, bounds(model, about.question.differences.front().stated, options.inflate),
        options);
    if (!asked) return answer;
    answer.id = id_of(*pair);
    answer.at_least = pair->at_least;
    answer.more_than = pair->more_than;
    answer.verdict = pair->verdict;
    answer.not_judged_for = pair->not_judged_for;
    return answer;
}

}  // namespace trialfit::stack
