// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/sheet/live.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/markup.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/sheet/live/live.hpp>
#include <trialfit/stack/model/listing.hpp>

namespace trialfit::paper {

namespace {

// A page that is judged by the worst case has no use for an RSS.
class Data {
public:
    explicit Data(bool rss) : rss_(rss) {}

    [[nodiscard]] Json finding(const sheet::LiveFinding& finding) const {
        const std::string_view side = finding.widest ? " (greatest)" : " (least)";
        Json out{{"name", finding.name + std::string(finding.one_of_two ? side : "")}};
        if (finding.widest) out["widest"] = true;
        if (!finding.state.empty()) out["state"] = finding.state;
        if (finding.kind == sheet::LiveFinding::Kind::check) out["check"] = true;
        if (finding.at_least) out["at_least"] = limit(*finding.at_least);
        if (finding.at_most) out["at_most"] = limit(*finding.at_most);
        out["blank"] = figures(finding.blank);
        Json groups = Json::array();
        for (const sheet::LiveGroup& each : finding.groups)
            groups.push_back(group(each));
        out["groups"] = std::move(groups);
        return out;
    }

private:
    [[nodiscard]] Json fixed(const stack::Fixed& of) const {
        Json out = Json::array({of.nominal, of.middle, of.worst.lo, of.worst.hi});
        if (!rss_) return out;
        out.push_back(of.rss.lo);
        out.push_back(of.rss.hi);
        return out;
    }

    // Null where nothing fixes it.
    [[nodiscard]] Json figure(const sheet::LiveFigure& of) const {
        if (of.at.open()) return nullptr;
        Json by = Json::object();
        for (std::size_t f = 0; f < of.by.size(); ++f)
            if (of.by[f] != 0.0) by[fmt::to_string(f)] = of.by[f];
        Json out{{"at", fixed(of.at)}, {"by", std::move(by)}};
        if (of.at.moving) {
            out["least"] = fixed(of.at.moving->least);
            out["greatest"] = fixed(of.at.moving->greatest);
        }
        return out;
    }

    [[nodiscard]] Json figures(const sheet::LiveFigures& of) const {
        Json out = Json::object();
        if (of.not_judged) {
            out["not_judged"] = true;
            return out;
        }
        if (of.may_miss) out["may_miss"] = true;
        const auto add = [&](const char* key, const std::vector<sheet::LiveFigure>& all) {
            if (!all.empty())
                out[key] =
                    list_json(all, [this](const sheet::LiveFigure& each) { return figure(each); });
        };
        add("value", of.value);
        add("over", of.over);
        add("under", of.under);
        add("within", of.within);
        return out;
    }

    // The choice of none is `blank`.
    [[nodiscard]] Json group(const sheet::LiveGroup& of) const {
        Json choices = Json::array({nullptr});
        for (std::size_t choice = 1; choice < of.of.size(); ++choice)
            choices.push_back(figures(of.of[choice]));
        return {{"fields", of.fields}, {"of", std::move(choices)}};
    }

    static Json limit(const sheet::LiveLimit& of) {
        Json out{{"limit", of.limit}, {"more_than", of.more_than}};
        if (of.share != 0.0) out["share"] = of.share;
        return out;
    }

