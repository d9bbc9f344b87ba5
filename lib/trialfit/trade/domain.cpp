// SPDX-License-Identifier: MIT
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {

Domain& Domain::that(bool holds, std::string_view sentence) {
    if (!holds && reason_.empty()) reason_ = sentence;
    return *this;
}

Domain& Domain::positive(std::string_view name, double value) {
    if (value > 0.0) return *this;
    return that(false, std::string(name) + " must be greater than 0, not " + shown(value));
}

Domain& Domain::not_negative(std::string_view name, double value) {
    if (value >= 0.0) return *this;
    return that(false, std::string(name) + " cannot be negative, and is " + shown(value));
}

Domain& Domain::tube(std::string_view bore_name, double bore, std::string_view od_name, double od) {
    not_negative(bore_name, bore);
    if (bore < od) return *this;
    return that(false, std::string(od_name) + " (" + shown(od) + ") must be greater than " +
                           std::string(bore_name) + " (" + shown(bore) + ")");
}

Domain& Domain::within(std::string_view name, double value, double least, double most) {
    if (value >= least && value <= most) return *this;
    return that(false, std::string(name) + " must lie between " + shown(least) + " and " +
                           shown(most) + ", not " + shown(value));
}

}  // namespace trialfit::trade
