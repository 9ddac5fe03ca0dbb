// The card of a batch on an A5 sheet, black on white, to stand beside the stove.
#pragma once

#include <string>

#include "report/card.hpp"

namespace sirop::figure {

std::string card_page(const lib::card& c);

}  // namespace sirop::figure
