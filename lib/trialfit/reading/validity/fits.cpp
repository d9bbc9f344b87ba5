// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <trialfit/reading/section/sections.hpp>

namespace trialfit::reading {

namespace {

// Which diameters of two rings are the fit that centres a part.
enum class FitSide { none, own_bore, own_outside };

// Skims of rings that centre a part. The clearance of a register and the play of a bearing are
// sizes of their own: where one of the fit's diameters is skimmed, nothing says what becomes of
// them.
class SkimmedFits {
public:
    explicit SkimmedFits(Reader& reader) : reader_(reader), parts_(reader.job.parts) {}

    void check() {
        for (const job::Part& part : parts_) {
            if (!part.centred || part.centred->on < 0) continue;
            if (part.centred->by == job::CentredBy::reg) in_register(part);
            if (part.centred->by == job::CentredBy::bearing) in_bearing(part);
        }
    }

private:
    void in_register(const job::Part& part) {
        const job::Part& other = parts_[static_cast<std::size_t>(part.centred->on)];
        for (std::size_t r = 0; r < other.rings.size(); ++r) {
            const job::Ring& on = other.rings[r];
            if (other.name + "." + on.name != part.centred->on_written) continue;
            // Where no ring of the part fits it, either diameter may be the register's.
            if (fits(part, on, other)) continue;
            refuse(other, on, true, part);
            refuse(other, on, false, part);
        }
    }

    void in_bearing(const job::Part& part) {
        const job::Part& other = parts_[static_cast<std::size_t>(part.centred->on)];
        for (const job::Ring& on : other.rings)
            fits(part, on, other);
    }

    // Whether a ring of the part fits `on`; its skims there, and those of `on`, are refused.
    bool fits(const job::Part& part, const job::Ring& on, const job::Part& other) {
        bool any = false;
        for (const job::Ring& own : part.rings) {
            const FitSide side = side_of(part, own, on);
            if (side == FitSide::none) continue;
            any = true;
            refuse(part, own, side == FitSide::own_bore, part);
            refuse(other, on, side == FitSide::own_outside, part);
        }
        return any;
    }

    static FitSide side_of(const job::Part& part, const job::Ring& own, const job::Ring& on) {
        constexpr double kRounding = 1e-9;
        const double slack = part.centred->clearance.size.upper + kRounding;
        const auto alike = [&](const job::Given& bore, const job::Given& outside) {
            return std::abs(bore.size.nominal - outside.size.nominal) <= slack;
        };
        if (!own.measured() || !on.measured()) return FitSide::none;
        if (alike(own.bore, on.outside)) return FitSide::own_bore;
        return alike(on.bore, own.outside) ? FitSide::own_outside : FitSide::none;
    }

    void refuse(const job::Part& part, const job::Ring& ring, bool bore, const job::Part& centred) {
        for (const job::Skim& skim : part.skims) {
            if (skim.bore != bore || skim.ring < 0 ||
                &part.rings[static_cast<std::size_t>(skim.ring)] != &ring)
                continue;
            const bool bearing = centred.centred->by == job::CentredBy::bearing;
            reader_.faults.error(
                skim.at,
                fmt::format("the {} of ring {} is to be skimmed, and part {} is centred by it: its "
                            "{} would grow, and by it every gap round that part",
                            bore ? "bore" : "outside", quoted(part.name + "." + ring.name),
                            quoted(centred.name), bearing ? "play" : "clearance"),
                fmt::format("take the skim away; where only part of the ring is the {}, give that "
                            "part of it a ring of its own",
                            bearing ? "bearing" : "register"));
        }
    }

    Reader& reader_;
    const std::vector<job::Part>& parts_;
};

}  // namespace

void refuse_skimmed_fits(Reader& reader) {
    SkimmedFits(reader).check();
}

}  // namespace trialfit::reading
