// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/reading/join/joiner.hpp>
#include <trialfit/reading/read.hpp>
#include <vector>

using namespace trialfit;
using reading::Joiner;

namespace {

const std::string kEngine =
    "trialfit: 1\n"
    "title: An engine\n"
    "running_clearance: 0.5\n"
    "gauges: {caliper: 0.03}\n"
    "parts:\n"
    "  - part: case\n"
    "    faces: {floor: zero, rim: 30.0 by caliper from floor}\n"
    "    rings: {wall: {from: floor, below: 5, bore: 0, od: 60}}\n"
    "  - kit: here\n"
    "  - part: cover\n"
    "    sits: {face: edge, against: case.rim}\n"
    "    faces: {edge: zero}\n"
    "    rings: {roof: {from: edge, above: 3, bore: 0, od: 60}}\n";

std::string plate(const std::string& head, const std::string& front) {
    return "trialfit: 1\n" + head +
           "parts:\n"
           "  - part: plate  # its comment\n"
           "    sits: {face: back, against: case.floor}\n"
           "    faces: {back: zero, front: " +
           front + " from back}\n";
}

reading::Joined joined(const std::vector<std::string>& texts) {
    std::vector<reading::NamedText> files;
    std::vector<std::size_t> kits;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        files.push_back({i == 0 ? "engine.yaml" : "kit-" + std::to_string(i) + ".yaml", texts[i]});
        if (i > 0) kits.push_back(i);
    }
    return Joiner(files).joined(kits);
}

// "kit-1.yaml:4:5: fault; mend", a line each.
std::string faults(const std::vector<std::string>& texts) {
    std::string out;
    const reading::Joined made = joined(texts);
    CHECK_FALSE(made.job.has_value());
    for (const reading::FileComplaint& each : made.complaints)
        out += (each.file == 0 ? std::string("engine") : "kit-" + std::to_string(each.file)) + ":" +
               std::to_string(each.complaint.at.line) + ":" +
               std::to_string(each.complaint.at.column) + ": " + each.complaint.fault + "; " +
               each.complaint.mend + "\n";
    return out;
}

const job::Given& front(const job::Job& job, std::size_t part = 1) {
    return job.parts.at(part).faces.at(1).dimensions.front().distance;
}

}  // namespace

TEST_CASE("a kit's parts go on where the engine has the place for them") {
    const auto made = joined({kEngine, plate("", "10 exact")});
    REQUIRE(made.job);
    REQUIRE(made.job->parts.size() == 3);
    CHECK(made.job->parts[1].name == "plate");
    CHECK(made.job->parts[2].name == "cover");
    CHECK_FALSE(made.job->kit_here.has_value());
    std::string plain = kEngine;
    plain.erase(plain.find("  - kit: here\n"), 14);
    const auto behind = joined({plain, plate("", "10 exact")});
    REQUIRE(behind.job);
    CHECK(behind.job->parts[2].name == "plate");
}

TEST_CASE("each file keeps its unit, its gauges and its general tolerance") {
    const auto inches =
        joined({kEngine, plate("units: in\ngauges: {caliper: 0.001}\n", "0.5 by caliper")});
    REQUIRE(inches.job);
    CHECK(inches.job->units == quantity::Unit::mm);
    CHECK(front(*inches.job).size.nominal == doctest::Approx(12.7).epsilon(1e-14));
    CHECK(front(*inches.job).size.upper == doctest::Approx(12.7254).epsilon(1e-14));
    CHECK(inches.job->gauges.size() == 2);
    CHECK(inches.job->gauges[1].name == "caliper-kit-1");
    // The same caliper, told in inches, is one gauge.
    const auto same =
        joined({kEngine, plate("units: in\ngauges: {caliper: 0.03 mm}\n", "0.5 by caliper")});
    REQUIRE(same.job);
    CHECK(same.job->gauges.size() == 1);
    // ISO 2768-1 m: 10 mm is good to 0.2.
    const auto general = joined({kEngine, plate("general_tolerance: m\n", "10")});
    REQUIRE(general.job);
    CHECK(front(*general.job).size.upper == doctest::Approx(10.2).epsilon(1e-14));
    CHECK(general.job->general_tolerance == 0);
}

TEST_CASE("an angle is the same in every unit") {
    const auto made =
        joined({kEngine, plate("units: in\n", "0.5 exact") +
                             "timing: {stroke: 2 exact, rod: 4 exact, fire_at: 15 deg}\n"});
    REQUIRE(made.job);
    REQUIRE(made.job->timing);
    CHECK(made.job->timing->fire_at->value.size.nominal == 15.0);
    CHECK(made.job->timing->stroke.size.nominal == doctest::Approx(50.8).epsilon(1e-14));
}

