// What the report says around its tables.
#pragma once

namespace validation {

inline constexpr const char* introduction = R"(# Validation: how far off the library is

This page is made by `docs/validation/make.sh`, which compares the library with published data and draws the figures.
The numbers in the tables are computed; the words around them are written by hand.

**How to read the tables.** Each line is one published data set. *Off* is always library minus publication.

- *bias*: the mean of what the points are off. Far from zero, the library leans to one side.
- *rms*: the root mean square, the usual size of an error, whatever its sign.
- *worst*: the point that is furthest off, and where it is.
- *aim*: what this project set itself for the data set, and whether it is met.
- *inside the interval*: the library gives water activity, water content, viscosity and the glass transition with an
  interval. Here is how many published points lie inside. Half of the last printed digit of the publication is allowed
  for (a freezing point printed to 0.01 K is known to 0.00005 in water activity; a value read off a curve to ±2 g).

An interval is meant to hold **nine points in ten**: fewer, and it promises too much; and it must not be more than twice
as wide as that needs, or it says too little. *Solids* are mass % of dissolved substance. *aw* is water activity.
A source marked *recalled* was quoted from memory, not read. `1e-05` means 0.00001.

**Three kinds of comparison are kept apart.** A *validation* compares with published values that this library's
constants were not fitted to. (The authors of a published equation may have used them. We do not know that for every
data set; for salt we believe it, and so count it as a regression.) A *regression* compares a formula with its own
source, or a fit with what it was fitted to; it shows that nothing broke and how good the fit is, no more. *Model
against model* shows how far two published models are apart where nobody's measurements are at hand.
)";

inline constexpr const char* after_validation = R"(
The freezing points test water activity from −6 to 0 °C, in thin syrups; the isopiestic measurements test it at 25 °C to
67 % solids. The coarse sorption curves lie below the library in every point. For sucrose at aw 0.90 the isopiestic
measurements side with the library, so the curves are coarser than they say, and their row of sucrose is not pooled with
the others in section 3. Corn syrup stands to the source's own sucrose as 1.00, 1.00, 0.86 and 0.83, to the library's as
0.81, 0.85, 0.87 and 0.87. Chains took no constant from these points. Of the Greek honeys only the ends of two ranges are
known, of milk concentrate neither fat nor pressure. Published
glass transitions of one and the same sugar differ by up to 10 K between laboratories, with their definitions; the
interval of a monosaccharide therefore reaches 12 K up from Roos's constants, which keeps honeys inside it too.

Sucrose in humid air tests water activity and viscosity as a pair: at a given humidity the one gives the water, the
other makes of it a viscosity. Whoever moves one must move the other. ±0.5 of the data's own scatter is allowed for.
Towards 75 % humidity (76 % solids), where both are well known, the droplets' fit lies half a decade below. Crystals in
molasses test the law of crowding alone (Krieger & Dougherty, 2.5 and 0.64), which the library took from elsewhere. Its
interval is half of the thickening either way. One point is outside: fine grain, 0.12 of the volume, for which the
source has nearly twice what any such law gives. A refractometer reads honey some 1.5 Brix below its solids. That is physics:
its sugars refract less than sucrose in a less dense syrup.

Left out as misprinted in the source: the viscosity of sucrose at 32 % and 20 °C.

![Water activity at the freezing points](validation/freezing.svg)

![Viscosity](validation/viscosity.svg)
)";

inline constexpr const char* after_regression = R"(
Left out as out of line in the source: the viscosity of sucrose at 60 % and 15 °C (by about 11 %). Kept, but doubtful:
40 % at 0 and 5 °C, where the table also lies 8 to 12 % below the equation of Genotelle and jumps on to its next row.

