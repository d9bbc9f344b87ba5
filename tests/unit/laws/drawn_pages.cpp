// SPDX-License-Identifier: MIT
// Laws of whole drawings, over every example and over made-up jobs: texts apart, on the page and
// off the lines of parts; no leader through a part that it does not name.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>
#include <support/examples.hpp>
#include <support/fewer.hpp>
#include <trialfit/draw/page/obstacles.hpp>
#include <trialfit/paper/sheet/end_svg.hpp>
#include <trialfit/paper/sheet/section_text.hpp>
#include <trialfit/paper/sheet/section_words.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/sheet/end_view.hpp>

using namespace trialfit;

namespace {

bool is_edge(draw::Pen pen) {
    return pen == draw::Pen::outline || pen == draw::Pen::outline_turning ||
           pen == draw::Pen::unsure || pen == draw::Pen::foul;
}

// The part of a line within a circle; nothing where it lies outside.
std::vector<draw::Spot> within(const draw::Circle& circle, const draw::Spot& a,
                               const draw::Spot& b) {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double fx = a.x - circle.at.x;
    const double fy = a.y - circle.at.y;
    const double qa = dx * dx + dy * dy;
    const double qb = fx * dx + fy * dy;
    const double root = qb * qb - qa * (fx * fx + fy * fy - circle.radius * circle.radius);
    if (qa == 0.0 || root <= 0.0) return {};
    const double t0 = std::max(0.0, (-qb - std::sqrt(root)) / qa);
    const double t1 = std::min(1.0, (-qb + std::sqrt(root)) / qa);
    if (t0 >= t1) return {};
    return {{a.x + t0 * dx, a.y + t0 * dy}, {a.x + t1 * dx, a.y + t1 * dy}};
}

// Whether a line of the path, as it is seen, runs through the box.
bool runs_through(const draw::Path& path, const draw::Drawing& drawing, const draw::Box& box) {
    for (const auto& run : path.runs) {
        const std::size_t count = path.closed ? run.size() : run.size() - 1;
        for (std::size_t i = 0; i < count; ++i) {
            std::vector<draw::Spot> line{run[i], run[(i + 1) % run.size()]};
            if (path.clip >= 0)
                line = within(drawing.clips[static_cast<std::size_t>(path.clip)], line[0], line[1]);
            if (!line.empty() && draw::line_meets(line[0], line[1], box)) return true;
        }
    }
    return false;
}

// By the even-odd rule.
bool lies_in(const draw::Path& region, const draw::Spot& at) {
    bool in = false;
    for (const auto& run : region.runs)
        for (std::size_t i = 0; i < run.size(); ++i) {
            const draw::Spot& a = run[i];
            const draw::Spot& b = run[(i + 1) % run.size()];
            if ((a.y <= at.y) != (b.y <= at.y) &&
                a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y) > at.x)
                in = !in;
        }
    return in;
}

// Length of the leader, mm on paper, within metal that it does not name.
double through_others(const draw::Path& leader, const draw::Drawing& drawing) {
    constexpr double kStep = 0.1;
    double length = 0.0;
    for (const draw::Path& metal : drawing.paths) {
        const bool tinted = metal.fill == draw::Fill::turning || metal.fill == draw::Fill::still;
        if (!tinted || metal.clip >= 0 || metal.parts.empty() ||
            std::find(leader.parts.begin(), leader.parts.end(), metal.parts.front()) !=
                leader.parts.end())
            continue;
        const auto& run = leader.runs.front();
        for (std::size_t i = 0; i + 1 < run.size(); ++i) {
            const double whole = std::hypot(run[i + 1].x - run[i].x, run[i + 1].y - run[i].y);
            for (double way = 0.0; way < whole; way += kStep) {
                const double t = way / whole;
                if (lies_in(metal, {run[i].x + t * (run[i + 1].x - run[i].x),
                                    run[i].y + t * (run[i + 1].y - run[i].y)}))
                    length += kStep;
            }
        }
    }
    return length;
}

std::string told(const draw::Text& text) {
    return "'" + text.strong + text.words + "'";
}

