// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <trialfit/job/former.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/section/sections.hpp>
#include <variant>
#include <vector>

// Values that are written without fault and that no such part can have: a slip of the unit or of
// the decimal point. The bounds lie well beyond what is met in a shop; none is from a standard.
namespace trialfit::reading {

namespace {

constexpr double kMostRunout_mm = 5.0;
constexpr double kMostRunoutShare = 0.1;  // of the part's greatest diameter
constexpr double kSteepestFace = 0.1;     // face runout over the diameter that it was read on
constexpr double kMostClearance_mm = 20.0;
constexpr double kLeastBore_mm = 1.0;
constexpr double kMostBore_mm = 2000.0;

class Plausible {
public:
    explicit Plausible(Reader& reader)
        : reader_(reader), mm_(quantity::convert(1.0, reader.job.units, quantity::Unit::mm)) {}

    void look() {
        for (const job::Part& part : reader_.job.parts) {
            for (const job::Runout& out : part.runout)
                runout(part, out);
            if (part.face_runout) face_runout(part, *part.face_runout);
            if (part.centred) clearance(part, *part.centred);
        }
        overlaps();
        if (reader_.job.spin && reader_.job.spin->bore) cylinder(*reader_.job.spin->bore);
    }

private:
    [[nodiscard]] static double greatest_dia(const job::Part& part) {
        double most = 0.0;
        for (const job::Ring& ring : part.rings)
            most = std::max(most, ring.outside.size.nominal);
        return most;
    }

    void runout(const job::Part& part, const job::Runout& out) {
        const double dia = greatest_dia(part);
        const double is = out.is.size.upper;
        if (dia > 0.0 && is > kMostRunoutShare * dia)
            return reader_.faults.error(
                out.is.at,
                fmt::format("the runout of part {} is {}, and its greatest diameter is {:.6g}",
                            quoted(part.name), quoted(out.is.written), dia),
                "it is what a dial shows over a turn, as in '0.04 by dial'; mend the figure or its "
                "unit");
        if (is * mm_ > kMostRunout_mm)
            reader_.faults.error(
                out.is.at,
                fmt::format("the runout of part {} is {}, more than {:g} mm", quoted(part.name),
                            quoted(out.is.written), kMostRunout_mm),
                "it is what a dial shows over a turn, as in '0.04 by dial'; mend the figure or its "
                "unit");
    }

    void face_runout(const job::Part& part, const job::FaceRunout& out) {
        if (!(out.is.size.upper > kSteepestFace * out.dia)) return;
        reader_.faults.error(
            out.is.at,
            fmt::format("the face runout of part {} is {} on a diameter of {:.6g}",
                        quoted(part.name), quoted(out.is.written), out.dia),
            "it is what a dial shows over a turn, as in '0.08 by dial'; mend the figure or its "
            "unit");
    }

    void clearance(const job::Part& part, const job::Centring& by) {
        if (!(by.clearance.size.upper * mm_ > kMostClearance_mm)) return;
        reader_.faults.error(
            by.clearance.at,
            fmt::format("part {} is centred with {} of room, more than {:g} mm", quoted(part.name),
                        quoted(by.clearance.written), kMostClearance_mm),
            "it is the room on diameter, as in '0.00..0.06'; mend the figure or its unit");
    }

    void cylinder(const job::Given& bore) {
        const bool small = bore.size.lower * mm_ < kLeastBore_mm;
        if (!small && !(bore.size.upper * mm_ > kMostBore_mm)) return;
        reader_.faults.error(
            bore.at,
            fmt::format("the bore is {}, {} than {:g} mm", quoted(bore.written),
                        small ? "less" : "more", small ? kLeastBore_mm : kMostBore_mm),
            "it is the diameter of the cylinder; mend the figure or its unit");
    }

    // No more of a ring can be spanned than there is. A share written without its sign is the
    // usual slip.
    void overlaps() {
        std::vector<std::vector<double>> positions(reader_.job.parts.size());
        for (const job::Check& check : reader_.job.checks) {
            const auto* const of = std::get_if<job::OverlapOf>(&check.of);
            if (of == nullptr || of->of.part < 0) continue;
            const auto p = of->of.part.at();
            const job::Part& part = reader_.job.parts[p];
            const auto r = of->of.index.at();
            if (r >= part.rings.size()) continue;
            if (positions[p].empty()) positions[p] = job::nominal_positions(part);
            const double length = length_of_ring(part.rings[r], positions[p]);
            for (const auto& limit : {check.at_least, check.at_most})
                if (limit)
                    overlap_limit(check, *limit, job::ring_name(reader_.job, of->of), length);
        }
    }

    [[nodiscard]] static double length_of_ring(const job::Ring& ring,
                                               const std::vector<double>& positions) {
        const auto at = [&](const job::RingEnd& end) {
            return end.face < 0 ? std::nan("") : positions[end.face.at()] + end.beyond;
        };
        return at(ring.outboard) - at(ring.inboard);
    }

    void overlap_limit(const job::Check& check, const job::Limit& limit, const std::string& ring,
                       double length) {
        constexpr double kRounding = 1e-9;
        if (limit.in != job::LimitIn::length || !(limit.value > length + kRounding)) return;
        const bool percent = limit.value <= 100.0;
        reader_.faults.error(
            limit.at,
            fmt::format("check {} asks for an overlap of {}, and {} is {:.6g} long",
                        quoted(check.name), quoted(limit.written), ring, length),
            percent ? fmt::format("did you mean '{} %'?", limit.written)
                    : std::string("no more than its length can be spanned"));
    }

    Reader& reader_;
    double mm_;
};

}  // namespace

void refuse_implausible(Reader& reader) {
    Plausible(reader).look();
}

}  // namespace trialfit::reading
