// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
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

    std::vector<std::string> run() {
        for (const Check& check : job_.checks) {
            if (const auto* gap = std::get_if<GapOf>(&check.of)) order(check, *gap);
            if (const auto* of = std::get_if<EngagementOf>(&check.of))
                turning(of->one.part, of->other.part, "are screwed together");
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
    [[nodiscard]] const Part& part(int index) const {
        return job_.parts[static_cast<std::size_t>(index)];
    }

    void order(const Check& check, const GapOf& gap) {
        if (gap.inboard.part <= gap.outboard.part || captive(gap)) return;
        const std::string& later = part(gap.inboard.part).name;
        doubts_.push_back("WARNING: check '" + check.name + "' names " + name(job_, gap.inboard) +
                          " as the inboard face, yet the " + later + " goes on after the " +
                          part(gap.outboard.part).name +
                          ". If they foul, this gap comes out as room. Swap the two faces, or "
                          "list the parts in the order in which they go on.");
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
    void turning(int one, int other, const std::string& how) {
        if (part(one).turns == part(other).turns) return;
        const int still = part(one).turns ? other : one;
        const int turns = part(one).turns ? one : other;
        const std::pair<int, int> pair{still, turns};
        if (std::find(told_.begin(), told_.end(), pair) != told_.end()) return;
        told_.push_back(pair);
        doubts_.push_back("WARNING: the " + part(turns).name + " turns and the " +
                          part(still).name + " does not, though they " + how +
                          ". 'turns: true' is missing on one, or too much on the other; running "
                          "clearances go by it.");
    }

    void seated(int p, const Seat& seat) {
        if (seat.kind == SeatKind::cone_on_cone)
            return turning(p, seat.against.part, "share a cone");
        if (part(p).turns || !part(seat.against.part).turns) return;
        // A nut on a turning part, whose thread is that of a part that turns.
        for (const Thread& own : part(p).threads)
            for (int q = 0; q < static_cast<int>(job_.parts.size()); ++q)
                if (q != p && part(q).turns && has_thread(part(q), own))
                    return turning(p, q, "have the same thread");
    }

    [[nodiscard]] static bool has_thread(const Part& part, const Thread& like) {
        return std::any_of(part.threads.begin(), part.threads.end(), [&](const Thread& each) {
            return each.form.d_mm == like.form.d_mm && each.form.pitch_mm == like.form.pitch_mm;
        });
    }

    // The parts that a part is centred on, one after the other, or sits on where it does not say.
    [[nodiscard]] std::vector<int> upwards(int from) const {
        std::vector<int> way;
        while (from >= 0 && std::find(way.begin(), way.end(), from) == way.end()) {
            way.push_back(from);
            const Part& here = part(from);
            from = here.centred         ? here.centred->on
                   : here.seats.empty() ? -1
                                        : here.seats.front().against.part;
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
        const std::vector<int> one = upwards(gap.one.part);
        const std::vector<int> other = upwards(gap.other.part);
        std::string names;
        const auto look = [&](const std::vector<int>& way, const std::vector<int>& beside) {
            for (const int each : way) {
                if (std::find(beside.begin(), beside.end(), each) != beside.end()) break;
                if (!part(each).centred && !part(each).seats.empty() && !on_cone(part(each)))
                    names += (names.empty() ? "" : " and ") + part(each).name;
            }
        };
        look(one, other);
        look(other, one);
        if (names.empty()) return;
        doubts_.push_back("WARNING: nothing says how true the axis of " + names +
                          " lies ('centred'), so check '" + gap.name +
                          "' takes it as exactly true.");
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
        const std::string dia =
            "WARNING: the greatest diameter of the job is " + rounded(mm) + " mm";
        const std::string mend =
            ". Is 'units: " + std::string(quantity::name(job_.units)) + "' right?";
        if (thread > 0.0 && (mm > kMostTimesThread * thread || mm < thread))
            doubts_.push_back(dia + ", and its thread's " + rounded(thread) + " mm" + mend);
        else if (mm > kWidest_mm || mm < kSmallest_mm)
            doubts_.push_back(dia + mend);
    }

    // Whole from 10 up, else one decimal: for sentences of a size's order.
    [[nodiscard]] static std::string rounded(double mm) {
        if (mm >= 10.0) return std::to_string(std::llround(mm));
        const auto tenths = std::llround(mm * 10.0);
        return std::to_string(tenths / 10) +
               (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10));
    }

    const Job& job_;
    std::vector<std::string> doubts_;
    std::vector<std::pair<int, int>> told_;
};

}  // namespace

std::vector<std::string> doubts(const Job& job) {
    return Doubter(job).run();
}

}  // namespace trialfit::job
