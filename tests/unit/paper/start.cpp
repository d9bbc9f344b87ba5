// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <trialfit/draw/page/lettered.hpp>
#include <trialfit/draw/section/lettered.hpp>
#include <trialfit/paper/start/answer.hpp>
#include <trialfit/paper/start/fill.hpp>
#include <trialfit/paper/start/worksheet.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>
#include <vector>

namespace draw = trialfit::draw;
namespace job = trialfit::job;
namespace paper = trialfit::paper;
namespace reading = trialfit::reading;
namespace stack = trialfit::stack;
using paper::LetterAsks;
using paper::StartKind;
using paper::StartLetter;
using trialfit::quantity::Unit;

namespace {

constexpr Unit kUnits[] = {Unit::mm, Unit::inch};

job::Job job_of(const std::string& text) {
    const reading::Outcome outcome = reading::read_job(text, "start.yaml");
    for (const job::Complaint& each : outcome.complaints)
        FAIL_CHECK(each.fault << "; " << each.mend);
    REQUIRE(outcome.job);
    return *outcome.job;
}

std::vector<draw::Lettered> pictures_of(const StartKind& kind, Unit units) {
    const auto made =
        draw::lettered(job_of(paper::start_template(kind, units)), paper::letters_drawn(kind));
    if (const auto* complaints = std::get_if<job::Complaints>(&made))
        FAIL(complaints->front().fault);
    return std::get<std::vector<draw::Lettered>>(made);
}

const StartKind& kind_called(std::string_view name) {
    const auto& all = paper::start_kinds();
    return *std::find_if(all.begin(), all.end(),
                         [name](const StartKind& each) { return each.name == name; });
}

const StartLetter& letter_of(const StartKind& kind, std::string_view name) {
    return *std::find_if(kind.letters.begin(), kind.letters.end(),
                         [name](const StartLetter& each) { return each.letter == name; });
}

// Where the letter's mark first stands in the kind's text.
std::size_t first_mark(const StartKind& kind, std::string_view letter) {
    std::size_t first = std::string_view::npos;
    for (const char* begin : {"{{", "{{-"})
        for (const char* end : {"}}", " "})
            first = std::min(first, kind.text.find(begin + std::string(letter) + end));
    return first;
}

paper::StartAnswer answered(std::string_view letter, std::string_view typed,
                            const paper::StartAnswers& so_far = {}) {
    const StartKind& kind = kind_called("ignition");
    return paper::answer_of(kind, letter_of(kind, letter), typed,
                            job_of(paper::start_template(kind, Unit::mm)), so_far);
}

}  // namespace

TEST_CASE("every file to begin from reads, says that its sizes are invented, and holds") {
    CHECK(paper::start_kinds().front().name == "ignition");
    for (const StartKind& kind : paper::start_kinds())
        for (const Unit units : kUnits) {
            CAPTURE(kind.name);
            const std::string text = paper::start_template(kind, units);
            CHECK(text.find("ALL SIZES HERE ARE INVENTED") != std::string::npos);
            CHECK(text.find("\ntrialfit: 1\n") != std::string::npos);
            CHECK(text.find("{{") == std::string::npos);
            CHECK(text.back() == '\n');
            CHECK(kind.what.size() <= 60);
            const auto checked = stack::check(job_of(text), {});
            REQUIRE(std::holds_alternative<stack::CheckAnswer>(checked));
            CHECK(std::get<stack::CheckAnswer>(checked).verdict == stack::Verdict::holds);
        }
}

TEST_CASE("the sections that are commented out read as well, and bind without contradiction") {
    for (const StartKind& kind : paper::start_kinds())
        for (const Unit units : kUnits) {
            CAPTURE(kind.name);
            const job::Job all =
                job_of(paper::filled(kind, {.units = units, .all_sections = true}));
            CHECK((kind.name != "ignition" || all.readings.size() == 2));
        }
}

TEST_CASE("letters stand in the text in the order in which they are asked, and on the drawing") {
    for (const StartKind& kind : paper::start_kinds()) {
        CAPTURE(kind.name);
        std::vector<std::string> drawn;
        for (const draw::Lettered& picture : pictures_of(kind, Unit::mm)) {
            drawn.insert(drawn.end(), picture.letters.begin(), picture.letters.end());
            for (const draw::LetteredDiameter& each : picture.diameters)
                drawn.push_back(each.letter);
        }
        std::size_t at = 0;
        std::size_t with_place = 0;
        for (const StartLetter& each : kind.letters) {
            CAPTURE(each.letter);
            const std::size_t mark = first_mark(kind, each.letter);
            REQUIRE(mark != std::string_view::npos);
            CHECK(mark > at);
            at = mark;
            CHECK(each.how.size() <= 190);
            CHECK(&letter_of(kind, each.letter) == &each);
            with_place += each.from.empty() ? 0 : 1;
            CHECK(std::count(drawn.begin(), drawn.end(), each.letter) ==
                  (each.from.empty() ? 0 : 1));
            if (!each.above.empty()) CHECK(first_mark(kind, each.above) < mark);
        }
        CHECK(drawn.size() == with_place);
    }
}

