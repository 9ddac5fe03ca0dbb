// Refractive index of sucrose solutions, and what a refractometer makes of another solution.
#pragma once

namespace sirop::formula {

/// Refractive index nD of a sucrose solution at 20 C, w mass fraction.
/// Our fit of degree 5 to the International (ICUMSA 1974) scale, 0..85 %: worst 0.7e-5, the table's last digit
/// being 1e-5; within 2.4e-4 of the table's unofficial extension to 95 %.
template <class Scalar>
Scalar sucrose_refractive_index(const Scalar& w) {
    return 1.33299 +
           w * (0.142696702 + w * (0.0550966406 + w * (0.0110723626 + w * (0.0144876741 - w * 0.010079241))));
}

/// Lorentz-Lorenz: (n^2 - 1)/(n^2 + 2), which is additive in volume.
template <class Scalar>
Scalar lorentz_lorenz(const Scalar& n) {
    return (n * n - 1.0) / (n * n + 2.0);
}

}  // namespace sirop::formula
