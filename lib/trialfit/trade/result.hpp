// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <utility>

namespace trialfit::trade {

/// Why a written value or a question has no answer: one sentence that names the fault and the mend,
/// fit to stand after "error: ". Never empty.
struct Reason {
    std::string text;

    [[nodiscard]] bool operator==(const Reason&) const = default;
};

/// A value, or the reason why there is none. User input never throws.
template <typename T>
class Result {
public:
    Result(T value) : value_(std::move(value)) {}               // NOLINT(*-explicit-*)
    Result(Reason reason) : reason_(std::move(reason.text)) {}  // NOLINT(*-explicit-*)

    [[nodiscard]] bool ok() const { return value_.has_value(); }
    [[nodiscard]] explicit operator bool() const { return ok(); }
    /// The value; throws std::bad_optional_access where there is none.
    [[nodiscard]] const T& value() const { return value_.value(); }
    [[nodiscard]] const T& operator*() const { return value(); }
    [[nodiscard]] const T* operator->() const { return &value(); }
    /// Empty where there is a value.
    [[nodiscard]] const std::string& reason() const { return reason_; }
    /// The reason, to hand on as the answer of a caller.
    [[nodiscard]] Reason why() const { return Reason{reason_}; }

private:
    std::optional<T> value_;
    std::string reason_;
};

}  // namespace trialfit::trade
