// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>

namespace trialfit::stack {

/// Lengths closer than this, in the file's unit, are equal: the rest is rounding, not metal.
inline constexpr double kRounding = 1e-9;

/// Nominal, middle, worst case and RSS of a form in the sizes of `model`: worst case m +- sum |s_i|
/// h_i, RSS m +- inflate sqrt(sum (s_i h_i)^2). Where closures tie the sizes, nominal, middle and
/// RSS are those of the adjusted sizes and the worst case is the extremes over all sizes that keep
/// within every limit; of the RSS range what the worst case rules out is left away. Where a part's
/// play moves the form, the same at each end of the movement: the least gap is the gap less |k|
/// P/2, the greatest the gap plus |k| P/2, with the play P a size with limits of its own
/// (Model::least_end).
[[nodiscard]] Bounds bounds(const Model& model, const Form& form, double inflate);

/// The same with other sizes in the model's place (same columns), for "what if this were measured
/// better".
[[nodiscard]] Bounds bounds(const Model& model, const Ties& ties, const SizeColumns& sizes,
                            const Form& form, double inflate);

/// The same of a form as it stands, with nothing moving it.
[[nodiscard]] Fixed fixed_bounds(const Ties& ties, const SizeColumns& sizes, const Form& form,
                                 double inflate);

/// What is said of a value that nothing measured fixes, see Fixed::open.
[[nodiscard]] Fixed left_open();

/// `rss` without what `worst` rules out: the end of `worst` nearest to it where that is all of it.
[[nodiscard]] Range within_worst(const Range& rss, const Range& worst);

/// A value at its stated place, and at the ends of its movement.
[[nodiscard]] Bounds moving_between(const Fixed& stated, const Fixed& least, const Fixed& greatest);

/// The least, or the greatest, of two values in every bound; exact for its own worst case.
[[nodiscard]] Fixed least_of(const Fixed& a, const Fixed& b);
[[nodiscard]] Fixed greatest_of(const Fixed& a, const Fixed& b);
/// The least of two values that may move. The greatest of a least that moves is at most the least
/// of the greatest values.
[[nodiscard]] Bounds least_of(const Bounds& a, const Bounds& b);

/// The range that `judge` looks at.
[[nodiscard]] inline const Range& judged(const Fixed& value, Judge judge) {
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
/// range does. doubtful: the rest; not judged where the value is open. A moving value is held
/// against `least` at its least end and against `most` at its greatest.
[[nodiscard]] Verdict verdict(const Bounds& value, const Demand& demand, Judge judge);

/// The worse of two verdicts: fails, then doubtful, then not judged, then holds.
[[nodiscard]] constexpr Verdict worse(Verdict a, Verdict b) {
    return a > b ? a : b;
}

}  // namespace trialfit::stack
