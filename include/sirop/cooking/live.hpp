// An eye on the pan: readings come one by one, and it tells the water now, the seconds to the target and when to
// take the pan off.  On float or double; no allocation, no clock, no global; a plain value that may be saved and
// restored.
//
// What makes it short: the heat that a pan needs from now to a temperature is a function of that temperature alone
// (water boiled off and warmth), and the hob gives heat at an even rate.  So the readings, turned into heat, lie
// on a straight line over time: a weighted one with a fading memory is kept, by five sums.
#pragma once

#include "../formula/open_pan.hpp"
#include "../solution/properties.hpp"

namespace sirop::core {

enum class reading_use : unsigned char {
    used,
    out_of_line,  ///< far from what was expected: kept out, unless it goes on
    restarted,    ///< it went on: the flame, the probe or the pan has changed, and the line is begun anew
    no_number,    ///< not finite, or outside -30 to 250 C: a fault of the probe
    clock_went_back
};

template <class Scalar>
struct watch_settings {
    mixture_of<Scalar> pan;  ///< everything in it, at the start
    Scalar pressure_pa = formula::standard_atmosphere;
    Scalar target_celsius = 118.0;
    Scalar pan_joule_per_kelvin = 500.0;
    Scalar probe_lag_seconds = 3.0;       ///< to 63 % of a step
    Scalar probe_noise_kelvin = 0.5;      ///< one standard deviation
    Scalar scale_noise_grams = 5.0;       ///< likewise
    Scalar opening_square_metres = 0.03;  ///< of the pan: 20 cm across
    Scalar room_celsius = 20.0;
    Scalar hob_lag_seconds = 30.0;  ///< of the heat that still comes when it is turned off
};

/// What is known now.  Ends are those of nine in ten, by the noise and a tenth of the time for what the line
/// leaves out (losses, inversion, a slower boil); our estimate.
template <class Scalar>
struct watch_answer {
    Scalar celsius = not_a_number, water_grams = not_a_number, watts = not_a_number;
    Scalar seconds_to_target = not_a_number, seconds_low = not_a_number, seconds_high = not_a_number;
    Scalar seconds_to_take_off = not_a_number;  ///< so that it coasts to the target
    bool boils = false;
    bool sure = false;             ///< the ends are within 15 % or 20 s
    bool scale_disagrees = false;  ///< by more than three standard deviations of the two
};

template <class Scalar>
class pan_watch {
  public:
    explicit pan_watch(const watch_settings<Scalar>& s)
        : s_(s), boils_(best_boiling_celsius(s.pan, s.pressure_pa)), target_joule_(joule_at(s.target_celsius)) {}

    /// A reading: seconds on any clock, C, and grams in the pan if it stands on a scale.
    reading_use see(const Scalar& seconds, const Scalar& celsius, const Scalar& grams = Scalar(not_a_number)) {
        if (!(celsius >= Scalar(-30.0) && celsius <= Scalar(250.0)) || !is_number(seconds))
            return reading_use::no_number;
        if (begun_ && seconds < seconds_) return reading_use::clock_went_back;
        if (begun_) {
            forget(seconds - seconds_);
            lose(celsius, seconds - seconds_);
        }
        begun_ = true;
        seconds_ = seconds;
        const Scalar line = find_line();
        // Weighed by the slope where the line is: slopes taken at the reading would favour the readings below.
        const Scalar where = known() ? celsius_at(line - s_.probe_lag_seconds * watts_) : celsius;
        const Scalar noise = joule_per_kelvin(where) * s_.probe_noise_kelvin;
        const Scalar off = joule_at(celsius) - (line - s_.probe_lag_seconds * watts_);
        if (known() && off * off > Scalar(25.0) * (joule_variance_ + noise * noise)) {
            if (++out_of_line_ < 3) return reading_use::out_of_line;
            begin_anew(boiled_);
            add(joule_at(celsius), noise * noise);
            return reading_use::restarted;
        }
        out_of_line_ = 0;
        if (!boiled_ && known() && celsius > boils_ + Scalar(2.0) * s_.probe_noise_kelvin) begin_anew(true);
        add(joule_at(celsius), noise * noise);
        find_line();
        weigh(grams);
        return reading_use::used;
    }

