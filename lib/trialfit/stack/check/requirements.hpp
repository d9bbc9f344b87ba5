// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::stack {

/// What a check asks about, as forms: the value is the least of the differences. One for a gap; for
/// an engagement and an overlap the four of min(ends) - max(starts).
struct Question {
    CheckKind kind = CheckKind::gap;
    std::string first;
    std::string second;
    struct Difference {
        Form stated;        ///< with every part that floats at its stated place
        Form least;         ///< at the end of their play that makes it least: held to `at_least`
        Form greatest;      ///< at the end that makes it greatest: held to `at_most`
        std::string words;  ///< "rotor.magnet_out - stator.pole_in"
    };
    std::vector<Difference> differences;
    /// Overlap: the length of the ring that is spanned.
    std::optional<Form> length;
};

/// What a check asks, or a bare gap of two faces, as forms in the model's sizes (the file's unit).
[[nodiscard]] Question question(const Model& model, const job::Check& check);
[[nodiscard]] Question question_of_gap(const Model& model, job::FaceRef inboard,
                                       job::FaceRef outboard);

/// A limit as the stack uses it: a length, or a share of the question's length. Nothing for
/// `strength` where the job does not say how strong the threads are (engagement_for_strength).
struct Threshold {
    double length = 0.0;
    double share = 0.0;  ///< of the question's length, on top of `length`
};
[[nodiscard]] std::optional<Threshold> threshold(const Model& model, const job::Check& check,
                                                 const job::Limit& limit);

/// The least of the differences, in every bound: exact for the least worst case, since the least of
/// four takes its least where one of them does.
[[nodiscard]] Bounds value_of(const Model& model, const Question& question, double inflate);

/// The same, less the threshold.
[[nodiscard]] Bounds margin_over(const Model& model, const Question& question,
                                 const Threshold& threshold, double inflate);

/// Which difference decides: the smallest in the judged lower bound over the threshold.
[[nodiscard]] std::size_t deciding(const Model& model, const Question& question,
                                   const std::optional<Threshold>& at_least, Judge judge,
                                   double inflate);

/// The whole answer to one check.
[[nodiscard]] CheckResult answer(const Model& model, const job::Check& check, Judge judge,
                                 double inflate);

/// The same in each of the job's states: that of the one that decides, with the worst verdict and
/// the least to spare.
[[nodiscard]] CheckResult answer(const std::vector<Model>& states, const job::Check& check,
                                 Judge judge, double inflate);

/// The model of the state that a finding was decided in; the first where it names none.
[[nodiscard]] const Model& in_state(const std::vector<Model>& states, const std::string& state);

}  // namespace trialfit::stack
