// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <trialfit/numerics/planner/node.hpp>

namespace trialfit::numerics {

/// The parts of a search still to be looked at, lowest bound first. Its memory is bounded: where
/// many are kept their programs are not (they start from the root's when their turn comes), and
/// where there are too many the newest come first, depth first, until there is room again.
class OpenNodes {
public:
    void set_root_program(const Simplex& program) { root_program_ = program; }
    void add(SearchNode node);
    /// The next to look at; none when all were seen.
    [[nodiscard]] std::optional<SearchNode> take();
    void clear();

    [[nodiscard]] bool empty() const { return heap_.empty() && newest_.empty(); }
    /// No node's bound is below this; infinite when there is none.
    [[nodiscard]] double lowest() const;

private:
    std::vector<SearchNode> heap_;
    std::vector<SearchNode> newest_;
    Simplex root_program_;
    std::size_t heap_bytes_ = 0;
    std::size_t program_bytes_ = 0;
};

}  // namespace trialfit::numerics
