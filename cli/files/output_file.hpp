// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

// Files that the program writes: whole or not at all. A text is written to a draft in the same
// folder first, brought down to the device, and then takes the file's name; the folder is brought
// down to the device after it. A signal that ends the program is heard once the draft is gone. All
// functions tell on standard error why they refuse, and return kHolds; kWrong where the name will
// not do or the file is not as it was, kFault where the writing itself fails.
namespace trialfit::cli {

/// Where an answer goes.
struct Target {
    std::string name;
    /// A file that is there already is replaced.
    bool overwrite = false;
    /// The job that the answer was made from ("-": standard input); it is never written over.
    std::string job;
    /// What to do instead of writing over the job.
    std::string instead = "name another file";
};

/// Whether `target` could be written now; to be asked before work that takes long.
[[nodiscard]] int may_write(const Target& target);

/// Writes `text` to the target. A file that comes to be in the meantime stays as it is.
[[nodiscard]] int write_whole(const Target& target, std::string_view text);

/// A job file that no other run of this program writes while this object lives.
class Held {
public:
    /// Waits up to ten seconds for its turn. Where the file cannot be locked (it is not there, or
    /// its file system has no locks), `code()` is kHolds and write_back() still compares.
    explicit Held(std::string name);
    Held(const Held&) = delete;
    Held(Held&&) = delete;
    Held& operator=(const Held&) = delete;
    Held& operator=(Held&&) = delete;
    ~Held();

    /// kWrong, told of, where another program kept the file all the while.
    [[nodiscard]] int code() const { return code_; }

    /// Puts `text` in the place of `before`, the text that was read. Where the file now holds
    /// another text, it stays as it is. Owner, group and rights stay; where they cannot, or the
    /// file has other names, that is told.
    [[nodiscard]] int write_back(std::string_view text, std::string_view before) const;

private:
    std::string name_;
    int number_ = -1;
    int code_ = 0;
};

}  // namespace trialfit::cli
