// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/quantity/figures.hpp>

namespace trialfit::quantity {

int usual_decimals(Unit unit) {
    switch (unit) {
        case Unit::inch:
            return 4;
        case Unit::um:
            return 0;
        case Unit::thou:
            return 1;
        case Unit::mm:
            break;
    }
    return 2;
}

double rounded(double length, int decimals) {
    const double step = std::pow(10.0, decimals);
    return std::round(length * step) / step;
}

std::string plain(double length, int most) {
    std::string text = fmt::format("{:.{}f}", length, most);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

std::string told(double length, Unit unit) {
    return plain(length, usual_decimals(unit) + 1) + " " + std::string(name(unit));
}

}  // namespace trialfit::quantity
