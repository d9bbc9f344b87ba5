// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/write/writer.hpp>

// The timing, and the record of work done.
namespace trialfit::reading {

namespace {

std::string degrees(double figure) {
    return figures(figure) + " deg";
}

void given(Writer& writer, std::string_view key, const std::optional<job::Given>& size) {
    if (size) writer.size(key, *size, Bare::exact, fmt::format("'{}' of the timing", key));
}

void write_wheel(Writer& writer, const job::Timing& timing) {
    if (timing.stops) {
        writer.short_map("stops");
        writer.plain("before", degrees(timing.stops->before_deg));
        writer.plain("after", degrees(timing.stops->after_deg));
        writer.plain("wheel", degrees(timing.stops->wheel_deg));
        writer.number("holds", timing.stops->holds);
        writer.end_map();
    }
    if (timing.dwell) {
        writer.short_map("dwell");
        writer.plain("from", degrees(timing.dwell->from_deg));
        writer.plain("to", degrees(timing.dwell->to_deg));
        writer.plain("wheel", degrees(timing.dwell->wheel_deg));
        writer.end_map();
    }
}

void write_marks(Writer& writer, const job::Timing& timing) {
    writer.list_of("marks", timing.marks, [&](const job::TimingMark& mark) {
        writer.text("mark", mark.name);
        writer.angle("at", mark.angle, fmt::format("mark '{}'", mark.name));
    });
}

void write_slot(Writer& writer, const job::Timing& timing) {
    if (!timing.slot) return;
    const job::Slot& slot = *timing.slot;
    writer.short_map("slot");
    given(writer, "dia", slot.dia);
    given(writer, "length", slot.length);
    given(writer, "screw", slot.screw);
    given(writer, "free_earlier", slot.free_earlier);
    writer.end_map();
}

void write_curves(Writer& writer, const job::Timing& timing) {
    writer.list_of("curves", timing.curves, [&](const job::Curve& curve) {
        writer.text("curve", curve.name);
        writer.short_list("points");
        for (const trade::CurvePoint& point : curve.points) {
            writer.out << YAML::Flow << YAML::BeginSeq << figures(point.rpm)
                       << figures(point.degrees);
            writer.end_list();
        }
        writer.end_list();
        if (curve.on == job::CurveOn::fire_at) writer.plain("counts_from", "fire_at");
        if (curve.on == job::CurveOn::curve)
            writer.text("counts_from",
                        timing.curves[static_cast<std::size_t>(curve.on_curve.value())].name);
    });
}

class EntryWriter {
public:
    EntryWriter(Writer& writer, const job::RecordEntry& entry) : writer_(writer), entry_(entry) {}

    void write() {
        writer_.out << YAML::BeginMap;
        writer_.plain("date", entry_.date);
        writer_.text("who", entry_.who);
        writer_.text("note", entry_.note);
        if (entry_.planned) writer_.plain("planned", "true");
        work();
        write_readings(writer_, "measured", entry_.measured);
        writer_.end_map();
    }

private:
    void work() {
        const job::Job& job = writer_.job;
        const auto each = [&](std::string_view key, const auto& all, const auto& write_one) {
            if (all.empty()) return;
            writer_.short_map(key);
            for (const auto& one : all)
                write_one(one);
            writer_.end_map();
        };
        const auto size = [&](const std::string& what, const job::Given& given) {
            writer_.size(what, given, Bare::general_tolerance, "what was done to " + what);
        };
        std::vector<job::RecordEntry::AsCut> finished = entry_.as_cut;
        const auto taken = std::stable_partition(
            finished.begin(), finished.end(),
            [](const job::RecordEntry::AsCut& one) { return !one.by_amount; });
        const std::vector<job::RecordEntry::AsCut> taken_off(taken, finished.end());
        finished.erase(taken, finished.end());
        const auto cut = [&](const job::RecordEntry::AsCut& one) {
            size(job::name(job, one.face), one.size);
        };
        each("as_cut", finished, cut);
        each("taken_off", taken_off, cut);
        each("fitted", entry_.fitted, [&](const job::RecordEntry::Fitted& one) { fitted(one); });
        each("as_skimmed", entry_.as_skimmed, [&](const job::RecordEntry::AsSkimmed& one) {
            size(job::ring_name(job, one.ring), one.size);
        });
        each("lapped", entry_.lapped, [&](const job::RecordEntry::Lapped& one) {
            writer_.number(job::cone_name(job, one.cone), one.off);
        });
        each("centred", entry_.centred, [&](const job::RecordEntry::Centred& one) {
            size(writer_.part(one.part).name, one.clearance);
        });
    }

    void fitted(const job::RecordEntry::Fitted& one) {
        const job::Part& part = writer_.part(one.part);
        double holds = 0.0;
        for (const job::Seat& seat : part.seats)
            if (seat.shims) {
                holds = seat.shims->holds;
                break;
            }
        writer_.short_list(part.name);
        for (const job::Given& shim : one.shims)
            writer_.size(shim, Bare::exact, fmt::format("a shim under part '{}'", part.name),
                         holds);
        writer_.end_list();
    }

    Writer& writer_;
    const job::RecordEntry& entry_;
};

}  // namespace

void write_timing(Writer& writer) {
    if (!writer.job.timing) return;
    const job::Timing& timing = *writer.job.timing;
    writer.map("timing");
    given(writer, "stroke", timing.stroke);
    given(writer, "rod", timing.rod);
    given(writer, "pin_offset", timing.pin_offset);
    if (timing.plug_tilt)
        writer.angle("plug_tilt", {*timing.plug_tilt, job::AngleIn::degrees},
                     "the tilt of the plug");
    if (timing.turns)
        writer.plain("turns",
                     *timing.turns == trade::Turning::clockwise ? "clockwise" : "anticlockwise");
    if (timing.fire_at) writer.angle("fire_at", *timing.fire_at, "'fire_at'");
    if (timing.fires_now) writer.angle("fires_now", *timing.fires_now, "'fires_now'");
    writer.gauge("gauge", timing.gauge);
    write_wheel(writer, timing);
    given(writer, "rim_dia", timing.rim_dia);
    given(writer, "stator_dia", timing.stator_dia);
    write_marks(writer, timing);
    write_slot(writer, timing);
    write_curves(writer, timing);
    writer.end_map();
}

void write_record(Writer& writer) {
    if (writer.job.record.empty()) return;
    writer.list("record");
    for (const job::RecordEntry& entry : writer.job.record)
        EntryWriter(writer, entry).write();
    writer.end_list();
}

}  // namespace trialfit::reading