    bool rss_;
};

std::string_view word_of(sheet::LiveField::Kind kind) {
    switch (kind) {
        case sheet::LiveField::Kind::cut:
            return "cut";
        case sheet::LiveField::Kind::take:
            return "take";
        case sheet::LiveField::Kind::shims:
            return "shims";
        case sheet::LiveField::Kind::skim:
            return "skim";
        case sheet::LiveField::Kind::lap:
            return "lap";
        case sheet::LiveField::Kind::centring:
            break;
    }
    return "centring";
}

Json field_json(const sheet::LiveField& field) {
    Json bounds = Json::array();
    for (const sheet::LiveBound& each : field.bounds)
        bounds.push_back(
            {{"nominal", each.nominal}, {"worst", each.worst}, {"is_most", each.is_most}});
    Json out{{"kind", word_of(field.kind)},
             {"what", field.what},
             {"read_by", field.read_by},
             {"half_width", field.half_width},
             {"now", field.now},
             {"least", field.least},
             {"most", field.most},
             {"planned", field.planned},
             {"bounds", std::move(bounds)},
             {"reference", Json::array({field.reference.middle, field.reference.half_width,
                                        field.reference.squares})}};
    if (field.kind == sheet::LiveField::Kind::skim) out["bore"] = field.bore;
    if (field.kind == sheet::LiveField::Kind::lap) {
        out["dia"] = field.dia;
        out["dia_sign"] = field.dia_sign;
    }
    return out;
}

std::string words_of(const sheet::LiveLeftOut& left_out) {
    using Kind = sheet::LiveLeftOut::Kind;
    std::string names;
    for (std::size_t i = 0; i < left_out.names.size(); ++i)
        names += (i == 0 ? "" : ", ") + listed(left_out.names[i]);
    switch (left_out.kind) {
        case Kind::radial_gaps:
            return "the radial gaps of " + names + ", which do not move evenly with what is typed";
        case Kind::tightened:
            return "the hub drawn home by its nut, which hangs on what is cut";
        case Kind::open_work:
            return "work on " + names + ", of which nobody has measured what is there now";
        case Kind::tied:
            return "work on " + names + ", whose size is bound to others or decides what can meet";
        case Kind::uneven:
            return names + ", which do not move evenly with what is typed";
        case Kind::more_fields:
            break;
    }
    return "work on " + names + ", for which this page has no more fields";
}

// Whether what is left out could change the verdict of the work that was typed in.
bool caps(const sheet::LiveLeftOut& left_out) {
    using Kind = sheet::LiveLeftOut::Kind;
    return left_out.kind == Kind::radial_gaps || left_out.kind == Kind::tightened ||
           left_out.kind == Kind::uneven;
}

Json field_of_reading(const sheet::LiveReading& each, const Data& data) {
    return {{"name", each.name},
            {"from", each.from},
            {"to", each.to},
            {"read_by", each.read_by},
            {"half_width", each.half_width},
            {"should", each.should ? data.finding(*each.should) : Json(nullptr)}};
}

Json data_of(const sheet::SheetAnswer& answer, const Lengths& lengths) {
    const sheet::LiveAnswer& live = *answer.live;
    const Data data(live.judge == stack::Judge::rss);
    Json out{{"file", shell_word(answer.record.file)},
             {"decimals", lengths.decimals},
             {"judge", word(live.judge)},
             {"inflate", live.inflate}};
    if (live.entries_done) out["entries_done"] = *live.entries_done;
    out["fields"] = list_json(live.fields, field_json);
    out["readings"] = list_json(live.readings, [&](const sheet::LiveReading& each) {
        return field_of_reading(each, data);
    });
    out["findings"] = list_json(live.findings,
                                [&](const sheet::LiveFinding& each) { return data.finding(each); });
    Json apart = Json::array();
    for (const stack::Verdict each : live.apart.of)
        apart.push_back(static_cast<int>(each));
    out["apart"] = {{"fields", live.apart.fields}, {"of", std::move(apart)}};
    out["left_out"] = list_json(live.left_out, [](const sheet::LiveLeftOut& each) {
        return Json{{"words", words_of(each)}, {"caps", caps(each)}};
    });
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

// What a field asks for, and how it is now.
std::string label_of(const sheet::LiveField& field, const Lengths& lengths) {
    const std::string what = escaped(listed(field.what));
    const std::string now = lengths(field.now);
    const std::string units = std::string(spoken(lengths.units));
    const std::string by = field.read_by.empty() ? "" : " by " + escaped(listed(field.read_by));
    switch (field.kind) {
        case sheet::LiveField::Kind::shims:
            return "Shims under " + what + ", each of them, as 0.5 + 0.3, or none";
        case sheet::LiveField::Kind::take:
            return fmt::format(
                "Taken off {}, in {}{}; nobody has measured how far it is from {}, so that what "
                "must "
                "remain is not judged",
                what, units, by, escaped(listed(field.from)));
        case sheet::LiveField::Kind::skim:
            return fmt::format("{} as skimmed, on diameter, in {}{}; now {}", what, units, by, now);
        case sheet::LiveField::Kind::lap:
            return fmt::format(
                "{}: lapped off the diameters, both parts together, in {}; at most {}", what, units,
                lengths(field.most));
        case sheet::LiveField::Kind::centring:
            return fmt::format(
                "{} centred: what is left of its clearance, on diameter, in {}; now {}", what,
                units, now);
        case sheet::LiveField::Kind::cut:
            break;
    }
    return fmt::format("{} as cut, measured from {}, in {}{}; now {}", what,
                       escaped(listed(field.from)), units, by, now);
}

std::string field_html(const sheet::LiveField& field, std::size_t at, const Lengths& lengths) {
    const bool shims = field.kind == sheet::LiveField::Kind::shims;
    return fmt::format(
        "<label>{1}<br>\n<input id=\"live-{0}\" inputmode=\"{2}\" autocomplete=\"off\" "
        "aria-describedby=\"live-wrong-{0}\"></label>\n<p class=\"wrong\" "
        "id=\"live-wrong-{0}\"></p>\n",
        at, label_of(field, lengths), shims ? "text" : "decimal");
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
            return "nothing says how far warm parts grow: ";
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
        "<p class=\"live\">This page cannot be filled in: {}{}. With the size as cut, "
        "<code>trialfit check {} --with FACE=SIZE</code> works it out.</p>\n",
        why, escaped(stack::some_of(answer.growth_unknown, 6)),
        escaped(shell_word(answer.record.file)));
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
