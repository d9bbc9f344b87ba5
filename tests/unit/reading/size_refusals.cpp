// SPDX-License-Identifier: MIT
#include <string>
#include <string_view>

#include "support.hpp"

using namespace trialfit;

namespace {

std::string refusal(std::string_view written, quantity::Unit units = quantity::Unit::mm,
                    char general = 0) {
    job::Job job;
    job.units = units;
    job.general_tolerance = general;
    job.gauges = {{.name = "caliper", .at = {}, .half_width = 0.03}};
    const auto outcome = reading::read_size(written, job);
    CHECK(!outcome.size);
    return outcome.fault + "; " + outcome.mend;
}

}  // namespace

TEST_CASE("sizes that are none") {
    CHECK(refusal("abc") ==
          "'abc' is not a size; write it like '12.5 ±0.05', '25 h7' or '12.48 by "
          "caliper'");
    CHECK(refusal("") ==
          "'' is not a size; write it like '12.5 ±0.05', '25 h7' or '12.48 by "
          "caliper'");
    CHECK(refusal("by caliper") ==
          "'by caliper' is not a size; write it like '12.5 ±0.05', '25 h7' "
          "or '12.48 by caliper'");
    CHECK(refusal("±0.05") ==
          "'±0.05' has no size before its tolerance; write it like '12.5 ±0.05'");
    CHECK(refusal("12.5 ±") == "a number is missing in '12.5 ±'; write it like '12.5 ±0.05'");
    CHECK(refusal("12.5..") == "a number is missing in '12.5..'; write it like '12.5 ±0.05'");
    CHECK(refusal("..12.5") ==
          "'..12.5' is not a size; write it like '12.5 ±0.05', '25 h7' or "
          "'12.48 by caliper'");
    CHECK(refusal("12.5 12.6") ==
          "'12.5 12.6' holds two numbers with nothing between; write '12.5 "
          "±12.6', or '12.5..12.6' for two limits");
    CHECK(refusal("12.5 ±0.05 ±0.1") ==
          "'±' in '12.5 ±0.05 ±0.1' is not understood; write it like '12.5 ±0.05', '25 h7' or "
          "'12.48 by caliper'");
    CHECK(refusal("12.5 exat") == "'exat' in '12.5 exat' is not understood; did you mean 'exact'?");
    CHECK(refusal("12.5 exact 3") ==
          "'3' in '12.5 exact 3' is not understood; write it like '12.5 "
          "±0.05', '25 h7' or '12.48 by caliper'");
}

TEST_CASE("numbers that are no lengths") {
    CHECK(refusal("nan") == "'nan' is not a length; write a number");
    CHECK(refusal("-inf") == "'-' has no place in a size; write it like '12.5 ±0.05'");
    CHECK(refusal("Infinity") == "'Infinity' is not a length; write a number");
    CHECK(refusal(".nan") == "'.nan' is not a length; write a number");
    CHECK(refusal("12.5 ±nan") == "'12.5 ±nan' is not a length; write a number");
    CHECK(refusal("1e308 exact") ==
          "'1e308' is too large or too small for a length; lengths go up to 1000000");
    CHECK(refusal("1e999 exact") ==
          "'1e999' is too large or too small for a length; lengths go up to 1000000");
    CHECK(refusal("1e-999 exact") ==
          "'1e-999' is too large or too small for a length; lengths go up to 1000000");
    CHECK(refusal("1000001 exact") ==
          "'1000001' is too large or too small for a length; lengths go up to 1000000");
    CHECK(refusal("3/0 exact") ==
          "'3/0' is too large or too small for a length; lengths go up to 1000000");
    CHECK(refusal("0x1F") == "'0x1F' is not a decimal number; write it as '12.5'");
    CHECK(refusal("0x1p4 ±1") == "'0x1p4 ±1' is not a decimal number; write it as '12.5'");
    CHECK(refusal("0o17") == "'0o17' is not a decimal number; write it as '12.5'");
    CHECK(refusal("12,5 ±0.05") == "'12,5' is written with a decimal comma; write '12.5'");
    CHECK(refusal("12.5 ±0,05") == "'0,05' is written with a decimal comma; write '0.05'");
    CHECK(refusal("25e8") ==
          "'25e8' could be a tolerance class or a power of ten; write '25 e8' for the class");
}

