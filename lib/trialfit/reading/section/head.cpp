// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>
#include <vector>

namespace trialfit::reading {

namespace {

void read_version(Reader& reader, const Fields& root) {
    if (!root.written("trialfit") && root.ok()) {
        reader.error(root.node(), "the file does not say which version of the format it is in",
                     "begin it with 'trialfit: 1'");
        return;
    }
    const Node* const version = root.find("trialfit");
    if (version == nullptr) return;
    const bool known =
        version->is_scalar() && version->style == Node::Style::plain && version->scalar == "1";
    if (!known)
        reader.error(*version,
                     fmt::format("this file is in version {} of the format, and this program reads "
                                 "version 1",
                                 quoted(version->scalar)),
                     "write 'trialfit: 1'");
}

// What a gauge reads, as the file says: none where it says nothing.
std::vector<job::GaugeReads> read_reads(Reader& reader, const Node& list, const std::string& name) {
    const std::string what = fmt::format("what gauge {} reads", quoted(name));
    std::vector<job::GaugeReads> reads;
    if (!expect_list(reader, list, what, "'reads: [length, depth]'")) return reads;
    for (const Node& item : list.children) {
        const auto kind = choice_of(reader, &item, what, {"length", "depth", "diameter", "gap"});
        if (kind) reads.push_back(static_cast<job::GaugeReads>(*kind));
    }
    return reads;
}

void read_gauges(Reader& reader, const Node& gauges) {
    if (!expect_names(reader, gauges, "'gauges'", "'gauges: {caliper: 0.03}'")) return;
    for (const Entry& entry : entries(gauges)) {
        const std::string& name = entry.key.scalar;
        check_name(reader, entry, "gauge");
        if (entry.value.is_empty() && !split_by_comma(entry))
            reader.error(
                entry.key, fmt::format("gauge {} has no half-width", quoted(name)),
                fmt::format("write '{}: 0.03', what a reading by it is good to", clipped(name)));
        job::Gauge gauge{.name = name, .at = reader.place(entry.key)};
        const Node* written = entry.value.is_empty() ? nullptr : &entry.value;
        if (written != nullptr && written->is_map()) {
            const Fields fields(reader, *written, fmt::format("gauge {}", quoted(name)),
                                {"half_width", "reads"});
            written = fields.need("half_width", "half_width: 0.03");
            if (const Node* reads = fields.find("reads"))
                gauge.reads = read_reads(reader, *reads, name);
        }
        const auto half_width =
            half_width_of(reader, written, fmt::format("the half-width of gauge {}", quoted(name)));
        // Where it is refused, sizes read by it are looked at as if it read true.
        gauge.half_width = half_width.value_or(0.0);
        reader.gauges.add(name);
        reader.job.gauges.push_back(std::move(gauge));
    }
}

}  // namespace

void read_head(Reader& reader, const Fields& root) {
    read_version(reader, root);
    reader.job.title = text_of(reader, root.find("title"), "the title");
    constexpr std::array kUnits{quantity::Unit::mm, quantity::Unit::inch, quantity::Unit::um,
                                quantity::Unit::thou};
    const auto unit =
        choice_of(reader, root.find("units"), "the unit of the file", {"mm", "in", "um", "thou"});
    if (unit) reader.job.units = kUnits.at(*unit);
    constexpr std::string_view kClasses = "fmcv";
    const Node* const general = root.find("general_tolerance");
    const auto of =
        choice_of(reader, general, "the general tolerance (ISO 2768-1)", {"f", "m", "c", "v"});
    if (of) reader.job.general_tolerance = kClasses[*of];
    // A class that cannot be read is complained of once, not again for every bare size.
    if (root.written("general_tolerance") && !of) reader.job.general_tolerance = 'm';
    reader.job.running_clearance = length_of(reader, root.find("running_clearance"),
                                             "the running clearance", Least::zero_allowed);
    reader.job.radial_clearance = length_of(reader, root.find("radial_clearance"),
                                            "the radial clearance", Least::zero_allowed);
    const auto shim_cost = number_in(reader, root.find("shim_cost"), "the cost of a shim",
                                     {0.0, 1e6, "it cannot be less than 0"});
    if (shim_cost) reader.job.shim_cost = *shim_cost;
    if (const Node* gauges = root.find("gauges")) read_gauges(reader, *gauges);
}

}  // namespace trialfit::reading
