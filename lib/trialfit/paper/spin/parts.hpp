// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/spin/answers.hpp>

// What the documents and the JSON of a spin answer share.
namespace trialfit::paper {

/// "17.8": kg cm2, of an inertia in kg m2. What must suffice is rounded up, what must not be passed
/// down.
[[nodiscard]] std::string kg_cm2(double inertia_kg_m2);
[[nodiscard]] std::string kg_cm2_enough(double inertia_kg_m2);
[[nodiscard]] std::string kg_cm2_at_most(double inertia_kg_m2);
/// Joule and revolutions per minute, rounded down, as what is there is told, and up, as what is
/// needed is.
[[nodiscard]] std::string joule(double energy_j);
[[nodiscard]] std::string joule_enough(double energy_j);
[[nodiscard]] std::string rpm_left(double rpm);
[[nodiscard]] std::string rpm_needed(double rpm);
/// "16.2 to 18.1", or one figure where both are the same.
[[nodiscard]] std::string both_ends(const std::string& least, const std::string& greatest);

/// What a check is after the cheapest plan; nothing where no plan was looked for or none is there.
[[nodiscard]] std::optional<stack::Verdict> after_plan(const stack::CheckResult& check,
                                                       const plan::PlanAnswer* cheapest);

/// By how much a check misses its limit at its bad end, in the file's unit; nothing where it does
/// not miss or is not judged.
[[nodiscard]] std::optional<double> short_of(const stack::CheckResult& check);

/// The reasons for a weak spark.
[[nodiscard]] Document weak_spark_section(const spin::SpinAnswer& answer,
                                          const plan::PlanAnswer* cheapest);

/// "speed": what the starter is known by.
[[nodiscard]] std::string_view word(spin::StarterKind kind);

}  // namespace trialfit::paper
