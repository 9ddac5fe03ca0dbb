// Not a number is an answer here, and the limits refuse it: a compiler told that there is none answers wrongly.
#pragma once

#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__)
#error "sirop: -ffast-math and -ffinite-math-only change answers without a word; compile without them."
#endif
