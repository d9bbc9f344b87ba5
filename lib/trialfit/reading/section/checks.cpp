// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/reading/names/free_names.hpp>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

enum class Asked { nothing, gap, engagement, overlap, air_gap };

class CheckReader {
public:
    CheckReader(Reader& reader, FreeNames& names) : reader_(reader), names_(names) {}

    void read(const Node& node) {
        const Fields fields(
            reader_, node, "this check",
            {"check", "gap", "engagement", "overlap", "air_gap", "at_least", "at_most", "aim"});
        if (!fields.ok()) return;
        check_.at = reader_.place(node);
        check_.name = names_.take(fields);
        who_ = check_.name.empty() ? "this check" : fmt::format("check {}", quoted(check_.name));
        asked(fields);
        check_.at_least = limit(fields, "at_least");
        check_.at_most = limit(fields, "at_most");
        check_.aim = limit(fields, "aim");
        if (!fields.written("at_least") && !fields.written("at_most"))
            reader_.error(node, fmt::format("{} has no limit", who_),
                          "add 'at_least: SIZE' or 'at_most: SIZE'");
        if (crossed())
            reader_.error(*fields.find("at_least"),
                          fmt::format("{} asks for at least {} and at most {}", who_,
                                      check_.at_least->written, check_.at_most->written),
                          "swap them");
        if (asked_ == Asked::air_gap)
            reader_.job.air_gaps.push_back({.name = check_.name,
                                            .at = check_.at,
                                            .one = one_,
                                            .other = other_,
                                            .at_least = check_.at_least,
                                            .at_most = check_.at_most});
        else
            reader_.job.checks.push_back(std::move(check_));
    }

private:
    [[nodiscard]] bool crossed() const {
        return check_.at_least && check_.at_most && check_.at_least->in == check_.at_most->in &&
               check_.at_least->value > check_.at_most->value;
    }

    void asked(const Fields& fields) {
        int kinds = 0;
        for (const std::string_view key : {"gap", "engagement", "overlap", "air_gap"})
            kinds += fields.written(key) ? 1 : 0;
        if (kinds != 1)
            reader_.error(
                fields.node(),
                fmt::format("{} asks for {}", who_, kinds == 0 ? "nothing" : "more than one thing"),
                "give it one of 'gap: [part.face, part.face]', 'engagement: [part.thread, "
                "part.thread]', 'overlap: {of: part.ring, by: part.ring}' and 'air_gap: "
                "[part.ring, "
                "part.ring]'");
        if (const Node* node = fields.find("gap")) gap(*node);
        if (const Node* node = fields.find("engagement")) engagement(*node);
        if (const Node* node = fields.find("overlap")) overlap(*node);
        if (const Node* node = fields.find("air_gap")) air_gap(*node, fields);
    }

    void gap(const Node& node) {
        asked_ = Asked::gap;
        if (!is_pair(reader_, node, fmt::format("the gap of {}", who_),
                     "gap: [part.face, part.face]"))
            return;
        const std::string who = fmt::format("{} names", who_);
        const job::GapOf of{.inboard = face_ref(reader_, &node.children.front(), who),
                            .outboard = face_ref(reader_, &node.children[1], who)};
        if (of.inboard.part >= 0 && of.inboard == of.outboard)
            reader_.error(node.children[1],
                          fmt::format("{} asks for the gap between {} and itself", who_,
                                      quoted(node.children[1].scalar)),
                          "name two faces");
        check_.of = of;
    }

    void engagement(const Node& node) {
        asked_ = Asked::engagement;
        if (!is_pair(reader_, node, fmt::format("the engagement of {}", who_),
                     "engagement: [nut.thread, shaft.thread]"))
            return;
        const std::string who = fmt::format("{} names", who_);
        const job::EngagementOf of{
            .one = feature_ref<job::Thread>(reader_, &node.children.front(), who),
            .other = feature_ref<job::Thread>(reader_, &node.children[1], who)};
        check_.of = of;
        if (of.one.part < 0 || of.other.part < 0) return;
        if (of.one.part == of.other.part)
            return reader_.error(node.children[1],
                                 fmt::format("both threads of {} are on part {}", who_,
                                             quoted(reader_.parts.names()[of.one.part.at()])),
                                 "name the nut's thread and the shaft's");
        matched(node, of);
    }

