// SPDX-License-Identifier: MIT
#pragma once

#include <sys/stat.h>

#include <csignal>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace trialfit::cli {

/// A file in the folder of `target` that is gone again unless it took the target's name. While it
/// lives, signals that end the program wait.
class Draft {
public:
    explicit Draft(const std::filesystem::path& target);
    Draft(const Draft&) = delete;
    Draft(Draft&&) = delete;
    Draft& operator=(const Draft&) = delete;
    Draft& operator=(Draft&&) = delete;
    ~Draft();

    [[nodiscard]] bool open() const { return number_ >= 0; }

    /// Writes `text` down to the device, with owner, group and rights of the file that it replaces,
    /// or those that a plainly created file would have. False with errno set where that fails.
    [[nodiscard]] bool write_down(std::string_view text, const struct stat* replaces);

    /// Whether owner and group of the replaced file could be kept.
    [[nodiscard]] bool same_owner() const { return same_owner_; }

    /// Takes the target's name. Not `overwrite`: false with EEXIST where there is a file of that
    /// name by now.
    [[nodiscard]] bool take_name(bool overwrite);

    enum class Placed { yes, changed, failed };
    /// Takes the place of a file whose text was `before`. Where it is another by now, it stays or
    /// is put back: `changed`. `failed`: with errno set.
    [[nodiscard]] Placed take_place(std::string_view before);

    /// Brings the folder down to the device, so that the name lasts. False with errno set.
    [[nodiscard]] bool sync_folder() const;

private:
    std::filesystem::path target_;
    std::string path_;
    sigset_t signals_before_{};
    int number_ = -1;
    bool same_owner_ = true;
    bool named_ = false;
};

}  // namespace trialfit::cli
