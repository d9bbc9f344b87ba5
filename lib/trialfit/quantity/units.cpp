// SPDX-License-Identifier: MIT
#include <trialfit/quantity/units.hpp>

namespace trialfit::quantity {

double convert(double length, Unit from, Unit to) {
    if (from == to) return length;
    if (from == Unit::thou && to == Unit::inch) return length / 1000.0;
    if (from == Unit::inch && to == Unit::thou) return length * 1000.0;
    if (from == Unit::um && to == Unit::mm) return length / 1000.0;
    if (from == Unit::mm && to == Unit::um) return length * 1000.0;
    if (to == Unit::inch) return length * mm_per(from) / kMmPerInch;
    if (to == Unit::thou) return length * mm_per(from) / kMmPerInch * 1000.0;
    return length * mm_per(from) / mm_per(to);
}

std::optional<Unit> unit_named(std::string_view word) {
    if (word == "mm") return Unit::mm;
    if (word == "in" || word == "inch") return Unit::inch;
    // Both the micro sign (U+00B5) and the Greek letter (U+03BC) are typed.
    if (word == "um" || word == "\u00b5m" || word == "\u03bcm") return Unit::um;
    if (word == "thou") return Unit::thou;
    return std::nullopt;
}

std::string_view name(Unit unit) {
    switch (unit) {
        case Unit::inch:
            return "in";
        case Unit::um:
            return "um";
        case Unit::thou:
            return "thou";
        case Unit::mm:
            break;
    }
    return "mm";
}

}  // namespace trialfit::quantity
