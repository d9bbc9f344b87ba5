// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/strength/materials.hpp>

using namespace trialfit::trade;

namespace {

void plausible(const std::optional<Cited>& property, double least, double most) {
    if (!property) return;
    CHECK(property->value >= least);
    CHECK(property->value <= most);
    CHECK_FALSE(property->source.empty());
}

TEST_CASE("every material is found by its name and every value has a source") {
    CHECK(material_names().size() >= 10);
    for (const std::string& name : material_names()) {
        CAPTURE(name);
        const auto found = material(name);
        REQUIRE(found.ok());
        CHECK(found->name == name);
        CHECK_FALSE(found->description.empty());
        plausible(found->density_kg_m3, 1000, 9000);
        plausible(found->modulus_mpa, 1000, 210000);
        plausible(found->poisson, 0.2, 0.4);
        plausible(found->expansion_per_k, 6e-6, 150e-6);
        plausible(found->yield_mpa, 50, 500);
        CHECK(found->expansion_per_k.has_value());
        CHECK(found->elastic().has_value() ==
              (found->modulus_mpa.has_value() && found->poisson.has_value()));
    }
}

TEST_CASE("names are taken as people write them") {
    CHECK(material("Cast Iron")->name == "cast iron");
    CHECK(material("cast_aluminum")->name == "cast aluminium");
    CHECK(material("alloy-steel")->name == "alloy steel");
    CHECK(material("AZ91D")->name == "az91d");
    CHECK(material("6061-T6")->name == "6061 t6");
    CHECK(material("grey iron G3000")->name == "g3000");
    CHECK(material("polyamide")->name == "nylon");
    CHECK_FALSE(material("epoxy")->elastic().has_value());
}

TEST_CASE("only a grade has strengths, and grey iron no yield") {
    for (const char* plain : {"steel", "mild steel", "alloy steel", "stainless steel", "cast iron",
                              "grey iron", "ductile iron", "aluminium", "6061", "cast aluminium",
                              "356", "magnesium", "brass", "bronze", "copper"}) {
        CAPTURE(plain);
        CHECK_FALSE(material(plain)->yield_mpa.has_value());
        CHECK_FALSE(material(plain)->tensile_mpa.has_value());
        CHECK(material(plain)->density_kg_m3.has_value());
    }
    CHECK(material("1020")->yield_mpa->value == 210.0);
    CHECK(material("4140")->yield_mpa->value == 417.0);
    CHECK_FALSE(material("G3000")->yield_mpa.has_value());
    CHECK(material("G3000")->tensile_mpa->value == 207.0);
}

TEST_CASE("an unknown name is answered with the nearest") {
    CHECK(material("stel").reason() == "no material 'stel' is known; did you mean 'steel'?");
    CHECK(material("cheese").reason() ==
          "no material 'cheese' is known; `trialfit table material` lists them");
    CHECK_FALSE(material("").ok());
}

}  // namespace
