// SPDX-License-Identifier: MIT

#include <array>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/reader.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

using Section = void (*)(Reader&, const Node&);

}  // namespace

Fields read_top(Reader& reader, const Node& root) {
    Fields fields(reader, root, "the job",
                  {"trialfit", "title", "units", "running_clearance", "radial_clearance",
                   "general_tolerance", "shim_cost", "price", "gauges", "materials", "states",
                   "parts", "checks", "readings", "feelers", "seat", "timing", "spin", "record"});
    read_head(reader, fields);
    return fields;
}

void read_sections(Reader& reader, const Fields& fields) {
    const Node* const parts = fields.need("parts", "parts: [{part: NAME, faces: {back: zero}}]");
    if (parts != nullptr) read_names(reader, *parts);
    if (const Node* materials = fields.find("materials")) read_materials(reader, *materials);
    if (parts != nullptr) read_parts(reader, *parts);
    constexpr std::array<std::pair<std::string_view, Section>, 8> kReaders{
        {{"checks", read_checks},
         {"readings", read_readings},
         {"feelers", read_feelers},
         {"states", read_states},
         {"seat", read_seat_service},
         {"timing", read_timing},
         {"spin", read_spin},
         {"record", read_record}}};
    for (const auto& [key, read] : kReaders)
        if (const Node* section = fields.find(key)) read(reader, *section);
    validate(reader);
}

namespace {

Outcome refused(job::Complaint complaint) {
    Outcome outcome;
    outcome.complaints.push_back(std::move(complaint));
    return outcome;
}

job::Complaint no_job(const Source& source) {
    return {.severity = job::Severity::error,
            .at = source.place(0),
            .fault = "the file holds no job",
            .mend = "begin it with 'trialfit: 1'; 'trialfit start' writes one to fill in"};
}

}  // namespace

Outcome read_job(std::string_view text, std::string file) {
    if (auto complaint = refuse_text(text)) return refused(std::move(*complaint));
    const Source source(text);
    Tree tree = parse(source);
    if (tree.complaints.empty() && (!tree.root || tree.root->is_empty()))
        return refused(no_job(source));
    if (!tree.root) return {std::nullopt, std::move(tree.complaints)};

    Reader reader{.source = source,
                  .job = {},
                  .faults = {},
                  .files = {{.name = file}},
                  .parts = {},
                  .part_names = {},
                  .materials = {}};
    reader.job.file = std::move(file);
    try {
        for (job::Complaint& complaint : tree.complaints)
            reader.faults.error(complaint.at, std::move(complaint.fault),
                                std::move(complaint.mend));
        read_sections(reader, read_top(reader, *tree.root));
    } catch (const TooManyFaults&) {
        // The complaints so far are more than anybody reads at once.
    }
    Outcome outcome;
    outcome.complaints = reader.faults.finish();
    if (!job::any_error(outcome.complaints)) outcome.job = std::move(reader.job);
    return outcome;
}

SizeOutcome read_size(std::string_view written, const job::Job& context) {
    GivenOutcome read = read_given(written, context, Bare::general_tolerance);
    if (read.given) return {read.given->size, {}, {}};
    return {std::nullopt, std::move(read.fault), std::move(read.mend)};
}

}  // namespace trialfit::reading
