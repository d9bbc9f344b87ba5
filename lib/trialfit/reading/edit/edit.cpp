// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/job/former.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/reading/edit/splice.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

struct EditStop {
    job::Complaint complaint;
};

[[noreturn]] void stop(job::Place place, std::string fault, std::string mend) {
    throw EditStop{{.at = place, .fault = std::move(fault), .mend = std::move(mend)}};
}

const Node* key_of(const Node& map, std::string_view key) {
    const Node* const value = value_of(map, key);
    return value == nullptr ? nullptr : value - 1;
}

// The size on the other side of the face that it is measured from, in the words of the format.
std::string turned_round(const std::string& size, const job::Job& job) {
    constexpr std::string_view kDigits = "0123456789.";
    const std::size_t end = size.find_first_not_of(kDigits);
    const bool one_number = !size.empty() && end != 0 && size.find("..") == std::string::npos;
    const std::string_view rest =
        one_number && end != std::string::npos ? std::string_view(size).substr(end) : "";
    // Alike on both sides of the number: only the number's own sign is turned.
    const bool symmetric = rest.empty() || rest.starts_with(" \u00b1") ||
                           rest.starts_with(" +/-") || rest.starts_with(" by ") || rest == " exact";
    if (one_number && symmetric) return "-" + size;
    const SizeOutcome read = read_size(size, job);
    if (!read.size) return "-" + size;
    return fmt::format("{}..{}", -read.size->upper, -read.size->lower);
}

// Makes one change of one text.
class Editor {
public:
    explicit Editor(std::string_view text, const job::Job& job) : job_(job), splice_(text) {}

    void operator()(const FinishSize& change) {
        const job::FaceRef face = face_named(change.face);
        const job::Cut* const cut = job::cut_of(job_, face);
        if (cut == nullptr)
            stop(face_at(face).at, fmt::format("{} has no entry under 'cuts'", quoted(change.face)),
                 "add one to its part: it says where the finish size is measured from");
        refuse_recorded(face);
        const job::Part& part = job_.parts[at(face.part)];
        const std::string size =
            job::outboard_sign(part, *cut) < 0.0 ? turned_round(change.size, job_) : change.size;
        const std::string value = yaml_words(size + " from " + part.faces[at(cut->measure)].name);
        const std::string& name = part.faces[at(face.face)].name;
        const Node& faces = *value_of(part_node(face.part), "faces");
        const Node& key = *key_of(faces, name);
        if (!job::measured_by_others(job_, face)) {
            splice_.replace(*value_of(faces, name), value, &key);
            return;
        }
        const std::string former = job::former_name(part, face.face);
        splice_.insert(faces, key, {.key = name, .value = value});
        end_rings_at_former(face, former, faces, key);
        splice_.replace(key, former);
        measure_from_former(face, former, faces);
    }

    void operator()(const FittedShims& change) {
        const job::PartId part = part_named(change.part);
        refuse_recorded(part);
        const Node& seat = seat_with_shims(part, change.seat);
        const Node& shims = *value_of(seat, "shims");
        std::string list;
        for (const std::string& each : change.shims)
            list += (list.empty() ? "" : ", ") + yaml_words(each);
        list = "[" + list + "]";
        if (const Node* fitted = value_of(shims, "fitted")) {
            splice_.replace(*fitted, list, key_of(shims, "fitted"));
        } else {
            splice_.append(shims, {.key = "fitted", .value = list});
        }
    }

    void operator()(const ConeDiameter& change) {
        for (std::size_t p = 0; p < job_.parts.size(); ++p)
            for (const job::Cone& cone : job_.parts[p].cones) {
                if (job_.parts[p].name + "." + cone.name != change.cone) continue;
                const Node& node = cone_node(static_cast<int>(p), cone.name);
                splice_.replace(*value_of(node, "dia"), yaml_words(change.dia),
                                key_of(node, "dia"));
                return;
            }
        stop({}, fmt::format("{} is not a cone", quoted(change.cone)), "");
    }

