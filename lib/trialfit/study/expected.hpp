// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/complaint.hpp>
#include <utility>
#include <variant>

namespace trialfit {

/// An answer, or every fault that forbids one as a record with its place. Bad input never throws.
template <typename T>
class Expected {
public:
    /// The answer; `warnings` stand beside it.
    Expected(T value, job::Complaints warnings = {})  // NOLINT(*-explicit-*)
        : value_(std::move(value)), complaints_(std::move(warnings)) {}
    /// No answer, and why.
    Expected(job::Complaints faults) : complaints_(std::move(faults)) {}  // NOLINT(*-explicit-*)
    Expected(std::variant<T, job::Complaints> either) {                   // NOLINT(*-explicit-*)
        if (auto* const value = std::get_if<T>(&either))
            value_ = std::move(*value);
        else
            complaints_ = std::move(std::get<job::Complaints>(either));
    }

    [[nodiscard]] bool has_value() const { return value_.has_value(); }
    [[nodiscard]] explicit operator bool() const { return has_value(); }
    /// The answer; std::bad_optional_access where there is none, which the caller has not looked
    /// at.
    [[nodiscard]] const T& value() const& { return value_.value(); }
    [[nodiscard]] T&& value() && { return std::move(value_).value(); }
    [[nodiscard]] const T& operator*() const& { return value(); }
    [[nodiscard]] T&& operator*() && { return std::move(*this).value(); }
    [[nodiscard]] const T* operator->() const { return &value(); }
    /// Of no answer: its faults, at least one of them an error. Of an answer: warnings, or none.
    [[nodiscard]] const job::Complaints& complaints() const { return complaints_; }

private:
    std::optional<T> value_;
    job::Complaints complaints_;
};

}  // namespace trialfit