// What is wrong with the page, one line a fault.
std::vector<std::string> faults_of(const draw::Drawing& drawing) {
    std::vector<std::string> out;
    const draw::Box page{0.0, 0.0, drawing.width, drawing.height};
    for (std::size_t i = 0; i < drawing.texts.size(); ++i) {
        const draw::Text& one = drawing.texts[i];
        if (!page.holds(one.box)) out.push_back(told(one) + " leaves the page");
        for (std::size_t j = i + 1; j < drawing.texts.size(); ++j)
            if (one.box.meets(drawing.texts[j].box))
                out.push_back(told(one) + " meets " + told(drawing.texts[j]));
        for (const draw::Path& path : drawing.paths)
            if (is_edge(path.pen) && runs_through(path, drawing, one.box))
                out.push_back(told(one) + " stands on a line of a part");
    }
    // A line's own width, and a corner that is just passed.
    constexpr double kTouch = 0.35;
    for (const draw::Path& path : drawing.paths)
        if (path.pen == draw::Pen::leader && through_others(path, drawing) > kTouch)
            out.emplace_back("a leader runs through a part that it does not name");
    return out;
}

constexpr std::array<draw::PageSize, 4> kPages{
    {{297.0, 210.0, true}, {210.0, 297.0, true}, {279.4, 215.9, true}, {420.0, 297.0, true}}};

// How many of the pages the section goes on.
std::size_t hold_pages(const std::vector<draw::Section>& states,
                       std::size_t pages = kPages.size()) {
    std::size_t drawn = 0;
    for (std::size_t p = 0; p < pages; ++p) {
        const draw::PageSize& page = kPages.at(p);
        INFO("page ", page.width, " x ", page.height);
        const auto out = paper::section_drawing(states, page, std::nullopt,
                                                {.who = "A. Turner", .date = "2026-11-25"});
        if (!std::holds_alternative<draw::Drawing>(out)) continue;
        ++drawn;
        for (const std::string& fault : faults_of(std::get<draw::Drawing>(out)))
            FAIL_CHECK(fault);
    }
    return drawn;
}

// Made up by tests/support/random_jobs.py: the same jobs each time.
std::vector<job::Job> made_up(unsigned count) {
    const std::string command = "PYTHONDONTWRITEBYTECODE=1 /usr/bin/python3 " TRIALFIT_SOURCE_DIR
                                "/tests/support/random_jobs.py --quick " +
                                std::to_string(count);
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    REQUIRE(pipe != nullptr);
    std::string all;
    std::array<char, 4096> some{};
    while (const std::size_t got = std::fread(some.data(), 1, some.size(), pipe.get()))
        all.append(some.data(), got);
    std::vector<job::Job> out;
    for (std::size_t at = 0, end = 0; (end = all.find('\x1e', at)) != std::string::npos;
         at = end + 1) {
        auto outcome = reading::read_job(all.substr(at, end - at), "made-up.yaml");
        REQUIRE(outcome.job);
        out.push_back(std::move(*outcome.job));
    }
    return out;
}

}  // namespace

TEST_CASE(
    "pages of every example: texts apart and off lines, leaders only through what they name") {
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        auto outcome = draw::section(job, {});
        REQUIRE(std::holds_alternative<draw::Section>(outcome));
        CHECK(hold_pages({std::get<draw::Section>(std::move(outcome))}) == kPages.size());
    }
}

TEST_CASE("pages before and after the plan of every example keep the same laws") {
    std::size_t planned = 0;
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto outcome = sheet::before_and_after(job, {});
        const auto* both = std::get_if<sheet::BeforeAfter>(&outcome);
        if (both == nullptr || !both->after) continue;
        planned += hold_pages({both->before, *both->after});
        for (const draw::FinishDrawn& finish : both->after->finishes) {
            CHECK(finish.least <= finish.finish);
            CHECK(finish.finish <= finish.most);
            if (finish.datum)
                CHECK(std::abs(finish.to.z - finish.from.z) ==
                      doctest::Approx(finish.finish).epsilon(1e-9));
        }
    }
    CHECK(planned >= 20);
}

