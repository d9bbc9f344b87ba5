// SPDX-License-Identifier: MIT
#include <sodium/crypto_hash_sha256.h>

#include <array>
#include <trialfit/sheet/checksum.hpp>
#include <vector>

namespace trialfit::sheet {

std::string sha256(std::string_view text) {
    const std::vector<unsigned char> bytes(text.begin(), text.end());
    std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
    crypto_hash_sha256(digest.data(), bytes.data(), bytes.size());
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string out;
    for (const unsigned char byte : digest) {
        out += kDigits[byte >> 4U];
        out += kDigits[byte & 15U];
    }
    return out;
}

}  // namespace trialfit::sheet
