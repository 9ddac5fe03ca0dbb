#!/usr/bin/env bash
# What the pages quote is what stands in the examples, and what they print.     usage: pages.sh EXAMPLES_FOLDER
set -eu
block() { sed -n "/^\`\`\`$1\$/,/^\`\`\`\$/p" "$2" | sed '1d;/^```$/,$d'; }  # the first one of that language
diff <(block cpp README.md) <(sed -n '/\[readme\]/,/\[readme\]/p' examples/first_sauce.cpp | sed '1d;$d' | sed 's/^    //')
answer() { "$1" | grep -v '^- ' | head -n 1; }  # the cautions come before it
line=$(answer "$1/first_sauce")
[ -n "$line" ]
grep -qF "\`$line\`" README.md
# The same sauce in C; docs/c-functions.md, which shows it, is made of it.
[ "$line" = "$(answer "$1/first_sauce_c")" ]
"$1/describe_syrup" --list | diff docs/ranges.md -
