// sirop_embedded.h in float.  An object of its own: it shows that no double is computed with.
#include "doors.hpp"

using real = float;
#define SIROP_NAME(name) sirop_embedded_##name##_f
#include "functions.inc"
