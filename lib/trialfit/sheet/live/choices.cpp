// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/sheet/live/choices.hpp>

namespace trialfit::sheet {

namespace {

LiveTyped typed_at(const LiveField& field, LiveDepth depth) {
    const double share = depth == LiveDepth::reference ? 0.0 : depth == LiveDepth::half ? 0.5 : 1.0;
    switch (field.kind) {
        case LiveField::Kind::shims: {
            constexpr int kPieces[] = {1, 3, 0};
            return {.value = field.now, .pieces = kPieces[static_cast<int>(depth)]};
        }
        case LiveField::Kind::take:
        case LiveField::Kind::lap:
            return {.value = share * field.most};
        case LiveField::Kind::skim:
            return {.value =
                        field.now + share * ((field.bore ? field.most : field.least) - field.now)};
        case LiveField::Kind::cut:
        case LiveField::Kind::centring:
            break;
    }
    return {.value = field.now + share * (field.least - field.now)};
}

}  // namespace

const LiveFound* LiveChoices::at(LiveMask mask) {
    const auto [it, is_new] = known_.try_emplace(mask);
    if (is_new) it->second = at(mask, LiveDepth::reference);
    return it->second ? &*it->second : nullptr;
}

std::optional<LiveDone> LiveChoices::done(LiveMask mask, LiveDepth depth) const {
    std::vector<std::optional<LiveTyped>> fields(places_.size());
    for (std::size_t f = 0; f < places_.size(); ++f)
        if (has(mask, f)) fields[f] = typed_at(places_[f].field, depth);
    return work_.done(fields);
}

std::optional<LiveFound> LiveChoices::at(LiveMask mask, LiveDepth depth) const {
    const auto done_so = done(mask, depth);
    if (!done_so) return std::nullopt;
    return work_.found(*done_so);
}

std::optional<stack::Verdict> LiveChoices::apart(LiveMask mask) const {
    const auto done_so = done(mask, LiveDepth::reference);
    if (!done_so) return std::nullopt;
    return work_.apart(*done_so);
}

LiveSizes LiveChoices::typed(LiveMask mask, LiveDepth depth) const {
    LiveSizes sizes(places_.size());
    for (std::size_t f = 0; f < places_.size(); ++f) {
        if (!has(mask, f)) continue;
        const LiveTyped what = typed_at(places_[f].field, depth);
        sizes[f] = sheet::typed(places_[f].field, what.value, what.pieces);
    }
    return sizes;
}

bool same_findings(const LiveFound& one, const LiveFound& other) {
    const auto same_limit = [](const std::optional<LiveLimit>& a,
                               const std::optional<LiveLimit>& b) {
        return a.has_value() == b.has_value() && (!a || a->limit == b->limit);
    };
    return std::equal(one.findings.begin(), one.findings.end(), other.findings.begin(),
                      other.findings.end(), [&](const LiveFinding& a, const LiveFinding& b) {
                          return a.name == b.name && a.state == b.state && a.widest == b.widest &&
                                 same_limit(a.at_least, b.at_least) &&
                                 same_limit(a.at_most, b.at_most);
                      });
}

bool draws_up_alike(const LiveFound& one, const LiveFound& other) {
    constexpr double kSame = 1e-12;
    if (!one.draw_up || !other.draw_up) return one.draw_up.has_value() == other.draw_up.has_value();
    return std::abs(one.draw_up->lower - other.draw_up->lower) < kSame &&
           std::abs(one.draw_up->upper - other.draw_up->upper) < kSame;
}

}  // namespace trialfit::sheet
