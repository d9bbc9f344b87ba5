// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/trade/fit/limits.hpp>
#include <trialfit/trade/fit/limits_tables.hpp>
#include <trialfit/trade/reference/written.hpp>

namespace trialfit::trade {

namespace {

// A size converted from inches may come out a last bit above its step.
constexpr double kRounding_mm = 1e-9;

template <std::size_t N>
std::size_t step_of(const std::array<double, N>& upper_ends, double size_mm) {
    const auto* const at =
        std::lower_bound(upper_ends.begin(), upper_ends.end(), size_mm - kRounding_mm);
    return static_cast<std::size_t>(at - upper_ends.begin());
}

std::string grade_text(int grade) {
    return grade < 0 ? "01" : std::to_string(grade);
}

std::string written_as(const ToleranceClass& of) {
    return (of.hole ? upper_case(of.letter) : of.letter) + grade_text(of.grade);
}

std::optional<Reason> size_outside(double size_mm) {
    if (size_mm > 0.0 && size_mm <= 500.0 + kRounding_mm) return {};
    return Reason{"ISO 286 limits are known over 0 up to 500 mm, not for " + shown(size_mm) +
                  " mm; state the limits themselves"};
}

Reason no_such_class(const ToleranceClass& of, double size_mm) {
    return Reason{"ISO 286 has no " + written_as(of) + " at " + shown(size_mm) +
                  " mm; take another class or state the limits themselves"};
}

// The fundamental deviation of a shaft and the side it is on.
struct Fundamental {
    double um = 0.0;
    bool is_upper = false;
};

std::optional<Fundamental> fundamental_of_shaft(const std::string& letter, int grade,
                                                double size_mm) {
    const std::size_t step = step_of(iso286::kMainSteps, size_mm);
    if (letter == "k")
        return Fundamental{grade >= 4 && grade <= 7 ? iso286::k_deviation_um(step) : 0.0, false};
    if (letter == "j") {
        const auto lower = iso286::j_deviation_um(grade, step);
        if (!lower) return {};
        return Fundamental{*lower, false};
    }
    const auto deviation = iso286::shaft_deviation_um(letter, step_of(iso286::kFineSteps, size_mm));
    if (!deviation) return {};
    return Fundamental{*deviation, letter.front() <= 'h'};
}

// ISO 286-1:2010, 4.3.2.5 and table 3: ES of K to ZC.
std::optional<double> upper_of_tight_hole(const std::string& letter, int grade, double size_mm,
                                          std::size_t step) {
    const bool up_to_3 = step == 0;
    if (letter == "k" && grade > 8 && !up_to_3) return {};
    if (letter == "n" && grade > 8 && !up_to_3) return 0.0;
    const auto shaft =
        letter == "k" ? std::optional(iso286::k_deviation_um(step))
                      : iso286::shaft_deviation_um(letter, step_of(iso286::kFineSteps, size_mm));
    if (!shaft) return {};
    const int last_with_delta = letter == "k" || letter == "m" || letter == "n" ? 8 : 7;
    if (up_to_3 || grade > last_with_delta) return -*shaft;
    if (grade < 3) return {};
    // The one exception that the standard makes to the rule: -9 and not -11.
    if (letter == "m" && grade == 6 && iso286::kMainSteps.at(step) == 315.0) return -9.0;
    const auto tolerance = iso286::standard_tolerance_um(grade, step);
    const auto finer = iso286::standard_tolerance_um(grade - 1, step);
    if (!tolerance || !finer) return {};
    return -*shaft + (*tolerance - *finer);
}

std::optional<Fundamental> fundamental_of_hole(const std::string& letter, int grade,
                                               double size_mm) {
    const std::size_t step = step_of(iso286::kMainSteps, size_mm);
    std::optional<double> upper;
    if (letter == "j") {
        upper = iso286::hole_j_deviation_um(grade, step);
    } else if (letter.front() <= 'h') {
        const auto shaft = fundamental_of_shaft(letter, grade, size_mm);
        if (!shaft) return {};
        // 0 - x and not -x, so that no limit is printed as -0.
        return Fundamental{0.0 - shaft->um, false};
    } else {
        upper = upper_of_tight_hole(letter, grade, size_mm, step);
    }
    if (!upper) return {};
    return Fundamental{*upper, true};
}

bool too_small_for(const std::string& letter, bool hole, int grade, double size_mm) {
    if (size_mm > 1.0) return false;
    return grade >= 14 || letter == "a" || letter == "b" || (hole && letter == "n" && grade > 8);
}

bool is_letter(const std::string& letter) {
    return letter == "j" || letter == "js" || letter == "k" ||
           iso286::shaft_deviation_um(letter, 0) || iso286::shaft_deviation_um(letter, 12);
}

}  // namespace

Result<double> standard_tolerance_mm(int grade, double size_mm) {
    if (const auto reason = size_outside(size_mm)) return *reason;
    const auto tolerance =
        iso286::standard_tolerance_um(grade, step_of(iso286::kMainSteps, size_mm));
    if (!tolerance) return Reason{"ISO 286 grades run from 01 and 0 to 18"};
    if (grade >= 14 && size_mm <= 1.0)
        return Reason{
            "ISO 286 has no grade coarser than 13 up to 1 mm; state the limits themselves"};
    return *tolerance / 1000.0;
}

Result<ToleranceClass> tolerance_class(std::string_view written) {
    const std::string text(trimmed(written));
    const Reason unreadable{"'" + text +
                            "' is no tolerance class; write a letter and a grade, h7 for a shaft "
                            "or H7 for a hole"};
    const auto is_digit = [](char each) { return quantity::digit(each); };
    const auto first_digit = std::find_if(text.begin(), text.end(), is_digit);
    ToleranceClass answer;
    answer.letter.assign(text.begin(), first_digit);
    const std::string grade(first_digit, text.end());
    if (answer.letter.empty() || grade.empty() || grade.size() > 2 ||
        !std::all_of(grade.begin(), grade.end(), is_digit))
        return unreadable;
    if (grade.size() == 2 && grade.front() == '0' && grade != "01") return unreadable;
    answer.grade = grade == "01" ? -1 : static_cast<int>(*decimal(grade));
    if (answer.grade > 18)
        return Reason{"'" + text + "' asks for grade " + grade +
                      "; ISO 286 grades run from 01 and 0 to 18"};
    answer.hole = answer.letter == upper_case(answer.letter);
    for (char& each : answer.letter) {
        const bool capital = quantity::capital(each);
        if (capital != answer.hole)
            return Reason{"'" + text +
                          "' mixes small letters and capitals; small ones are for a shaft, "
                          "capitals for a hole"};
        each = quantity::small(each);
    }
    if (!is_letter(answer.letter))
        return Reason{"'" + text.substr(0, answer.letter.size()) +
                      "' is no letter of ISO 286; the letters are a to zc without i, l, o, q, w"};
    return answer;
}

Result<Deviations> deviations(const ToleranceClass& of, double size_mm) {
    const auto tolerance = standard_tolerance_mm(of.grade, size_mm);
    if (!tolerance) return tolerance.why();
    const double width = *tolerance * 1000.0;
    if (of.letter == "js") return Deviations{-width / 2000.0, width / 2000.0};
    if (too_small_for(of.letter, of.hole, of.grade, size_mm)) return no_such_class(of, size_mm);
    const auto fundamental = of.hole ? fundamental_of_hole(of.letter, of.grade, size_mm)
                                     : fundamental_of_shaft(of.letter, of.grade, size_mm);
    if (!fundamental) return no_such_class(of, size_mm);
    // Summed in micrometres, where the table's values are exact.
    const double near = fundamental->um;
    if (fundamental->is_upper) return Deviations{(near - width) / 1000.0, near / 1000.0};
    return Deviations{near / 1000.0, (near + width) / 1000.0};
}

Result<Deviations> deviations(std::string_view written, double size_mm) {
    const auto parsed = tolerance_class(written);
    if (!parsed) return parsed.why();
    return deviations(*parsed, size_mm);
}

Result<Fit> fit(std::string_view written) {
    const std::string_view text = trimmed(written);
    const Reason unreadable{"'" + std::string(text) +
                            "' is no fit; write size, hole and shaft, as in 25H7/g6"};
    const std::size_t slash = text.find('/');
    const std::size_t letters = text.find_first_not_of("0123456789. ");
    if (slash == std::string_view::npos || letters >= slash) return unreadable;
    const auto size = decimal(trimmed(text.substr(0, letters)));
    if (!size) return unreadable;
    const std::string_view hole_text = trimmed(text.substr(letters, slash - letters));
    const std::string_view shaft_text = trimmed(text.substr(slash + 1));
    const auto hole_class = tolerance_class(hole_text);
    if (!hole_class) return hole_class.why();
    const auto shaft_class = tolerance_class(shaft_text);
    if (!shaft_class) return shaft_class.why();
    if (!hole_class->hole || shaft_class->hole)
        return Reason{"'" + std::string(text) +
                      "' must name the hole (capitals) first and the shaft (small letters) second"};
    const auto hole = deviations(*hole_class, *size);
    if (!hole) return hole.why();
    const auto shaft = deviations(*shaft_class, *size);
    if (!shaft) return shaft.why();
    return Fit{*size, std::string(hole_text), std::string(shaft_text), *hole, *shaft};
}

}  // namespace trialfit::trade
