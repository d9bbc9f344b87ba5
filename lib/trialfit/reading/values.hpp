// SPDX-License-Identifier: MIT
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/job/service.hpp>
#include <trialfit/reading/fields.hpp>
#include <trialfit/reading/reader.hpp>

// Single values. Each takes the node (nothing is read and nothing said where it is null, the key
// being absent or already complained of), complains where the value is not of its kind, and gives
// nothing, or a placeholder that raises no further complaint.
namespace trialfit::reading {

/// Words, as written; complains where they are none. `what`: "the title", "the note of a cut".
[[nodiscard]] std::string text_of(Reader& reader, const Node* node, std::string_view what);

/// One of a few words.
[[nodiscard]] std::optional<std::size_t> choice_of(Reader& reader, const Node* node,
                                                   std::string_view what,
                                                   std::initializer_list<std::string_view> words);

/// true or false.
[[nodiscard]] std::optional<bool> truth_of(Reader& reader, const Node* node, std::string_view what);

/// What a number may be.
struct AcceptedNumber {
    double least = 0.0;
    double greatest = 0.0;
    /// What is wrong with a number beyond them: "must be greater than 0".
    std::string_view rule;
};
/// A number without unit.
[[nodiscard]] std::optional<double> number_in(Reader& reader, const Node* node,
                                              std::string_view what, const AcceptedNumber& bounds);
/// A whole number.
[[nodiscard]] std::optional<int> count_of(Reader& reader, const Node* node, std::string_view what,
                                          int least);

/// A length without spread, >= 0 (or > 0), in the file's unit.
enum class Least { zero_allowed, above_zero, any };
[[nodiscard]] std::optional<double> length_of(Reader& reader, const Node* node,
                                              std::string_view what, Least least);
/// A half-width, with or without '±', >= 0.
[[nodiscard]] std::optional<double> half_width_of(Reader& reader, const Node* node,
                                                  std::string_view what);

/// Whether a size may be `unmeasured`: only one that readings can find may.
enum class MayBe { measured, unmeasured };

/// A size in any written form, short or long.
[[nodiscard]] job::Given size_of(Reader& reader, const Node* node, Bare bare,
                                 MayBe may_be = MayBe::measured);
/// As size_of(); complains where it is below zero (or not above it) even at a limit.
[[nodiscard]] job::Given size_at_least(Reader& reader, const Node* node, Bare bare,
                                       std::string_view what, Least least,
                                       MayBe may_be = MayBe::measured);

/// A figure or a range, `35`, `30..40 N m`, the unit optional; never negative.
[[nodiscard]] std::optional<job::Span> span_of(Reader& reader, const Node* node,
                                               std::string_view what, std::string_view unit);
/// A unit that a figure may be in, and how much of what is read one of it is.
struct UnitOf {
    std::string_view unit;
    double is = 1.0;
};
/// A figure or a range in one of several units, which it must name: `12..14 kg cm2`; never
/// negative. The first is the one that a mend shows.
[[nodiscard]] std::optional<job::Span> span_in(Reader& reader, const Node* node,
                                               std::string_view what,
                                               std::initializer_list<UnitOf> units);
/// A figure with an optional unit, `90 C`, `15 deg`.
[[nodiscard]] std::optional<double> figure_of(Reader& reader, const Node* node,
                                              std::string_view what, std::string_view unit,
                                              const AcceptedNumber& bounds);

/// A gauge by name: its index, or nothing.
[[nodiscard]] std::optional<job::GaugeId> gauge_of(Reader& reader, const Node* node);

/// A size in its long form, from a map whose keys are already checked.
[[nodiscard]] job::Given long_form(Reader& reader, const Fields& fields, Bare bare,
                                   MayBe may_be = MayBe::measured);

}  // namespace trialfit::reading
