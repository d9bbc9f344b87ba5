// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <trialfit/plan/search/model.hpp>
#include <trialfit/plan/settle/simplex.hpp>

namespace trialfit::plan {

/// A part of the search: what is still open.
struct Node {
    std::vector<State> states;                       ///< of each cut
    std::vector<Range> depths;                       ///< of each cut, if it is made
    std::vector<std::vector<std::uint32_t>> stacks;  ///< of each seat: points still open, ascending
    std::vector<Range> spreads;                      ///< of each seat, over the points still open
    double bound = -kInfinity;                       ///< no plan in this part is worth less
    std::size_t number = 0;                          ///< later nodes have higher ones
    Simplex program;                                 ///< where its bound came from

    [[nodiscard]] bool settled() const;
};

[[nodiscard]] Node root_node(const Model& model);

/// To be called when points of a seat were struck out.
void refresh_spread(const Model& model, std::size_t seat, Node& node);

/// Strikes out what cannot be in any plan that meets every row, until nothing more gives. False
/// when nothing is left. `excluded`: kinds that no plan may include.
[[nodiscard]] bool propagate(const Model& model, const std::vector<Kind>& excluded, Node& node);

/// Bounds on a row's units over all that is open in a node.
[[nodiscard]] Range units_range(const Model& model, std::size_t row, const Node& node);

struct Shares {
    std::optional<std::vector<std::vector<std::size_t>>> stacks;  ///< one for each seat
    bool gave_up = false;  ///< none was found, but not all were tried
};

/// Picks a stack for each seat from the point given for it, no piece used twice; none when there
/// are not enough pieces. Of several, the first in file order.
[[nodiscard]] Shares share_out(const Model& model, const std::vector<std::uint32_t>& points);

}  // namespace trialfit::plan
