// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// One of several jobs that are checked side by side.
struct CheckedJob {
    std::string file;
    /// Nothing where it could not be read or answered; what is wrong is told elsewhere.
    std::optional<stack::CheckAnswer> answer;
    /// The sizes that are not the same in all of the jobs, as this one has them: "plate.front" and
    /// "10.00 by caliper"; empty where it has no such size.
    struct Differs {
        std::string name;
        std::string written;
    };
    std::vector<Differs> differs;
};

/// How many of them fit, then a line each in their order: what differs, the check or clearance that
/// decides, its worst case and the verdict.
[[nodiscard]] Document document_of(const std::vector<CheckedJob>& jobs);
[[nodiscard]] inline std::string several_text(const std::vector<CheckedJob>& jobs,
                                              const Style& style) {
    return text_of(document_of(jobs), style);
}

/// Validates against schemas/several.schema.json.
[[nodiscard]] std::string several_json(const std::vector<CheckedJob>& jobs);

}  // namespace trialfit::paper
