// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <random>
#include <string>
#include <support/examples.hpp>
#include <trialfit/quantity/figures.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/sheet/live/moved.hpp>
#include <trialfit/sheet/live/place.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/suppose.hpp>
#include <trialfit/survey/survey.hpp>
#include <variant>
#include <vector>

using namespace trialfit;

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kSame = 1e-8;

// Rings one on the other under a lid, each with its back face to be turned; `size`: the unit's
// factor on all lengths.
std::string pile_of(int rings, const std::string& unit, double size, double lid) {
    const auto of = [&](double length) { return quantity::plain(length * size); };
    std::string text = fmt::format(
        "trialfit: 1\ntitle: Rings under a lid\nunits: {}\nrunning_clearance: {}\n"
        "gauges: {{caliper: {}}}\nparts:\n"
        "  - part: base\n    faces: {{floor: zero, rim: {} ±{} from floor}}\n"
        "    rings: {{pad: {{from: floor, below: {}, bore: 0, od: {}}}}}\n",
        unit, of(0.5), of(0.03), of(lid), of(0.05), of(5), of(40));
    std::string below = "base.floor";
    for (int ring = 1; ring <= rings; ++ring) {
        text += fmt::format(
            "  - part: s{0}\n    sits: {{face: in, against: {1}}}\n"
            "    faces: {{in: zero, out: {2} by caliper from in}}\n"
            "    rings: {{body: {{from: in, to: out, bore: {3}, od: {4}}}}}\n"
            "    cuts: [{{face: out, measure: in, keep: {5}, holds: ±{6}}}]\n",
            ring, below, of(4.0 + 0.1 * ring), of(10), of(30), of(3), of(0.02));
        below = fmt::format("s{}.out", ring);
    }
    text += fmt::format(
        "  - part: lid\n    sits: {{face: rim, against: base.rim}}\n    faces: {{rim: zero}}\n"
        "    rings: {{top: {{from: rim, above: {}, bore: 0, od: {}}}}}\n"
        "checks:\n  - {{check: room, gap: [{}, lid.rim], at_least: {}, at_most: {}}}\n"
        "  - {{check: first ring, gap: [base.floor, s1.out], at_least: {}}}\n",
        of(3), of(60), below, of(0.7), of(2.5), of(3.5));
    return text;
}

job::Job read(const std::string& text) {
    const reading::Outcome outcome = reading::read_job(text, "made.yaml");
    for (const job::Complaint& each : outcome.complaints)
        FAIL_CHECK(each.fault);
    REQUIRE(outcome.job);
    return *outcome.job;
}

// A job as it now is, with its readings binding, and what a page works out of it.
struct Made {
    job::Job now;
    stack::Options options;
    std::variant<sheet::LiveAnswer, sheet::NotLive> live;

    explicit Made(const job::Job& job, stack::Judge judge = stack::Judge::worst)
        : now(std::get<job::Job>(stack::as_built(job, job.record.size()))) {
        options.all_pairs = true;
        options.judge = judge;
        options.inflate = judge == stack::Judge::rss ? 1.5 : 1.0;
        options.readings = std::get<std::vector<stack::TrialFit>>(survey::evidence(now));
        live =
            sheet::live(std::get<stack::Model>(stack::model_for(now, options)), options, nullptr);
    }
    [[nodiscard]] const sheet::LiveAnswer& answer() const {
        return std::get<sheet::LiveAnswer>(live);
    }
};

