// SPDX-License-Identifier: MIT
// An index points into one list and into no other.

#include <doctest/doctest.h>

#include <trialfit/job/job.hpp>
#include <type_traits>
#include <vector>

namespace trialfit {

namespace {

template <typename One, typename Other>
concept Compared = requires(One one, Other other) {
    one == other;
};
template <typename One, typename Other>
concept Ordered = requires(One one, Other other) {
    one < other;
};

static_assert(!std::is_convertible_v<job::FaceId, job::PartId>);
static_assert(!std::is_assignable_v<job::PartId&, job::SeatId>);
static_assert(!std::is_convertible_v<job::ConeRef, job::RingRef>);
static_assert(!Compared<job::PartId, job::FaceId>);
static_assert(!Ordered<job::PartId, job::FaceId>);
static_assert(std::is_convertible_v<int, job::PartId>);
static_assert(Compared<job::PartId, job::PartId> && Compared<job::PartId, std::size_t>);

TEST_CASE("an index made without a number points at nothing") {
    CHECK(job::PartId{} < 0);
    CHECK(job::PartId{} != job::PartId{0});
    CHECK(job::FaceRef{}.part == job::PartId{});
}

TEST_CASE("an index is compared as the number it is") {
    const job::PartId two = 2;
    CHECK(two == 2);
    CHECK(two == std::size_t{2});
    CHECK(two < 3);
    CHECK(two > std::size_t{1});
    CHECK(job::PartId{} < std::size_t{0});
    CHECK(two == job::PartId{std::size_t{2}});
}

TEST_CASE("the indices of a list are gone through in its order") {
    const std::vector<job::Part> parts(3);
    std::vector<int> seen;
    for (const job::PartId part : job::indices(parts))
        seen.push_back(part);
    CHECK(seen == std::vector<int>{0, 1, 2});
    CHECK(job::indices(std::vector<job::Face>{}).begin() ==
          job::indices(std::vector<job::Face>{}).end());
}

}  // namespace

}  // namespace trialfit
