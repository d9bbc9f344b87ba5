// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <iostream>
#include <trialfit/paper/check_text.hpp>

#include "demo_answer.hpp"

TEST_CASE("x") { std::cout << trialfit::paper::check_text(trialfit::testing::fouling_rotor(), {}); }
