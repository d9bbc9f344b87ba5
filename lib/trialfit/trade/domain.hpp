// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// What a formula may be given. Checks are chained; the first that does not hold gives the reason,
/// with the name of the quantity and the value found. A value that is no number holds nowhere.
class Domain {
public:
    Domain& positive(std::string_view name, double value);
    Domain& not_negative(std::string_view name, double value);
    /// 0 <= bore < od.
    Domain& tube(std::string_view bore_name, double bore, std::string_view od_name, double od);
    /// least <= value <= most.
    Domain& within(std::string_view name, double value, double least, double most);
    /// Any other condition, with its own sentence.
    Domain& that(bool holds, std::string_view sentence);

    [[nodiscard]] explicit operator bool() const { return reason_.empty(); }
    /// Call only where it does not hold.
    [[nodiscard]] Reason why() const { return Reason{reason_}; }

private:
    std::string reason_;
};

}  // namespace trialfit::trade
