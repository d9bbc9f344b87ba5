// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

std::string_view start_endfloat() {
    return R"(# The end float of a gearbox shaft, set by shims.
# ALL SIZES HERE ARE INVENTED. Put your own in their place, then: trialfit check FILE
#
# The float is what the case and its cover leave between them, less all that lies on the shaft.
# To choose shims: fit the thinnest first, check, and add what is over.
trialfit: 1
title: End float of a gearbox shaft (invented)
units: mm

gauges:                               # how far a reading may be out, either way
  depth_gauge: 0.02
  micrometer: 0.005

parts:                                # in the order in which they go in; outboard is to the cover
  - part: case
    faces:
      thrust: zero                    # what the shaft's inner end runs against
      joint: 62.00 by depth_gauge from thrust
    rings:
      boss: {from: thrust, below: 6, bore: 15, od: 32}

  - part: shaft
    turns: true
    sits: {face: thrust_in, against: case.thrust}
    faces:
      thrust_in: zero
      thrust_out: "[59.100, 59.105, 59.095] by micrometer from thrust_in"    # read three times
    rings:
      spindle: {from: thrust_in, to: thrust_out, bore: 0, od: 22}

  - part: washer
    turns: true
    sits:                             # on the shaft, with shims between
      face: under
      against: shaft.thrust_out
      shims: {stock: [0.1, 0.2, 0.3, 0.5], at_most: 3, holds: ±0.01, fitted: [0.5, 0.2]}
    faces: {under: zero, top: 1.50 ±0.01 from under}
    rings: {ring: {from: under, to: top, bore: 15, od: 28}}

  - part: cover
    sits: {face: joint, against: case.joint, shims: {fitted: [0.30 ±0.02]}}    # gasket, squeezed
    faces: {joint: zero, thrust: -0.80 by depth_gauge from joint}              # reaches inboard
    rings: {boss: {from: thrust, above: 8, bore: 15, od: 32}}

checks:
  - check: end float
    gap: [washer.top, cover.thrust]   # inboard face, outboard face
    at_least: 0.05
    at_most: 0.35
    aim: 0.20
)";
}

}  // namespace trialfit::paper
