// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <limits>
#include <map>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/left_open.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/clearance/listed.hpp>
#include <trialfit/stack/clearance/skyline.hpp>
#include <trialfit/stack/states.hpp>
#include <tuple>
#include <utility>

namespace trialfit::stack {

namespace {

struct RingAt {
    job::PartId part;
    job::RingId index;
    const job::Ring* ring = nullptr;
};

std::vector<RingAt> rings_of(const job::Job& job) {
    std::vector<RingAt> rings;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (std::size_t r = 0; r < job.parts[p].rings.size(); ++r)
            rings.push_back({static_cast<int>(p), static_cast<int>(r), &job.parts[p].rings[r]});
    }
    return rings;
}

// Bore and outside diameter; where nobody has measured one, as wide as the ring may be.
Range widest(const job::Ring& ring) {
    return {.lo = ring.bore.size.is_unmeasured() ? 0.0 : ring.bore.size.nominal,
            .hi = ring.outside.size.is_unmeasured() ? std::numeric_limits<double>::infinity()
                                                    : ring.outside.size.nominal};
}

// Whether the rings meet in diameter, or may.
bool overlap_in_diameter(const job::Ring& a, const job::Ring& b) {
    const Range one = widest(a);
    const Range other = widest(b);
    return one.lo < other.hi - kRounding && other.lo < one.hi - kRounding;
}

Station station(const RingAt& at, const job::RingEnd& end) {
    return {.face = {at.part, end.face}, .beyond = end.beyond};
}

Form axis_gap(const Model& model, const Clearance& pair) {
    return model.gap(inboard_station(pair), outboard_station(pair));
}

// Looks at pairs of rings, one of a later and one of an earlier part.
class Pairing {
public:
    Pairing(const Model& model, Judge judge, double inflate)
        : model_(model),
          job_(model.job()),
          judge_(judge),
          inflate_(inflate),
          leans_(any_leans(model.job())) {}

    // Finds the clearance of the pair and keeps it, once for each two faces, unless it is a seat's
    // own. Where parts lean, of the rings that end at the two faces the widest overlap decides.
    void look(const RingAt& earlier, const RingAt& later) {
        if (lie_on_one_another(earlier, later) || stand_clear(earlier, later)) return;
        const job::RingEnd& low = earlier.ring->outboard;
        const job::RingEnd& high = later.ring->inboard;
        const PairOfFaces key{earlier.part, low.face,  low.beyond,
                              later.part,   high.face, high.beyond};
        const auto [it, is_new] = seen_.try_emplace(key, found_.size());
        if (is_new) {
            found_.push_back(clearance(earlier, later));
            return;
        }
        const Clearance& kept = found_[it->second];
        const bool measured = earlier.ring->measured() && later.ring->measured();
        const bool surely_fouls = !kept.may_miss && kept.verdict == Verdict::fails;
        const bool wider = leans_ && dia_of(earlier, later) > kept.dia;
        if ((kept.may_miss && measured) || (wider && (measured || !surely_fouls)))
            found_[it->second] = clearance(earlier, later);
    }

    // Whether `later` keeps `earlier` from ever being met by what comes after: it clears it and has
    // length, both in the worst case.
    [[nodiscard]] bool hides(const RingAt& later, const RingAt& earlier) const {
        const Range clear = least_between(earlier, later);
        if (clear.lo < -kRounding || (clear.lo <= kRounding && !lie_on_one_another(earlier, later)))
            return false;
        return worst(station(later, later.ring->inboard), station(later, later.ring->outboard)).lo >
               kRounding;
    }

    std::vector<Clearance> take() && { return std::move(found_); }

private:
    // Part, face and distance beyond it, of the earlier and of the later ring end.
    using PairOfFaces = std::tuple<int, int, double, int, int, double>;

    [[nodiscard]] static double dia_of(const RingAt& one, const RingAt& other) {
        return std::min(one.ring->outside.size.upper, other.ring->outside.size.upper);
    }

