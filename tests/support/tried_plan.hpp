// SPDX-License-Identifier: MIT
// Anything that a job's planner may decide, at random, and the job with it done.
#pragma once

#include <random>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::testing {

/// A size that work brings about. Work is told from the sizes before it by these words.
inline job::Given worked(double finish, double holds = 0.0) {
    return {.size = quantity::toleranced(finish, -holds, holds), .written = "as worked"};
}

struct Tried {
    numerics::Selection selection;
    std::vector<double> depths;
    stack::Changes changes;
};

class Trying {
public:
    Trying(const plan::JobProblem& problem, std::mt19937& random)
        : problem_(problem), random_(random) {}

    Tried run() {
        for (std::size_t w = 0; w < problem_.problem().activities.size(); ++w)
            work(w);
        for (std::size_t q = 0; q < problem_.problem().bins.size(); ++q)
            stack(q);
        return std::move(tried_);
    }

private:
    double share() { return std::uniform_real_distribution<double>()(random_); }

    void work(std::size_t w) {
        const bool made = share() < 0.5;
        tried_.selection.done.push_back(made);
        tried_.depths.push_back(made ? share() * problem_.problem().activities[w].at_most : 0.0);
        if (!made) return;
        const double depth = tried_.depths.back();
        const plan::Work& any = problem_.demands().works[w];
        stack::Changes& changes = tried_.changes;
        if (const auto* cut = std::get_if<plan::FaceCut>(&any))
            changes.cuts.push_back(
                {.part = cut->part,
                 .face = cut->cut->face,
                 .measure = cut->cut->measure,
                 .size = worked(cut->sign * (cut->now - depth), cut->cut->holds)});
        if (const auto* lap = std::get_if<plan::ConeLap>(&any))
            changes.laps.push_back(
                {.cone = {.part = lap->part, .index = lap->lap->cone}, .off_diameter = depth});
        if (const auto* skim = std::get_if<plan::RingSkim>(&any))
            changes.skims.push_back(
                {.ring = {.part = skim->part, .index = skim->skim->ring},
                 .bore = skim->skim->bore,
                 .size = worked(skim->now + skim->length.by_depth * depth, skim->skim->holds)});
        if (const auto* by_hand = std::get_if<plan::HandCentring>(&any))
            changes.centrings.push_back(
                {.part = by_hand->part,
                 .clearance = worked(by_hand->length.start, by_hand->length.holds)});
    }

    void stack(std::size_t q) {
        const plan::ShimSeat& seat = problem_.demands().seats[q];
        std::vector<std::size_t> stack;
        stack::Restacked laid{.part = seat.part, .seat = seat.seat, .shims = {}};
        for (const std::size_t kind : problem_.problem().bins[q].stock) {
            if (share() < 0.5) continue;
            stack.push_back(kind);
            laid.shims.push_back(
                {.shim = problem_.stock()[kind].given, .fitted = problem_.stock()[kind].fitted});
        }
        tried_.selection.stacks.push_back(std::move(stack));
        tried_.changes.stacks.push_back(std::move(laid));
    }

    const plan::JobProblem& problem_;
    std::mt19937& random_;
    Tried tried_;
};

}  // namespace trialfit::testing
