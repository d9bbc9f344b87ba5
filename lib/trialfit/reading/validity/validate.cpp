// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/reading/section/sections.hpp>
#include <utility>
#include <vector>

namespace trialfit::reading {

namespace {

// The faces of one part, tied by their sizes.
class PartTies {
public:
    PartTies(Reader& reader, const job::Part& part) : reader_(reader), part_(part) {
        const std::size_t count = part.faces.size();
        ties_.resize(count);
        position_.assign(count, std::numeric_limits<double>::quiet_NaN());
        tied_.assign(count, false);
        for (std::size_t face = 0; face < count; ++face)
            for (const job::Dimension& size : part.faces[face].dimensions) {
                if (size.from < 0) continue;
                const auto from = size.from.at();
                ties_[face].push_back({from, -size.distance.size.nominal});
                ties_[from].push_back({face, size.distance.size.nominal});
            }
    }

    void check() {
        if (part_.faces.empty()) return;
        if (!one_zero()) return;
        for (std::size_t face = 0; face < part_.faces.size(); ++face)
            if (part_.faces[face].zero || faulty(part_.faces[face])) walk(face);
        for (std::size_t face = 0; face < part_.faces.size(); ++face)
            if (!tied_[face]) complain_untied(face);
        for (const job::Ring& ring : part_.rings)
            check_length(ring);
        for (const job::Thread& thread : part_.threads)
            check_whole(thread);
        for (const job::Cone& cone : part_.cones)
            check_tip(cone);
        for (const job::Cut& cut : part_.cuts)
            check_cut(cut);
        check_runouts();
    }

private:
    struct Tie {
        std::size_t face;
        double distance;
    };

    // A face whose size could not be read has its complaint already.
    static bool faulty(const job::Face& face) {
        return !face.zero && (face.dimensions.empty() ||
                              std::ranges::any_of(face.dimensions, [](const job::Dimension& size) {
                                  return size.from < 0;
                              }));
    }

    bool one_zero() {
        std::vector<const job::Face*> zeros;
        for (const job::Face& face : part_.faces)
            if (face.zero) zeros.push_back(&face);
        if (zeros.size() == 1) {
            zero_ = zeros.front();
            return true;
        }
        if (zeros.empty())
            reader_.faults.error(part_.faces.front().at,
                                 fmt::format("no face of part {} is its zero", quoted(part_.name)),
                                 fmt::format("write 'zero' for the face that the others are "
                                             "measured from, as in '{}: zero'",
                                             clipped(part_.faces.front().name)));
        for (std::size_t i = 1; i < zeros.size(); ++i)
            reader_.faults.error(
                zeros[i]->at,
                fmt::format("part {} has its zero at {} and again at {}", quoted(part_.name),
                            quoted(zeros.front()->name), quoted(zeros[i]->name)),
                fmt::format("give the second its size, as in 'SIZE from {}'",
                            clipped(zeros.front()->name)));
        return false;
    }

    // Marks every face that hangs together with `start`, and places it by the first size met.
    std::vector<std::size_t> walk(std::size_t start) {
        std::vector<std::size_t> met;
        if (tied_[start]) return met;
        tied_[start] = true;
        if (part_.faces[start].zero) position_[start] = 0.0;
        met.push_back(start);
        for (std::size_t next = 0; next < met.size(); ++next)
            for (const Tie& tie : ties_[met[next]]) {
                if (tied_[tie.face]) continue;
                tied_[tie.face] = true;
                position_[tie.face] = position_[met[next]] + tie.distance;
                met.push_back(tie.face);
            }
        return met;
    }

    void complain_untied(std::size_t first) {
        NameIndex names;
        for (const std::size_t face : walk(first))
            names.add(part_.faces[face].name);
        reader_.faults.error(
            part_.faces[first].at,
            fmt::format("the sizes of part {} do not say how far {} {} from its zero {}",
                        quoted(part_.name), names.listed(),
                        names.names().size() == 1 ? "lies" : "lie", quoted(zero_->name)),
            fmt::format("the size from {} to one of them is missing, as in '{}: SIZE from {}'",
                        quoted(zero_->name), clipped(part_.faces[first].name),
                        clipped(zero_->name)));
    }

    [[nodiscard]] double position(job::RingEnd end) const {
        if (end.face < 0) return std::numeric_limits<double>::quiet_NaN();
        return position_[end.face.at()] + end.beyond;
    }
    void check_length(const job::Ring& ring) {
        const double length = position(ring.outboard) - position(ring.inboard);
        if (!(length <= 0.0)) return;
        const auto face = [&](job::RingEnd end) { return quoted(part_.faces[end.face.at()].name); };
        const bool one_face = ring.inboard.face == ring.outboard.face;
        if (length == 0.0 && one_face)
            return reader_.faults.error(
                ring.at,
                fmt::format("ring {} of part {} begins and ends at {}", quoted(ring.name),
                            quoted(part_.name), face(ring.inboard)),
                "name the two faces that it lies between");
        if (length == 0.0)
            return reader_.faults.error(
                ring.at,
                fmt::format("ring {} of part {} has no length: {} and {} are in one place",
                            quoted(ring.name), quoted(part_.name), face(ring.inboard),
                            face(ring.outboard)),
                "name the two faces that it lies between");
        reader_.faults.error(
            ring.at,
            fmt::format(
                "ring {} of part {} is turned round: its 'to', {}, lies {:.6g} inboard of its "
                "'from', {}",
                quoted(ring.name), quoted(part_.name), face(ring.outboard), -length,
                face(ring.inboard)),
            "swap 'from' and 'to', or mend the sign of a size");
    }

