// SPDX-License-Identifier: MIT
#include "output_file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <system_error>

#include "exit_codes.hpp"
#include "terminal.hpp"

namespace trialfit::cli {

namespace {

namespace fs = std::filesystem;

// A file that is gone again unless it was given its name.
class Draft {
public:
    explicit Draft(const fs::path& target)
        : path_((target.parent_path() / ("." + target.filename().string() + ".XXXXXX")).string()),
          number_(mkstemp(path_.data())) {}
    Draft(const Draft&) = delete;
    Draft(Draft&&) = delete;
    Draft& operator=(const Draft&) = delete;
    Draft& operator=(Draft&&) = delete;
    ~Draft() {
        if (number_ < 0) return;
        close(number_);
        unlink(path_.c_str());
    }

    [[nodiscard]] bool open() const { return number_ >= 0; }

    // Down to the device, with the rights of the file that it replaces, or those that a plainly
    // created file would have.
    [[nodiscard]] bool write_down(std::string_view text, const fs::file_status& replaces) const {
        while (!text.empty()) {
            const ssize_t done = ::write(number_, text.data(), text.size());
            if (done < 0 && errno == EINTR) continue;
            if (done < 0) return false;
            text.remove_prefix(static_cast<std::size_t>(done));
        }
        const mode_t mask = umask(0);
        umask(mask);
        const mode_t rights =
            fs::exists(replaces) ? static_cast<mode_t>(replaces.permissions()) : 0666 & ~mask;
        return fchmod(number_, rights) == 0 && fsync(number_) == 0;
    }

    // A link, unlike a rename, does not replace a file that came to be in the meantime.
    [[nodiscard]] bool take_name(const fs::path& target, bool overwrite) const {
        if (overwrite) return std::rename(path_.c_str(), target.c_str()) == 0;
        if (link(path_.c_str(), target.c_str()) == 0) return true;
        // Some file systems have no links.
        const bool no_links = errno == EPERM || errno == EOPNOTSUPP || errno == ENOSYS;
        return no_links && !fs::exists(target) && std::rename(path_.c_str(), target.c_str()) == 0;
    }

private:
    std::string path_;
    int number_;
};

int refuse_errno(const std::string& name, int code) {
    const int why = errno;
    refuse(name, std::strerror(why));
    return code;
}

}  // namespace

int write_whole(const std::string& name, std::string_view text, bool overwrite) {
    std::error_code unused;
    fs::path target = name;
    // The file that a symbolic link stands for is written, not the link.
    if (fs::is_symlink(target, unused)) target = fs::weakly_canonical(target, unused);
    const fs::file_status status = fs::status(target, unused);
    if (target.filename().empty() || fs::is_directory(status))
        return refuse(name.empty() ? "''" : name, "is no name for a file",
                      "name a file in that directory");
    if (fs::exists(status) && !fs::is_regular_file(status))
        return refuse(name, "is not a plain file", "name a plain file");
    if (fs::exists(status) && !overwrite)
        return refuse(name, "is there already, and stays as it is",
                      "--force overwrites it, another name leaves it alone");
    // Replacing it asks nothing of the file itself, only of its folder; its own rights count.
    if (fs::exists(status) && access(target.c_str(), W_OK) != 0) return refuse_errno(name, kWrong);
    const Draft draft(target);
    if (!draft.open()) return refuse_errno(name, kWrong);
    if (!draft.write_down(text, status) || !draft.take_name(target, overwrite))
        return refuse_errno(name, kFault);
    return kHolds;
}

}  // namespace trialfit::cli
