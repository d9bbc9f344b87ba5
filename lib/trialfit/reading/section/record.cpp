// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <trialfit/job/former.hpp>
#include <trialfit/reading/dates.hpp>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

namespace trialfit::reading {

// A day of the calendar as ISO 8601 writes it, 2026-11-25.
bool is_date(std::string_view text) {
    constexpr std::string_view kPattern = "0000-00-00";
    if (text.size() != kPattern.size()) return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (digit != (kPattern[i] == '0') || (!digit && text[i] != '-')) return false;
    }
    const auto figure = [&](std::size_t from, std::size_t length) {
        return *number_of(text.substr(from, length));
    };
    return std::chrono::year_month_day(std::chrono::year(static_cast<int>(figure(0, 4))),
                                       std::chrono::month(static_cast<unsigned>(figure(5, 2))),
                                       std::chrono::day(static_cast<unsigned>(figure(8, 2))))
        .ok();
}

namespace {

class EntryReader {
public:
    explicit EntryReader(Reader& reader) : reader_(reader) {}

    void read(const Node& node) {
        const Fields fields(reader_, node, "this entry of the record",
                            {"date", "who", "note", "planned", "as_cut", "taken_off", "fitted",
                             "as_skimmed", "lapped", "centred", "measured"});
        if (!fields.ok()) return;
        entry_.at = reader_.place(node);
        const Node* const date = fields.need("date", "date: 2026-11-25");
        entry_.date = text_of(reader_, date, "the date");
        if (!entry_.date.empty()) check_date(*date);
        entry_.who = text_of(reader_, fields.find("who"), "'who'");
        entry_.note = text_of(reader_, fields.find("note"), "the note");
        entry_.planned = truth_of(reader_, fields.find("planned"), "'planned'").value_or(false);
        if (const Node* cut = fields.find("as_cut"))
            as_cut(*cut, "'as_cut: {plate.front: 6.02 by caliper}'", false);
        if (const Node* taken = fields.find("taken_off"))
            as_cut(*taken, "'taken_off: {plate.front: 0.60 by caliper}'", true);
        if (const Node* fitted = fields.find("fitted")) shims(*fitted);
        if (const Node* skimmed = fields.find("as_skimmed")) as_skimmed(*skimmed);
        if (const Node* lapped = fields.find("lapped")) laps(*lapped);
        if (const Node* centred = fields.find("centred")) centrings(*centred);
        const Node* const measured = fields.find("measured");
        if (measured != nullptr && entry_.planned)
            reader_.error(*measured, "a planned entry has readings, and nothing was measured of it",
                          "write them in an entry of their own, without 'planned'");
        else if (measured != nullptr)
            entry_.measured = read_measured(reader_, *measured, reader_.job.record.size() + 1);
        reader_.job.record.push_back(std::move(entry_));
    }

private:
    // Days written as ISO 8601 has them sort as text.
    void check_date(const Node& date) {
        if (!is_date(entry_.date))
            return reader_.error(date, fmt::format("{} is not a date", quoted(entry_.date)),
                                 "write it like '2026-11-25'");
        const std::vector<job::RecordEntry>& before = reader_.job.record;
        if (before.empty() || before.back().date <= entry_.date) return;
        reader_.faults.warning(reader_.place(date),
                               fmt::format("{} comes after an entry of {}", quoted(entry_.date),
                                           quoted(before.back().date)),
                               "the latest entry stands last, and is the present state");
    }

    // Metal does not grow.
    void check_size(const Entry& written, const job::RecordEntry::AsCut& cut) {
        if (cut.by_amount) return check_amount(written, cut);
        const job::Cut& how = *job::cut_of(reader_.job, cut.face);
        if (how.measure < 0) return;
        const quantity::Size& size = cut.size.size;
        if (std::isnan(size.lower)) return;  // its complaint is told
        if (size.lower <= 0.0)
            return reader_.error(
                written.value,
                fmt::format("the finish size of {} is {}", quoted(written.key.scalar),
                            quoted(cut.size.written)),
                "it is what remains from the face that the cut is measured from, and has no sign");
        const job::Given* const before = last_cut(cut.face);
        const double most =
            before != nullptr ? before->size.upper
                              : job::greatest_thickness(reader_.job.parts[cut.face.part.at()], how);
        constexpr double kSame = 1e-9;
        if (size.lower > most + kSame)
            return reader_.error(
                written.value,
                fmt::format("{} was at most {:.6g} before and is {} after the cut",
                            quoted(written.key.scalar), most, quoted(cut.size.written)),
                "metal does not grow: mend the one that was measured wrong");
    }

