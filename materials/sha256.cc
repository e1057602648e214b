// SPDX-License-Identifier: GPL-3.0-or-later
#include "materials/sha256.h"

#include <openssl/sha.h>

#include <cstdio>

namespace overbend::materials
{
std::string sha256(const std::string &text)
{
  unsigned char digest[SHA256_DIGEST_LENGTH];
  SHA256(reinterpret_cast<const unsigned char *>(text.data()), text.size(), digest);
  std::string hex;
  for (const unsigned char byte : digest) {
    char pair[3];
    std::snprintf(pair, sizeof pair, "%02x", byte);
    hex += pair;
  }
  return hex;
}
} // namespace overbend::materials
