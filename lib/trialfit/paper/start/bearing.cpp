// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kBearing =
    R"(# Shims under a bearing's cap: how much room is left to the outer race.
# {{head}}
#
# The cap's spigot holds the race in its housing; shims under the cap's flange set the room.
trialfit: 1
title: {{title}}
units: {{units}}

gauges:                               # how far a reading may be out, either way
  depth_gauge: {{=0.02}}
  micrometer: {{=0.005}}

parts:                                # in the order in which they go in; outboard is to the cap
  - part: housing
    faces:
      shoulder: zero                  # what the bearing's outer race seats on
      joint: {{A from shoulder}}
    rings:
      seat: {from: shoulder, below: {{=6}}, bore: {{D1}}, od: {{D2}}}
      wall: {from: shoulder, to: joint, bore: {{D3}}, od: {{D2}}}

  - part: bearing
    sits: {face: inner_side, against: housing.shoulder}
    faces: {inner_side: zero, outer_side: {{B from inner_side}}}
    rings: {race: {from: inner_side, to: outer_side, bore: {{D4}}, od: {{D3}}}}

  - part: cap
    sits:                             # on the housing, with shims between
      face: flange
      against: housing.joint
      shims: {stock: [{{=0.1}}, {{=0.2}}, {{=0.3}}, {{=0.5}}], at_most: 3, holds: ±{{=0.01}}, fitted: [{{C}}]}
    faces: {flange: zero, spigot: {{-E from flange}}}
    rings:
      spigot: {from: spigot, to: flange, bore: {{D5}}, od: {{D6}}}
      lid: {from: flange, above: {{=8}}, bore: {{D5}}, od: {{D2}}}

checks:
  - check: room for the outer race
    gap: [bearing.outer_side, cap.spigot]       # inboard face, outboard face
    at_least: {{=0.02}}
    at_most: {{=0.18}}
    aim: {{=0.10}}
)";

}  // namespace

StartKind start_bearing() {
    return {
        .name = "bearing",
        .what = "the room under a bearing's cap, set by shims",
        .title = "Shims under a bearing cap",
        .text = kBearing,
        .ends = {"into the housing", "to the cap"},
        .letters =
            {
                {"A", "housing",
                 "depth from the joint to the shoulder that the outer race seats on",
                 LetterAsks::face, "30.00 by depth_gauge", "depth_gauge", kWalls,
                 "housing.shoulder", "housing.joint"},
                {"D1", "housing", "bore of the shoulder", LetterAsks::diameter, "50", "", kAcross,
                 "housing.seat", "bore"},
                {"D2", "housing", "outside diameter of the joint", LetterAsks::diameter, "84", "",
                 kOutside, "housing.wall", "od", "D1"},
                {"D3", "housing", "bore that the bearing goes into", LetterAsks::diameter, "62", "",
                 kAcross, "housing.wall", "bore", "D1"},
                {"B", "bearing", "width of the outer race", LetterAsks::face, "28.00 by micrometer",
                 "micrometer", kThickness, "bearing.inner_side", "bearing.outer_side"},
                {"D4", "bearing", "inner diameter of the outer race", LetterAsks::diameter, "52",
                 "", kAcross, "bearing.race", "bore"},
                {"C", "cap", "thickness of the shims that lie under the cap now", LetterAsks::shims,
                 "0.3, 0.1", "",
                 "Micrometer on each shim, and write them as a sum: {{=0.3}}+{{=0.1}}. No shims "
                 "fitted: "
                 "write "
                 "none."},
                {"E", "cap", "length of the spigot, from the flange to its end", LetterAsks::face,
                 "2.30 by depth_gauge", "depth_gauge",
                 "Straight edge across the spigot, depth gauge down to the flange. Three places.",
                 "cap.spigot", "cap.flange"},
                {"D5", "cap", "bore of the cap", LetterAsks::diameter, "42", "", kAcross,
                 "cap.spigot", "bore"},
                {"D6", "cap", "outside diameter of the spigot", LetterAsks::diameter, "61.9", "",
                 kOutside, "cap.spigot", "od", "D5"},
            },
        .kept =
            "how far each gauge may be out, the shims in stock and how true they are, the room "
            "that the check asks for: the bearing maker's figure holds",
        .before = {"Seat the bearing fully: turn it while you push. Clean joint and flange.",
                   "Measure with the shims out; count and keep every shim."},
        .care = {"Support the shaft before the cap comes off: it may drop."},
    };
}

}  // namespace trialfit::paper
