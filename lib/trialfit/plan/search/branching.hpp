// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>

#include <trialfit/plan/search/node.hpp>
#include <trialfit/plan/search/relaxation.hpp>

namespace trialfit::plan {

struct Halves {
    Node likely;  ///< the half in which the program's solution lies
    Node other;
};

/// Ways to split a node once its program is solved. All methods speak of the program last read.
class Branching {
public:
    Branching(const Model& model, const Relaxation& relaxation)
        : model_(model), relaxation_(relaxation) {}

    /// The open point nearest to the program's thickness of a seat; of those, the one worth most.
    [[nodiscard]] std::uint32_t nearest(const Node& node, std::size_t seat) const;

    [[nodiscard]] static Halves by_cut(Node node, std::size_t cut, bool likely_made);
    /// Splits what is still open of a kind that is not to be included: the likely half is without.
    /// None when nothing of it is open.
    [[nodiscard]] std::optional<Halves> by_kind(const Node& node, const Kind& kind) const;
    /// Splits a seat, or where no seat is left to split, a cut; none when nothing is left.
    [[nodiscard]] std::optional<Halves> by_seat(Node node) const;

private:
    /// Of a seat's nearest point: how much worse it is than the program has it.
    [[nodiscard]] double mismatch(const Node& node, std::size_t seat) const;
    [[nodiscard]] double spread_missing(const Node& node, std::size_t seat) const;
    [[nodiscard]] double thickness_of(std::size_t seat, std::uint32_t point) const {
        return model_.choices[seat].points[point].thickness;
    }
    template <typename Likely>
    [[nodiscard]] std::optional<Halves> parted(Node& node, std::size_t seat, Likely likely) const;
    [[nodiscard]] std::optional<Halves> by_shortage(Node& node) const;
    [[nodiscard]] std::optional<Halves> by_spread(Node& node) const;

    const Model& model_;
    const Relaxation& relaxation_;
};

}  // namespace trialfit::plan
