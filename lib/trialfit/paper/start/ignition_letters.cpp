// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/how.hpp>
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kAlongShaft =
    "Depth rod from the shaft's end, or caliper along a rule laid on the shaft. Three places round "
    "it.";
constexpr std::string_view kFromBase =
    "Stator lying on a flat plate, base down; depth rod of the caliper to the plate. Three places "
    "round it.";

using Letters = std::vector<StartLetter>;

Letters engine() {
    return {
        {"A", "case", "height of the face that the cover lies on, above the floor",
         LetterAsks::face, "52.0 ±0.1", "depth_gauge",
         "Straight edge across the cover's face, depth gauge down to the floor. Three places.",
         "case.floor", "case.cover_rim"},
        {"D1", "case", "bore of the hole in the floor, round the shaft", LetterAsks::diameter, "32",
         "", kAcross, "case.pocket", "bore"},
        {"D2", "case", "diameter of the pocket that the plate lies in", LetterAsks::diameter, "112",
         "", kAcross, "case.pocket", "od", "D1"},
    };
}

Letters crank() {
    return {
        {"B", "crank", "height of the cone's big end above the floor, crank pushed in",
         LetterAsks::signed_offset, "8.00 by depth_gauge", "depth_gauge",
         "Push the crank in and hold it. Straight edge over the shaft; measure to floor and to the "
         "big end, and subtract. Inboard of the floor: write -.",
         "case.floor", "crank.cone_big"},
        {"P1", "crank", "end float of the crank, as a range", LetterAsks::play, "0.05..0.15", "",
         "Dial gauge on the shaft's end: push in, set to 0, pull out. Write least and greatest of "
         "three: {{=0.05}}..{{=0.15}}"},
        {"C", "crank", "distance from the cone's big end to where whole thread begins",
         LetterAsks::face, "22.0 ±0.2", "caliper", kAlongShaft, "crank.cone_big",
         "crank.thread_in"},
        {"E", "crank", "distance from the cone's big end to the shaft's end", LetterAsks::face,
         "40.0 ±0.1", "caliper", kAlongShaft, "crank.cone_big", "crank.end", "C"},
        {"D3", "crank", "diameter of the cone at its big end", LetterAsks::cone,
         "17.00 by micrometer", "micrometer",
         "Micrometer at the very edge of the big end, three places round it. What it is out here "
         "is five times as much along a 1 in 5 cone.",
         "crank.cone", "cone"},
        {"K1", "crank", "taper of the shaft's cone", LetterAsks::taper, "1 in 5", "",
         "Measure the diameter at two places, and the length between them. 3.4 less over a length "
         "of 17 is 1 in 5."},
        {"F", "crank", "length of the shaft's cone", LetterAsks::length, "18", "",
         "Caliper along the cone. The nearest {{=0.5}} will do."},
        {"T1", "crank", "thread of the shaft", LetterAsks::thread, "M12x1.25-6g", "",
         "Thread gauge for the pitch, caliper for the outside. With its class where you know it: "
         "M12x1.25-6g"},
        {"D4", "crank", "outside diameter of the thread", LetterAsks::diameter, "12", "", kOutside,
         "crank.stub", "od"},
    };
}

Letters plate_and_stator() {
    return {
        {"G", "plate", "thickness of the backing plate where the rotor's rim passes",
         LetterAsks::face, "8.00 by caliper", "caliper", kThickness, "plate.back", "plate.front"},
        {"D5", "plate", "bore of the plate", LetterAsks::diameter, "42", "", kAcross, "plate.disc",
         "bore"},
        {"D6", "plate", "outside diameter of the plate", LetterAsks::diameter, "104", "", kOutside,
         "plate.disc", "od", "D5"},
        {"K3", "plate", "least thickness that must remain if the plate is cut", LetterAsks::keep,
         "5.0", "",
         "Not measured: your decision. Look at screw heads, spigot and pockets. Empty: the plate "
         "is "
         "not to be cut.",
         "", "", "", "cut"},
        {"H", "stator", "height of the poles' inboard side above the base", LetterAsks::face,
         "5.0 ±0.2", "caliper", kFromBase, "stator.base", "stator.pole_in"},
        {"J", "stator", "height of the poles' outboard side above the base", LetterAsks::face,
         "13.0 ±0.2", "caliper", kFromBase, "stator.base", "stator.pole_out", "H"},
        {"L", "stator", "height of the tallest winding or screw head above the base",
         LetterAsks::face, "14.5 ±0.3", "caliper", kFromBase, "stator.base", "stator.coil_out"},
        {"D7", "stator", "inner diameter of the poles", LetterAsks::diameter, "54", "", kAcross,
         "stator.poles", "bore"},
        {"D8", "stator", "diameter over the poles", LetterAsks::diameter, "80.4", "",
         "Caliper over two opposite poles, at three pairs.", "stator.poles", "od", "D7"},
        {"D9", "stator", "inner diameter of the windings", LetterAsks::diameter, "52", "", kAcross,
         "stator.coils", "bore"},
        {"D10", "stator", "diameter over the windings", LetterAsks::diameter, "76", "", kOutside,
         "stator.coils", "od", "D9"},
    };
}

