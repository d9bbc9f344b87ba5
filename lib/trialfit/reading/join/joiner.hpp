// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/reader.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tree.hpp>
#include <vector>

namespace trialfit::reading {

/// A file of the format by its text.
struct NamedText {
    std::string name;
    std::string text;
};

/// A complaint about one of several files; its place is in that file.
struct FileComplaint {
    std::size_t file = 0;
    job::Complaint complaint;
};

/// The job that some files make together, or every fault that keeps them from being one.
struct Joined {
    std::optional<job::Job> job;
    std::vector<FileComplaint> complaints;
    /// Of all kits together; nothing where one of them gives none.
    std::optional<double> price;
    std::vector<std::string> titles;  ///< of the kits, empty where one has none
};

/// Bytes of all files together that are joined; those beyond are unreadable.
inline constexpr std::size_t kMostJoined = 256U << 20U;

/// What a file says of itself.
struct Head {
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
};

/// Joins files into jobs: an engine, which is the first, and kits of parts on offer. Every file is
/// parsed once, however many jobs it is joined into. Each keeps its own unit, gauges and general
/// tolerance. The kits' parts go on at the engine's entry `- kit: here`, else after all of its
/// parts; checks, readings, feelers, materials, states and records add up. Safe to use from several
/// threads at once.
class Joiner {
public:
    explicit Joiner(const std::vector<NamedText>& files);

    [[nodiscard]] std::size_t size() const { return trees_.size(); }
    [[nodiscard]] const std::string& name(std::size_t file) const { return files_[file].name; }
    /// Why a file cannot be joined to anything: it is no YAML. Empty where it can.
    [[nodiscard]] const job::Complaints& unreadable(std::size_t file) const {
        return trees_[file].complaints;
    }

    /// The job of the first file and of `kits`, in this order; none of these may be unreadable.
    /// Lengths are in the first file's unit. The places within the job are those of all the files
    /// put one behind the other; located() finds them again.
    [[nodiscard]] Joined joined(const std::vector<std::size_t>& kits) const;
    [[nodiscard]] FileComplaint located(job::Complaint complaint) const;
    /// Of the first file, as far as it can be read.
    [[nodiscard]] Head head() const;

    /// The same job as the text of one file, comments kept, what a kit leaves to its file being
    /// said: read by itself, it gives the same answers. Nothing, and why, where a layout cannot be
    /// followed.
    struct Text {
        std::optional<std::string> text;
        std::vector<FileComplaint> complaints;
    };
    [[nodiscard]] Text text(const std::vector<std::size_t>& kits) const;

private:
    [[nodiscard]] Node sections_of(Reader& reader, const std::vector<std::size_t>& kits) const;
    [[nodiscard]] Reader reader() const;
    bool read(Reader& reader, const std::vector<std::size_t>& kits,
              std::vector<FileComplaint>& complaints) const;

    std::vector<FileRead> files_;
    std::vector<Tree> trees_;         // places in the source of all
    std::unique_ptr<Source> source_;  // all texts, one behind the other
};

}  // namespace trialfit::reading
