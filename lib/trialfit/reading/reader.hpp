// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/faults.hpp>
#include <trialfit/reading/names/name_index.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <vector>

namespace trialfit::reading {

/// The names that others may refer to in one part, by kind.
struct PartNames {
    NameIndex faces;
    NameIndex rings;
    NameIndex cones;
    NameIndex threads;
};

/// What the reading of one file has come to: shared by the readers of its sections.
struct Reader {
    const Source& source;
    job::Job job;
    Faults faults;
    NameIndex gauges;
    NameIndex parts;
    std::vector<PartNames> part_names;
    NameIndex materials;

    [[nodiscard]] job::Place place(const Node& node) const { return source.place(node.at); }
    /// The place of a character within a scalar, where the file writes it as it reads.
    [[nodiscard]] job::Place place(const Node& scalar, std::size_t within) const;
    void error(const Node& node, std::string fault, std::string mend);
    void error(const Node& scalar, const TextFault& fault);
    [[nodiscard]] SizeContext sizes() const;
};

/// Stands for a size that could not be read, so that nothing else is said of it: NaN all through.
[[nodiscard]] quantity::Size unknown_size();

}  // namespace trialfit::reading