TEST_CASE("the page has every letter once in its tables, and no size of the template") {
    for (const StartKind& kind : paper::start_kinds()) {
        CAPTURE(kind.name);
        const paper::Document page = paper::worksheet(kind, Unit::mm, pictures_of(kind, Unit::mm));
        std::vector<std::string> told;
        for (const paper::Block& block : page.blocks) {
            if (const auto* table = std::get_if<paper::Table>(&block.content))
                for (const paper::Row& row : table->rows)
                    told.push_back(row.cells.front().text);
            const auto* picture = std::get_if<paper::Picture>(&block.content);
            if (picture == nullptr) continue;
            std::size_t at = 0;
            while ((at = picture->svg.find("<text", at)) != std::string::npos) {
                const std::size_t close = picture->svg.find("</text>", at);
                const std::string words = picture->svg.substr(at, close - at);
                const std::string shown = words.substr(words.find('>') + 1);
                CHECK(shown.find('.') == std::string::npos);
                at = close;
            }
        }
        for (const StartLetter& each : kind.letters) {
            CAPTURE(each.letter);
            const std::string letter(each.letter);
            CHECK(std::count(told.begin(), told.end(), letter) +
                      std::count(told.begin(), told.end(), letter + "*") ==
                  1);
        }
    }
}

TEST_CASE("the invented sizes as answers give the template") {
    for (const StartKind& kind : paper::start_kinds())
        for (const Unit units : kUnits) {
            CAPTURE(kind.name);
            const std::string text = paper::start_template(kind, units);
            const job::Job in_template = job_of(text);
            paper::StartAnswers answers;
            for (const StartLetter& each : kind.letters) {
                CAPTURE(each.letter);
                if (each.section == "readings" || each.section == "timing") {
                    answers[std::string(each.letter)] = "";
                    continue;
                }
                std::string typed = paper::invented(each, units);
                if (each.asked == LetterAsks::shims && typed.find(", ") != std::string::npos)
                    typed.replace(typed.find(", "), 2, "+");
                const paper::StartAnswer given =
                    paper::answer_of(kind, each, typed, in_template, answers);
                CHECK(given.fault == "");
                answers[std::string(each.letter)] =
                    each.letter == "X" ? paper::invented(each, units) : given.words;
            }
            const std::string asked = paper::filled(kind, {.units = units, .answers = &answers});
            const auto from = [](const std::string& whole) {
                return whole.substr(whole.find("\nunits: "));
            };
            CHECK(from(asked) == from(text));
            CHECK(asked.find("INVENTED") == std::string::npos);
            CHECK(asked.find("NOT YOURS YET") < asked.find("\ntrialfit: 1"));
        }
}

TEST_CASE("nothing measured is a job that is not judged") {
    for (const StartKind& kind : paper::start_kinds()) {
        CAPTURE(kind.name);
        paper::StartAnswers answers;
        for (const StartLetter& each : kind.letters)
            answers[std::string(each.letter)] = paper::may_stay_open(each.asked) ? "unmeasured"
                                                : each.section.empty()
                                                    ? paper::invented(each, Unit::mm)
                                                    : "";
        const auto checked = stack::check(job_of(paper::filled(kind, {.answers = &answers})), {});
        REQUIRE(std::holds_alternative<stack::CheckAnswer>(checked));
        CHECK(std::get<stack::CheckAnswer>(checked).verdict == stack::Verdict::not_judged);
    }
}

