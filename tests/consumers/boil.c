/* A user's C99 program: the boiling point of an 80 % sugar syrup. */
#include <sirop/sirop.h>
#include <stdio.h>

int main(void) {
    double grams[SIROP_COMPONENT_COUNT] = {0};
    sirop_estimate boils;
    int32_t status;
    grams[SIROP_SUCROSE] = 80;
    grams[SIROP_WATER] = 20;
    status = sirop_boiling_point_celsius(grams, SIROP_COMPONENT_COUNT, 1013.25, &boils);
    if (status < 0) {
        fprintf(stderr, "%s\n", sirop_status_text(status));
        return 1;
    }
    printf("boils at %.2f C\n", boils.value);
    return boils.value > 108 && boils.value < 111 ? 0 : 1;
}