TEST_CASE("every complaint is about the file that it is in, and names the other one") {
    CHECK(
        faults({kEngine, plate("", "10")}) ==
        "kit-1:5:32: '10' has no tolerance, and the file no general one; write '10 \u00b10.1', '10 "
        "h7', '10 by GAUGE' or '10 exact', or set general_tolerance\n");
    CHECK(
        faults({kEngine, plate("", "10 by caliper")}) ==
        "kit-1:5:38: 'caliper' is no gauge of this file, which names none; add 'gauges: {caliper: "
        "SIZE}', the half-width it is good to\n");
    CHECK(
        faults({kEngine, plate("", "10 exact"), plate("", "11 exact")}) ==
        "kit-2:3:11: there are two parts named 'plate'; the first is in line 3 of kit-1.yaml; give "
        "one of them another name\n");
    CHECK(faults({kEngine, plate("running_clearance: 0.4\n", "10 exact")}) ==
          "kit-1:2:20: the running clearance is 0.4 mm here, and 0.5 in another of the files; make "
          "the files agree, or leave it to the first\n");
    CHECK(faults({kEngine + "seat: {nut_torque: 30 N m}\n",
                  plate("", "10 exact") + "seat: {nut_torque: 40 N m}\n"}) ==
          "kit-1:6:1: 'seat' stands in two of the files; the first is in line 14 of engine.yaml; "
          "keep one of the two\n");
    CHECK(faults({kEngine, "trialfit: 1\ntitle: Nothing\n"}) ==
          "kit-1:1:1: the kit has no parts; add 'parts: [{part: NAME, faces: {back: zero}}]'\n");
    CHECK(faults({kEngine, plate("bananas: 3\n", "10 exact")})
              .starts_with("kit-1:2:1: 'bananas' is not a key of the job; its keys are "));
}

TEST_CASE("states and materials that are alike are one, others are told") {
    const std::string states = "states: {warm: {all: 80 C}}\n";
    CHECK(joined({kEngine + states, plate("", "10 exact") + states}).job.has_value());
    CHECK(
        faults({kEngine + states, plate("", "10 exact") + "states: {warm: {all: 90 C}}\n"}) ==
        "kit-1:6:10: state 'warm' is another one in line 14 of engine.yaml; make the two agree, or "
        "give this one another name\n");
    const std::string material = "materials: [{material: resin, expansion: 95e-6}]\n";
    CHECK(joined({kEngine + material, plate("", "10 exact") + material}).job.has_value());
    // In the joined text they stand once, whatever begins the kit's document.
    const Joiner joiner({{"engine.yaml", kEngine + "states:\n  warm: {all: 80 C}\n"},
                         {"kit.yaml", "---\n" + plate("shim_cost: 2\n", "10 exact") +
                                          "states:\n  warm: {all: 80 C}\n  cold: {all: -20 C}\n"}});
    const Joiner::Text text = joiner.text({1});
    REQUIRE(text.text);
    CHECK(text.text->find("warm") == text.text->rfind("warm"));
    const reading::Outcome read = reading::read_job(*text.text, "joined.yaml");
    REQUIRE(read.job);
    CHECK(read.job->states.size() == 2);
    CHECK(read.job->shim_cost == 2.0);
}

TEST_CASE("the joined text says what a kit left to its file, and reads to the same sizes") {
    const std::vector<reading::NamedText> files{
        {"engine.yaml", kEngine},
        {"kit.yaml",
         plate("# A kit in inches.\nunits: in\ngeneral_tolerance: m\n"
               "gauges: {caliper: 0.001}\n",
               "0.5 by caliper") +
             "  - part: disc\n"
             "    sits: {face: back, against: plate.front}\n"
             "    faces: {back: zero, front: 0.4 from back, lip: 0.1..0.2 from back}\n"}};
    const Joiner joiner(files);
    const Joiner::Text text = joiner.text({1});
    REQUIRE(text.text);
    for (const char* words :
         {"# A kit in inches.", "# its comment", "0.5 in by caliper-kit from back",
          "caliper-kit: 0.0254", "0.1..0.2 in from back"})
        CHECK_MESSAGE(text.text->find(words) != std::string::npos, words, " in\n", *text.text);
    const reading::Outcome read = reading::read_job(*text.text, "joined.yaml");
    REQUIRE(read.job);
    const auto made = joiner.joined({1});
    for (const std::size_t part : {1U, 2U})
        for (std::size_t face = 1; face < made.job->parts[part].faces.size(); ++face) {
            const auto& one = made.job->parts[part].faces[face].dimensions.front().distance.size;
            const auto& other = read.job->parts[part].faces[face].dimensions.front().distance.size;
            CHECK(one.nominal == doctest::Approx(other.nominal).epsilon(1e-14));
            CHECK(one.upper == doctest::Approx(other.upper).epsilon(1e-14));
        }
}

TEST_CASE("a layout whose lines cannot be moved is told, not guessed") {
    const Joiner joiner({{"engine.yaml", kEngine},
                         {"kit.yaml",
                          "{trialfit: 1, parts: [{part: plate, sits: {face: back, against: "
                          "case.floor}, faces: {back: zero, front: 10 exact from back}}]}\n"}});
    CHECK(joiner.joined({1}).job.has_value());
    const Joiner::Text text = joiner.text({1});
    CHECK_FALSE(text.text.has_value());
    REQUIRE(text.complaints.size() == 1);
    CHECK(text.complaints.front().complaint.fault ==
          "the layout of these files cannot be followed");
}
