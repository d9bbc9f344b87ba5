set(sources
  characters.cpp
  figures.cpp
  nearest.cpp
  size.cpp
  units.cpp
)