    // Threads that do not screw together have no engagement.
    void matched(const Node& node, const job::EngagementOf& of) {
        const auto form = [&](job::ThreadRef ref) -> const trade::ThreadForm* {
            const auto& threads = reader_.job.parts[ref.part.at()].threads;
            const auto index = ref.index.at();
            return index < threads.size() && threads[index].form.d_mm > 0.0 ? &threads[index].form
                                                                            : nullptr;
        };
        const trade::ThreadForm* const one = form(of.one);
        const trade::ThreadForm* const other = form(of.other);
        if (one == nullptr || other == nullptr) return;
        const bool alike = one->d_mm == other->d_mm && one->pitch_mm == other->pitch_mm &&
                           one->left_hand == other->left_hand;
        const bool both_sides = !one->tolerance || !other->tolerance ||
                                one->tolerance->internal != other->tolerance->internal;
        if (alike && both_sides) return;
        const std::string_view differs = one->d_mm != other->d_mm           ? "diameters differ"
                                         : one->pitch_mm != other->pitch_mm ? "pitches differ"
                                                                            : "hands differ";
        reader_.error(
            node,
            fmt::format("{} asks for the engagement of {} and {}, which do not screw together{}",
                        who_, quoted(one->written), quoted(other->written),
                        alike ? "" : fmt::format(": their {}", differs)),
            alike ? "one of them must be a nut's thread, as in 6H, the other a shaft's, as in 6g"
                  : "mend the form of one of them");
    }

    void overlap(const Node& node) {
        asked_ = Asked::overlap;
        const Fields fields(reader_, node, fmt::format("the overlap of {}", who_), {"of", "by"});
        const std::string who = fmt::format("{} names", who_);
        check_.of = job::OverlapOf{
            .of = feature_ref<job::Ring>(reader_, fields.need("of", "of: part.ring"), who),
            .by = feature_ref<job::Ring>(reader_, fields.need("by", "by: part.ring"), who)};
    }

    void air_gap(const Node& node, const Fields& fields) {
        asked_ = Asked::air_gap;
        if (fields.written("aim"))
            reader_.error(fields.node(), fmt::format("{} has an 'aim', and is an air gap", who_),
                          "take the aim away: no cut along the axis moves an air gap");
        if (!is_pair(reader_, node, fmt::format("the air gap of {}", who_),
                     "air_gap: [stator.poles, rotor.magnets]"))
            return;
        const std::string who = fmt::format("{} names", who_);
        one_ = feature_ref<job::Ring>(reader_, &node.children.front(), who);
        other_ = feature_ref<job::Ring>(reader_, &node.children[1], who);
        if (one_.part < 0 || other_.part < 0) return;
        if (one_.part == other_.part)
            return reader_.error(node, fmt::format("both rings of {} are on one part", who_),
                                 "name rings of two parts, one within the other");
        known_well(node, one_);
        known_well(node, other_);
    }

    // A diameter that an air gap hangs on needs limits (or the file's general ones).
    void known_well(const Node& node, job::RingRef ref) {
        const auto& rings = reader_.job.parts[ref.part.at()].rings;
        if (ref.index.at() >= rings.size()) return;
        const job::Ring& ring = rings[ref.index.at()];
        if (!(ring.bore_bare && ring.outside_bare) ||
            reader_.file_of(ring.at).general_tolerance != 0)
            return;
        reader_.error(node,
                      fmt::format("{} hangs on the diameters of ring {}, which are bare numbers",
                                  who_, quoted(ring.name)),
                      "give the one that faces the gap limits, 'by' a gauge or 'exact', or set "
                      "general_tolerance");
    }

    std::optional<job::Limit> limit(const Fields& fields, std::string_view key) {
        const Node* const node = fields.find(key);
        if (node == nullptr) return std::nullopt;
        const std::string what = fmt::format("'{}' of {}", key, who_);
        if (!node->is_scalar()) {
            reader_.error(*node, fmt::format("{} is not one value", what), "write it like '0.5'");
            return std::nullopt;
        }
        job::Limit limit;
        limit.written = trimmed(node->scalar);
        limit.at = reader_.place(*node);
        if (counted(*node, what, key, limit)) return limit;
        if (failed_) {
            failed_ = false;
            return std::nullopt;
        }
        const bool sign_matters = asked_ == Asked::gap || asked_ == Asked::nothing;
        const auto length =
            length_of(reader_, node, what, sign_matters ? Least::any : Least::zero_allowed);
        if (!length) return std::nullopt;
        limit.value = *length;
        return limit;
    }

