// SPDX-License-Identifier: MIT
#include <array>
#include <trialfit/trade/fastening/engagement.hpp>

namespace trialfit::trade {

namespace {

struct RecommendedRow {
    std::string_view bolt_class;
    bool fine;
    std::array<double, 3> multiples;  ///< tapped steel over 360, 500, 800 MPa
};
constexpr std::array<RecommendedRow, 5> kRecommended{{
    {"8.8", false, {1.0, 0.9, 0.8}},
    {"8.8", true, {1.25, 1.0, 0.8}},
    {"10.9", false, {1.25, 1.0, 0.9}},
    {"10.9", true, {1.4, 1.2, 0.9}},
    {"12.9", false, {1.4, 1.2, 1.0}},
}};

}  // namespace

double thumb_engagement(TappedMetal metal) {
    switch (metal) {
        case TappedMetal::steel:
            return 1.0;
        case TappedMetal::aluminium:
            return 2.0;
        case TappedMetal::cast_iron:
        case TappedMetal::brass:
            break;
    }
    return 1.5;
}

std::optional<double> recommended_engagement(double steel_tensile_MPa, std::string_view bolt_class,
                                             bool fine) {
    if (!(steel_tensile_MPa > 360.0)) return {};
    std::size_t column = 0;
    if (steel_tensile_MPa > 500.0) column = 1;
    if (steel_tensile_MPa > 800.0) column = 2;
    for (const RecommendedRow& row : kRecommended)
        if (row.bolt_class == bolt_class && row.fine == fine) return row.multiples.at(column);
    return {};
}

}  // namespace trialfit::trade