TEST_CASE("pages of 200 made-up jobs keep the same laws") {
    constexpr std::size_t kStandingAndLying = 2;
    std::size_t drawn = 0;
    std::size_t sections = 0;
    const std::vector<job::Job> jobs = made_up(testing::fewer(200));
    CHECK(jobs.size() == testing::fewer(200));
    for (std::size_t number = 0; number < jobs.size(); ++number) {
        INFO("made-up job ", number);
        auto outcome = draw::section(jobs[number], {});
        auto* section = std::get_if<draw::Section>(&outcome);
        if (section == nullptr) continue;
        ++sections;
        drawn += hold_pages({std::move(*section)}, kStandingAndLying);
    }
    CHECK(sections >= testing::fewer(190));
    CHECK(drawn == kStandingAndLying * sections);
}

TEST_CASE("a job of more parts than a page can name is drawn all the same, and says so") {
    for (const int count : {70, 300}) {
        CAPTURE(count);
        std::string text =
            "trialfit: 1\nunits: mm\nparts:\n  - part: base\n"
            "    faces: {floor: zero}\n    rings: {pad: {from: floor, below: 5, bore: 0, od: "
            "90}}\n";
        std::string below = "base.floor";
        for (int i = 1; i <= count; ++i) {
            const std::string n = std::to_string(i);
            text +=
                "  - part: s" + n + "\n    sits: {face: in, against: " + below +
                "}\n    faces: {in: zero, out: 4 ±0.1 from in}\n    rings: {body: {from: in, to: "
                "out, bore: 10, od: " +
                std::to_string(30 + i % 7) + "}}\n";
            below = "s" + n + ".out";
        }
        const reading::Outcome outcome = reading::read_job(text, "many.yaml");
        REQUIRE(outcome.job);
        const auto section = std::get<draw::Section>(draw::section(*outcome.job, {}));
        CHECK(hold_pages({section}) == kPages.size());
        const auto page =
            std::get<draw::Drawing>(paper::section_drawing({section}, kPages[0], std::nullopt, {}));
        std::string said;
        for (const draw::Text& each : page.texts)
            said += each.words + " ";
        CHECK(said.find("not named") != std::string::npos);
    }
}

