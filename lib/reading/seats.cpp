// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/references.hpp>
#include <trialfit/reading/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

// Where a seat names its stock and not how many may lie on each other.
constexpr int kUsualMostShims = 3;

class SeatReader {
public:
    SeatReader(Reader& reader, int index)
        : reader_(reader),
          index_(index),
          part_(reader.job.parts[static_cast<std::size_t>(index)]),
          who_(fmt::format("part {} sits", quoted(part_.name))) {}

    void read(const Node& node) {
        const Fields fields(reader_, node, fmt::format("the seat of part {}", quoted(part_.name)),
                            {"face", "cone", "against", "offset", "play", "shims", "key"});
        job::Seat seat;
        seat.at = reader_.place(node);
        if (!fields.ok()) return keep(seat);
        const bool cone = fields.written("cone");
        if (cone == fields.written("face"))
            reader_.error(
                node,
                fmt::format("the seat of part {} names {}", quoted(part_.name),
                            cone ? "both a face and a cone" : "neither a face nor a cone"),
                "write '{face: FACE, against: part.face}' or '{cone: CONE, against: "
                "part.cone}'");
        if (cone)
            on_cone(fields, seat);
        else
            on_face(fields, seat);
        if (seat.against.part == index_)
            reader_.error(*fields.find("against"),
                          fmt::format("part {} sits against itself", quoted(part_.name)),
                          "name the part that it is pushed home on");
        keep(seat);
    }

private:
    void keep(const job::Seat& seat) { part_.seats.push_back(seat); }

    void on_cone(const Fields& fields, job::Seat& seat) {
        seat.kind = job::SeatKind::cone_on_cone;
        seat.own = own_feature(reader_, index_, fields.find("cone"), Feature::cone,
                               fmt::format("{} on its", who_));
        const job::FeatureRef against =
            feature_ref(reader_, fields.need("against", "against: part.cone"), Feature::cone,
                        fmt::format("{} against", who_));
        seat.against = {.part = against.part, .face = against.index};
        for (const std::string_view key : {"offset", "play", "shims"})
            if (const Node* node = fields.find(key))
                reader_.error(*node,
                              fmt::format("'{}' belongs to a seat on a face, not on a cone", key),
                              "take it away, or give the part a second seat on a face");
        if (const Node* node = fields.find("key")) key(*node, seat);
    }

    void on_face(const Fields& fields, job::Seat& seat) {
        seat.own = own_feature(reader_, index_, fields.find("face"), Feature::face,
                               fmt::format("{} on its", who_));
        seat.against = face_ref(reader_, fields.need("against", "against: part.face"),
                                fmt::format("{} against", who_));
        if (const Node* node = fields.find("offset")) {
            seat.kind = job::SeatKind::face_at_offset;
            seat.offset = size_of(reader_, node, Bare::general_tolerance);
        }
        if (const Node* node = fields.find("play"))
            seat.play = size_at_least(reader_, node, Bare::exact,
                                      fmt::format("the play of part {}", quoted(part_.name)),
                                      Least::zero_allowed);
        if (const Node* node = fields.find("shims")) shims(*node, seat);
        if (const Node* node = fields.find("key"))
            reader_.error(*node, "'key' belongs to a seat on a cone, not on a face",
                          "take it away");
    }

    void key(const Node& node, job::Seat& seat) {
        const Fields fields(reader_, node, fmt::format("the key of part {}", quoted(part_.name)),
                            {"height", "room", "floors"});
        job::Key key;
        key.at = reader_.place(node);
        key.height =
            size_at_least(reader_, fields.need("height", "height: 3 h9"), Bare::general_tolerance,
                          "the height of the key", Least::above_zero);
        key.room =
            size_at_least(reader_, fields.need("room", "room: 3.1 \u00b10.05"),
                          Bare::general_tolerance, "the room for the key", Least::above_zero);
        const Node* const floors = fields.need("floors", "floors: cone");
        key.floors_follow_cone =
            choice_of(reader_, floors, "what the slot floors follow", {"cone", "axis"})
                .value_or(0) == 0;
        seat.key = key;
    }

    void shims(const Node& node, job::Seat& seat) {
        const Fields fields(reader_, node, fmt::format("the shims of part {}", quoted(part_.name)),
                            {"stock", "at_most", "holds", "fitted"});
        job::Shims shims;
        shims.at = reader_.place(node);
        shims.holds =
            half_width_of(reader_, fields.find("holds"), "'holds' of the shims").value_or(0.0);
        if (fields.ok() && !fields.written("stock") && !fields.written("fitted"))
            reader_.error(node, fmt::format("{} have neither 'stock' nor 'fitted'", fields.what()),
                          "add 'stock: [0.2, 0.3, 0.5]' or 'fitted: [1.6]'");
        const Node* const stock = fields.find("stock");
        if (stock != nullptr && expect_list(reader_, *stock, "'stock'", "'[0.2, 0.3, 0.5]'"))
            for (const Node& item : stock->children)
                shims.stock.push_back(stocked(item, shims.holds));
        const Node* const fitted = fields.find("fitted");
        if (fitted != nullptr) {
            if (fitted->is_list())
                for (const Node& item : fitted->children)
                    shims.fitted.push_back(shim_of(reader_, &item, shims.holds));
            else
                reader_.error(*fitted, "'fitted' is not a list", "write it like '[0.5, 0.3]'");
        }
        const auto at_most = count_of(reader_, fields.find("at_most"), "'at_most' of the shims", 1);
        if (!shims.stock.empty()) shims.at_most = at_most.value_or(kUsualMostShims);
        seat.shims = shims;
    }