    void operator()(const RingDiameter& change) {
        const auto ring = job::ring_named(job_, change.ring);
        if (!ring) stop({}, fmt::format("{} is not a ring", quoted(change.ring)), "");
        const std::string& name = job_.parts[at(ring->part)].rings[at(ring->index)].name;
        const Node& node = *value_of(*value_of(part_node(ring->part), "rings"), name);
        const char* const key = change.bore ? "bore" : "od";
        splice_.replace(*value_of(node, key), yaml_words(change.dia), key_of(node, key));
    }

    void operator()(const CentredBetter& change) {
        const Node* const centred = value_of(part_node(part_named(change.part)), "centred");
        const Node* const clearance =
            centred == nullptr ? nullptr : value_of(*centred, "clearance");
        if (clearance == nullptr)
            stop({}, fmt::format("part {} has no clearance", quoted(change.part)), "");
        splice_.replace(*clearance, yaml_words(change.clearance), key_of(*centred, "clearance"));
        // Better than was hoped for: that is then how near it comes.
        const Node* const to = value_of(*centred, "centre_to");
        const job::Part& part = job_.parts[at(part_named(change.part))];
        const SizeOutcome now = read_size(change.clearance, job_);
        if (to != nullptr && now.size && part.centred && part.centred->centre_to &&
            now.size->upper < *part.centred->centre_to)
            splice_.replace(*to, fmt::format("{}", now.size->upper), key_of(*centred, "centre_to"));
    }

    void operator()(const RecordedEntry& entry) {
        const std::vector<Pair> pairs = pairs_of(with_rings_apart(entry));
        const Node* const record = value_of(splice_.root(), "record");
        if (record == nullptr) {
            splice_.append_list(splice_.root(), "record", pairs);
        } else {
            splice_.append_item(*record, pairs);
        }
    }

    [[nodiscard]] std::optional<std::string> text() const { return splice_.text(); }

private:
    // What the record says of a face or a seat is what counts, whatever else the file is made to
    // say.
    void refuse_recorded(job::FaceRef face) const {
        for (const job::RecordEntry& entry : job_.record)
            for (const job::RecordEntry::AsCut& cut : entry.as_cut)
                if (cut.face == face)
                    stop(cut.size.at,
                         fmt::format("the record says how {} was cut",
                                     quoted(job::name(job_, face))),
                         "add an entry to the record, as 'trialfit record' does");
    }
    void refuse_recorded(job::PartId part) const {
        for (const job::RecordEntry& entry : job_.record)
            for (const job::RecordEntry::Fitted& fitted : entry.fitted)
                if (fitted.part == part)
                    stop(entry.at,
                         fmt::format("the record says which shims lie under part {}",
                                     quoted(job_.parts[at(part)].name)),
                         "add an entry to the record, as 'trialfit record' does");
    }

    [[nodiscard]] job::PartId part_named(const std::string& name) const {
        for (std::size_t p = 0; p < job_.parts.size(); ++p)
            if (job_.parts[p].name == name) return static_cast<int>(p);
        stop({}, fmt::format("{} is not a part", quoted(name)), "");
    }
    [[nodiscard]] job::FaceRef face_named(const std::string& name) const {
        if (const auto face = job::face_named(job_, name)) return *face;
        stop({}, fmt::format("{} is not a face", quoted(name)), "");
    }
    [[nodiscard]] const job::Face& face_at(job::FaceRef face) const {
        return job_.parts[at(face.part)].faces[at(face.face)];
    }
    // The place for a kit is an entry among the parts, and no part.
    [[nodiscard]] const Node& part_node(job::PartId part) const {
        const bool behind_kit = job_.kit_here && *job_.kit_here <= at(part);
        return value_of(splice_.root(), "parts")->children[at(part) + (behind_kit ? 1 : 0)];
    }
    // A part's seats, one or several.
    [[nodiscard]] std::vector<const Node*> seat_nodes(job::PartId part) const {
        const Node* const sits = value_of(part_node(part), "sits");
        if (sits == nullptr) return {};
        if (!sits->is_list()) return {sits};
        std::vector<const Node*> seats;
        seats.reserve(sits->children.size());
        for (const Node& seat : sits->children)
            seats.push_back(&seat);
        return seats;
    }
    [[nodiscard]] const Node& seat_with_shims(job::PartId part,
                                              std::optional<job::SeatId> seat) const {
        const std::vector<const Node*> seats = seat_nodes(part);
        for (int s = 0; s < static_cast<int>(seats.size()); ++s)
            if ((!seat || s == *seat) && value_of(*seats[at(s)], "shims") != nullptr)
                return *seats[at(s)];
        stop(job_.parts[at(part)].at,
             fmt::format("the seat of part {} has no 'shims'", quoted(job_.parts[at(part)].name)),
             "add them to its 'sits'");
    }
    [[nodiscard]] const Node& cone_node(job::PartId part, const std::string& name) const {
        const Node& node = part_node(part);
        const Node* const cones = value_of(node, "cones");
        const Node* const named = cones == nullptr ? nullptr : value_of(*cones, name);
        return named != nullptr ? *named : *value_of(node, "cone");
    }

