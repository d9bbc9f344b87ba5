// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/form.hpp>
#include <vector>

namespace trialfit::stack {

/// Sizes that nobody has measured, as far as closures (forms that must be zero) fix them. Gauss-
/// Jordan elimination of the closures by the unmeasured sizes, with complete pivoting: each closure
/// that is used up gives one of them in terms of the others; what is left says nothing of
/// unmeasured sizes, and can be adjusted.
class Unmeasured {
public:
    Unmeasured() = default;
    /// Of `closures` over sizes of which `is_unmeasured` marks those that nobody has measured.
    Unmeasured(std::vector<Form> closures, const std::vector<bool>& is_unmeasured);

    [[nodiscard]] bool any() const { return !is_unmeasured_.empty(); }

    /// `form` with every size put in that a closure gives. It stands on measured sizes alone where
    /// the closures fix it, however many unmeasured sizes it had.
    [[nodiscard]] Form known(Form form) const;

    /// Whether a form that known() gave still stands on a size that nothing fixes: by itself, or by
    /// a lever that such a size makes (its sensitivity is then no number).
    [[nodiscard]] bool open(const Form& form) const;

    /// The closures with every size put in, in their order: those that are used up are zero.
    [[nodiscard]] const std::vector<Form>& closures() const { return closures_; }

private:
    struct Given {
        int size = -1;
        Form is;  // what the size is, in sizes that are not given themselves
    };

    std::vector<bool> is_unmeasured_;  // empty where no size is
    std::vector<Given> given_;
    std::vector<Form> closures_;
};

}  // namespace trialfit::stack
