set(sources
  match.cpp
  rank.cpp
  written.cpp
)
