// SPDX-License-Identifier: MIT
#pragma once

// All that a program needs which uses Trialfit as a library; see trialfit::Study.
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <trialfit/study/job_builder.hpp>
#include <trialfit/study/study.hpp>
#include <trialfit/version.hpp>
