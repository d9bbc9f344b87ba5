// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// A clearance or a check, so that sentences about both are made in one place. Lengths in the
/// file's unit.
struct CheckFinding {
    enum class About { clearance, gap, engagement, overlap, radial, clamp };
    About about = About::clearance;
    /// A check's name, or "plate.front to rotor.rim" for a clearance.
    std::string name;
    /// Of an air gap with two limits, which are on two figures: "least" or "greatest" of it.
    std::string side{};
    std::string first;
    std::string second;
    /// Of a clearance: the faces that the two ends are, or lie beyond.
    std::string first_face{};
    std::string second_face{};
    /// Found without a check of the job: a clearance, or a radial gap of two rings.
    bool automatic = false;
    stack::Bounds value;
    std::optional<double> at_least;
    std::optional<double> at_most;
    /// The value must be greater than `at_least`, not merely reach it.
    bool more_than = false;
    stack::Verdict verdict = stack::Verdict::holds;
    /// The chance that it holds, where that was worked out.
    std::optional<double> odds{};
    std::optional<double> fails{};
    /// Of a job with states: the one that decides, and what it is in each.
    std::string state{};
    std::vector<stack::InState> in_states{};
};

/// " in state 'run'"; empty for a job without states.
[[nodiscard]] std::string in_its_state(const std::string& state);

/// Its name, and which side of it.
[[nodiscard]] std::string titled(const CheckFinding& finding);

/// A check: one finding, or two where its two limits are on two figures (an air gap's least and
/// greatest), each judged by itself.
[[nodiscard]] std::vector<CheckFinding> sides(const stack::CheckResult& check, stack::Judge judge);

/// The clearances, the checks, then the radial gaps, each in the answer's order and one each: of a
/// check with two sides the one that decides.
[[nodiscard]] std::vector<CheckFinding> findings(const stack::CheckAnswer& answer);
/// The same, but where a clearance and a check are about the same gap only the one that asks more:
/// for sentences, which would say it twice. A check with two sides is there with both.
[[nodiscard]] std::vector<CheckFinding> distinct_findings(const stack::CheckAnswer& answer);
/// What a chain is about.
[[nodiscard]] CheckFinding finding(const stack::WhyAnswer& answer);

/// What the verdicts are judged by.
[[nodiscard]] stack::Range shown_range(const stack::Bounds& bounds, stack::Judge judge);

/// What is asked of it, for a column: "0.40 to 0.60", "≤0.35", ">0.00", "-".
[[nodiscard]] std::string needed(const CheckFinding& finding, int decimals);

/// Where a range comes nearest to breaking its limits, or breaks them by most.
struct Pinch {
    /// At the least value asked for (else at the greatest).
    bool low = true;
    /// The end of the range there, and the limit that it meets.
    double end = 0.0;
    double limit = 0.0;
    /// By how much the end misses the limit; < 0: by how much it passes.
    double miss = 0.0;
};
/// Nothing where the finding has no limits.
[[nodiscard]] std::optional<Pinch> pinch(const CheckFinding& finding, stack::Range range);

/// Whether all of `range` is within the limits.
[[nodiscard]] bool within(const CheckFinding& finding, stack::Range range);
/// The half-width of the narrowest range that is not a point, or the least miss of a limit, of one
/// finding: what printing must not round away. 0 where there is none.
[[nodiscard]] double finest(const CheckFinding& finding);

/// Whether the part that meets something before its seat may meet another thing sooner, of which
/// nobody has measured where it lies: what is told of it is then the least.
[[nodiscard]] bool may_meet_sooner(const stack::CheckAnswer& answer);

/// What a part that is pushed home meets before its seat, in one or two sentences: who on whom, how
/// far before the seat, and what the other figures assume. Where only the worst case touches it
/// says so. Empty where nothing touches.
[[nodiscard]] std::string first_contact_told(const stack::CheckAnswer& answer,
                                             const Lengths& lengths);

/// The finding that decides a job: of the worst verdict, and among those the one nearest to its
/// limits or furthest beyond them. Null where nothing has a limit.
[[nodiscard]] const CheckFinding* deciding(const std::vector<CheckFinding>& all,
                                           stack::Judge judge);

/// Decimals that every figure of `all` may be printed with.
[[nodiscard]] int decimals_for(quantity::Unit units, const std::vector<CheckFinding>& all);

}  // namespace trialfit::paper
