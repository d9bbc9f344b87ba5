// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

// What may be done to a part: cuts, laps, skims.
namespace trialfit::reading {

namespace {

class ChangeReader {
public:
    ChangeReader(Reader& reader, job::PartId index)
        : reader_(reader), index_(index), part_(reader.job.parts[index.at()]) {}

    void cut(const Node& node) {
        const Fields fields(
            reader_, node, fmt::format("a cut of part {}", quoted(part_.name)),
            {"face", "measure", "keep", "holds", "cost", "per_mm", "note", "read_by"});
        job::Cut cut;
        cut.at = reader_.place(node);
        cut.face = own_feature<job::Face>(reader_, index_, fields.need("face", "face: FACE"),
                                          fmt::format("{} turns", fields.what()));
        cut.measure =
            own_feature<job::Face>(reader_, index_, fields.need("measure", "measure: FACE"),
                                   fmt::format("{} is measured from", fields.what()));
        if (cut.face >= 0 && cut.face == cut.measure)
            reader_.error(*fields.find("measure"),
                          fmt::format("{} is measured from the face that it turns", fields.what()),
                          "name a face that stays");
        // No figure is proposed: it would be taken.
        cut.keep =
            length_of(reader_, fields.need("keep", "keep: SIZE"), "'keep'", Least::above_zero)
                .value_or(0.0);
        cut.holds = half_width_of(reader_, fields.need("holds", "holds: \u00b1SIZE"), "'holds'")
                        .value_or(0.0);
        cut.cost = cost(fields, "cost", cut.cost);
        cut.cost_per_mm = cost(fields, "per_mm", cut.cost_per_mm);
        cut.read_by = gauge_of(reader_, fields.find("read_by"));
        cut.note = text_of(reader_, fields.find("note"), "the note of a cut");
        refuse_second(cut, fields);
        part_.cuts.push_back(std::move(cut));
    }

    void lap(const Node& node) {
        const Fields fields(reader_, node, fmt::format("a lap of part {}", quoted(part_.name)),
                            {"cone", "at_most", "cost", "note"});
        job::Lap lap;
        lap.at = reader_.place(node);
        lap.cone = own_feature<job::Cone>(reader_, index_, fields.need("cone", "cone: CONE"),
                                          fmt::format("{} takes", fields.what()));
        lap.at_most_on_diameter = on_diameter(fields.need("at_most", "at_most: SIZE on diameter"));
        lap.cost = cost(fields, "cost", lap.cost);
        lap.note = text_of(reader_, fields.find("note"), "the note of a lap");
        part_.laps.push_back(std::move(lap));
    }

