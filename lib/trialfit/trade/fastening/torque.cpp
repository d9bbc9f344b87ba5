// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <trialfit/trade/fastening/torque.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {

namespace {

// Torque for each newton of preload. The constants are 1/(2 pi) = 0.1592 and 1/(2 cos 30) = 0.5774
// rounded up, because the tables of VDI 2230 were worked with them.
double lever_mm(const ThreadForm& form, Friction friction, double face_mean_mm) {
    const double d2 = basic_profile(form).pitch_mm;
    return 0.16 * form.pitch_mm + 0.58 * d2 * friction.thread + face_mean_mm / 2.0 * friction.face;
}

struct FaceRow {
    double d = 0.0;
    BearingFace face;
};
// M10, M12 and M14 were seen to the second decimal, M8, M16 and M20 to the first; M5, M6, M18, M22
// and M24 are from memory.
constexpr std::array<FaceRow, 11> kFaces{{
    {5, {6.88, 5.5}},
    {6, {8.88, 6.6}},
    {8, {11.63, 9}},
    {10, {14.63, 11}},
    {12, {16.63, 13.5}},
    {14, {19.64, 15.5}},
    {16, {22.49, 17.5}},
    {18, {25.34, 20}},
    {20, {28.19, 22}},
    {22, {31.71, 24}},
    {24, {33.61, 26}},
}};

}  // namespace

double torque_for_preload_Nmm(const ThreadForm& form, double preload_N, Friction friction,
                              double face_mean_mm) {
    return preload_N * lever_mm(form, friction, face_mean_mm);
}

double preload_for_torque_N(const ThreadForm& form, double torque_Nmm, Friction friction,
                            double face_mean_mm) {
    return torque_Nmm / lever_mm(form, friction, face_mean_mm);
}

double allowed_preload_N(const ThreadForm& form, double yield_MPa, double thread_friction,
                         double utilisation) {
    const double d2 = basic_profile(form).pitch_mm;
    const double area = stress_area_mm2(form);
    const double d0 = std::sqrt(4.0 * area / std::numbers::pi);
    const double torsion =
        1.5 * (d2 / d0) * (form.pitch_mm / (std::numbers::pi * d2) + 1.155 * thread_friction);
    return area * utilisation * yield_MPa / std::sqrt(1.0 + 3.0 * torsion * torsion);
}

double nut_factor(const ThreadForm& form, Friction friction) {
    const double dm = basic_profile(form).pitch_mm;
    const double lead = form.pitch_mm / (std::numbers::pi * dm);
    const double flank = friction.thread * 2.0 * std::numbers::inv_sqrt3;  // sec 30
    return dm / (2.0 * form.d_mm) * (lead + flank) / (1.0 - lead * flank) + 0.625 * friction.face;
}

double nut_factor_handbook(const ThreadForm& form, Friction friction) {
    constexpr double kSine = std::numbers::sqrt3 / 2.0;
    const double lever =
        form.pitch_mm / (2.0 * std::numbers::pi) +
        friction.thread * (form.d_mm - 0.75 * form.pitch_mm * kSine) / (2.0 * kSine) +
        0.625 * friction.face * form.d_mm;
    return lever / form.d_mm;
}

std::optional<BearingFace> hexagon_face(double d_mm) {
    const auto* const row = std::find_if(kFaces.begin(), kFaces.end(),
                                         [d_mm](const FaceRow& each) { return each.d == d_mm; });
    if (row == kFaces.end()) return {};
    return row->face;
}

}  // namespace trialfit::trade
