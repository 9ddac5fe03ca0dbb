/* sirop: the C API.
 *
 * Every function is reentrant, prints nothing, keeps no global state, never aborts and lets no exception out.
 * Each returns a status: 0 is fine, a positive number is a warning (the result was computed), a negative one an
 * error (results are NaN).  The result goes through the last pointer.  A function whose name ends in _n is the
 * same for n elements, with a status in each result; it returns the first error, or else the worst warning. The
 * unit stands in every name. The header compiles as C99 and as C++. */
#ifndef SIROP_SIROP_H
#define SIROP_SIROP_H

#include <stddef.h>
#include <stdint.h>

#define SIROP_VERSION_MAJOR 0
#define SIROP_VERSION_MINOR 1
#define SIROP_VERSION_PATCH 0

#if defined(_WIN32) || defined(SIROP_STATIC)
#define SIROP_API
#else
#define SIROP_API __attribute__((visibility("default")))
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* Status codes: numbered, published, never reused.  An unknown negative code is a general failure. */
enum {
    SIROP_OK = 0,           /* fine */
    SIROP_EXTRAPOLATED = 1, /* computed, outside the fitted range of a model */
    SIROP_E_GENERAL = -1,   /* any other failure */
    SIROP_E_RANGE = -2,     /* an argument is outside its range, infinite or not a number */
    SIROP_E_NAME = -3,      /* no such component, ingredient, table or quantity */
    SIROP_E_BUFFER = -4,    /* the buffer is too small; *needed_bytes says how large it must be */
    SIROP_E_BATCH = -5,     /* the batch file is refused; the output holds the reason in one line */
    SIROP_E_NULL = -6,      /* a required pointer is null */
    SIROP_E_MEMORY = -7,    /* out of memory */
    SIROP_E_IMPOSSIBLE = -8 /* the question has no answer within the model */
};

/* The components, in the order of every array of masses. */
enum {
    SIROP_WATER,
    SIROP_SUCROSE,
    SIROP_GLUCOSE,
    SIROP_FRUCTOSE,
    SIROP_GALACTOSE,
    SIROP_LACTOSE,
    SIROP_MALTOSE,
    SIROP_MALTOTRIOSE,
    SIROP_MALTOTETRAOSE,
    SIROP_MALTOPENTAOSE,
    SIROP_MALTOHEXAOSE,
    SIROP_MALTOHEPTAOSE,
    SIROP_HIGHER_SACCHARIDES,
    SIROP_SORBITOL,
    SIROP_GLYCEROL,
    SIROP_SALT,
    SIROP_MINERALS,
    SIROP_PROTEIN,
    SIROP_STARCH,
    SIROP_FIBRE,
    SIROP_COCOA_SOLIDS,
    SIROP_FAT,
    SIROP_ACID,
    SIROP_COCOA_BUTTER,
    SIROP_VEGETABLE_FAT,
    SIROP_AGAR,
    SIROP_GELATIN,
    SIROP_COMPONENT_COUNT
};

/* A number with its interval and its status. */
typedef struct sirop_estimate {
    double value;
    double low;
    double high;
    int32_t status;
    int32_t reserved;
} sirop_estimate;

/* An inclusive range. */
typedef struct sirop_range {
    double low;
    double high;
} sirop_range;

/* The version of the library that runs, such as "0.1.0". */
SIROP_API const char* sirop_version(void);

/* What a status code means, in English; never null. */
SIROP_API const char* sirop_status_text(int32_t status);

/* The name of a component as the batch file writes it; null for an index that does not exist. */
SIROP_API const char* sirop_component_name(int32_t component);

/* The inclusive range that an argument accepts.  Names: "temperature_celsius", "pressure_hpa", "altitude_metres",
 * "water_boils_celsius", "serve_celsius", "added_celsius", "grams", "syrup_solids_percent",
 * "thermometer_error_kelvin", "thermometer_within_kelvin", "target_celsius". */
SIROP_API int32_t sirop_accepted_range(const char* argument, sirop_range* range);

/* Pressure of the kitchen from its altitude (ISO 2533), or from the temperature at which water boils in it
 * (IAPWS-IF97), and that temperature from the pressure. */
