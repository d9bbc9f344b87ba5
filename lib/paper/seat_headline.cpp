// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/seat_text.hpp>
#include <trialfit/paper/words.hpp>

namespace trialfit::paper {

namespace {

using seat::SeatAnswer;
using stack::Verdict;

// Torques are known to a few per cent at best: whole newton metres from 20 on, tenths below.
int decimals_of(double torque_nm) {
    return torque_nm < 20.0 ? 1 : 0;
}
// What is held or may be applied is rounded down, what is needed up.
std::string down(double torque_nm) {
    return at_most(torque_nm, decimals_of(torque_nm));
}
std::string up(double torque_nm) {
    return enough(torque_nm, decimals_of(torque_nm));
}

// With as many decimals as keep the two apart.
std::string held_and_needed(double held, double needed) {
    int decimals = 0;
    while (decimals < 3 && at_most(held, decimals) == enough(needed, decimals))
        ++decimals;
    const bool enough_held = held >= needed;
    while (decimals < 3 && enough_held &&
           said_by(at_most(held, decimals)) < said_by(enough(needed, decimals)))
        ++decimals;
    return fmt::format("The cone holds {} N m at worst where {} is needed", at_most(held, decimals),
                       enough(needed, decimals));
}

std::string at_torque(const SeatAnswer& answer) {
    const auto& torque = answer.nut_torque_nm;
    return torque.least == torque.greatest
               ? fmt::format("{} N m on the nut", brief(torque.least))
               : fmt::format("{} to {} N m on the nut", brief(torque.least),
                             brief(torque.greatest));
}

const seat::Finding* named(const SeatAnswer& answer, const std::string& id) {
    const auto found = std::find_if(answer.findings.begin(), answer.findings.end(),
                                    [&](const seat::Finding& each) { return each.id == id; });
    return found == answer.findings.end() ? nullptr : &*found;
}

std::string words_of(const SeatAnswer& answer, const std::string& id) {
    const seat::Finding* const finding = named(answer, id);
    return finding == nullptr ? "'" + listed(id) + "'" : finding->what;
}

std::string range_words(const SeatAnswer& answer) {
    const seat::TorqueRange& range = answer.torque_range;
    if (range.none)
        return fmt::format(
            "no nut torque does it: it needs {} N m, and above {} N m the limit is "
            "passed for {}",
            up(range.least), down(range.greatest), words_of(answer, range.above));
    if (range.unbounded)
        return fmt::format("from {} N m on the nut on it would hold", up(range.least));
    return fmt::format("with {} to {} N m on the nut everything would hold", up(range.least),
                       down(range.greatest));
}

// The first finding other than the cone's torque that is as bad as the worst.
const seat::Finding* worst_other(const SeatAnswer& answer) {
    const seat::Finding* worst = nullptr;
    for (const seat::Finding& each : answer.findings) {
        if (!each.verdict || *each.verdict == Verdict::holds || each.id == "cone_torque") continue;
        if (worst == nullptr || *each.verdict > *worst->verdict) worst = &each;
    }
    return worst;
}

std::string other_words(const SeatAnswer& answer, const seat::Finding& other) {
    const bool low = other.at_least.has_value();
    const double limit = low ? *other.at_least : *other.at_most;
    const double value = *other.verdict == Verdict::fails ? other.value.middle
                         : low                            ? other.value.least
                                                          : other.value.greatest;
    const std::string unit = other.unit.empty() ? "" : " " + other.unit;
    return fmt::format("{} is {}{} where {} {} is allowed, at {}", other.what, brief(value, 3),
                       unit, low ? "no less than" : "no more than", brief(limit, 3),
                       at_torque(answer));
}

}  // namespace

std::string seat_headline(const SeatAnswer& answer) {
    if (answer.seated.verdict == Verdict::fails)
        return fmt::format("The {} does not reach its cone, so the cone holds nothing: {}.",
                           listed(answer.hub), listed(answer.seated.why, 200));
    const std::string holds =
        fmt::format("The cone holds {} N m at worst", down(answer.held_nm.least));
    if (!answer.needed_nm)
        return fmt::format("{}, at {}; the file does not say what is needed.", holds,
                           at_torque(answer));
    const std::string held = held_and_needed(answer.held_nm.least, *answer.needed_nm);
    if (!answer.torque_stated)
        return answer.torque_range.none
                   ? fmt::format("No nut torque is stated, and none will do: {}.",
                                 range_words(answer))
                   : fmt::format("No nut torque is stated: {}.", range_words(answer));
    const seat::Finding* const cone = named(answer, "cone_torque");
    if (cone != nullptr && cone->verdict && *cone->verdict != Verdict::holds)
        return fmt::format("{}: the {} {} at {}; {}.", held, listed(answer.hub),
                           *cone->verdict == Verdict::fails ? "works loose" : "may work loose",
                           at_torque(answer), range_words(answer));
    if (const seat::Finding* const other = worst_other(answer))
        return fmt::format("{}, but {} {}; {}.", held,
                           *other->verdict == Verdict::fails ? "it fails:" : "it is doubtful:",
                           other_words(answer, *other), range_words(answer));
    if (answer.seated.verdict == Verdict::doubtful)
        return fmt::format("{}, if it is seated, which is doubtful: {}.", held,
                           listed(answer.seated.why, 200));
    const auto lost =
        std::find_if(answer.moved.begin(), answer.moved.end(),
                     [](const seat::Moved& each) { return each.verdict > each.verdict_before; });
    if (lost != answer.moved.end())
        return fmt::format("{}, but drawing it up leaves '{}' {}.", held, listed(lost->name),
                           word(lost->verdict));
    if (answer.verdict != Verdict::holds)
        return fmt::format("{}, but not everything could be judged: see what was not assessed.",
                           held);
    return fmt::format("{}: it holds, and thread and hub stand it, at {}.", held,
                       at_torque(answer));
}

}  // namespace trialfit::paper
