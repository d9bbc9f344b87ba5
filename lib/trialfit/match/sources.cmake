set(sources
  match.cpp
  present.cpp
  rank.cpp
  written.cpp
)
