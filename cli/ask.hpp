// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/paper/start/fill.hpp>

namespace trialfit::cli {

/// Where questions go and answers come from.
struct Talk {
    /// The next line without its end; nothing where there are no more.
    std::function<std::optional<std::string>()> line;
    std::function<void(std::string_view)> say;
};

/// Asks for every letter of `kind`, in turn: an answer that will not do is asked for again, `?`
/// tells how to measure, `b` goes back. Nothing where the lines ended before the last answer.
[[nodiscard]] std::optional<paper::StartAnswers> asked(const paper::StartKind& kind,
                                                       const job::Job& in_template,
                                                       const Talk& talk);

/// `start KIND --ask`: asks at the terminal, writes `file` and checks it. Returns the check's exit
/// code; kWrong, with nothing written, where there is no terminal, the file may not be written or
/// the questions were broken off.
[[nodiscard]] int ask(const paper::StartKind& kind, quantity::Unit units,
                      const std::optional<std::string>& file, bool force);

}  // namespace trialfit::cli
