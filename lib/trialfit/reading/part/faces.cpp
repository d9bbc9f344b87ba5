// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr std::string_view kZero = "zero";

class FaceReader {
public:
    FaceReader(Reader& reader, job::PartId part, job::Face& face)
        : reader_(reader), part_(part), face_(face) {}

    void read(const Node& node) {
        if (node.is_list()) {
            if (expect_list(reader_, node, fmt::format("face {}", quoted(face_.name)),
                            "'[SIZE from back]'"))
                for (const Node& item : node.children)
                    one(item);
            return;
        }
        one(node);
    }

private:
    [[nodiscard]] std::string who() const {
        return fmt::format("face {} is measured from", quoted(face_.name));
    }
    // The face that a mend may name: the part's first other one.
    [[nodiscard]] std::string some_face() const {
        for (const std::string& name : reader_.part_names[part_.at()].faces.names())
            if (name != face_.name) return name;
        return "FACE";
    }

    void one(const Node& node) {
        if (node.is_map()) return long_dimension(node);
        if (node.is_list() || node.is_empty() || node.style == Node::Style::block) {
            // A value that is not there stands, to the parser, where the next line begins.
            reader_.faults.error(
                node.is_empty() ? face_.at : reader_.place(node),
                fmt::format("face {} has no size", quoted(face_.name)),
                fmt::format("write 'zero' or a size, as in 'SIZE from {}'", some_face()));
            return;
        }
        if (trimmed(node.scalar) == kZero) {
            face_.zero = true;
            return;
        }
        short_dimension(node);
    }

    void short_dimension(const Node& node) {
        constexpr std::string_view kFrom = " from ";
        const std::string& text = node.scalar;
        const std::size_t from = text.rfind(kFrom);
        if (from == std::string::npos) {
            constexpr std::string_view kForm = " form ";
            const std::size_t form = text.find(kForm);
            if (form != std::string::npos)
                return reader_.error(
                    node,
                    fmt::format("face {} does not say where {} is measured from",
                                quoted(face_.name), quoted(text)),
                    fmt::format("did you mean '{} from {}'?", clipped(text.substr(0, form)),
                                clipped(text.substr(form + kForm.size()))));
            // What follows a 'from' with nothing after it is wanted, not a second one.
            constexpr std::string_view kAlone = " from";
            std::string_view said = trimmed(text);
            if (said.ends_with(kAlone)) said.remove_suffix(kAlone.size());
            reader_.error(node,
                          fmt::format("face {} does not say where {} is measured from",
                                      quoted(face_.name), quoted(text)),
                          fmt::format("write '{} from {}'", clipped(trimmed(said)), some_face()));
            return;
        }
        const std::string_view name = trimmed(std::string_view(text).substr(from + kFrom.size()));
        const std::size_t name_at = text.find(name, from + kFrom.size());
        const std::size_t by = name.find(" by ");
        if (by != std::string_view::npos)
            return reader_.error(node,
                                 fmt::format("{} names its gauge after the face that it is "
                                             "measured from",
                                             quoted(text)),
                                 fmt::format("write '{}{} from {}'", clipped(text.substr(0, from)),
                                             name.substr(by), name.substr(0, by)));
        job::Dimension dimension;
        dimension.from = own_face(reader_, part_, node, name_at, name, who());
        refuse_itself(dimension, reader_.place(node, name_at));
        Node size = node;
        size.scalar = text.substr(0, from);
        dimension.distance = size_of(reader_, &size, Bare::general_tolerance, MayBe::unmeasured);
        face_.dimensions.push_back(std::move(dimension));
    }

    void long_dimension(const Node& node) {
        const Fields fields(
            reader_, node, fmt::format("the size of face {}", quoted(face_.name)),
            {"size", "from", "plus", "minus", "lower", "upper", "by", "shape", "sigmas"});
        job::Dimension dimension;
        const Node* const from = fields.need("from", fmt::format("from: {}", some_face()));
        dimension.from = own_feature<job::Face>(reader_, part_, from, who());
        if (from != nullptr) refuse_itself(dimension, reader_.place(*from));
        dimension.distance = long_form(reader_, fields, Bare::general_tolerance, MayBe::unmeasured);
        face_.dimensions.push_back(std::move(dimension));
    }

    void refuse_itself(job::Dimension& dimension, job::Place at) {
        const auto& names = reader_.part_names[part_.at()].faces;
        if (dimension.from < 0 || dimension.from != names.find(face_.name)) return;
        dimension.from = -1;
        reader_.faults.error(
            at, fmt::format("face {} is measured from itself", quoted(face_.name)),
            fmt::format("measure it from another face, as in 'from {}'", some_face()));
    }

    Reader& reader_;
    job::PartId part_;
    job::Face& face_;
};

}  // namespace

void read_faces(Reader& reader, job::PartId part, const Node& faces) {
    job::Part& of = reader.job.parts[part.at()];
    if (!expect_names(reader, faces, fmt::format("'faces' of part {}", quoted(of.name)),
                      "'faces: {back: zero, front: 10 \u00b10.1 from back}'"))
        return;
    if (faces.children.empty())
        reader.error(faces, fmt::format("part {} has no faces", quoted(of.name)),
                     "name at least its zero, as in '{back: zero}'");
    const std::vector<Entry> all = entries(faces);
    for (std::size_t i = 0; i < all.size(); ++i) {
        job::Face face;
        face.name = all[i].key.scalar;
        face.at = reader.place(all[i].key);
        // What a decimal comma has parted is told of once, where it begins.
        const bool parted = i + 1 < all.size() && refuse_comma(reader, all[i], all[i + 1]);
        if (parted || split_by_comma(all[i]))
            face.dimensions.push_back(
                {.distance = {.size = unknown_size(), .written = {}, .at = {}}});
        else
            FaceReader(reader, part, face).read(all[i].value);
        of.faces.push_back(std::move(face));
    }
}

}  // namespace trialfit::reading
