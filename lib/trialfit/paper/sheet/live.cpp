// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/sheet/live.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/sheet/live/live.hpp>

namespace trialfit::paper {

namespace {

Json fixed_json(const stack::Fixed& of) {
    return Json::array({of.nominal, of.middle, of.worst.lo, of.worst.hi, of.rss.lo, of.rss.hi});
}

Json figures_json(const std::vector<sheet::LiveFigure>& figures, const std::vector<bool>& filled) {
    Json out = Json::array();
    for (const sheet::LiveFigure& each : figures) {
        Json by = Json::object();
        std::size_t next = 0;
        for (std::size_t f = 0; f < filled.size(); ++f) {
            if (!filled[f]) continue;
            const double gains = each.by[next++];
            if (gains != 0.0) by[fmt::to_string(f)] = gains;
        }
        Json one{{"at", fixed_json(each.at)}, {"by", std::move(by)}};
        if (each.at.moving) {
            one["least"] = fixed_json(each.at.moving->least);
            one["greatest"] = fixed_json(each.at.moving->greatest);
        }
        out.push_back(std::move(one));
    }
    return out;
}

Json limit_json(const sheet::LiveLimit& limit, const std::vector<bool>& filled) {
    Json out{{"limit", limit.limit}, {"more_than", limit.more_than}};
    if (!limit.over.empty()) {
        out["share"] = limit.share;
        out["over"] = figures_json(limit.over, filled);
    }
    return out;
}

bool open(const sheet::LiveFinding& finding) {
    return std::any_of(finding.value.begin(), finding.value.end(),
                       [](const sheet::LiveFigure& each) { return each.at.open(); });
}

Json finding_json(const sheet::LiveFinding& finding, const std::vector<bool>& filled) {
    Json out{{"name", finding.name}};
    if (!finding.state.empty()) out["state"] = finding.state;
    if (finding.check) out["check"] = true;
    if (finding.not_judged || open(finding)) {
        out["not_judged"] = true;
        return out;
    }
    if (finding.may_miss) out["may_miss"] = true;
    out["value"] = figures_json(finding.value, filled);
    if (finding.at_least) out["at_least"] = limit_json(*finding.at_least, filled);
    if (finding.at_most) out["at_most"] = limit_json(*finding.at_most, filled);
    return out;
}

Json field_json(const sheet::LiveField& field) {
    const bool cut = field.kind == sheet::LiveField::Kind::cut;
    Json out{{"kind", cut ? "cut" : "shims"},  {"what", field.what},
             {"half_width", field.half_width}, {"reference", field.reference},
             {"planned", field.planned},       {"most", field.most}};
    if (!cut) return out;
    out["read_by"] = field.read_by;
    out["keep"] = field.keep;
    out["least"] = field.least;
    return out;
}

std::string_view words_of(sheet::LiveLeftOut left_out) {
    switch (left_out) {
        case sheet::LiveLeftOut::radial_gaps:
            return "radial gaps";
        case sheet::LiveLeftOut::tightened:
            return "the hub drawn home by its nut, which hangs on what is cut";
        case sheet::LiveLeftOut::other_work:
            return "laps, skims, centring by hand and cuts of what nobody has measured";
        case sheet::LiveLeftOut::more_fields:
            break;
    }
    return "further cuts and shims, for which this page has no field";
}

// Whether what is left out could change the verdict of the work that was typed in.
bool caps(sheet::LiveLeftOut left_out) {
    return left_out == sheet::LiveLeftOut::radial_gaps || left_out == sheet::LiveLeftOut::tightened;
}

// Findings that are alike in several sets stand once.
Json data_of(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    const sheet::LiveAnswer& live = *answer.live;
    Json out{{"file", shell_word(answer.record.file)},
             {"decimals", lengths.decimals},
             {"judge", word(live.judge)},
             {"inflate", live.inflate}};
    out["fields"] = list_json(live.fields, field_json);
    out["readings"] = list_json(live.readings, [](const sheet::LiveReading& each) {
        return Json{{"name", each.name},
                    {"from", each.from},
                    {"to", each.to},
                    {"read_by", each.read_by},
                    {"half_width", each.half_width}};
    });
    if (live.entries_done) out["entries_done"] = *live.entries_done;
    Json pool = Json::array();
    std::map<std::string, std::size_t> known;
    out["sets"] = Json::array();
    for (const sheet::LiveSet& set : live.sets) {
        Json which = Json::array();
        for (const sheet::LiveFinding& each : set.findings) {
            Json finding = finding_json(each, set.filled);
            const auto [it, is_new] = known.try_emplace(finding.dump(), pool.size());
            if (is_new) pool.push_back(std::move(finding));
            which.push_back(it->second);
        }
        out["sets"].push_back({{"apart", static_cast<int>(set.apart)},
                               {"findings", which},
                               {"readings", figures_json(set.readings, set.filled)}});
    }
    out["findings"] = std::move(pool);
    Json left = Json::array();
    for (const sheet::LiveLeftOut each : live.left_out)
        left.push_back({{"words", words_of(each)}, {"caps", caps(each)}});
    out["left_out"] = std::move(left);
    return out;
}

// JSON in which nothing can end the script that holds it.
std::string harmless_json(const Json& data) {
    std::string out;
    for (const char c : data.dump()) {
        if (c == '<')
            out += "\\u003c";
        else if (c == '>')
            out += "\\u003e";
        else if (c == '&')
            out += "\\u0026";
        else
            out += c;
    }
    return out;
}

std::string field_html(const sheet::LiveField& field, std::size_t at, const Lengths& lengths) {
    const std::string what = escaped(listed(field.what));
    if (field.kind == sheet::LiveField::Kind::shims)
        return fmt::format(
            "<label>Shims under {1}, each of them, as 0.5 + 0.3, or none<br>\n<input "
            "id=\"live-{0}\" "
            "inputmode=\"text\" autocomplete=\"off\" aria-describedby=\"live-wrong-{0}\"></label>\n"
            "<p class=\"wrong\" id=\"live-wrong-{0}\"></p>\n",
            at, what);
    return fmt::format(
        "<label>{1} as cut, measured from {2}, in {3}{4}; now {5}<br>\n<input id=\"live-{0}\" "
        "inputmode=\"decimal\" autocomplete=\"off\" aria-describedby=\"live-wrong-{0}\"></label>\n"
        "<p class=\"wrong\" id=\"live-wrong-{0}\"></p>\n",
        at, what, escaped(listed(field.from)), spoken(lengths.units),
        field.read_by.empty() ? "" : " by " + escaped(listed(field.read_by)),
        lengths(field.reference));
}

std::string reading_html(const sheet::LiveReading& reading, std::size_t at,
                         const Lengths& lengths) {
    return fmt::format(
        "<label>{1}, {2} to {3}, in {4}{5}<br>\n<input id=\"live-reading-{0}\" "
        "inputmode=\"decimal\" autocomplete=\"off\" "
        "aria-describedby=\"live-reads-{0}\"></label>\n<p id=\"live-reads-{0}\"></p>\n",
        at, escaped(listed(reading.name)), escaped(listed(reading.from)),
        escaped(listed(reading.to)), spoken(lengths.units),
        reading.read_by.empty() ? "" : " by " + escaped(listed(reading.read_by)));
}

std::string_view words_of(sheet::NotLive why) {
    switch (why) {
        case sheet::NotLive::many_rings:
            return "the job has more rings than a page can hold";
        case sheet::NotLive::growth_unknown:
            return "nothing says how far a part that is warm grows";
        case sheet::NotLive::uneven:
            return "a figure does not move evenly with what is cut, as where a hub comes to bear "
                   "at "
                   "the other end of its cone";
        case sheet::NotLive::other_parts:
            return "it is not of the parts as they are";
        case sheet::NotLive::planned_in_part:
            return "part of the planned work is done; record the rest and print it again";
        case sheet::NotLive::readings_aside:
            return "the readings are set aside";
        case sheet::NotLive::no_place:
            break;
    }
    return {};
}

std::string no_fields(const sheet::SheetAnswer& answer) {
    const std::string_view why = words_of(answer.not_live);
    if (why.empty()) return {};
    return fmt::format(
        "<p class=\"live\">This page cannot be filled in: {}. With the size as cut, <code>trialfit "
        "check {} --with FACE=SIZE</code> works it out.</p>\n",
        why, escaped(shell_word(answer.record.file)));
}

}  // namespace

std::string live_html(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    if (!answer.live) return no_fields(answer);
    std::string fields;
    for (std::size_t f = 0; f < answer.live->fields.size(); ++f)
        fields += field_html(answer.live->fields[f], f, lengths);
    std::string readings;
    for (std::size_t r = 0; r < answer.live->readings.size(); ++r)
        readings += reading_html(answer.live->readings[r], r, lengths);
    if (!readings.empty())
        readings.insert(0, "<p>Readings, taken again with every part on its seat:</p>\n");
    return fmt::format(
        "<section class=\"live\" id=\"live\" hidden aria-label=\"As cut and fitted\">\n"
        "<h2>As cut and fitted</h2>\n"
        "<p>Type what you measured. A blank field is the part as it is now{}. Nothing is sent or "
        "kept. Odds, first contact and what stands under Not assessed are not worked out "
        "here.</p>\n{}<button type=\"button\" id=\"live-plan\">Fill in the plan</button>\n"
        "<button type=\"button\" id=\"live-clear\">Clear</button>\n"
        "<output id=\"live-verdict\" aria-live=\"polite\"></output>\n"
        "<div id=\"live-answer\">\n<p id=\"live-left-out\"></p>\n"
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"With what is typed\">"
        "<table><caption>With what is typed</caption>\n<thead><tr><th scope=\"col\">Check</th>"
        "<th scope=\"col\" class=\"figure\">Needed</th><th scope=\"col\" "
        "class=\"figure\">Nominal</th><th scope=\"col\" class=\"figure\">Worst "
        "case</th><th scope=\"col\">Verdict</th></tr></thead>\n"
        "<tbody id=\"live-rows\"></tbody></table></div>\n<p id=\"live-more\"></p>\n"
        "{}<p>The program's own answer:<br><code id=\"live-command\"></code></p>\n"
        "<p id=\"live-recording\">For the record:<br><code id=\"live-record\"></code><br>\n"
        "<button type=\"button\" id=\"live-copy\">Copy for the "
        "record</button></p>\n</div>\n</section>\n"
        "<script type=\"application/json\" id=\"live-data\">{}</script>\n<script>\n{}</script>\n",
        answer.planned ? ", before the work that is planned" : "", fields, readings,
        harmless_json(data_of(answer, lengths)), live_script());
}

}  // namespace trialfit::paper
