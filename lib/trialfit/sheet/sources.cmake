set(sources
  before_after.cpp
  by_odds.cpp
  checksum.cpp
  sheet.cpp
  trial_fit.cpp
  write_back.cpp
)