    [[nodiscard]] Range least_between(const RingAt& earlier, const RingAt& later) const {
        if (!leans_)
            return worst(station(earlier, earlier.ring->outboard),
                         station(later, later.ring->inboard));
        return model_.ties().extremes(least_gap(model_, ends_of(earlier, later)), model_.columns());
    }

    [[nodiscard]] static Clearance ends_of(const RingAt& earlier, const RingAt& later) {
        Clearance pair;
        pair.inboard_of = {.part = earlier.part, .index = earlier.index};
        pair.outboard_of = {.part = later.part, .index = later.index};
        pair.inboard_end = earlier.ring->outboard;
        pair.outboard_end = later.ring->inboard;
        pair.dia = dia_of(earlier, later);
        return pair;
    }

    [[nodiscard]] Range worst(const Station& inboard, const Station& outboard) const {
        return model_.ties().extremes(model_.least_end(model_.gap(inboard, outboard)),
                                      model_.columns());
    }

    [[nodiscard]] const job::Part& part(job::PartId index) const { return job_.parts[index.at()]; }

    // A seat between two faces; `outboard`: +1 where its own face is the outboard one of the two.
    struct SeatBetween {
        const job::Seat* seat = nullptr;
        double outboard = 1.0;
    };

    // The seats whose two faces these ring ends lie at.
    [[nodiscard]] std::vector<SeatBetween> own_seats(const RingAt& earlier,
                                                     const RingAt& later) const {
        const job::RingEnd& low = earlier.ring->outboard;
        const job::RingEnd& high = later.ring->inboard;
        std::vector<SeatBetween> found;
        if (low.beyond != 0.0 || high.beyond != 0.0) return found;
        const job::FaceRef one{earlier.part, low.face};
        const job::FaceRef other{later.part, high.face};
        add_seats(other, one, 1.0, found);
        add_seats(one, other, -1.0, found);
        return found;
    }

    void add_seats(job::FaceRef own, job::FaceRef against, double outboard,
                   std::vector<SeatBetween>& found) const {
        for (const job::Seat& seat : part(own.part).seats)
            // A cone seats by its flanks; the faces at its gauge planes can still meet, as a boss
            // that lands on the shaft's shoulder.
            if (seat.kind != job::SeatKind::cone_on_cone && seat.own == own.face &&
                seat.against.part == against.part && seat.against.face == against.face)
                found.push_back({&seat, outboard});
    }

    [[nodiscard]] bool lie_on_one_another(const RingAt& earlier, const RingAt& later) const {
        const auto seats = own_seats(earlier, later);
        return std::ranges::any_of(seats, [](const SeatBetween& each) { return touches(each); });
    }

    // At offsets that leave the room asked for.
    [[nodiscard]] bool stand_clear(const RingAt& earlier, const RingAt& later) const {
        const auto seats = own_seats(earlier, later);
        return !seats.empty() && std::ranges::none_of(seats, [](const SeatBetween& each) {
            return may_change(*each.seat);
        }) && surely_clears(earlier, later);
    }

    // Whether the seat's two faces lie on one another, shims or none between them, or are to meet
    // at an end of the part's play. At an offset without play they do not: it may put a part into
    // the one that it is seated by, or leave too little room.
    [[nodiscard]] static bool touches(const SeatBetween& each) {
        const job::Seat& seat = *each.seat;
        if (!seat.offset) return true;
        double distance = seat.offset->size.nominal;
        if (seat.shims)
            for (const job::Given& shim : seat.shims->fitted)
                distance += shim.size.nominal;
        return seat.play ? each.outboard * distance >= -kRounding : std::abs(distance) <= kRounding;
    }

    [[nodiscard]] static bool may_change(const job::Seat& seat) {
        return seat.shims && !seat.shims->stock.empty();
    }

    // Even in the worst case: a stated offset is nothing that has to be told once more.
    [[nodiscard]] bool surely_clears(const RingAt& earlier, const RingAt& later) const {
        const double needed = least_needed(earlier, later);
        const double least = least_between(earlier, later).lo;
        return needed > 0.0 ? least >= needed - kRounding : least > kRounding;
    }

