set(sources
  building.cpp
  job_builder.cpp
  named_sizes.cpp
  study.cpp
  suppose.cpp
)
