// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model.hpp>

namespace trialfit::stack {

/// Lengths closer than this, in the file's unit, are equal: the rest is rounding, not metal.
inline constexpr double kRounding = 1e-9;

/// Nominal, middle, worst case and RSS of a form in the sizes of `model` (design 3, "Bounds"):
/// worst case m +- sum |s_i| h_i, RSS m +- inflate sqrt(sum (s_i h_i)^2). Where closures tie the
/// sizes, nominal, middle and RSS are those of the adjusted sizes and the worst case is the
/// extremes over all sizes that keep within every limit.
[[nodiscard]] Bounds bounds(const Model& model, const Form& form, double inflate);

/// The same with other sizes in the model's place (same columns), for "what if this were measured
/// better".
[[nodiscard]] Bounds bounds(const Ties& ties, const SizeColumns& sizes, const Form& form,
                            double inflate);

/// The range that `judge` looks at.
[[nodiscard]] inline const Range& judged(const Bounds& value, Judge judge) {
    return judge == Judge::worst ? value.worst : value.rss;
}

/// What a value must be: at least, at most (infinite where not asked); `more_than`: strictly over
/// `least`.
struct Demand {
    double least = 0.0;
    double most = 0.0;
    bool more_than = false;
};

/// holds: all of the judged range meets the demand. fails: the nominal does not, or nothing in the
/// range does. doubtful: the rest (design 2).
[[nodiscard]] Verdict verdict(const Bounds& value, const Demand& demand, Judge judge);

/// The worse of two verdicts: fails, then doubtful, then not judged, then holds.
[[nodiscard]] constexpr Verdict worse(Verdict a, Verdict b) {
    return a > b ? a : b;
}

}  // namespace trialfit::stack
