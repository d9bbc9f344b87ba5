// SPDX-License-Identifier: MIT
#include <array>
#include <optional>
#include <trialfit/trade/fastening/hardware.hpp>
#include <trialfit/trade/reference/kinds.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/shop/lathe.hpp>
#include <trialfit/trade/strength/balance.hpp>

// Tables of the shop: what a lathe leaves, what unbalance is allowed, gaps as they are customary.
namespace trialfit::trade {

namespace {

constexpr std::string_view kManual = "US Army TC 9-524";
constexpr std::string_view kGhosh = "Ghosh and Mallik, Manufacturing Science, prob. 24, p. 260";
constexpr std::string_view kBalance = "ISO 21940-11, formerly ISO 1940-1: e = G/w";

void add_ranges(Reference& out, const std::vector<CitedRange>& ranges, const std::string& unit) {
    for (const CitedRange& each : ranges)
        out.rows.push_back(
            each.lower == each.upper
                ? figure(std::string(each.what), each.lower, unit, each.source)
                : between(std::string(each.what), each.lower, each.upper, unit, each.source));
}

// A number with one of the suffixes, or without one; nothing where it is not greater than 0.
std::optional<double> positive(std::string_view written, std::string_view suffix) {
    std::string_view text = trimmed(written);
    if (text.ends_with(suffix)) text = trimmed(text.substr(0, text.size() - suffix.size()));
    const auto value = decimal(text);
    return value && *value > 0.0 ? value : std::nullopt;
}

// What the feed leaves: of a round nose, or of a sharp tool by its angles.
std::optional<Reason> add_ridges(Reference& out, const QueryWords& words) {
    const auto feed = length_mm(words[0]);
    if (!feed) return ask_like("'" + words[0] + "' is no feed", "lathe");
    if (words.size() == 4) {
        const auto side = positive(words[2], "deg");
        const auto end = positive(words[3], "deg");
        if (!side || !end) return ask_like("an angle is a number of degrees", "lathe");
        const auto height = sharp_tool_height(*feed, *side, *end);
        if (!height) return height.why();
        out.answer = "A feed of " + shown(*feed) + " mm a turn by a sharp tool of " + shown(*side) +
                     " and " + shown(*end) + " degrees, and customary cuts in facing.";
        out.rows.push_back(figure("height of the ridges left", *height, "mm", kGhosh));
    } else {
        const auto nose = length_mm(words[1]);
        if (!nose) return ask_like("'" + words[1] + "' is no nose radius", "lathe");
        const auto height = surface_height(*feed, *nose);
        if (!height) return height.why();
        out.answer = "A feed of " + shown(*feed) + " mm a turn by a nose of " + shown(*nose) +
                     " mm, and customary cuts in facing.";
        out.rows.push_back(figure("height of the ridges left", height->exact, "mm", kGhosh));
    }
    out.rows.push_back(figure("depth of cut, at most", customary_depth(*feed), "mm", kManual));
    return {};
}

}  // namespace

Result<Reference> lathe_reference(const QueryWords& words) {
    const bool sharp = words.size() == 4 && words[1] == "sharp";
    if (!words.empty() && words.size() != 2 && !sharp)
        return ask_like(
            "the feed and the tool's nose radius are needed, or neither; of a sharp tool its "
            "angles, side and end (lathe 0.1 sharp 30deg 7deg)",
            "lathe");
    Reference out;
    out.answer = "Customary cuts in facing, and the grades that ways of working cover.";
    if (!words.empty())
        if (const auto reason = add_ridges(out, words)) return *reason;
    add_ranges(out, facing_cuts(), "mm");
    add_ranges(out, process_grades(), "IT");
    constexpr double kNewEdge_mm = 0.02;  // common practice, no source
    const CitedRange least = least_cut(kNewEdge_mm);
    out.rows.push_back(
        between("least cut with an edge of 0.02 mm", least.lower, least.upper, "mm", least.source));
    out.notes = {"Out of the chuck without support: at most " + shown(unsupported_length(1.0)) +
                     " diameters (US Army TC 9-524).",
                 "The job states what its lathe holds; nothing here stands in its place."};
    return out;
}

Result<Reference> balance_reference(const QueryWords& words) {
    if (words.size() != 3 && words.size() != 5)
        return ask_like(
            "a grade, a speed and a mass are needed, and for two planes the distance of each from "
            "the mass centre",
            "balance");
    const std::string_view written = words[0];
    const auto grade = decimal(written.substr(written.starts_with('G') ? 1 : 0));
    const auto rpm = positive(words[1], "rpm");
    const auto mass = positive(words[2], "kg");
    if (!grade || !(*grade > 0.0)) return ask_like("'" + words[0] + "' is no grade", "balance");
    if (!rpm) return ask_like("'" + words[1] + "' is no speed", "balance");
    if (!mass) return ask_like("'" + words[2] + "' is no mass", "balance");
    const auto limit = balance_limit(*grade, *rpm, *mass);
    if (!limit) return limit.why();
    Reference out;
    out.answer = "Unbalance that grade G" + shown(*grade) + " allows at " + shown(*rpm) +
                 " rpm, of a rotor of " + shown(*mass) + " kg.";
    out.rows = {figure("eccentricity of the mass", limit->eccentricity_um, "um", kBalance),
                figure("unbalance in all", limit->unbalance_g_mm, "g mm", kBalance),
                figure("force that it makes", limit->force_n, "N", "m e w^2")};
    if (words.size() == 5) {
        const auto left = length_mm(words[3]);
        const auto right = length_mm(words[4]);
        if (!left || !right) return ask_like("a plane's distance is a length", "balance");
        const auto split = two_plane_split(limit->unbalance_g_mm, *left, *right);
        if (!split) return split.why();
        constexpr std::string_view kSplit = "balancing machine manual, 30 to 70 % a plane";
        out.rows.push_back(figure("in the first plane", split->left_g_mm, "g mm", kSplit));
        out.rows.push_back(figure("in the second plane", split->right_g_mm, "g mm", kSplit));
    }
    out.notes = {
        "Flywheels are listed at G6.3 in the older published list. A balanced rotor may "
        "still burst: this says nothing of its strength."};
    return out;
}

Result<Reference> gap_reference(const QueryWords& words) {
    if (!words.empty()) return ask_like("'" + joined(words) + "' is asked for too much", "gap");
    Reference out;
    out.answer = "Gaps and end floats as handbooks give them for small engines.";
    add_ranges(out, customary_gaps(), "mm");
    out.notes = {"The engine maker's figure comes first."};
    return out;
}

}  // namespace trialfit::trade
