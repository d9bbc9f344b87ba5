// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/paper/text/style.hpp>

// The two ways out of the program. Standard output carries answers only; all else goes to standard
// error.
namespace trialfit::cli {

/// Whether an answer is coloured: `as_it_is` where standard output is a terminal that knows colour
/// and NO_COLOR is not set (https://no-color.org), or FORCE_COLOR is set.
enum class Colour { as_it_is, always, never };
/// What --color says, for the answers and complaints after it.
void set_colour(Colour chosen);

/// Coloured as above; as wide as COLUMNS says, or the terminal, from 60 to 120 columns, else 80; in
/// ASCII where the language that is set (LC_ALL, LC_CTYPE, LANG) is not in UTF-8.
/// `brief`: see paper::Style.
[[nodiscard]] paper::Style output_style(bool brief = false);
[[nodiscard]] paper::Style error_style();

/// Writes an answer to standard output, down to the device. `code` where all of it got there; else
/// says why on standard error and returns kFault. A reader that has gone away ends the program
/// quietly (SIGPIPE, or kFault without a word where the signal is ignored).
[[nodiscard]] int deliver(std::string_view answer, int code);

/// Writes to standard error as it is.
void tell(std::string_view text);

/// Complaints about `source`, a text that was read under `name`, on standard error; nothing where
/// there are none.
void tell_complaints(const job::Complaints& complaints, std::string_view name,
                     std::string_view source);

/// Everything that was complained of since the program began, as paper::faults_json.
[[nodiscard]] std::string told_as_json();

/// "NAME: error: FAULT; MEND" on standard error (no mend: no semicolon); returns kWrong.
int refuse(std::string_view name, std::string_view fault, std::string_view mend = "");

/// "NAME: warning: FAULT; MEND" on standard error.
void warn(std::string_view name, std::string_view fault, std::string_view mend = "");

}  // namespace trialfit::cli
