// SPDX-License-Identifier: MIT
#include <trialfit/match/present.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>

namespace trialfit::match {

std::variant<Present, job::Complaints> present(const job::Job& as_read) {
    auto built = stack::as_built(as_read, as_read.record.size());
    if (auto* const complaints = std::get_if<job::Complaints>(&built))
        return std::move(*complaints);
    Present now{.job = std::move(std::get<job::Job>(built)), .how = {}};
    auto evidence = survey::evidence(now.job);
    if (auto* const complaints = std::get_if<job::Complaints>(&evidence))
        return std::move(*complaints);
    now.how.readings = std::move(std::get<std::vector<stack::TrialFit>>(evidence));
    return now;
}

std::optional<draw::Section> section_of(const reading::Joiner& joiner, const Candidate& candidate) {
    if (!candidate.check) return std::nullopt;
    const reading::Joined joined = joiner.joined(candidate.files);
    if (!joined.job) return std::nullopt;
    const auto now = present(*joined.job);
    const auto* const of = std::get_if<Present>(&now);
    if (of == nullptr) return std::nullopt;
    auto drawn = draw::section(of->job, of->how);
    auto* const section = std::get_if<draw::Section>(&drawn);
    return section == nullptr ? std::nullopt : std::optional(std::move(*section));
}

}  // namespace trialfit::match
