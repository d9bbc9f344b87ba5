// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/reading/size/size_text.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/trade/fit/general.hpp>
#include <trialfit/trade/fit/limits.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

using quantity::Unit;
using Kind = Token::Kind;

// Nothing that is turned on a lathe is longer, in any of the units.
constexpr double kLargest = 1e6;

// A reason of the trade room is one sentence: fault; mend.
TextFault fault_of(std::size_t at, const std::string& reason) {
    const std::size_t semicolon = reason.find("; ");
    if (semicolon == std::string::npos) return {at, reason, {}};
    return {at, reason.substr(0, semicolon), reason.substr(semicolon + 2)};
}

struct Stop {
    TextFault fault;
};

// A number and the unit written behind it, if any.
struct Figure {
    Token token;
    std::optional<Unit> unit;
    double length = 0.0;  // in the file's unit, once the units are settled
};

class SizeReader {
public:
    SizeReader(std::string_view text, const SizeContext& context, Bare bare)
        : text_(text), context_(context), bare_(bare) {}

    SizeText read() {
        Tokens tokens = tokens_of(text_);
        if (tokens.fault) return failed(*tokens.fault);
        tokens_ = std::move(tokens.tokens);
        try {
            SizeText answer = peek().kind == Kind::open ? repeated() : single();
            expect_end();
            answer.left = left_;
            return answer;
        } catch (const Stop& stop) {
            return failed(stop.fault);
        }
    }

    LengthText length(PlusMinus plus_minus) {
        Tokens tokens = tokens_of(text_);
        if (tokens.fault) return {0.0, std::move(tokens.fault)};
        tokens_ = std::move(tokens.tokens);
        plain_ = true;
        try {
            if (plus_minus == PlusMinus::allowed && peek().kind == Kind::plus_minus) ++next_;
            std::vector<Figure> figures{figure()};
            settle(figures, Tolerance::none);
            refuse_unit(peek());
            if (peek().kind != Kind::end)
                stop(peek().at, fmt::format("{} is not one plain length here", quoted(text_)),
                     fmt::format("write '{}'", figures.front().token.text));
            return {figures.front().length, {}, left_};
        } catch (const Stop& stop) {
            return {0.0, stop.fault};
        }
    }

private:
    static SizeText failed(TextFault fault) { return {{}, std::nullopt, std::move(fault)}; }
    [[noreturn]] static void stop(std::size_t at, std::string fault, std::string mend) {
        throw Stop{{at, std::move(fault), std::move(mend)}};
    }
    [[nodiscard]] const Token& peek() const { return tokens_[next_]; }
    Token take() {
        const Token token = tokens_[next_];
        if (token.kind != Kind::end) ++next_;
        return token;
    }
    [[nodiscard]] std::string whole() const { return quoted(trimmed(text_)); }

    // --- numbers and units

    Figure figure() {
        const Token token = peek();
        if (token.kind != Kind::number) no_number(token);
        ++next_;
        decimal_comma(token);
        exponent_or_class(token);
        Figure figure{.token = token, .unit = {}};
        if (peek().kind == Kind::word) {
            figure.unit = quantity::unit_named(peek().text);
            if (figure.unit) {
                last_end_ = peek().at + peek().text.size();
                ++next_;
            }
        }
        return figure;
    }
    static std::size_t end_of(const Figure& figure) {
        return figure.token.at + figure.token.text.size();
    }

    [[noreturn]] void no_number(const Token& token) const {
        const std::string low = quantity::small(token.text);
        if (low == "nan" || low == "inf" || low == "infinity")
            stop(token.at, fmt::format("{} is not a length", whole()), "write a number");
        if (token.kind == Kind::plus_minus)
            stop(token.at, fmt::format("{} has no size before its tolerance", whole()),
                 fmt::format("write it like '12.5 {}'", clipped(trimmed(text_))));
        if (next_ == 0 && plain_)
            stop(token.at, fmt::format("{} is not a length", whole()),
                 "write a number, as in '5.5' or '0.2 in'");
        if (next_ == 0)
            stop(token.at, fmt::format("{} is not a size", whole()),
                 "write it like '12.5 \u00b10.05', '25 h7' or '12.48 by caliper'");
        stop(token.at, fmt::format("a number is missing in {}", whole()),
             "write it like '12.5 \u00b10.05'");
    }

