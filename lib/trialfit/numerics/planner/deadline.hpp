// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <utility>

namespace trialfit::numerics {

struct Progress {
    std::size_t nodes = 0;
    double seconds = 0.0;
    std::optional<double> best_cost;
    double bound = 0.0;  ///< no plan is cheaper
};

/// How a search is watched and stopped; every member may be left out. The library never reads a
/// clock for anything but this.
struct SearchControl {
    const std::atomic<bool>* stop = nullptr;
    std::function<bool(const Progress&)> progress;  ///< false stops the search
    std::optional<double> seconds;                  ///< for the whole call
    std::optional<std::size_t> nodes;  ///< for each search; unlike seconds, the same everywhere
};

/// Keeps the time for a whole call and asks whether to stop. Every loop that may take long asks it.
class Deadline {
public:
    explicit Deadline(SearchControl watch)
        : watch_(std::move(watch)), start_(std::chrono::steady_clock::now()) {}
    [[nodiscard]] double seconds() const;
    /// True when the caller wants no more, or the time is over; then it stays true.
    [[nodiscard]] bool stopped(const Progress& progress);
    [[nodiscard]] bool stopped();
    [[nodiscard]] bool was_stopped() const { return stopped_; }
    [[nodiscard]] const SearchControl& watch() const { return watch_; }
    /// A clock for what still has to be done once this one is over: as much time as is left, but
    /// at least `seconds`. The caller's wish to stop stops it too.
    [[nodiscard]] Deadline at_least(double seconds) const;

private:
    SearchControl watch_;
    std::chrono::steady_clock::time_point start_;
    bool stopped_ = false;
};

}  // namespace trialfit::numerics