SIROP_API int32_t sirop_pressure_at_altitude_hpa(double altitude_metres, double* pressure_hpa);
SIROP_API int32_t sirop_pressure_from_boiling_water_hpa(double water_boils_celsius, double* pressure_hpa);
SIROP_API int32_t sirop_water_boils_celsius(double pressure_hpa, double* celsius);

/* Mixtures.  grams: the masses of the first `components` components, at least 0, not all 0; the others are 0.
 * components: 1 to SIROP_COMPONENT_COUNT.  A program passes the SIROP_COMPONENT_COUNT that it was compiled with,
 * and keeps working with a later library that knows more of them. */

/* Temperature at which the mixture boils. */
SIROP_API int32_t sirop_boiling_point_celsius(const double* grams, size_t components, double pressure_hpa,
                                              sirop_estimate* celsius);

/* Grams of water that the mixture holds when it boils at that temperature; its own water does not count. */
SIROP_API int32_t sirop_water_at_boil_grams(const double* grams, size_t components, double celsius,
                                            double pressure_hpa, sirop_estimate* water_grams);

/* Water activity of the mixture at a temperature. */
SIROP_API int32_t sirop_water_activity(const double* grams, size_t components, double celsius,
                                       sirop_estimate* activity);

/* Temperature at which ice begins to form in the mixture. */
SIROP_API int32_t sirop_freezing_point_celsius(const double* grams, size_t components, sirop_estimate* celsius);

/* The same for n mixtures: grams holds n * components numbers, the other arrays n. */
SIROP_API int32_t sirop_boiling_point_celsius_n(size_t n, const double* grams, size_t components,
                                                const double* pressure_hpa, sirop_estimate* celsius);
SIROP_API int32_t sirop_water_at_boil_grams_n(size_t n, const double* grams, size_t components,
                                              const double* celsius, const double* pressure_hpa,
                                              sirop_estimate* water_grams);
SIROP_API int32_t sirop_water_activity_n(size_t n, const double* grams, size_t components, const double* celsius,
                                         sirop_estimate* activity);
SIROP_API int32_t sirop_freezing_point_celsius_n(size_t n, const double* grams, size_t components,
                                                 sirop_estimate* celsius);

/* Properties.  Any property of the catalogue by its name, which carries its unit, such as "density_g_per_ml" or
 * "viscosity_pa_s": sirop_property_name(0), (1), ... lists them, null after the last.  Unit, source and
 * uncertainty are texts; null for an unknown name. */
SIROP_API const char* sirop_property_name(int32_t index);
SIROP_API const char* sirop_property_unit(const char* property);
SIROP_API const char* sirop_property_source(const char* property);
SIROP_API const char* sirop_property_uncertainty(const char* property);

/* The temperatures in which it is answered (inclusive), and above which solids of the syrup phase, in percent, the
 * answer is an extrapolation.  A range whose ends are equal: the property does not depend on a temperature. */
SIROP_API int32_t sirop_property_range(const char* property, sirop_range* celsius, double* fitted_solids_percent);

/* Its value for a mixture at a temperature and, where it matters, a pressure; and the same for n mixtures. */
SIROP_API int32_t sirop_property_estimate(const char* property, const double* grams, size_t components,
                                          double celsius, double pressure_hpa, sirop_estimate* result);
SIROP_API int32_t sirop_property_estimate_n(const char* property, size_t n, const double* grams, size_t components,
                                            const double* celsius, const double* pressure_hpa,
                                            sirop_estimate* results);

/* The main job: a batch file (docs/batch-file.md) in, the answer out.
 * batch: batch_bytes bytes of UTF-8 JSON.  table: the stage table's name, null for the default "us 2004".
 * out: receives the answer, or on SIROP_E_BATCH the reason of the refusal in one line, and ends in a NUL.
 * *needed_bytes: the bytes that the whole text takes, its NUL included.  If out_bytes is less, out holds "" and
 * the status is SIROP_E_BUFFER; with out_bytes 0, out may be null.  On other errors out is left as it was, and
 * *needed_bytes is 0. */
SIROP_API int32_t sirop_predict_json(const char* batch, size_t batch_bytes, const char* table, char* out,
                                     size_t out_bytes, size_t* needed_bytes);
/* The same as a readable report for a cook. */
SIROP_API int32_t sirop_predict_report(const char* batch, size_t batch_bytes, const char* table, char* out,
                                       size_t out_bytes, size_t* needed_bytes);

#ifdef __cplusplus
}
#endif

#endif
