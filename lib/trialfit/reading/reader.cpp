// SPDX-License-Identifier: MIT
#include <limits>
#include <trialfit/reading/reader.hpp>
#include <utility>

namespace trialfit::reading {

job::Place Reader::place(const Node& scalar, std::size_t within) const {
    const std::size_t begin = scalar.at + (scalar.style == Node::Style::quoted ? 1U : 0U);
    // Escapes, folded lines and block scalars read otherwise than they are written.
    const bool as_written = source.text().compare(begin, within, scalar.scalar, 0, within) == 0;
    return source.place(as_written ? begin + within : scalar.at);
}

void Reader::error(const Node& node, std::string fault, std::string mend) {
    faults.error(place(node), std::move(fault), std::move(mend));
}

void Reader::error(const Node& scalar, const TextFault& fault) {
    faults.error(place(scalar, fault.at), fault.fault, fault.mend);
}

SizeContext Reader::sizes() const {
    return {.units = job.units,
            .general_tolerance = job.general_tolerance,
            .gauges = job.gauges,
            .gauge_names = gauges};
}

quantity::Size unknown_size() {
    constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
    return {.nominal = kUnknown, .lower = kUnknown, .upper = kUnknown, .spread = {}};
}

}  // namespace trialfit::reading
