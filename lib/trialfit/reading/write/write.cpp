// SPDX-License-Identifier: MIT

#include <algorithm>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <trialfit/reading/write/writer.hpp>

namespace trialfit::reading {

namespace {

void write_gauges(Writer& writer) {
    if (writer.job.gauges.empty()) return;
    writer.map("gauges");
    for (const job::Gauge& gauge : writer.job.gauges) {
        if (gauge.reads.empty()) {
            writer.number(gauge.name, gauge.half_width);
            continue;
        }
        writer.short_map(gauge.name);
        writer.number("half_width", gauge.half_width);
        writer.short_list("reads");
        for (const job::GaugeReads reads : gauge.reads)
            writer.out << std::string(word(reads));
        writer.end_list();
        writer.end_map();
    }
    writer.end_map();
}

void write_materials(Writer& writer) {
    writer.list_of("materials", writer.job.materials, [&](const job::OwnMaterial& material) {
        writer.text("material", material.name);
        writer.number("expansion", material.expansion_per_k);
        writer.number("density", material.density_kg_m3);
        writer.number("modulus", material.modulus_mpa);
        writer.number("poisson", material.poisson);
        writer.number("strength", material.strength_mpa);
        writer.number("tensile", material.tensile_mpa);
    });
}

void write_states(Writer& writer) {
    if (writer.job.states.empty()) return;
    const auto celsius = [](double figure) { return figures(figure) + " C"; };
    writer.map("states");
    for (const job::State& state : writer.job.states) {
        writer.short_map(state.name);
        writer.plain("all", celsius(state.all_c));
        for (const auto& [part, figure] : state.part_c)
            writer.plain(writer.part(part).name, celsius(figure));
        writer.end_map();
    }
    writer.end_map();
}

void write_head(Writer& writer) {
    const job::Job& job = writer.job;
    writer.plain("trialfit", "1");
    writer.text("title", job.title);
    writer.plain("units", quantity::name(job.units));
    writer.number("running_clearance", job.running_clearance);
    writer.number("radial_clearance", job.radial_clearance);
    if (job.general_tolerance != 0)
        writer.plain("general_tolerance", std::string(1, job.general_tolerance));
    writer.unusual("shim_cost", job.shim_cost, job::Job{}.shim_cost);
    writer.number("price", job.price);
    write_gauges(writer);
    write_materials(writer);
    write_states(writer);
}

}  // namespace

WrittenJob write(const job::Job& job) {
    WrittenJob written;
    written.complaints = job::validate(job);
    if (job::any_error(written.complaints)) return written;
    const bool of_several_files = std::ranges::any_of(
        job.parts, [](const job::Part& part) { return part.general_tolerance.has_value(); });
    if (of_several_files) {
        written.complaints.push_back(
            {.fault = "this job is joined of files with different general tolerances",
             .mend = "write the text that the files join to (reading::Joiner::text)"});
        return written;
    }
    if (job.in_force > 0) {
        written.complaints.push_back(
            {.fault = "the record of this job is in force: its parts are as they are now",
             .mend = "write the job as it was read, which has the record in it"});
        return written;
    }
    Writer writer(job);
    writer.out << YAML::BeginMap;
    write_head(writer);
    write_parts(writer);
    write_checks(writer);
    write_readings(writer, "readings", job.readings);
    write_feelers(writer);
    write_service(writer);
    write_timing(writer);
    write_spin(writer);
    write_record(writer);
    writer.out << YAML::EndMap;
    written.complaints = std::move(writer.faults);
    if (!written.complaints.empty()) return written;
    std::string text = writer.out.c_str();
    text += '\n';
    // Names that the format does not take, and what else only its reader knows.
    Outcome read = read_job(text, job.file);
    written.complaints = std::move(read.complaints);
    if (!read.job)
        for (job::Complaint& complaint : written.complaints)
            complaint.at = {};
    else
        written.text = std::move(text);
    return written;
}

}  // namespace trialfit::reading
