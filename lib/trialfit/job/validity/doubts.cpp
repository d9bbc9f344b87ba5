// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <string>
#include <trialfit/job/validity/doubts.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::job {

namespace {

// Beyond these the unit is the likelier explanation. From no standard: the widest parts that go on
// a shaft end in a small shop are some 40 times as wide as the thread that holds them.
constexpr double kMostTimesThread = 100.0;
constexpr double kWidest_mm = 2000.0;
constexpr double kSmallest_mm = 3.0;

class Doubter {
public:
    explicit Doubter(const Job& job) : job_(job) {}

    std::vector<Doubt> run() {
        for (const Check& check : job_.checks) {
            if (const auto* gap = std::get_if<GapOf>(&check.of)) order(check, *gap);
            if (const auto* of = std::get_if<EngagementOf>(&check.of))
                turning(of->one.part, of->other.part, Joined::by_screw);
        }
        for (std::size_t p = 0; p < job_.parts.size(); ++p)
            for (const Seat& seat : job_.parts[p].seats)
                seated(static_cast<int>(p), seat);
        for (const AirGap& gap : job_.air_gaps)
            uncentred(gap);
        scale();
        return std::move(doubts_);
    }

private:
    using Joined = TurnsAlone::Joined;

    [[nodiscard]] const Part& part(PartId index) const {
        return job_.parts[static_cast<std::size_t>(index)];
    }

    void order(const Check& check, const GapOf& gap) {
        if (gap.inboard.part <= gap.outboard.part || captive(gap)) return;
        doubts_.emplace_back(FacesSwapped{.check = check.name,
                                          .inboard = name(job_, gap.inboard),
                                          .later = part(gap.inboard.part).name,
                                          .earlier = part(gap.outboard.part).name});
    }

    // A part within the one that it sits on, as a crank between the walls of its case.
    [[nodiscard]] bool captive(const GapOf& gap) const {
        const std::vector<Seat>& seats = part(gap.inboard.part).seats;
        return std::any_of(seats.begin(), seats.end(), [&](const Seat& seat) {
            return seat.kind != SeatKind::cone_on_cone && seat.against.part == gap.outboard.part &&
                   seat.against != gap.outboard;
        });
    }

    // Parts that are one with each other turn together or stand still together.
    void turning(PartId one, PartId other, Joined joined) {
        if (part(one).turns == part(other).turns) return;
        const PartId still = part(one).turns ? other : one;
        const PartId turns = part(one).turns ? one : other;
        const std::pair<PartId, PartId> pair{still, turns};
        if (std::find(told_.begin(), told_.end(), pair) != told_.end()) return;
        told_.push_back(pair);
        doubts_.emplace_back(
            TurnsAlone{.turns = part(turns).name, .still = part(still).name, .joined = joined});
    }

    void seated(PartId p, const Seat& seat) {
        if (seat.kind == SeatKind::cone_on_cone) return turning(p, seat.below(), Joined::by_cone);
        if (part(p).turns || !part(seat.below()).turns) return;
        // A nut on a turning part, whose thread is that of a part that turns.
        for (const Thread& own : part(p).threads)
            for (const PartId q : indices(job_.parts))
                if (q != p && part(q).turns && has_thread(part(q), own))
                    return turning(p, q, Joined::by_same_thread);
    }

    [[nodiscard]] static bool has_thread(const Part& part, const Thread& like) {
        return std::any_of(part.threads.begin(), part.threads.end(), [&](const Thread& each) {
            return each.form.d_mm == like.form.d_mm && each.form.pitch_mm == like.form.pitch_mm;
        });
    }

    // The parts that a part is centred on, one after the other, or sits on where it does not say.
    [[nodiscard]] std::vector<PartId> upwards(PartId from) const {
        std::vector<PartId> way;
        while (from >= 0 && std::find(way.begin(), way.end(), from) == way.end()) {
            way.push_back(from);
            const Part& here = part(from);
            from = here.centred         ? here.centred->on
                   : here.seats.empty() ? PartId{}
                                        : here.seats.front().below();
        }
        return way;
    }

    // A cone centres what sits on it.
    [[nodiscard]] static bool on_cone(const Part& part) {
        return std::any_of(part.seats.begin(), part.seats.end(),
                           [](const Seat& seat) { return seat.kind == SeatKind::cone_on_cone; });
    }

    // An axis that nothing is said of counts as true, which is the best that it can be.
    void uncentred(const AirGap& gap) {
        const std::vector<PartId> one = upwards(gap.one.part);
        const std::vector<PartId> other = upwards(gap.other.part);
        std::vector<std::string> names;
        const auto look = [&](const std::vector<PartId>& way, const std::vector<PartId>& beside) {
            for (const int each : way) {
                if (std::find(beside.begin(), beside.end(), each) != beside.end()) break;
                if (!part(each).centred && !part(each).seats.empty() && !on_cone(part(each)))
                    names.push_back(part(each).name);
            }
        };
        look(one, other);
        look(other, one);
        if (names.empty()) return;
        doubts_.emplace_back(AxisNotStated{.parts = std::move(names), .check = gap.name});
    }

    void scale() {
        double widest = 0.0;
        double thread = 0.0;
        for (const Part& each : job_.parts) {
            for (const Ring& ring : each.rings)
                widest = std::max(widest, ring.outside.size.nominal);
            for (const Cone& cone : each.cones)
                widest = std::max(widest, cone.dia.size.nominal);
            for (const Thread& has : each.threads)
                thread = std::max(thread, has.form.d_mm);
        }
        const double mm = quantity::convert(widest, job_.units, quantity::Unit::mm);
        if (mm <= 0.0) return;
        if (thread > 0.0 && (mm > kMostTimesThread * thread || mm < thread))
            doubts_.emplace_back(
                UnitDoubtful{.widest_mm = mm, .thread_mm = thread, .units = job_.units});
        else if (mm > kWidest_mm || mm < kSmallest_mm)
            doubts_.emplace_back(UnitDoubtful{.widest_mm = mm, .units = job_.units});
    }

    const Job& job_;
    std::vector<Doubt> doubts_;
    std::vector<std::pair<PartId, PartId>> told_;
};

}  // namespace

std::vector<Doubt> doubts(const Job& job) {
    return Doubter(job).run();
}

}  // namespace trialfit::job