    /// Something went into the pan: the line is begun anew with the next reading, the hob's power is kept.
    void stirred_in(const mixture_of<Scalar>& what) {
        s_.pan += what;
        boils_ = best_boiling_celsius(s_.pan, s_.pressure_pa);
        target_joule_ = joule_at(s_.target_celsius);
        begin_anew(false);
    }

    watch_answer<Scalar> now() const {
        using std::sqrt;
        watch_answer<Scalar> a;
        if (!known()) return a;
        a.celsius = celsius_at(joule_);
        a.boils = a.celsius > boils_;
        a.water_grams = a.boils ? held(a.celsius) : s_.pan.water();
        a.watts = watts_;
        a.scale_disagrees = scale_disagrees_;
        const Scalar missing = target_joule_ - joule_, net = watts_ - dry_watts(a.celsius);
        if (!(net > Scalar(1.0))) return a;
        a.seconds_to_target = larger(Scalar(missing / net), Scalar(0.0));
        a.seconds_to_take_off = larger(Scalar(a.seconds_to_target - s_.hob_lag_seconds), Scalar(0.0));
        const Scalar t = a.seconds_to_target;
        const Scalar variance =
            (joule_variance_ + t * (Scalar(2.0) * covariance_ + t * watts_variance_)) / (net * net);
        const Scalar model = Scalar(0.1) * t;
        const Scalar half = Scalar(1.645) * sqrt(larger(variance, Scalar(0.0))) + model;
        a.seconds_low = larger(Scalar(t - half), Scalar(0.0));
        a.seconds_high = t + half;
        a.sure = boiled_ && half <= larger(Scalar(Scalar(0.15) * t), Scalar(20.0));
        return a;
    }

  private:
    Scalar held(const Scalar& celsius) const {
        const Scalar ln_aw = ln_activity_at_boil(celsius, s_.pressure_pa);
        return smaller(water_held(s_.pan, ln_aw, Scalar(celsius + formula::zero_celsius)), s_.pan.water());
    }
    static Scalar of_steam(const Scalar& celsius) {
        return 1.0e-3 * (formula::specific_enthalpy(celsius, formula::heat_water) +
                         formula::latent_heat(Scalar(celsius + formula::zero_celsius)));
    }
    /// Heat that has gone into the pan when it is so hot, J, from an origin of its own.
    Scalar joule_at(const Scalar& celsius) const {
        if (!(celsius > boils_)) return enthalpy_joule(s_.pan, celsius) + s_.pan_joule_per_kelvin * celsius;
        const Scalar left = held(celsius);
        return enthalpy_joule(s_.pan.with_water(left), celsius) + s_.pan_joule_per_kelvin * celsius +
               (s_.pan.water() - left) * 0.5 * (of_steam(boils_) + of_steam(celsius));
    }
    Scalar joule_per_kelvin(const Scalar& celsius) const {
        const Scalar half = 0.25;
        return (joule_at(celsius + half) - joule_at(celsius - half)) / (half + half);
    }
    /// Heat at which so much water is left.
    Scalar joule_with(const Scalar& water) const {
        return joule_at(best_boiling_celsius(s_.pan.with_water(larger(water, Scalar(1.0e-3))), s_.pressure_pa));
    }
    Scalar celsius_at(const Scalar& joule) const {
        return solve_monotone([&](Scalar t) -> Scalar { return (joule_at(t) - joule) * 1.0e-5; }, boils_,
                              Scalar(-30.0), Scalar(250.0));
    }

    /// Whether there is a line: two readings, or one and a power known from before.
    bool known() const { return weight_ > Scalar(0.0) && watts_ > Scalar(0.0); }

    Scalar dry_watts(const Scalar& celsius) const {
        return s_.opening_square_metres * formula::dry_surface_loss(Scalar(celsius - s_.room_celsius));
    }
    /// What the surface gives up meanwhile; below the boil water goes with it.
    void lose(const Scalar& celsius, const Scalar& step) {
        lost_joule_ += step * dry_watts(celsius);
        if (boiled_ || !(celsius > s_.room_celsius)) return;
        const Scalar kelvin = celsius + formula::zero_celsius;
        const Scalar vapour =
            s_.opening_square_metres * formula::evaporation_loss(formula::saturation_pressure(kelvin), 1200.0);
        lost_joule_ += step * vapour;
        evaporated_ += step * vapour / (1.0e-3 * formula::latent_heat(kelvin));
    }

