// SPDX-License-Identifier: MIT
#include <trialfit/reading/write/writer.hpp>
#include <variant>

namespace trialfit::reading {

namespace {

struct StarterWriter {
    Writer& writer;

    void operator()(const job::StarterEnergy& by) const { writer.span("energy", by.energy_j, "J"); }
    void operator()(const job::StarterTorque& by) const {
        writer.span("torque", by.torque_nm, "N m");
        writer.span("turns", by.turns, "");
    }
    void operator()(const job::StarterSpeed& by) const {
        writer.span("speed", by.speed_rpm, "rpm");
    }
};

}  // namespace

void write_spin(Writer& writer) {
    if (!writer.job.spin) return;
    const job::Spin& spin = *writer.job.spin;
    writer.map("spin");
    writer.span("crank_inertia", spin.crank_inertia_kg_m2, "kg m2");
    writer.span("drag", spin.drag_nm, "N m");
    if (spin.starter) {
        writer.short_map("starter");
        std::visit(StarterWriter{writer}, *spin.starter);
        writer.end_map();
    }
    if (spin.bore) writer.size("bore", *spin.bore, Bare::exact, "the bore");
    writer.span("compression", spin.compression, "");
    writer.span("exponent", spin.exponent, "");
    if (spin.closes_at) writer.angle("closes_at", *spin.closes_at, "'closes_at'");
    writer.span("air_pressure", spin.air_kpa, "kPa");
    writer.span("under_piston", spin.under_piston, "");
    writer.span("spark_from", spin.spark_from_rpm, "rpm");
    writer.span("idle", spin.idle_rpm, "rpm");
    writer.end_map();
}

}  // namespace trialfit::reading
