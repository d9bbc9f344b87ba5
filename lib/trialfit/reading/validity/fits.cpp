// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <trialfit/reading/section/sections.hpp>
#include <vector>

namespace trialfit::reading {

namespace {

// Which diameters of two rings are the fit that centres a part.
enum class FitSide { none, own_bore, own_outside };

// One part in what centres it. The clearance of a register and the play of a bearing are sizes of
// their own: where one of the fit's diameters is skimmed, nothing says what becomes of them.
class SkimmedFit {
public:
    SkimmedFit(Reader& reader, const job::Part& centred, const job::Part& holder)
        : reader_(reader), centred_(centred), holder_(holder) {}

    void check() {
        const job::Centring& by = *centred_.centred;
        for (const job::Ring& on : holder_.rings) {
            if (by.by == job::CentredBy::bearing) fits(on);
            if (by.by != job::CentredBy::reg || holder_.name + "." + on.name != by.on_written)
                continue;
            // Where no ring of the part fits it, either diameter may be the register's.
            if (fits(on)) continue;
            refuse(holder_, on, true);
            refuse(holder_, on, false);
        }
    }

private:
    // Whether a ring of the part fits `on`; its skims there, and those of `on`, are refused.
    bool fits(const job::Ring& on) {
        bool any = false;
        for (const job::Ring& own : centred_.rings) {
            const FitSide side = side_of(own, on);
            if (side == FitSide::none) continue;
            any = true;
            refuse(centred_, own, side == FitSide::own_bore);
            refuse(holder_, on, side == FitSide::own_outside);
        }
        return any;
    }

    [[nodiscard]] FitSide side_of(const job::Ring& own, const job::Ring& on) const {
        constexpr double kRounding = 1e-9;
        const double slack = centred_.centred->clearance.size.upper + kRounding;
        const auto alike = [&](const job::Given& bore, const job::Given& outside) {
            return std::abs(bore.size.nominal - outside.size.nominal) <= slack;
        };
        if (!own.measured() || !on.measured()) return FitSide::none;
        if (alike(own.bore, on.outside)) return FitSide::own_bore;
        return alike(on.bore, own.outside) ? FitSide::own_outside : FitSide::none;
    }

    void refuse(const job::Part& part, const job::Ring& ring, bool bore) {
        for (const job::Skim& skim : part.skims) {
            if (skim.bore != bore || skim.ring < 0 ||
                &part.rings[static_cast<std::size_t>(skim.ring)] != &ring)
                continue;
            const bool bearing = centred_.centred->by == job::CentredBy::bearing;
            reader_.faults.error(
                skim.at,
                fmt::format("the {} of ring {} is to be skimmed, and part {} is centred by it: its "
                            "{} would grow, and by it every gap round that part",
                            bore ? "bore" : "outside", quoted(part.name + "." + ring.name),
                            quoted(centred_.name), bearing ? "play" : "clearance"),
                fmt::format("take the skim away; where only part of the ring is the {}, give that "
                            "part of it a ring of its own",
                            bearing ? "bearing" : "register"));
        }
    }

    Reader& reader_;
    const job::Part& centred_;
    const job::Part& holder_;
};

}  // namespace

void refuse_skimmed_fits(Reader& reader) {
    const std::vector<job::Part>& parts = reader.job.parts;
    for (const job::Part& part : parts)
        if (part.centred && part.centred->on >= 0)
            SkimmedFit(reader, part, parts[static_cast<std::size_t>(part.centred->on)]).check();
}

}  // namespace trialfit::reading
