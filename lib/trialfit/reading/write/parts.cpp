// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <trialfit/reading/write/writer.hpp>
#include <trialfit/trade/cone/taper.hpp>

namespace trialfit::reading {

namespace {

class PartWriter {
public:
    PartWriter(Writer& writer, const job::Part& part) : writer_(writer), part_(part) {}

    void write() {
        writer_.out << YAML::BeginMap;
        writer_.text("part", part_.name);
        if (part_.turns) writer_.plain("turns", "true");
        writer_.text("material", part_.material);
        seats();
        faces();
        rings();
        cones();
        threads();
        centred();
        runouts();
        changes();
        writer_.end_map();
    }

private:
    [[nodiscard]] std::string of(std::string_view what) const {
        return fmt::format("{} of part '{}'", what, part_.name);
    }
    void own_face(std::string_view key, job::FaceId face) {
        writer_.plain(key, Writer::face(part_, face));
    }

    // --- faces

    void faces() {
        writer_.map("faces");
        for (const job::Face& face : part_.faces) {
            writer_.out << YAML::Key << face.name << YAML::Value;
            const std::size_t sizes = face.dimensions.size() + (face.zero ? 1 : 0);
            if (sizes > 1) writer_.out << YAML::BeginSeq;
            if (face.zero) writer_.out << "zero";
            for (const job::Dimension& dimension : face.dimensions)
                distance(face, dimension);
            if (sizes > 1) writer_.out << YAML::EndSeq;
        }
        writer_.end_map();
    }

    void distance(const job::Face& face, const job::Dimension& dimension) {
        const std::string& from = Writer::face(part_, dimension.from);
        const std::string line = writer_.words.line(dimension.distance, Bare::general_tolerance);
        // A name with such words in it would be read as more than a name.
        const bool one_line = !line.empty() && from.find(" from ") == std::string::npos &&
                              from.find(" by ") == std::string::npos;
        if (one_line) {
            writer_.out << fmt::format("{} from {}", line, from);
            return;
        }
        writer_.short_map();
        if (!line.empty())
            writer_.plain("size", line);
        else
            pairs(face, dimension);
        writer_.plain("from", from);
        writer_.end_map();
    }

    void pairs(const job::Face& face, const job::Dimension& dimension) {
        const SizeWords::Pairs pairs = writer_.words.long_form(dimension.distance);
        if (pairs.empty()) no_words(face);
        writer_.pairs(pairs);
    }

    void no_words(const job::Face& face) {
        writer_.refuse_gauge(of(fmt::format("face '{}'", face.name)));
    }

    // --- features

    void ring_end(const job::Ring& ring) {
        own_face("from", ring.inboard.face);
        if (ring.inboard.face != ring.outboard.face) {
            own_face("to", ring.outboard.face);
        } else if (ring.inboard.beyond != 0.0) {
            writer_.number("below", -ring.inboard.beyond);
        } else {
            writer_.number("above", ring.outboard.beyond);
        }
        const bool beyond_a_face = ring.inboard.beyond != 0.0 || ring.outboard.beyond != 0.0;
        const bool both = ring.inboard.beyond != 0.0 && ring.outboard.beyond != 0.0;
        if (both || (beyond_a_face && ring.inboard.face != ring.outboard.face))
            writer_.refuse(fmt::format("{} has an end beyond a face and another face at its other "
                                       "end",
                                       of(fmt::format("ring '{}'", ring.name))),
                           "give the place of that end a face of its own");
    }

    void rings() {
        if (part_.rings.empty()) return;
        writer_.map("rings");
        for (const job::Ring& ring : part_.rings) {
            writer_.short_map(ring.name);
            ring_end(ring);
            diameter("bore", ring.bore, ring.bore_bare, ring);
            diameter("od", ring.outside, ring.outside_bare, ring);
            writer_.end_map();
        }
        writer_.end_map();
    }
    // A number that only describes is written bare, one that stacks says that it is exact.
    void diameter(std::string_view key, const job::Given& given, bool bare, const job::Ring& ring) {
        const bool stacks = !bare && given.size.spread.shape == quantity::Shape::exact;
        if (stacks && !given.written.ends_with("exact"))
            return writer_.plain(key, figures(given.size.nominal) + " exact");
        writer_.size(key, given, Bare::exact, of(fmt::format("{} of ring '{}'", key, ring.name)));
    }

