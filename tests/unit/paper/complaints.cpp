// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <trialfit/paper/printed.hpp>

namespace job = trialfit::job;
namespace paper = trialfit::paper;

namespace {

job::Complaint error_at(int line, int column, std::string fault, std::string mend = "") {
    return {.severity = job::Severity::error,
            .at = {line, column},
            .fault = std::move(fault),
            .mend = std::move(mend)};
}

std::string text(const job::Complaints& complaints, const std::string& source) {
    return paper::complaints_text(complaints, "pump.yaml", source, {});
}

}  // namespace

TEST_CASE("a complaint shows its line and a caret") {
    const std::string source =
        "parts:\n"
        "  - part: stator\n"
        "    sits: {face: base, against: plate.frnt}\n";
    CHECK(text({error_at(3, 33, "part 'stator' sits against 'plate.frnt', which is not a face",
                         "did you mean 'plate.front'?")},
               source) ==
          "pump.yaml:3:33: error: part 'stator' sits against 'plate.frnt', which is not a face; "
          "did you mean 'plate.front'?\n"
          "      sits: {face: base, against: plate.frnt}\n"
          "                                  ^\n");
}

TEST_CASE("a complaint without a place has no line") {
    CHECK(text({error_at(0, 0, "the file is empty")}, "") ==
          "pump.yaml: error: the file is empty\n");
}

TEST_CASE("a warning says that it is one") {
    job::Complaint warning = error_at(1, 1, "the play is not pushed");
    warning.severity = job::Severity::warning;
    CHECK(text({warning}, "play") ==
          "pump.yaml:1:1: warning: the play is not pushed\n"
          "  play\n"
          "  ^\n");
}

TEST_CASE("line ends of every kind, and a byte order mark") {
    const std::string expected =
        "pump.yaml:2:1: error: x\n"
        "  b\n"
        "  ^\n";
    for (const char* source : {"a\nb\nc", "a\r\nb\r\nc", "a\rb\rc",
                               "\xEF\xBB\xBF"
                               "a\nb"})
        CHECK(text({error_at(2, 1, "x")}, source) == expected);
    CHECK(text({error_at(1, 2, "x")},
               "\xEF\xBB\xBF"
               "ab") ==
          "pump.yaml:1:2: error: x\n"
          "  ab\n"
          "   ^\n");
}

TEST_CASE("a caret past the end of the line, and a line past the end of the file") {
    CHECK(text({error_at(1, 9, "x")}, "abc") ==
          "pump.yaml:1:9: error: x\n"
          "  abc\n"
          "     ^\n");
    CHECK(text({error_at(7, 1, "x")}, "abc") == "pump.yaml:7:1: error: x\n");
}

TEST_CASE("tabs, controls and wide characters keep the caret in place") {
    CHECK(text({error_at(1, 3, "x\x1b[2J")}, "\ta\x07") ==
          "pump.yaml:1:3: error: x\uFFFD[2J\n"
          "   a\uFFFD\n"
          "    ^\n");
    CHECK(text({error_at(1, 5, "x")}, "a: 漢±b") ==
          "pump.yaml:1:5: error: x\n"
          "  a: 漢±b\n"
          "       ^\n");
}

TEST_CASE("a long line is cut to a window round the caret") {
    const std::string source = std::string(100, 'a') + "X" + std::string(100, 'b');
    CHECK(text({error_at(1, 101, "x")}, source) ==
          "pump.yaml:1:101: error: x\n"
          "  ..." +
              std::string(23, 'a') + "X" + std::string(46, 'b') +
              "...\n"
              "                            ^\n");
    CHECK(text({error_at(1, 1, "x")}, source) ==
          "pump.yaml:1:1: error: x\n"
          "  " +
              std::string(70, 'a') +
              "...\n"
              "  ^\n");
    CHECK(text({error_at(1, 201, "x")}, source) ==
          "pump.yaml:1:201: error: x\n"
          "  ..." +
              std::string(70, 'b') + "\n" + std::string(74, ' ') + "^\n");
}

TEST_CASE("many complaints are counted, and very many not all shown") {
    job::Complaints many(3, error_at(0, 0, "x"));
    CHECK(text(many, "").find("errors") == std::string::npos);
    many.push_back(error_at(0, 0, "x"));
    many.back().severity = job::Severity::warning;
    CHECK(text(many, "") ==
          "pump.yaml: error: x\npump.yaml: error: x\npump.yaml: error: x\n"
          "pump.yaml: warning: x\npump.yaml: 3 errors, 1 warning\n");
    many.assign(1000, error_at(0, 0, "x"));
    const std::string most = text(many, "");
    CHECK(most.ends_with("pump.yaml: error: x\npump.yaml: 1000 errors; the first 200 are shown\n"));
    CHECK(std::count(most.begin(), most.end(), '\n') == 201);
}

TEST_CASE("colour marks the word and the caret only") {
    CHECK(paper::complaints_text({error_at(1, 1, "x")}, "f", "a", {.colour = true}) ==
          "f:1:1: \x1b[1;31merror:\x1b[0m x\n"
          "  a\n"
          "  \x1b[1m^\x1b[0m\n");
}

TEST_CASE("no complaints, no text") {
    CHECK(text({}, "a").empty());
}