    // `12,5`: in brackets the comma parts two readings.
    void decimal_comma(const Token& token) const {
        if (in_list_ || peek().kind != Kind::comma) return;
        const Token& after = tokens_[next_ + 1];
        const bool joined = peek().at == token.at + token.text.size() &&
                            after.kind == Kind::number && after.at == peek().at + 1;
        if (!joined) return;
        stop(token.at,
             fmt::format("'{},{}' is written with a decimal comma", token.text, after.text),
             fmt::format("write '{}.{}'", token.text, after.text));
    }

    // Gives each figure its unit: its own, else that of the figure before, else the first that
    // follows. A bare size before a tolerance in a smaller unit could be meant either way.
    enum class Tolerance { none, behind };
    void settle(std::vector<Figure>& figures, Tolerance tolerance) {
        std::optional<Unit> first;
        for (const Figure& figure : figures)
            if (!first) first = figure.unit;
        if (tolerance == Tolerance::behind && first && !figures.front().unit)
            refuse_ambiguous(figures, *first);
        Unit unit = first.value_or(context_.unit_of_bare());
        left_.figure_in = unit;
        if (!first) left_.unit = end_of(figures.front());
        for (Figure& figure : figures) {
            unit = figure.unit.value_or(unit);
            figure.length = quantity::convert(figure.token.value, unit, context_.units);
            if (std::abs(figure.length) <= kLargest) continue;
            stop(figure.token.at,
                 fmt::format("'{}' is too large or too small for a length", figure.token.text),
                 fmt::format("lengths go up to {}", kLargest));
        }
    }
    void refuse_ambiguous(const std::vector<Figure>& figures, Unit unit) const {
        const bool small = unit == Unit::um || unit == Unit::thou;
        if (!small || unit == context_.unit_of_bare()) return;
        const Token& nominal = figures.front().token;
        const std::size_t after = nominal.at + nominal.text.size();
        stop(nominal.at,
             fmt::format("{} does not say whether '{}' counts for '{}', too", whole(),
                         quantity::name(unit), nominal.text),
             fmt::format("write '{} {}{}'", nominal.text, quantity::name(context_.unit_of_bare()),
                         clipped(text_.substr(after))));
    }
    // A unit behind a word: `25 h7 mm`, `[1, 2] mm by caliper`.
    std::optional<Unit> unit_after() {
        if (peek().kind != Kind::word) return std::nullopt;
        const auto unit = quantity::unit_named(peek().text);
        if (unit) ++next_;
        return unit;
    }

    // --- the forms

    SizeText single() {
        if (peek().kind == Kind::word && peek().text == "unmeasured") {
            ++next_;
            return {quantity::unmeasured(), std::nullopt, {}};
        }
        const Figure nominal = figure();
        switch (peek().kind) {
            case Kind::plus_minus:
                return symmetric(nominal);
            case Kind::range:
                return limits(nominal);
            case Kind::number:
                return deviations(nominal);
            case Kind::word:
                return worded(nominal);
            default:
                break;
        }
        expect_end();
        return bare(nominal);
    }

    SizeText symmetric(const Figure& nominal) {
        ++next_;
        std::vector<Figure> figures{nominal, figure()};
        const Token& tolerance = figures.back().token;
        if (tolerance.sign != '\0')
            stop(tolerance.at,
                 fmt::format("'{}' has a sign of its own after \u00b1", tolerance.text),
                 fmt::format("write '\u00b1{}'", trimmed(tolerance.text.substr(1))));
        settle(figures, Tolerance::behind);
        const double half = figures[1].length;
        return {quantity::toleranced(figures[0].length, -half, half), std::nullopt, {}};
    }

