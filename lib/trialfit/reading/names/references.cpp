// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <optional>
#include <trialfit/reading/names/references.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr std::array kFeatures{Feature::face, Feature::ring, Feature::cone, Feature::thread};

const NameIndex& names_of(const PartNames& part, Feature feature) {
    switch (feature) {
        case Feature::ring:
            return part.rings;
        case Feature::cone:
            return part.cones;
        case Feature::thread:
            return part.threads;
        case Feature::face:
            break;
    }
    return part.faces;
}

// Every "part.feature" of the job, unless there are too many to compare.
NameIndex all_dotted(const Reader& reader, Feature feature) {
    NameIndex dotted;
    for (std::size_t part = 0; part < reader.part_names.size(); ++part)
        for (const std::string& name : names_of(reader.part_names[part], feature).names()) {
            if (dotted.names().size() > kMostCompared) return dotted;
            dotted.add(reader.parts.names()[part] + "." + name);
        }
    return dotted;
}

std::string did_you_mean(std::string_view name) {
    return fmt::format("did you mean '{}'?", name);
}

std::string parts_told(const Reader& reader) {
    const std::string listed = reader.parts.listed();
    return listed.empty() ? "the file has no part with a name" : "the parts are " + listed;
}

// The mend for `text`, which names no feature of the kind.
std::string mend_for(const Reader& reader, std::string_view text, Feature feature) {
    const std::size_t dot = text.find('.');
    if (dot == std::string_view::npos) {
        // The part's name alone, or the feature's alone.
        const job::PartId part = reader.parts.find(text);
        if (part >= 0) {
            const auto& own = names_of(reader.part_names[part.at()], feature);
            if (own.names().size() == 1)
                return did_you_mean(fmt::format("{}.{}", text, own.names().front()));
            if (!own.names().empty())
                return fmt::format("it has {}", own.listed(fmt::format("{}.", text)));
        }
        for (std::size_t i = 0; i < reader.part_names.size(); ++i)
            if (names_of(reader.part_names[i], feature).find(text) >= 0)
                return did_you_mean(fmt::format("{}.{}", reader.parts.names()[i], text));
    }
    const std::string meant = all_dotted(reader, feature).nearest(text);
    if (!meant.empty()) return did_you_mean(meant);
    const job::PartId part = reader.parts.find(text.substr(0, dot));
    if (part < 0) {
        const std::string near = reader.parts.nearest(text.substr(0, dot));
        if (!near.empty()) return fmt::format("did you mean part '{}'?", near);
        return fmt::format("write it as 'part.{}'; {}", word(feature), parts_told(reader));
    }
    const auto& own = names_of(reader.part_names[part.at()], feature);
    if (own.names().empty())
        return fmt::format("part '{}' has no {}s", reader.parts.names()[part.at()], word(feature));
    return fmt::format("the {}s of '{}' are {}", word(feature), text.substr(0, dot), own.listed());
}

// The word for the kind that `text` does name, and the mend, where it names a feature of another
// kind than the one wanted.
struct OtherKind {
    std::string_view kind;
    std::string mend;
};
std::optional<OtherKind> other_kind(const Reader& reader, std::string_view text, Feature feature) {
    const std::size_t dot = text.find('.');
    const job::PartId part = reader.parts.find(text.substr(0, dot));
    if (part < 0 || dot == std::string_view::npos) return std::nullopt;
    const PartNames& names = reader.part_names[part.at()];
    const NameIndex& wanted = names_of(names, feature);
    const std::string_view part_name = text.substr(0, dot);
    for (const Feature other : kFeatures) {
        if (other == feature || names_of(names, other).find(text.substr(dot + 1)) < 0) continue;
        if (wanted.names().empty())
            return OtherKind{word(other),
                             fmt::format("part '{}' has no {}s", part_name, word(feature))};
        if (wanted.names().size() == 1)
            return OtherKind{word(other),
                             did_you_mean(fmt::format("{}.{}", part_name, wanted.names().front()))};
        return OtherKind{word(other), fmt::format("the {}s of '{}' are {}", word(feature),
                                                  part_name, wanted.listed())};
    }
    return std::nullopt;
}

