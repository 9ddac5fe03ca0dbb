/* The first sauce from C99: a batch by calls, what it will be when it is cold, and how to cook it for another set.
 */
#include <sirop/sirop.h>
#include <stdio.h>

/* Invented. */
static int32_t caramel_sauce(sirop_batch* b) {
    double pressure_hpa = 0.0;
    int32_t status = sirop_pressure_at_altitude_hpa(350.0, &pressure_hpa);
    if (status >= 0) status = sirop_batch_add(b, SIROP_PAN, "white sugar", 250.0, 20.0);
    if (status >= 0) status = sirop_batch_add(b, SIROP_PAN, "glucose syrup 42 DE", 100.0, 20.0);
    if (status >= 0) status = sirop_batch_add(b, SIROP_PAN, "heavy cream 36 %", 300.0, 20.0);
    if (status >= 0) status = sirop_batch_add(b, SIROP_OFF_HEAT, "butter, unsalted", 40.0, 20.0);
    if (status >= 0) status = sirop_batch_set(b, "thermometer_celsius", 107.0);
    if (status >= 0) status = sirop_batch_set(b, "pressure_hpa", pressure_hpa);
    if (status >= 0) status = sirop_batch_set(b, "serve_celsius", 18.0);
    return status;
}

static double number(const sirop_answer* answer, const char* key) {
    double value;
    sirop_answer_number(answer, key, &value); /* NaN if there is none */
    return value;
}

static const char* text(const sirop_answer* answer, const char* key, char* out, size_t out_bytes) {
    size_t needed_bytes;
    return sirop_answer_text(answer, key, out, out_bytes, &needed_bytes) >= 0 ? out : "?";
}

int main(void) {
    sirop_batch* batch = NULL;
    sirop_question* question = NULL;
    sirop_answer *cold = NULL, *plan = NULL;
    char word[64], stage[64], caution[512];
    int32_t i, cautions = 0, status = sirop_batch_new(&batch);

    if (status >= 0) status = caramel_sauce(batch);
    if (status >= 0) status = sirop_batch_predict(batch, NULL, &cold);
    if (status >= 0) status = sirop_question_new("cook_for", &question);
    if (status >= 0) status = sirop_question_set_batch(question, "batch", batch);
    if (status >= 0) status = sirop_question_set_text(question, "wanted.set_word", "mounding");
    if (status >= 0) status = sirop_question_ask(question, &plan);
    if (status >= 0) {
        sirop_answer_count(cold, "cautions", &cautions);
        for (i = 0; i < cautions; ++i) {
            char key[32];
            sprintf(key, "cautions.%d", (int)i);
            printf("- %s\n", text(cold, key, caution, sizeof caution));
        }
        printf("%.1f %% water (%.1f to %.1f), %s; the table says %s\n", number(cold, "finished.water_percent"),
               number(cold, "finished.water_percent_low"), number(cold, "finished.water_percent_high"),
               text(cold, "set.word", word, sizeof word), text(cold, "stage.by_temperature", stage, sizeof stage));
        printf("mounding: cook to %.1f C (%.1f to %.1f)\n", number(plan, "answer.thermometer_celsius"),
               number(plan, "answer.thermometer_celsius_low"), number(plan, "answer.thermometer_celsius_high"));
    } else {
        const char* why = sirop_question_refusal(question);
        if (*why == '\0') why = sirop_batch_refusal(batch);
        fprintf(stderr, "%s\n", *why == '\0' ? sirop_status_text(status) : why);
    }
    sirop_answer_free(plan);
    sirop_question_free(question);
    sirop_answer_free(cold);
    sirop_batch_free(batch);
    if (status < 0) return 1;
    if (fflush(stdout) == 0 && !ferror(stdout)) return 0;
    fputs("standard output: cannot be written\n", stderr);
    return 3;
}