    SizeText limits(const Figure& lower) {
        ++next_;
        std::vector<Figure> figures{lower, figure()};
        settle(figures, Tolerance::none);
        if (left_.unit) left_.unit = end_of(figures.back());  // '12.45..12.55 mm'
        const double low = figures[0].length;
        const double high = figures[1].length;
        if (low > high)
            stop(lower.token.at, fmt::format("the limits in {} are the wrong way round", whole()),
                 fmt::format("write '{}..{}'", written(figures[1]), written(figures[0])));
        quantity::Size size = quantity::exact(low);
        if (high > low) size.spread.shape = quantity::Shape::normal;
        size.upper = high;
        size.nominal = size.middle();
        return {size, std::nullopt, {}};
    }

    SizeText deviations(const Figure& nominal) {
        if (peek().sign == '\0')
            stop(peek().at, fmt::format("{} holds two numbers with nothing between", whole()),
                 fmt::format("write '{0} \u00b1{1}', or '{0}..{1}' for two limits",
                             nominal.token.text, peek().text));
        std::vector<Figure> figures{nominal, figure()};
        if (peek().kind == Kind::slash) ++next_;
        if (peek().kind != Kind::number) one_deviation(figures);
        figures.push_back(figure());
        const Token& second = figures[2].token;
        if (second.sign == '\0')
            stop(second.at, fmt::format("'{}' has no sign", second.text),
                 fmt::format("write '+{0}' or '-{0}'", second.text));
        settle(figures, Tolerance::behind);
        const bool same_sign = figures[1].token.sign == second.sign;
        if (same_sign && figures[1].length < figures[2].length)
            stop(figures[1].token.at,
                 fmt::format("the deviations in {} are the wrong way round", whole()),
                 fmt::format("the upper stands first: write '{} {} {}'", nominal.token.text,
                             figures[2].token.text, figures[1].token.text));
        const auto [minus, plus] = std::minmax(figures[1].length, figures[2].length);
        return {quantity::toleranced(figures[0].length, minus, plus), std::nullopt, {}};
    }
    [[noreturn]] void one_deviation(const std::vector<Figure>& figures) const {
        const std::string_view nominal = figures[0].token.text;
        const Token& given = figures[1].token;
        const std::string_view size = trimmed(given.text.substr(1));
        const std::string both = given.sign == '+' ? fmt::format("{} +{} -0", nominal, size)
                                                   : fmt::format("{} +0 -{}", nominal, size);
        stop(given.at, fmt::format("{} gives only one of the two deviations", whole()),
             fmt::format("write '{}' or '{} \u00b1{}'", both, nominal, size));
    }

    SizeText worded(const Figure& nominal) {
        const Token word = peek();
        if (word.text == "exact") {
            ++next_;
            std::vector<Figure> figures{nominal};
            settle(figures, Tolerance::none);
            return {quantity::exact(figures[0].length), std::nullopt, {}};
        }
        if (word.text == "by") return by_gauge({nominal});
        const std::size_t number = word.text.find_first_of("0123456789");
        if (number >= 1 && number <= 2) return tolerance_class(nominal);
        expect_end();
        return {};
    }

    SizeText by_gauge(std::vector<Figure> figures) {
        ++next_;
        const Token name = take();
        if (name.kind != Kind::word)
            stop(name.at, fmt::format("{} does not name its gauge", whole()),
                 "write it like '12.48 by caliper'");
        settle(figures, Tolerance::none);
        const GaugeText gauge = find_gauge(name.text, context_);
        if (gauge.fault) stop(name.at, gauge.fault->fault, gauge.fault->mend);
        left_.gauge = {name.at, name.text.size()};
        std::vector<double> values;
        values.reserve(figures.size());
        for (const Figure& figure : figures)
            values.push_back(figure.length);
        const double half_width = context_.gauges.at(gauge.gauge.value().at()).half_width;
        refuse_far_apart(values, half_width);
        return {read_by_gauge(values, half_width), gauge.gauge, {}};
    }

