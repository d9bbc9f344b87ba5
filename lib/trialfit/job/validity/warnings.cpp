// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/job/former.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <utility>

namespace trialfit::job {

namespace {

constexpr double kNoise = 1e-9;  // rounding of sums, not metal

// What was worked on, by the record's entries in force or by the plan that is taken as done.
class Worked {
public:
    explicit Worked(const Job& job) : job_(job) {}

    [[nodiscard]] bool face(FaceRef face) const {
        return any([&](const RecordEntry& entry) {
            return std::any_of(entry.as_cut.begin(), entry.as_cut.end(),
                               [&](const auto& each) { return each.face == face; });
        });
    }
    [[nodiscard]] bool ring(RingRef ring) const {
        return any([&](const RecordEntry& entry) {
            return std::any_of(entry.as_skimmed.begin(), entry.as_skimmed.end(),
                               [&](const auto& each) { return each.ring == ring; });
        });
    }

private:
    template <typename Says>
    [[nodiscard]] bool any(Says says) const {
        const auto end = job_.record.begin() +
                         static_cast<std::ptrdiff_t>(std::min(job_.in_force, job_.record.size()));
        return std::any_of(job_.record.begin(), end, says);
    }

    const Job& job_;
};

class Limits {
public:
    explicit Limits(const Job& job) : job_(job), worked_(job) {}

    std::vector<LimitPassed> run() {
        for (std::size_t p = 0; p < job_.parts.size(); ++p) {
            const PartId part = static_cast<int>(p);
            for (const Cut& cut : job_.parts[p].cuts)
                look_at(part, cut);
            for (const Skim& skim : job_.parts[p].skims)
                look_at(part, skim);
            for (const Lap& lap : job_.parts[p].laps)
                if (lap.at_most_on_diameter < -kNoise)
                    passed_.push_back({.kind = LimitPassed::Kind::lap,
                                       .what = cone_name(job_, {part, lap.cone}),
                                       .is = -lap.at_most_on_diameter,
                                       .worst = -lap.at_most_on_diameter,
                                       .surely = true});
        }
        for (LimitPassed& each : passed_)
            each.units = job_.units;
        return std::move(passed_);
    }

private:
    void look_at(PartId p, const Cut& cut) {
        if (cut.face < 0 || cut.measure < 0) return;
        const Part& part = job_.parts[static_cast<std::size_t>(p)];
        const FaceRef face{.part = p, .face = cut.face};
        add({.kind = LimitPassed::Kind::keep,
             .what = name(job_, face),
             .is = thickness(part, cut),
             .worst = least_thickness(part, cut),
             .limit = cut.keep},
            worked_.face(face), 1.0);
    }

    void look_at(PartId p, const Skim& skim) {
        if (skim.ring < 0) return;
        const RingRef ref{.part = p, .index = skim.ring};
        const Ring& ring =
            job_.parts[static_cast<std::size_t>(p)].rings.at(static_cast<std::size_t>(skim.ring));
        const quantity::Size& bore = ring.bore.size;
        const quantity::Size& od = ring.outside.size;
        const bool worked = worked_.ring(ref);
        if (skim.keep > 0.0)
            add({.kind = LimitPassed::Kind::wall,
                 .what = ring_name(job_, ref),
                 .is = 0.5 * (od.nominal - bore.nominal),
                 .worst = 0.5 * (od.lower - bore.upper),
                 .limit = skim.keep},
                worked, 1.0);
        if (!skim.until) return;
        add({.kind = skim.bore ? LimitPassed::Kind::until_bore : LimitPassed::Kind::until_outside,
             .what = ring_name(job_, ref),
             .is = skim.bore ? bore.nominal : od.nominal,
             .worst = skim.bore ? bore.upper : od.lower,
             .limit = *skim.until},
            worked, skim.bore ? -1.0 : 1.0);
    }

    // `way`: +1 where the limit is a least, -1 where it is a most.
    void add(LimitPassed found, bool worked, double way) {
        found.surely = way * (found.is - found.limit) < -kNoise;
        if (found.surely || (worked && way * (found.worst - found.limit) < -kNoise))
            passed_.push_back(std::move(found));
    }

    const Job& job_;
    Worked worked_;
    std::vector<LimitPassed> passed_;
};

}  // namespace

std::vector<LimitPassed> limits_passed(const Job& job) {
    return Limits(job).run();
}

std::optional<PlannedInForce> planned_warning(const Job& job, bool set_aside) {
    if (job.planned.empty()) return std::nullopt;
    return PlannedInForce{.work = job.planned, .set_aside = set_aside};
}

std::vector<KeepNotJudged> keeps_not_judged(const Job& job) {
    std::vector<KeepNotJudged> all;
    for (const PartId p : indices(job.parts))
        for (const Cut& cut : job.parts[static_cast<std::size_t>(p)].cuts) {
            const FaceRef face{.part = p, .face = cut.face};
            const double left = thickness(job.parts[static_cast<std::size_t>(p)], cut);
            if (!std::isfinite(left) && Worked(job).face(face))
                all.push_back({.face = name(job, face), .keep = cut.keep, .units = job.units});
        }
    return all;
}

std::vector<Warning> warnings(const Job& job) {
    std::vector<Warning> all;
    if (!job.supposed.empty()) all.emplace_back(Supposed{.what = job.supposed});
    if (auto planned = planned_warning(job, false)) all.emplace_back(std::move(*planned));
    for (LimitPassed& passed : limits_passed(job))
        all.emplace_back(std::move(passed));
    for (KeepNotJudged& keep : keeps_not_judged(job))
        all.emplace_back(std::move(keep));
    return all;
}

}  // namespace trialfit::job
