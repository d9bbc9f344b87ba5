set(sources
  balance.cpp
  compression.cpp
  inertia.cpp
  spin.cpp
)
