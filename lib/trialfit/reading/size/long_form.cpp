// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>
#include <trialfit/reading/values.hpp>

namespace trialfit::reading {

namespace {

using quantity::Shape;

// A size written as a map: `{size: 12.5, plus: 0.1, minus: 0.02, shape: uniform}`.
class LongForm {
public:
    LongForm(Reader& reader, const Fields& fields, Bare bare, MayBe may_be)
        : reader_(reader), fields_(fields), bare_(bare), may_be_(may_be) {
        given_.size = unknown_size();
        given_.at = reader.place(fields.node());
    }

    job::Given read() {
        if (!fields_.ok()) return given_;
        if (fields_.written("lower") || fields_.written("upper")) {
            limits();
        } else if (fields_.written("by")) {
            readings();
        } else if (fields_.written("plus") || fields_.written("minus")) {
            deviations();
        } else if (const Node* size = fields_.need("size", "size: SIZE")) {
            if (!size->is_scalar()) {
                reader_.error(*size, "several readings with no word of the gauge",
                              "add 'by: caliper'");
                return given_;
            }
            const job::Given plain = size_of(reader_, size, bare_, may_be_);
            given_.size = plain.size;
            given_.written = plain.written;
            given_.gauge = plain.gauge;
        }
        shape();
        return given_;
    }

private:
    void refuse_beside(std::string_view what, std::initializer_list<std::string_view> keys) {
        for (const std::string_view key : keys) {
            if (!fields_.written(key)) continue;
            reader_.error(fields_.node(), fmt::format("this size has '{}' beside {}", key, what),
                          "keep one of the two");
            return;
        }
    }

    void limits() {
        refuse_beside("'lower' and 'upper'", {"size", "plus", "minus", "by"});
        const Node* const from = fields_.need("lower", "lower: SIZE");
        const Node* const to = fields_.need("upper", "upper: SIZE");
        const auto lower = length_of(reader_, from, "'lower'", Least::any);
        const auto upper = length_of(reader_, to, "'upper'", Least::any);
        if (!lower || !upper) return;
        if (*lower > *upper)
            return reader_.error(
                *from, fmt::format("'lower' is {} and 'upper' is {}", from->scalar, to->scalar),
                "swap them");
        given_.size = quantity::exact(*lower);
        if (*upper > *lower) given_.size.spread.shape = Shape::normal;
        given_.size.upper = *upper;
        given_.size.nominal = given_.size.middle();
        given_.written = fmt::format("{}..{}", trimmed(from->scalar), trimmed(to->scalar));
    }

    void deviations() {
        const Node* const nominal = fields_.need("size", "size: SIZE");
        const Node* const above = fields_.need("plus", "plus: SIZE");
        const Node* const below = fields_.need("minus", "minus: SIZE");
        const auto size = length_of(reader_, nominal, "'size'", Least::any);
        const auto plus = deviation(above, "'plus'");
        const auto minus = deviation(below, "'minus'");
        if (!size || !plus || !minus) return;
        given_.size = quantity::toleranced(*size, -*minus, *plus);
        given_.written = fmt::format("{} +{} -{}", trimmed(nominal->scalar), trimmed(above->scalar),
                                     trimmed(below->scalar));
    }
    std::optional<double> deviation(const Node* node, std::string_view key) {
        const auto value = length_of(reader_, node, key, Least::any);
        if (!value || *value >= 0.0) return value;
        return reader_.refuse(
            *node, key,
            "write it without a sign; limits that lie on one side of the size are written "
            "with 'lower' and 'upper'");
    }

    void readings() {
        refuse_beside("'by'", {"plus", "minus", "shape", "sigmas"});
        const Node* const size = fields_.need("size", "size: SIZE");
        given_.gauge = gauge_of(reader_, fields_.find("by"));
        if (size == nullptr) return;
        std::vector<double> values;
        std::string words;
        bool sound = true;
        const auto one = [&](const Node& node) {
            const auto value = length_of(reader_, &node, "a reading", Least::any);
            sound = sound && value.has_value();
            values.push_back(value.value_or(0.0));
            words += (words.empty() ? "" : ", ") + std::string(trimmed(node.scalar));
        };
        if (size->is_list()) {
            for (const Node& node : size->children)
                one(node);
        } else {
            one(*size);
        }
        if (size->is_list() && values.size() < 2)
            return reader_.error(
                *size,
                values.empty() ? "the list of readings is empty" : "this is a list of one reading",
                values.empty() ? "write them like [12.48, 12.50]"
                               : "leave the brackets out, or add the other readings");
        if (!sound || !given_.gauge) return;
        const job::Gauge& gauge = reader_.job.gauges[given_.gauge->at()];
        given_.size = read_by_gauge(values, gauge.half_width);
        given_.written = size->is_list() ? fmt::format("[{}] by {}", words, gauge.name)
                                         : fmt::format("{} by {}", words, gauge.name);
    }

    void shape() {
        constexpr std::array kShapes{Shape::normal, Shape::truncated_normal, Shape::uniform,
                                     Shape::triangular};
        if (fields_.written("by")) return;
        const auto chosen = choice_of(reader_, fields_.find("shape"), "the shape",
                                      {"normal", "truncated normal", "uniform", "triangular"});
        const Node* const sigmas = fields_.find("sigmas");
        const auto count =
            number_in(reader_, sigmas, "'sigmas'",
                      {0.1, 100.0, "it is a number of standard deviations, as in 3"});
        if (chosen && given_.size.spread.shape != Shape::exact) {
            given_.size.spread.shape = kShapes.at(*chosen);
            given_.written += fmt::format(", {}", fields_.find("shape")->scalar);
        }
        if (!count) return;
        const Shape now = given_.size.spread.shape;
        if (now == Shape::uniform || now == Shape::triangular)
            return reader_.error(*sigmas, "'sigmas' beside a shape that ends at its limits",
                                 "take it away, or write shape: normal");
        given_.size.spread.sigmas = *count;
    }

    Reader& reader_;
    const Fields& fields_;
    Bare bare_;
    MayBe may_be_;
    job::Given given_;
};

}  // namespace

job::Given long_form(Reader& reader, const Fields& fields, Bare bare, MayBe may_be) {
    return LongForm(reader, fields, bare, may_be).read();
}

}  // namespace trialfit::reading
