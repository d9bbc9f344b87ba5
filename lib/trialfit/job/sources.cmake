set(sources
  former.cpp
  job.cpp
  size_id.cpp
  validity/doubts.cpp
  validity/validate.cpp
  validity/warnings.cpp
)
