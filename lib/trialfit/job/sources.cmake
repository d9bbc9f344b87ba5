set(sources
  former.cpp
  job.cpp
  validity/doubts.cpp
  validity/validate.cpp
  validity/warnings.cpp
)