    // `[9,20] by caliper` is two readings, 9 and 20: a decimal comma, not a scatter.
    void refuse_far_apart(const std::vector<double>& values, double half_width) const {
        constexpr double kMostApart = 100.0;  // half-widths: far beyond any scatter of one gauge
        const auto [least, most] = std::ranges::minmax_element(values);
        if (!(half_width > kLeastHalfWidth) || !(*most - *least > kMostApart * half_width)) return;
        stop(0,
             fmt::format("the readings of {} lie {:.6g} apart, and the gauge is good to {:.6g}",
                         whole(), *most - *least, half_width),
             "in brackets a comma parts two readings; write a decimal point, as in '9.20'");
    }

    SizeText repeated() {
        ++next_;
        in_list_ = true;
        std::vector<Figure> figures;
        while (true) {
            figures.push_back(figure());
            if (peek().kind != Kind::comma) break;
            ++next_;
        }
        in_list_ = false;
        if (peek().kind != Kind::close)
            stop(peek().at, fmt::format("{} has no ']' after its readings", whole()),
                 "write it like '[12.48, 12.50] by caliper'");
        if (figures.size() == 1)
            stop(0, fmt::format("{} is a list of one reading", whole()),
                 "leave the brackets out, or add the other readings");
        ++next_;
        if (const auto unit = unit_after(); unit && !figures.back().unit)
            figures.back().unit = unit;
        if (peek().kind != Kind::word || peek().text != "by")
            stop(peek().at, fmt::format("{} does not say which gauge it was read by", whole()),
                 "write it like '[12.48, 12.50] by caliper'");
        return by_gauge(std::move(figures));
    }

    SizeText tolerance_class(Figure nominal) {
        const Token word = take();
        if (const auto unit = unit_after(); unit && !nominal.unit) nominal.unit = unit;
        std::vector<Figure> figures{nominal};
        settle(figures, Tolerance::none);
        const double length = figures[0].length;
        const double in_mm = quantity::convert(length, context_.units, Unit::mm);
        const auto found = trade::deviations(word.text, in_mm);
        if (!found) throw Stop{fault_of(word.at, found.reason())};
        return {quantity::toleranced(length,
                                     quantity::convert(found->lower_mm, Unit::mm, context_.units),
                                     quantity::convert(found->upper_mm, Unit::mm, context_.units)),
                std::nullopt,
                {}};
    }

    [[nodiscard]] SizeText bare(const Figure& nominal) {
        std::vector<Figure> figures{nominal};
        settle(figures, Tolerance::none);
        if (bare_ == Bare::exact) return {quantity::exact(figures[0].length), std::nullopt, {}};
        SizeText answer = with_general_tolerance(figures[0].length, trimmed(text_), context_);
        if (answer.fault) answer.fault->at = nominal.token.at;
        left_.tolerance = nominal.unit ? last_end_ : end_of(nominal);
        return answer;
    }

    static std::string written(const Figure& figure) {
        if (!figure.unit) return std::string(figure.token.text);
        return fmt::format("{} {}", figure.token.text, quantity::name(*figure.unit));
    }

