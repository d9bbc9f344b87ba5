// SPDX-License-Identifier: MIT
// Answers made by hand, so that the printers are tested without the stack. Invented figures.
#pragma once

#include <string>
#include <trialfit/stack/answers.hpp>
#include <utility>

namespace trialfit::testing {

inline stack::Clearance clearance(std::string inboard, std::string outboard, double at_least,
                                  stack::Bounds gap, stack::Verdict verdict) {
    stack::Clearance out;
    out.inboard_ring = "ring";
    out.outboard_ring = "ring";
    out.inboard_face = inboard;
    out.outboard_face = outboard;
    out.inboard = std::move(inboard);
    out.outboard = std::move(outboard);
    out.at_least = at_least;
    out.gap = gap;
    out.verdict = verdict;
    return out;
}

inline stack::CheckResult check(std::string name, stack::CheckKind kind, std::string first,
                                std::string second, stack::Bounds value, stack::Verdict verdict) {
    stack::CheckResult out;
    out.name = std::move(name);
    out.kind = kind;
    out.first = std::move(first);
    out.second = std::move(second);
    out.value = value;
    out.verdict = verdict;
    return out;
}

inline stack::FirstContact rim_on_plate() {
    stack::FirstContact out;
    out.inboard = "plate.front";
    out.outboard = "rotor.rim";
    out.inboard_ring = "disc";
    out.outboard_ring = "skirt";
    out.part = "rotor";
    out.stands_proud.nominal = 4.0;
    out.stands_proud.worst = {3.695, 4.305};
    out.stands_proud.rss = {3.902, 4.098};
    return out;
}

/// A rotor that fouls its plate, with a doubtful pair, a share and an engagement that fails.
inline stack::CheckAnswer fouling_rotor() {
    using stack::CheckKind;
    using stack::Verdict;
    stack::CheckAnswer a;
    a.title = "Rotor on a pump engine";
    a.file = "pump.yaml";
    a.verdict = Verdict::fails;
    a.clearances = {clearance("plate.front", "rotor.rim", 0.5,
                              {-4.0, -4.0, {-4.305, -3.695}, {-4.098, -3.902}}, Verdict::fails),
                    clearance("stator.coil_out", "rotor.cup_floor", 0.5,
                              {0.9, 1.0, {0.2, 1.8}, {0.65, 1.35}}, Verdict::doubtful),
                    clearance("rotor.nut_seat", "cover.inside", 0.5,
                              {6.0, 6.0, {5.1, 6.9}, {5.5, 6.5}}, Verdict::holds)};
    a.checks = {check("magnets over poles", CheckKind::overlap, "stator.poles", "rotor.magnets",
                      {7.9, 7.9, {7.1, 8.4}, {7.5, 8.3}}, Verdict::holds),
                check("nut engagement", CheckKind::engagement, "nut.thread", "crank.thread",
                      {6.75, 6.75, {6.2, 7.3}, {6.4, 7.1}}, Verdict::fails)};
    a.checks[0].at_least = 6.0;
    a.checks[0].at_least_written = "75 %";
    a.checks[0].share = 0.9875;
    a.checks[0].at_least_share = 0.75;
    a.checks[1].at_least = 7.0;
    a.checks[1].at_least_written = "0.7 d";
    a.first_contact = rim_on_plate();
    a.notes = {stack::ReadingsSetAside{.readings = 2}};
    a.not_assessed = {stack::LeftOut::burst_and_speed, stack::LeftOut::balance,
                      stack::LeftOut::heat, stack::LeftOut::radial};
    return a;
}

}  // namespace trialfit::testing