    void check_whole(const job::Thread& thread) {
        const double length =
            std::abs(position({.face = thread.to}) - position({.face = thread.from}));
        const double lead_in = thread.lead_in.size.nominal;
        const double run_out = thread.run_out.size.nominal;
        if (!(lead_in + run_out >= length) || thread.from == thread.to) return;
        reader_.faults.error(
            thread.at,
            fmt::format("the {} of part {} is {:.6g} long and incomplete over all of it, {:.6g} at "
                        "its 'to' and {:.6g} at its 'from'",
                        thread.name == "thread" ? "thread" : "thread " + quoted(thread.name),
                        quoted(part_.name), length, lead_in, run_out),
            "mend its faces, 'lead_in' or 'run_out'");
    }

    // The length counts outboard of the gauge plane, so a cone that narrows inboard has no tip.
    void check_tip(const job::Cone& cone) {
        const double lost = cone.taper * cone.length.size.nominal;
        if (!(lost >= cone.dia.size.nominal)) return;
        reader_.faults.error(
            cone.at,
            fmt::format(
                "the {} of part {} comes to a point {:.6g} from its gauge plane, within its "
                "length of {}",
                cone.name == "cone" ? "cone" : "cone " + quoted(cone.name), quoted(part_.name),
                cone.dia.size.nominal / cone.taper, quoted(cone.length.written)),
            "mend its diameter, taper or length");
    }

    // Two runouts tell a tilt by the distance between them.
    void check_runouts() {
        if (part_.runout.size() != 2) return;
        const std::optional<int> one = part_.runout.front().face;
        const std::optional<int> other = part_.runout.back().face;
        if (!one || !other || one == other) return;
        constexpr double kLeastApart = 1e-3;
        const double apart = std::abs(position({.face = *one}) - position({.face = *other}));
        if (!(apart < kLeastApart)) return;
        reader_.faults.error(
            part_.runout.back().at,
            fmt::format("the two runouts of part {} are at one height", quoted(part_.name)),
            "name another face of the part with 'at'");
    }

    // A finish size means something only from a face that stays, and only metal that is there can
    // be kept.
    void check_cut(const job::Cut& cut) {
        if (cut.face < 0 || cut.measure < 0 || cut.face == cut.measure) return;
        const auto name = [&](job::FaceId face) { return quoted(part_.faces[face.at()].name); };
        for (const job::Cut& other : part_.cuts)
            if (other.face == cut.measure)
                reader_.faults.error(
                    cut.at,
                    fmt::format("the cut of face {} is measured from {}, which has a cut of its "
                                "own in {}",
                                name(cut.face), name(cut.measure), reader_.line_words(other.at)),
                    "measure it from a face that stays");
        const double now = std::abs(position({.face = cut.face}) - position({.face = cut.measure}));
        constexpr double kRounding = 1e-9;
        if (!(now < cut.keep - kRounding)) return;
        reader_.faults.error(cut.at,
                             fmt::format("the cut of face {} is to keep {:.6g} from {}, but it is "
                                         "{:.6g} now",
                                         name(cut.face), cut.keep, name(cut.measure), now),
                             "mend 'keep', or the size of the face");
    }

    Reader& reader_;
    const job::Part& part_;
    const job::Face* zero_ = nullptr;
    std::vector<std::vector<Tie>> ties_;
    std::vector<double> position_;
    std::vector<bool> tied_;
};

// Which part sits on which.
class SeatGraph {
public:
    explicit SeatGraph(Reader& reader) : reader_(reader), parts_(reader.job.parts) {}

    void check() {
        roots();
        circles();
        for (std::size_t part = 0; part < parts_.size(); ++part)
            for (const job::Seat& seat : parts_[part].seats) {
                if (!circle_) later(part, seat);
                tapers(part, seat);
            }
    }

private:
    void roots() {
        const job::Part* root = nullptr;
        for (const job::Part& part : parts_) {
            if (!part.seats.empty()) continue;
            if (root == nullptr) {
                root = &part;
                continue;
            }
            reader_.faults.error(
                part.at, fmt::format("part {} does not say how it sits", quoted(part.name)),
                fmt::format(
                    "add 'sits: {{face: FACE, against: part.face}}'; only the part that all "
                    "else stands on goes without, and that is {}",
                    quoted(root->name)));
        }
    }