    void cones() {
        if (part_.cones.empty()) return;
        writer_.map("cones");
        for (const job::Cone& cone : part_.cones) {
            const std::string what = of(fmt::format("cone '{}'", cone.name));
            writer_.short_map(cone.name);
            own_face("at", cone.at_face);
            writer_.size("dia", cone.dia, Bare::general_tolerance, what);
            const auto written = trade::taper(cone.taper_written);
            const bool says = written && *written == cone.taper;
            const std::string words = says ? cone.taper_written : figures(cone.taper);
            // An older YAML reader takes 1:5 for minutes and seconds.
            if (words.find(':') != std::string::npos)
                writer_.text("taper", words);
            else
                writer_.plain("taper", words);
            writer_.size("length", cone.length, Bare::exact, "the length of " + what);
            writer_.end_map();
        }
        writer_.end_map();
    }

    void threads() {
        if (part_.threads.empty()) return;
        writer_.map("threads");
        for (const job::Thread& thread : part_.threads) {
            const std::string what = of(fmt::format("thread '{}'", thread.name));
            writer_.short_map(thread.name);
            writer_.plain("form", thread.form.written);
            own_face("from", thread.from);
            own_face("to", thread.to);
            const auto incomplete = [&](std::string_view key, const job::Given& given) {
                if (given.size != quantity::exact(0.0))
                    writer_.size(key, given, Bare::exact, fmt::format("{} of {}", key, what));
            };
            incomplete("lead_in", thread.lead_in);
            incomplete("run_out", thread.run_out);
            writer_.text("class", thread.property_class);
            writer_.end_map();
        }
        writer_.end_map();
    }

    // --- seats

    void seats() {
        if (part_.seats.empty()) return;
        if (part_.seats.size() == 1) {
            writer_.short_map("sits");
            return seat(part_.seats.front());
        }
        writer_.list("sits");
        for (const job::Seat& each : part_.seats) {
            writer_.short_map();
            seat(each);
        }
        writer_.end_list();
    }

    // Of a map that is begun already.
    void seat(const job::Seat& seat) {
        if (seat.kind == job::SeatKind::cone_on_cone) {
            writer_.plain("cone", part_.cones[seat.own_cone.at()].name);
            writer_.plain("against", job::cone_name(writer_.job, seat.on_cone));
            if (seat.key) key(*seat.key);
            return writer_.end_map();
        }
        own_face("face", seat.own);
        writer_.plain("against", job::name(writer_.job, seat.against));
        if (seat.offset)
            writer_.size("offset", *seat.offset, Bare::general_tolerance, of("the offset"));
        if (seat.play) writer_.size("play", *seat.play, Bare::exact, of("the play"));
        writer_.pushed(seat.pushed);
        if (seat.shims) shims(*seat.shims);
        writer_.end_map();
    }

    void key(const job::Key& key) {
        writer_.short_map("key");
        writer_.size("height", key.height, Bare::general_tolerance, of("the height of the key"));
        writer_.size("room", key.room, Bare::general_tolerance, of("the room for the key"));
        writer_.plain("floors", key.floors_follow_cone ? "cone" : "axis");
        writer_.end_map();
    }

    void shims(const job::Shims& shims) {
        const auto shim = [&](const job::Given& given) {
            writer_.size(given, Bare::exact, of("a shim"), shims.holds);
        };
        writer_.short_map("shims");
        if (!shims.stock.empty()) {
            writer_.short_list("stock");
            for (const job::ShimStock& stock : shims.stock) {
                if (!stock.pieces) {
                    shim(stock.thickness);
                    continue;
                }
                writer_.short_map();
                writer_.out << YAML::Key << "thickness" << YAML::Value;
                shim(stock.thickness);
                writer_.number("pieces", *stock.pieces);
                writer_.end_map();
            }
            writer_.end_list();
        }
        if (!shims.stock.empty() && shims.at_most_said) writer_.number("at_most", shims.at_most);
        if (shims.holds > 0.0) writer_.number("holds", shims.holds);
        if (!shims.fitted.empty() || shims.stock.empty()) {
            writer_.short_list("fitted");
            for (const job::Given& given : shims.fitted)
                shim(given);
            writer_.end_list();
        }
        if (shims.round) {
            constexpr std::array<std::string_view, 4> kWays{"down", "up", "nearest", "last_digit"};
            writer_.short_map("round");
            writer_.plain("way", kWays.at(static_cast<std::size_t>(shims.round->way)));
            writer_.number("step", shims.round->step);
            writer_.end_map();
        }
        writer_.end_map();
    }