bool is_word(Reader& reader, const Node& node, std::string_view who, std::string_view example) {
    if (node.is_scalar() && !node.scalar.empty()) return true;
    reader.error(node,
                 fmt::format("{} {}", who, node.is_list() ? "a list" : "something without a name"),
                 fmt::format("write '{}'", example));
    return false;
}

int own_named(Reader& reader, job::PartId part, std::string_view text, Feature feature,
              std::string_view who, job::Place at) {
    const NameIndex& own = names_of(reader.part_names[part.at()], feature);
    const int found = own.find(text);
    // A part without faces has its complaint already.
    const bool told = feature == Feature::face && own.names().empty();
    if (found >= 0 || told) return found;
    const std::string& part_name = reader.parts.names()[part.at()];
    std::string meant = own.nearest(text);
    const std::string prefix = part_name + ".";
    if (text.starts_with(prefix) && own.find(text.substr(prefix.size())) >= 0)
        meant = text.substr(prefix.size());
    std::string mend = meant.empty() ? fmt::format("its {}s are {}", word(feature), own.listed())
                                     : did_you_mean(meant);
    if (own.names().empty()) mend = fmt::format("it has no {}s", word(feature));
    reader.faults.error(at,
                        fmt::format("{} {}, which is not a {} of part '{}'", who, quoted(text),
                                    word(feature), clipped(part_name)),
                        std::move(mend));
    return -1;
}

}  // namespace

std::string_view word(Feature feature) {
    constexpr std::array<std::string_view, 4> kWords{"face", "ring", "cone", "thread"};
    return kWords.at(static_cast<std::size_t>(feature));
}

PointedAt pointed_at(Reader& reader, const Node* node, Feature feature, std::string_view who) {
    if (node == nullptr) return {};
    if (!is_word(reader, *node, who, fmt::format("part.{}", word(feature)))) return {};
    const std::string_view text = node->scalar;
    const std::size_t dot = text.find('.');
    if (dot != std::string_view::npos) {
        const job::PartId part = reader.parts.find(text.substr(0, dot));
        if (part >= 0) {
            const auto& names = names_of(reader.part_names[part.at()], feature);
            const int index = names.find(text.substr(dot + 1));
            if (index >= 0) return {.part = part, .index = index};
        }
    }
    if (const auto other = other_kind(reader, text, feature))
        reader.error(*node,
                     fmt::format("{} {}, which is a {} and not a {}", who, quoted(text),
                                 other->kind, word(feature)),
                     other->mend);
    else
        reader.error(*node,
                     fmt::format("{} {}, which is not a {}", who, quoted(text), word(feature)),
                     mend_for(reader, text, feature));
    return {};
}

job::FaceRef face_ref(Reader& reader, const Node* node, std::string_view who) {
    const PointedAt found = pointed_at(reader, node, Feature::face, who);
    return {.part = found.part, .face = found.index};
}

int own_number(Reader& reader, job::PartId part, const Node* node, Feature feature,
               std::string_view who) {
    if (node == nullptr) return -1;
    if (!is_word(reader, *node, who, word(feature))) return -1;
    return own_named(reader, part, node->scalar, feature, who, reader.place(*node));
}

job::FaceId own_face(Reader& reader, job::PartId part, const Node& node, std::size_t within,
                     std::string_view text, std::string_view who) {
    return own_named(reader, part, text, Feature::face, who, reader.place(node, within));
}

job::PartId part_ref(Reader& reader, const Node* node, std::string_view who) {
    if (node == nullptr || !is_word(reader, *node, who, "part")) return -1;
    const int found = reader.parts.find(node->scalar);
    if (found >= 0) return found;
    const std::string meant = reader.parts.nearest(node->scalar);
    reader.error(*node, fmt::format("{} {}, which is not a part", who, quoted(node->scalar)),
                 meant.empty() ? parts_told(reader) : did_you_mean(meant));
    return -1;
}

}  // namespace trialfit::reading
