// SPDX-License-Identifier: MIT
#include <trialfit/draw/page/view.hpp>

namespace trialfit::draw {

double draw_head(const std::string& title, const std::vector<std::string>& lines, double left,
                 double right, double top, Drawing& into) {
    constexpr double kTitleSize = 5.0;
    double y = top + kTitleSize;
    into.texts.push_back(fitted_text({left, y}, kTitleSize, title, "", right - left));
    y += 1.5;
    for (const std::string& line : lines) {
        y += kLineHeight;
        into.texts.push_back(fitted_text({left, y}, kNameSize + 0.2, "", line, right - left));
    }
    return y;
}

void draw_balloon(const Spot& at, const std::string& number, Drawing& into) {
    into.circles.push_back(
        {.at = at, .radius = kBalloon, .pen = Pen::dimension, .fill = Fill::paper});
    into.texts.push_back(
        text_at({at.x, at.y + kFigureSize / 3.0}, kFigureSize, Anchor::middle, number, ""));
}

}  // namespace trialfit::draw
