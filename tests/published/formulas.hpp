// SPDX-License-Identifier: MIT
// Published figures of a formula as readable data. Beside what published.hpp asks, a case holds
//
//   formula: cone grip              which formula of the test program it is
//   given: {taper: 0.2, ...}        every value named must be used, or the case fails
//   expect: {torque: 61.66969}      any of the formula's figures
//   within: 1 %                     or a number; needs `why`. Without: half the last digit written
//   reason: longer than half        instead of expect: the formula refuses, with these words
#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <support/published.hpp>

namespace trialfit::testing {

/// What a case gives. Throws where a value is missing.
class Given {
public:
    explicit Given(const YAML::Node& node) : node_(node) {}

    double operator()(const std::string& key) { return text(key).as<double>(); }
    double operator()(const std::string& key, double otherwise) {
        return node_[key] ? (*this)(key) : otherwise;
    }
    std::string word(const std::string& key) { return text(key).as<std::string>(); }
    bool has(const std::string& key) const { return node_[key].IsDefined(); }

    /// Names that no formula asked for.
    std::string unused() const {
        std::string names;
        for (const auto& each : node_)
            if (!used_.contains(each.first.as<std::string>()))
                names += " " + each.first.as<std::string>();
        return names;
    }

private:
    YAML::Node text(const std::string& key) {
        used_.insert(key);
        if (!node_[key]) throw std::runtime_error("nothing given for " + key);
        return node_[key];
    }

    YAML::Node node_;
    std::set<std::string> used_;
};

using Figures = std::map<std::string, double>;
using Formulas = std::map<std::string, std::function<Figures(Given&)>>;

/// The value of a result, or its reason thrown.
template <typename Result>
auto value_of(const Result& result) {
    if (!result) throw std::runtime_error(result.reason());
    return *result;
}

/// Half of the last digit of a number as written: 0.0005 of "1.234", 0.05e-6 of "2.5e-6".
inline double half_last_digit(const std::string& written) {
    const std::size_t end = std::min(written.find_first_of("eE"), written.size());
    const std::size_t point = written.substr(0, end).find('.');
    const double places = point == std::string::npos ? 0.0 : static_cast<double>(end - point - 1);
    const double scale = end == written.size() ? 0.0 : std::stod(written.substr(end + 1));
    return 0.5 * std::pow(10.0, scale - places);
}

/// Absolute tolerance of one expected figure.
inline double tolerance(const YAML::Node& holder, const std::string& written) {
    // A computed figure may itself end in a 5; the last bits of a double must not decide.
    constexpr double kRounding = 1.0 + 1e-6;
    if (!holder["within"]) return half_last_digit(written) * kRounding;
    if (!holder["why"]) throw std::runtime_error("'within' without 'why'");
    const auto within = holder["within"].as<std::string>();
    if (within.back() != '%') return holder["within"].as<double>() * kRounding;
    return std::stod(within) / 100.0 * std::abs(std::stod(written));
}

inline void check_figures(const YAML::Node& each, const Figures& figures) {
    for (const auto& entry : each["expect"]) {
        const auto name = entry.first.as<std::string>();
        CAPTURE(name);
        const auto written = entry.second.as<std::string>();
        if (!figures.contains(name)) {
            FAIL_CHECK("the formula has no figure " << name);
            continue;
        }
        const double difference = std::abs(figures.at(name) - std::stod(written));
        CHECK_MESSAGE(difference <= tolerance(each, written),
                      written << " expected, found " << figures.at(name));
    }
}

/// Holds every case of `file` to its formula; every formula must be used.
inline void check_formulas(const std::string& file, const Formulas& formulas) {
    std::set<std::string> used;
    for_each_case(file, [&](const YAML::Node& each) {
        const auto name = each["case"].as<std::string>();
        CAPTURE(name);
        const auto formula = each["formula"].as<std::string>();
        used.insert(formula);
        Given given(each["given"]);
        std::string reason;
        try {
            const Figures figures = formulas.at(formula)(given);
            CHECK_MESSAGE(each["expect"].size() > 0, "nothing expected, and nothing refused");
            check_figures(each, figures);
        } catch (const std::exception& thrown) {
            reason = thrown.what();
        }
        if (each["reason"]) {
            CHECK(reason.find(each["reason"].as<std::string>()) != std::string::npos);
            CHECK(!reason.empty());
        } else {
            CHECK(reason == "");
            CHECK(given.unused() == "");
        }
    });
    for (const auto& formula : formulas)
        CHECK_MESSAGE(used.contains(formula.first), formula.first);
}

}  // namespace trialfit::testing
