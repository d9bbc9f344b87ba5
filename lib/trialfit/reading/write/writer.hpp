// SPDX-License-Identifier: MIT
#pragma once

#include <yaml-cpp/emitter.h>

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/write/size_words.hpp>
#include <utility>
#include <vector>

namespace trialfit::reading {

/// What the writing of one job has come to: shared by the writers of its sections. The job must be
/// valid (job::validate) and outlive it. What is not given is not written.
struct Writer {
    explicit Writer(const job::Job& written) : job(written), words(written) {}

    const job::Job& job;
    SizeWords words;
    YAML::Emitter out;
    job::Complaints faults;

    /// A scalar as it is: figures, sizes, names of the format.
    void plain(std::string_view key, std::string_view value);
    void number(std::string_view key, double value) { plain(key, figures(value)); }
    void number(std::string_view key, const std::optional<double>& value) {
        if (value) number(key, *value);
    }
    /// A number that is not the one which the format takes where it is not written.
    void unusual(std::string_view key, double value, double usual);
    /// Somebody's words, in quotes where another program would take them for anything else; not
    /// written where they are empty.
    void text(std::string_view key, std::string_view value);
    void text(std::string_view value);

    /// A size under `key`, short or long. `what` names it in a complaint.
    void size(std::string_view key, const job::Given& given, Bare bare, const std::string& what,
              double holds = 0.0);
    void size(const job::Given& given, Bare bare, const std::string& what, double holds = 0.0);
    /// The entries of a size's long form, in a map that is begun already.
    void pairs(const SizeWords::Pairs& pairs);
    void angle(std::string_view key, const job::AngleGiven& given, const std::string& what);
    void span(std::string_view key, const std::optional<job::Span>& span, std::string_view unit);
    void pushed(job::Pushed pushed);
    void gauge(std::string_view key, std::optional<job::GaugeId> gauge);

    void map(std::string_view key);        ///< begins a group of entries, one a line
    void short_map(std::string_view key);  ///< the same on one line
    void short_map();
    void list(std::string_view key);
    void short_list(std::string_view key);
    /// All of a kind, a map on one line each, whose entries `write_one` writes; nothing without
    /// any.
    template <typename Items, typename WriteOne>
    void list_of(std::string_view key, const Items& all, const WriteOne& write_one) {
        if (all.empty()) return;
        list(key);
        for (const auto& each : all) {
            short_map();
            write_one(each);
            end_map();
        }
        end_list();
    }
    void end_map() { out << YAML::EndMap; }
    void end_list() { out << YAML::EndSeq; }

    /// What the format has no words for.
    void refuse(std::string fault, std::string mend);
    void refuse_gauge(const std::string& what);

    [[nodiscard]] const job::Part& part(job::PartId index) const { return job.parts[index.at()]; }
    /// A face of its own part: "front".
    [[nodiscard]] static const std::string& face(const job::Part& part, job::FaceId index) {
        return part.faces[index.at()].name;
    }
};

/// Each writes its section, and nothing where the job has none. A list of readings stands under
/// `key`.
void write_parts(Writer& writer);
void write_checks(Writer& writer);
void write_readings(Writer& writer, std::string_view key, const std::vector<job::Reading>& all);
void write_feelers(Writer& writer);
void write_service(Writer& writer);
void write_timing(Writer& writer);
void write_spin(Writer& writer);
void write_record(Writer& writer);

}  // namespace trialfit::reading