TEST_CASE("a name that stands below the view has its number in it, or says that there is no room") {
    // The stator is small, and dots and arrows of what is measured lie all over it. Invented.
    const reading::Outcome outcome = reading::read_job(
        "trialfit: 1\nunits: in\nrunning_clearance: 0.015\nparts:\n"
        "  - part: block\n    faces: {deck: zero}\n"
        "    rings: {boss: {from: deck, below: 0.3, bore: 1.2, od: 4.5}}\n"
        "  - part: crank\n    turns: true\n"
        "    sits: {face: big, against: block.deck, offset: 0.25 ±0.001}\n"
        "    faces: {big: zero, thread_in: 1.02 ±0.005 from big, end: 1.8 ±0.005 from big}\n"
        "    cone: {at: big, dia: 0.875 ±0.0002, taper: 1.5 in per ft, length: 0.9}\n"
        "    thread: {form: 5/8-18 UNF-2A, from: thread_in, to: end}\n"
        "    rings: {stub: {from: thread_in, to: end, bore: 0, od: 0.625}}\n"
        "  - part: plate\n    sits: {face: back, against: block.deck}\n"
        "    faces: {back: zero, front: 0.2 ±0.001 from back}\n"
        "    rings: {disc: {from: back, to: front, bore: 1.5, od: 4.2}}\n"
        "  - part: stator\n    sits: {face: base, against: plate.front}\n"
        "    faces: {base: zero, pole_in: 0.15 ±0.005 from base, pole_out: 0.5 ±0.005 from base,\n"
        "      coil: 0.56 ±0.01 from base}\n"
        "    rings:\n      poles: {from: pole_in, to: pole_out, bore: 1.8, od: 3.3 ±0.002}\n"
        "      coils: {from: base, to: coil, bore: 1.7, od: 3.1}\n"
        "  - part: wheel\n    turns: true\n"
        "    sits: {cone: bore, against: crank.cone, key: {height: 0.185 ±0.001, room: 0.19 "
        "±0.002, floors: cone}}\n"
        "    faces: {boss: zero, seat: 1.05 ±0.001 from boss, floor: -0.22 ±0.001 from seat,\n"
        "      rim: -0.7 ±0.001 from floor, mag_in: 0.05 ±0.005 from rim,\n"
        "      mag_out: 0.45 ±0.005 from rim}\n"
        "    cones: {bore: {at: boss, dia: 0.87 ±0.0005, taper: 1.5 in per ft, length: 0.9}}\n"
        "    rings:\n      hub: {from: boss, to: seat, bore: 0.875, od: 1.45}\n"
        "      web: {from: floor, to: seat, bore: 1.45, od: 4.6}\n"
        "      skirt: {from: rim, to: floor, bore: 3.8, od: 4.6}\n"
        "      magnets: {from: mag_in, to: mag_out, bore: 3.33 ±0.002, od: 3.8}\n"
        "  - part: washer\n    turns: true\n    sits: {face: under, against: wheel.seat}\n"
        "    faces: {under: zero, top: 0.095 ±0.006 from under}\n"
        "    rings: {ring: {from: under, to: top, bore: 0.656, od: 1.312}}\n"
        "  - part: nut\n    turns: true\n    sits: {face: seat, against: washer.top}\n"
        "    faces: {seat: zero, top: 0.547 ±0.012 from seat}\n"
        "    thread: {form: 5/8-18 UNF-2B, from: seat, to: top}\n"
        "    rings: {hex: {from: seat, to: top, bore: 0.625, od: 0.9375}}\n"
        "checks:\n"
        "  - {check: magnets over poles, overlap: {of: stator.poles, by: wheel.magnets}, at_least: "
        "80 %}\n"
        "  - {check: air gap, air_gap: [stator.poles, wheel.magnets], at_least: 0.008, at_most: "
        "0.02}\n"
        "  - {check: nut engagement, engagement: [nut.thread, crank.thread], at_least: 0.6 d}\n",
        "small.yaml");
    REQUIRE(outcome.job);
    const auto section = std::get<draw::Section>(draw::section(*outcome.job, {}));
    std::size_t below = 0;
    for (const double width : {150.0, 170.0, 190.0}) {
        const std::string page = paper::section_figure(section, width, 120.0, "s");
        const std::size_t stator = page.find("stator</tspan>");
        REQUIRE(stator != std::string::npos);
        if (page.find("1 plate</tspan>") == std::string::npos) continue;
        ++below;
        CAPTURE(width);
        CHECK((page.substr(stator - 2, 2) == "2 " ||
               page.find("no room in the view") != std::string::npos));
    }
    CHECK(below >= 1);
}

TEST_CASE("end views keep the laws of pages, and point where the readings do") {
    std::size_t drawn = 0;
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto outcome = sheet::end_view(job, {});
        const auto* const view = std::get_if<sheet::EndAnswer>(&outcome);
        const bool any = !job.feelers.empty() ||
                         std::any_of(job.parts.begin(), job.parts.end(), [](const job::Part& part) {
                             return part.centred || !part.runout.empty();
                         });
        if (view == nullptr) {
            CHECK(std::get<job::Complaints>(outcome).size() == 1);
            continue;
        }
        CHECK(any);
        ++drawn;
        for (const draw::PageSize& page : {kPages[0], kPages[2], kPages[3]})
            for (const std::string& fault :
                 faults_of(paper::end_drawn(*view, page, {.who = "A. Turner"})))
                FAIL_CHECK(fault);
    }
    CHECK(drawn >= 3);
}

