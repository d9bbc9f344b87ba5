// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <trialfit/quantity/units.hpp>
#include <trialfit/study/differences.hpp>
#include <trialfit/study/named_sizes.hpp>

namespace trialfit::study {

namespace {

using Written = std::optional<SizeWritten>;

bool same(const quantity::Size& one, double mm_one, const quantity::Size& other, double mm_other) {
    constexpr double kAlike = 1e-9;  // what a change of unit leaves
    const auto alike = [&](double a, double b) {
        return std::abs(a * mm_one - b * mm_other) <= kAlike;
    };
    if (one.is_unmeasured() || other.is_unmeasured())
        return one.is_unmeasured() && other.is_unmeasured();
    return alike(one.nominal, other.nominal) && alike(one.lower, other.lower) &&
           alike(one.upper, other.upper);
}

bool same(const Written& one, double mm_one, const Written& other, double mm_other) {
    if (!one || !other) return !one && !other;
    return std::equal(one->sizes.begin(), one->sizes.end(), other->sizes.begin(),
                      other->sizes.end(),
                      [&](const auto& a, const auto& b) { return same(a, mm_one, b, mm_other); });
}

}  // namespace

std::vector<Difference> differences(const std::vector<const job::Job*>& jobs) {
    std::vector<std::string> order;
    std::map<std::string, std::vector<Written>> all;
    bool one_unit = true;
    for (std::size_t j = 0; j < jobs.size(); ++j) {
        one_unit = one_unit && jobs[j]->units == jobs.front()->units;
        for (SizeWritten& size : sizes_written(*jobs[j])) {
            auto& of = all[size.name];
            if (of.empty()) order.push_back(size.name);
            of.resize(jobs.size());
            of[j] = std::move(size);
        }
    }
    std::vector<Difference> out;
    for (const std::string& name : order) {
        const std::vector<Written>& of = all[name];
        const auto mm = [&jobs](std::size_t j) { return quantity::mm_per(jobs[j]->units); };
        bool alike = true;
        for (std::size_t j = 1; j < jobs.size(); ++j)
            alike = alike && same(of[0], mm(0), of[j], mm(j));
        if (alike) continue;
        Difference each{.name = name, .written = {}};
        for (std::size_t j = 0; j < jobs.size(); ++j) {
            each.written.push_back(of[j] ? of[j]->written : "");
            if (of[j] && !one_unit)
                each.written.back() += " " + std::string(quantity::name(jobs[j]->units));
        }
        out.push_back(std::move(each));
    }
    return out;
}

}  // namespace trialfit::study
