// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/reader.hpp>
#include <vector>

namespace trialfit::reading {

/// The text of one file that is joined with others, and what it must say to stand among them.
struct FileToJoin {
    std::string name;
    std::string text;              ///< line ends as '\n', the last line ended
    std::vector<SaidByFile> said;  ///< places in `text`
};

/// The texts of an engine, which is the first, and of kits as one file; `job`: what they make.
/// Nothing where a file does not write each of its keys, and each item of its lists, on a line of
/// its own, so that lines cannot be moved.
[[nodiscard]] std::optional<std::string> join_texts(std::vector<FileToJoin> files,
                                                    const job::Job& job);

}  // namespace trialfit::reading
