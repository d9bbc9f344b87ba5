// SPDX-License-Identifier: MIT
#include <trialfit/paper/complaint/json.hpp>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

std::string faults_json(const std::vector<FaultTold>& faults) {
    const auto one = [](const FaultTold& told) {
        const job::Complaint& complaint = told.complaint;
        const bool placed = complaint.at.line > 0;
        Json out;
        out["severity"] = complaint.severity == job::Severity::error ? "error" : "warning";
        out["file"] = told.file;
        out["line"] = placed ? Json(complaint.at.line) : Json();
        out["column"] = placed ? Json(complaint.at.column) : Json();
        out["fault"] = complaint.fault;
        out["mend"] = or_null(mend_of(complaint));
        return out;
    };
    Json out;
    out["trialfit"] = 1;
    out["faults"] = list_json(faults, one);
    return json_text(out);
}

}  // namespace trialfit::paper
