// All formulas, for tests that use them on float.
#pragma once

// A formula on float rounds results of double arithmetic to float; the compilers say so for each line of it.
#if defined(__clang__)
#pragma clang diagnostic push
#pragma clang diagnostic ignored "-Wimplicit-float-conversion"
#elif defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wfloat-conversion"
#endif
#include <sirop/formula/density.hpp>
#include <sirop/formula/glass.hpp>
#include <sirop/formula/heat.hpp>
#include <sirop/formula/isotherm.hpp>
#include <sirop/formula/refraction.hpp>
#include <sirop/formula/solubility.hpp>
#include <sirop/formula/water.hpp>
#if defined(__clang__)
#pragma clang diagnostic pop
#elif defined(__GNUC__)
#pragma GCC diagnostic pop
#endif