Glycerol is compared with another model's values, and both ends of that source are in doubt: at 10 % an ideal
solution (Raoult) has aw 0.9787 and the source's model 0.9759, an osmotic coefficient of 1.12, where measured ones are
about 1.03 (recalled, confidence medium); and in thick solution its aw falls as it warms, against the heat of dilution and
the boiling points that the library's curve follows (recalled, confidence medium-high).
)";

inline constexpr const char* before_calibration =
    R"(*Stated width over needed width* compares, for the points whose printed digits are fine enough (their rounding at most
half of the interval's side), the width that the library states with the width that would just hold nine in ten: 1 is
exact, under 1 too narrow, over 2 wider than it should be. *Error stated* is how large an error the interval allows:
relative, of ln aw (the logarithm of the water activity at a given water content) or of the viscosity. *Error needed* is
the one that would hold nine in ten of the published points. With fewer than 8 points the table says so instead of
judging. Points of a regression are marked: there the interval is judged against a fit's own data or a model's values.
The interval of glucose's viscosity is that of sucrose at 20 °C and widens with the distance from there, as its hot data
need, which are out of line among themselves; the table at 20 °C alone would let it be narrower.
)";

inline constexpr const char* before_models =
    R"(The intervals of the library are meant to reach to the other published model. A number marked **outside** lies beyond
the interval. What the additive rule may err by is part of a mixture's interval; the rule of Ross, which contradicts itself
for two halves of one sugar, is not held by it in thin syrups.
)";

inline constexpr const char* before_saturation =
    "The isotherm of sucrose gives the activity of water. By the Gibbs-Duhem relation it also gives, up to a "
    "constant, that of the dissolved sucrose: `d ln a(sucrose) = -(n water / n sucrose) d ln aw`, integrated "
    "here from infinite dilution at constant temperature with the equation of Starzak & Peacock. At saturation "
    "this activity must be that of the crystal. The constant is set by one published point, the solubility at "
    "25 °C. How the crystal's activity moves with temperature is then needed from elsewhere; three laws are "
    "tried: **A** it does not move; **B** it moves by the heat of solution at infinite dilution, 5.95 kJ/mol "
    "(recalled, confidence medium); **C** the same with the change of heat capacity on solution, 208 J/(mol K) "
    "(recalled, confidence low to medium). The solids at which the dissolved sucrose reaches that activity are "
    "the derived saturation.\n\n"
    "| °C | saturation, published | ln of the crystal's activity against 25 °C, implied | A off by, % "
    "solids (K) | B off by | C off by |\n|---:|---:|---:|---:|---:|---:|";

inline constexpr const char* open_questions =
    R"(- **Over 85 % solids nothing precise was found to measure against.** The only points there are read off curves to ±2 g.
  Everything about hard candy, brittle and caramel rests on one equation fitted by others, on three sources that
  disagree with it (section 5 and [sucrose.md](sucrose.md)), and on an interval that holds them. No measured boiling point
  of a thick syrup is at hand at all: the boiling points follow from the water activities and the vapour pressure of water.
- **Glucose and fructose have no published point here above 30 %**, galactose has none. Thick, their curves are tested
  through honey only.
- **Chains** are tested by a coarse curve of corn syrup, biased in its own sucrose, and by one reading of a maltodextrin in
  the glass.
- **The mixing rule** agrees with one published ternary model; no measured activity of a concentrated sugar mixture of known
  composition is at hand. What it errs by where thick is an estimate.
- **Viscosity above 75 % is an interpolation** between measurements and the glass transition. Sucrose in humid air
  (to ±0.5 decade) and the single marks, honey and corn syrup, are all that lies between.
- **Isotherm and saturation of sucrose** are two independent publications. They agree on what a kitchen needs only if the
  heat capacity of solution is known (section 6); the library therefore does not derive one from the other.
- **Recalled sources** should be checked against print: those so marked in the tables.
- Minerals, protein, starch and cocoa hold water by ranges from memory, with a heat of sorption on which sources disagree;
  milk concentrate at the boil is all that tests them here.)";

}  // namespace validation
