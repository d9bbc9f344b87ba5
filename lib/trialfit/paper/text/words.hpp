// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// The words that several printers share.
namespace trialfit::paper {

/// A name of the job file in a sentence: "plate.front" -> "the plate's front"; a name without a dot
/// as it is. At most 60 columns; a longer name loses its middle.
[[nodiscard]] std::string spoken(std::string_view name);
/// A name for a list or a heading: harmless, at most `width` columns.
[[nodiscard]] std::string listed(std::string_view name, std::size_t width = 60);
/// The last part of a path: what a file is called, wherever it lies.
[[nodiscard]] std::string file_name(std::string_view path);
/// "1 check", "3 checks".
[[nodiscard]] std::string counted(std::size_t count, std::string_view what);
/// `text`, which begins with a small letter from a to z, with a capital.
[[nodiscard]] std::string capital(std::string text);
/// "a, b and c".
[[nodiscard]] std::string joined(const std::vector<std::string>& words);
/// `text` as one word of a shell command: as it is where no shell minds it, else in double quotes.
[[nodiscard]] std::string shell_word(std::string_view text);

/// A unit behind a figure in a sentence: "mm", "inch", so that no inch reads as the word "in".
[[nodiscard]] std::string_view spoken(quantity::Unit unit);
/// "Lengths in ...": "mm", "inches".
[[nodiscard]] std::string_view plural(quantity::Unit unit);
/// "holds", "doubtful", "fails".
[[nodiscard]] std::string_view word(stack::Verdict verdict);
/// The same for a table, where what fails is set in capitals so that it is found without colour.
[[nodiscard]] std::string_view loud_word(stack::Verdict verdict);
[[nodiscard]] Ink ink(stack::Verdict verdict);
/// "worst", "rss".
[[nodiscard]] std::string_view word(stack::Judge judge);
/// "in the worst case", "by RSS".
[[nodiscard]] std::string_view phrase(stack::Judge judge);
/// "gap", "engagement", "overlap", "air_gap".
[[nodiscard]] std::string_view word(stack::CheckKind kind);

/// What an answer is about: "Demo job (demo.yaml)"; the file alone where the job has no title.
[[nodiscard]] std::string titled(std::string_view title, std::string_view file);
/// "Lengths in mm, judged by RSS. RSS half-widths times 1.5."
[[nodiscard]] std::string told_judge(quantity::Unit units, stack::Judge judge,
                                     std::optional<double> odds_level, double inflate);
/// "NOT JUDGED: the cone's torque. 2 others are not judged either."; empty where all is judged.
[[nodiscard]] std::string told_not_judged(const std::vector<std::string>& not_judged);

/// Sources that figures point to, each once; the first is number 1.
struct Sources {
    std::vector<std::string> all{};

    /// The number of `source`, which is added where it is new.
    std::size_t number(const std::string& source);
};

/// An answer's first sentences: what changes it, then the answer itself.
[[nodiscard]] std::string warned(const std::vector<std::string>& warnings,
                                 const std::string& answer);

}  // namespace trialfit::paper
