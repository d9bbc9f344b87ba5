// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kImpeller =
    R"(# A pump impeller between the back wall of its housing and the casing in front of it.
# {{head}}
trialfit: 1
title: {{title}}
units: {{units}}
running_clearance: {{=0.25}}               # least gap between what turns and what stands still

gauges:                               # how far a reading may be out, either way
  caliper: {{=0.03}}
  depth_gauge: {{=0.02}}

parts:                                # in the order in which they go on; outboard is to the casing
  - part: housing
    faces:
      bearing: zero                   # the face that the shaft's collar runs against
      back_wall: {{A from bearing}}
      joint: {{B from bearing}}
    rings:
      wall: {from: back_wall, below: {{=6}}, bore: {{D1}}, od: {{D2}}}
      flange: {from: joint, below: {{=8}}, bore: {{D3}}, od: {{D4}}}

  - part: shaft
    turns: true
    # Pushed in, the collar lies on the bearing; from there it floats outboard by so much in all.
    sits: {face: collar, against: housing.bearing, play: {{P1}}}
    faces:
      collar: zero
      shoulder: {{C from collar}}
      end: {{E from collar}}
    rings:
      step: {from: collar, to: shoulder, bore: 0, od: {{D5}}}
      spindle: {from: shoulder, to: end, bore: 0, od: {{D6}}}

  - part: impeller
    turns: true
    sits: {face: back, against: shaft.shoulder}
    faces: {back: zero, front: {{F from back}}}
    rings: {body: {from: back, to: front, bore: {{D6}}, od: {{D7}}}}

  - part: casing
    sits: {face: joint, against: housing.joint, shims: {fitted: [{{G}}]}}    # the gasket
    faces: {joint: zero, wall: {{-H from joint}}}                   # reaches inboard
    rings: {front: {from: wall, above: {{=10}}, bore: {{D8}}, od: {{D9}}}}

checks:
  - check: front clearance            # too little rubs, too much loses pressure
    gap: [impeller.front, casing.wall]
    at_least: {{=0.25}}
    at_most: {{=1.00}}
  - check: back clearance
    gap: [housing.back_wall, impeller.back]
    at_least: {{=0.25}}
)";

}  // namespace

StartKind start_impeller() {
    return {
        .name = "impeller",
        .what = "a pump impeller between its two walls",
        .title = "Impeller of a water pump",
        .text = kImpeller,
        .ends = {"bearing side", "casing side"},
        .letters =
            {
                {"A", "housing",
                 "depth from the back wall to the face that the shaft's collar runs "
                 "against",
                 LetterAsks::signed_face, "9.00 by depth_gauge", "depth_gauge", kWalls,
                 "housing.bearing", "housing.back_wall"},
                {"B", "housing",
                 "depth from the joint to the face that the shaft's collar runs "
                 "against",
                 LetterAsks::face, "28.50 by depth_gauge", "depth_gauge", kWalls, "housing.bearing",
                 "housing.joint"},
                {"D1", "housing", "bore of the back wall", LetterAsks::diameter, "26", "", kAcross,
                 "housing.wall", "bore"},
                {"D2", "housing", "diameter of the back wall", LetterAsks::diameter, "90", "",
                 kAcross, "housing.wall", "od", "D1"},
                {"D3", "housing", "bore of the joint", LetterAsks::diameter, "96", "", kAcross,
                 "housing.flange", "bore"},
                {"D4", "housing", "outside diameter of the joint", LetterAsks::diameter, "130", "",
                 kOutside, "housing.flange", "od", "D3"},
                {"P1", "shaft", "end float of the shaft, as a range", LetterAsks::play,
                 "0.05..0.15", "",
                 "Dial gauge on the shaft's end: push in, set to 0, pull out. Write least and "
                 "greatest of three: {{=0.05}}..{{=0.15}}"},
                {"C", "shaft", "distance from the collar to the shoulder under the impeller",
                 LetterAsks::face, "10.00 by caliper", "caliper", kThickness, "shaft.collar",
                 "shaft.shoulder"},
                {"E", "shaft", "distance from the collar to the shaft's end", LetterAsks::face,
                 "40 ±0.1", "caliper", kThickness, "shaft.collar", "shaft.end", "C"},
                {"D5", "shaft", "diameter of the shoulder", LetterAsks::diameter, "22", "",
                 kOutside, "shaft.step", "od"},
                {"D6", "shaft", "diameter of the shaft in the impeller", LetterAsks::diameter, "14",
                 "", kOutside, "shaft.spindle", "od"},
                {"F", "impeller", "height of the impeller, from its back to its front edge",
                 LetterAsks::face, "17.80 by caliper", "caliper", kThickness, "impeller.back",
                 "impeller.front"},
                {"D7", "impeller", "outside diameter of the impeller", LetterAsks::diameter, "86",
                 "", kOutside, "impeller.body", "od", "D6"},
                {"G", "casing", "thickness of the gasket, squeezed", LetterAsks::shims,
                 "0.50 ±0.05", "",
                 "Micrometer on a used gasket, three places. No gasket: write none.",
                 "housing.joint", "casing.joint"},
                {"H", "casing", "how far the casing's wall reaches in beyond its joint",
                 LetterAsks::signed_face, "0.50 by depth_gauge", "depth_gauge",
                 "Straight edge across the joint, depth gauge to the wall. A wall that is set "
                 "back: "
                 "write -.",
                 "casing.wall", "casing.joint"},
                {"D8", "casing", "bore of the casing's wall, the inlet", LetterAsks::diameter, "30",
                 "", kAcross, "casing.front", "bore"},
                {"D9", "casing", "diameter of the casing's wall", LetterAsks::diameter, "90", "",
                 kAcross, "casing.front", "od", "D8"},
            },
        .kept = "how far each gauge may be out, running_clearance and the limits of the checks",
        .before = {"Push the shaft in, away from the casing, and hold it there for every depth."},
        .care = {"Switch the pump's drive off and lock it; drain it and let it cool first."},
    };
}

}  // namespace trialfit::paper
