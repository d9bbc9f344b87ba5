// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using seat::SeatAnswer;
using stack::Verdict;

// Torques are known to a few per cent at best: whole newton metres from 20 on, tenths below.
int torque_decimals(double torque_nm) {
    return torque_nm < 20.0 ? 1 : 0;
}
// What is held or may be applied is rounded down, what is needed up.
std::string down(double torque_nm) {
    return at_most(torque_nm, torque_decimals(torque_nm));
}
std::string up(double torque_nm) {
    return enough(torque_nm, torque_decimals(torque_nm));
}

// With as many decimals as keep the two apart, and in their order.
std::string held_and_needed(double held, double needed, bool or_more) {
    constexpr int kMostDecimals = 3;
    int decimals = 0;
    for (double scale = 1.0; decimals < kMostDecimals; ++decimals, scale *= 10.0)
        if (std::floor(held * scale) > std::ceil(needed * scale) || held < needed) break;
    while (decimals < kMostDecimals && at_most(held, decimals) == enough(needed, decimals))
        ++decimals;
    return fmt::format("The cone holds {} N m at worst where {}{} is needed",
                       at_most(held, decimals), or_more ? "at least " : "",
                       enough(needed, decimals));
}

std::string at_torque(const SeatAnswer& answer) {
    const seat::Estimate& torque = *answer.nut_torque_nm;
    return torque.least == torque.greatest
               ? fmt::format("{} N m on the nut", brief(torque.least))
               : fmt::format("{} to {} N m on the nut", brief(torque.least),
                             brief(torque.greatest));
}

const seat::SeatFinding* named(const SeatAnswer& answer, seat::FindingId id) {
    const auto found = std::ranges::find(answer.findings, id, &seat::SeatFinding::id);
    return found == answer.findings.end() ? nullptr : &*found;
}

// What the cone would need, where that is not what it gets.
std::string need_words(const SeatAnswer& answer) {
    const seat::TorqueLimits& limits = answer.torque_limits;
    if (limits.cross())
        return fmt::format(
            "No nut torque does it: the cone needs {} N m, and {} N m is the most allowed for {}.",
            up(*limits.cone_needs), down(*limits.most), most_by_words(answer, {}));
    if (!limits.cone_needs) return "";
    return fmt::format(
        "By this reckoning the cone needs {} N m on the nut; the engine maker's "
        "torque comes first.",
        up(*limits.cone_needs));
}

// The first finding other than the cone's torque that is as bad as the worst.
const seat::SeatFinding* worst_other(const SeatAnswer& answer) {
    const seat::SeatFinding* worst = nullptr;
    for (const seat::SeatFinding& each : answer.findings) {
        if (!each.verdict || *each.verdict <= Verdict::not_judged ||
            each.id == seat::FindingId::cone_torque)
            continue;
        if (worst == nullptr || *each.verdict > *worst->verdict) worst = &each;
    }
    return worst;
}

std::string other_words(const SeatAnswer& answer, const seat::SeatFinding& other) {
    const bool low = other.at_least.has_value();
    const double limit = low ? *other.at_least : *other.at_most;
    const double value = *other.verdict == Verdict::fails ? other.value.middle
                         : low                            ? other.value.least
                                                          : other.value.greatest;
    const std::string unit = other.unit.empty() ? "" : " " + other.unit;
    return fmt::format("{} is {}{}, {} is the {} allowed{}", words(other), brief(value, 3), unit,
                       brief(limit, 3), low ? "least" : "most",
                       answer.nut_torque_nm ? ", at " + at_torque(answer) : "");
}

std::string held_words(const SeatAnswer& answer) {
    if (!answer.held_nm) return "";
    if (!answer.needed_nm)
        return fmt::format("The cone holds {} N m at worst", down(answer.held_nm->least));
    return held_and_needed(answer.held_nm->least, *answer.needed_nm, answer.more_may_be_needed);
}