    [[nodiscard]] double least_needed(const RingAt& earlier, const RingAt& later) const {
        const bool running = part(earlier.part).turns != part(later.part).turns;
        return running ? job_.running_clearance.value_or(0.0) : 0.0;
    }

    [[nodiscard]] Clearance clearance(const RingAt& earlier, const RingAt& later) const {
        Clearance pair = ends_of(earlier, later);
        pair.inboard = job::name(job_, earlier.part, earlier.ring->outboard);
        pair.outboard = job::name(job_, later.part, later.ring->inboard);
        pair.inboard_face = job::name(job_, {earlier.part, earlier.ring->outboard.face});
        pair.outboard_face = job::name(job_, {later.part, later.ring->inboard.face});
        pair.inboard_ring = earlier.ring->name;
        pair.outboard_ring = later.ring->name;
        pair.at_least = least_needed(earlier, later);
        pair.more_than = pair.at_least <= 0.0;
        pair.several_directions = leans_ && tilt_of(model_, pair).several();
        pair.gap =
            bounds(model_, leans_ ? tilted_gap(model_, pair) : axis_gap(model_, pair), inflate_);
        const Demand demand{.least = pair.at_least,
                            .most = std::numeric_limits<double>::infinity(),
                            .more_than = pair.more_than};
        pair.verdict = verdict(pair.gap, demand, judge_);
        pair.not_judged_for = clearance_not_judged_for(model_, pair);
        if (pair.not_judged_for) pair.verdict = Verdict::not_judged;
        if (!earlier.ring->measured() || !later.ring->measured())
            unless_apart(earlier, later, pair);
        return pair;
    }

    // Rings that would foul do no harm where they miss each other in diameter.
    void unless_apart(const RingAt& earlier, const RingAt& later, Clearance& pair) const {
        pair.may_miss = true;
        if (pair.verdict == Verdict::holds || pair.not_judged_for) return;
        LeftOpen open;
        for (const RingAt& each : {earlier, later}) {
            const std::string name = part(each.part).name + "." + each.ring->name;
            if (each.ring->bore.size.is_unmeasured()) open.all.push_back(name + " bore");
            if (each.ring->outside.size.is_unmeasured()) open.all.push_back(name + " od");
        }
        if (open.all.size() == 1) std::swap(open.alone, open.all);
        pair.gap = {left_open()};
        pair.verdict = Verdict::not_judged;
        pair.not_judged_for = std::move(open);
    }

    const Model& model_;
    const job::Job& job_;
    Judge judge_;
    double inflate_;
    bool leans_;
    std::vector<Clearance> found_;
    std::map<PairOfFaces, std::size_t> seen_;
};

void look_at_all(const std::vector<RingAt>& rings, Pairing& pairing) {
    for (std::size_t later = 0; later < rings.size();) {
        std::size_t end = later;
        while (end < rings.size() && rings[end].part == rings[later].part)
            ++end;
        for (std::size_t earlier = 0; earlier < later; ++earlier) {
            for (std::size_t ring = later; ring < end; ++ring) {
                if (overlap_in_diameter(*rings[earlier].ring, *rings[ring].ring))
                    pairing.look(rings[earlier], rings[ring]);
            }
        }
        later = end;
    }
}

void look_at_skyline(const std::vector<RingAt>& rings, Pairing& pairing) {
    Skyline skyline;
    const auto span = [&](int i) {
        const job::Ring& ring = *rings[static_cast<std::size_t>(i)].ring;
        return Range{ring.bore.size.nominal, ring.outside.size.nominal};
    };
    const auto at = [&](int i) -> const RingAt& { return rings[static_cast<std::size_t>(i)]; };
    const int count = static_cast<int>(rings.size());
    for (int first = 0; first < count;) {
        int end = first;
        while (end < count && at(end).part == at(first).part)
            ++end;
        for (int ring = first; ring < end; ++ring) {
            for (const int earlier : skyline.over(span(ring))) {
                if (overlap_in_diameter(*at(earlier).ring, *at(ring).ring))
                    pairing.look(at(earlier), at(ring));
            }
        }
        for (int ring = first; ring < end; ++ring) {
            skyline.lay(span(ring), ring, [&](int under) {
                return at(under).part != at(ring).part && pairing.hides(at(ring), at(under));
            });
        }
        first = end;
    }
}

// The face that a part sits on; empty for a cone.
std::string seat_of(const job::Job& job, const job::Part& part) {
    if (part.seats.empty()) return {};
    const job::Seat& seat = part.seats.front();
    if (seat.kind == job::SeatKind::cone_on_cone) return {};
    return job::name(job, seat.against);
}

}  // namespace