    void check_amount(const Entry& written, const job::RecordEntry::AsCut& cut) {
        if (std::isnan(cut.size.size.lower) || cut.size.size.lower > 0.0) return;
        reader_.error(written.value,
                      fmt::format("what came off {} is {}", quoted(written.key.scalar),
                                  quoted(cut.size.written)),
                      "it must be greater than 0 at every limit");
    }

    [[nodiscard]] const job::Given* last_cut(job::FaceRef face) const {
        const job::Given* last = nullptr;
        for (const job::RecordEntry& entry : reader_.job.record)
            for (const job::RecordEntry::AsCut& cut : entry.as_cut)
                if (cut.face == face && !entry.planned) last = cut.by_amount ? nullptr : &cut.size;
        return last;
    }

    // Finish sizes, or what came off.
    void as_cut(const Node& node, std::string_view example, bool by_amount) {
        if (!expect_names(reader_, node, by_amount ? "'taken_off'" : "'as_cut'", example)) return;
        for (const Entry& each : entries(node)) {
            if (names_ring(each.key.scalar)) {
                reader_.error(each.key,
                              fmt::format("the record names {}, which is a ring and not a face",
                                          quoted(each.key.scalar)),
                              "write a skimmed diameter under 'as_skimmed'");
                continue;
            }
            job::RecordEntry::AsCut cut{.by_amount = by_amount};
            cut.face = face_ref(reader_, &each.key, "the record names");
            if (each.value.is_empty())
                reader_.error(each.key, fmt::format("{} has no size", quoted(each.key.scalar)),
                              by_amount ? "write what came off it, as in 'SIZE by GAUGE'"
                                        : "write its finish size, as in 'SIZE by GAUGE'");
            cut.size = size_of(reader_, each.value.is_empty() ? nullptr : &each.value,
                               Bare::general_tolerance);
            if (cut.face.part >= 0 && !has_cut(cut.face))
                reader_.error(each.key,
                              fmt::format("{} has no entry under 'cuts', which would say where its "
                                          "finish size is measured from",
                                          quoted(each.key.scalar)),
                              "add one to its part");
            else if (cut.face.part >= 0)
                check_size(each, cut);
            entry_.as_cut.push_back(std::move(cut));
        }
    }
    [[nodiscard]] bool names_ring(std::string_view text) const {
        const std::size_t dot = text.find('.');
        const job::PartId part = reader_.parts.find(text.substr(0, dot));
        if (part < 0 || dot == std::string_view::npos) return false;
        const PartNames& names = reader_.part_names[part.at()];
        return names.faces.find(text.substr(dot + 1)) < 0 &&
               names.rings.find(text.substr(dot + 1)) >= 0;
    }

    [[nodiscard]] bool has_cut(job::FaceRef face) const {
        const auto& cuts = reader_.job.parts[face.part.at()].cuts;
        return std::ranges::any_of(cuts,
                                   [&](const job::Cut& cut) { return cut.face == face.face; });
    }

    void shims(const Node& node) {
        if (!expect_names(reader_, node, "'fitted' of the record",
                          "'fitted: {stator: [0.5, 0.3]}'"))
            return;
        for (const Entry& each : entries(node)) {
            job::RecordEntry::Fitted fitted;
            fitted.part = part_ref(reader_, &each.key, "the record names");
            if (fitted.part >= 0 && !has_shims(fitted.part))
                reader_.error(
                    each.key,
                    fmt::format("the seat of part {} has no 'shims'", quoted(each.key.scalar)),
                    "add them to its 'sits'");
            if (each.value.is_list())
                for (const Node& shim : each.value.children)
                    fitted.shims.push_back(shim_of(reader_, &shim, holds(fitted.part)));
            else
                reader_.error(each.key,
                              fmt::format("the shims fitted under part {} are not a list",
                                          quoted(each.key.scalar)),
                              "write them like '[0.5, 0.3]'");
            entry_.fitted.push_back(std::move(fitted));
        }
    }
    [[nodiscard]] double holds(job::PartId part) const {
        if (part < 0) return 0.0;
        for (const job::Seat& seat : reader_.job.parts[part.at()].seats)
            if (seat.shims) return seat.shims->holds;
        return 0.0;
    }
    [[nodiscard]] bool has_shims(job::PartId part) const {
        const auto& seats = reader_.job.parts[part.at()].seats;
        return std::ranges::any_of(seats,
                                   [](const job::Seat& seat) { return seat.shims.has_value(); });
    }

