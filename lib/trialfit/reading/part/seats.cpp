// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>

namespace trialfit::reading {

namespace {

// Where a seat names its stock and not how many may lie on each other.
constexpr int kUsualMostShims = 3;

class SeatReader {
public:
    SeatReader(Reader& reader, job::PartId index)
        : reader_(reader),
          index_(index),
          part_(reader.job.parts[index.at()]),
          who_(fmt::format("part {} sits", quoted(part_.name))) {}

    void read(const Node& node) {
        const Fields fields(
            reader_, node, fmt::format("the seat of part {}", quoted(part_.name)),
            {"face", "cone", "against", "offset", "play", "pushed", "shims", "key"});
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
        if (seat.below() == index_)
            reader_.error(*fields.find("against"),
                          fmt::format("part {} sits against itself", quoted(part_.name)),
                          "name the part that it is pushed home on");
        keep(seat);
    }

private:
    void keep(const job::Seat& seat) { part_.seats.push_back(seat); }

    void on_cone(const Fields& fields, job::Seat& seat) {
        seat.kind = job::SeatKind::cone_on_cone;
        seat.own_cone = own_feature<job::Cone>(reader_, index_, fields.find("cone"),
                                               fmt::format("{} on its", who_));
        seat.on_cone = feature_ref<job::Cone>(reader_, fields.need("against", "against: part.cone"),
                                              fmt::format("{} against", who_));
        for (const std::string_view key : {"offset", "play", "pushed", "shims"})
            if (const Node* node = fields.find(key))
                reader_.error(*node,
                              fmt::format("'{}' belongs to a seat on a face, not on a cone", key),
                              "take it away, or give the part a second seat on a face");
        if (const Node* node = fields.find("key")) key(*node, seat);
    }

    void on_face(const Fields& fields, job::Seat& seat) {
        seat.own = own_feature<job::Face>(reader_, index_, fields.find("face"),
                                          fmt::format("{} on its", who_));
        seat.against = face_ref(reader_, fields.need("against", "against: part.face"),
                                fmt::format("{} against", who_));
        if (const Node* node = fields.find("offset")) {
            seat.kind = job::SeatKind::face_at_offset;
            seat.offset = size_of(reader_, node, Bare::general_tolerance, MayBe::unmeasured);
        }
        if (const Node* node = fields.find("play"))
            seat.play = size_at_least(reader_, node, Bare::exact,
                                      fmt::format("the play of part {}", quoted(part_.name)),
                                      Least::zero_allowed, MayBe::unmeasured);
        if (const Node* node = fields.find("pushed")) pushed(*node, seat);
        if (const Node* node = fields.find("shims")) shims(*node, seat);
        if (const Node* node = fields.find("key"))
            reader_.error(*node, "'key' belongs to a seat on a cone, not on a face",
                          "take it away");
    }

    void pushed(const Node& node, job::Seat& seat) {
        const auto way = choice_of(
            reader_, &node, fmt::format("'pushed' of the seat of part {}", quoted(part_.name)),
            {"in", "out"});
        if (!seat.play || !seat.offset) {
            reader_.error(node,
                          fmt::format("'pushed' says where part {} lay in its play when its offset "
                                      "was measured, and the seat has no '{}'",
                                      quoted(part_.name), seat.offset ? "play" : "offset"),
                          seat.offset ? "add 'play: LEAST..GREATEST', or take 'pushed' away"
                                      : "take 'pushed' away: a part on a face floats outboard from "
                                        "the contact");
            return;
        }
        if (way) seat.pushed = *way == 0 ? job::Pushed::in : job::Pushed::out;
    }

    void key(const Node& node, job::Seat& seat) {
        const Fields fields(reader_, node, fmt::format("the key of part {}", quoted(part_.name)),
                            {"height", "room", "floors"});
        job::Key key;
        key.at = reader_.place(node);
        key.height =
            size_at_least(reader_, fields.need("height", "height: SIZE"), Bare::general_tolerance,
                          "the height of the key", Least::above_zero);
        key.room =
            size_at_least(reader_, fields.need("room", "room: SIZE"), Bare::general_tolerance,
                          "the room for the key", Least::above_zero);
        const Node* const floors = fields.need("floors", "floors: cone");
        key.floors_follow_cone =
            choice_of(reader_, floors, "what the slot floors follow", {"cone", "axis"})
                .value_or(0) == 0;
        seat.key = key;
    }

    void shims(const Node& node, job::Seat& seat) {
        const Fields fields(reader_, node, fmt::format("the shims of part {}", quoted(part_.name)),
                            {"stock", "at_most", "holds", "fitted", "round"});
        job::Shims shims;
        shims.at = reader_.place(node);
        shims.holds =
            half_width_of(reader_, fields.find("holds"), "'holds' of the shims").value_or(0.0);
        if (fields.ok() && !fields.written("stock") && !fields.written("fitted"))
            reader_.error(node, fmt::format("{} have neither 'stock' nor 'fitted'", fields.what()),
                          "add 'stock: [SIZE, SIZE]' or 'fitted: [SIZE]'");
        for (const Node& item :
             items_of(reader_, fields.find("stock"), "'stock'", "'[0.2, 0.3, 0.5]'"))
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
        shims.at_most_said = at_most.has_value();
        if (!shims.stock.empty()) shims.at_most = at_most.value_or(kUsualMostShims);
        if (const Node* round = fields.find("round")) rounding(*round, shims);
        seat.shims = shims;
    }

    void rounding(const Node& node, job::Shims& shims) {
        const Fields fields(reader_, node,
                            fmt::format("'round' of the shims of part {}", quoted(part_.name)),
                            {"way", "step"});
        if (!fields.ok()) return;
        const auto way = choice_of(reader_, fields.need("way", "way: down"), "the way of rounding",
                                   {"down", "up", "nearest", "last_digit"});
        const auto step =
            length_of(reader_, fields.need("step", "step: SIZE"), "'step'", Least::above_zero);
        if (shims.stock.empty())
            return reader_.error(node,
                                 fmt::format("{} has no stock to be rounded to", fields.what()),
                                 "add 'stock: [SIZE, SIZE]'");
        if (!way || !step) return;
        shims.round = job::Rounding{
            .way = static_cast<job::RoundingWay>(*way), .step = *step, .at = reader_.place(node)};
    }

    job::ShimStock stocked(const Node& item, double holds) {
        job::ShimStock stock;
        const bool counted =
            item.is_map() && std::ranges::any_of(item.children, [](const Node& child) {
                return child.scalar == "thickness" || child.scalar == "pieces";
            });
        if (!counted) {
            stock.thickness = shim_of(reader_, &item, holds);
            return stock;
        }
        const Fields fields(reader_, item, "this shim", {"thickness", "pieces"});
        stock.thickness = shim_of(reader_, fields.need("thickness", "thickness: SIZE"), holds);
        stock.pieces = count_of(reader_, fields.find("pieces"), "'pieces'", 0);
        return stock;
    }

    Reader& reader_;
    job::PartId index_;
    job::Part& part_;
    std::string who_;
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

void read_seats(Reader& reader, job::PartId part, const Node& sits) {
    SeatReader seats(reader, part);
    if (!sits.is_list()) return seats.read(sits);
    if (!expect_list(reader, sits, "'sits'", "'{face: FACE, against: part.face}'")) return;
    // An empty list has its complaint; the part is not the one that all else stands on.
    if (sits.children.empty()) reader.job.parts[part.at()].seats.emplace_back();
    for (const Node& seat : sits.children)
        seats.read(seat);
}

}  // namespace trialfit::reading
