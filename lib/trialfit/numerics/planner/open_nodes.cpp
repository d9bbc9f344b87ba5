// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/open_nodes.hpp>

#include <algorithm>
#include <utility>

namespace trialfit::numerics {

namespace {

constexpr std::size_t kMostHeapBytes = std::size_t{128} << 20U;
constexpr std::size_t kMostProgramBytes = std::size_t{64} << 20U;

// Of equal bounds the newest comes first: it is nearer to a plan.
bool comes_after(const SearchNode& a, const SearchNode& b) {
    return a.bound != b.bound ? a.bound > b.bound : a.number < b.number;
}

std::size_t bytes_of(const SearchNode& node) {
    std::size_t bytes = sizeof(SearchNode) + node.states.size() +
                        node.amounts.size() * sizeof(Interval) +
                        node.spreads.size() * sizeof(Interval);
    for (const auto& open : node.stacks)
        bytes += open.size() * sizeof(std::uint32_t);
    return bytes;
}

std::size_t program_bytes_of(const SearchNode& node) {
    const std::size_t size = node.program.rows() + node.program.columns();
    return (node.program.rows() * node.program.columns() + 8 * size) * sizeof(double);
}

}  // namespace

void OpenNodes::add(SearchNode node) {
    if (program_bytes_ >= kMostProgramBytes) node.program = {};
    if (heap_bytes_ >= kMostHeapBytes) {
        program_bytes_ += program_bytes_of(node);
        newest_.push_back(std::move(node));
        return;
    }
    for (auto& open : node.stacks)
        open.shrink_to_fit();
    heap_bytes_ += bytes_of(node);
    program_bytes_ += node.program.columns() == 0 ? 0 : program_bytes_of(node);
    heap_.push_back(std::move(node));
    std::push_heap(heap_.begin(), heap_.end(), comes_after);
}

std::optional<SearchNode> OpenNodes::take() {
    if (!newest_.empty()) {
        SearchNode node = std::move(newest_.back());
        newest_.pop_back();
        program_bytes_ -= program_bytes_of(node);
        if (node.program.columns() == 0) node.program = root_program_;
        return node;
    }
    if (heap_.empty()) return std::nullopt;
    std::pop_heap(heap_.begin(), heap_.end(), comes_after);
    SearchNode node = std::move(heap_.back());
    heap_.pop_back();
    heap_bytes_ -= bytes_of(node);
    if (node.program.columns() == 0) {
        node.program = root_program_;
    } else {
        program_bytes_ -= program_bytes_of(node);
    }
    return node;
}

void OpenNodes::clear() {
    heap_.clear();
    newest_.clear();
    heap_bytes_ = 0;
    program_bytes_ = 0;
}

double OpenNodes::lowest() const {
    double lowest = kInfinity;
    if (!heap_.empty()) lowest = heap_.front().bound;
    for (const SearchNode& node : newest_)
        lowest = std::min(lowest, node.bound);
    return lowest;
}

}  // namespace trialfit::numerics