    // A bore only gets larger, an outside only smaller.
    void check_diameter(const Entry& written, const job::RecordEntry::AsSkimmed& skim) {
        const job::Ring& ring = reader_.job.parts[skim.ring.part.at()].rings[skim.ring.index.at()];
        job::Given before = skim.bore ? ring.bore : ring.outside;
        for (const job::RecordEntry& entry : reader_.job.record)
            for (const job::RecordEntry::AsSkimmed& each : entry.as_skimmed)
                if (each.ring == skim.ring && !entry.planned) before = each.size;
        constexpr double kSame = 1e-9;
        const quantity::Size& now = skim.size.size;
        if (std::isnan(now.lower)) return;  // its complaint is told
        const bool grew = skim.bore ? now.upper < before.size.lower - kSame
                                    : now.lower > before.size.upper + kSame;
        if (!grew) return;
        reader_.error(
            written.value,
            fmt::format("{} was {} before and is {} once it is skimmed", quoted(written.key.scalar),
                        quoted(before.written), quoted(skim.size.written)),
            skim.bore ? "a bore only gets larger: mend the one that was measured wrong"
                      : "an outside only gets smaller: mend the one that was measured "
                        "wrong");
    }

    void as_skimmed(const Node& node) {
        if (!expect_names(reader_, node, "'as_skimmed'",
                          "'as_skimmed: {rotor.magnets: 80.2 by caliper}'"))
            return;
        for (const Entry& each : entries(node)) {
            job::RecordEntry::AsSkimmed skim;
            skim.ring = feature_ref<job::Ring>(reader_, &each.key, "the record names");
            skim.size = size_of(reader_, value_of(each, "its diameter, as in 'SIZE by GAUGE'"),
                                Bare::general_tolerance);
            if (skim.ring.part < 0) continue;
            const auto& skims = reader_.job.parts[skim.ring.part.at()].skims;
            const auto how = std::ranges::find(skims, skim.ring.index, &job::Skim::ring);
            if (how == skims.end()) {
                reader_.error(each.key,
                              fmt::format("{} has no entry under 'skims', which would say whether "
                                          "its bore or its outside was turned",
                                          quoted(each.key.scalar)),
                              "add one to its part");
                continue;
            }
            skim.bore = how->bore;
            check_diameter(each, skim);
            entry_.as_skimmed.push_back(std::move(skim));
        }
    }

    void laps(const Node& node) {
        if (!expect_names(reader_, node, "'lapped'", "'lapped: {rotor.bore: 0.02}'")) return;
        for (const Entry& each : entries(node)) {
            const job::ConeRef cone =
                feature_ref<job::Cone>(reader_, &each.key, "the record names");
            const auto off = length_of(reader_, value_of(each, "what came off, as in 'SIZE'"),
                                       "what was lapped off", Least::above_zero);
            if (cone.part < 0) continue;
            const auto& laps = reader_.job.parts[cone.part.at()].laps;
            if (std::ranges::none_of(laps,
                                     [&](const job::Lap& lap) { return lap.cone == cone.index; }))
                reader_.error(each.key,
                              fmt::format("{} has no entry under 'laps'", quoted(each.key.scalar)),
                              "add one to its part: it says how much may come off");
            entry_.lapped.push_back({.cone = cone, .off = off.value_or(0.0)});
        }
    }

    void centrings(const Node& node) {
        if (!expect_names(reader_, node, "'centred' of the record", "'centred: {stator: 0..0.05}'"))
            return;
        for (const Entry& each : entries(node)) {
            const job::PartId part = part_ref(reader_, &each.key, "the record names");
            job::Given left = size_at_least(
                reader_, value_of(each, "what is left of the clearance"), Bare::general_tolerance,
                "what is left of the clearance", Least::zero_allowed);
            if (part < 0) continue;
            if (!reader_.job.parts[part.at()].centred)
                reader_.error(
                    each.key,
                    fmt::format("part {} does not say what centres it", quoted(each.key.scalar)),
                    "add 'centred' to it");
            entry_.centred.push_back({.part = part, .clearance = std::move(left)});
        }
    }

    [[nodiscard]] const Node* value_of(const Entry& each, const char* mend) {
        if (!each.value.is_empty()) return &each.value;
        reader_.error(each.key, fmt::format("{} has no size", quoted(each.key.scalar)),
                      fmt::format("write {}", mend));
        return nullptr;
    }

    Reader& reader_;
    job::RecordEntry entry_;
};

}  // namespace

void read_record(Reader& reader, const Node& record) {
    for (const Node& entry :
         items_of(reader, &record, "'record'", "'- {date: 2026-11-25, note: trial fit}'"))
        EntryReader(reader).read(entry);
}

}  // namespace trialfit::reading