TEST_CASE("the end view of the off-centre plate: what was read where, and which way to move it") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/off-centre-plate.yaml");
    const auto answer = std::get<sheet::EndAnswer>(sheet::end_view(job, {}));
    CHECK(answer.view.still_outside);
    REQUIRE(answer.view.read_deg.size() == 4);
    for (std::size_t i = 0; i < 4; ++i)
        CHECK(std::fmod(answer.view.read_deg[i], 360.0) ==
              doctest::Approx(90.0 * static_cast<double>(i)));
    // The gap is widest at 9 and narrowest at 3: the ring round the rotor goes towards 3 and a
    // little down, and lies the other way now.
    REQUIRE(answer.view.move);
    REQUIRE(answer.view.still_off);
    CHECK(answer.view.move->towards_deg > 90.0);
    CHECK(answer.view.move->towards_deg < 150.0);
    CHECK(answer.view.move->amount == doctest::Approx(answer.view.still_off->amount));
    const draw::Drawing page = paper::end_drawn(answer, kPages[0], {});
    const auto at = [&page](const std::string& words) {
        const auto found =
            std::find_if(page.texts.begin(), page.texts.end(),
                         [&words](const draw::Text& each) { return each.strong == words; });
        REQUIRE(found != page.texts.end());
        return found->box;
    };
    // Read at 12, 3, 6 and 9: above, right, below and left of the arrow's words.
    const draw::Box move = at("move plate 0.05");
    CHECK(at("0.28, 0.28").y1 < move.y0);
    CHECK(at("0.21").x0 > move.x1);
    CHECK(at("0.24, 0.22").y0 > move.y1);
    CHECK(at("0.31").x1 < move.x0);
}

TEST_CASE("details keep the laws of pages, and show what is too small in the section") {
    std::size_t drawn = 0;
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto section = std::get<draw::Section>(draw::section(job, {}));
        for (const draw::PageSize& page : {kPages[0], kPages[2], kPages[3]}) {
            const auto out = paper::details_drawing(section, page, {.who = "A. Turner"});
            if (!section.fouls.empty()) CHECK(out);
            if (!out) continue;
            ++drawn;
            for (const std::string& fault : faults_of(*out))
                FAIL_CHECK(fault);
        }
    }
    CHECK(drawn >= 30);
}

TEST_CASE("unequal tapers touch at one end in the details, and stand open at the other") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/unequal-tapers.yaml");
    const auto section = std::get<draw::Section>(draw::section(job, {}));
    REQUIRE(section.bearings.size() == 1);
    const auto open =
        std::find_if(section.dimensions.begin(), section.dimensions.end(),
                     [](const auto& each) { return each.kind == draw::DimensionKind::open_cone; });
    REQUIRE(open != section.dimensions.end());
    // The hub narrows faster: it touches at its small end, outboard.
    CHECK(section.bearings.front().at.z > open->from.z + 10.0);
    CHECK(section.bearings.front().at.r < open->from.r);
}

TEST_CASE("a lead-in is drawn: whole turns end where it begins") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
    const auto section = std::get<draw::Section>(draw::section(job, {}));
    // crank.thread: lead_in 1.25 at its outboard end.
    REQUIRE(section.lead_ins.size() == 1);
    const draw::LeadInDrawn& lead_in = section.lead_ins.front();
    CHECK(lead_in.thread == "crank.thread");
    CHECK(lead_in.end.z - lead_in.whole.z == doctest::Approx(1.25));
    const draw::PartShape& crank = section.parts[1];
    CHECK(std::any_of(crank.threads.begin(), crank.threads.end(), [&](const draw::Line& line) {
        return line.from.z == doctest::Approx(lead_in.whole.z) &&
               line.to.z == doctest::Approx(lead_in.end.z) && line.to.r > line.from.r;
    }));
}

TEST_CASE("a section in text is of 80 columns of ASCII, and marks every jam however thin") {
    std::size_t jams = 0;
    for (const job::Job& job : testing::every_example()) {
        INFO(job.file);
        const auto section = std::get<draw::Section>(draw::section(job, {}));
        const std::string text = paper::section_text(section);
        std::size_t widest = 0;
        for (std::size_t at = 0, end = 0; (end = text.find('\n', at)) != std::string::npos;
             at = end + 1)
            widest = std::max(widest, end - at);
        CHECK(widest <= 80);
        CHECK(std::all_of(text.begin(), text.end(),
                          [](char c) { return c == '\n' || (c >= ' ' && c <= '~'); }));
        const std::string picture = text.substr(0, text.find("engine side"));
        const bool jam = std::any_of(section.fouls.begin(), section.fouls.end(),
                                     [](const draw::Foul& foul) { return !foul.zone.empty(); });
        CHECK((picture.find('X') != std::string::npos) == jam);
        jams += jam ? 1 : 0;
    }
    CHECK(jams >= 4);
}
