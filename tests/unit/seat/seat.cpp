// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <support/givens.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <unit/seat/tight_job.hpp>
#include <utility>

using namespace trialfit;
using namespace trialfit::testing;
using stack::Verdict;
using Id = seat::FindingId;

TEST_CASE("a tight seat holds, with every figure's source") {
    const auto answer = answer_of(job_of({}));
    CHECK(answer.verdict == Verdict::holds);
    CHECK(answer.hub == "rotor");
    CHECK(answer.shaft == "crank");
    CHECK(answer.nut == "nut");
    for (const auto& each : answer.findings) {
        CHECK_FALSE(each.source.empty());
        CHECK((each.verdict.value_or(Verdict::not_judged) == Verdict::not_judged) ==
              each.limit_source.empty());
        CHECK(each.value.least <= each.value.middle);
        CHECK(each.value.middle <= each.value.greatest);
    }
    for (const auto& each : answer.inputs)
        CHECK_FALSE(each.source.empty());
    CHECK_FALSE(answer.cautions.empty());
    CHECK_FALSE(answer.not_assessed.empty());
}

TEST_CASE("between the limits of the torque it holds, and no further") {
    const auto limits = answer_of(job_of({})).torque_limits;
    REQUIRE(limits.cone_needs);
    REQUIRE(limits.most);
    REQUIRE_FALSE(limits.cross());
    const auto at = [](double low, double high) {
        TightJob with;
        with.torque = {low, high, {}};
        return answer_of(job_of(with)).verdict;
    };
    CHECK(at(*limits.cone_needs, *limits.most) == Verdict::holds);
    CHECK(at(*limits.cone_needs * 0.999, *limits.most) == Verdict::doubtful);
    // The thread's limit, which has the rounding of its tables.
    CHECK(std::get<Id>(limits.most_by) == Id::thread_stress);
    CHECK(at(*limits.cone_needs, *limits.most * 1.004) == Verdict::doubtful);
    CHECK(at(*limits.cone_needs * 0.3, *limits.cone_needs * 0.4) == Verdict::fails);
}

TEST_CASE("no torque will do where the thread gives before the cone holds") {
    TightJob with;
    with.needed = 500.0;
    const auto answer = answer_of(job_of(with));
    CHECK(answer.verdict == Verdict::fails);
    CHECK(answer.torque_limits.cross());
    CHECK(std::get<Id>(answer.torque_limits.most_by) != Id::cone_torque);
}

TEST_CASE("without a stated torque nothing is said to hold") {
    auto job = job_of({});
    job.seat->nut_torque_nm.reset();
    const auto answer = answer_of(job);
    CHECK(answer.verdict == Verdict::not_judged);
    CHECK_FALSE(answer.nut_torque_nm.has_value());
    CHECK_FALSE(answer.held_nm.has_value());
    CHECK(std::get<seat::NotStated>(answer.not_judged.at(0)) == seat::NotStated::nut_torque);
    for (const auto& each : answer.findings)
        CHECK(each.id != Id::cone_torque);
    CHECK_FALSE(answer.torque_limits.most.has_value());
}

namespace {

// With something left out of the job: what the answer then does not judge.
std::vector<seat::NotJudged> unjudged(const job::Job& job) {
    auto answer = answer_of(job);
    CHECK(answer.verdict == Verdict::not_judged);
    CHECK_FALSE(answer.torque_limits.most.has_value());
    return std::move(answer.not_judged);
}

// The same, where that is one thing.
template <typename Kind>
Kind one_unjudged(const job::Job& job) {
    const auto all = unjudged(job);
    REQUIRE(all.size() == 1);
    return std::get<Kind>(all.front());
}

}  // namespace

TEST_CASE("what is not stated is not taken as held") {
    auto job = job_of({});
    job.seat->engine_torque_nm.reset();
    CHECK(one_unjudged<seat::NotStated>(job) == seat::NotStated::needed_torque);
    CHECK_FALSE(answer_of(job).needed_nm.has_value());

    job = job_of({});
    job.parts[0].threads[0].property_class.clear();
    job.parts[0].material.clear();
    const auto open = unjudged(job);
    CHECK(std::get<seat::BoltNotJudged>(open.at(0)).thread == "crank.thread");
    CHECK(std::get<seat::StripNotJudged>(open.at(1)).why.thread == "crank.thread");
    CHECK_FALSE(answer_of(job).draw_up_known);

    job = job_of({});
    job.seat->cone_friction.reset();
    CHECK(one_unjudged<seat::FrictionNotStated>(job).which == stack::DrawUpLacks::cone_friction);
    for (const auto& each : answer_of(job).findings)
        if (each.id != Id::thread_left) CHECK(each.verdict != Verdict::holds);

    job = job_of({});
    job.parts[2].threads[0].property_class.clear();
    job.parts[2].material = "steel";
    CHECK(one_unjudged<seat::StripNotJudged>(job).why.thread == "nut.thread");
}

