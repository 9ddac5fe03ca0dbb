# The checks that are no GoogleTest: what is needed once is run with the g++ build, what a second compiler may see
# otherwise with clang's too.  All run in the folder of the sources.
if(SIROP_SANITIZE)
    return()
endif()

# sirop_check(NAME LABEL COMMAND...)
function(sirop_check name label)
    add_test(NAME ${name} COMMAND ${ARGN} WORKING_DIRECTORY "${PROJECT_SOURCE_DIR}")
    set_tests_properties(${name} PROPERTIES LABELS ${label})
endfunction()
set(checks tests/checks)
set(system_python /usr/bin/python3)  # Debian's, which has iapws

sirop_check(headers_in_one_program lint bash ${checks}/headers.sh "${CMAKE_CXX_COMPILER}" "${CMAKE_C_COMPILER}")
sirop_check(heap_free_c_api lint bash ${checks}/heap_free.sh "${CMAKE_CXX_COMPILER}")
sirop_check(misuse_does_not_compile lint bash ${checks}/misuse.sh "${CMAKE_CXX_COMPILER}")

file(GLOB programs CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/examples/*.cpp")
list(TRANSFORM programs REPLACE "^.*/(.*)\\.cpp$" "\\1")
if(CMAKE_CXX_COMPILER_ID MATCHES "Clang")
    if(SIROP_BUILD_EXAMPLES)
        add_custom_target(all_programs)
        add_dependencies(all_programs ${programs})
    endif()
    file(GLOB sources RELATIVE "${PROJECT_SOURCE_DIR}" CONFIGURE_DEPENDS
        "${PROJECT_SOURCE_DIR}/lib/*/*.cpp" "${PROJECT_SOURCE_DIR}/examples/*.cpp")
    foreach(source IN LISTS sources)
        sirop_check(clang_tidy.${source} lint clang-tidy --quiet -p "${PROJECT_BINARY_DIR}" ${source})
    endforeach()
    return()
endif()

# Each header stands alone, also for those who use no exceptions.
file(GLOB_RECURSE headers CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/include/*.hpp")
set(CMAKE_CXX_EXTENSIONS OFF)
add_library(headers_alone INTERFACE)
target_sources(headers_alone INTERFACE FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}/include" FILES ${headers})
target_link_libraries(headers_alone INTERFACE sirop::sirop Eigen3::Eigen)
target_compile_options(headers_alone INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror -fno-exceptions -fno-rtti -O0)
set_target_properties(headers_alone PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
sirop_check(headers_alone lint "${CMAKE_COMMAND}" --build "${PROJECT_BINARY_DIR}"
    --target headers_alone_verify_interface_header_sets -- -k 0)

sirop_check(format lint bash -o pipefail -c
    "find include lib examples tests docs -name '*.[ch]' -o -name '*.[ch]pp' | xargs clang-format --dry-run --Werror")
sirop_check(no_fast_math lint bash ${checks}/no_fast_math.sh)
sirop_check(include_graph lint ${system_python} ${checks}/include_graph.py)
sirop_check(c_functions lint bash ${checks}/c_functions.sh $<TARGET_FILE:sirop_c>)
sirop_check(c_contract lint ${system_python} -B ${checks}/c_contract.py $<TARGET_FILE:sirop_c>)
sirop_check(validation_page lint bash docs/validation/make.sh --check)
sirop_check(embedded_target lint bash ${checks}/embedded_target.sh "${CMAKE_CURRENT_BINARY_DIR}/embedded_target")

# The tests' own operator new stays in force in c_handles_test: one case lets memory run out.
set(memcheck valgrind --quiet --leak-check=full --errors-for-leak-kinds=definite,possible --error-exitcode=9)
sirop_check(valgrind.c_handles valgrind ${memcheck} --soname-synonyms=somalloc=nouserintercepts
    $<TARGET_FILE:c_handles_test> --gtest_filter=-threads.*)
sirop_check(valgrind.c_catalogues valgrind ${memcheck} --soname-synonyms=somalloc=nouserintercepts
    $<TARGET_FILE:c_catalogues_test>)
sirop_check(valgrind.c_question valgrind ${memcheck} $<TARGET_FILE:c_question_test>)
sirop_check(valgrind.c_arrays valgrind ${memcheck} $<TARGET_FILE:c_arrays_test>)

sirop_check(water_against_iapws bindings ${system_python} ${checks}/iapws_check.py $<TARGET_FILE:sirop_c>)
sirop_check(python bindings bash bindings/python/test.sh "${PROJECT_BINARY_DIR}")
sirop_check(javascript bindings bash bindings/javascript/test.sh "${PROJECT_BINARY_DIR}")
sirop_check(consumers consumers bash tests/consumers/run.sh "${PROJECT_BINARY_DIR}")
set_tests_properties(python javascript consumers validation_page PROPERTIES COST 1000)  # begun first
if(NOT SIROP_BUILD_EXAMPLES)
    return()
endif()

sirop_check(refusals examples bash ${checks}/refusals.sh $<TARGET_FILE:predict_set>)
sirop_check(pages examples bash ${checks}/pages.sh "${PROJECT_BINARY_DIR}/examples")
sirop_check(files_of_programs examples ${system_python} ${checks}/programs_check.py "${PROJECT_BINARY_DIR}/examples")
sirop_check(figures examples ${system_python} ${checks}/figure_check.py "${PROJECT_BINARY_DIR}/examples")

# How each example is run: "|" parts several ways.  Those that are not named here answer without arguments.
set(batches examples/batches)
set(miso ${batches}/miso_caramel.json)
set(soft ${batches}/soft_caramels.json)
file(GLOB all_batches RELATIVE "${PROJECT_SOURCE_DIR}" CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/${batches}/*.json")
list(JOIN all_batches "|--json " arguments_predict_set_json)
list(JOIN all_batches "|" arguments_predict_set)
string(APPEND arguments_predict_set "|--full ${miso}|--width 32 ${miso}|--json ${arguments_predict_set_json}")
set(arguments_check_syrup "sucrose=60 glucose=20 --solids-percent 80 --altitude-metres 1600|honey=100 --boils-celsius 112")
set(arguments_draw_batch "${soft}")
set(arguments_print_card "${soft}")
set(arguments_cook_for "${miso} --set-word ribbon --at-celsius 18|${soft} --brix 88 --json")
set(arguments_rescue_batch
    "${miso} --shows-celsius 116 --set-word ribbon|${miso} --grams-left 520 --water-percent 14")
set(arguments_swap_ingredient "${miso} --replace pan[1] --by honey")
set(arguments_formulate_sauce "${miso} --free pan[0] pan[1] pan[2] --set ribbon@25 --grams 600")
set(arguments_scale_batch "${miso} --portions 24 --grams-per-portion 35 --loss-grams 20|${soft} --millilitres 1000 --json")
set(arguments_other_kitchen
    "${miso} --altitude-metres 1600|${soft} --thermometer-reads-in-boiling-water-celsius 98.5 --json")
set(arguments_what_matters "${miso} --thermometer-kelvin 0.3|${soft} --samples 50 --json")
set(arguments_cook_timeline
    "${miso} --hob gas --watts 3000|${soft} --ph 6 --json|${soft} --svg -|${soft} --steps '[{\"heat_to_celsius\":118},{\"hold_minutes\":1,\"power_percent\":30}]'")
set(arguments_learn_kitchen "${miso} --weighed 106=551 108.5=534 112=516|${soft} --weighed 116=820 121=785 --brix 118=87 --json")
set(arguments_describe_syrup "--list|honey=100 --celsius 40|sucrose=60 glucose=20 --reads-brix 78 --celsius 60")
set(arguments_stage_chart "|--svg - --altitude-feet 7200|--altitude-metres 0|--altitude-metres 500|--altitude-metres 2500")

file(GLOB c_programs CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/examples/*.c")
list(TRANSFORM c_programs REPLACE "^.*/(.*)\\.c$" "\\1")
foreach(program IN LISTS programs c_programs)
    set(number 0)
    string(APPEND arguments_${program} "|")  # so that the last one may be empty
    while(arguments_${program} MATCHES "^([^|]*)\\|(.*)$")
        separate_arguments(words UNIX_COMMAND "${CMAKE_MATCH_1}")
        set(arguments_${program} "${CMAKE_MATCH_2}")
        math(EXPR number "${number} + 1")
        sirop_check(example.${program}.${number} examples
            bash ${checks}/answers.sh $<TARGET_FILE:${program}> ${words})
    endwhile()
endforeach()
