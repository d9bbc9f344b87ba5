// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
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

/// One of the files that a job is read from, most often the only one: what its sizes are read
/// against.
struct FileRead {
    std::string name;
    std::size_t begin = 0;  ///< where its text begins in the source
    std::string title;
    std::optional<double> price;
    quantity::Unit units = quantity::Unit::mm;
    char general_tolerance = 0;
    NameIndex gauge_names;
    std::vector<int> gauges;  ///< which of the job's each of the names is
};

/// Which of the files, in the order of their places, an offset in the source is in.
[[nodiscard]] std::size_t file_at(const std::vector<FileRead>& files, std::size_t offset);

/// A change to the text of the source that makes it say what it leaves to its file.
struct SaidByFile {
    std::size_t at = 0;
    std::size_t length = 0;  ///< of what goes
    std::string words;
};

/// What the reading of a job has come to: shared by the readers of its sections.
struct Reader {
    const Source& source;
    job::Job job;
    Faults faults;
    std::vector<FileRead> files;  ///< in the order of their places in the source; at least one
    NameIndex parts;
    std::vector<PartNames> part_names;
    NameIndex materials;

    [[nodiscard]] job::Place place(const Node& node) const { return source.place(node.at); }
    /// The place of a character within a scalar, where the file writes it as it reads.
    [[nodiscard]] job::Place place(const Node& scalar, std::size_t within) const;
    void error(const Node& node, std::string fault, std::string mend);
    void error(const Node& scalar, const TextFault& fault);
    /// Complains that `what` is as it is written. Gives nothing, for a reader to hand on.
    std::nullopt_t refuse(const Node& scalar, std::string_view what, std::string mend);
    /// The file that an offset in the source, or a place, is in.
    [[nodiscard]] FileRead& file_of(std::size_t offset) { return files[file_at(files, offset)]; }
    [[nodiscard]] const FileRead& file_of(std::size_t offset) const {
        return files[file_at(files, offset)];
    }
    [[nodiscard]] const FileRead& file_of(job::Place at) const;
    /// "line 12", or "line 12 of plate.yaml" where the job is read from more files than one.
    [[nodiscard]] std::string line_words(job::Place at) const;
    [[nodiscard]] SizeContext sizes(const Node& written) const;
    /// Keeps what a size of another file than the first must say to stand in the first.
    void keep_said(const Node& scalar, const LeftToFile& left, const quantity::Size& size,
                   std::optional<job::GaugeId> gauge);
    std::optional<double> shim_cost;  ///< as the first file that gives it does
    std::vector<SaidByFile> said;
    bool said_lost = false;  ///< a text that is not written as it reads cannot be changed
};

/// Stands for a size that could not be read, so that nothing else is said of it: NaN all through.
[[nodiscard]] quantity::Size unknown_size();

}  // namespace trialfit::reading