Search clearances(const Model& model, Judge judge, double inflate, int beyond) {
    const std::vector<RingAt> rings = rings_of(model.job());
    Pairing pairing(model, judge, inflate);
    // What nobody has measured may lie over anything, and hides nothing.
    const bool all_measured =
        std::ranges::all_of(rings, [](const RingAt& each) { return each.ring->measured(); });
    const bool many = static_cast<int>(rings.size()) > beyond && all_measured;
    if (many) {
        look_at_skyline(rings, pairing);
    } else {
        look_at_all(rings, pairing);
    }
    return {.pairs = std::move(pairing).take(), .implied_left_out = many};
}

Search clearances(const std::vector<Model>& states, Judge judge, double inflate) {
    Search all = clearances(states.front(), judge, inflate);
    if (states.front().state().empty()) return all;
    std::map<std::pair<std::string, std::string>, std::size_t> known;
    const auto told = [](const Clearance& pair, const Model& model) {
        return InState{.state = model.state(), .value = pair.gap, .verdict = pair.verdict};
    };
    for (std::size_t i = 0; i < all.pairs.size(); ++i) {
        Clearance& pair = all.pairs[i];
        known[{pair.inboard, pair.outboard}] = i;
        pair.state = states.front().state();
        pair.in_states = {told(pair, states.front())};
    }
    for (std::size_t s = 1; s < states.size(); ++s) {
        for (Clearance& pair : clearances(states[s], judge, inflate).pairs) {
            pair.state = states[s].state();
            pair.in_states = {told(pair, states[s])};
            const auto [it, is_new] =
                known.try_emplace({pair.inboard, pair.outboard}, all.pairs.size());
            if (is_new) {
                all.pairs.push_back(std::move(pair));
                continue;
            }
            Clearance& before = all.pairs[it->second];
            const auto spare = [&](const Clearance& c) { return judged(c.gap.least(), judge).lo; };
            const bool decides =
                std::pair{before.verdict, -spare(before)} < std::pair{pair.verdict, -spare(pair)};
            if (decides) std::swap(before, pair);
            before.in_states.insert(decides ? before.in_states.begin() : before.in_states.end(),
                                    pair.in_states.begin(), pair.in_states.end());
        }
    }
    return all;
}

// The pairs as a hub pushed home by hand has them, where any of them fouls like that; else as they
// are: what only the nut brings together.
std::vector<Clearance> by_hand(const std::vector<Clearance>& pairs) {
    std::vector<Clearance> all = pairs;
    for (Clearance& pair : all) {
        if (pair.state != kTightened) continue;
        const InState* least = nullptr;
        for (const InState& each : pair.in_states)
            if (each.state != kTightened &&
                (least == nullptr || each.value.nominal < least->value.nominal))
                least = &each;
        if (least == nullptr) continue;
        pair.state = least->state;
        pair.gap = least->value;
    }
    const bool fouls = std::ranges::any_of(
        all, [](const Clearance& pair) { return pair.gap.worst.lo < -kRounding; });
    return fouls ? all : pairs;
}

