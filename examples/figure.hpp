// What the programs that draw a batch share: the batch file in, the figure out.
#pragma once

#include "json/batch_file.hpp"
#include "kitchen_options.hpp"

namespace kitchen {

/// Writes a figure to a file or, for "-", to standard output.  The exit status.
inline int put_figure(const std::string& output, const std::string& svg) {
    return output == "-" ? print(svg) : write_file(output, svg);
}

/// Reads a batch file and writes the figure that `draw` makes of it, or says why not.  The exit status.
template <class Draw>
int print_figure(const std::string& path, const std::string& output, const Draw& draw) {
    if (output != "-" && same_file(path, output))
        return refused("--output: \"" + output + "\" is the batch file; another path is accepted");
    const auto text = read_all(path);
    if (!text) return cannot_read(path);
    const auto batch = sirop::lib::read_batch(*text);
    if (!batch) return refused(sirop::lib::one_line(batch.why));
    const auto drawn = draw(*batch);
    return drawn ? put_figure(output, *drawn) : refused(sirop::lib::one_line(drawn.why));
}

}  // namespace kitchen
