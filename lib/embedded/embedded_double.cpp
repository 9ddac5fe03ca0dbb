// sirop_embedded.h in double.
#include "doors.hpp"

using real = double;
#define SIROP_NAME(name) sirop_embedded_##name
#include "functions.inc"
