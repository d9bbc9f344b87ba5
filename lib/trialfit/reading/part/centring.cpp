// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

// How true a part runs: what centres it, its runout, its face runout.
namespace trialfit::reading {

namespace {

class CentringReader {
public:
    CentringReader(Reader& reader, job::PartId index)
        : reader_(reader),
          index_(index),
          part_(reader.job.parts[index.at()]),
          who_(fmt::format("part {}", quoted(part_.name))) {}

    void centred(const Node& node) {
        const Fields fields(reader_, node, fmt::format("'centred' of {}", who_),
                            {"by", "against", "clearance", "play", "centre_to", "centre_cost"},
                            "against");
        if (!fields.ok()) return;
        job::Centring centring;
        centring.at = reader_.place(node);
        const auto by = choice_of(reader_, fields.need("by", "by: register"),
                                  fmt::format("what centres {}", who_),
                                  {"register", "cone", "bearing", "bolts"});
        const Node* const on = fields.need("against", "against: case.spigot");
        if (!by) return;
        centring.by = static_cast<job::CentredBy>(*by);
        centring.on = on_part(centring.by, on);
        if (on != nullptr && on->is_scalar()) centring.on_written = on->scalar;
        clearance(fields, centring);
        by_hand(fields, centring);
        if (centring.on >= 0) part_.centred = std::move(centring);
    }

    void runout(const Node& node) {
        if (!node.is_list()) return one_runout(node);
        if (node.children.size() != 2)
            return reader_.error(
                node, fmt::format("the runout of {} is a list of {}", who_, node.children.size()),
                "give one, or two at different heights: offset and tilt then part");
        for (const Node& each : node.children)
            one_runout(each);
        const auto& all = part_.runout;
        if (all.size() != 2) return;
        const auto nowhere = [](const job::Runout& each) { return each.face < 0; };
        if (std::ranges::any_of(all, nowhere))
            reader_.error(
                node,
                fmt::format("the two runouts of {} do not both say where they were read", who_),
                "name a face of the part with 'at' in each of the two");
        else if (all[0].face == all[1].face)
            reader_.error(node, fmt::format("the two runouts of {} are at one height", who_),
                          "name another face of the part with 'at'");
    }

    void face_runout(const Node& node) {
        const Fields fields(reader_, node, fmt::format("'face_runout' of {}", who_), {"is", "dia"});
        if (!fields.ok()) return;
        job::FaceRunout out;
        out.at = reader_.place(node);
        out.is = size_at_least(reader_, fields.need("is", "is: SIZE by GAUGE"), Bare::exact,
                               fmt::format("the face runout of {}", who_), Least::zero_allowed);
        const auto dia = length_of(reader_, fields.need("dia", "dia: SIZE"),
                                   fmt::format("the diameter of the face runout of {}", who_),
                                   Least::above_zero);
        if (!dia) return;
        out.dia = *dia;
        part_.face_runout = std::move(out);
    }

private:
    job::PartId on_part(job::CentredBy by, const Node* on) {
        const std::string who = fmt::format("{} is centred on", who_);
        job::PartId found;
        if (by == job::CentredBy::reg)
            found = feature_ref<job::Ring>(reader_, on, who).part;
        else if (by == job::CentredBy::cone)
            found = feature_ref<job::Cone>(reader_, on, who).part;
        else
            found = part_ref(reader_, on, who);
        if (found == index_)
            reader_.error(*on, fmt::format("{} is centred on itself", who_), "name another part");
        return found == index_ ? job::PartId{} : found;
    }

    // A bearing has play, a register and bolt holes have clearance, a cone has neither.
    void clearance(const Fields& fields, job::Centring& centring) {
        centring.clearance.size = quantity::exact(0.0);
        const bool bearing = centring.by == job::CentredBy::bearing;
        const std::string_view key = bearing ? "play" : "clearance";
        const std::string_view other = bearing ? "clearance" : "play";
        const bool cone = centring.by == job::CentredBy::cone;
        for (const std::string_view wrong : {other, cone ? key : other}) {
            if (!fields.written(wrong)) continue;
            return reader_.error(fields.node(), fmt::format("{} has '{}'", fields.what(), wrong),
                                 cone ? "a cone has neither clearance nor play: take it away"
                                      : fmt::format("write '{}', on diameter", key));
        }
        if (cone) return;
        centring.clearance = size_at_least(
            reader_, fields.need(key, fmt::format("{}: 0.00..0.06", key)), Bare::exact,
            fmt::format("the {} of {}", key, fields.what()), Least::zero_allowed);
    }

    // What may be shifted within its clearance until it runs true.
    void by_hand(const Fields& fields, job::Centring& centring) {
        const Node* const to = fields.find("centre_to");
        const Node* const cost = fields.find("centre_cost");
        if (to == nullptr) {
            if (cost == nullptr) return;
            return reader_.error(*cost, fmt::format("{} has 'centre_cost' alone", fields.what()),
                                 "add 'centre_to: SIZE', what is left of the clearance then");
        }
        const bool fixed =
            centring.by == job::CentredBy::cone || centring.by == job::CentredBy::bearing;
        if (fixed)
            return reader_.error(*to, fmt::format("{} cannot be shifted by hand", who_),
                                 "'centre_to' goes with a register or with bolts");
        centring.centre_to = length_of(reader_, to, "'centre_to'", Least::zero_allowed);
        centring.centre_cost =
            number_in(reader_, cost, "'centre_cost'", {0.0, 1e6, "it cannot be less than 0"})
                .value_or(centring.centre_cost);
        // Just as much: it was centred since.
        // A refused clearance is no number and has its complaint already.
        if (!centring.centre_to || !(*centring.centre_to > centring.clearance.size.upper)) return;
        reader_.error(*to,
                      fmt::format("{} is to be centred to {:.6g}, and its clearance is {:.6g} as "
                                  "it is",
                                  who_, *centring.centre_to, centring.clearance.size.upper),
                      "'centre_to' is what is left of the clearance, on diameter");
        centring.centre_to.reset();
    }

    void one_runout(const Node& node) {
        job::Runout out;
        out.at = reader_.place(node);
        const std::string what = fmt::format("the runout of {}", who_);
        const Node* is = &node;
        // A map with 'at' or 'is' says where it was read; any other is a size in its long form.
        const auto sized = [](const Entry& entry) {
            return entry.key.scalar == "size" || entry.key.scalar == "upper";
        };
        const auto all = entries(node);
        if (node.is_map() && std::ranges::none_of(all, sized)) {
            const Fields fields(reader_, node, fmt::format("'runout' of {}", who_), {"is", "at"});
            if (!fields.ok()) return;
            is = fields.need("is", "is: SIZE by GAUGE");
            const job::FaceId face = own_feature<job::Face>(
                reader_, index_, fields.find("at"), fmt::format("the runout of {} is at", who_));
            if (face >= 0) out.face = face;
        }
        out.is = size_at_least(reader_, is, Bare::exact, what, Least::zero_allowed);
        part_.runout.push_back(std::move(out));
    }

    Reader& reader_;
    job::PartId index_;
    job::Part& part_;
    std::string who_;
};

}  // namespace

void read_centring(Reader& reader, job::PartId part, const Fields& fields) {
    CentringReader read(reader, part);
    if (const Node* node = fields.find("centred")) read.centred(*node);
    if (const Node* node = fields.find("runout")) read.runout(*node);
    if (const Node* node = fields.find("face_runout")) read.face_runout(*node);
}

}  // namespace trialfit::reading
