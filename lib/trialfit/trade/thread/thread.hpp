// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// metric: ISO 68-1 profile; the rest: unified, ASME B1.1. `un` is a constant-pitch series (4, 6,
/// 8, 12, 16, 20, 28, 32 threads per inch), `uns` any other pitch.
enum class ThreadSeries { metric_coarse, metric_fine, unc, unf, unef, un, uns };

/// Whether sizes of the series are in mm by nature.
[[nodiscard]] bool is_metric(ThreadSeries series);
/// `M`, `UNC`, `UNF`, `UNEF`, `UN` or `UNS`, as a designation writes it.
[[nodiscard]] std::string_view name(ThreadSeries series);

/// A grade and a position, `6g`. Capitals (G, H) belong to an internal thread.
struct ToleranceField {
    int grade = 0;
    char position = ' ';

    [[nodiscard]] bool operator==(const ToleranceField&) const = default;
};

/// The tolerance class of a thread. Metric: the fields of the pitch diameter and of the crest
/// (major diameter of a bolt, minor of a nut). Unified: the number 1 to 3; A is external, B
/// internal.
struct ThreadClass {
    bool internal = false;
    int unified = 0;  ///< 1, 2 or 3; 0 for metric
    ToleranceField pitch;
    ToleranceField crest;

    [[nodiscard]] bool operator==(const ThreadClass&) const = default;
};

/// A thread as its designation gives it.
struct ThreadForm {
    std::string written;
    ThreadSeries series = ThreadSeries::metric_coarse;
    double d_mm = 0.0;  ///< basic major diameter
    double pitch_mm = 0.0;
    double per_inch = 0.0;                 ///< threads per inch of a unified thread; 0 for metric
    std::optional<ThreadClass> tolerance;  ///< nothing where the designation names no class
    char engagement = 'N';                 ///< group of engagement length, S, N or L (ISO 965-1)
    bool left_hand = false;
};

/// Reads a designation (ISO 965-1:2013 clause 5; ASME B1.1-2003 section 6): `M10` (coarse pitch of
/// ISO 261), `M10x1.25`, `M10x1.25-6g`, `M10x1.25-5g6g-LH`, `M10-6H`, `3/8-24 UNF-2A`,
/// `#10-32 UNF-2B`, `0.375-24 UNF`, `1/2-20 UNF-2A-LH`. The cross may be x, X, * or the sign
/// itself, blanks do not matter. A reason where it cannot be read, the class is not one of the
/// standard's, or the pitch does not go with the diameter.
[[nodiscard]] Result<ThreadForm> thread(std::string_view designation);

/// Reads `6g`, `5g6g`, `6H`, or `2A`, `2B`.
[[nodiscard]] Result<ThreadClass> thread_class(std::string_view written);

/// Coarse pitch, mm, of a metric diameter in mm (ISO 261:1998, M1 to M68); nothing where the
/// standard has none.
[[nodiscard]] std::optional<double> coarse_pitch_mm(double d_mm);

/// Threads per inch of a diameter in inches in UNC, UNF or UNEF (ASME B1.1-2003, table 1); nothing
/// where the series has none and for every other series.
[[nodiscard]] std::optional<double> series_per_inch(ThreadSeries series, double d_in);

/// Inches of a numbered size (#0 to #12): 0.060 + 0.013 N (ASME B1.1).
[[nodiscard]] constexpr double numbered_size_in(int number) {
    return 0.060 + 0.013 * number;
}

}  // namespace trialfit::trade