Letters rotor() {
    return {
        {"M", "rotor", "length of the hub, from its inboard end to the nut's seat",
         LetterAsks::face, "24.00 by caliper", "caliper", kThickness, "rotor.boss_in",
         "rotor.nut_seat"},
        {"N", "rotor", "depth from the nut's seat to the floor of the cup", LetterAsks::face,
         "7.00 by depth_gauge", "depth_gauge",
         "Depth gauge through a hole in the floor; or the depth of the cup from the rim, less that "
         "of the hub.",
         "rotor.cup_floor", "rotor.nut_seat"},
        {"Q", "rotor", "depth of the cup, from the rim to its floor", LetterAsks::face,
         "17.00 by depth_gauge", "depth_gauge",
         "Straight edge across the rim, depth gauge to the floor. Three places. Steel sticks to "
         "the "
         "magnets: slide, do not lift.",
         "rotor.rim", "rotor.cup_floor"},
        {"S", "rotor", "distance from the rim to the near end of the magnets", LetterAsks::face,
         "1.0 ±0.2", "caliper", kInTheCup, "rotor.rim", "rotor.magnet_in"},
        {"U", "rotor", "distance from the rim to the far end of the magnets", LetterAsks::face,
         "14.0 ±0.2", "caliper", kInTheCup, "rotor.rim", "rotor.magnet_out", "S"},
        {"D11", "rotor", "diameter of the hub's cone at its inboard, wide end", LetterAsks::cone,
         "16.70 ±0.01", "micrometer",
         "Inside micrometer at the very edge; or leave it to the reading R1, and write what a "
         "caliper says with its doubt: {{=16.7}} ±{{=0.05}}",
         "rotor.bore", "cone"},
        {"K2", "rotor", "taper of the hub's cone", LetterAsks::taper, "1 in 5", "",
         "As the shaft's. Blue or a soft pencil on the shaft shows whether both are alike."},
        {"V", "rotor", "length of the hub's cone", LetterAsks::length, "18", "",
         "Depth rod of the caliper. The nearest {{=0.5}} will do."},
        {"D12", "rotor", "widest bore of the hub", LetterAsks::diameter, "17", "", kAcross,
         "rotor.boss", "bore"},
        {"D13", "rotor", "outside diameter of the hub", LetterAsks::diameter, "32", "", kOutside,
         "rotor.boss", "od", "D12"},
        {"D14", "rotor", "outside diameter of the rotor", LetterAsks::diameter, "96", "", kOutside,
         "rotor.skirt", "od", "D13"},
        {"D15", "rotor", "inside diameter of the rim, without magnets", LetterAsks::diameter, "88",
         "", kAcross, "rotor.skirt", "bore"},
        {"D16", "rotor", "diameter inside the magnets", LetterAsks::diameter, "81", "", kAcross,
         "rotor.magnets", "bore"},
    };
}

Letters nut_and_cover() {
    return {
        {"W", "washer", "thickness of the washer", LetterAsks::face, "2.5 ±0.2", "caliper",
         kThickness, "washer.under", "washer.top"},
        {"D17", "washer", "bore of the washer", LetterAsks::diameter, "13", "", kAcross,
         "washer.ring", "bore"},
        {"D18", "washer", "outside diameter of the washer", LetterAsks::diameter, "24", "",
         kOutside, "washer.ring", "od", "D17"},
        {"X", "nut", "height of the nut", LetterAsks::face, "10.0 +0 -0.36", "caliper", kThickness,
         "nut.seat", "nut.top"},
        {"T2", "nut", "thread of the nut", LetterAsks::thread, "M12x1.25-6H", "",
         "As the shaft's, with its class where you know it: M12x1.25-6H"},
        {"D19", "nut", "width of the nut across its corners", LetterAsks::diameter, "21", "",
         kOutside, "nut.hex", "od", "D4"},
        {"Y", "cover", "thickness of the cover's gasket, squeezed", LetterAsks::shims, "0.8", "",
         "Micrometer on a used gasket. No gasket: write none.", "case.cover_rim", "cover.rim"},
        {"Z", "cover", "how far the cover's inside reaches in beyond its rim",
         LetterAsks::signed_face, "1.5 ±0.5", "depth_gauge",
         "Cover on its back, straight edge across the rim. A hollow cover, deeper than its rim: "
         "write the depth with -.",
         "cover.inside", "cover.rim"},
        {"D20", "cover", "inside diameter of the cover", LetterAsks::diameter, "104", "", kAcross,
         "cover.roof", "od"},
    };
}

Letters trial_fit() {
    return {
        {"R1", "trial fit", "thread standing proud of the nut's seat, rotor alone",
         LetterAsks::reading, "14.50 by depth_gauge", "depth_gauge", kProud, "", "", "",
         "readings"},
        {"R2", "trial fit", "thread standing proud of the nut's seat, everything fitted",
         LetterAsks::reading, "14.50 by depth_gauge", "depth_gauge", kProud, "", "", "",
         "readings"},
        {"T3", "timing", "stroke of the piston", LetterAsks::length, "46.0 ±0.05", "depth_gauge",
         "Depth gauge down the plug hole, top to bottom; or the maker's figure with limits.", "",
         "", "", "timing"},
        {"T4", "timing", "length of the connecting rod, centre to centre", LetterAsks::length,
         "92.0 ±0.2", "caliper",
         "The maker's figure; or twice the stroke ±{{=2}}, if nobody knows.", "", "", "", "timing"},
        {"T5", "timing", "height of the piston before top dead centre at which it is to fire",
         LetterAsks::height, "2.3 mm ±0.1", "",
         "Not measured: the maker's figure, with its unit: 2.3 mm ±0.1", "", "", "", "timing"},
    };
}

}  // namespace

std::vector<StartLetter> ignition_letters() {
    Letters out;
    for (const Letters& each :
         {engine(), crank(), plate_and_stator(), rotor(), nut_and_cover(), trial_fit()})
        out.insert(out.end(), each.begin(), each.end());
    return out;
}

}  // namespace trialfit::paper
