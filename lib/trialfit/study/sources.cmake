set(sources
  building.cpp
  differences.cpp
  job_builder.cpp
  named_sizes.cpp
  study.cpp
  suppose.cpp
)
