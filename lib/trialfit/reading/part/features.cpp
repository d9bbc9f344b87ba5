// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <trialfit/reading/names/references.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/values.hpp>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <trialfit/trade/thread/thread.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

job::Given nothing() {
    return {.size = quantity::exact(0.0), .written = {}, .at = {}};
}

// A reason of the trade room is one sentence: fault; mend.
void complain(Reader& reader, const Node& node, const std::string& reason) {
    const std::size_t semicolon = reason.find("; ");
    const bool parted = semicolon != std::string::npos;
    reader.error(node, reason.substr(0, semicolon), parted ? reason.substr(semicolon + 2) : "");
}

class FeatureReader {
public:
    FeatureReader(Reader& reader, job::PartId index)
        : reader_(reader), index_(index), part_(reader.job.parts[index.at()]) {}

    void ring(const Entry& entry) {
        const Fields fields(reader_, entry.value, what("ring", entry.key.scalar),
                            {"from", "to", "below", "above", "bore", "od"});
        job::Ring ring;
        ring.name = entry.key.scalar;
        ring.at = reader_.place(entry.key);
        ends(fields, ring);
        ring.bore = size_at_least(reader_, fields.need("bore", "bore: SIZE"), Bare::exact,
                                  fmt::format("the bore of {}", fields.what()), Least::zero_allowed,
                                  MayBe::unmeasured);
        ring.outside = size_at_least(reader_, fields.need("od", "od: SIZE"), Bare::exact,
                                     fmt::format("the outside diameter of {}", fields.what()),
                                     Least::above_zero, MayBe::unmeasured);
        const auto bare = [](const Node* node, const job::Given& given) {
            return node != nullptr && node->is_scalar() && given.size.lower == given.size.upper &&
                   !given.gauge && !given.written.ends_with("exact");
        };
        ring.bore_bare = bare(fields.find("bore"), ring.bore);
        ring.outside_bare = bare(fields.find("od"), ring.outside);
        bore_within_outside(fields, ring);
        part_.rings.push_back(std::move(ring));
    }

    void cone(const Node& key, const Node& node) {
        const std::string& name = key.scalar;
        const Fields fields(reader_, node, what("cone", name), {"at", "dia", "taper", "length"});
        job::Cone cone;
        cone.name = name;
        cone.at = reader_.place(key);
        cone.at_face = face(fields, "at", "at: FACE", "is at");
        cone.dia = size_at_least(reader_, fields.need("dia", "dia: SIZE"), Bare::general_tolerance,
                                 fmt::format("the diameter of {}", fields.what()),
                                 Least::above_zero, MayBe::unmeasured);
        cone.length =
            size_at_least(reader_, fields.need("length", "length: SIZE"), Bare::exact,
                          fmt::format("the length of {}", fields.what()), Least::above_zero);
        taper(fields, cone);
        part_.cones.push_back(std::move(cone));
    }

    void thread(const Node& key, const Node& node) {
        const Fields fields(reader_, node, what("thread", key.scalar),
                            {"form", "from", "to", "lead_in", "run_out", "class"});
        job::Thread thread;
        thread.name = key.scalar;
        thread.at = reader_.place(key);
        form(fields, thread);
        thread.from = face(fields, "from", "from: FACE", "begins at");
        thread.to = face(fields, "to", "to: FACE", "goes on to");
        if (thread.from >= 0 && thread.from == thread.to)
            reader_.error(*fields.find("to"),
                          fmt::format("{} begins and ends at the same face", fields.what()),
                          "name the two faces that it runs between");
        thread.lead_in = incomplete(fields, "lead_in");
        thread.run_out = incomplete(fields, "run_out");
        property_class(fields, thread);
        part_.threads.push_back(std::move(thread));
    }

private:
    [[nodiscard]] std::string what(std::string_view kind, const std::string& name) const {
        if (name == kind) return fmt::format("the {} of part {}", kind, quoted(part_.name));
        return fmt::format("{} {} of part {}", kind, quoted(name), quoted(part_.name));
    }

    job::FaceId face(const Fields& fields, std::string_view key, std::string_view example,
                     std::string_view verb) {
        const Node* const node = fields.need(key, example);
        return own_feature<job::Face>(reader_, index_, node,
                                      fmt::format("{} {}", fields.what(), verb));
    }

    void ends(const Fields& fields, job::Ring& ring) {
        const bool below = fields.written("below");
        const bool above = fields.written("above");
        ring.inboard.face = ring.outboard.face = face(fields, "from", "from: FACE", "begins at");
        if (below || above) {
            if ((below && above) || fields.written("to"))
                reader_.error(
                    fields.node(),
                    fmt::format("{} has more than one of 'to', 'below' and 'above'", fields.what()),
                    "keep one of them");
            const std::string_view key = below ? "below" : "above";
            const auto length =
                length_of(reader_, fields.find(key), fmt::format("'{}' of {}", key, fields.what()),
                          Least::above_zero);
            if (below) ring.inboard.beyond = -length.value_or(1.0);
            if (above && !below) ring.outboard.beyond = length.value_or(1.0);
            return;
        }
        if (!fields.written("to") && fields.ok()) {
            reader_.error(fields.node(), fmt::format("{} has no second end", fields.what()),
                          "add 'to: FACE', 'below: SIZE' or 'above: SIZE'");
            ring.outboard.face = -1;
            return;
        }
        ring.outboard.face = own_feature<job::Face>(reader_, index_, fields.find("to"),
                                                    fmt::format("{} goes on to", fields.what()));
    }