std::optional<FirstContact> first_contact(const Model& model,
                                          const std::vector<Clearance>& all_pairs) {
    std::vector<Clearance> pairs = by_hand(all_pairs);
    std::erase_if(pairs, [](const Clearance& pair) { return pair.gap.open(); });
    const auto by = [](auto figure) {
        return [figure](const Clearance& a, const Clearance& b) { return figure(a) < figure(b); };
    };
    const auto nominal = [](const Clearance& pair) { return pair.gap.nominal; };
    const auto worst = [](const Clearance& pair) { return pair.gap.worst.lo; };
    auto tightest = std::ranges::min_element(pairs, by(nominal));
    if (tightest == pairs.end()) return std::nullopt;
    if (nominal(*tightest) >= -kRounding) tightest = std::ranges::min_element(pairs, by(worst));
    if (worst(*tightest) >= -kRounding) return std::nullopt;
    FirstContact contact;
    contact.inboard = tightest->inboard;
    contact.outboard = tightest->outboard;
    contact.inboard_ring = tightest->inboard_ring;
    contact.outboard_ring = tightest->outboard_ring;
    contact.state = tightest->state;
    const job::Part& part = model.job().parts[tightest->outboard_of.part.at()];
    contact.part = part.name;
    contact.proud = tightest->outboard_of.part;
    contact.seat = seat_of(model.job(), part);
    // The least gap lies between the least of all lower and the least of all upper bounds.
    Range least = tightest->gap.worst;
    Range rss = tightest->gap.rss;
    for (const Clearance& pair : pairs) {
        if (pair.outboard_of.part != tightest->outboard_of.part) continue;
        least = {.lo = std::min(least.lo, pair.gap.worst.lo),
                 .hi = std::min(least.hi, pair.gap.worst.hi)};
        rss = {.lo = std::min(rss.lo, pair.gap.rss.lo), .hi = std::min(rss.hi, pair.gap.rss.hi)};
    }
    contact.stands_proud.nominal = std::max(0.0, -tightest->gap.nominal);
    contact.stands_proud.worst = {.lo = std::max(0.0, -least.hi), .hi = std::max(0.0, -least.lo)};
    contact.stands_proud.rss = {.lo = std::max(0.0, -rss.hi), .hi = std::max(0.0, -rss.lo)};
    return contact;
}

std::vector<Clearance> listed(std::vector<Clearance> pairs, bool all) {
    return listed_pairs(std::move(pairs), all, [](const Clearance& pair) {
        return std::pair<int, int>{pair.inboard_of.part, pair.outboard_of.part};
    });
}

Vectors tilt_of(const Model& model, const Clearance& pair) {
    Vectors tilt = leans(model, pair.inboard_of.part, pair.outboard_of.part);
    for (auto* side : {&tilt.still, &tilt.turning})
        for (Vector& each : *side)
            each.share *= pair.dia / 2.0;
    return tilt;
}

std::optional<NotJudgedFor> clearance_not_judged_for(const Model& model, const Clearance& pair) {
    if (pair.may_miss && pair.not_judged_for) return pair.not_judged_for;
    if (pair.gap.open()) return left_open_for(model, least_gap(model, pair));
    return growth_not_known(model, unknown_growth_under(model, [&](const Model& of) {
                                return value(of.ties().adjusted(tilted_gap(of, pair)),
                                             of.columns().middle);
                            }));
}

Form gap_at_axis(const Model& model, const Clearance& pair) {
    return model.least_end(axis_gap(model, pair));
}

Form least_gap(const Model& model, const Clearance& pair) {
    return model.least_end(tilted_gap(model, pair));
}

Form tilted_gap(const Model& model, const Clearance& pair) {
    Form gap = axis_gap(model, pair);
    const Vectors tilt = tilt_of(model, pair);
    if (tilt.none()) return gap;
    FormBuilder least;
    least.add(gap, 1.0);
    add_worst(tilt, -1.0, least);
    return std::move(least).build(gap.sensitivities.size());
}

Station inboard_station(const Clearance& pair) {
    return {.face = {pair.inboard_of.part, pair.inboard_end.face},
            .beyond = pair.inboard_end.beyond};
}

Station outboard_station(const Clearance& pair) {
    return {.face = {pair.outboard_of.part, pair.outboard_end.face},
            .beyond = pair.outboard_end.beyond};
}

}  // namespace trialfit::stack
