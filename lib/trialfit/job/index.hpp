// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <concepts>
#include <cstddef>
#include <utility>
#include <vector>

namespace trialfit::job {

/// Which one of a job's or a part's list of `Of` something is, counted from 0. A plain number
/// becomes one where it is handed over; an index into one list never becomes, and is never compared
/// with, an index into another. Made without a number it points at nothing, as does every negative
/// one; where there may rightly be none, std::optional says so.
template <typename Of>
class Index {
public:
    constexpr Index() = default;
    // NOLINTNEXTLINE(google-explicit-constructor): what goes through a list counts.
    constexpr Index(int at) : at_(at) {}
    constexpr explicit Index(std::size_t at) : at_(static_cast<int>(at)) {}

    /// -1 where it points at nothing.
    // NOLINTNEXTLINE(google-explicit-constructor): it is what a vector is asked for.
    [[nodiscard]] constexpr operator int() const { return at_; }
    /// As a list counts: `job.parts[part.at()]`. It must point at something.
    [[nodiscard]] constexpr std::size_t at() const { return static_cast<std::size_t>(at_); }

    [[nodiscard]] constexpr auto operator<=>(const Index&) const = default;
    [[nodiscard]] constexpr bool operator==(const Index&) const = default;
    template <std::integral Number>
    [[nodiscard]] constexpr bool operator==(Number other) const {
        return std::cmp_equal(at_, other);
    }
    template <std::integral Number>
    [[nodiscard]] constexpr auto operator<=>(Number other) const {
        return std::cmp_less(at_, other)      ? std::strong_ordering::less
               : std::cmp_greater(at_, other) ? std::strong_ordering::greater
                                              : std::strong_ordering::equal;
    }
    template <typename Other>
    bool operator==(Index<Other>) const = delete;
    template <typename Other>
    auto operator<=>(Index<Other>) const = delete;

private:
    int at_ = -1;
};

/// What indices() gives: `for (const PartId p : indices(job.parts))`.
template <typename Of>
class Indices {
public:
    class Iterator {
    public:
        explicit constexpr Iterator(std::size_t at) : at_(at) {}
        [[nodiscard]] constexpr Index<Of> operator*() const { return Index<Of>(at_); }
        constexpr Iterator& operator++() {
            ++at_;
            return *this;
        }
        [[nodiscard]] constexpr bool operator==(const Iterator&) const = default;

    private:
        std::size_t at_;
    };

    explicit constexpr Indices(std::size_t count) : count_(count) {}
    [[nodiscard]] constexpr Iterator begin() const { return Iterator(0); }
    [[nodiscard]] constexpr Iterator end() const { return Iterator(count_); }

private:
    std::size_t count_;
};

/// All the indices of a list, rising.
template <typename Of>
[[nodiscard]] constexpr Indices<Of> indices(const std::vector<Of>& list) {
    return Indices<Of>(list.size());
}

struct Part;
struct Face;
struct Ring;
struct Cone;
struct Thread;
struct Seat;
struct Gauge;

using PartId = Index<Part>;      ///< into Job::parts
using FaceId = Index<Face>;      ///< into Part::faces
using RingId = Index<Ring>;      ///< into Part::rings
using ConeId = Index<Cone>;      ///< into Part::cones
using ThreadId = Index<Thread>;  ///< into Part::threads
using SeatId = Index<Seat>;      ///< into Part::seats
using GaugeId = Index<Gauge>;    ///< into Job::gauges

}  // namespace trialfit::job
