// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// How lengths are printed. Printing rounds; JSON does not.
namespace trialfit::paper {

/// Decimals to print lengths in `units` with: what the unit is commonly read to (mm 2, inch 4, um
/// 0, thou 1); one more where one of the `written` values needs it to be printed whole; up to two
/// more where a distance of `narrowest` would otherwise not show (<= 0: nothing that small
/// matters).
[[nodiscard]] int decimals_for(quantity::Unit units, const std::vector<double>& written,
                               double narrowest);

/// `figure` itself, for what prints without the functions below. Throws std::logic_error where it
/// is not finite, as they do: an answer with such a figure in it is a fault of the program and must
/// not look whole.
[[nodiscard]] double finite(double figure);

/// `length` to the nearest of `decimals` figures after the point, halves away from zero, and noise
/// of a sum (a millionth of the last digit) is no reason for another digit; never "-0.00".
[[nodiscard]] std::string fixed(double length, int decimals);
/// Rounded away from zero, for an amount that must suffice: 4.7049 -> "4.71".
[[nodiscard]] std::string enough(double length, int decimals);
/// The same towards zero, for an amount that must not be passed.
[[nodiscard]] std::string at_most(double length, int decimals);
/// How far two lengths are apart as they are printed, so that the three figures agree.
[[nodiscard]] std::string apart(double one, double other, int decimals);
/// "-4.16 to -3.84".
[[nodiscard]] std::string range(stack::Range range, int decimals);
/// The nominal of a value, or one of its ranges; "-" where nothing measured fixes it.
[[nodiscard]] std::string told_nominal(const stack::Bounds& value, int decimals);
[[nodiscard]] std::string told_worst(const stack::Bounds& value, int decimals);
[[nodiscard]] std::string told_rss(const stack::Bounds& value, int decimals);
/// A share from 0 to 1 in whole per cent: "41 %".
[[nodiscard]] std::string percent(double share);
/// `value` with up to `figures` significant figures and no trailing zeros: "5", "0.2", "1.333".
[[nodiscard]] std::string brief(double value, int figures = 4);

/// Sizes that pass: the range's ends rounded inwards, "5.50..5.56"; a decimal more where it is
/// narrow.
[[nodiscard]] std::string window(stack::Range range, int decimals);

/// The lengths of one answer, with their inches in brackets where those are asked for.
struct Lengths {
    quantity::Unit units = quantity::Unit::mm;
    int decimals = 2;
    bool inches = false;

    [[nodiscard]] std::string operator()(double length) const;
    [[nodiscard]] std::string with_unit(double length) const;
    [[nodiscard]] std::string range(stack::Range range) const;
    [[nodiscard]] std::string window(stack::Range range) const;
    /// What must remain, rounded up; what must not be passed, rounded down.
    [[nodiscard]] std::string least(double length) const;
    [[nodiscard]] std::string most(double length) const;
    /// A length that was told otherwise, and its inches.
    [[nodiscard]] std::string beside(std::string told, double length) const;
};

}  // namespace trialfit::paper
