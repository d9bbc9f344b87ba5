// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <trialfit/plan/demand/more_demands.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/model/index.hpp>
#include <utility>
#include <variant>

// An automatic clearance is asked only of rings that overlap in diameter, by their nominal
// diameters (stack/clearance/clearances.hpp). A skim can end that: a bore opened beyond the other's
// outside.
namespace trialfit::plan {

namespace {

using stack::at;

// Beyond so many ways the clearance is asked in any case.
constexpr std::size_t kMostPartings = 16;

// The job's skims and what they make of diameters.
class Skims {
public:
    Skims(const job::Job& job, const Demands& decided)
        : job_(job), works_(decided.works), seats_(decided.seats.size()) {}

    [[nodiscard]] Partings of(const stack::Clearance& pair) const {
        Partings found{.ways = {{}}, .skims_near = near(pair)};
        if (!found.skims_near) return {};
        for (const job::RingRef one : ending(pair.inboard_of.part, pair.inboard_end, true)) {
            for (const job::RingRef other :
                 ending(pair.outboard_of.part, pair.outboard_end, false)) {
                if (overlap(one, other)) part(one, other, found.ways);
                if (found.ways.size() <= kMostPartings) continue;
                return {.ways = {}, .left_out = true, .skims_near = true};
            }
        }
        return found;
    }

    // Cut on one side only, each skim's own greatest depth sees to the wall.
    void walls(job::PartId part, const job::Skim& opened, Demands& into) const {
        const job::RingRef of{part, opened.ring};
        const auto turned = skim_of(of, false);
        if (!opened.bore || !turned || !skim_of(of, true)) return;
        const job::Skim& outside = *std::get<RingSkim>(works_[*turned]).skim;
        const double keep = std::max(opened.keep, outside.keep);
        if (keep <= 0.0) return;
        PlanDemand wall = blank(fmt::format("the wall of {}", job::ring_name(job_, of)));
        take_difference(of, of, -1.0, wall);
        wall.lower = 2.0 * keep + opened.holds + outside.holds;
        Either either{.ways = {{std::move(wall)}}};
        for (const bool bore : {true, false}) {
            PlanDemand left = blank(fmt::format("{} left as it is", job::ring_name(job_, of)));
            const std::size_t w = *skim_of(of, bore);
            const double sign = bore ? -1.0 : 1.0;
            left.now = constant(sign * new_length(works_[w])->written);
            left.by_work[w] = sign;
            left.lower = left.now.constant;
            either.ways.push_back({std::move(left)});
        }
        into.either.push_back(std::move(either));
    }

private:
    [[nodiscard]] bool near(const stack::Clearance& pair) const {
        const auto any = [&](const std::vector<job::RingRef>& rings) {
            return std::any_of(rings.begin(), rings.end(), [&](job::RingRef ring) {
                return skim_of(ring, true) || skim_of(ring, false);
            });
        };
        return any(ending(pair.inboard_of.part, pair.inboard_end, true)) ||
               any(ending(pair.outboard_of.part, pair.outboard_end, false));
    }

    [[nodiscard]] const job::Ring& ring(job::RingRef ref) const { return job::at(job_, ref); }

    // The rings of a part that have one of their ends there.
    [[nodiscard]] std::vector<job::RingRef> ending(job::PartId part, const job::RingEnd& end,
                                                   bool outboard) const {
        std::vector<job::RingRef> rings;
        for (const job::RingId r : job::indices(job_.parts[at(part)].rings)) {
            const job::Ring& each = ring({part, r});
            const job::RingEnd& here = outboard ? each.outboard : each.inboard;
            if (here.face == end.face && here.beyond == end.beyond) rings.push_back({part, r});
        }
        return rings;
    }

    [[nodiscard]] bool overlap(job::RingRef one, job::RingRef other) const {
        const auto within = [&](job::RingRef a, job::RingRef b) {
            return ring(a).bore.size.nominal < ring(b).outside.size.nominal - stack::kRounding;
        };
        return within(one, other) && within(other, one);
    }

    [[nodiscard]] std::optional<std::size_t> skim_of(job::RingRef ring, bool bore) const {
        for (std::size_t w = 0; w < works_.size(); ++w) {
            const auto* skim = std::get_if<RingSkim>(&works_[w]);
            if (skim != nullptr && skim->part == ring.part && skim->skim->ring == ring.index &&
                skim->skim->bore == bore)
                return w;
        }
        return std::nullopt;
    }

    [[nodiscard]] stack::Form constant(double value) const {
        stack::FormBuilder builder;
        builder.add(value);
        const auto skim = std::find_if(works_.begin(), works_.end(), [](const Work& work) {
            return std::holds_alternative<RingSkim>(work);
        });
        return std::move(builder).build(new_length(*skim)->old.sensitivities.size());
    }

    [[nodiscard]] PlanDemand blank(std::string name) const {
        PlanDemand demand;
        demand.name = std::move(name);
        demand.diameters = true;
        demand.upper = std::numeric_limits<double>::infinity();
        demand.by_work.assign(works_.size(), 0.0);
        demand.by_stack.assign(seats_, 0.0);
        return demand;
    }

    // Bore of one less outside of the other.
    void take_difference(job::RingRef outer, job::RingRef inner, double sign,
                         PlanDemand& into) const {
        into.now =
            constant(sign * (ring(outer).bore.size.nominal - ring(inner).outside.size.nominal));
        if (const auto opened = skim_of(outer, true)) into.by_work[*opened] = sign;
        if (const auto turned = skim_of(inner, false)) into.by_work[*turned] = -sign;
    }

    // `inner` fits through the bore of `outer`; nothing where no skim has a say in that.
    [[nodiscard]] std::optional<PlanDemand> through(job::RingRef inner, job::RingRef outer) const {
        if (!ring(inner).measured() || !ring(outer).measured()) return std::nullopt;
        PlanDemand demand = blank(fmt::format("{} passing through {}", job::ring_name(job_, inner),
                                              job::ring_name(job_, outer)));
        take_difference(outer, inner, 1.0, demand);
        if (!skim_of(outer, true) && !skim_of(inner, false)) return std::nullopt;
        return demand;
    }

    // Of every way so far, each way to part these two as well.
    void part(job::RingRef one, job::RingRef other,
              std::vector<std::vector<PlanDemand>>& ways) const {
        std::vector<std::vector<PlanDemand>> more;
        for (const auto& [inner, outer] : {std::pair{one, other}, std::pair{other, one}}) {
            const std::optional<PlanDemand> demand = through(inner, outer);
            if (!demand) continue;
            for (std::vector<PlanDemand> way : ways) {
                way.push_back(*demand);
                more.push_back(std::move(way));
            }
        }
        ways = std::move(more);
    }

    const job::Job& job_;
    const std::vector<Work>& works_;
    std::size_t seats_;
};

}  // namespace

Partings partings(const job::Job& job, const Demands& decided, const stack::Clearance& pair) {
    return Skims(job, decided).of(pair);
}

void ask_walls(const job::Job& job, Demands& into) {
    const Skims skims(job, into);
    for (const job::PartId p : job::indices(job.parts))
        for (const job::Skim& skim : job.parts[at(p)].skims)
            skims.walls(p, skim, into);
}

}  // namespace trialfit::plan