TEST_CASE("what is typed becomes a size in the words of the format") {
    CHECK(answered("A", "51.98").words == "51.98 by depth_gauge");
    CHECK(answered("A", " 51.98 mm ").words == "51.98 mm by depth_gauge");
    CHECK(answered("A", "2.05 in").words == "2.05 in by depth_gauge");
    CHECK(answered("A", "51.9 52.0 51.95").words == "[51.9, 52.0, 51.95] by depth_gauge");
    CHECK(answered("A", "[51.9, 52.0] by caliper").words == "[51.9, 52.0] by caliper");
    CHECK(answered("A", "52 ±0.1").words == "52 ±0.1");
    CHECK(answered("A", "52 +/-0.1").words == "52 +/-0.1");
    CHECK(answered("A", "").words == "unmeasured");
    CHECK(answered("D1", "32").words == "32");
    CHECK(answered("D3", "17.01").words == "17.01 by micrometer");
    CHECK(answered("K3", "5.5").words == "5.5");
    CHECK(answered("K3", "").words == "");
    CHECK(answered("R1", "-0.5").words == "-0.5 by depth_gauge");
    CHECK(answered("Y", "none").words == "none");
    CHECK(answered("Y", "0.5+0.3").words == "0.5, 0.3");
    CHECK(answered("N", "7 +0.1 -0.02").words == "6.98..7.1");  // its sign is to be turned
    CHECK(answered("K1", "1:5").words == "1:5");
    CHECK(answered("T1", "M10x1-6g").words == "M10x1-6g");
    CHECK(answered("T1", "1/2-20 UNF-2A").words == "1/2-20 UNF-2A");
    CHECK(answered("T2", "M10x1-6H", {{"T1", "M10x1-6g"}}).words == "M10x1-6H");
}

TEST_CASE("a wrong answer is refused, with what would be right") {
    for (const auto& [letter, typed] : {std::pair{"A", "high"},
                                        {"A", "52,0"},
                                        {"A", "-52"},
                                        {"A", "5200"},
                                        {"A", "1"},
                                        {"A", "52 by eye"},
                                        {"A", "52 # none"},
                                        {"A", "nan"},
                                        {"A", "1e999"},
                                        {"D1", "0"},
                                        {"D1", "31 32"},
                                        {"P1", "loose"},
                                        {"P1", "-1"},
                                        {"K1", "steep"},
                                        {"K1", ""},
                                        {"T1", "12 mil"},
                                        {"T1", "M12x1.25, from: end"},
                                        {"Y", ""},
                                        {"Y", "thin"},
                                        {"Y", "80"},
                                        {"K3", "5 ±1"},
                                        {"K3", "-5"},
                                        {"T5", "early"},
                                        {"F", "unmeasured"}}) {
        const std::string what = std::string(letter) + " " + typed;
        CAPTURE(what);
        const paper::StartAnswer given = answered(letter, typed);
        CHECK(given.words == "");
        CHECK(given.fault != "");
        CHECK(given.mend != "");
    }
    CHECK(answered("A", "5200 mm").words == "5200 mm by depth_gauge");
    CHECK(answered("T2", "M10x1.25", {{"T1", "M10x1-6g"}}).fault != "");
    // What was wrong before is not this answer's fault.
    CHECK(answered("T2", "M12x1.25", {{"D17", "30"}, {"D18", "20"}}).words == "M12x1.25");
    CHECK(answered("D2", "30", {{"D1", "32"}}).fault == "D2 is not more than D1, which was 32");
}

TEST_CASE("sizes in inches, and with their sign turned") {
    CHECK(paper::in_units("8.00 by caliper", Unit::mm) == "8.00 by caliper");
    CHECK(paper::in_units("8.00 by caliper", Unit::inch) == "0.315 by caliper");
    CHECK(paper::in_units("0.05..0.15", Unit::inch) == "0.002..0.0059");
    CHECK(paper::in_units("61.985 by micrometer", Unit::inch) == "2.4404 by micrometer");
    CHECK(paper::in_units("10.0 +0 -0.36", Unit::inch) == "0.394 +0 -0.014");
    CHECK(paper::turned_sign("7.00 by caliper") == "-7.00 by caliper");
    CHECK(paper::turned_sign("-7 ±0.1") == "7 ±0.1");
    CHECK(paper::turned_sign("7..8") == "-8..-7");
    CHECK(paper::turned_sign("[7.0, -7.1] by caliper") == "[-7.0, 7.1] by caliper");
    CHECK(paper::turned_sign("unmeasured") == "unmeasured");
}

TEST_CASE("a drawing with letters keeps within its width, and no two words meet") {
    for (const StartKind& kind : paper::start_kinds())
        for (const draw::Lettered& picture : pictures_of(kind, Unit::mm)) {
            CAPTURE(kind.name);
            CAPTURE(picture.part);
            const double width = picture.part.empty() ? 82.0 : 61.0;
            const draw::Drawing drawing =
                draw::drawn(picture, {"engine side", "outboard"}, width, 28.0);
            const draw::Box page{0.0, 0.0, drawing.width, drawing.height};
            for (const draw::Text& text : drawing.texts) {
                CHECK(page.holds(text.box));
                for (const draw::Text& other : drawing.texts) {
                    CAPTURE(text.strong + text.words);
                    CAPTURE(other.strong + other.words);
                    CHECK((&other == &text || !text.box.meets(other.box)));
                }
            }
        }
}
