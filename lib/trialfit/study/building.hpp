// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <utility>
#include <variant>
#include <vector>

namespace trialfit::study {

/// What a part's names name.
enum class FeatureKind { face, ring, cone, thread };

/// A job on its way, and what is wrong with it so far. Names are "part.face".
struct Building {
    job::Job job;
    job::Complaints faults;

    void fault(std::string what, std::string mend);

    void add_part(job::Part part);
    /// The face of that name, made where it is new; null where its part is none.
    [[nodiscard]] job::Face* add_face(const std::string& name);
    template <typename Feature>
    void add_feature(const std::string& name, FeatureKind kind,
                     std::vector<Feature> job::Part::*list) {
        const auto [part, own] = split(name, kind);
        if (part < 0) return;
        if (find(name, kind)) return twice(name, kind);
        Feature feature;
        feature.name = own;
        (this->part(part).*list).push_back(std::move(feature));
    }
    using CheckOf = decltype(job::Check::of);
    struct LimitWords {
        std::string at_least;
        std::string at_most;
        std::string aim;
    };
    void add_check(const std::string& name, const CheckOf& of, const LimitWords& limits);

    [[nodiscard]] job::Part& part(job::PartId index) { return job.parts[index.at()]; }
    /// A feature found by its name: a part, and the index into its list of the kind looked for.
    struct Found {
        job::PartId part;
        int index = -1;

        template <typename Of>
        [[nodiscard]] job::FeatureRef<Of> as() const {
            return {.part = part, .index = index};
        }
    };
    /// A named feature, or nothing.
    [[nodiscard]] std::optional<Found> find(std::string_view name, FeatureKind kind) const;
    /// The same; a fault of `who` where there is none.
    [[nodiscard]] std::optional<Found> need(std::string_view name, FeatureKind kind,
                                            const std::string& who);
    /// The index of a part, or -1 and a fault.
    [[nodiscard]] job::PartId need_part(std::string_view name, const std::string& who);
    /// A face of a part, named with or without the part; a fault where it has none such.
    [[nodiscard]] job::FaceId own_face(job::PartId of_part, const std::string& name,
                                       const std::string& who);
    /// A gauge; nothing where `name` is empty, and with a fault where there is none such.
    [[nodiscard]] std::optional<job::GaugeId> gauge(const std::string& name);

    [[nodiscard]] job::Given size(const std::string& written, reading::Bare bare,
                                  const std::string& who);
    [[nodiscard]] job::Given shim(const std::string& written, double holds, const std::string& who);
    /// Nothing where `written` is empty. `of` tells which units but a length's it may be in.
    [[nodiscard]] std::optional<job::Limit> limit(const std::string& written, const CheckOf& of,
                                                  const std::string& who);

private:
    [[nodiscard]] job::PartId part_named(std::string_view name) const;
    /// The part of "part.own" and the rest; -1 and a fault where there is no such part.
    [[nodiscard]] std::pair<job::PartId, std::string> split(std::string_view name,
                                                            FeatureKind kind);
    void twice(const std::string& name, FeatureKind kind);
    [[nodiscard]] std::vector<std::string> names(FeatureKind kind) const;
};

}  // namespace trialfit::study
