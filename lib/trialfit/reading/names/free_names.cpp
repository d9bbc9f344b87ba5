// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/reading/names/free_names.hpp>
#include <trialfit/reading/values.hpp>

namespace trialfit::reading {

std::string FreeNames::take(const Fields& fields) {
    const Node* const node = fields.need(kind_, fmt::format("{}: NAME", kind_));
    std::string name = text_of(reader_, node, fmt::format("the name of a {}", kind_));
    if (name.empty()) return name;
    const auto [first, fresh] = first_.emplace(name, reader_.place(*node));
    if (!fresh)
        reader_.error(*node,
                      fmt::format("there are two {}s named {}; the first is in {}", kind_,
                                  quoted(name), reader_.line_words(first->second)),
                      "give one of them another name");
    return name;
}

bool is_pair(Reader& reader, const Node& node, std::string_view what, std::string_view example) {
    if (node.is_list() && node.children.size() == 2) return true;
    reader.error(node, fmt::format("{} does not name two things", what),
                 fmt::format("write it like '{}'", example));
    return false;
}

}  // namespace trialfit::reading