// What is typed into a field, as `check --with` is told of it.
study::Supposition supposed(const sheet::LiveField& field, double value, int pieces) {
    using Kind = sheet::LiveField::Kind;
    const std::string size = fmt::format("{:.4f}", value);
    const std::string within =
        field.half_width > 0.0 ? fmt::format("{} ±{}", size, field.half_width) : size + " exact";
    switch (field.kind) {
        case Kind::cut:
        case Kind::skim:
            return {.what = field.what, .size = within};
        case Kind::take:
            return {.what = field.what, .size = within, .by_amount = true};
        case Kind::lap:
            return {.what = field.what,
                    .size = fmt::format("{:.9f}", field.dia + field.dia_sign * value)};
        case Kind::centring:
            return {.what = field.what + ".clearance", .size = size};
        case Kind::shims:
            break;
    }
    std::string all = pieces == 0 ? "none" : "";
    for (int piece = 0; piece < pieces; ++piece)
        all += (piece == 0 ? "" : "+") + within;
    return {.what = field.what + ".shims", .size = all};
}

void same(const stack::Bounds& one, const stack::Bounds& other, bool rss) {
    REQUIRE(one.open() == other.open());
    if (one.open()) return;
    CHECK(std::abs(one.nominal - other.nominal) < kSame);
    CHECK(std::abs(one.middle - other.middle) < kSame);
    CHECK(std::abs(one.worst.lo - other.worst.lo) < kSame);
    CHECK(std::abs(one.worst.hi - other.worst.hi) < kSame);
    if (rss) CHECK(std::abs(one.rss.lo - other.rss.lo) < kSame);
    if (rss) CHECK(std::abs(one.rss.hi - other.rss.hi) < kSame);
}

stack::Bounds least(const std::vector<sheet::LiveFigure>& all) {
    stack::Bounds out = all.front().at;
    for (const sheet::LiveFigure& each : all)
        out = stack::least_of(out, each.at);
    return out;
}

stack::Bounds widest(const std::vector<sheet::LiveFigure>& all) {
    stack::Fixed out = all.front().at;
    for (const sheet::LiveFigure& each : all)
        out = stack::greatest_of(out, each.at);
    return {out};
}

stack::Bounds value_of(const sheet::LiveFinding& finding,
                       const std::vector<sheet::LiveFigure>& figures) {
    return finding.widest ? widest(figures) : least(figures);
}

bool lies_within(const sheet::LiveFigures& figures) {
    return std::all_of(
        figures.within.begin(), figures.within.end(),
        [](const sheet::LiveFigure& each) { return each.at.worst.hi > stack::kRounding; });
}

stack::Verdict verdict(const sheet::LiveFinding& finding, const sheet::LiveFigures& figures,
                       stack::Judge judge) {
    if (figures.not_judged) return stack::Verdict::not_judged;
    stack::Verdict out = stack::Verdict::holds;
    const auto hold = [&](const std::vector<sheet::LiveFigure>& instead, double low, double high,
                          bool more_than) {
        const stack::Bounds of = value_of(finding, instead.empty() ? figures.value : instead);
        out = stack::worse(
            out, stack::verdict(of, {.least = low, .most = high, .more_than = more_than}, judge));
    };
    if (finding.at_least)
        hold(figures.over, finding.at_least->limit, kInfinity, finding.at_least->more_than);
    if (finding.at_most) hold(figures.under, -kInfinity, finding.at_most->limit, false);
    const bool may_miss = figures.may_miss && out != stack::Verdict::holds;
    return may_miss ? stack::Verdict::not_judged : out;
}

bool left_out(const sheet::LiveAnswer& live, sheet::LiveLeftOut::Kind kind,
              const std::string& name) {
    return std::any_of(live.left_out.begin(), live.left_out.end(), [&](const auto& each) {
        return each.kind == kind &&
               std::find(each.names.begin(), each.names.end(), name) != each.names.end();
    });
}

