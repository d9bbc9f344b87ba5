// SPDX-License-Identifier: MIT
#include <algorithm>
#include <mutex>
#include <thread>
#include <trialfit/match/match.hpp>
#include <trialfit/match/present.hpp>
#include <trialfit/match/rank.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/spin/spin.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>

namespace trialfit::match {

namespace {

using reading::Joiner;

// A search that goes on as long as this gives the best so far.
constexpr double kLongestSearch_s = 7.0;

class Judging {
public:
    Judging(const Joiner& joiner, const Options& options) : joiner_(joiner), options_(options) {}

    [[nodiscard]] Candidate judge(const std::vector<std::size_t>& files) const {
        Candidate out{.files = files};
        for (const std::size_t file : files)
            for (const job::Complaint& each : joiner_.unreadable(file))
                out.complaints.push_back({.file = file, .complaint = each});
        if (!out.complaints.empty()) return out;
        reading::Joined joined = joiner_.joined(files);
        out.titles = std::move(joined.titles);
        out.price = joined.price;
        if (!joined.job) {
            out.complaints = std::move(joined.complaints);
            return out;
        }
        auto now = present(*joined.job);
        if (refused(now, out)) return out;
        const auto& [job, how] = std::get<Present>(now);
        auto model = stack::model_for(job, how);
        if (refused(model, out)) return out;
        const auto& of = std::get<stack::Model>(model);
        out.check = stack::check(of, how);
        weigh(job, how, out);
        if (!judge_running(job, how, out)) return out;
        // Work that is planned already is told, not planned again.
        if (out.standing != Standing::holds && out.check->may_change && job.planned.empty() &&
            !nothing_judged(*out.check))
            plan(of, how, out);
        out.standing = std::max(out.standing, running(out));
        return out;
    }

private:
    // Whether there is no answer but complaints, which are then the candidate's.
    template <typename Outcome>
    bool refused(Outcome& outcome, Candidate& candidate) const {
        auto* const complaints = std::get_if<job::Complaints>(&outcome);
        if (complaints == nullptr) return false;
        for (job::Complaint& each : *complaints)
            candidate.complaints.push_back(joiner_.located(std::move(each)));
        return true;
    }

    // Seat and start, where the job asks for them; false where one of them has complaints, which
    // are then the candidate's.
    bool judge_running(const job::Job& job, const stack::Options& how, Candidate& out) const {
        if (job.seat) {
            auto outcome = seat::seat(job, how);
            if (refused(outcome, out)) return refuse(out);
            out.seat = std::move(std::get<seat::SeatAnswer>(outcome));
        }
        if (job.spin) {
            auto outcome = spin::spin(job, how);
            if (refused(outcome, out)) return refuse(out);
            out.spin = std::move(std::get<spin::SpinAnswer>(outcome));
        }
        return true;
    }
    static bool refuse(Candidate& candidate) {
        candidate.standing = Standing::not_judged;
        candidate.check.reset();
        return false;
    }

    // How seat and start stand, which no cut mends.
    static Standing running(const Candidate& candidate) {
        Standing worst = Standing::holds;
        if (candidate.seat) worst = std::max(worst, standing_of(candidate.seat->verdict));
        // Magnets over poles and air gaps are checks of the job, which a plan may mend.
        if (candidate.spin) {
            for (const auto& held : {candidate.spin->carried, candidate.spin->spark})
                if (held) worst = std::max(worst, standing_of(held->verdict));
            if (!candidate.spin->not_judged.empty()) worst = Standing::not_judged;
        }
        return worst;
    }
    static Standing standing_of(stack::Verdict verdict) {
        switch (verdict) {
            case stack::Verdict::holds:
                return Standing::holds;
            case stack::Verdict::not_judged:
                return Standing::not_judged;
            case stack::Verdict::doubtful:
                return Standing::doubtful;
            case stack::Verdict::fails:
                break;
        }
        return Standing::no_plan;
    }

