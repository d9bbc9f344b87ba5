// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <trialfit/study/building.hpp>

namespace trialfit::study {

namespace {

std::string_view kind_word(FeatureKind kind) {
    switch (kind) {
        case FeatureKind::ring:
            return "ring";
        case FeatureKind::cone:
            return "cone";
        case FeatureKind::thread:
            return "thread";
        case FeatureKind::face:
            break;
    }
    return "face";
}

std::string meant(std::string_view word, const std::vector<std::string>& names,
                  std::string otherwise) {
    const std::string near = quantity::nearest(word, names);
    return near.empty() ? std::move(otherwise) : fmt::format("did you mean '{}'?", near);
}

template <typename List>
int index_of(const List& list, std::string_view name) {
    const auto found =
        std::ranges::find_if(list, [&](const auto& each) { return each.name == name; });
    return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

int own_index(const job::Part& part, FeatureKind kind, std::string_view name) {
    switch (kind) {
        case FeatureKind::ring:
            return index_of(part.rings, name);
        case FeatureKind::cone:
            return index_of(part.cones, name);
        case FeatureKind::thread:
            return index_of(part.threads, name);
        case FeatureKind::face:
            break;
    }
    return index_of(part.faces, name);
}

// What a limit may be counted in besides a length.
struct Counted {
    std::string_view word;
    job::LimitIn in;
    bool of_overlap;
};
constexpr std::array kCounted{Counted{"%", job::LimitIn::share, true},
                              Counted{"pitches", job::LimitIn::pitches, false},
                              Counted{"d", job::LimitIn::diameters, false},
                              Counted{"strength", job::LimitIn::strength, false}};

}  // namespace

void Building::fault(std::string what, std::string mend) {
    faults.push_back({.fault = std::move(what), .mend = std::move(mend)});
}

void Building::twice(const std::string& name, FeatureKind kind) {
    fault(fmt::format("there are two {}s named '{}'", kind_word(kind), name),
          "give one of them another name");
}

void Building::add_part(job::Part part) {
    if (part_named(part.name) >= 0)
        return fault(fmt::format("there are two parts named '{}'", part.name),
                     "give one of them another name");
    if (part.name.empty() || part.name.find('.') != std::string::npos)
        fault(fmt::format("'{}' cannot be the name of a part", part.name),
              "a name has letters, digits, '_' and '-', and no dot");
    job.parts.push_back(std::move(part));
}

job::Face* Building::add_face(const std::string& name) {
    const auto [index, own] = split(name, FeatureKind::face);
    if (index < 0) return nullptr;
    std::vector<job::Face>& faces = part(index).faces;
    const int known = index_of(faces, own);
    if (known >= 0) return &faces[static_cast<std::size_t>(known)];
    job::Face face;
    face.name = own;
    return &faces.emplace_back(std::move(face));
}

void Building::add_check(const std::string& name, const CheckOf& of, const LimitWords& limits) {
    job::Check check{.name = name, .of = of};
    check.at_least = limit(limits.at_least, check.of, name);
    check.at_most = limit(limits.at_most, check.of, name);
    check.aim = limit(limits.aim, check.of, name);
    job.checks.push_back(std::move(check));
}

job::PartId Building::part_named(std::string_view name) const {
    return index_of(job.parts, name);
}

std::pair<job::PartId, std::string> Building::split(std::string_view name, FeatureKind kind) {
    const std::size_t dot = name.find('.');
    const std::string_view part = name.substr(0, dot);
    const bool whole = dot != std::string_view::npos && dot + 1 < name.size();
    if (!whole) {
        fault(fmt::format("{} '{}' does not name its part", kind_word(kind), name),
              fmt::format("write it like 'plate.{}'", name.substr(0, dot)));
        return {-1, {}};
    }
    std::vector<std::string> parts;
    for (const job::Part& each : job.parts)
        parts.push_back(each.name);
    const job::PartId found = part_named(part);
    if (found < 0)
        fault(fmt::format("{} '{}' is of no part that was named", kind_word(kind), name),
              meant(part, parts, "name its part first"));
    return {found, std::string(name.substr(dot + 1))};
}

std::optional<Building::Found> Building::find(std::string_view name, FeatureKind kind) const {
    const std::size_t dot = name.find('.');
    if (dot == std::string_view::npos) return std::nullopt;
    const job::PartId found = part_named(name.substr(0, dot));
    if (found < 0) return std::nullopt;
    const int index = own_index(job.parts[found.at()], kind, name.substr(dot + 1));
    if (index < 0) return std::nullopt;
    return Found{found, index};
}

std::vector<std::string> Building::names(FeatureKind kind) const {
    std::vector<std::string> all;
    const auto add = [&](const job::Part& part, const auto& list) {
        for (const auto& each : list)
            all.push_back(part.name + "." + each.name);
    };
    for (const job::Part& part : job.parts) {
        if (kind == FeatureKind::face) add(part, part.faces);
        if (kind == FeatureKind::ring) add(part, part.rings);
        if (kind == FeatureKind::cone) add(part, part.cones);
        if (kind == FeatureKind::thread) add(part, part.threads);
    }
    return all;
}

std::optional<Building::Found> Building::need(std::string_view name, FeatureKind kind,
                                              const std::string& who) {
    auto found = find(name, kind);
    if (!found)
        fault(fmt::format("{} names '{}', which is no {} of this job", who, name, kind_word(kind)),
              meant(name, names(kind), fmt::format("name it like 'part.{}'", kind_word(kind))));
    return found;
}

job::PartId Building::need_part(std::string_view name, const std::string& who) {
    const job::PartId found = part_named(name);
    std::vector<std::string> parts;
    for (const job::Part& each : job.parts)
        parts.push_back(each.name);
    if (found < 0)
        fault(fmt::format("{} names '{}', which is no part of this job", who, name),
              meant(name, parts, "name one of its parts"));
    return found;
}

job::FaceId Building::own_face(job::PartId of_part, const std::string& name,
                               const std::string& who) {
    const std::string& part_name = part(of_part).name;
    const bool dotted = name.find('.') != std::string::npos;
    const std::string whole = dotted ? name : part_name + "." + name;
    const auto found = need(whole, FeatureKind::face, fmt::format("'{}'", who));
    if (!found) return {};
    if (found->part == of_part) return found->index;
    fault(fmt::format("'{}' is measured from '{}', which is on another part", who, whole),
          fmt::format("name a face of part '{}'", part_name));
    return {};
}

std::optional<job::GaugeId> Building::gauge(const std::string& name) {
    if (name.empty()) return std::nullopt;
    const int found = index_of(job.gauges, name);
    std::vector<std::string> gauges;
    for (const job::Gauge& each : job.gauges)
        gauges.push_back(each.name);
    if (found >= 0) return found;
    fault(fmt::format("'{}' is no gauge of this job", name),
          meant(name, gauges, "add it with the half-width that it is good to"));
    return std::nullopt;
}

job::Given Building::size(const std::string& written, reading::Bare bare, const std::string& who) {
    auto read = reading::read_given(written, job, bare);
    if (read.given) return std::move(*read.given);
    fault(fmt::format("'{}': {}", who, read.fault), std::move(read.mend));
    return {};
}

job::Given Building::shim(const std::string& written, double holds, const std::string& who) {
    job::Given given = size(written, reading::Bare::exact, who);
    const bool bare =
        given.size.spread.shape == quantity::Shape::exact && !given.written.ends_with("exact");
    if (bare && holds > 0.0) given.size = quantity::toleranced(given.size.nominal, -holds, holds);
    return given;
}

std::optional<job::Limit> Building::limit(const std::string& written, const CheckOf& of,
                                          const std::string& who) {
    constexpr double kPercent = 100.0;
    const std::string_view text = reading::trimmed(written);
    if (text.empty()) return std::nullopt;
    job::Limit limit{.written = std::string(text)};
    const bool overlap = std::holds_alternative<job::OverlapOf>(of);
    const bool engagement = std::holds_alternative<job::EngagementOf>(of);
    for (const Counted& each : kCounted) {
        if (!text.ends_with(each.word) || !(each.of_overlap ? overlap : engagement)) continue;
        const auto figure =
            reading::number_of(reading::trimmed(text.substr(0, text.size() - each.word.size())));
        const bool alone = text == each.word && each.in == job::LimitIn::strength;
        if (!figure && !alone) continue;
        limit.in = each.in;
        limit.value = alone ? 0.0 : *figure / (each.of_overlap ? kPercent : 1.0);
        return limit;
    }
    const auto read = reading::read_given(text, job, reading::Bare::exact);
    if (read.given && read.given->size.lower == read.given->size.upper) {
        limit.value = read.given->size.nominal;
        return limit;
    }
    fault(fmt::format("the limit '{}' of check '{}' is no one length", text, who),
          engagement ? "write it like '0.5', '0.8 d', '6 pitches' or 'strength'"
          : overlap  ? "write it like '0.5' or '75 %'"
                     : "write it like '0.5'");
    return std::nullopt;
}

}  // namespace trialfit::study