// Holds what a page makes of what is typed to what the stack says of the same parts; returns the
// verdicts of the checks.
using Typed = std::vector<std::optional<std::pair<double, int>>>;
std::vector<stack::Verdict> hold(const job::Job& job, const Made& made, const Typed& typed) {
    const sheet::LiveAnswer& live = made.answer();
    std::vector<study::Supposition> all;
    sheet::LiveSizes sizes(live.fields.size());
    for (std::size_t f = 0; f < live.fields.size(); ++f) {
        if (!typed[f]) continue;
        const auto [value, pieces] = *typed[f];
        all.push_back(supposed(live.fields[f], value, pieces));
        CAPTURE(all.back().what);
        sizes[f] = sheet::typed(live.fields[f], value, pieces);
    }
    const auto as_if = study::suppose(job, all, "2026-12-01");
    REQUIRE(std::holds_alternative<job::Job>(as_if));
    const auto now =
        stack::as_built(std::get<job::Job>(as_if), std::get<job::Job>(as_if).record.size());
    const auto checked = stack::check(std::get<job::Job>(now), made.options);
    const auto& answer = std::get<stack::CheckAnswer>(checked);
    std::vector<stack::Verdict> verdicts;
    const auto look = [&](const std::string& name, const std::string& state,
                          sheet::LiveFinding::Kind kind, const stack::Bounds& value,
                          stack::Verdict should,
                          const std::optional<stack::Bounds>& greatest = {}) {
        CAPTURE(name);
        stack::Verdict mine = stack::Verdict::holds;
        int found = 0;
        for (const sheet::LiveFinding& each : live.findings) {
            if (each.name != name || each.state != state || each.kind != kind) continue;
            ++found;
            const sheet::LiveFigures figures =
                sheet::at_typed(each, live.fields, sizes, live.inflate);
            CHECK(lies_within(figures));
            same(value_of(each, figures.value), each.widest ? greatest.value() : value,
                 live.judge == stack::Judge::rss);
            mine = stack::worse(mine, verdict(each, figures, live.judge));
        }
        if (found == 0) {
            // By the RSS alone: of tied sizes it ends where the worst case does, and so bends.
            CHECK(live.judge == stack::Judge::rss);
            CHECK(left_out(live, sheet::LiveLeftOut::Kind::uneven, name));
            return;
        }
        CHECK(mine == should);
        if (kind == sheet::LiveFinding::Kind::check) verdicts.push_back(mine);
    };
    using Kind = sheet::LiveFinding::Kind;
    for (const stack::Clearance& each : answer.clearances)
        look(each.inboard + " to " + each.outboard, each.state, Kind::clearance, each.gap,
             each.verdict);
    for (const stack::RadialGap& each : answer.radial)
        look(each.inner + " in " + each.outer, each.state, Kind::radial, each.gap, each.verdict);
    for (const stack::CheckResult& each : answer.checks)
        look(each.name, each.state, Kind::check, each.value, each.verdict, each.greatest);
    std::size_t meeting = 0;
    for (const sheet::LiveFinding& each : live.findings)
        if (each.kind == Kind::radial &&
            lies_within(sheet::at_typed(each, live.fields, sizes, live.inflate)))
            ++meeting;
    CHECK(meeting == answer.radial.size());
    return verdicts;
}

// As many decimals as are typed.
double typable(double value) {
    return std::round(value * 1e4) / 1e4;
}

// Something that each field takes, at random; every second field is left blank.
Typed drawn(const sheet::LiveAnswer& live, std::mt19937& random) {
    using Kind = sheet::LiveField::Kind;
    Typed out(live.fields.size());
    for (std::size_t f = 0; f < live.fields.size(); ++f) {
        const sheet::LiveField& field = live.fields[f];
        if (std::uniform_int_distribution<int>(0, 1)(random) == 0) continue;
        const double share = std::uniform_real_distribution<double>(0.0, 1.0)(random);
        const double part = typable(field.least + share * (field.most - field.least));
        if (field.kind == Kind::shims)
            out[f] = {typable(std::max(0.05, 2.0 * share * field.now)),
                      std::uniform_int_distribution<int>(0, 3)(random)};
        else
            out[f] = {part, 1};
    }
    return out;
}

