// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/shop/lathe.hpp>

namespace trialfit::trade {
namespace {

using quantity::kMmPerInch;
constexpr std::string_view kCourse = "training-course quick reference for lathe and mill";
constexpr std::string_view kArmy = "US Army TC 9-524, depth of cut";
constexpr std::string_view kChart =
    "chart of ANSI B4.1 lineage; number of grades a process spans printed, end grades from memory";
constexpr std::string_view kCaliper = "DIN 862, extract";
constexpr std::string_view kCaliperRecalled = "DIN 862 (from memory)";
constexpr std::string_view kMicrometer = "DIN 863, extract";
constexpr std::string_view kMicrometerRecalled = "DIN 863 (from memory)";
constexpr std::string_view kDial = "DIN 878, total span (from memory)";

// A limit that holds up to and including a length.
struct Step {
    double up_to = 0.0;
    Cited limit;
};

constexpr std::array kVernier{Step{300, {0.050, kCaliper}}, Step{400, {0.060, kCaliper}},
                              Step{500, {0.070, kCaliper}}, Step{600, {0.080, kCaliperRecalled}}};
constexpr std::array kFine{Step{100, {0.020, kCaliper}}, Step{400, {0.030, kCaliper}},
                           Step{600, {0.030, kCaliperRecalled}}};
constexpr std::array kScrew{Step{50, {0.004, kMicrometer}}, Step{100, {0.005, kMicrometer}},
                            Step{150, {0.006, kMicrometerRecalled}},
                            Step{200, {0.007, kMicrometerRecalled}}};

template <typename Steps>
Result<Cited> limit_at(const Steps& steps, double length) {
    const auto step = std::find_if(steps.begin(), steps.end(),
                                   [&](const Step& each) { return length <= each.up_to; });
    if (step == steps.end())
        return Reason{"no limit is tabulated for " + shown(length) + " mm; state the gauge's own"};
    return step->limit;
}

double tangent_of_deg(double degrees) {
    return std::tan(degrees * std::numbers::pi / 180.0);
}

}  // namespace

const std::vector<CitedRange>& facing_cuts() {
    static const std::vector<CitedRange> cuts{
        {"roughing depth", 0.030 * kMmPerInch, 0.100 * kMmPerInch, kCourse},
        {"finishing depth", 0.005 * kMmPerInch, 0.015 * kMmPerInch, kCourse},
        {"finishing feed, high-speed steel", 0.002 * kMmPerInch, 0.005 * kMmPerInch, kCourse},
        {"finishing feed, carbide", 0.003 * kMmPerInch, 0.008 * kMmPerInch, kCourse},
        {"roughing steel, example depth", 0.100 * kMmPerInch, 0.100 * kMmPerInch, kArmy},
        {"roughing steel, example feed", 0.020 * kMmPerInch, 0.020 * kMmPerInch, kArmy},
    };
    return cuts;
}

CitedRange least_cut(double edge_radius) {
    return {"least cut", 0.2 * edge_radius, 0.4 * edge_radius,
            "Wojciechowski, Materials 2022, 15, 59 (ratio from memory)"};
}

double customary_depth(double feed) {
    return 5.0 * feed;
}

double unsupported_length(double dia) {
    return 1.5 * dia;
}

Result<SurfaceHeight> surface_height(double feed, double nose_radius) {
    const Domain domain =
        Domain().positive("nose radius", nose_radius).within("feed", feed, 0.0, 2.0 * nose_radius);
    if (!domain) return domain.why();
    const double usual = feed * feed / (8.0 * nose_radius);
    const double flat = std::sqrt(nose_radius * nose_radius - feed * feed / 4.0);
    // r - flat without its cancelling: (r^2 - flat^2) / (r + flat).
    return SurfaceHeight{usual, feed * feed / 4.0 / (nose_radius + flat)};
}

Result<double> sharp_tool_height(double feed, double side_edge_deg, double end_edge_deg) {
    const Domain domain = Domain()
                              .not_negative("feed", feed)
                              .not_negative("side-edge angle", side_edge_deg)
                              .positive("end-edge angle", end_edge_deg)
                              .that(side_edge_deg < 90.0 && end_edge_deg < 90.0,
                                    "a tool's edge angles must be less than 90 degrees");
    if (!domain) return domain.why();
    return feed / (tangent_of_deg(side_edge_deg) + 1.0 / tangent_of_deg(end_edge_deg));
}

const std::vector<CitedRange>& process_grades() {
    static const std::vector<CitedRange> grades{
        {"cylindrical grinding", 5, 7, kChart},
        {"turning", 7, 13, kChart},
        {"boring", 8, 13, kChart},
        {"milling", 10, 13, kChart},
        {"drilling", 10, 13, kChart},
    };
    return grades;
}

Result<Cited> instrument_limit(Instrument instrument, double length, Reach reach) {
    if (const Domain domain = Domain().not_negative("length", length); !domain) return domain.why();
    if (instrument == Instrument::dial_gauge) return Cited{0.017, kDial};
    if (instrument == Instrument::micrometer) return limit_at(kScrew, length);
    Result<Cited> limit = instrument == Instrument::vernier_caliper ? limit_at(kVernier, length)
                                                                    : limit_at(kFine, length);
    if (!limit || reach == Reach::outside) return limit;
    constexpr double kInsideOrDepth = 0.020;  // DIN 862; for depth also JIS B 7507:2016
    return Cited{limit->value + kInsideOrDepth, limit->source};
}

}  // namespace trialfit::trade