TEST_CASE("a hub is judged by a stated yield and by nothing else") {
    using Why = seat::HubNotJudged::Why;
    auto job = job_of({});
    job.parts[1].material.clear();
    const auto open = unjudged(job);
    REQUIRE(open.size() == 2);
    CHECK(std::get<seat::HubNotJudged>(open[0]).why == Why::no_material);
    CHECK(std::get<seat::NotStated>(open[1]) == seat::NotStated::draw_up_materials);
    const auto of = [](const std::string& material) {
        auto made = job_of({});
        made.parts[1].material = material;
        const auto hub = one_unjudged<seat::HubNotJudged>(made);
        CHECK(hub.hub == "rotor");
        CHECK(hub.material == material);
        return hub.why;
    };
    CHECK(of("steel") == Why::yield_not_known);
    CHECK(of("cast iron") == Why::yield_not_known);
    CHECK(of("G3000") == Why::no_yield_point);
    job.parts[1].material = "4140";
    CHECK(answer_of(job).verdict == Verdict::holds);
    job.parts[1].rings.clear();
    CHECK(one_unjudged<seat::HubNotJudged>(job).why == Why::no_ring_round_cone);
}

TEST_CASE("an acceleration is not dropped with the material that its inertia needs") {
    auto job = job_of({});
    job.seat->crank_acceleration_rad_s2 = job::Span{1e3, 1e3, {}};
    CHECK(answer_of(job).verdict == Verdict::holds);
    job.parts[2].material.clear();
    const seat::NotCounted nut = one_unjudged<seat::NeededInPart>(job).for_want_of;
    CHECK(nut.part == "nut");
    CHECK_FALSE(nut.lacks == seat::NotCounted::Lacks::rings);
    CHECK_FALSE(answer_of(job).torque_limits.cone_needs.has_value());
    CHECK(*finding_of(answer_of(job), Id::cone_torque).verdict == Verdict::not_judged);
    job = job_of({});
    job.seat->speed_rpm = job::Span{6000, 6000, {}};
    CHECK(answer_of(job).verdict == Verdict::holds);
    CHECK_FALSE(finding_of(answer_of(job), Id::spinning_hoop).verdict.has_value());
}

TEST_CASE("unequal tapers never hold, and say so first") {
    auto job = job_of({});
    job.parts[1].cones[0].taper = 0.19;
    const auto answer = answer_of(job);
    CHECK(answer.verdict == Verdict::fails);
    const auto touches = std::get<seat::TouchesAtOneEnd>(answer.warnings.at(0));
    CHECK(touches.hub == "rotor");
    CHECK_FALSE(touches.small_end);
    for (const auto& each : answer.findings)
        if (each.id == Id::hub_stress || each.id == Id::cone_torque)
            CHECK(*each.verdict == Verdict::not_judged);
    job.parts[1].cones[0].taper = 0.21;
    CHECK(std::get<seat::TouchesAtOneEnd>(answer_of(job).warnings.at(0)).small_end);
}

TEST_CASE("metal that two rings of one part share is weighed once") {
    auto job = job_of({});
    job.seat->crank_acceleration_rad_s2 = job::Span{1e6, 2e6, {}};
    const double once = *answer_of(job).needed_nm;
    job.parts[1].rings.push_back(job.parts[1].rings[0]);
    CHECK(*answer_of(job).needed_nm == doctest::Approx(once).epsilon(1e-12));
    job.parts[1].rings.back().bore = given(20.0);  // half within the first, and beyond it
    job.parts[1].rings.back().outside = given(40.0);
    // By hand: what is added is the ring from 30 to 40, 25 long, of 7850 kg/m3.
    const double mass = 7850e-9 * 3.141592653589793 / 4.0 * (1600.0 - 900.0) * 25.0;
    const double added = mass * (1600.0 + 900.0) / 8.0 * 1e-6;
    CHECK(*answer_of(job).needed_nm - once == doctest::Approx(added * 2e6).epsilon(1e-9));
}