    // `75 %`, `0.7 d`, `6 pitches`, `strength`: true where `limit` is one of these; failed_ where
    // it is one that this kind of check cannot have.
    bool counted(const Node& node, std::string_view what, std::string_view key, job::Limit& limit) {
        struct Ending {
            std::string_view word;
            job::LimitIn in;
            Asked asked;
            std::string_view only;
        };
        constexpr std::array<Ending, 4> kEndings{
            {{"%", job::LimitIn::share, Asked::overlap, "an overlap"},
             {"d", job::LimitIn::diameters, Asked::engagement, "an engagement"},
             {"pitches", job::LimitIn::pitches, Asked::engagement, "an engagement"},
             {"strength", job::LimitIn::strength, Asked::engagement, "an engagement"}}};
        for (const Ending& ending : kEndings) {
            const std::string_view text = trimmed(node.scalar);
            if (!text.ends_with(ending.word)) continue;
            const std::string_view figure =
                trimmed(text.substr(0, text.size() - ending.word.size()));
            const auto refuse = [&](std::string mend) {
                return fail(node, fmt::format("{} is {}", what, quoted(text)), std::move(mend));
            };
            const bool bare = ending.in == job::LimitIn::strength;
            const auto value = number_of(figure);
            if (bare ? !figure.empty() : !value) continue;
            if (asked_ != ending.asked && asked_ != Asked::nothing)
                return refuse(fmt::format("only {} is counted so; write a length", ending.only));
            if (bare && key != "at_least") return refuse("strength is asked for with 'at_least'");
            if (!bare && *value < 0.0) return refuse("it cannot be less than 0");
            limit.in = ending.in;
            limit.value = bare ? 0.0 : *value;
            if (ending.in != job::LimitIn::share) return true;
            limit.value /= 100.0;
            if (limit.value > 1.0) return refuse("no ring overlaps more than 100 % of another");
            return true;
        }
        return false;
    }
    bool fail(const Node& node, std::string fault, std::string mend) {
        reader_.error(node, std::move(fault), std::move(mend));
        failed_ = true;
        return false;
    }

    Reader& reader_;
    FreeNames& names_;
    job::Check check_;
    std::string who_ = "this check";
    Asked asked_ = Asked::nothing;
    job::RingRef one_;
    job::RingRef other_;
    bool failed_ = false;
};

class ReadingReader {
public:
    ReadingReader(Reader& reader, FreeNames& names) : reader_(reader), names_(names) {}

    std::optional<job::Reading> read(const Node& node, bool floats) {
        const Fields fields(reader_, node, "this reading",
                            {"reading", "from", "to", "is", "fitted", "pushed", "touching"});
        if (!fields.ok()) return std::nullopt;
        job::Reading reading;
        reading.at = reader_.place(node);
        reading.name = names_.take(fields);
        who_ =
            reading.name.empty() ? "this reading" : fmt::format("reading {}", quoted(reading.name));
        reading.from = face_ref(reader_, fields.need("from", "from: part.face"),
                                fmt::format("{} is taken from", who_));
        reading.to = face_ref(reader_, fields.need("to", "to: part.face"),
                              fmt::format("{} is taken to", who_));
        if (reading.from.part >= 0 && reading.from == reading.to)
            reader_.error(*fields.find("to"),
                          fmt::format("{} is taken from a face to itself", who_), "name two faces");
        reading.is =
            size_of(reader_, fields.need("is", "is: SIZE by GAUGE"), Bare::general_tolerance);
        if (const Node* fitted = fields.find("fitted")) reading.fitted = parts(*fitted);
        if (const Node* touching = fields.find("touching")) touch(*touching, reading);
        all_fitted(fields, reading);
        pushed(fields, reading, floats);
        return reading;
    }

private:
    std::vector<job::PartId> parts(const Node& node) {
        std::vector<job::PartId> fitted;
        if (!expect_list(reader_, node, fmt::format("'fitted' of {}", who_), "'[case, crank]'"))
            return fitted;
        for (const Node& item : node.children) {
            const job::PartId part =
                part_ref(reader_, &item, fmt::format("{} was taken with", who_));
            if (part >= 0) fitted.push_back(part);
            all_known_ = all_known_ && part >= 0;
        }
        std::ranges::sort(fitted);
        fitted.erase(std::unique(fitted.begin(), fitted.end()), fitted.end());
        return fitted;
    }

