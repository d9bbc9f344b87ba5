// SPDX-License-Identifier: MIT
#include <string_view>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/model/general_tolerance.hpp>
#include <trialfit/trade/fit/general.hpp>

namespace trialfit::stack {

char general_tolerance_of(const job::Job& job, const job::Part& part) {
    return part.general_tolerance.value_or(job.general_tolerance);
}

job::Given under_general_tolerance(const job::Job& job, const job::Part& part,
                                   const job::Given& given, bool bare) {
    const char written = general_tolerance_of(job, part);
    const auto of = trade::general_class(std::string_view(&written, 1));
    if (!bare || !of) return given;
    const double mm = quantity::convert(given.size.nominal, job.units, quantity::Unit::mm);
    const auto half_mm = trade::general_half_width_mm(*of, mm);
    if (!half_mm) return given;
    const double half = quantity::convert(*half_mm, quantity::Unit::mm, job.units);
    job::Given limited = given;
    limited.size = quantity::toleranced(given.size.nominal, -half, half);
    return limited;
}

}  // namespace trialfit::stack
