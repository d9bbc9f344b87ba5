// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/quantity/nearest.hpp>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <trialfit/trade/strength/materials.hpp>

namespace trialfit::reading {

namespace {

constexpr std::string_view kPartsExample = "'- part: NAME', one after the other";

// `cone:` is the cone named "cone", `cones:` names several; threads alike.
void name_features(Reader& reader, const Node& part, std::string_view singular, NameIndex& names) {
    const std::string plural = fmt::format("{}s", singular);
    for (const Entry& entry : entries(part)) {
        if (entry.value.is_empty()) continue;
        if (entry.key.scalar == singular) names.add(std::string(singular));
        if (entry.key.scalar != plural) continue;
        for (const Entry& named : entries(entry.value)) {
            check_name(reader, named, singular);
            if (!names.add(named.key.scalar))
                reader.error(named.key,
                             fmt::format("'{}' is both a key of the part and a name under '{}'",
                                         singular, plural),
                             "give it another name");
        }
    }
}

void name_part(Reader& reader, const Node& part) {
    const Node* name = nullptr;
    const Node* faces = nullptr;
    for (const Entry& entry : entries(part)) {
        if (entry.key.scalar == "part") name = &entry.value;
        if (entry.key.scalar == "faces") faces = &entry.value;
    }
    PartNames& names = reader.part_names.emplace_back();
    const std::string written = name != nullptr && name->is_scalar() ? name->scalar : std::string();
    const int before = written.empty() ? -1 : reader.parts.find(written);
    if (before >= 0)
        reader.error(
            *name,
            fmt::format("there are two parts named {}; the first is in {}", quoted(written),
                        reader.line_words(reader.job.parts[static_cast<std::size_t>(before)].at)),
            "give one of them another name");
    reader.parts.add(written);
    job::Part& entry = reader.job.parts.emplace_back();
    entry.name = written;
    entry.at = reader.place(name == nullptr ? part : *name);
    const char general = reader.file_of(part.at).general_tolerance;
    if (general != reader.job.general_tolerance) entry.general_tolerance = general;
    if (name != nullptr && name->is_scalar()) check_name(reader, *name, "part");
    if (faces != nullptr)
        for (const Entry& face : entries(*faces)) {
            check_name(reader, face, "face");
            names.faces.add(face.key.scalar);
        }
    for (const Entry& of : entries(part))
        if (of.key.scalar == "rings")
            for (const Entry& ring : entries(of.value)) {
                check_name(reader, ring, "ring");
                names.rings.add(ring.key.scalar);
            }
    name_features(reader, part, "cone", names.cones);
    name_features(reader, part, "thread", names.threads);
}

void read_material(Reader& reader, job::Part& part, const Node* node) {
    part.material = text_of(reader, node, fmt::format("the material of part '{}'", part.name));
    if (part.material.empty() || reader.materials.find(part.material) >= 0) return;
    if (trade::material(part.material)) return;
    std::vector<std::string> known = trade::material_names();
    known.insert(known.end(), reader.materials.names().begin(), reader.materials.names().end());
    const std::string meant = quantity::nearest(part.material, known);
    reader.error(
        *node, fmt::format("{} is not a material known here", quoted(part.material)),
        meant.empty() ? "describe it under 'materials'" : fmt::format("did you mean '{}'?", meant));
}

void read_part(Reader& reader, job::PartId index, const Node& node) {
    const std::string& name = reader.parts.names()[index.at()];
    const Fields fields(
        reader, node, name.empty() ? "this part" : fmt::format("part {}", quoted(name)),
        {"part", "turns", "material", "sits", "faces", "rings", "cone", "cones", "thread",
         "threads", "cuts", "laps", "skims", "centred", "runout", "face_runout"});
    job::Part& part = reader.job.parts[index.at()];
    if (!fields.ok()) {
        part.seats.emplace_back();  // its fault is told; it is not the part that all stands on
        return;
    }
    const Node* const written = fields.need("part", "part: NAME");
    if (written != nullptr && !written->is_scalar())
        reader.error(*written, "the name of a part is not a word", "write 'part: NAME'");
    part.turns = truth_of(reader, fields.find("turns"), fmt::format("'turns' of {}", fields.what()))
                     .value_or(false);
    read_material(reader, part, fields.find("material"));
    if (const Node* faces = fields.need("faces", "faces: {back: zero}"))
        read_faces(reader, index, *faces);
    read_features(reader, index, fields);
    if (const Node* sits = fields.find("sits"))
        read_seats(reader, index, *sits);
    else if (fields.written("sits"))
        part.seats.emplace_back();  // its fault is told; it is not the part that all stands on
    read_changes(reader, index, fields);
    read_centring(reader, index, fields);
}

}  // namespace

bool kit_goes_here(const Node& part) {
    return part.is_map() && part.children.size() == 2 && part.children.front().scalar == "kit" &&
           part.children[1].scalar == "here";
}

void read_names(Reader& reader, const Node& parts) {
    if (!expect_list(reader, parts, "'parts'", kPartsExample)) return;
    for (const Node& part : parts.children)
        if (!kit_goes_here(part)) name_part(reader, part);
}

void read_parts(Reader& reader, const Node& parts) {
    if (!parts.is_list()) return;
    int index = 0;
    for (const Node& part : parts.children) {
        if (!kit_goes_here(part))
            read_part(reader, index++, part);
        else if (reader.job.kit_here)
            reader.error(part, "a kit has two places in this job", "keep one of the two");
        else
            reader.job.kit_here = static_cast<std::size_t>(index);
    }
}

}  // namespace trialfit::reading