TEST_CASE("inertia times acceleration is what the cone must hold, where that is more") {
    TightJob with;
    auto job = job_of(with);
    job.parts[2].material.clear();  // the nut is left out then, and the answer not judged
    job.seat->crank_acceleration_rad_s2 = job::Span{1e6, 2e6, {}};
    // By hand: m = 7850e-9 pi/4 (30^2 - 10^2) 25 = 0.123308 kg, I = m (30^2 + 10^2)/8 in kg mm2
    const auto answer = answer_of(job);
    REQUIRE(answer.needed_nm.has_value());
    CHECK(*answer.needed_nm == doctest::Approx(15.4135e-6 * 2e6).epsilon(1e-4));
}

TEST_CASE("a hub that lands on something first is not seated, and nothing holds") {
    auto job = job_of({});
    put_plate_in_the_way(job);
    const auto answer = answer_of(job);
    CHECK(answer.seated.verdict == Verdict::fails);
    CHECK(answer.verdict == Verdict::fails);
    REQUIRE(answer.seated.why);
    CHECK(answer.seated.why->outboard == "rotor.boss_in");
    CHECK(answer.seated.why->inboard == "plate.front");
    CHECK(answer.seated.why->by == doctest::Approx(2.0));
    CHECK(answer.seated.why->part == "rotor");
}

TEST_CASE("a key higher than its room is found, and never counted") {
    auto job = job_of({});
    const double without = answer_of(job).held_nm->least;
    job.parts[1].seats[0].key = job::Key{.height = given(3.0, 0.02), .room = given(3.1, 0.02)};
    CHECK(answer_of(job).verdict == Verdict::holds);
    CHECK(answer_of(job).held_nm->least == without);
    job.parts[1].seats[0].key->room = given(3.03, 0.02);
    CHECK(*finding_of(answer_of(job), Id::key_room).verdict == Verdict::doubtful);
    job.parts[1].seats[0].key->room = given(2.97, 0.02);
    CHECK(*finding_of(answer_of(job), Id::key_room).verdict == Verdict::fails);
    // Unseated off by its key it holds nothing, whatever the torque would make of it.
    CHECK(*finding_of(answer_of(job), Id::cone_torque).verdict == Verdict::not_judged);
    CHECK(answer_of(job).verdict == Verdict::fails);
}

TEST_CASE("a nut that runs out of thread clamps the shaft") {
    TightJob with;
    with.thread_from = 26.0;  // the nut's face lies 25 out
    const auto answer = answer_of(job_of(with));
    CHECK(*finding_of(answer, Id::thread_left).verdict == Verdict::fails);
}

TEST_CASE("draw-up comes off the gaps, once for each") {
    auto job = job_of({});
    PartOf cover("cover", "inside");
    cover.face("out", given(3.0), "inside").ring("roof", "inside", "out", 0.0, 60.0);
    job::Part closing = cover;
    job::Seat at_offset{.kind = job::SeatKind::face_at_offset, .own = 0, .against = {0, 0}};
    at_offset.offset = given(60.0);
    closing.seats = {at_offset};
    job.parts.push_back(closing);
    job.checks.push_back({.name = "over the boss",
                          .of = job::GapOf{{1, 1}, {3, 0}},
                          .at_least = job::Limit{.value = 1.0}});
    const auto answer = answer_of(job);
    REQUIRE(answer.draw_up_known);
    const auto found = std::find_if(answer.moved.begin(), answer.moved.end(),
                                    [](const auto& each) { return each.name == "over the boss"; });
    REQUIRE(found != answer.moved.end());
    CHECK(found->nominal_before == doctest::Approx(35.0));
    CHECK(found->nominal_after - found->nominal_before == doctest::Approx(answer.draw_up.middle));
    CHECK(found->worst_after.lo == doctest::Approx(35.0 + answer.draw_up.least));
    CHECK(found->worst_after.hi == doctest::Approx(35.0 + answer.draw_up.greatest));
}

TEST_CASE("a cut that shortens the boss is priced") {
    auto job = job_of({});
    job.parts[1].cuts.push_back({.face = 0, .measure = 1, .keep = 20.0});
    const auto answer = answer_of(job);
    REQUIRE(answer.cuts.size() == 1);
    CHECK(answer.cuts[0].face == "rotor.boss_in");
    const auto of = [&](Id id) {
        for (const auto& each : answer.cuts[0].changed)
            if (each.id == id) return each;
        FAIL(static_cast<int>(id));
        return seat::Changed{};
    };
    // 5 of the 16 go; what is left bears further out, where the cone is thinner.
    CHECK(of(Id::contact).now.middle == doctest::Approx(16.0));
    CHECK(of(Id::contact).then.middle == doctest::Approx(11.0));
    CHECK(of(Id::hub_stress).then.greatest > of(Id::hub_stress).now.greatest);
    CHECK(of(Id::cone_torque).then.least ==
          doctest::Approx(of(Id::cone_torque).now.least * 14.5 / 15));
}

