// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kSpacer = R"(# The spacer tube between the two bearings of a wheel hub.
# {{head}}
#
# The tube must be as long as the distance between the inner races, or a hair shorter: too short,
# and the axle nut loads the balls; too long, and the second bearing never reaches its shoulder.
trialfit: 1
title: {{title}}
units: {{units}}

gauges:                               # how far a reading may be out, either way
  micrometer: {{=0.003}}

parts:                                # in the order in which they go in; outboard is to the right
  - part: left_bearing
    faces:
      outer: zero                     # outer race, the face towards the hub
      inner: {{A from outer}}  # inner race, same side: so far set back (-) or proud (+)
    rings:
      outer_race: {from: outer, below: {{=14}}, bore: {{D1}}, od: {{D2}}}
      inner_race: {from: inner, below: {{=14}}, bore: {{D3}}, od: {{D4}}}

  - part: hub
    sits: {face: left, against: left_bearing.outer}
    faces:
      left: zero                      # the shoulders that the outer races seat on
      right: {{B from left}}
    rings:
      barrel: {from: left, to: right, bore: {{D5}}, od: {{D6}}}

  - part: tube
    sits: {face: left, against: left_bearing.inner}
    faces:
      left: zero
      right: {{C from left}}
    rings:
      wall: {from: left, to: right, bore: {{D7}}, od: {{D8}}}

  - part: right_bearing
    sits: {face: outer, against: hub.right}
    faces:
      outer: zero
      inner: {{E from outer}}
    rings:
      outer_race: {from: outer, above: {{=14}}, bore: {{D1}}, od: {{D2}}}
      inner_race: {from: inner, above: {{=14}}, bore: {{D3}}, od: {{D4}}}

checks:
  - check: tube shorter than the races' distance
    gap: [tube.right, right_bearing.inner]      # inboard face, outboard face
    at_least: 0
    at_most: {{=0.03}}
)";

}  // namespace

StartKind start_spacer() {
    constexpr std::string_view kRaces =
        "Bearing on a flat plate, inner race pushed through by hand: height of both races, and "
        "subtract. "
        "New bearings: 0 ±{{=0.003}}.";
    return {
        .name = "spacer",
        .what = "the spacer tube between two wheel bearings",
        .title = "Spacer tube of a wheel hub",
        .text = kSpacer,
        .ends = {"left", "right"},
        .letters =
            {
                {"A", "left_bearing",
                 "step from the outer race to the inner race, on the side of the hub; proud is +",
                 LetterAsks::signed_face, "0.000 ±0.003", "micrometer", kRaces,
                 "left_bearing.outer", "left_bearing.inner"},
                {"D1", "left_bearing", "bore of the outer race", LetterAsks::diameter, "38", "",
                 kAcross, "left_bearing.outer_race", "bore"},
                {"D2", "left_bearing", "outside diameter of the bearing", LetterAsks::diameter,
                 "47", "", kOutside, "left_bearing.outer_race", "od", "D1"},
                {"D3", "left_bearing", "bore of the bearing", LetterAsks::diameter, "20", "",
                 kAcross, "left_bearing.inner_race", "bore"},
                {"D4", "left_bearing", "outside diameter of the inner race", LetterAsks::diameter,
                 "27", "", kOutside, "left_bearing.inner_race", "od", "D3"},
                {"B", "hub", "distance between the shoulders that the outer races seat on",
                 LetterAsks::face, "62.000 by micrometer", "micrometer",
                 "Overall length of the hub less both bearing depths, each read at three places.",
                 "hub.left", "hub.right"},
                {"D5", "hub", "bore of the hub between the bearings", LetterAsks::diameter, "40",
                 "", kAcross, "hub.barrel", "bore"},
                {"D6", "hub", "outside diameter of the hub", LetterAsks::diameter, "60", "",
                 kOutside, "hub.barrel", "od", "D5"},
                {"C", "tube", "length of the spacer tube", LetterAsks::face, "61.985 by micrometer",
                 "micrometer", kThickness, "tube.left", "tube.right"},
                {"D7", "tube", "bore of the tube", LetterAsks::diameter, "20", "", kAcross,
                 "tube.wall", "bore"},
                {"D8", "tube", "outside diameter of the tube", LetterAsks::diameter, "26", "",
                 kOutside, "tube.wall", "od", "D7"},
                {"E", "right_bearing",
                 "step from the outer race to the inner race, on the side of the hub; proud is -",
                 LetterAsks::signed_face, "0.000 ±0.003", "micrometer", kRaces,
                 "right_bearing.outer", "right_bearing.inner"},
            },
        .kept =
            "how far the micrometer may be out, the limits of the check; both bearings are "
            "taken to be of one size",
        .before = {"Left is the side that you choose; keep to it. Bearings out, seats clean."},
        .care = {"Stand the machine so that it cannot fall with its wheel out."},
    };
}

}  // namespace trialfit::paper