    // A ring that reaches beyond the face ends where it ended: at a face of its own.
    void end_rings_at_former(job::FaceRef face, const std::string& former, const Node& faces,
                             const Node& before) {
        for (const job::Ring& ring : job_.parts[at(face.part)].rings) {
            for (const job::RingEnd& end : {ring.inboard, ring.outboard}) {
                if (end.face != face.face || end.beyond == 0.0) continue;
                const std::string name = former + "_" + ring.name;
                splice_.insert(
                    faces, before,
                    {.key = name, .value = fmt::format("{} exact from {}", end.beyond, former)});
                const Node& node = *value_of(*value_of(part_node(face.part), "rings"), ring.name);
                const std::string_view key = end.beyond < 0.0 ? "below" : "above";
                splice_.replace(*key_of(node, key), "to");
                const Node& inboard = *value_of(node, "from");
                splice_.replace(*value_of(node, key), end.beyond < 0.0 ? face_at(face).name : name);
                if (end.beyond < 0.0) splice_.replace(inboard, name);
            }
        }
    }

    // What was measured from the face is measured from the place where it was.
    void measure_from_former(job::FaceRef face, const std::string& former, const Node& faces) {
        const std::string& name = face_at(face).name;
        for (std::size_t i = 1; i < faces.children.size(); i += 2) {
            const Node& value = faces.children[i];
            if (!value.is_list()) {
                point_dimension(value, name, former);
                continue;
            }
            for (const Node& one : value.children)
                point_dimension(one, name, former);
        }
        for (const job::Cone& cone : job_.parts[at(face.part)].cones)
            if (cone.at_face == face.face)
                splice_.replace(*value_of(cone_node(face.part, cone.name), "at"), former);
        for (const job::PartId p : job::indices(job_.parts))
            point_stand_offs(p, face, former);
    }

    void point_dimension(const Node& value, const std::string& name, const std::string& former) {
        constexpr std::string_view kFrom = " from ";
        if (const Node* from = value_of(value, "from"); from != nullptr && from->scalar == name)
            splice_.replace(*from, former);
        const std::size_t from = value.scalar.rfind(kFrom);
        if (!value.is_scalar() || from == std::string::npos) return;
        std::string_view word = std::string_view(value.scalar).substr(from + kFrom.size());
        while (!word.empty() && word.front() == ' ')
            word.remove_prefix(1);
        while (!word.empty() && word.back() == ' ')
            word.remove_suffix(1);
        if (word != name) return;
        splice_.replace(value,
                        yaml_words(value.scalar.substr(0, from) + std::string(kFrom) + former));
    }

    void point_stand_offs(job::PartId p, job::FaceRef face, const std::string& former) {
        const std::vector<job::Seat>& seats = job_.parts[at(p)].seats;
        const std::vector<const Node*> nodes = seat_nodes(p);
        for (std::size_t s = 0; s < seats.size(); ++s) {
            if (seats[s].kind != job::SeatKind::face_at_offset) continue;
            if (job::FaceRef{p, seats[s].own} == face)
                splice_.replace(*value_of(*nodes[s], "face"), former);
            if (seats[s].against == face)
                splice_.replace(*value_of(*nodes[s], "against"),
                                job_.parts[at(face.part)].name + "." + former);
        }
    }