    // Depth first, without recursion: a job may stack thousands of parts.
    void circles() {
        enum class Mark : char { unseen, open, done };
        struct Step {
            std::size_t part;
            std::size_t seat;
        };
        std::vector<Mark> marks(parts_.size(), Mark::unseen);
        for (std::size_t start = 0; start < parts_.size(); ++start) {
            if (marks[start] != Mark::unseen) continue;
            std::vector<Step> path{{start, 0}};
            marks[start] = Mark::open;
            while (!path.empty()) {
                Step& step = path.back();
                const auto& seats = parts_[step.part].seats;
                if (step.seat == seats.size()) {
                    marks[step.part] = Mark::done;
                    path.pop_back();
                    continue;
                }
                const job::PartId against = seats[step.seat++].below();
                if (against < 0 || against.at() == step.part) continue;
                const auto below = against.at();
                if (marks[below] == Mark::unseen) {
                    marks[below] = Mark::open;
                    path.push_back({below, 0});
                } else if (marks[below] == Mark::open) {
                    std::vector<std::size_t> circle;
                    for (const Step& each : path)
                        if (!circle.empty() || each.part == below) circle.push_back(each.part);
                    complain_circle(std::move(circle));
                }
            }
        }
    }

    void complain_circle(std::vector<std::size_t> circle) {
        circle_ = true;
        std::ranges::sort(circle);
        NameIndex names;
        for (const std::size_t part : circle)
            names.add(parts_[part].name);
        reader_.faults.error(parts_[circle.front()].seats.front().at,
                             fmt::format("parts {} sit on each other in a circle", names.listed()),
                             "one of them must sit on a part outside the circle");
    }

    void later(std::size_t part, const job::Seat& seat) {
        if (seat.below() <= part) return;
        const std::string& below = parts_[seat.below().at()].name;
        std::string fault = fmt::format("part {} sits against part {}, which is listed after it",
                                        quoted(parts_[part].name), quoted(below));
        std::string mend = fmt::format(
            "parts are listed in the order in which they go on; put {} first", quoted(below));
        // The order decides which faces have to clear which. A part that also sits on one before
        // it can go on when it is listed.
        const auto& seats = parts_[part].seats;
        const bool held = std::ranges::any_of(
            seats, [&](const job::Seat& each) { return each.below() >= 0 && each.below() < part; });
        if (held)
            reader_.faults.warning(seat.at, std::move(fault), std::move(mend));
        else
            reader_.faults.error(seat.at, std::move(fault), std::move(mend));
    }

    void tapers(std::size_t part, const job::Seat& seat) {
        if (seat.own_cone < 0 || seat.on_cone.index < 0) return;
        const job::Part& below = parts_[seat.on_cone.part.at()];
        const auto own = seat.own_cone.at();
        const auto other = seat.on_cone.index.at();
        if (own >= parts_[part].cones.size() || other >= below.cones.size()) return;
        if (!(parts_[part].cones[own].taper * below.cones[other].taper < 0.0)) return;
        reader_.faults.error(
            seat.at,
            fmt::format("part {} sits on a cone that narrows the other way: {} is tapered '{}' and "
                        "{} '{}'",
                        quoted(parts_[part].name),
                        quoted(parts_[part].name + "." + parts_[part].cones[own].name),
                        parts_[part].cones[own].taper_written,
                        quoted(below.name + "." + below.cones[other].name),
                        below.cones[other].taper_written),
            "mend the sign of one taper; a cone that narrows inboard has a negative one");
    }

    Reader& reader_;
    const std::vector<job::Part>& parts_;
    bool circle_ = false;
};

// Two readings of one size by a gauge that is never wrong leave nothing to adjust where they
// differ, and no sign of it where they agree.
void gauges_without_error(Reader& reader, const job::Part& part) {
    const auto is_exact = [&](const job::Given& given) {
        return given.gauge && reader.job.gauges[given.gauge->at()].half_width == 0.0;
    };
    for (const job::Face& face : part.faces) {
        for (std::size_t i = 0; i < face.dimensions.size(); ++i) {
            const job::Dimension& own = face.dimensions[i];
            if (!is_exact(own.distance)) continue;
            const bool again = std::any_of(
                face.dimensions.begin(), face.dimensions.begin() + static_cast<std::ptrdiff_t>(i),
                [&](const job::Dimension& earlier) {
                    return earlier.from == own.from && is_exact(earlier.distance);
                });
            if (!again && !own.distance.written.starts_with('[')) continue;
            const std::string& gauge = reader.job.gauges[own.distance.gauge->at()].name;
            reader.faults.warning(
                own.distance.at,
                fmt::format(
                    "{} is read more than once by {}, a gauge that is said to be never wrong",
                    quoted(part.name + "." + face.name), quoted(gauge)),
                fmt::format("give {} under 'gauges' the half-width that it is good to",
                            quoted(gauge)));
        }
    }
}

}  // namespace

void validate(Reader& reader) {
    for (const job::Part& part : reader.job.parts) {
        PartTies(reader, part).check();
        gauges_without_error(reader, part);
    }
    SeatGraph(reader).check();
    refuse_skimmed_fits(reader);
    refuse_too_many(reader);
    refuse_implausible(reader);
}

}  // namespace trialfit::reading
