// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <support/examples.hpp>
#include <trialfit/stack/cautions.hpp>

using namespace trialfit;
using stack::Caution;
using testing::job_in;

namespace {

std::vector<Caution> of_example(const std::string& name) {
    return stack::cautions(job_in(TRIALFIT_SOURCE_DIR "/examples/" + name + ".yaml"));
}

bool has(const std::vector<Caution>& all, Caution caution) {
    return std::find(all.begin(), all.end(), caution) != all.end();
}

}  // namespace

TEST_CASE("an ignition that is to be cut calls for every caution, in their order") {
    const std::vector<Caution> all = of_example("pump-engine");
    CHECK(all == std::vector<Caution>{Caution::may_burst, Caution::nut_works_loose,
                                      Caution::magnets, Caution::lathe, Caution::puller,
                                      Caution::spark_plug, Caution::running_engine,
                                      Caution::advance, Caution::maker});
}

TEST_CASE("a gearbox shaft set by shims has no magnets, no lathe and no ignition") {
    CHECK(of_example("gearbox-end-float") == std::vector<Caution>{Caution::maker});
}

TEST_CASE("without anything that may be cut there is no lathe, and recorded work brings it back") {
    job::Job job = job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine-turned.yaml");
    for (job::Part& part : job.parts) {
        part.cuts.clear();
        part.skims.clear();
    }
    CHECK(has(stack::cautions(job), Caution::lathe));
    for (job::RecordEntry& entry : job.record)
        entry.as_cut.clear();
    CHECK_FALSE(has(stack::cautions(job), Caution::lathe));
    CHECK(has(stack::cautions(job), Caution::magnets));
}

TEST_CASE("a name says nothing: cautions stay when every part is called otherwise") {
    for (job::Job job : testing::every_example()) {
        const std::vector<Caution> before = stack::cautions(job);
        CHECK(before.back() == Caution::maker);
        CHECK(std::is_sorted(before.begin(), before.end()));
        for (job::Part& part : job.parts) {
            part.name = "x";
            for (job::Ring& ring : part.rings)
                ring.name = "y";
        }
        CHECK(stack::cautions(job) == before);
    }
}

TEST_CASE("no caution is lost when a section is left out but a hub still sits on its cone") {
    job::Job job = job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
    job.timing.reset();
    job.seat.reset();
    job.checks.clear();
    for (const Caution each : {Caution::may_burst, Caution::nut_works_loose, Caution::magnets,
                               Caution::puller, Caution::spark_plug})
        CHECK(has(stack::cautions(job), each));
}