    void touch(const Node& node, job::Reading& reading) {
        if (!is_pair(reader_, node, fmt::format("'touching' of {}", who_),
                     "touching: [part.face, part.face]"))
            return;
        const std::string who = fmt::format("{} has touching", who_);
        reading.touching = job::GapOf{.inboard = face_ref(reader_, &node.children.front(), who),
                                      .outboard = face_ref(reader_, &node.children[1], who)};
        const int held = reading.touching->outboard.part;
        const job::PartId on = reading.touching->inboard.part;
        if (held < 0 || on < 0) return;
        const auto& names = reader_.parts.names();
        const std::string& held_name = names[static_cast<std::size_t>(held)];
        const std::string& on_name = names[on.at()];
        if (held == on)
            reader_.error(
                node, fmt::format("{} says that part {} touched itself", who_, quoted(held_name)),
                "name a face of each of the two parts that touched");
        else if (sits_on(on, held))
            reader_.error(
                node,
                fmt::format("{} says that part {} was held off by part {}, which sits on it "
                            "and comes along with it",
                            who_, quoted(held_name), quoted(on_name)),
                "the inboard face comes first, then the face that was held off by it");
    }

    // Whether `part` sits on `other`, perhaps by way of more parts.
    [[nodiscard]] bool sits_on(job::PartId part, job::PartId other) const {
        const auto& parts = reader_.job.parts;
        std::vector<bool> seen(parts.size(), false);
        std::vector<job::PartId> open{part};
        while (!open.empty()) {
            const job::PartId here = open.back();
            open.pop_back();
            if (here < 0 || seen[here.at()]) continue;
            if (here == other) return true;
            seen[here.at()] = true;
            for (const job::Seat& seat : parts[here.at()].seats)
                open.push_back(seat.below());
        }
        return false;
    }

    // A face can be read, and can touch, only on a part that was there.
    void all_fitted(const Fields& fields, const job::Reading& reading) {
        if (reading.fitted.empty() || !all_known_) return;
        const auto missing = [&](job::PartId part) {
            return part >= 0 && !std::ranges::binary_search(reading.fitted, part);
        };
        const auto complain = [&](const Node& node, job::PartId part) {
            if (!missing(part)) return;
            reader_.error(
                node,
                fmt::format("{} uses {}, but part {} is not among the parts fitted", who_,
                            quoted(node.scalar), quoted(reader_.parts.names()[part.at()])),
                "add it to 'fitted'");
        };
        if (const Node* from = fields.find("from")) complain(*from, reading.from.part);
        if (const Node* to = fields.find("to")) complain(*to, reading.to.part);
        if (!reading.touching) return;
        const Node& pair = *fields.find("touching");
        complain(pair.children[0], reading.touching->inboard.part);
        complain(pair.children[1], reading.touching->outboard.part);
    }

    void pushed(const Fields& fields, job::Reading& reading, bool floats) {
        const auto way = choice_of(reader_, fields.find("pushed"),
                                   fmt::format("'pushed' of {}", who_), {"in", "out"});
        if (way) reading.pushed = *way == 0 ? job::Pushed::in : job::Pushed::out;
        if (fields.written("pushed") || !floats) return;
        reader_.faults.warning(
            reading.at,
            fmt::format("{} does not say which way the part with play was pushed", who_),
            "add 'pushed: in' or 'pushed: out'");
    }

    Reader& reader_;
    FreeNames& names_;
    std::string who_ = "this reading";
    bool all_known_ = true;
};

}  // namespace

void read_checks(Reader& reader, const Node& checks) {
    FreeNames names(reader, "check");
    for (const Node& check :
         items_of(reader, &checks, "'checks'", "'- check: NAME', one after the other"))
        CheckReader(reader, names).read(check);
}

void read_readings(Reader& reader, const Node& readings) {
    reader.job.readings = read_measured(reader, readings, 0);
}

std::vector<job::Reading> read_measured(Reader& reader, const Node& readings, std::size_t entries) {
    std::vector<job::Reading> all;
    if (!expect_list(reader, readings, entries == 0 ? "'readings'" : "'measured'",
                     "'- reading: NAME', one after the other"))
        return all;
    const bool floats = std::ranges::any_of(reader.job.parts, [](const job::Part& part) {
        return std::ranges::any_of(part.seats,
                                   [](const job::Seat& seat) { return seat.play.has_value(); });
    });
    FreeNames names(reader, "reading");
    for (const job::Reading& before : reader.job.readings)
        names.taken(before.name, before.at);
    for (const job::RecordEntry& entry : reader.job.record)
        for (const job::Reading& before : entry.measured)
            names.taken(before.name, before.at);
    for (const Node& node : readings.children) {
        if (auto reading = ReadingReader(reader, names).read(node, floats)) {
            reading->entries = entries;
            all.push_back(std::move(*reading));
        }
    }
    return all;
}

}  // namespace trialfit::reading