// What is wrong or in doubt among what was judged; empty where nothing is.
std::string wrong_words(const SeatAnswer& answer) {
    const std::string held = held_words(answer);
    const seat::SeatFinding* const cone = named(answer, seat::FindingId::cone_torque);
    if (cone != nullptr && cone->verdict && *cone->verdict > Verdict::not_judged)
        return fmt::format("{}: the {} {} at {}. {}", held, listed(answer.hub),
                           *cone->verdict == Verdict::fails ? "works loose" : "may work loose",
                           at_torque(answer), need_words(answer));
    if (const seat::SeatFinding* const other = worst_other(answer)) {
        const std::string_view how = *other->verdict == Verdict::fails ? "fails" : "is doubtful";
        if (held.empty()) return fmt::format("It {}: {}.", how, other_words(answer, *other));
        return fmt::format("{}, but it {}: {}.", held, how, other_words(answer, *other));
    }
    if (answer.seated.verdict == Verdict::doubtful)
        return fmt::format("{}if it is seated, which is doubtful: {}.",
                           held.empty() ? "It holds only " : held + ", ",
                           listed(words(answer.seated.why), 200));
    const auto lost = std::ranges::find_if(
        answer.moved, [](const seat::Moved& each) { return each.verdict > each.verdict_before; });
    if (lost == answer.moved.end()) return "";
    return fmt::format("{}, but drawing it up leaves '{}' {}.", held, listed(lost->name),
                       word(lost->verdict));
}

std::string unjudged_words(const SeatAnswer& answer) {
    if (answer.not_judged.empty()) return "";
    const std::size_t more = answer.not_judged.size() - 1;
    return fmt::format("NOT JUDGED: {}{}.", harmless(words(answer.not_judged.front())),
                       more == 0 ? "" : fmt::format(", and {} more", more));
}

std::string run_on(std::string text, const std::string& more) {
    if (!text.empty() && !more.empty()) text += " ";
    return text + more;
}

std::string not_seated_words(const SeatAnswer& answer) {
    const std::string why = listed(words(answer.seated.why), 200);
    switch (answer.seated.why->held) {
        case seat::Unseated::hub:
            break;
        case seat::Unseated::carried:
            return fmt::format("The {} is not drawn onto its cone, so the cone holds nothing: {}.",
                               listed(answer.hub), why);
        case seat::Unseated::on_hub:
            return fmt::format("What the cone holds is not judged: {}.", why);
    }
    return fmt::format("The {} does not reach its cone, so the cone holds nothing: {}.",
                       listed(answer.hub), why);
}

// Of a hub that its key holds off its cone or keeps from going on; empty where it does neither.
std::string key_in_way_words(const SeatAnswer& answer) {
    for (const seat::FindingId id : {seat::FindingId::key_room, seat::FindingId::key_entry}) {
        const seat::SeatFinding* const key = named(answer, id);
        if (key == nullptr || key->verdict != Verdict::fails) continue;
        return fmt::format(
            "The {} {}, so the cone holds nothing: its key is {} {} higher than its "
            "room.",
            listed(answer.hub),
            id == seat::FindingId::key_room ? "does not reach its cone" : "does not go on",
            brief(-key->value.middle, 3), key->unit);
    }
    return "";
}

std::string after_warnings(const SeatAnswer& answer) {
    const bool off = answer.seated.verdict == Verdict::fails;
    if (off && answer.seated.why->held != seat::Unseated::on_hub) return not_seated_words(answer);
    if (std::string key = key_in_way_words(answer); !key.empty()) return key;
    if (off) return not_seated_words(answer);
    const std::string wrong = wrong_words(answer);
    const std::string unjudged = unjudged_words(answer);
    if (!wrong.empty()) return run_on(wrong, unjudged);
    const std::string held = held_words(answer);
    if (!unjudged.empty())
        return run_on(unjudged, held.empty() ? held : held + ", at " + at_torque(answer) + ".");
    if (answer.verdict != Verdict::holds) return held + ", were the tapers alike.";
    return fmt::format("{}, and thread and hub keep within their limits, at {}.", held,
                       at_torque(answer));
}

}  // namespace

std::string most_by_words(const SeatAnswer& answer, std::string_view of_check) {
    if (const auto* check = std::get_if<std::string>(&answer.torque_limits.most_by))
        return "'" + listed(*check) + "'" + std::string(of_check);
    const seat::SeatFinding* const finding =
        named(answer, std::get<seat::FindingId>(answer.torque_limits.most_by));
    return finding == nullptr ? std::string() : words(*finding);
}

std::string seat_headline(const SeatAnswer& answer) {
    std::string out;
    for (const std::string& each : words(answer.warnings))
        out = run_on(std::move(out), harmless(each));
    return run_on(std::move(out), after_warnings(answer));
}

}  // namespace trialfit::paper
