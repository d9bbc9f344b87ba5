// SPDX-License-Identifier: MIT
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

namespace trialfit::reading {

GivenOutcome read_given(std::string_view written, const job::Job& context, Bare bare) {
    NameIndex gauges;
    for (const job::Gauge& gauge : context.gauges)
        gauges.add(gauge.name);
    SizeText text = read_size_text(written,
                                   {.units = context.units,
                                    .general_tolerance = context.general_tolerance,
                                    .gauges = context.gauges,
                                    .gauge_names = gauges},
                                   bare);
    if (text.fault) return {{}, std::move(text.fault->fault), std::move(text.fault->mend)};
    return {job::Given{.size = text.size,
                       .written = std::string(trimmed(written)),
                       .at = {},
                       .gauge = text.gauge},
            {},
            {}};
}

}  // namespace trialfit::reading