    job::ShimStock stocked(const Node& item, double holds) {
        job::ShimStock stock;
        const bool counted =
            item.is_map() &&
            std::any_of(item.children.begin(), item.children.end(), [](const Node& child) {
                return child.scalar == "thickness" || child.scalar == "pieces";
            });
        if (!counted) {
            stock.thickness = shim_of(reader_, &item, holds);
            return stock;
        }
        const Fields fields(reader_, item, "this shim", {"thickness", "pieces"});
        stock.thickness = shim_of(reader_, fields.need("thickness", "thickness: 0.5"), holds);
        stock.pieces = count_of(reader_, fields.find("pieces"), "'pieces'", 0);
        return stock;
    }

    Reader& reader_;
    int index_;
    job::Part& part_;
    std::string who_;
};

class ChangeReader {
public:
    ChangeReader(Reader& reader, int index)
        : reader_(reader),
          index_(index),
          part_(reader.job.parts[static_cast<std::size_t>(index)]) {}

    void cut(const Node& node) {
        const Fields fields(reader_, node, fmt::format("a cut of part {}", quoted(part_.name)),
                            {"face", "measure", "keep", "holds", "cost", "per_mm", "note"});
        job::Cut cut;
        cut.at = reader_.place(node);
        cut.face = own_feature(reader_, index_, fields.need("face", "face: FACE"), Feature::face,
                               fmt::format("{} turns", fields.what()));
        cut.measure = own_feature(reader_, index_, fields.need("measure", "measure: FACE"),
                                  Feature::face, fmt::format("{} is measured from", fields.what()));
        if (cut.face >= 0 && cut.face == cut.measure)
            reader_.error(*fields.find("measure"),
                          fmt::format("{} is measured from the face that it turns", fields.what()),
                          "name a face that stays");
        cut.keep = length_of(reader_, fields.need("keep", "keep: 5.5"), "'keep'", Least::above_zero)
                       .value_or(1.0);
        cut.holds = half_width_of(reader_, fields.need("holds", "holds: \u00b10.03"), "'holds'")
                        .value_or(0.0);
        cut.cost = cost(fields, "cost", cut.cost);
        cut.cost_per_mm = cost(fields, "per_mm", cut.cost_per_mm);
        cut.note = text_of(reader_, fields.find("note"), "the note of a cut");
        refuse_second(cut, fields);
        part_.cuts.push_back(std::move(cut));
    }

    void lap(const Node& node) {
        const Fields fields(reader_, node, fmt::format("a lap of part {}", quoted(part_.name)),
                            {"cone", "at_most", "cost", "note"});
        job::Lap lap;
        lap.at = reader_.place(node);
        lap.cone = own_feature(reader_, index_, fields.need("cone", "cone: CONE"), Feature::cone,
                               fmt::format("{} takes", fields.what()));
        lap.at_most_on_diameter = on_diameter(fields.need("at_most", "at_most: 0.05 on diameter"));
        lap.cost = cost(fields, "cost", lap.cost);
        lap.note = text_of(reader_, fields.find("note"), "the note of a lap");
        part_.laps.push_back(std::move(lap));
    }

private:
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
                    fmt::format("face {} has two cuts; the first is in line {}",
                                quoted(fields.find("face")->scalar), other.at.line),
                    "keep one of the two");
    }

    Reader& reader_;
    int index_;
    job::Part& part_;
};

}  // namespace

job::Given shim_of(Reader& reader, const Node* node, double holds) {
    job::Given given =
        size_at_least(reader, node, Bare::exact, "the thickness of a shim", Least::above_zero);
    const bool bare =
        given.size.spread.shape == quantity::Shape::exact && !given.written.ends_with("exact");
    if (bare && given.size.nominal > 0.0)
        given.size = quantity::toleranced(given.size.nominal, -holds, holds);
    if (given.size.lower <= 0.0 && node != nullptr) {
        reader.error(*node,
                     fmt::format("a shim of {} that holds \u00b1{} may be nothing at all",
                                 quoted(given.written), holds),
                     "mend the thickness or 'holds'");
        given.size = unknown_size();
    }
    return given;
}

void read_seats(Reader& reader, int part, const Node& sits) {
    SeatReader seats(reader, part);
    if (!sits.is_list()) return seats.read(sits);
    if (!expect_list(reader, sits, "'sits'", "'{face: FACE, against: part.face}'")) return;
    // An empty list has its complaint; the part is not the one that all else stands on.
    if (sits.children.empty())
        reader.job.parts[static_cast<std::size_t>(part)].seats.emplace_back();
    for (const Node& seat : sits.children)
        seats.read(seat);
}

void read_changes(Reader& reader, int part, const Fields& fields) {
    ChangeReader changes(reader, part);
    const Node* const cuts = fields.find("cuts");
    const Node* const laps = fields.find("laps");
    if (cuts != nullptr &&
        expect_list(reader, *cuts, "'cuts'",
                    "'- {face: FACE, measure: FACE, keep: 5.5, holds: \u00b10.03}'"))
        for (const Node& cut : cuts->children)
            changes.cut(cut);
    if (laps != nullptr &&
        expect_list(reader, *laps, "'laps'", "'- {cone: CONE, at_most: 0.05 on diameter}'"))
        for (const Node& lap : laps->children)
            changes.lap(lap);
}

}  // namespace trialfit::reading
