#!/usr/bin/env bash
# What the pages quote is what stands in the examples, and what they print.     usage: pages.sh EXAMPLES_FOLDER
set -eu
block() { sed -n "/^\`\`\`$1\$/,/^\`\`\`\$/p" "$2" | sed '1d;/^```$/,$d'; }  # the first one of that language
diff <(block cpp README.md) <(sed -n '/\[readme\]/,/\[readme\]/p' examples/first_sauce.cpp | sed '1d;$d' | sed 's/^    //')
line=$("$1/first_sauce" | head -n 1)
[ -n "$line" ]
grep -qF "\`$line\`" README.md
# The same sauce in C; docs/c-functions.md, which shows it, is made of it.
[ "$line" = "$("$1/first_sauce_c" | head -n 1)" ]
"$1/describe_syrup" --list | diff docs/ranges.md -