TEST_CASE("in inches the same seat has the same figures") {
    auto job = job_of({});
    const auto mm = answer_of(job);
    for_each_given(job, [](job::Given& given, Along) {
        given.size.nominal /= 25.4;
        given.size.lower /= 25.4;
        given.size.upper /= 25.4;
    });
    job.units = quantity::Unit::inch;
    const auto inch = answer_of(job);
    for (const auto& each : mm.findings)
        CHECK(finding_of(inch, each.id).value.greatest ==
              doctest::Approx(each.value.greatest).epsilon(1e-9));
    CHECK(inch.draw_up.middle == doctest::Approx(mm.draw_up.middle / 25.4).epsilon(1e-9));
}

TEST_CASE("what cannot be a seat is refused, with the place and the mend") {
    auto job = job_of({});
    job.seat.reset();
    CHECK(complaint_of(job) ==
          "the file has no 'seat' section, so there is nothing to ask of the seat; add 'seat: "
          "{nut_torque: FIGURE N m, engine_torque: FIGURE N m}' with figures of your own");

    TightJob steep;
    steep.taper = 0.5;
    CHECK(complaint_of(job_of(steep))
              .find("'crank.cone' lets go by itself: half its taper is 0.25, "
                    "and the friction on it at most 0.16; ") == 0);

    TightJob pitch;
    pitch.nut_form = "M10x1.5-6H";
    CHECK(complaint_of(job_of(pitch)) ==
          "'nut.thread' (M10x1.5-6H) does not screw on to 'crank.thread' (M10x1.25-6g): their "
          "pitches are 1.5 and 1.25 mm; mend the form of one of them");
    pitch.nut_form = "M10x1.25-6H-LH";
    CHECK(complaint_of(job_of(pitch)).find("one is left-handed") != std::string::npos);
    pitch.nut_form = "M12x1.25-6H";
    CHECK(complaint_of(job_of(pitch)).find("their diameters are 12 and 10 mm") !=
          std::string::npos);

    job = job_of({});
    job.parts[2].threads.clear();
    CHECK(complaint_of(job).find("no part that goes on after 'rotor' has a thread") == 0);
    job.parts[0].threads.clear();
    CHECK(complaint_of(job).find("'crank' has no thread to draw 'rotor' home by") == 0);
    job = job_of({});
    job.parts[1].seats = {on_face(0, {.part = 0, .face = 0})};
    CHECK(complaint_of(job).find("'seat' asks about a cone, but no part sits on one") == 0);
    job = job_of({});
    job.seat->hub = 2;
    CHECK(complaint_of(job).find("the hub 'nut' does not sit on a cone") == 0);
}

TEST_CASE("the stack knows how far the nut draws the hub home, as seat tells it") {
    const auto job = job_of({});
    const auto built = stack::Model::of(job);
    const auto outcome = stack::draw_up(std::get<stack::Model>(built));
    const auto* const found = std::get_if<stack::DrawUp>(&outcome);
    REQUIRE(found != nullptr);
    const auto answer = answer_of(job);
    CHECK(found->hub == 1);
    CHECK(found->travel.least == answer.draw_up.least);
    CHECK(found->travel.middle == answer.draw_up.middle);
    CHECK(found->travel.greatest == answer.draw_up.greatest);
    CHECK(found->travel.least > 0.0);
}

TEST_CASE("a draw-up that stands on what the job does not give is not told") {
    using Lacks = stack::DrawUpLacks;
    const auto lacks = [](const job::Job& job) {
        const auto built = stack::Model::of(job);
        const auto found = stack::draw_up(std::get<stack::Model>(built));
        return std::get<Lacks>(std::get<stack::DrawUpUnknown>(found));
    };
    auto job = job_of({});
    job.seat->nut_torque_nm.reset();
    CHECK(lacks(job) == Lacks::nut_torque);
    job = job_of({});
    job.parts[1].material.clear();
    CHECK(lacks(job) == Lacks::materials);
    job = job_of({});
    job.parts[1].rings.clear();
    CHECK(lacks(job) == Lacks::ring_round_cone);
    job.seat.reset();
    CHECK(lacks(job) == Lacks::seat_section);
}

