// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/words/words.hpp>
#include <variant>

namespace trialfit::paper {

namespace {

struct OddsNoteWords {
    std::string operator()(odds::RandomDirections /*m*/) const {
        return "An eccentricity whose direction is not known is drawn in any direction; those of "
               "the still parts and those of the turning parts each add up as vectors, and the "
               "least gap over a turn is what both sums leave. Worst case and RSS take the worst "
               "directions.";
    }
    std::string operator()(odds::CountedAsNormal m) const {
        return fmt::format(
            "Sizes that readings or second dimensions bind together count as normal; {} of them {} "
            "spread otherwise. Odds that stand on them may be off by some hundredths: 7 % may be "
            "11 %.",
            m.sizes, m.sizes == 1 ? "is" : "are");
    }
    std::string operator()(odds::DescribedFirst m) const {
        return fmt::format("Quantiles and drivers are given of the first {} only.", m.findings);
    }
    std::string operator()(odds::UpperLimitsLeftOut m) const {
        return fmt::format(
            "The chance of all together leaves out the upper limits of {} engagements and "
            "overlaps.",
            m.limits);
    }
    std::string operator()(odds::ContactsLeftOut m) const {
        return fmt::format(
            "What touches first was drawn among the deepest pairs; {} more that may touch were "
            "left out.",
            m.pairs);
    }
};

}  // namespace

std::string name_of(const odds::RiskDriver& driver) {
    return driver.size.empty() ? "the sizes that the readings tie" : driver.size;
}

std::string words(const odds::Note& note) {
    return std::visit(OddsNoteWords{}, note);
}

}  // namespace trialfit::paper