void hold_drawn(const job::Job& job, int times) {
    for (const stack::Judge judge : {stack::Judge::worst, stack::Judge::rss}) {
        const Made made(job, judge);
        REQUIRE(std::holds_alternative<sheet::LiveAnswer>(made.live));
        std::mt19937 random(7);
        static_cast<void>(hold(job, made, Typed(made.answer().fields.size())));
        for (int i = 0; i < times; ++i)
            static_cast<void>(hold(job, made, drawn(made.answer(), random)));
    }
}

const sheet::LiveFinding& named(const sheet::LiveAnswer& live, const std::string& name) {
    const auto found = std::find_if(live.findings.begin(), live.findings.end(),
                                    [&](const auto& each) { return each.name == name; });
    REQUIRE(found != live.findings.end());
    return *found;
}

}  // namespace

TEST_CASE("what a page works out of seven cuts is what the stack says, in mm and in inches") {
    for (const auto& in : {std::pair{"mm", 1.0}, std::pair{"in", 0.04}}) {
        CAPTURE(in.first);
        const job::Job job = read(pile_of(7, in.first, in.second, 31.3));
        const Made made(job);
        CHECK(made.answer().fields.size() == 7);
        CHECK(made.answer().left_out.empty());
        hold_drawn(job, 40);
    }
}

TEST_CASE("verdicts change where the limits are, on both sides") {
    // Room with all as it is: 31.3 less 4.1 + 4.2 + 4.3 + 4.4 + 4.5 + 4.6 + 4.7 = 0.5; half-widths
    // 0.05 + 7 x 0.03 = 0.26. A cut is good to the caliper's 0.03, as the reading before it was.
    // s2 and s3 at 3.30 and 3.22 make it 2.48: over 2.5 at worst.
    const job::Job job = read(pile_of(7, "mm", 1.0, 31.3));
    const Made made(job);
    const auto room = [&](std::optional<double> second, std::optional<double> third) {
        Typed typed(7);
        if (second) typed[1] = {*second, 1};
        if (third) typed[2] = {*third, 1};
        return hold(job, made, typed).front();
    };
    CHECK(room({}, {}) == stack::Verdict::fails);
    CHECK(room(3.80, {}) == stack::Verdict::doubtful);    // 0.90, least 0.64
    CHECK(room(3.74, {}) == stack::Verdict::holds);       // 0.96, least 0.70
    CHECK(room(3.20, 3.56) == stack::Verdict::holds);     // 2.24, most 2.50
    CHECK(room(3.20, 3.55) == stack::Verdict::doubtful);  // 2.25, most 2.51
    CHECK(room(3.00, 3.40) == stack::Verdict::fails);     // 2.60
}

TEST_CASE("a field that moves nothing of a finding is in none of its groups") {
    const Made made(read(pile_of(7, "mm", 1.0, 31.3)));
    CHECK(named(made.answer(), "room").groups.size() == 7);
    const sheet::LiveFinding& first = named(made.answer(), "first ring");
    REQUIRE(first.groups.size() == 1);
    CHECK(first.groups.front().fields == std::vector<std::size_t>{0});
}

TEST_CASE("two cuts of faces whose sizes a third ties are in a group") {
    const job::Job job = read(
        "trialfit: 1\nunits: mm\ngauges: {caliper: 0.03}\nparts:\n"
        "  - part: base\n    faces: {floor: zero, rim: 20.0 ±0.05 from floor}\n"
        "  - part: hub\n    sits: {face: in, against: base.floor}\n"
        "    faces:\n      in: zero\n      step: 6.0 by caliper from in\n"
        "      out: [15.0 by caliper from in, 9.01 ±0.02 from step]\n"
        "    rings: {body: {from: in, to: out, bore: 5, od: 20}}\n"
        "    cuts:\n      - {face: step, measure: in, keep: 4, holds: ±0.02}\n"
        "      - {face: out, measure: in, keep: 12, holds: ±0.02}\n"
        "checks:\n  - {check: collar, gap: [hub.step, hub.out], at_least: 7.5, at_most: 9.5}\n");
    const Made made(job);
    REQUIRE(named(made.answer(), "collar").groups.size() == 1);
    CHECK(named(made.answer(), "collar").groups.front().of.size() == 4);
    hold_drawn(job, 40);
}