TEST_CASE("seat and check say the same of one gap, the readings in force") {
    auto job = job_of({});
    PartOf plate("plate", "back");
    plate.face("front", given(2.0, 0.3), "back").ring("disc", "back", "front", 60.0, 90.0);
    job::Part still = plate;
    job::Seat seat{.kind = job::SeatKind::face_at_offset, .own = 0, .against = {0, 0}};
    seat.offset = given(-10.0, 0.3);
    still.seats = {seat};
    job.parts.push_back(still);
    job::Check check{.name = "rotor off plate",
                     .of = job::GapOf{{3, 1}, {1, 0}},
                     .at_least = job::Limit{.value = 7.0}};
    job.checks = {check};
    job::Reading reading;
    reading.name = "by feeler";
    reading.is = given(8.1, 0.02);
    reading.from = {3, 1};
    reading.to = {1, 0};
    job.readings = {reading};
    stack::Options options;
    options.readings = {stack::TrialFit{.reading = 0}};
    const auto judged = std::get<stack::CheckAnswer>(stack::check(job, options)).checks.at(0);
    REQUIRE(judged.in_states.size() == 2);
    const stack::Bounds& found = judged.in_states.at(0).value;
    CHECK(found.worst.hi - found.worst.lo == doctest::Approx(0.04));
    const auto answer = std::get<seat::SeatAnswer>(seat::seat(job, options));
    const auto moved = std::find_if(answer.moved.begin(), answer.moved.end(), [](const auto& each) {
        return each.name == "rotor off plate";
    });
    REQUIRE(moved != answer.moved.end());
    CHECK(moved->worst_before.lo == doctest::Approx(found.worst.lo));
    CHECK(moved->worst_before.hi == doctest::Approx(found.worst.hi));
    CHECK(moved->worst_after.lo == doctest::Approx(found.worst.lo - answer.draw_up.greatest));
    CHECK(moved->worst_after.hi == doctest::Approx(found.worst.hi - answer.draw_up.least));
    const stack::InState& tightened = judged.in_states.at(1);
    CHECK(tightened.state == stack::kTightened);
    CHECK(tightened.value.nominal == doctest::Approx(moved->nominal_after));
    CHECK(tightened.value.worst.lo == doctest::Approx(moved->worst_after.lo));
    CHECK(tightened.value.worst.hi == doctest::Approx(moved->worst_after.hi));
}

TEST_CASE("a thread that may not be reached at all strips, by a figure that is a number") {
    TightJob with;
    with.thread_from = 20.0;
    auto job = job_of(with);
    job.parts[0].faces[2].dimensions[0].distance.size = quantity::toleranced(26.0, -2.0, 2.0);
    const auto answer = answer_of(job);
    const auto& strip = finding_of(answer, Id::nut_strip);
    CHECK(std::isfinite(strip.value.greatest));
    CHECK(strip.value.greatest > 100.0);
    CHECK(*strip.verdict != Verdict::holds);
    CHECK(answer.verdict > Verdict::not_judged);
}

// VDI 2230:2001 based table for fine threads, 90 % of Rp0.2, friction 0.10 on thread and face,
// bearing face of ISO 4014 on a medium hole: the two printed torques that are most over the
// formulas.
TEST_CASE("a joint tightened to VDI 2230's own table keeps within its criterion") {
    TightJob with;
    with.bolt_form = "M12x1.25-6g";
    with.nut_form = "M12x1.25-6H";
    with.nut_od = 16.63;
    with.nut_bore = 13.5;
    with.hub_od = 80.0;
    with.hub_yield = 5000.0;
    with.thread_friction = with.face_friction = {0.10, 0.10, {}};
    with.torque = {79.0, 79.0, {}};
    const auto holds = finding_of(answer_of(job_of(with)), Id::thread_stress);
    CHECK(*holds.at_most == doctest::Approx(0.9 * 640.0));
    CHECK(*holds.verdict == Verdict::holds);
    with.torque = {81.0, 81.0, {}};
    CHECK(*finding_of(answer_of(job_of(with)), Id::thread_stress).verdict == Verdict::fails);
    with.bolt_class = "10.9";
    with.nut_class = "10";
    with.torque = {116.0, 116.0, {}};
    CHECK(*finding_of(answer_of(job_of(with)), Id::thread_stress).verdict == Verdict::holds);
}
