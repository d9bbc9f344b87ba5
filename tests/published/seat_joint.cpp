// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/trade/fastening/torque.hpp>
#include <unit/seat/tight_job.hpp>

using namespace trialfit;
using trialfit::testing::check_formulas;
using trialfit::testing::Figures;
using trialfit::testing::finding_of;
using trialfit::testing::Given;
using trialfit::testing::TightJob;

namespace {

// Friction, the same in the thread and under the nut, at which the nut factor is `factor`.
double friction_of(const trade::ThreadForm& form, double factor) {
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2.0;
        (trade::nut_factor(form, {middle, middle}) > factor ? high : low) = middle;
    }
    return low;
}

// The nut factor takes the face to bear at 0.625 d: rings of that mean diameter, narrower than a
// standard hexagon so that no other is taken.
Figures clamp_load(Given& given) {
    const std::string form = given.word("form");
    const trade::ThreadForm thread = *trade::thread(form);
    const double torque = given("torque_nm");
    const job::Span friction{friction_of(thread, given("factor_least")),
                             friction_of(thread, given("factor_greatest")),
                             {}};
    TightJob with;
    with.bolt_form = form + "-6g";
    with.nut_form = form + "-6H";
    with.nut_bore = 1.1 * thread.d_mm;
    with.nut_od = 1.4 * thread.d_mm;
    with.torque = {torque, torque, {}};
    with.thread_friction = with.face_friction = friction;
    const auto answer = testing::answer_of(testing::job_of(with));
    const auto& preload = finding_of(answer, seat::FindingId::preload).value;
    return {{"least_kn", preload.least / 1e3}, {"greatest_kn", preload.greatest / 1e3}};
}

// The nut torque that gives the preload by the library's own formula: what is held to the book here
// is what the seat makes of it.
seat::SeatAnswer seated_by(Given& given, TightJob with) {
    constexpr double kFriction = 0.14;
    const trade::ThreadForm thread = *trade::thread(with.bolt_form);
    const double face_mean = (with.nut_od + with.nut_bore) / 2.0;
    const double torque =
        trade::torque_for_preload_Nmm(thread, given("force_n"), {kFriction, kFriction}, face_mean) /
        1e3;
    with.torque = {torque, torque, {}};
    with.thread_friction = with.face_friction = {kFriction, kFriction, {}};
    with.taper = 1.0 / given("one_in");
    with.mean_dia = given("mean_dia");
    const double friction = given("friction");
    with.cone_friction = {friction, given("friction_greatest", friction), {}};
    return testing::answer_of(testing::job_of(with));
}

Figures grip(Given& given) {
    const auto answer = seated_by(given, {});
    return {{"torque_nm", answer.held_nm->middle},
            {"torque_least_nm", answer.held_nm->least},
            {"pull_off_n", finding_of(answer, seat::FindingId::pull_off).value.middle}};
}

Figures draw_up(Given& given) {
    TightJob with;
    with.contact = given("length");
    with.hub_od = given("hub_od");
    with.hub_modulus = given("hub_modulus");
    with.hub_poisson = given("hub_poisson");
    const auto answer = seated_by(given, with);
    return {{"draw_up", answer.draw_up.middle},
            {"pressure_mpa", finding_of(answer, seat::FindingId::cone_pressure).value.middle},
            {"hub_hoop_mpa", finding_of(answer, seat::FindingId::hub_hoop).value.middle},
            {"torque_nm", answer.held_nm->middle}};
}

TEST_CASE("whole seats hold what the books say") {
    check_formulas("seat_joint.yaml",
                   {{"clamp load", clamp_load}, {"grip", grip}, {"draw-up", draw_up}});
}

}  // namespace