    void bore_within_outside(const Fields& fields, const job::Ring& ring) {
        if (!ring.measured()) return;
        const bool nominal = ring.bore.size.nominal >= ring.outside.size.nominal;
        const bool limits = ring.bore.size.upper >= ring.outside.size.lower;
        if (!nominal && !limits) return;
        reader_.error(*fields.find("bore"),
                      fmt::format("the bore of {} is {} and its outside diameter {}", fields.what(),
                                  quoted(ring.bore.written), quoted(ring.outside.written)),
                      nominal ? "the bore must be the smaller; were they swapped?"
                              : "the bore must be the smaller at every limit");
    }

    void taper(const Fields& fields, job::Cone& cone) {
        cone.taper = std::numeric_limits<double>::quiet_NaN();
        const Node* const node = fields.need("taper", "taper: 1 in N");
        if (node == nullptr) return;
        if (!node->is_scalar())
            return reader_.error(*node,
                                 fmt::format("the taper of {} is not one value", fields.what()),
                                 "write it like '1 in 5'");
        const auto found = trade::taper(node->scalar);
        if (!found) return complain(reader_, *node, found.reason());
        // From a taper that nobody would call one to a cone of 157 degrees.
        constexpr double kFlattest = 1e-3;
        constexpr double kSteepest = 10.0;
        if (!(std::abs(*found) >= kFlattest && std::abs(*found) <= kSteepest))
            return reader_.error(
                *node, fmt::format("the taper of {} is {}", fields.what(), quoted(node->scalar)),
                "a taper lies between 1 in 1000 and 10 in 1, as in '1 in 5'");
        cone.taper = *found;
        cone.taper_written = trimmed(node->scalar);
    }

    void form(const Fields& fields, job::Thread& thread) {
        const Node* const node = fields.need("form", "form: THREAD");
        if (node == nullptr) return;
        if (!node->is_scalar())
            return reader_.error(*node,
                                 fmt::format("the form of {} is not one value", fields.what()),
                                 "write it like 'M10x1.25-6g'");
        const auto found = trade::thread(node->scalar);
        if (!found) return complain(reader_, *node, found.reason());
        thread.form = *found;
    }

    // Whether the thread is a bolt's or a nut's may not be known here: either class will do.
    void property_class(const Fields& fields, job::Thread& thread) {
        const Node* const node = fields.find("class");
        thread.property_class = text_of(reader_, node, fmt::format("'class' of {}", fields.what()));
        if (thread.property_class.empty()) return;
        thread.property_class_at = reader_.place(*node);
        if (thread.form.d_mm <= 0.0) return;  // its form has its complaint already
        if (trade::nut_proof_stress_MPa(thread.form, thread.property_class)) return;
        const auto bolt = trade::bolt_strength(thread.property_class, thread.form.d_mm);
        if (!bolt) complain(reader_, *node, bolt.reason());
    }

    job::Given incomplete(const Fields& fields, std::string_view key) {
        const Node* const node = fields.find(key);
        if (node == nullptr) return nothing();
        return size_at_least(reader_, node, Bare::exact,
                             fmt::format("'{}' of {}", key, fields.what()), Least::zero_allowed);
    }

    Reader& reader_;
    job::PartId index_;
    job::Part& part_;
};

}  // namespace

void read_features(Reader& reader, job::PartId part, const Fields& fields) {
    FeatureReader features(reader, part);
    const std::string of = fmt::format("of {}", fields.what());
    // In the order in which the first pass has numbered the names.
    for (const Entry& entry : entries(fields.node())) {
        const std::string& key = entry.key.scalar;
        if (entry.value.is_empty()) continue;
        if (key == "cone") features.cone(entry.key, entry.value);
        if (key == "thread") features.thread(entry.key, entry.value);
        const bool named = key == "rings" || key == "cones" || key == "threads";
        if (!named) continue;
        const std::string_view example =
            key == "rings"   ? "'rings: {disc: {from: back, to: front, bore: 40, od: 100}}'"
            : key == "cones" ? "'cones: {bore: {at: FACE, dia: 16 \u00b10.01, taper: 1 in "
                               "5, length: 16}}'"
                             : "'threads: {end: {form: M10x1.25-6g, from: FACE, to: "
                               "FACE}}'";
        if (!expect_names(reader, entry.value, fmt::format("'{}' {}", key, of), example)) continue;
        for (const Entry& each : entries(entry.value)) {
            if (key == "rings") features.ring(each);
            if (key == "cones") features.cone(each.key, each.value);
            if (key == "threads") features.thread(each.key, each.value);
        }
    }
}

}  // namespace trialfit::reading