TEST_CASE("shims, skims, centring and laps are worked out as the stack does") {
    const std::string cases = TRIALFIT_SOURCE_DIR "/tests/cases";
    hold_drawn(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml"), 40);
    hold_drawn(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/centre-then-skim.yaml"), 40);
    hold_drawn(testing::job_in(cases + "/plan-lap/lap.yaml"), 40);
    // Of a rim that nobody has measured, what comes off is typed.
    std::string open = testing::text_of(TRIALFIT_SOURCE_DIR "/examples/half-measured.yaml");
    const std::string measured = "-21.98 by depth_gauge";
    open.replace(open.find(measured), measured.size(), "unmeasured");
    hold_drawn(read(open), 40);
    using Kind = sheet::LiveField::Kind;
    CHECK(Made(read(open)).answer().fields.back().kind == Kind::take);
    const Made skims(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/centre-then-skim.yaml"));
    CHECK(skims.answer().fields.size() == 2);
    CHECK(skims.answer().left_out.empty());
}

TEST_CASE("two rings that come to lie over one another only by a cut are minded") {
    // The boss lies outboard of the plate's bore by 1.0; the rotor comes inboard with its hub's
    // cut.
    const job::Job job = read(
        "trialfit: 1\nunits: mm\nradial_clearance: 0.2\ngauges: {caliper: 0.03}\nparts:\n"
        "  - part: case\n    faces: {floor: zero, front: 10.0 ±0.05 from floor}\n"
        "    rings: {wall: {from: floor, to: front, bore: 50 ±0.05, od: 100}}\n"
        "  - part: shaft\n    turns: true\n    centred: {by: bearing, against: case, play: "
        "0.01..0.03}\n"
        "    sits: {face: in, against: case.floor, offset: 0.0 ±0.05}\n"
        "    faces: {in: zero, out: 5.0 ±0.05 from in}\n"
        "    rings: {stub: {from: in, to: out, bore: 0, od: 10}}\n    runout: 0.02 ±0.01\n"
        "  - part: rotor\n    turns: true\n    centred: {by: register, against: shaft.stub, "
        "clearance: 0.00..0.02}\n"
        "    sits: {face: seat, against: shaft.out}\n"
        "    faces: {seat: zero, edge: 6.0 by caliper from seat, back: 12.0 by caliper from seat}\n"
        "    rings: {boss: {from: edge, to: back, bore: 10, od: 49.8 ±0.05}}\n    runout: 0.02 "
        "±0.01\n"
        "    cuts: [{face: seat, measure: back, keep: 8, holds: ±0.02}]\n"
        "checks:\n  - {check: seat, gap: [shaft.out, rotor.seat], at_least: -1}\n");
    const Made made(job);
    REQUIRE(made.answer().fields.size() == 1);
    const sheet::LiveFinding& pair = named(made.answer(), "rotor.boss in case.wall");
    CHECK_FALSE(lies_within(pair.blank));
    Typed typed(1);
    typed[0] = {10.0, 1};
    static_cast<void>(hold(job, made, typed));
    const sheet::LiveSizes sizes{sheet::typed(made.answer().fields[0], 10.0)};
    CHECK(lies_within(sheet::at_typed(pair, made.answer().fields, sizes, 1.0)));
}

TEST_CASE("a page has so many fields, and names the work that it has none for") {
    const Made made(read(pile_of(14, "mm", 1.0, 70.0)));
    CHECK(made.answer().fields.size() == sheet::kMostLiveFields);
    REQUIRE(made.answer().left_out.size() == 1);
    CHECK(made.answer().left_out[0].kind == sheet::LiveLeftOut::Kind::more_fields);
    CHECK(made.answer().left_out[0].names == std::vector<std::string>{"s13.out", "s14.out"});
}
