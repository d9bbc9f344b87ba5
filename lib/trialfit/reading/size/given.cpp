// SPDX-License-Identifier: MIT
#include <trialfit/reading/size/given.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

namespace trialfit::reading {

GivenOutcome read_given(std::string_view written, const job::Job& context, Bare bare) {
    NameIndex gauges;
    for (const job::Gauge& gauge : context.gauges)
        gauges.add(gauge.name);
    SizeText text = read_size_text(written, context_of(context, gauges), bare);
    if (text.fault) return {{}, std::move(text.fault->fault), std::move(text.fault->mend)};
    return {job::Given{.size = text.size,
                       .written = std::string(trimmed(written)),
                       .at = {},
                       .gauge = text.gauge},
            {},
            {}};
}

std::vector<std::string> pieces_of(std::string_view pile) {
    std::vector<std::string> pieces;
    if (trimmed(pile) == "none") return pieces;
    std::size_t from = 0;
    for (std::size_t at = pile.find('+'); at != std::string_view::npos;
         at = pile.find('+', at + 1)) {
        const bool inside = at > 0 && at + 1 < pile.size();
        const bool between = inside && (pile[at - 1] == ' ') == (pile[at + 1] == ' ') &&
                             pile[at + 1] != '/' && pile[at + 1] != '-';
        if (!between) continue;
        pieces.emplace_back(trimmed(pile.substr(from, at - from)));
        from = at + 1;
    }
    pieces.emplace_back(trimmed(pile.substr(from)));
    return pieces;
}

}  // namespace trialfit::reading
