// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/model/listing.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <variant>

// What is said of radial gaps and of tilt beside their figures.
namespace trialfit::stack {

namespace {

std::vector<std::string> missing_of(const std::vector<RadialGap>& pairs) {
    std::vector<std::string> missing;
    for (const RadialGap& pair : pairs)
        for (const std::string& each : pair.not_given)
            if (std::find(missing.begin(), missing.end(), each) == missing.end())
                missing.push_back(each);
    return missing;
}

// Parts with metal that do not say how they lean; what all else stands on leans by definition not.
std::vector<std::string> taken_square(const job::Job& job) {
    std::vector<std::string> names;
    for (const job::Part& part : job.parts)
        if (!part.seats.empty() && !part.rings.empty() && !says_how_it_leans(part))
            names.push_back(part.name);
    return names;
}

std::vector<std::string> cold_registers(const Model& model) {
    std::vector<std::string> names;
    const job::Job& job = model.job();
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
        const job::Part& part = job.parts[at(p)];
        if (!part.centred || part.centred->by == job::CentredBy::cone) continue;
        if (part.centred->by == job::CentredBy::bearing || warm_register(model, p).known) continue;
        names.push_back(part.name + " on " + part.centred->on_written);
    }
    return names;
}

}  // namespace

std::vector<std::string> radial_not_assessed(const Model& model,
                                             const std::vector<RadialGap>& pairs) {
    const job::Job& job = model.job();
    if (!asks_radial(job)) return {"radial gaps, runout, centring and tilt"};
    std::vector<std::string> list;
    const std::vector<std::string> missing = missing_of(pairs);
    if (!missing.empty())
        list.push_back(fmt::format("radial gaps for what is not given and taken as none: {}",
                                   some_of(missing, 8)));
    const std::vector<std::string> square = taken_square(job);
    if (!square.empty())
        list.push_back(
            fmt::format("what tilt takes off the gaps along the axis where no face "
                        "runout is given: {}",
                        some_of(square, 8)));
    const bool gaps = std::any_of(job.checks.begin(), job.checks.end(), [](const auto& check) {
        return std::holds_alternative<job::GapOf>(check.of);
    });
    if (gaps && any_leans(job))
        list.emplace_back(
            "what tilt takes off a check's gap between two faces, which have no diameter");
    const std::vector<std::string> cold = cold_registers(model);
    if (!job.states.empty() && !cold.empty())
        list.push_back(
            fmt::format("the clearance of {} when warm: no diameter of its fit is "
                        "given, so it is taken cold",
                        some_of(cold, 6)));
    return list;
}

std::vector<std::string> radial_notes(const std::vector<Clearance>& clearances,
                                      const std::vector<RadialGap>& pairs) {
    const auto several = [](const auto& pair) { return pair.several_directions; };
    if (std::none_of(pairs.begin(), pairs.end(), several) &&
        std::none_of(clearances.begin(), clearances.end(), several))
        return {};
    return {
        "Where several eccentricities or tilts lie on one side, worst case and RSS take their "
        "directions at the worst; 'trialfit odds' draws them."};
}

}  // namespace trialfit::stack
