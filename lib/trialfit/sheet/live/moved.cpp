// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/sheet/live/moved.hpp>

namespace trialfit::sheet {

namespace {

using stack::Bounds;
using stack::Fixed;

// Figures closer than this are the same: some thousand roundings of a length of a metre in
// doubles, and a hundredth of what stack::kRounding takes for equal metal.
constexpr double kSameFigure = 1e-9;

double half(const stack::Range& range) {
    return (range.hi - range.lo) / 2.0;
}

double middle(const stack::Range& range) {
    return range.lo + half(range);
}

stack::Range about(double middle, double squares) {
    const double half = std::sqrt(std::max(0.0, squares));
    return {.lo = middle - half, .hi = middle + half};
}

// What the fields filled in do to a figure.
struct Move {
    double shift = 0.0;
    double wider = 0.0;
    double squares = 0.0;  // of RSS half-widths, inflated
};

Move move_of(const LiveFigure& figure, const std::vector<LiveField>& fields, const LiveSizes& typed,
             double inflate) {
    Move move;
    for (std::size_t f = 0; f < fields.size(); ++f) {
        if (!typed[f] || figure.by[f] == 0.0) continue;
        const LiveSize& at = fields[f].reference;
        move.shift += figure.by[f] * (typed[f]->middle - at.middle);
        move.wider += std::abs(figure.by[f]) * (typed[f]->half_width - at.half_width);
        move.squares +=
            inflate * inflate * figure.by[f] * figure.by[f] * (typed[f]->squares - at.squares);
    }
    return move;
}

Fixed moved(Fixed at, const Move& move) {
    at.nominal += move.shift;
    at.middle += move.shift;
    at.worst = {.lo = at.worst.lo + move.shift - move.wider,
                .hi = at.worst.hi + move.shift + move.wider};
    if (move.squares == 0.0)
        at.rss = {.lo = at.rss.lo + move.shift, .hi = at.rss.hi + move.shift};
    else
        at.rss = about(middle(at.rss) + move.shift, half(at.rss) * half(at.rss) + move.squares);
    return at;
}

// The ranges of what moves run between its ends.
void take_ends(Bounds& of) {
    of.worst = {.lo = of.moving->least.worst.lo, .hi = of.moving->greatest.worst.hi};
    of.rss = {.lo = of.moving->least.rss.lo, .hi = of.moving->greatest.rss.hi};
}

LiveFigure moved(LiveFigure figure, const Move& move) {
    if (figure.at.open()) return figure;
    static_cast<Fixed&>(figure.at) = moved(static_cast<const Fixed&>(figure.at), move);
    if (figure.at.moving) {
        figure.at.moving->least = moved(figure.at.moving->least, move);
        figure.at.moving->greatest = moved(figure.at.moving->greatest, move);
        take_ends(figure.at);
    }
    return figure;
}

// Adds to `to` what `changed` changes of `blank`.
void add_change(const Fixed& blank, const Fixed& changed, Fixed& to) {
    to.nominal += changed.nominal - blank.nominal;
    to.middle += changed.middle - blank.middle;
    to.worst.lo += changed.worst.lo - blank.worst.lo;
    to.worst.hi += changed.worst.hi - blank.worst.hi;
    to.rss = about(middle(to.rss) + middle(changed.rss) - middle(blank.rss),
                   half(to.rss) * half(to.rss) + half(changed.rss) * half(changed.rss) -
                       half(blank.rss) * half(blank.rss));
}

void add_change(const LiveFigure& blank, const LiveFigure& changed, LiveFigure& to) {
    if (to.at.open()) return;
    add_change(static_cast<const Fixed&>(blank.at), static_cast<const Fixed&>(changed.at),
               static_cast<Fixed&>(to.at));
    for (std::size_t f = 0; f < to.by.size(); ++f)
        to.by[f] += changed.by[f] - blank.by[f];
    if (!to.at.moving || !blank.at.moving || !changed.at.moving) return;
    add_change(blank.at.moving->least, changed.at.moving->least, to.at.moving->least);
    add_change(blank.at.moving->greatest, changed.at.moving->greatest, to.at.moving->greatest);
    take_ends(to.at);
}

using List = std::vector<LiveFigure> LiveFigures::*;
constexpr List kLists[] = {&LiveFigures::value, &LiveFigures::over, &LiveFigures::under,
                           &LiveFigures::within};

bool same(double one, double other) {
    return one == other || std::abs(one - other) < kSameFigure;
}

bool same(const stack::Range& one, const stack::Range& other) {
    return same(one.lo, other.lo) && same(one.hi, other.hi);
}

bool same(const Fixed& one, const Fixed& other, bool rss) {
    if (one.open() || other.open()) return one.open() == other.open();
    return same(one.nominal, other.nominal) && same(one.middle, other.middle) &&
           same(one.worst, other.worst) && (!rss || same(one.rss, other.rss));
}

bool same(const Bounds& one, const Bounds& other, bool rss) {
    if (one.moving.has_value() != other.moving.has_value()) return false;
    if (!same(static_cast<const Fixed&>(one), static_cast<const Fixed&>(other), rss)) return false;
    return !one.moving || (same(one.moving->least, other.moving->least, rss) &&
                           same(one.moving->greatest, other.moving->greatest, rss));
}

bool same_gains(const std::vector<double>& one, const std::vector<double>& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [](double a, double b) { return same(a, b); });
}

template <typename Same>
bool all_same(const LiveFigures& one, const LiveFigures& other, const Same& same_figure) {
    if (one.not_judged != other.not_judged || one.may_miss != other.may_miss) return false;
    return std::all_of(std::begin(kLists), std::end(kLists), [&](List list) {
        return std::equal((one.*list).begin(), (one.*list).end(), (other.*list).begin(),
                          (other.*list).end(), same_figure);
    });
}

}  // namespace

LiveFigures at_typed(const LiveFinding& finding, const std::vector<LiveField>& fields,
                     const LiveSizes& typed, double inflate) {
    LiveFigures out = finding.blank;
    bool first = true;
    for (const LiveGroup& group : finding.groups) {
        std::size_t choice = 0;
        for (std::size_t g = 0; g < group.fields.size(); ++g)
            if (typed[group.fields[g]]) choice |= std::size_t{1} << g;
        if (choice == 0) continue;
        const LiveFigures& chosen = group.of[choice];
        if (first) {
            out = chosen;
            first = false;
            continue;
        }
        for (const List list : kLists)
            for (std::size_t i = 0; i < (out.*list).size(); ++i)
                add_change((finding.blank.*list)[i], (chosen.*list)[i], (out.*list)[i]);
    }
    for (const List list : kLists)
        for (LiveFigure& each : out.*list)
            each = moved(each, move_of(each, fields, typed, inflate));
    return out;
}

bool alike(const LiveFigures& one, const LiveFigures& other, bool rss) {
    return all_same(one, other, [rss](const LiveFigure& a, const LiveFigure& b) {
        return same(a.at, b.at, rss);
    });
}

bool stand_alike(const LiveFigures& one, const LiveFigures& other, bool rss) {
    return all_same(one, other, [rss](const LiveFigure& a, const LiveFigure& b) {
        return same(a.at, b.at, rss) && same_gains(a.by, b.by);
    });
}

}  // namespace trialfit::sheet