    // --- how true it runs

    void centred() {
        if (!part_.centred) return;
        constexpr std::array<std::string_view, 4> kBy{"register", "cone", "bearing", "bolts"};
        const job::Centring& centring = *part_.centred;
        writer_.short_map("centred");
        writer_.plain("by", kBy.at(static_cast<std::size_t>(centring.by)));
        writer_.plain("against", centring.on_written.empty() ? writer_.part(centring.on).name
                                                             : centring.on_written);
        if (centring.by != job::CentredBy::cone)
            writer_.size(centring.by == job::CentredBy::bearing ? "play" : "clearance",
                         centring.clearance, Bare::exact, of("the clearance"));
        if (centring.centre_to) {
            writer_.number("centre_to", *centring.centre_to);
            writer_.unusual("centre_cost", centring.centre_cost, job::Centring{}.centre_cost);
        }
        writer_.end_map();
    }

    void runout(const job::Runout& runout) {
        writer_.short_map();
        writer_.size("is", runout.is, Bare::exact, of("the runout"));
        if (runout.face) own_face("at", *runout.face);
        writer_.end_map();
    }

    void runouts() {
        if (part_.runout.size() == 1) {
            writer_.out << YAML::Key << "runout" << YAML::Value;
            runout(part_.runout.front());
        } else if (part_.runout.size() > 1) {
            writer_.list("runout");
            for (const job::Runout& each : part_.runout)
                runout(each);
            writer_.end_list();
        }
        if (!part_.face_runout) return;
        writer_.short_map("face_runout");
        writer_.size("is", part_.face_runout->is, Bare::exact, of("the face runout"));
        writer_.number("dia", part_.face_runout->dia);
        writer_.end_map();
    }

    // --- what may be done to it

    template <typename Work>
    void turned(const Work& work) {
        writer_.number("holds", work.holds);
        writer_.unusual("cost", work.cost, Work{}.cost);
        writer_.unusual("per_mm", work.cost_per_mm, Work{}.cost_per_mm);
        writer_.text("note", work.note);
        writer_.gauge("read_by", work.read_by);
    }

    void changes() {
        writer_.list_of("cuts", part_.cuts, [&](const job::Cut& cut) {
            own_face("face", cut.face);
            own_face("measure", cut.measure);
            writer_.number("keep", cut.keep);
            turned(cut);
        });
        writer_.list_of("laps", part_.laps, [&](const job::Lap& lap) {
            writer_.plain("cone", part_.cones[lap.cone.at()].name);
            writer_.plain("at_most", figures(lap.at_most_on_diameter) + " on diameter");
            writer_.unusual("cost", lap.cost, job::Lap{}.cost);
            writer_.text("note", lap.note);
        });
        writer_.list_of("skims", part_.skims, [&](const job::Skim& skim) {
            writer_.plain("ring", part_.rings[skim.ring.at()].name);
            writer_.plain("turn", skim.bore ? "bore" : "od");
            if (skim.keep > 0.0) writer_.number("keep", skim.keep);
            writer_.number("until", skim.until);
            turned(skim);
        });
    }

    Writer& writer_;
    const job::Part& part_;
};

}  // namespace

void write_parts(Writer& writer) {
    writer.list("parts");
    const std::vector<job::Part>& parts = writer.job.parts;
    for (std::size_t i = 0; i <= parts.size(); ++i) {
        if (writer.job.kit_here == i) {
            writer.short_map();
            writer.plain("kit", "here");
            writer.end_map();
        }
        if (i < parts.size()) PartWriter(writer, parts[i]).write();
    }
    writer.end_list();
}

}  // namespace trialfit::reading
