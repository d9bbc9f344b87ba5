// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kEndfloat = R"(# The end float of a gearbox shaft, set by shims.
# {{head}}
#
# The float is what the case and its cover leave between them, less all that lies on the shaft.
# To choose shims: fit the thinnest first, check, and add what is over.
trialfit: 1
title: {{title}}
units: {{units}}

gauges:                               # how far a reading may be out, either way
  depth_gauge: {{=0.02}}
  micrometer: {{=0.005}}

parts:                                # in the order in which they go in; outboard is to the cover
  - part: case
    faces:
      thrust: zero                    # what the shaft's inner end runs against
      joint: {{A from thrust}}
    rings:
      boss: {from: thrust, below: {{=6}}, bore: {{D1}}, od: {{D2}}}

  - part: shaft
    turns: true
    sits: {face: thrust_in, against: case.thrust}
    faces:
      thrust_in: zero
      thrust_out: {{B from thrust_in}}    # read three times
    rings:
      spindle: {from: thrust_in, to: thrust_out, bore: 0, od: {{D3}}}

  - part: washer
    turns: true
    sits:                             # on the shaft, with shims between
      face: under
      against: shaft.thrust_out
      shims: {stock: [{{=0.1}}, {{=0.2}}, {{=0.3}}, {{=0.5}}], at_most: 3, holds: ±{{=0.01}}, fitted: [{{C}}]}
    faces: {under: zero, top: {{E from under}}}
    rings: {ring: {from: under, to: top, bore: {{D4}}, od: {{D5}}}}

  - part: cover
    sits: {face: joint, against: case.joint, shims: {fitted: [{{F}}]}}    # gasket, squeezed
    faces: {joint: zero, thrust: {{-G from joint}}}              # reaches inboard
    rings: {boss: {from: thrust, above: {{=8}}, bore: {{D6}}, od: {{D7}}}}

checks:
  - check: end float
    gap: [washer.top, cover.thrust]   # inboard face, outboard face
    at_least: {{=0.05}}
    at_most: {{=0.35}}
    aim: {{=0.20}}
)";

}  // namespace

StartKind start_endfloat() {
    return {
        .name = "endfloat",
        .what = "the end float of a gearbox shaft, set by shims",
        .title = "End float of a gearbox shaft",
        .text = kEndfloat,
        .ends = {"into the case", "to the cover"},
        .letters =
            {
                {"A", "case", "depth from the joint to the thrust face in the case",
                 LetterAsks::face, "62.00 by depth_gauge", "depth_gauge", kWalls, "case.thrust",
                 "case.joint"},
                {"D1", "case", "bore of the thrust face", LetterAsks::diameter, "15", "", kAcross,
                 "case.boss", "bore"},
                {"D2", "case", "outside diameter of the thrust face", LetterAsks::diameter, "32",
                 "", kOutside, "case.boss", "od", "D1"},
                {"B", "shaft", "length of the shaft between its two thrust faces", LetterAsks::face,
                 "[59.100, 59.105, 59.095] by micrometer", "micrometer", kThickness,
                 "shaft.thrust_in", "shaft.thrust_out"},
                {"D3", "shaft", "greatest diameter of its thrust faces", LetterAsks::diameter, "22",
                 "", kOutside, "shaft.spindle", "od"},
                {"C", "washer", "thickness of the shims that lie under the washer now",
                 LetterAsks::shims, "0.5, 0.2", "",
                 "Micrometer on each shim, and write them as a sum: {{=0.5}}+{{=0.2}}. No shims "
                 "fitted: write none."},
                {"E", "washer", "thickness of the washer", LetterAsks::face, "1.50 ±0.01",
                 "micrometer", kThickness, "washer.under", "washer.top"},
                {"D4", "washer", "bore of the washer", LetterAsks::diameter, "15", "", kAcross,
                 "washer.ring", "bore"},
                {"D5", "washer", "outside diameter of the washer", LetterAsks::diameter, "28", "",
                 kOutside, "washer.ring", "od", "D4"},
                {"F", "cover", "thickness of the gasket, squeezed", LetterAsks::shims, "0.30 ±0.02",
                 "", "Micrometer on a used gasket, three places. No gasket: write none.",
                 "case.joint", "cover.joint"},
                {"G", "cover", "how far the cover's thrust face reaches in beyond its joint",
                 LetterAsks::signed_face, "0.80 by depth_gauge", "depth_gauge",
                 "Straight edge across the face, depth gauge down to the joint. A face that is set "
                 "back: write -.",
                 "cover.thrust", "cover.joint"},
                {"D6", "cover", "bore of the cover's thrust face", LetterAsks::diameter, "15", "",
                 kAcross, "cover.boss", "bore"},
                {"D7", "cover", "outside diameter of the cover's thrust face", LetterAsks::diameter,
                 "32", "", kOutside, "cover.boss", "od", "D6"},
            },
        .kept =
            "how far each gauge may be out, the shims in stock and how true they are, the float "
            "that the check asks for",
        .before = {"Clean every face; take burrs off with a fine stone.",
                   "Push the shaft the same way each time that you measure it in its case."},
        .care = {"Support the case so that it cannot roll; edges of machined faces cut."},
    };
}

}  // namespace trialfit::paper
