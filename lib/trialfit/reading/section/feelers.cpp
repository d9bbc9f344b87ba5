// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <trialfit/reading/names/free_names.hpp>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <trialfit/reading/values.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

// Readings of a radial gap by feeler, at clock positions.
namespace trialfit::reading {

namespace {

constexpr double kHours = 12.0;
constexpr double kCircle_deg = 360.0;
constexpr std::string_view kInDegrees = "deg";
constexpr std::string_view kClockMend =
    "write it in hours from 0 to 12, like 4.5, or from 12 clockwise in degrees, like '135 deg'";

// A place on the clock in degrees from 12: `3`, `10.5`, `45 deg`.
std::optional<double> clock_of(Reader& reader, const Node* node, const std::string& what) {
    if (node == nullptr) return std::nullopt;
    if (node->is_scalar()) {
        std::string_view text = trimmed(node->scalar);
        const bool degrees = text.ends_with(kInDegrees);
        if (degrees) text = trimmed(text.substr(0, text.size() - kInDegrees.size()));
        const auto value = number_of(text);
        const double most = degrees ? kCircle_deg : kHours;
        if (value && *value >= 0.0 && *value <= most) return *value * kCircle_deg / most;
    }
    reader.error(*node,
                 fmt::format("{} is {}, which is no place on the clock", what,
                             node->is_scalar() ? quoted(node->scalar) : "not one figure"),
                 std::string(kClockMend));
    return std::nullopt;
}

// Whether a diameter was complained of, so that it is none.
bool was_refused(const job::Ring& ring) {
    const auto refused = [](const quantity::Size& size) {
        return std::isnan(size.nominal) && !size.is_unmeasured();
    };
    return refused(ring.bore.size) || refused(ring.outside.size);
}

class FeelersReader {
public:
    FeelersReader(Reader& reader, FreeNames& names) : reader_(reader), names_(names) {}

    void read(const Node& node) {
        const Fields fields(reader_, node, "this feeler entry",
                            {"feeler", "between", "by", "clock", "rounds"});
        if (!fields.ok()) return;
        feelers_.at = reader_.place(node);
        feelers_.name = names_.take(fields);
        who_ = feelers_.name.empty() ? "this feeler entry"
                                     : fmt::format("feeler {}", quoted(feelers_.name));
        if (const Node* pair =
                fields.need("between", "between: [stator.poles, rotor.magnets], two rings"))
            between(*pair);
        by(fields.need("by", "by: feeler, one of the gauges"));
        const Node* const rounds = fields.need("rounds", "rounds: [{gaps: [SIZE, SIZE, SIZE]}]");
        const Node* const clock = fields.find("clock");
        std::optional<std::vector<double>> all_rounds;
        if (clock != nullptr) all_rounds = clocks(*clock);
        if (rounds == nullptr || !expect_list(reader_, *rounds, fmt::format("'rounds' of {}", who_),
                                              "'[{gaps: [0.25, 0.20, 0.15, 0.20]}]'"))
            return;
        for (const Node& each : rounds->children)
            round(each, clock, all_rounds);
        alike(*rounds);
        reader_.job.feelers.push_back(std::move(feelers_));
    }

private:
    void between(const Node& node) {
        if (!is_pair(reader_, node, fmt::format("'between' of {}", who_),
                     "between: [stator.poles, rotor.magnets]"))
            return;
        const std::string who = fmt::format("{} lies between", who_);
        const job::RingRef one = feature_ref<job::Ring>(reader_, &node.children.front(), who);
        const job::RingRef other = feature_ref<job::Ring>(reader_, &node.children[1], who);
        if (one.part < 0 || other.part < 0) return;
        const bool one_turns = part(one).turns;
        if (one_turns == part(other).turns)
            return reader_.error(
                node,
                fmt::format("{} lies between two parts that {}", who_,
                            one_turns ? "both turn" : "both stand still"),
                "name a ring of a part that turns and one of a part that does not; a part that "
                "turns says 'turns: true'");
        feelers_.turning = one_turns ? one : other;
        feelers_.still = one_turns ? other : one;
        within(node);
    }

