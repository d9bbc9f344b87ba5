// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/trade/thread/thread.hpp>

namespace trialfit::trade {

/// Limits of one diameter, mm; nothing where the standard sets none.
struct DiameterLimits {
    std::optional<double> min_mm;
    std::optional<double> max_mm;
};

/// Limits of size of a thread, mm, rounded as the standards' tables are: metric to 0.001 mm,
/// unified to 0.0001 in (an internal minor diameter to 0.001 in from #6 up) and then converted.
struct ThreadLimits {
    ThreadClass tolerance;
    DiameterLimits major;  ///< of a nut: only the least is set, the basic diameter + EI
    DiameterLimits pitch;  ///< both always set
    /// Of a bolt, greatest: flat form, d1 - es (the go gauge's); of a unified bolt the UNR
    /// reference less the allowance. Least: rounded root of radius 0.125 P, d2 min - 0.616025 P;
    /// not set for a unified bolt.
    DiameterLimits minor;
};

/// The class that a designation without one means: 6g or 6H, up to M1.4 6h or 5H (ISO 965-1:2013,
/// clause 5); 2A or 2B for unified threads (ASME B1.1, the classes of general use).
[[nodiscard]] ThreadClass usual_class(const ThreadForm& form, bool internal);

/// Limits of a thread in a class. Metric: ISO 965-1:2013 and ISO 965-3, basic diameters rounded to
/// 0.001 mm first. Unified: ASME B1.1-2003, section 5: Td2(2A) = 0.0015 D^(1/3) + 0.0015 Le^(1/2) +
/// 0.015 P^(2/3), rounded to six decimals before its factors; Le = D for UNC, UNF and 4, 6, 8-UN, 9
/// P for all others; allowance 0.3 Td2(2A) for 1A and 2A. A reason where the standard has no such
/// class or size, or the class does not belong to the kind of thread.
[[nodiscard]] Result<ThreadLimits> thread_limits(const ThreadForm& form, const ThreadClass& of);

/// As above with the designation's own class; a reason where it names none.
[[nodiscard]] Result<ThreadLimits> thread_limits(const ThreadForm& form);

}  // namespace trialfit::trade