    /// A new line, whose slope is expected to be that of the last one.
    void begin_anew(bool boiled) {
        if (boiled && !boiled_) {
            s_.pan[component::water] = larger(Scalar(s_.pan.water() - evaporated_), Scalar(0.5 * s_.pan.water()));
            boils_ = best_boiling_celsius(s_.pan, s_.pressure_pa);
            target_joule_ = joule_at(s_.target_celsius);
        }
        boiled_ = boiled;
        lost_joule_ = evaporated_ = 0.0;
        prior_watts_ = watts_;
        prior_weight_ =
            prior_watts_ > Scalar(0.0) ? Scalar(1.0 / 0.0225) / (prior_watts_ * prior_watts_) : Scalar(0.0);
        weight_ = time_ = time_2_ = joule_sum_ = time_joule_ = 0.0;
        out_of_line_ = 0;
    }
    /// Old readings fade in five minutes (our choice), and all move back by the step: now is the origin.
    void forget(const Scalar& step) {
        using std::exp;
        const Scalar keep = exp(-step * (1.0 / 300.0));
        time_2_ = keep * (time_2_ - Scalar(2.0) * step * time_ + step * step * weight_);
        time_joule_ = keep * (time_joule_ - step * joule_sum_);
        time_ = keep * (time_ - step * weight_);
        weight_ *= keep;
        joule_sum_ *= keep;
    }
    /// A reading is of the pan as it was a lag ago.
    void add(const Scalar& joule, const Scalar& variance) {
        const Scalar w = 1.0 / variance, t = -s_.probe_lag_seconds;
        const Scalar j = joule + lost_joule_ - target_joule_;
        weight_ += w;
        time_ += w * t;
        time_2_ += w * t * t;
        joule_sum_ += w * j;
        time_joule_ += w * t * j;
    }
    /// Height now and slope of the line, with their variances; the height.
    Scalar find_line() {
        const Scalar slope_weight = time_2_ + prior_weight_;
        const Scalar pull = time_joule_ + prior_weight_ * prior_watts_;
        const Scalar all = weight_ * slope_weight - time_ * time_;
        if (!(all > Scalar(1.0e-6) * weight_ * slope_weight)) return joule_;
        joule_ = target_joule_ - lost_joule_ + (slope_weight * joule_sum_ - time_ * pull) / all;
        watts_ = (weight_ * pull - time_ * joule_sum_) / all;
        joule_variance_ = slope_weight / all;
        covariance_ = -time_ / all;
        watts_variance_ = weight_ / all;
        return joule_;
    }
    void weigh(const Scalar& grams) {
        scale_disagrees_ = false;
        if (!is_number(grams) || !boiled_ || !known()) return;
        const Scalar by_scale = joule_with(s_.pan.water() - (s_.pan.total() - grams));
        const Scalar noise = Scalar(2500.0) * s_.scale_noise_grams;  // steam takes 2.2 to 2.7 kJ/g
        const Scalar apart = by_scale - joule_;
        scale_disagrees_ = !(apart * apart <= Scalar(9.0) * (joule_variance_ + noise * noise));  // nor a number
        if (scale_disagrees_) return;
        const Scalar lag = s_.probe_lag_seconds;
        s_.probe_lag_seconds = 0.0;  // a scale has none
        add(by_scale, noise * noise);
        s_.probe_lag_seconds = lag;
        find_line();
    }

    watch_settings<Scalar> s_;
    Scalar boils_, target_joule_;
    Scalar seconds_{}, joule_{}, watts_{}, joule_variance_{}, covariance_{}, watts_variance_{};
    Scalar weight_{}, time_{}, time_2_{}, joule_sum_{}, time_joule_{};  // the line's sums, J above the target's
    Scalar prior_watts_{}, prior_weight_{}, lost_joule_{}, evaporated_{};
    int out_of_line_ = 0;
    bool begun_ = false, boiled_ = false, scale_disagrees_ = false;
};

}  // namespace sirop::core