    // The reader of parts has complained of rings that it could not read, and has left them out.
    void within(const Node& node) {
        const job::Ring* const still = ring(feelers_.still);
        const job::Ring* const turning = ring(feelers_.turning);
        if (still == nullptr || turning == nullptr) return;
        if (was_refused(*still) || was_refused(*turning)) return;
        const bool still_outside = still->lies_round(*turning);
        const job::Ring& outer = still_outside ? *still : *turning;
        const job::Ring& inner = still_outside ? *turning : *still;
        if (!(outer.bore.size.nominal <= inner.outside.size.nominal)) return;
        reader_.error(node,
                      fmt::format("{} lies between rings that are not one within the other: a bore "
                                  "of {} round an outside diameter of {}",
                                  who_, quoted(outer.bore.written), quoted(inner.outside.written)),
                      "name the two rings that the feeler went between, or mend a diameter");
    }

    void by(const Node* node) {
        feelers_.gauge = gauge_of(reader_, node).value_or(-1);
        if (feelers_.gauge < 0) return;
        const job::Gauge& gauge = reader_.job.gauges[feelers_.gauge.at()];
        if (gauge.half_width >= kLeastHalfWidth) return;
        reader_.error(*node,
                      fmt::format("{} was read by {}, a gauge that is said to be never wrong", who_,
                                  quoted(gauge.name)),
                      fmt::format("give {} under 'gauges' the half-width that a gap read by it is "
                                  "good to, such as 0.02",
                                  quoted(gauge.name)));
    }

    std::optional<std::vector<double>> clocks(const Node& node) {
        const std::string what = fmt::format("'clock' of {}", who_);
        if (!expect_list(reader_, node, what, "'[12, 3, 6, 9]'")) return std::nullopt;
        std::vector<double> all;
        all.reserve(node.children.size());
        for (const Node& each : node.children)
            if (const auto clock = clock_of(reader_, &each, fmt::format("a place in {}", what)))
                all.push_back(*clock);
        if (all.size() != node.children.size()) return std::nullopt;
        return all;
    }

    void round(const Node& node, const Node* common,
               const std::optional<std::vector<double>>& all_rounds) {
        const Fields fields(reader_, node, fmt::format("this round of {}", who_),
                            {"gaps", "clock", "rotor_at", "at", "below"});
        if (!fields.ok()) return;
        job::FeelerRound round;
        round.at = reader_.place(node);
        round.rotor_said = fields.written("rotor_at");
        if (const auto mark = clock_of(reader_, fields.find("rotor_at"),
                                       fmt::format("'rotor_at' of a round of {}", who_)))
            round.rotor_deg = *mark;
        height(fields, round);
        const Node* const own = fields.find("clock");
        std::optional<std::vector<double>> clock = all_rounds;
        if (own != nullptr) clock = clocks(*own);
        if (own == nullptr && common == nullptr && !fields.written("clock"))
            reader_.error(
                node, fmt::format("{} has no 'clock'", fields.what()),
                "add 'clock: [HOUR, HOUR, HOUR]' to it, or to the entry for all its rounds");
        if (const Node* list = fields.need("gaps", "gaps: [SIZE, SIZE, SIZE]"))
            gaps(*list, clock, round);
        feelers_.rounds.push_back(std::move(round));
    }

    void height(const Fields& fields, job::FeelerRound& round) {
        const std::string what = fmt::format("a round of {}", who_);
        if (const Node* const at = fields.find("at"))
            round.height = face_ref(reader_, at, fmt::format("{} was read at", what));
        if (const auto below = length_of(reader_, fields.find("below"),
                                         fmt::format("'below' of {}", what), Least::zero_allowed))
            round.below = *below;
        if (const Node* const below = fields.find("below");
            below != nullptr && !fields.written("at"))
            reader_.error(*below, fmt::format("{} is below no face", what),
                          "add 'at: stator.out', the face that it was measured from");
    }