    void expect_end() const {
        const Token& token = peek();
        if (token.kind == Kind::end) return;
        refuse_unit(token);
        const std::vector<std::string> words{"mm", "in", "inch", "um", "thou", "exact", "by"};
        const std::string meant =
            token.kind == Kind::word ? quantity::nearest(token.text, words) : std::string();
        stop(token.at, fmt::format("{} in {} is not understood", quoted(token.text), whole()),
             meant.empty() ? "write it like '12.5 \u00b10.05', '25 h7' or '12.48 by caliper'"
                           : fmt::format("did you mean '{}'?", meant));
    }
    static void refuse_unit(const Token& token) {
        constexpr std::array<std::string_view, 6> kOtherUnits{"cm", "m", "dm", "ft", "mil", "mils"};
        if (std::ranges::find(kOtherUnits, token.text) != kOtherUnits.end())
            stop(token.at, fmt::format("'{}' is not a unit of this file format", token.text),
                 "write mm, um, in or thou");
    }
    // `25e8` is 25 with the class e8 to a fitter and 2500000000 to a computer.
    static void exponent_or_class(const Token& token) {
        const std::size_t letter = token.text.find_first_of("eE");
        if (letter == std::string_view::npos) return;
        const auto grade = number_of(token.text.substr(letter + 1));
        const bool a_grade = grade && *grade >= 5.0 && *grade <= 18.0;
        if (!a_grade || token.text.find_first_of("+-", letter) != std::string_view::npos) return;
        stop(token.at, fmt::format("'{}' could be a tolerance class or a power of ten", token.text),
             fmt::format("write '{} {}' for the class", token.text.substr(0, letter),
                         token.text.substr(letter)));
    }

    std::string_view text_;
    const SizeContext& context_;
    Bare bare_;
    std::vector<Token> tokens_;
    std::size_t next_ = 0;
    bool in_list_ = false;
    bool plain_ = false;
    std::size_t last_end_ = 0;  // of the unit read last
    LeftToFile left_;
};

}  // namespace

SizeText read_size_text(std::string_view text, const SizeContext& context, Bare bare) {
    return SizeReader(text, context, bare).read();
}

LengthText read_length_text(std::string_view text, const SizeContext& context,
                            PlusMinus plus_minus) {
    return SizeReader(text, context, Bare::exact).length(plus_minus);
}

SizeText with_general_tolerance(double length, std::string_view written,
                                const SizeContext& context) {
    const auto of = trade::general_class(std::string_view(&context.general_tolerance, 1));
    if (!of) {
        const std::string number = clipped(written);
        return {
            {},
            std::nullopt,
            TextFault{0, fmt::format("'{}' has no tolerance, and the file no general one", number),
                      fmt::format("write '{0} \u00b10.1', '{0} h7', '{0} by GAUGE' or '{0} "
                                  "exact', or set general_tolerance",
                                  number)}};
    }
    const double in_mm = quantity::convert(length, context.units, Unit::mm);
    const auto half_mm = trade::general_half_width_mm(*of, in_mm);
    if (!half_mm) return {{}, std::nullopt, fault_of(0, half_mm.reason())};
    const double half = quantity::convert(*half_mm, Unit::mm, context.units);
    return {quantity::toleranced(length, -half, half), std::nullopt, {}};
}

quantity::Size read_by_gauge(const std::vector<double>& values, double half_width) {
    if (values.size() == 1) return quantity::reading(values.front(), half_width);
    const auto n = static_cast<double>(values.size());
    double mean = 0.0;
    for (const double value : values)
        mean += value / n;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - mean) * (value - mean);
    return quantity::repeated_reading(mean, std::sqrt(squares / (n - 1.0)),
                                      static_cast<int>(values.size()), half_width);
}

GaugeText find_gauge(std::string_view name, const SizeContext& context) {
    const int found = context.gauge_names.find(name);
    if (found >= 0 && context.gauge_of_name == nullptr) return {found, {}};
    if (found >= 0) return {(*context.gauge_of_name)[static_cast<std::size_t>(found)], {}};
    if (context.gauge_names.names().empty())
        return {
            std::nullopt,
            TextFault{0, fmt::format("{} is no gauge of this file, which names none", quoted(name)),
                      fmt::format("add 'gauges: {{{}: SIZE}}', the half-width it is good to",
                                  clipped(name))}};
    const std::string meant = context.gauge_names.nearest(name);
    return {std::nullopt,
            TextFault{0, fmt::format("{} is not one of the file's gauges", quoted(name)),
                      meant.empty() ? "add it under 'gauges' with the half-width it is good to"
                                    : fmt::format("did you mean '{}'?", meant)}};
}

}  // namespace trialfit::reading
