// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check.hpp>
#include <trialfit/stack/clearances.hpp>
#include <trialfit/stack/requirements.hpp>

namespace trialfit::stack {

namespace {

std::string plural(std::size_t n, const std::string& one, const std::string& many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

bool asks_strength(const job::Job& job) {
    const auto strength = [](const std::optional<job::Limit>& limit) {
        return limit && limit->in == job::LimitIn::strength;
    };
    return std::any_of(job.checks.begin(), job.checks.end(), [&](const job::Check& check) {
        return strength(check.at_least) || strength(check.at_most);
    });
}

std::vector<std::string> notes(const Model& model) {
    const job::Job& job = model.job();
    std::vector<std::string> notes = model.notes();
    if (!model.closures().empty()) {
        notes.push_back(fmt::format(
            "{} given more than once: they agree within their limits, and were adjusted by "
            "least squares.",
            plural(model.closures().size(), "position is", "positions are")));
    }
    if (!job.readings.empty()) {
        notes.push_back(fmt::format(
            "The file's {} set aside: every figure here is from the sizes as written.",
            plural(job.readings.size(), "trial-fit reading was", "trial-fit readings were")));
    }
    if (!job.running_clearance) {
        notes.emplace_back(
            "The file gives no running_clearance: turning and still parts are only asked not to "
            "touch.");
    }
    return notes;
}

std::vector<std::string> not_assessed(const job::Job& job) {
    std::vector<std::string> list = {
        "burst strength and safe speed of the rotor",
        "balance",
        "radial gaps, runout, centring and tilt",
        "heat: every size is taken as it was measured, cold",
        "whether the cone holds and the thread stands the nut's torque",
        "ignition timing",
    };
    if (!job.readings.empty())
        list.emplace_back("whether the trial-fit readings agree with the sizes");
    if (asks_strength(job)) list.emplace_back("grip asked for by strength");
    return list;
}

}  // namespace

std::variant<CheckAnswer, job::Complaints> check(const job::Job& job, const Options& options) {
    auto built = Model::of(job);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const Model& model = std::get<Model>(built);

    CheckAnswer answer;
    answer.title = job.title;
    answer.file = job.file;
    answer.units = job.units;
    answer.judge = options.judge;
    answer.inflate = options.inflate;
    Search search = clearances(model, options.judge, options.inflate);
    for (const Clearance& pair : search.pairs)
        answer.verdict = worse(answer.verdict, pair.verdict);
    answer.first_contact = first_contact(model, search.pairs);
    answer.clearances = listed(std::move(search.pairs), options.all_pairs);
    answer.implied_left_out = search.implied_left_out;
    for (const job::Check& each : job.checks) {
        answer.checks.push_back(stack::answer(model, each, options.judge, options.inflate));
        answer.verdict = worse(answer.verdict, answer.checks.back().verdict);
    }
    answer.notes = notes(model);
    answer.not_assessed = not_assessed(job);
    return answer;
}

}  // namespace trialfit::stack
