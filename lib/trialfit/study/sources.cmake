set(sources
  named_sizes.cpp
  study.cpp
)
