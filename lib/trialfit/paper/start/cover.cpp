// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kCover =
    R"(# A cover over a flywheel with a nut: does it close, and does nothing rub?
# {{head}}
#
# A heavier flywheel, a taller nut or a thicker gasket: change one size and check again.
trialfit: 1
title: {{title}}
units: {{units}}
running_clearance: {{=1.0}}                # least gap between what turns and what stands still

gauges:                               # how far a reading may be out, either way
  caliper: {{=0.03}}
  depth_gauge: {{=0.02}}

parts:                                # in the order in which they go on; outboard is to the cover
  - part: case
    faces:
      joint: zero                     # the face that the cover's gasket lies on
    rings:
      wall: {from: joint, below: {{=12}}, bore: {{D1}}, od: {{D2}}}

  - part: flywheel
    turns: true
    # How far its outer face stands proud of the joint (+) with the crank pulled out, and how far
    # the crank floats in all.
    sits: {face: outside, against: case.joint, offset: {{A}}, pushed: out,
           play: {{P1}}}
    faces:
      outside: zero
      back: {{-B from outside}}
    rings:
      disc: {from: back, to: outside, bore: {{D3}}, od: {{D4}}}

  - part: nut                         # with its washer
    turns: true
    sits: {face: under, against: flywheel.outside}
    faces: {under: zero, top: {{C from under}}}
    rings: {hex: {from: under, to: top, bore: {{D3}}, od: {{D5}}}}

  - part: cover
    sits: {face: rim, against: case.joint, shims: {fitted: [{{E}}]}}    # the gasket
    faces:
      rim: zero
      inside: {{F from rim}}              # where the flywheel's rim passes
      middle: {{G from rim}}              # over the nut
    rings:
      roof: {from: inside, above: {{=3}}, bore: {{D6}}, od: {{D7}}}
      boss: {from: middle, above: {{=3}}, bore: 0, od: {{D6}}}

checks:
  - check: cover clear of flywheel
    gap: [flywheel.outside, cover.inside]       # inboard face, outboard face
    at_least: {{=1.5}}
  - check: cover clear of nut
    gap: [nut.top, cover.middle]
    at_least: {{=1.5}}
)";

}  // namespace

StartKind start_cover() {
    constexpr std::string_view kInside =
        "Cover on its back, straight edge across its rim, depth gauge down. Least of three places, "
        "ribs and screw heads too.";
    return {
        .name = "cover",
        .what = "a cover over a flywheel and its nut",
        .title = "Cover over a flywheel",
        .text = kCover,
        .ends = {"engine side", "cover side"},
        .letters =
            {
                {"D1", "case", "inside diameter of the joint", LetterAsks::diameter, "120", "",
                 kAcross, "case.wall", "bore"},
                {"D2", "case", "outside diameter of the joint", LetterAsks::diameter, "134", "",
                 kOutside, "case.wall", "od", "D1"},
                {"A", "flywheel", "how far the flywheel's outer face stands proud of the joint",
                 LetterAsks::signed_offset, "6.00 by depth_gauge", "depth_gauge",
                 "Pull the crank out and hold it. Straight edge across the flywheel, depth gauge "
                 "to "
                 "the joint, three places. Below the joint: write -.",
                 "case.joint", "flywheel.outside"},
                {"P1", "flywheel", "end float of the crank, as a range", LetterAsks::play,
                 "0.05..0.20", "",
                 "Dial gauge on the shaft's end: push in, set to 0, pull out. Write least and "
                 "greatest of three: {{=0.05}}..{{=0.20}}"},
                {"B", "flywheel", "thickness of the flywheel", LetterAsks::face, "22.0 by caliper",
                 "caliper", kThickness, "flywheel.back", "flywheel.outside"},
                {"D3", "flywheel", "bore of the flywheel at its outer face", LetterAsks::diameter,
                 "14", "", kAcross, "flywheel.disc", "bore"},
                {"D4", "flywheel", "outside diameter of the flywheel", LetterAsks::diameter, "110",
                 "", kOutside, "flywheel.disc", "od", "D3"},
                {"C", "nut", "height of nut and washer, and of the shaft's end if it stands higher",
                 LetterAsks::face, "13.0 by caliper", "caliper",
                 "Depth rod from the highest point to the flywheel's face. Three places.",
                 "nut.under", "nut.top"},
                {"D5", "nut", "width of the nut across its corners, or of its washer",
                 LetterAsks::diameter, "26", "", kOutside, "nut.hex", "od", "D3"},
                {"E", "cover", "thickness of the gasket, squeezed", LetterAsks::shims, "0.50 ±0.05",
                 "", "Micrometer on a used gasket, three places. No gasket: write none.",
                 "case.joint", "cover.rim"},
                {"F", "cover", "depth inside the cover where the flywheel's rim passes",
                 LetterAsks::face, "9.00 by depth_gauge", "depth_gauge", kInside, "cover.rim",
                 "cover.inside"},
                {"G", "cover", "depth inside the cover over the nut", LetterAsks::face,
                 "23.00 by depth_gauge", "depth_gauge", kInside, "cover.rim", "cover.middle"},
                {"D6", "cover", "diameter of the deeper middle of the cover", LetterAsks::diameter,
                 "60", "", kAcross, "cover.roof", "bore"},
                {"D7", "cover", "inside diameter of the cover", LetterAsks::diameter, "120", "",
                 kAcross, "cover.roof", "od", "D6"},
            },
        .kept = "how far each gauge may be out, running_clearance and the limits of the checks",
        .before =
            {"Take the spark plug out, so that the crank can be turned and pulled by hand.",
             "Pull the crank out, towards the cover, and hold it there for every height: that "
             "is the worst case for a cover."},
        .care = {"Never run the engine without its cover to see what rubs."},
    };
}

}  // namespace trialfit::paper
