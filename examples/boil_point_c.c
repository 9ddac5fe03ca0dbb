/* How hot does this syrup boil in this kitchen?  The C API from C99. */
#include <sirop/sirop.h>
#include <stdio.h>

int main(void) {
    double grams[SIROP_COMPONENT_COUNT] = {0};
    double pressure_hpa = 0.0;
    sirop_estimate boils, water;
    int32_t status;

    grams[SIROP_SUCROSE] = 60.0;
    grams[SIROP_GLUCOSE] = 20.0;
    grams[SIROP_WATER] = 20.0;

    status = sirop_pressure_at_altitude_hpa(350.0, &pressure_hpa);
    if (status >= 0) status = sirop_boiling_point_celsius(grams, SIROP_COMPONENT_COUNT, pressure_hpa, &boils);
    if (status >= 0) status = sirop_water_at_boil_grams(grams, SIROP_COMPONENT_COUNT, 118.0, pressure_hpa, &water);
    if (status < 0) {
        fprintf(stderr, "%s\n", sirop_status_text(status));
        return 1;
    }
    printf(
        "Hot sugar burns and steam bursts: deep pan, long sleeves. On a burn: cool running water 20 minutes, no "
        "ice, "
        "do not pull off stuck sugar, get medical help.\n\n");
    printf("60 g sucrose, 20 g glucose, 20 g water at 350 m (%.1f hPa), sirop %s\n", pressure_hpa,
           sirop_version());
    printf("boils at %.1f C (%.1f to %.1f): %s\n", boils.value, boils.low, boils.high,
           sirop_status_text(boils.status));
    printf("at 118 C it holds %.1f g of water (%.1f to %.1f): %s\n", water.value, water.low, water.high,
           sirop_status_text(water.status));
    if (fflush(stdout) == 0 && !ferror(stdout)) return 0;
    fputs("standard output: cannot be written\n", stderr);
    return 3;
}