    void skim(const Node& node) {
        const Fields fields(
            reader_, node, fmt::format("a skim of part {}", quoted(part_.name)),
            {"ring", "turn", "keep", "until", "holds", "cost", "per_mm", "note", "read_by"});
        job::Skim skim;
        skim.at = reader_.place(node);
        skim.ring = own_feature<job::Ring>(reader_, index_, fields.need("ring", "ring: RING"),
                                           fmt::format("{} is of", fields.what()));
        skim.bore = choice_of(reader_, fields.need("turn", "turn: bore"),
                              "what is turned of the ring", {"od", "bore"})
                        .value_or(0) == 1;
        skim.keep =
            length_of(reader_, fields.find("keep"), "'keep'", Least::above_zero).value_or(0.0);
        skim.until = length_of(reader_, fields.find("until"), "'until'", Least::above_zero);
        if (fields.ok() && !fields.written("keep") && !fields.written("until"))
            reader_.error(node, fmt::format("{} has neither 'keep' nor 'until'", fields.what()),
                          "add 'keep: SIZE', the wall that must remain, or 'until: SIZE', the "
                          "diameter that must not be passed");
        skim.holds = half_width_of(reader_, fields.need("holds", "holds: \u00b1SIZE"), "'holds'")
                         .value_or(0.0);
        skim.cost = cost(fields, "cost", skim.cost);
        skim.cost_per_mm = cost(fields, "per_mm", skim.cost_per_mm);
        skim.read_by = gauge_of(reader_, fields.find("read_by"));
        skim.note = text_of(reader_, fields.find("note"), "the note of a skim");
        if (skim.ring >= 0) check_skim(skim, fields);
        part_.skims.push_back(std::move(skim));
    }

private:
    // Only metal that is there can be kept, and a diameter can be turned one way only.
    void check_skim(const job::Skim& skim, const Fields& fields) {
        const job::Ring& ring = part_.rings[skim.ring.at()];
        const double bore = ring.bore.size.nominal;
        const double outside = ring.outside.size.nominal;
        for (const job::Skim& other : part_.skims)
            if (other.ring == skim.ring)
                reader_.error(*fields.find("ring"),
                              fmt::format("ring {} has two skims; the first is in {}",
                                          quoted(ring.name), reader_.line_words(other.at)),
                              "keep one of the two");
        if (!ring.measured())
            return reader_.error(
                *fields.find("ring"),
                fmt::format("nobody has measured both diameters of ring {}", quoted(ring.name)),
                "measure it before it is skimmed");
        if (skim.bore && bore <= 0.0)
            reader_.error(*fields.find("turn"),
                          fmt::format("ring {} is solid and has no bore", quoted(ring.name)),
                          "write 'turn: od', or give the ring its bore");
        const double wall = (outside - bore) / 2.0;
        // Swapped or refused diameters have their complaint, and leave no wall to compare with.
        if (!(wall > 0.0)) return;
        const Node* const keep = fields.find("keep");
        if (keep != nullptr && skim.keep > wall)
            reader_.error(*keep,
                          fmt::format("{} is to keep a wall of {:.6g}, but it is {:.6g} now",
                                      fields.what(), skim.keep, wall),
                          "mend 'keep', or a diameter of the ring");
        const double now = skim.bore ? bore : outside;
        if (!skim.until || (skim.bore ? *skim.until > now : *skim.until < now)) return;
        reader_.error(*fields.find("until"),
                      fmt::format("{} may go {} {:.6g}, and the {} is {:.6g} now", fields.what(),
                                  skim.bore ? "up to" : "down to", *skim.until,
                                  skim.bore ? "bore" : "outside", now),
                      skim.bore ? "a bore only gets larger" : "an outside only gets smaller");
    }

    double cost(const Fields& fields, std::string_view key, double usual) {
        return number_in(reader_, fields.find(key), fmt::format("'{}'", key),
                         {0.0, 1e6, "it cannot be less than 0"})
            .value_or(usual);
    }

    double on_diameter(const Node* node) {
        constexpr std::string_view kOn = "on diameter";
        if (node == nullptr) return 1.0;
        Node length = *node;
        if (std::string_view(length.scalar).ends_with(kOn))
            length.scalar.resize(length.scalar.size() - kOn.size());
        return length_of(reader_, &length, "'at_most'", Least::above_zero).value_or(1.0);
    }

    void refuse_second(const job::Cut& cut, const Fields& fields) {
        for (const job::Cut& other : part_.cuts)
            if (cut.face >= 0 && other.face == cut.face)
                return reader_.error(
                    *fields.find("face"),
                    fmt::format("face {} has two cuts; the first is in {}",
                                quoted(fields.find("face")->scalar), reader_.line_words(other.at)),
                    "keep one of the two");
    }

    Reader& reader_;
    job::PartId index_;
    job::Part& part_;
};

}  // namespace

void read_changes(Reader& reader, job::PartId part, const Fields& fields) {
    ChangeReader changes(reader, part);
    for (const Node& cut :
         items_of(reader, fields.find("cuts"), "'cuts'",
                  "'- {face: FACE, measure: FACE, keep: SIZE, holds: \u00b1SIZE}'"))
        changes.cut(cut);
    for (const Node& lap : items_of(reader, fields.find("laps"), "'laps'",
                                    "'- {cone: CONE, at_most: 0.05 on diameter}'"))
        changes.lap(lap);
    for (const Node& skim : items_of(reader, fields.find("skims"), "'skims'",
                                     "'- {ring: RING, turn: bore, keep: SIZE, holds: \u00b1SIZE}'"))
        changes.skim(skim);
}

}  // namespace trialfit::reading
