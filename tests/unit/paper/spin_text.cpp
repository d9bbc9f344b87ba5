// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/words/words.hpp>

using namespace trialfit;
using paper::spin_headline;
using paper::words;
using stack::Verdict;

namespace {

// Made by hand, so that the printer is tested without the room. Invented figures.
spin::SpinAnswer spun(Verdict carried, Verdict sparks) {
    spin::SpinAnswer out;
    out.file = "engine.yaml";
    out.inertia.known_kg_m2 = {26e-4, 27e-4, 28e-4};
    out.inertia.crank_kg_m2 = spin::Estimate{20e-4, 20e-4, 20e-4};
    out.inertia.whole = true;
    out.started = spin::Started{.by = spin::StarterKind::speed};
    out.carried = spin::Held{.has = {9.994, 10.5, 11.0}, .needs = {8.0, 9.001, 9.999}};
    out.carried->verdict = carried;
    out.spark = spin::Held{.has = {310.9, 412.7, 480.0}, .needs = {440.0, 450.0, 460.2}};
    out.spark->verdict = sparks;
    out.verdict = stack::Verdict::fails;
    return out;
}

spin::StarterNeeded needs(bool at_most, double least, double middle, double greatest) {
    return {.energy_j = {9.0, 10.0, 11.0},
            .inertia = {.at_most = at_most,
                        .least_kg_m2 = least,
                        .middle_kg_m2 = middle,
                        .greatest_kg_m2 = greatest}};
}

std::string text_of(const spin::SpinAnswer& answer) {
    return paper::spin_text(answer, {.width = 4000});
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

std::string spin_noted(spin::Note note) {
    return words(note);
}
std::string spin_unjudged(spin::NotJudged message) {
    return words(message);
}

}  // namespace

TEST_CASE("the first line: carried over the top, or not") {
    CHECK(
        spin_headline(spun(Verdict::holds, Verdict::holds)) ==
        "It is carried over the top, even in the worst case. It is fast enough to spark: at least "
        "310 rpm are left at the firing point, and the ignition sparks from 461 rpm.");
    CHECK(spin_headline(spun(Verdict::doubtful, Verdict::holds))
              .starts_with(
                  "It may not be carried over the top: 10.5 J turn it where the cylinder "
                  "closes (9.99 at the least), and up to 10.00 J may be needed. It is fast"));
    // One that stops is not told that it sparks.
    CHECK(spin_headline(spun(Verdict::fails, Verdict::holds)) ==
          "It is not carried over the top: 10.5 J turn it where the cylinder closes, and 9.01 J "
          "are needed.");
}

TEST_CASE("the first line: sparks, or not, and which way the inertia would have to go") {
    auto answer = spun(Verdict::holds, Verdict::fails);
    answer.needed = needs(false, 28e-4, 29e-4, 30e-4);
    CHECK(spin_headline(answer) ==
          "It is carried over the top, even in the worst case. It does not spark: 412 rpm are left "
          "at the firing point, and the ignition sparks from 450 rpm. At this starter's speed a "
          "heavier rotor would keep more of it, for more energy.");
    answer.started->by = spin::StarterKind::energy;
    answer.needed = needs(true, 21e-4, 22e-4, 23e-4);
    CHECK(spin_headline(answer).ends_with(
        "With this starter's energy a lighter rotor would be faster there, a heavier one slower."));
    answer.spark->verdict = Verdict::doubtful;
    CHECK(
        says(spin_headline(answer),
             "It may not spark: 412 rpm are left at the firing point (in the worst case 310), and "
             "up to 461 rpm may be needed."));
    answer.spark->has = {0.0, 412.7, 480.0};
    CHECK(says(spin_headline(answer), "(in the worst case it stops before)"));
    answer.spark->verdict = Verdict::fails;
    answer.spark->has = {0.0, 0.0, 0.0};
    CHECK(says(spin_headline(answer), "It does not spark: it stops before the firing point, and"));
}

TEST_CASE("the first line: what is not judged stands in it, and checks that miss their limits") {
    spin::SpinAnswer bare;
    bare.inertia.known_kg_m2 = {26e-4, 27e-4, 28e-4};
    bare.not_judged = {spin::Lacking::drag, spin::Lacking::starter};
    CHECK(spin_headline(bare) ==
          "What turns has at least 26.00 kg cm2. NOT JUDGED: what is left of the energy: 'drag' is "
          "not given. 1 other is not judged either.");
    auto answer = spun(Verdict::holds, Verdict::not_judged);
    answer.not_judged = {spin::Lacking::spark_from};
    CHECK(spin_headline(answer) ==
          "It is carried over the top, even in the worst case. At the firing point 310 to 480 rpm "
          "are left. NOT JUDGED: whether it sparks: 'spark_from' is not given.");
    answer = spun(Verdict::holds, Verdict::holds);
    answer.over_poles.push_back({.name = "magnets", .kind = stack::CheckKind::overlap});
    answer.over_poles.back().verdict = Verdict::fails;
    CHECK(spin_headline(answer).ends_with(" 'magnets': FAILS."));
}

TEST_CASE("what a weight could mend, and what it could not") {
    auto answer = spun(Verdict::holds, Verdict::fails);
    answer.needed = needs(false, 28e-4, 29e-4, 30.001e-4);
    CHECK(says(text_of(answer), "A weight of 4.001 kg cm2 more would do, even in the worst case"));
    answer.needed->inertia.greatest_kg_m2.reset();
    CHECK(says(text_of(answer), "A weight helps, though not in the worst case"));
    answer.needed->inertia.middle_kg_m2.reset();
    CHECK(says(text_of(answer), "No weight mends it: the starter turns no faster"));
    CHECK(says(text_of(answer), "No inertia makes it spark"));
    answer.needed = needs(true, 21e-4, 22e-4, 23e-4);
    CHECK(says(text_of(answer), "A weight makes it worse with this starter; 7.000 kg cm2 less"));
    answer.needed = needs(true, 19e-4, 22e-4, 23e-4);
    CHECK(says(text_of(answer), "a lighter rotor helps, though not in the worst case"));
    answer.needed = needs(true, 0.0, 19e-4, 23e-4);
    CHECK(says(text_of(answer), "No weight mends it, and no lighter rotor"));
    answer.spark->verdict = Verdict::holds;
    CHECK_FALSE(says(text_of(answer), "weight mends"));
}

TEST_CASE("an unevenness of 2 is told to be no idling, and no inertia is no mend") {
    auto answer = spun(Verdict::holds, Verdict::doubtful);
    answer.unevenness = spin::Estimate{0.2, 0.3, 1.9};
    CHECK_FALSE(says(text_of(answer), "idle that slowly"));
    answer.unevenness = spin::Estimate{0.9, 1.5, 2.1};
    CHECK(says(text_of(answer), "it may not idle that slowly"));
    answer.unevenness = spin::Estimate{4.2, 6.0, 9.0};
    CHECK(says(text_of(answer), "it does not idle that slowly"));
    answer.needed = needs(true, 0.0, 29e-4, 31e-4);
    CHECK(says(text_of(answer), "in the worst case no inertia is little enough"));
}

TEST_CASE("the text never calls a speed safe, and names the cautions of what spins") {
    auto answer = spun(Verdict::holds, Verdict::holds);
    answer.cautions = {stack::Caution::may_burst, stack::Caution::lathe, stack::Caution::weight};
    answer.running.push_back({.rpm = {1200, 1200, 1200}, .ring = "rotor.rim"});
    const std::string text = text_of(answer);
    CHECK(says(text, "nothing in this says how fast it may run."));
    CHECK(says(text, "An added weight needs its own balance"));
    CHECK(says(text, "A flywheel or rotor that was cut, drilled, cracked or knocked can burst"));
    CHECK_FALSE(says(text, "At the lathe"));
}

TEST_CASE("the figures that must suffice are rounded up, and those that are there down") {
    CHECK(paper::joule(9.999) == "9.99");
    CHECK(paper::joule_enough(9.001) == "9.01");
    CHECK(paper::rpm_left(449.99) == "449");
    CHECK(paper::rpm_needed(449.01) == "450");
    CHECK(paper::kg_cm2(0.00123456) == "12.35");
    CHECK(paper::kg_cm2_enough(0.00123401) == "12.35");
    CHECK(paper::kg_cm2_at_most(0.00123499) == "12.34");
    CHECK(paper::both_ends("3", "3") == "3");
}

TEST_CASE("every word about what spins") {
    using spin::Remark;
    CHECK(spin_noted(Remark::closes_at_bottom) ==
          "The cylinder is taken to close at the bottom, where compression takes most: 'closes_at' "
          "is not given.");
    CHECK(spin_noted(Remark::usual_exponent) ==
          "The exponent of compression is taken as 1.25 to 1.35: 'exponent' is not given.");
    CHECK(spin_noted(Remark::usual_air) ==
          "The air is taken to stand at 101.325 kPa, sea level in ISO 2533: 'air_pressure' is not "
          "given.");
    CHECK(spin_noted(Remark::nothing_under_piston) ==
          "The air under the rising piston is taken to give nothing back, which asks for the most "
          "work: 'under_piston' is not given.");
    CHECK(spin_noted(spin::ShaftIsCrank{.parts = {"crank"}}) ==
          "'crank' is the shaft that all else sits on: its inertia is taken to stand in "
          "'crank_inertia'.");
    CHECK(spin_unjudged(spin::Lacking::stroke_and_rod) ==
          "what compression takes: the job has no 'timing' with stroke and rod");
    CHECK(spin_unjudged(
              stack::NotCounted{.part = "rotor", .lacks = stack::NotCounted::Lacks::lengths}) ==
          "the inertia of all that turns: nobody has measured every ring of 'rotor'");
}
