# Sourced by examples/run and tests/run: the Debian packages they stand on, and how to get them.

build_packages=(g++ cmake ninja-build libboost-dev libeigen3-dev libyaml-cpp-dev libcli11-dev libfmt-dev
                nlohmann-json3-dev libsodium-dev)
test_packages=(clang libclang-rt-dev lld clang-format clang-tidy doctest-dev libbenchmark-dev doxygen pkg-config
               python3 python3-yaml python3-jsonschema python3-numpy python3-scipy
               chromium poppler-utils librsvg2-bin groff zsh fish)
# Of these, what tests/hostile/fuzz/run needs.
fuzz_packages=(clang libclang-rt-dev python3)

# Installs those of the named packages that are missing; quick where none is.
need() {
  local package missing=()
  for package in "$@"; do
    dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || missing+=("$package")
  done
  ((${#missing[@]})) || return 0
  local as_root=()
  ((EUID == 0)) || as_root=(sudo)
  echo "installing: ${missing[*]}"
  # A fresh machine has no package lists, and old lists name packages that are gone: look once more then.
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null 2>&1 ||
    { "${as_root[@]}" apt-get update -qq &&
      "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null; }
}
