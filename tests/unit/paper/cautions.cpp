// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <set>
#include <string>
#include <trialfit/paper/check/cautions.hpp>

using namespace trialfit;
using paper::NextWork;
using stack::Caution;

namespace {

const std::vector<Caution> kAll{
    Caution::may_burst,      Caution::nut_works_loose, Caution::magnets,
    Caution::lathe,          Caution::puller,          Caution::spark_plug,
    Caution::running_engine, Caution::advance,         Caution::maker};

}  // namespace

TEST_CASE("every caution has a code, words and a text of its own") {
    std::set<std::string_view> codes;
    std::set<std::string_view> texts;
    for (const Caution each : kAll) {
        codes.insert(paper::code(each));
        texts.insert(paper::words_of(each));
        CHECK(paper::in_brief(each).size() < 60);
    }
    CHECK(codes.size() == kAll.size());
    CHECK(texts.size() == kAll.size());
}

TEST_CASE("no answer calls a cut rotor safe") {
    const std::string text(paper::words_of(Caution::may_burst));
    CHECK(text.find("do not say that a part is safe, may be run, or how fast") !=
          std::string::npos);
    CHECK(text.find("can burst") != std::string::npos);
    for (const NextWork work : {NextWork::judge, NextWork::cut, NextWork::sheet, NextWork::tighten,
                                NextWork::time, NextWork::record})
        CHECK(paper::called_for(kAll, work).front() == Caution::may_burst);
}

TEST_CASE("work gets the cautions that it calls for") {
    CHECK(paper::called_for(kAll, NextWork::judge) == kAll);
    CHECK(paper::called_for(kAll, NextWork::sheet) == kAll);
    CHECK(paper::called_for(kAll, NextWork::cut) ==
          std::vector<Caution>{Caution::may_burst, Caution::nut_works_loose, Caution::magnets,
                               Caution::lathe, Caution::maker});
    CHECK(paper::called_for(kAll, NextWork::record) ==
          std::vector<Caution>{Caution::may_burst, Caution::lathe, Caution::maker});
    CHECK(paper::called_for({Caution::maker}, NextWork::tighten) ==
          std::vector<Caution>{Caution::maker});
}

TEST_CASE("one line names what there is and the command that tells it whole") {
    CHECK(paper::cautions_line({Caution::magnets, Caution::maker}) ==
          "Cautions: magnets trap fingers; the maker's figures come first. `trialfit cautions` "
          "tells more.");
    CHECK(paper::cautions_line({}).empty());
}

TEST_CASE("the command prints each of them whole") {
    const std::string text = paper::every_caution({.width = 1000});
    for (const Caution each : kAll)
        CHECK(text.find(paper::words_of(each)) != std::string::npos);
}
