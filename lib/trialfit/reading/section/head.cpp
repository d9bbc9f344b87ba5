// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/size/size_text.hpp>
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
    for (const Node& item : items_of(reader, &list, what, "'reads: [length, depth]'")) {
        const auto kind = choice_of(reader, &item, what, {"length", "depth", "diameter", "gap"});
        if (kind) reads.push_back(static_cast<job::GaugeReads>(*kind));
    }
    return reads;
}

// Whether two files mean the same gauge by a name.
bool same_gauge(const job::Gauge& one, const job::Gauge& other) {
    constexpr double kRounding = 1e-9;  // of one half-width in two units
    return one.reads == other.reads && std::abs(one.half_width - other.half_width) <=
                                           kRounding * std::max(one.half_width, other.half_width);
}

// A file's name as a word that a gauge's may end with: "plate-b" of "kits/plate b.yaml".
std::string file_word(std::string_view file) {
    const std::size_t slash = file.find_last_of("/\\");
    if (slash != std::string_view::npos) file.remove_prefix(slash + 1);
    std::string word(file.substr(0, file.find('.')));
    for (char& c : word) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (!letter && !(c >= '0' && c <= '9')) c = '-';
    }
    return word.empty() ? "kit" : word;
}

// Adds a gauge of a file to the job's. One that another file has under the same name, good to
// another half-width, gets the file's name behind its own.
void add_gauge(Reader& reader, FileRead& file, job::Gauge gauge) {
    const std::string name = gauge.name;
    std::vector<job::Gauge>& all = reader.job.gauges;
    const auto named = [&](const job::Gauge& each) { return each.name == gauge.name; };
    auto found = std::ranges::find_if(all, named);
    const bool other_file =
        found != all.end() && &reader.file_of(found->at) != &file && &file != reader.files.data();
    if (other_file && !same_gauge(*found, gauge)) {
        gauge.name += "-" + file_word(file.name);
        found = std::ranges::find_if(all, named);
        while (found != all.end() && !same_gauge(*found, gauge)) {
            gauge.name += "-2";
            found = std::ranges::find_if(all, named);
        }
    } else if (!other_file) {
        found = all.end();
    }
    if (!file.gauge_names.add(name)) return all.push_back(std::move(gauge));
    file.gauges.push_back(static_cast<int>(found - all.begin()));
    if (found == all.end()) all.push_back(std::move(gauge));
}

void read_gauges(Reader& reader, const Node& gauges) {
    if (!expect_names(reader, gauges, "'gauges'", "'gauges: {caliper: SIZE}'")) return;
    for (const Entry& entry : entries(gauges)) {
        const std::string& name = entry.key.scalar;
        check_name(reader, entry, "gauge");
        if (entry.value.is_empty() && !split_by_comma(entry))
            reader.error(
                entry.key, fmt::format("gauge {} has no half-width", quoted(name)),
                fmt::format("write '{}: SIZE', what a reading by it is good to", clipped(name)));
        job::Gauge gauge{.name = name, .at = reader.place(entry.key)};
        const Node* written = entry.value.is_empty() ? nullptr : &entry.value;
        if (written != nullptr && written->is_map()) {
            const Fields fields(reader, *written, fmt::format("gauge {}", quoted(name)),
                                {"half_width", "reads"});
            written = fields.need("half_width", "half_width: SIZE");
            if (const Node* reads = fields.find("reads"))
                gauge.reads = read_reads(reader, *reads, name);
        }
        const auto half_width =
            half_width_of(reader, written, fmt::format("the half-width of gauge {}", quoted(name)));
        // Where it is refused, sizes read by it are looked at as if it read next to true: of a
        // gauge that reads true there is more to complain of.
        gauge.half_width = half_width.value_or(kLeastHalfWidth);
        add_gauge(reader, reader.file_of(gauges.at), std::move(gauge));
    }
}

// What holds of the whole job and may stand in each of its files: they must agree.
void read_of_all(Reader& reader, const Fields& root, std::string_view key, std::string_view what,
                 std::optional<double>& known) {
    constexpr double kRounding = 1e-9;  // of one length in two units
    const Node* const node = root.find(key);
    const auto value = length_of(reader, node, what, Least::zero_allowed);
    if (node == nullptr || !value) return;
    if (known && std::abs(*known - *value) > kRounding * std::max(*known, *value))
        reader.error(*node,
                     fmt::format("{} is {:.6g} {} here, and {:.6g} in another of the files", what,
                                 *value, quantity::name(reader.job.units), *known),
                     "make the files agree, or leave it to the first");
    else
        known = value;
}

}  // namespace

void read_head(Reader& reader, const Fields& root) {
    read_version(reader, root);
    FileRead& file = reader.file_of(root.node().at);
    const bool first = &file == reader.files.data();
    file.title = text_of(reader, root.find("title"), "the title");
    if (first) reader.job.title = file.title;
    constexpr std::array kUnits{quantity::Unit::mm, quantity::Unit::inch, quantity::Unit::um,
                                quantity::Unit::thou};
    const auto unit =
        choice_of(reader, root.find("units"), "the unit of the file", {"mm", "in", "um", "thou"});
    if (unit) file.units = kUnits.at(*unit);
    if (first) reader.job.units = file.units;
    constexpr std::string_view kClasses = "fmcv";
    const Node* const general = root.find("general_tolerance");
    const auto of =
        choice_of(reader, general, "the general tolerance (ISO 2768-1)", {"f", "m", "c", "v"});
    if (of) file.general_tolerance = kClasses[*of];
    // A class that cannot be read is complained of once, not again for every bare size.
    if (root.written("general_tolerance") && !of) file.general_tolerance = 'm';
    if (first) reader.job.general_tolerance = file.general_tolerance;
    read_of_all(reader, root, "running_clearance", "the running clearance",
                reader.job.running_clearance);
    read_of_all(reader, root, "radial_clearance", "the radial clearance",
                reader.job.radial_clearance);
    const auto shim_cost = number_in(reader, root.find("shim_cost"), "the cost of a shim",
                                     {0.0, 1e6, "it cannot be less than 0"});
    if (shim_cost && reader.shim_cost.value_or(*shim_cost) != *shim_cost)
        reader.error(*root.find("shim_cost"),
                     fmt::format("the cost of a shim is {} here, and {} in another of the files",
                                 *shim_cost, *reader.shim_cost),
                     "make the files agree, or leave it to the first");
    else if (shim_cost)
        reader.shim_cost = reader.job.shim_cost = *shim_cost;
    constexpr double kMostPrice = 1e9;
    file.price = number_in(reader, root.find("price"), "the price",
                           {0.0, kMostPrice, "it cannot be less than 0"});
    if (first) reader.job.price = file.price;
    if (const Node* gauges = root.find("gauges")) read_gauges(reader, *gauges);
}

}  // namespace trialfit::reading
