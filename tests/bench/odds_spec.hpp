// SPDX-License-Identifier: MIT
// Reads the odds' benchmark specs (spec/w1.txt, w2a.txt, w2b.txt): laws written as N mean sd,
// U from to, T from mode to, TN mean sd cut.
#pragma once

#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <string>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/numerics/random/sampler.hpp>
#include <vector>

namespace trialfit::bench {

inline numerics::Distribution read_law(std::istream& in) {
    std::string kind;
    double a = 0.0;
    double b = 0.0;
    double c = 0.0;
    in >> kind >> a >> b;
    if (kind == "N") return numerics::normal(a, b);
    if (kind == "U") return numerics::uniform(a, b);
    in >> c;
    return kind == "T" ? numerics::triangular(a, b, c) : numerics::truncated_normal(a, b, c);
}

inline std::stringstream read_spec(const std::string& name) {
    std::ifstream file(TRIALFIT_SOURCE_DIR "/tests/bench/spec/" + name);
    if (!file) throw std::runtime_error("no spec " + name);
    std::stringstream text;
    for (std::string line; std::getline(file, line);)
        if (line.empty() || line[0] != '#') text << line << '\n';
    return text;
}

struct Sampled {
    numerics::Population population;
    std::vector<numerics::LinearCheck> checks;
};

inline Sampled read_sampled(const std::string& name) {
    std::stringstream in = read_spec(name);
    std::size_t inputs = 0;
    std::size_t outputs = 0;
    Sampled out;
    in >> inputs;
    for (std::size_t i = 0; i < inputs; ++i)
        out.population.sizes.push_back(read_law(in));
    in >> outputs;
    for (std::size_t i = 0; i < outputs; ++i) {
        numerics::LinearCheck check;
        in >> check.lower >> check.upper;
        check.coefficients.resize(inputs);
        for (double& coefficient : check.coefficients)
            in >> coefficient;
        out.checks.push_back(check);
    }
    return out;
}

inline std::vector<numerics::Contributor> read_sum(const std::string& name) {
    std::stringstream in = read_spec(name);
    std::size_t inputs = 0;
    in >> inputs;
    std::vector<numerics::Contributor> out(inputs);
    for (numerics::Contributor& one : out) {
        in >> one.sensitivity;
        one.distribution = read_law(in);
    }
    return out;
}

}  // namespace trialfit::bench