    static void weigh(const job::Job& job, const stack::Options& how, Candidate& candidate) {
        candidate.standing = nothing_judged(*candidate.check)
                                 ? Standing::not_judged
                                 : standing_of(candidate.check->verdict);
        if (candidate.standing == Standing::holds) candidate.odds = 1.0;
        if (candidate.standing == Standing::holds || candidate.standing == Standing::not_judged)
            return;
        odds::Options asked = odds::beside(how);
        asked.chances_only = true;
        const auto outcome = odds::odds(job, asked);
        const auto* const chances = std::get_if<odds::OddsAnswer>(&outcome);
        if (chances == nullptr) return;
        odds::give_odds(*candidate.check, *chances);
        candidate.odds = least_chance(*candidate.check);
    }

    // Of the check or clearance that is least likely to hold.
    static std::optional<double> least_chance(const stack::CheckAnswer& answer) {
        std::optional<double> least;
        const auto weigh = [&](const auto& findings) {
            for (const auto& each : findings)
                if (each.odds) least = std::min(least.value_or(1.0), *each.odds);
        };
        weigh(answer.clearances);
        weigh(answer.checks);
        weigh(answer.radial);
        return least;
    }

    void plan(const stack::Model& model, const stack::Options& how, Candidate& candidate) const {
        plan::JobOptions asked{.stack = how};
        asked.top = 1;
        asked.watch.seconds = kLongestSearch_s;
        asked.watch.stop = options_.stop;
        candidate.plan = plan::plan(model, asked);
        const auto& plans = candidate.plan->plans;
        if (plans.empty()) return;
        // What no work mends stays as it is: a hub whose taper is another one than its shaft's.
        const stack::Verdict after = plans.front().after.verdict;
        candidate.standing =
            after == stack::Verdict::holds ? Standing::after_plan : standing_of(after);
    }

    const Joiner& joiner_;
    const Options& options_;
};

// Runs `work` for 0 to count - 1 on some threads, until it is asked to stop.
template <typename Work>
void on_threads(std::size_t count, const Options& options, const Work& work) {
    const unsigned machine = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t threads =
        std::min<std::size_t>(options.threads == 0 ? machine : options.threads, count);
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            if (options.stop != nullptr && *options.stop) return;
            work(i);
        }
    };
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < threads; ++i)
        others.emplace_back(run);
    run();
    for (std::thread& each : others)
        each.join();
}

}  // namespace

std::vector<std::vector<std::size_t>> combinations(
    const std::vector<std::vector<std::size_t>>& groups) {
    std::vector<std::vector<std::size_t>> all{{}};
    for (const std::vector<std::size_t>& group : groups) {
        std::vector<std::vector<std::size_t>> longer;
        longer.reserve(all.size() * group.size());
        for (const std::vector<std::size_t>& each : all)
            for (const std::size_t file : group) {
                longer.push_back(each);
                longer.back().push_back(file);
            }
        all = std::move(longer);
    }
    return all;
}

MatchAnswer match(const Joiner& joiner, const std::vector<std::vector<std::size_t>>& combinations,
                  const Options& options) {
    const Judging judging(joiner, options);
    std::vector<std::optional<Candidate>> judged(combinations.size());
    std::mutex telling;
    std::size_t done = 0;
    on_threads(combinations.size(), options, [&](std::size_t i) {
        judged[i] = judging.judge(combinations[i]);
        const std::scoped_lock lock(telling);
        ++done;
        if (options.progress) options.progress(done);
    });
    const reading::Head head = joiner.head();
    MatchAnswer out{.engine = joiner.name(0), .title = head.title, .units = head.units};
    for (std::size_t i = 0; i < joiner.size(); ++i)
        out.files.push_back(joiner.name(i));
    out.asked = combinations.size();
    for (std::optional<Candidate>& each : judged)
        if (each) out.candidates.push_back(std::move(*each));
    out.stopped = (options.stop != nullptr && *options.stop) || out.candidates.size() < out.asked;
    std::stable_sort(out.candidates.begin(), out.candidates.end(), before);
    return out;
}

}  // namespace trialfit::match