    // A size "as cut" that is named by a ring with a skim is its diameter.
    [[nodiscard]] RecordedEntry with_rings_apart(RecordedEntry entry) const {
        const auto is_skimmed = [&](const auto& named) {
            const auto ring = job::ring_named(job_, named.first);
            if (!ring || job::face_named(job_, named.first)) return false;
            const std::vector<job::Skim>& skims = job_.parts[at(ring->part)].skims;
            return std::ranges::any_of(
                skims, [&](const job::Skim& each) { return each.ring == ring->index; });
        };
        const auto rings =
            std::stable_partition(entry.as_cut.begin(), entry.as_cut.end(),
                                  [&](const auto& named) { return !is_skimmed(named); });
        entry.as_skimmed.insert(entry.as_skimmed.end(), rings, entry.as_cut.end());
        entry.as_cut.erase(rings, entry.as_cut.end());
        return entry;
    }

    static std::vector<Pair> pairs_of(const RecordedEntry& entry) {
        const auto in_words = [](const std::string& text) {
            // A number or a day would be read as such by other programs.
            const bool a_figure = std::ranges::none_of(text, [](char c) {
                return letter(c) || (static_cast<unsigned char>(c) & 0x80U) != 0;
            });
            const std::string plain = yaml_words(text);
            return a_figure && plain == text ? "\"" + plain + "\"" : plain;
        };
        std::vector<Pair> pairs{{.key = "date", .value = entry.date}};
        if (!entry.who.empty()) pairs.push_back({.key = "who", .value = in_words(entry.who)});
        if (!entry.note.empty()) pairs.push_back({.key = "note", .value = in_words(entry.note)});
        if (entry.planned) pairs.push_back({.key = "planned", .value = "true"});
        const auto add_sizes = [&](const char* key, const auto& sizes) {
            std::string all;
            for (const auto& [what, size] : sizes)
                all += (all.empty() ? "" : ", ") + yaml_words(what) + ": " + yaml_words(size);
            if (!all.empty()) pairs.push_back({.key = key, .value = "{" + all + "}"});
        };
        add_sizes("as_cut", entry.as_cut);
        add_sizes("taken_off", entry.taken_off);
        add_sizes("as_skimmed", entry.as_skimmed);
        add_sizes("lapped", entry.lapped);
        add_sizes("centred", entry.centred);
        std::string fitted;
        for (const auto& [part, shims] : entry.fitted) {
            std::string list;
            for (const std::string& shim : shims)
                list += (list.empty() ? "" : ", ") + yaml_words(shim);
            fitted += (fitted.empty() ? "" : ", ") + yaml_words(part) + ": [" + list + "]";
        }
        if (!fitted.empty()) pairs.push_back({.key = "fitted", .value = "{" + fitted + "}"});
        std::string measured;
        for (const MeasuredReading& each : entry.measured) {
            measured +=
                fmt::format("{}{{reading: {}, from: {}, to: {}, is: {}",
                            measured.empty() ? "" : ", ", in_words(each.name),
                            yaml_words(each.from), yaml_words(each.to), yaml_words(each.is));
            if (!each.pushed.empty()) measured += ", pushed: " + yaml_words(each.pushed);
            measured += "}";
        }
        if (!measured.empty()) pairs.push_back({.key = "measured", .value = "[" + measured + "]"});
        return pairs;
    }

    const job::Job& job_;
    Splice splice_;
};

}  // namespace

Edited edited(std::string_view text, const std::vector<Change>& changes) {
    Edited out{.text = std::nullopt, .complaints = {}, .about = std::string(text)};
    Outcome now = read_job(text, "");
    for (const Change& change : changes) {
        if (!now.job) break;
        Editor editor(out.about, *now.job);
        try {
            std::visit(editor, change);
        } catch (const EditStop& stopped) {
            out.complaints = {stopped.complaint};
            return out;
        }
        std::optional<std::string> changed = editor.text();
        if (!changed) {
            out.complaints = {{.fault = "this file is laid out in a way that is not changed safely",
                               .mend = "make the change by hand"}};
            return out;
        }
        out.about = std::move(*changed);
        now = read_job(out.about, "");
    }
    out.complaints = std::move(now.complaints);
    if (now.job) out.text = out.about;
    return out;
}

}  // namespace trialfit::reading
