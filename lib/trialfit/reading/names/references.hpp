// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/part.hpp>
#include <trialfit/reading/reader.hpp>

// Words that point at a part, or at a face, ring, cone or thread of one. `who` is the beginning of
// the complaint, up to the quoted words: "part 'stator' sits against". All give -1s where the
// node is null or points nowhere.
namespace trialfit::reading {

enum class Feature { face, ring, cone, thread };

/// The word for a kind: "face".
[[nodiscard]] std::string_view word(Feature feature);

/// What a word points at: a part, and the index into its list of the kind asked for.
struct PointedAt {
    job::PartId part;
    int index = -1;
};
[[nodiscard]] PointedAt pointed_at(Reader& reader, const Node* node, Feature feature,
                                   std::string_view who);

template <typename Of>
inline constexpr Feature kFeatureOf = Feature::face;
template <>
inline constexpr Feature kFeatureOf<job::Ring> = Feature::ring;
template <>
inline constexpr Feature kFeatureOf<job::Cone> = Feature::cone;
template <>
inline constexpr Feature kFeatureOf<job::Thread> = Feature::thread;

/// `part.feature`, of a ring, a cone or a thread.
template <typename Of>
[[nodiscard]] job::FeatureRef<Of> feature_ref(Reader& reader, const Node* node,
                                              std::string_view who) {
    const PointedAt found = pointed_at(reader, node, kFeatureOf<Of>, who);
    return {.part = found.part, .index = found.index};
}
[[nodiscard]] job::FaceRef face_ref(Reader& reader, const Node* node, std::string_view who);

/// The number of a feature of the part at hand, named without the part; -1 and a fault where the
/// part has none such.
[[nodiscard]] int own_number(Reader& reader, job::PartId part, const Node* node, Feature feature,
                             std::string_view who);
template <typename Of>
[[nodiscard]] job::Index<Of> own_feature(Reader& reader, job::PartId part, const Node* node,
                                         std::string_view who) {
    return own_number(reader, part, node, kFeatureOf<Of>, who);
}
/// A face of it, in text that is only a piece of `node`, `within` bytes from its beginning.
[[nodiscard]] job::FaceId own_face(Reader& reader, job::PartId part, const Node& node,
                                   std::size_t within, std::string_view text, std::string_view who);

/// A part by name.
[[nodiscard]] job::PartId part_ref(Reader& reader, const Node* node, std::string_view who);

}  // namespace trialfit::reading
