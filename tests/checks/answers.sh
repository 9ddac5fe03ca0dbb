#!/usr/bin/env bash
# Passes if the program ends with 0 and says something.     usage: answers.sh PROGRAM [ARGUMENT...]
output=$("$@") && [ -n "$output" ]
