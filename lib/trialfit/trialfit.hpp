// SPDX-License-Identifier: MIT
#pragma once

// All that a program needs which uses Trialfit as a library; see trialfit::Study.
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/check/why_text.hpp>
#include <trialfit/paper/complaint/complaints.hpp>
#include <trialfit/paper/json/answers.hpp>
#include <trialfit/paper/odds/text.hpp>
#include <trialfit/paper/plan/text.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/sheet/sheet.hpp>
#include <trialfit/paper/spin/text.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <trialfit/study/job_builder.hpp>
#include <trialfit/study/study.hpp>
#include <trialfit/version.hpp>
