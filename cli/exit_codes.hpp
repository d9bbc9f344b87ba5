// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::cli {

/// How the program ends; `trialfit --help` prints the same list.
enum ExitCode : int {
    kHolds = 0,  ///< all that was asked holds, or what was asked for was written
    kFails = 1,  ///< something fails, or is doubtful by what it is judged by
    kWrong = 2,  ///< the command line or the job file is wrong
    kFault = 3,  ///< a fault of the program itself, or its answer could not be delivered
};

}  // namespace trialfit::cli