TEST_CASE("limits and deviations that contradict themselves") {
    CHECK(refusal("12.55..12.45") ==
          "the limits in '12.55..12.45' are the wrong way round; write '12.45..12.55'");
    CHECK(refusal("12.55 mm..12.45 mm") ==
          "the limits in '12.55 mm..12.45 mm' are the wrong way round; write '12.45 mm..12.55 mm'");
    CHECK(refusal("12.5 ±-0.05") == "'-0.05' has a sign of its own after ±; write '±0.05'");
    CHECK(refusal("12.5 +0.1") ==
          "'12.5 +0.1' gives only one of the two deviations; write '12.5 +0.1 -0' or '12.5 ±0.1'");
    CHECK(refusal("12.5 -0.1") ==
          "'12.5 -0.1' gives only one of the two deviations; write '12.5 +0 -0.1' or '12.5 ±0.1'");
    CHECK(refusal("12.5 +0.1 0.02") == "'0.02' has no sign; write '+0.02' or '-0.02'");
    CHECK(refusal("50 +0.043 +0.059") ==
          "the deviations in '50 +0.043 +0.059' are the wrong way round; the upper stands first: "
          "write '50 +0.059 +0.043'");
    CHECK(refusal("50 -0.061 -0.040") ==
          "the deviations in '50 -0.061 -0.040' are the wrong way round; the upper stands first: "
          "write '50 -0.040 -0.061'");
}

TEST_CASE("units") {
    CHECK(refusal("12.5 ±50 um") ==
          "'12.5 ±50 um' does not say whether 'um' counts for '12.5', too; "
          "write '12.5 mm ±50 um'");
    CHECK(
        refusal("0.5 ±2 thou", quantity::Unit::inch) ==
        "'0.5 ±2 thou' does not say whether 'thou' counts for '0.5', too; write '0.5 in ±2 thou'");
    CHECK(refusal("12.5 +50 um -20 um") ==
          "'12.5 +50 um -20 um' does not say whether 'um' counts "
          "for '12.5', too; write '12.5 mm +50 um -20 um'");
    CHECK(refusal("12.5 cm") == "'cm' is not a unit of this file format; write mm, um, in or thou");
    CHECK(refusal("0.5\" ±0.01") == "'\"' is not a unit here; write 'in'");
    CHECK(refusal("12.5 incch") ==
          "'incch' in '12.5 incch' is not understood; did you mean 'inch'?");
}

TEST_CASE("characters from a word processor") {
    CHECK(refusal("\u22126 ±0.05") == "'\u2212' is a minus sign from a word processor; write '-'");
    CHECK(refusal("12.4\u201312.6") ==
          "'\u2013' is a dash, not a minus; write '-', or '..' between two limits");
    CHECK(refusal("12.5\u00a0±0.05") ==
          "a space that is not an ordinary one; delete it and type a space");
    CHECK(refusal("12.4\u202612.6") == "'\u2026' is one character; write two dots: '..'");
    CHECK(refusal("12.5 ~ 0.1") == "'~' has no place in a size; write it like '12.5 ±0.05'");
    CHECK(refusal("12.5 \u2248 0.1") ==
          "'\u2248' has no place in a size; write it like '12.5 ±0.05'");
}

TEST_CASE("gauges") {
    CHECK(refusal("12.5 by calliper") ==
          "'calliper' is not one of the file's gauges; did you mean 'caliper'?");
    CHECK(refusal("12.5 by ruler") ==
          "'ruler' is not one of the file's gauges; add it under 'gauges' "
          "with the half-width it is good to");
    CHECK(refusal("12.5 by") ==
          "'12.5 by' does not name its gauge; write it like '12.48 by caliper'");
    CHECK(refusal("[12.5, 12.6]") ==
          "'[12.5, 12.6]' does not say which gauge it was read by; write "
          "it like '[12.48, 12.50] by caliper'");
    CHECK(refusal("[12.5, 12.6 by caliper") ==
          "'[12.5, 12.6 by caliper' has no ']' after its "
          "readings; write it like '[12.48, 12.50] by caliper'");
    CHECK(refusal("[12.5] by caliper") ==
          "'[12.5] by caliper' is a list of one reading; leave the "
          "brackets out, or add the other readings");
    CHECK(refusal("[] by caliper") ==
          "a number is missing in '[] by caliper'; write it like '12.5 ±0.05'");
    const auto none = reading::read_size("12.5 by caliper", job::Job());
    CHECK(none.fault == "'caliper' is no gauge of this file, which names none");
    CHECK(none.mend == "add 'gauges: {caliper: SIZE}', the half-width it is good to");
}

TEST_CASE("general tolerances and tolerance classes that there are not") {
    CHECK(refusal("12.5") ==
          "'12.5' has no tolerance, and the file no general one; write '12.5 ±0.1', "
          "'12.5 h7', '12.5 by GAUGE' or '12.5 exact', or set general_tolerance");
    CHECK(refusal("0.3", quantity::Unit::mm, 'm') ==
          "ISO 2768-m has no tolerance for 0.3 mm; state this size's own limits");
    CHECK(refusal("25 h19") == "'h19' asks for grade 19; ISO 286 grades run from 01 and 0 to 18");
    CHECK(refusal("-25 h7") ==
          "ISO 286 limits are known over 0 up to 500 mm, not for -25 mm; state "
          "the limits themselves");
    CHECK(refusal("25 i7") ==
          "'i' is no letter of ISO 286; the letters are a to zc without i, l, o, "
          "q, w");
}