    void gaps(const Node& node, const std::optional<std::vector<double>>& clock,
              job::FeelerRound& round) {
        const std::string what = fmt::format("'gaps' of a round of {}", who_);
        if (!expect_list(reader_, node, what, "'[0.25, 0.20, 0.15, 0.20]'")) return;
        if (clock && clock->size() != node.children.size())
            return reader_.error(node,
                                 fmt::format("{} are {} for {} places on the clock", what,
                                             node.children.size(), clock->size()),
                                 "give one for each, in the order of 'clock'; a round that leaves "
                                 "some out has a 'clock' of its own");
        for (std::size_t i = 0; i < node.children.size(); ++i) {
            auto read = gap(node.children[i]);
            if (!read || !clock) continue;
            read->clock_deg = (*clock)[i];
            round.gaps.push_back(*read);
        }
    }

    // `0.25`, or `0.25..0.30`: the leaf that goes in and the one that does not.
    std::optional<job::FeelerGap> gap(const Node& node) {
        const std::string what = fmt::format("a gap of {}", who_);
        job::FeelerGap read{.at = reader_.place(node)};
        if (!node.is_scalar() || node.scalar.find("..") == std::string::npos) {
            const auto one = length_of(reader_, &node, what, Least::zero_allowed);
            if (!one) return std::nullopt;
            read.least = *one;
            read.most = *one;
            return read;
        }
        const SizeText range = read_size_text(node.scalar, reader_.sizes(node), Bare::exact);
        if (range.fault) {
            reader_.error(node, *range.fault);
            return std::nullopt;
        }
        reader_.keep_said(node, range.left, range.size, range.gauge);
        if (range.size.lower < 0.0) return reader_.refuse(node, what, "it cannot be less than 0");
        read.least = range.size.lower;
        read.most = range.size.upper;
        return read;
    }

    // What some rounds say and others leave open is not known of any.
    void alike(const Node& node) {
        const std::vector<job::FeelerRound>& rounds = feelers_.rounds;
        if (rounds.size() != node.children.size()) return;
        for (std::size_t i = 1; i < rounds.size(); ++i) {
            if (rounds[i].rotor_said != rounds[0].rotor_said)
                return reader_.error(
                    node.children[rounds[0].rotor_said ? i : 0],
                    fmt::format("this round of {} does not say how the rotor stood, as others do",
                                who_),
                    "add 'rotor_at: HOUR', where its mark was on the clock");
            if (says_height(node.children[i]) != says_height(node.children[0]))
                return reader_.error(
                    node.children[says_height(node.children[0]) ? i : 0],
                    fmt::format("this round of {} does not say at which height, as others do",
                                who_),
                    "add 'at: stator.out', and 'below: SIZE' where it was that far inboard of it");
        }
    }
    static bool says_height(const Node& round) {
        const std::vector<Entry> all = entries(round);
        return std::ranges::any_of(all,
                                   [](const Entry& entry) { return entry.key.scalar == "at"; });
    }

    [[nodiscard]] const job::Part& part(job::RingRef ref) const {
        return reader_.job.parts[ref.part.at()];
    }
    [[nodiscard]] const job::Ring* ring(job::RingRef ref) const {
        const auto& rings = part(ref).rings;
        const auto index = ref.index.at();
        return index < rings.size() ? &rings[index] : nullptr;
    }

    Reader& reader_;
    FreeNames& names_;
    job::Feelers feelers_;
    std::string who_ = "this feeler entry";
};

}  // namespace

void read_feelers(Reader& reader, const Node& feelers) {
    FreeNames names(reader, "feeler");
    for (const Node& each :
         items_of(reader, &feelers, "'feelers'", "'- feeler: NAME', one after the other"))
        FeelersReader(reader, names).read(each);
}

}  // namespace trialfit::reading
