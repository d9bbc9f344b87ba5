// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/sheet/sheet.hpp>

namespace trialfit::paper {

/// The part of a sheet that is typed into: fields for what was cut and which shims lie where, and a
/// script (live.js) that works out from them, without a request, what `check --with` says of
/// clearances and checks. Hidden where scripts are off. Where the sheet works out nothing, the
/// reason; nothing where the job has nothing to fill in. Harmless whatever the job is called.
/// `lengths`: how the sheet prints them.
[[nodiscard]] std::string live_html(const sheet::SheetAnswer& answer, const Lengths& lengths);

/// The text of live.js.
[[nodiscard]] std::string_view live_script();

}  // namespace trialfit::paper
