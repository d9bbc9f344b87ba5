// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/names/name_index.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <utility>
#include <vector>

// Sizes in the words of the format.
namespace trialfit::reading {

/// A length in the shortest figures that read back to the last bit, the point never a comma.
[[nodiscard]] std::string figures(double length);
/// "length", "depth", "diameter", "gap".
[[nodiscard]] std::string_view word(job::GaugeReads reads);

/// Finds words for the sizes of one job. The job must outlive it.
class SizeWords {
public:
    explicit SizeWords(const job::Job& job);

    /// One line that reads back as this size and its gauge; empty where no line does. `bare`: what
    /// a number without limits means where the line is to stand. `holds`: the half-width that a
    /// number without limits has there (of a shim), 0 elsewhere.
    [[nodiscard]] std::string line(const job::Given& given, Bare bare, double holds = 0.0) const;

    /// An angle in degrees, "15 ±2 deg"; empty where there are no words for it.
    [[nodiscard]] std::string angle(const job::Given& given) const;

    /// A size in its long form: each key with its value, or with the values of a list. Empty where
    /// it has no words in that form either.
    using Pairs = std::vector<std::pair<std::string, std::vector<std::string>>>;
    [[nodiscard]] Pairs long_form(const job::Given& given) const;

private:
    [[nodiscard]] Pairs limits_as_told(const job::Given& given) const;
    [[nodiscard]] Pairs limits_in_figures(const job::Given& given) const;
    [[nodiscard]] bool reads(const std::string& words, const job::Given& given, Bare bare,
                             double holds) const;

    const job::Job& job_;
    NameIndex gauge_names_;
};

}  // namespace trialfit::reading
