// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/trade/fit/general.hpp>
#include <trialfit/trade/fit/limits.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>

// Tables of sizes by their tolerance: fit, size, general.
namespace trialfit::trade {

namespace {

constexpr std::string_view kIso286 = "ISO 286-1:2010";
constexpr std::string_view kIso2768 = "ISO 2768-1:1989, table 1";
constexpr std::string_view kDifference = "difference of the limits";

void add_limits(Reference& out, const std::string& of, double size_mm, const Deviations& by) {
    out.rows.push_back(between(of + ", deviations", by.lower_mm, by.upper_mm, "mm", kIso286));
    out.rows.push_back(between(of + ", limits", size_mm + by.lower_mm, size_mm + by.upper_mm, "mm",
                               "size and deviations"));
}

std::string kind_of(const Fit& fit) {
    if (fit.least_clearance_mm() >= 0.0) return "a clearance fit";
    if (fit.greatest_clearance_mm() <= 0.0) return "an interference fit";
    return "a transition fit: it may clear or not";
}

std::string limits_in_words(double size_mm, const Deviations& by) {
    // Decimal digits that a table has; the sum of two doubles has more.
    const auto rounded = [](double value) { return shown(std::round(value * 1e4) / 1e4); };
    return rounded(size_mm + by.lower_mm) + ".." + rounded(size_mm + by.upper_mm) + " mm";
}

}  // namespace

Result<Reference> fit_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no fit is named", "fit");
    const auto found = fit(joined(words));
    if (!found) return found.why();
    Reference out;
    out.answer = joined(words) + " is " + kind_of(*found) + ".";
    add_limits(out, "hole " + found->hole_class, found->size_mm, found->hole);
    add_limits(out, "shaft " + found->shaft_class, found->size_mm, found->shaft);
    out.rows.push_back(between("clearance (negative: interference)", found->least_clearance_mm(),
                               found->greatest_clearance_mm(), "mm", kDifference));
    return out;
}

Result<Reference> size_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no size is given", "size");
    const std::string text = joined(words);
    const std::size_t letters = text.find_first_not_of("0123456789. ");
    const auto size = letters == std::string::npos
                          ? std::optional<double>()
                          : decimal(trimmed(std::string_view(text).substr(0, letters)));
    if (!size) return ask_like("'" + text + "' is no size with a tolerance class", "size");
    const auto by = deviations(std::string_view(text).substr(letters), *size);
    if (!by) return by.why();
    Reference out;
    out.answer = text + " is " + limits_in_words(*size, *by) + ".";
    add_limits(out, std::string(trimmed(std::string_view(text).substr(letters))), *size, *by);
    out.rows.push_back(
        figure("middle", *size + (by->lower_mm + by->upper_mm) / 2.0, "mm", "of the limits"));
    out.rows.push_back(figure("tolerance", by->upper_mm - by->lower_mm, "mm", kDifference));
    return out;
}

Result<Reference> general_reference(const QueryWords& words) {
    if (words.empty()) return ask_like("no length is given", "general");
    const auto size = length_mm(words.front());
    if (!size || words.size() > 2)
        return ask_like("'" + joined(words) + "' is no length", "general");
    std::vector<GeneralClass> classes{GeneralClass::f, GeneralClass::m, GeneralClass::c,
                                      GeneralClass::v};
    if (words.size() == 2) {
        const auto one = general_class(words.back());
        if (!one)
            return Reason{"'" + words.back() +
                          "' is no class of ISO 2768-1; the classes are f, m, c and v"};
        classes = {*one};
    }
    Reference out;
    for (const GeneralClass each : classes) {
        const auto half = general_half_width_mm(each, *size);
        if (!half && classes.size() == 1) return half.why();
        if (!half) continue;
        const std::string name = std::string("class ") + letter(each);
        out.rows.push_back(figure(name + ", plus and minus", *half, "mm", kIso2768));
        out.rows.push_back(
            between(name + ", limits", *size - *half, *size + *half, "mm", "size and tolerance"));
        if (out.answer.empty())
            out.answer = shown(*size) + " mm without a tolerance is held to ±" + shown(*half) +
                         " mm in class " + letter(each) + ".";
    }
    if (out.rows.empty()) return general_half_width_mm(GeneralClass::m, *size).why();
    return out;
}

}  // namespace trialfit::trade
