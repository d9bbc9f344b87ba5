// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/size.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/names/name_index.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>
#include <vector>

namespace trialfit::reading {

/// What a number without limits of its own means: it describes (no spread), or it stacks and takes
/// the file's general tolerance.
enum class Bare { exact, general_tolerance };

/// The least half-width of a gauge that is not taken as never wrong: under this, in any unit,
/// weights by its square leave no digits to compute with.
inline constexpr double kLeastHalfWidth = 1e-9;

/// What a written size is read against: the job's unit and its gauges; the unit and the general
/// tolerance (0 for none) of the file that it is written in, and the gauges that this file names.
struct SizeContext {
    quantity::Unit units = quantity::Unit::mm;
    char general_tolerance = 0;
    const std::vector<job::Gauge>& gauges;
    const NameIndex& gauge_names;
    /// Of a figure without a unit; the job's where it is not given.
    std::optional<quantity::Unit> written_in = std::nullopt;
    /// Which of the job's gauges each name is; in the same order where it is not given.
    const std::vector<int>* gauge_of_name = nullptr;

    [[nodiscard]] quantity::Unit unit_of_bare() const { return written_in.value_or(units); }
};

/// What a size is read against outside any file: `gauge_names` are those of the job's gauges.
[[nodiscard]] inline SizeContext context_of(const job::Job& job, const NameIndex& gauge_names) {
    return {.units = job.units,
            .general_tolerance = job.general_tolerance,
            .gauges = job.gauges,
            .gauge_names = gauge_names};
}

/// What the text of a size leaves to the file that it stands in, as places within the text.
struct LeftToFile {
    std::optional<std::size_t> unit;       ///< no figure has one: it would stand here
    std::optional<std::size_t> tolerance;  ///< the general one holds: limits would stand here
    quantity::Unit figure_in = quantity::Unit::mm;             ///< what they would be in
    std::optional<std::pair<std::size_t, std::size_t>> gauge;  ///< its name: where, how long
};

/// A size in the job's unit and the gauge that read it, if any; or the fault.
struct SizeText {
    quantity::Size size;
    std::optional<job::GaugeId> gauge{};
    std::optional<TextFault> fault;
    LeftToFile left{};
};

/// Reads a size in any of the forms of the README's table on one line.
[[nodiscard]] SizeText read_size_text(std::string_view text, const SizeContext& context, Bare bare);

/// A length without spread, or the half-width of a tolerance with or without its '±': `5.5`,
/// `0.2 in`, `±0.03`. In the job's unit.
struct LengthText {
    double length = 0.0;
    std::optional<TextFault> fault;
    LeftToFile left{};
};
enum class PlusMinus { refused, allowed };
[[nodiscard]] LengthText read_length_text(std::string_view text, const SizeContext& context,
                                          PlusMinus plus_minus);

/// The limits that the general tolerance gives a length in the job's unit.
[[nodiscard]] SizeText with_general_tolerance(double length, std::string_view written,
                                              const SizeContext& context);

/// A size read n >= 1 times by one gauge.
[[nodiscard]] quantity::Size read_by_gauge(const std::vector<double>& values, double half_width);

/// Looks a gauge up by name: its index, or the fault.
struct GaugeText {
    std::optional<job::GaugeId> gauge{};
    std::optional<TextFault> fault;
};
[[nodiscard]] GaugeText find_gauge(std::string_view name, const SizeContext& context);

}  // namespace trialfit::reading
