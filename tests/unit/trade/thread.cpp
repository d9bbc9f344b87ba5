// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/trade/thread/thread.hpp>

namespace trialfit::trade {

TEST_CASE("metric designations") {
    const auto fine = thread("M10x1.25-6g").value();
    CHECK(fine.written == "M10x1.25-6g");
    CHECK(fine.series == ThreadSeries::metric_fine);
    CHECK(fine.d_mm == 10.0);
    CHECK(fine.pitch_mm == 1.25);
    CHECK(fine.tolerance == ThreadClass{false, 0, {6, 'g'}, {6, 'g'}});
    CHECK_FALSE(fine.left_hand);

    CHECK(thread("M10").value().pitch_mm == 1.5);
    CHECK(thread("M10").value().series == ThreadSeries::metric_coarse);
    CHECK(thread("M10x1.5").value().series == ThreadSeries::metric_coarse);
    CHECK_FALSE(thread("M10").value().tolerance);
    CHECK(thread("M10x1.25-5g6g").value().tolerance == ThreadClass{false, 0, {5, 'g'}, {6, 'g'}});
    CHECK(thread("M10x1.25-LH").value().left_hand);
    const auto nut = thread("M10 X 1.25 - 6H - LH").value();
    CHECK(nut.left_hand);
    CHECK(nut.tolerance == ThreadClass{true, 0, {6, 'H'}, {6, 'H'}});
    CHECK(thread("M10-7H-L").value().engagement == 'L');
    CHECK(thread("M10\u00d71").value().pitch_mm == 1.0);
    // Not in ISO 261, but seen on rotors for their extractors.
    CHECK(thread("M27x1.25").value().series == ThreadSeries::metric_fine);
}

TEST_CASE("unified designations") {
    const auto fine = thread("3/8-24 UNF-2A").value();
    CHECK(fine.series == ThreadSeries::unf);
    CHECK(fine.d_mm == doctest::Approx(9.525).epsilon(1e-15));
    CHECK(fine.pitch_mm == doctest::Approx(25.4 / 24.0).epsilon(1e-15));
    CHECK(fine.per_inch == 24.0);
    CHECK(fine.tolerance == ThreadClass{false, 2, {}, {}});
    CHECK(thread("1/2-20 UNF").value().d_mm == 12.7);
    CHECK(thread("1/2-20 UNF-2B-LH").value().left_hand);
    CHECK(thread("0.375-24 UNF-2A").value().d_mm == fine.d_mm);
    CHECK(thread(".313-24 UNF").value().d_mm == doctest::Approx(25.4 * 0.3125).epsilon(1e-15));
    CHECK(thread("#10-32 UNF-2B").value().d_mm == doctest::Approx(4.826).epsilon(1e-15));
    CHECK(thread("10-32 UNF").value().d_mm == doctest::Approx(4.826).epsilon(1e-15));
    CHECK(thread("1-8 UNC").value().d_mm == 25.4);
    CHECK(thread("1-64 UNC").value().d_mm == doctest::Approx(25.4 * 0.073).epsilon(1e-15));
    CHECK(thread("1 1/8-12 UNF").value().d_mm == doctest::Approx(25.4 * 1.125).epsilon(1e-15));
    CHECK(thread("1-1/8-12").value().series == ThreadSeries::unf);
    CHECK(thread("3/8 unf-2a").value().per_inch == 24.0);
    CHECK(thread("1/2-16 UN").value().series == ThreadSeries::un);
    CHECK(thread("1/2-24").value().series == ThreadSeries::uns);
    CHECK(thread("1/4-32 UNEF-3A").value().series == ThreadSeries::unef);
}

TEST_CASE("what cannot be a thread is refused with the mend") {
    const auto reason = [](const char* text) { return thread(text).reason(); };
    CHECK(reason("10 mm") ==
          "'10 mm' is no thread designation; write M10x1.25-6g, M10-6H, 3/8-24 UNF-2A or "
          "#10-32 UNF-2B, with -LH for left-hand");
    CHECK(reason("M10x12.5") ==
          "'M10x12.5' has a pitch of 12.5 mm, which a diameter of 10 mm does not allow; the coarse "
          "pitch of M10 is 1.5");
    CHECK(reason("M13") ==
          "'M13' names no pitch, and ISO 261 has no coarse pitch for M13; write the pitch, as in "
          "M13x1.5");
    CHECK(
        reason("M10x1.25-6i") ==
        "'6i' is no thread tolerance class; write a grade 3 to 9 and a letter, e f g h for a bolt "
        "or G H for a nut, as in 6g or 6H");
    CHECK(
        reason("M10-5g") ==
        "'5g': a bolt's major diameter takes grade 4, 6 or 8; name it after the pitch diameter's, "
        "as in 5g6g");
    CHECK(reason("M10-3H") == "'3H': a nut thread takes grades 4 to 8; 6H is usual");
    CHECK(reason("M10-6H/6g") ==
          "'6H/6g' is a pair of classes; give each part its own, the nut's or the bolt's");
    CHECK(reason("M10-6g-6h") == "'M10-6g-6h' names two tolerance classes; keep one");
    CHECK(reason("3/8-24 UNC") ==
          "'3/8-24 UNC': UNC at this size has 16 threads per inch, not 24; mend the pitch or the "
          "series");
    CHECK(reason("3/8-24 UNJF") ==
          "'UNJF' is no thread series known here; write UNC, UNF, UNEF, UN or UNS");
    CHECK(reason("3/8-24 UNF-4A") ==
          "'4A' is no thread tolerance class; write 1A, 2A or 3A for a bolt, 1B, 2B or 3B for a "
          "nut");
    CHECK(reason("5/32 UNC") ==
          "'5/32 UNC': UNC has no size of 0.15625 in; write UNS for a special thread");
    for (const std::string bad :
         {"",           "M",         "M0",         "M-10",        "M10x",
          "M10x0",      "M10x-1",    "M10-",       "M10-6g-",     "Mx1",
          "M10-2A",     "3/8-24-6g", "M10-6",      "M10-6gg",     "M10-66gg",
          "3/8",        "UNF",       "#13-24 UNC", "#1/2-20 UNF", "3/0-24 UNF",
          "3/8-0 UNF",  "M1e3",      "M10-6g6H",   "1/4-2 UNS",   "#10",
          "M10-6g-LH-x"})
        CHECK_MESSAGE(!thread(bad).ok(), bad);
    CHECK_FALSE(thread(std::string(100000, '1')).ok());
    CHECK(thread("99999999999999999999-8 UNS").ok());  // a diameter beyond int is still a number
    CHECK_FALSE(thread("M" + std::string(100000, '-')).ok());
}

}  // namespace trialfit::trade
