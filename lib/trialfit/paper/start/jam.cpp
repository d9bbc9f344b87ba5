// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <trialfit/paper/start/jam.hpp>

namespace trialfit::paper {

namespace {

const JamJob::Part* part_called(const JamJob& job, std::string_view name) {
    const auto found = std::ranges::find(job.parts, name, &JamJob::Part::name);
    return found == job.parts.end() ? nullptr : &*found;
}

// "front: 10.00 by caliper from back", or unmeasured.
std::string thickness_of(const JamJob::Part* part, std::string_view from) {
    return fmt::format("{} from {}", part == nullptr ? "unmeasured" : part->now, from);
}

std::string cut_of(const JamJob::Part* part, std::string_view face, std::string_view measure,
                   std::string_view holds) {
    if (part == nullptr || part->keep.empty())
        return fmt::format(
            "    # cuts: [{{face: {}, measure: {}, keep: 0.0, holds: {}}}]   # what must remain\n",
            face, measure, holds);
    return fmt::format("    cuts: [{{face: {}, measure: {}, keep: {}, holds: {}}}]\n", face,
                       measure, part->keep, holds);
}

// A part that lies on another: plate on the engine, stator on the plate.
std::string flat_part(const JamJob& job, std::string_view name, std::string_view against,
                      std::string_view holds) {
    const JamJob::Part* const part = part_called(job, name);
    return fmt::format(
        "  - part: {}\n"
        "    sits: {{face: back, against: {}}}\n"
        "    faces: {{back: zero, front: {}}}\n"
        "{}\n",
        name, against, thickness_of(part, "back"), cut_of(part, "front", "back", holds));
}

std::string rotor_part(const JamJob& job, std::string_view holds) {
    const JamJob::Part* const part = part_called(job, "rotor");
    const std::string rim =
        part == nullptr ? "unmeasured from hub" : fmt::format("-{} from outer", part->now);
    return fmt::format(
        "  - part: rotor\n"
        "    turns: true\n"
        "    sits: {{face: hub, against: engine.cone, offset: 0 exact}}\n"
        "    faces:\n"
        "      hub: zero                     # where it comes to rest on the shaft's cone\n"
        "      outer: unmeasured from hub    # the face that both depths were read from\n"
        "      rim: {:<24} # the face that lands first\n"
        "{}\n",
        rim, cut_of(part, "rim", "outer", holds));
}

std::string readings_of(const JamJob& job, std::string_view on) {
    const std::string touching =
        job.seats ? "    # touching: nothing holds it off: no less thread stands proud\n"
                  : fmt::format("    touching: [{}.front, rotor.rim]\n", on);
    return fmt::format(
        "readings:                           # how far the thread stands proud of the rotor\n"
        "  - reading: rotor alone\n"
        "    from: rotor.outer\n"
        "    to: engine.thread_end\n"
        "    is: {}\n"
        "    fitted: [engine, rotor]\n"
        "  - reading: everything fitted\n"
        "    from: rotor.outer\n"
        "    to: engine.thread_end\n"
        "    is: {}\n"
        "{}\n",
        job.alone, job.together, touching);
}

}  // namespace

std::string jam_job(const JamJob& job) {
    const bool inches = job.units == quantity::Unit::inch;
    const std::string_view holds = inches ? "0.002" : "0.05";
    const std::string_view on = job.on_stator ? "stator" : "plate";
    std::string out = fmt::format(
        "# A rotor that jams, from two depth readings. What nobody has measured is 'unmeasured': "
        "put\n"
        "# a size in its place, '12.34 by {0}', and every answer knows more. Then: trialfit check "
        "FILE\n"
        "trialfit: 1\n"
        "title: A rotor that jams\n"
        "units: {1}\n\n"
        "gauges: {{{0}: {2}}}{3:<14} # how far a reading may be out, either way\n\n"
        "parts:                              # in the order in which they go on\n"
        "  - part: engine                    # the case and its shaft end\n"
        "    faces:\n"
        "      pad: zero                     # the face that the plate is screwed to\n"
        "      cone: unmeasured from pad     # where the rotor's hub comes to rest\n"
        "      thread_end: unmeasured from cone\n\n",
        job.gauge, quantity::name(job.units), job.gauge_half_width, "");
    out += flat_part(job, "plate", "engine.pad", holds);
    if (job.on_stator) out += flat_part(job, "stator", "plate.front", holds);
    out += rotor_part(job, holds) + readings_of(job, on);
    out += fmt::format(
        "checks:\n"
        "  - check: rotor clears {0}\n"
        "    gap: [{0}.front, rotor.rim]\n"
        "    at_least: {1}{2}\n",
        on, job.clearance.empty() ? "0" : job.clearance,
        job.clearance.empty() ? "                     # and the clearance that it needs" : "");
    return out;
}

}  // namespace trialfit::paper
