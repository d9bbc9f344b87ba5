// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <trialfit/sheet/live/finding.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/sheet/live/moved.hpp>
#include <trialfit/sheet/live/place.hpp>
#include <utility>
#include <vector>

// The answers for sets of fields filled in.
namespace trialfit::sheet {

/// Which fields are filled in: bit f for the field f.
using LiveMask = std::uint32_t;
[[nodiscard]] inline bool has(LiveMask mask, std::size_t field) {
    return ((mask >> field) & 1U) != 0;
}
[[nodiscard]] inline LiveMask only(std::size_t field) {
    return LiveMask{1} << field;
}

/// How far the work is done: at the references, and in two other ways up to the most that a field
/// takes (of shims: one, three, none).
enum class LiveDepth { reference, half, whole };

/// The answers are worked out when they are asked for; those at the references once.
class LiveChoices {
public:
    /// All three must outlive it.
    LiveChoices(const stack::Model& model, const stack::Options& options,
                const std::vector<LivePlace>& places)
        : job_(model.job()), places_(places), work_(model, options, places) {}

    /// At the references; nothing where a size that the work makes is tied.
    [[nodiscard]] const LiveFound* at(LiveMask mask);
    [[nodiscard]] std::optional<LiveFound> at(LiveMask mask, LiveDepth depth) const;
    /// What stands apart from the findings, at the references; nothing as at().
    [[nodiscard]] std::optional<stack::Verdict> apart(LiveMask mask) const;
    /// What is typed at that depth.
    [[nodiscard]] LiveSizes typed(LiveMask mask, LiveDepth depth) const;

    [[nodiscard]] const job::Job& job() const { return job_; }
    [[nodiscard]] std::size_t fields() const { return places_.size(); }
    [[nodiscard]] const std::vector<job::Reading>& readings() const { return work_.readings(); }

private:
    [[nodiscard]] std::optional<LiveDone> done(LiveMask mask, LiveDepth depth) const;

    const job::Job& job_;
    const std::vector<LivePlace>& places_;
    LiveWork work_;
    std::map<LiveMask, std::optional<LiveFound>> known_;
};

/// Whether both hold the same findings, held to the same limits, in the same order.
[[nodiscard]] bool same_findings(const LiveFound& one, const LiveFound& other);

/// Whether the nut draws the hub as far home in both.
[[nodiscard]] bool draws_up_alike(const LiveFound& one, const LiveFound& other);

}  // namespace trialfit::sheet
