# Figures of docs/validation.md, from the CSV in the folder `csv`, into the folder `out`.
# Lines differ by dash, points by shape, so that nothing depends on colour.
set datafile separator ","
set border 3 linewidth 1.5
set tics nomirror
set grid linecolor rgb "#d8d8d8" linewidth 1 dashtype 1
set style fill solid 1.0 noborder
band = "#d0d0d0"

set terminal svg size 1200,560 font "DejaVu Sans,Arial,sans-serif,17" background "white"
set output out."/rise.svg"
set multiplot layout 1,2
set title "Sucrose at 1013.25 hPa: how far above water it boils"
set xlabel "solids, mass %"
set ylabel "boiling-point elevation, K"
set key top left Left reverse samplen 3.5 spacing 1.2
set xrange [60:97]
set yrange [0:60]
plot csv."/rise.csv" using 1:3:4 with filledcurves linecolor rgb band title "interval of the library", \
     "" using 1:2 with lines linewidth 3 linecolor rgb "black" dashtype 1 title "Starzak and Peacock (the library)", \
     "" using 1:5 with lines linewidth 3 linecolor rgb "#0050a0" dashtype (8,5) title "UNIQUAC, Peres and Macedo"
set title "The same, as a difference from the library"
set ylabel "difference, K"
set yrange [-8:10]
plot csv."/rise.csv" using 1:($3-$2):($4-$2) with filledcurves linecolor rgb band title "interval of the library", \
     "" using 1:(0) with lines linewidth 3 linecolor rgb "black" dashtype 1 title "Starzak and Peacock (the library)", \
     "" using 1:($5-$2) with lines linewidth 3 linecolor rgb "#0050a0" dashtype (8,5) title "UNIQUAC, Peres and Macedo"
unset multiplot

set terminal svg size 900,600 font "DejaVu Sans,Arial,sans-serif,17" background "white"
set output out."/activity.svg"
set title "Water activity at 25 °C"
set ylabel "water activity"
set key bottom left Left reverse samplen 4 spacing 1.15
set xrange [40:97]
set yrange [0:1]
plot csv."/activity.csv" using 1:3:4 with filledcurves linecolor rgb band title "sucrose: interval of the library", \
     "" using 1:7:8 with filledcurves fillstyle pattern 5 linecolor rgb "#808080" title "glucose: interval of the library", \
     "" using 1:2 with lines linewidth 3 linecolor rgb "black" dashtype 1 title "sucrose: Starzak and Peacock (the library)", \
     "" using ($1>=80?$1:NaN):5 with lines linewidth 3 linecolor rgb "black" dashtype (8,5) title "sucrose: UNIQUAC, above 80 %", \
     "" using 1:6 with lines linewidth 3 linecolor rgb "#0050a0" dashtype (14,4,3,4) title "glucose: UNIQUAC (the library)", \
     "" using ($1>=80?$1:NaN):9 with lines linewidth 3 linecolor rgb "#0050a0" dashtype (3,4) title "glucose: Norrish, above 80 %", \
     csv."/isopiestic.csv" using ($1>=40?$1:NaN):2 with points pointtype 6 pointsize 1.2 linewidth 2 linecolor rgb "black" \
        title "sucrose, measured: Robinson and Stokes"

set output out."/freezing.svg"
set title "Water activity at the freezing points: library minus published"
set ylabel "difference in water activity, units of 0.0001"
set key bottom left Left reverse spacing 1.2
set xrange [0:46]
set yrange [-10:4]
set arrow 1 from 0,0 to 46,0 nohead linewidth 1.5 linecolor rgb "black"
plot csv."/freezing.csv" index 0 using 1:2 with points pointtype 7 pointsize 0.9 linecolor rgb "black" title "sucrose", \
     "" index 1 using 1:2 with points pointtype 4 pointsize 1.1 linewidth 2 linecolor rgb "#0050a0" title "glucose", \
     "" index 2 using 1:2 with points pointtype 8 pointsize 1.1 linewidth 2 linecolor rgb "#a03000" title "maltose to 20 %", \
     "" index 3 using 1:2 with points pointtype 2 pointsize 1.0 linewidth 2 linecolor rgb "#a03000" \
        title "maltose above 20 % (doubtful in the source)"
unset arrow 1

set terminal svg size 1200,620 font "DejaVu Sans,Arial,sans-serif,17" background "white"
set output out."/viscosity.svg"
set multiplot layout 1,2
set title "Sucrose: the library (lines) and published tables\n(20 to 60 %: ICT; 70 and 75 %: equation of Genotelle)"
set xlabel "temperature, °C"
set ylabel "viscosity, Pa s"
set logscale y
set format y "10^{%T}"
set xrange [0:100]
set yrange [3e-4:100]
set key top right Right noreverse samplen 2.5 spacing 1.05 maxrows 3
solids(w) = sprintf("%d %%", w)
plot for [i=2:6] csv."/viscosity_curves.csv" using 1:i with lines linewidth 2 linecolor rgb "black" dashtype 1 notitle, \
     csv."/viscosity_tables.csv" using ($3==75?$1:NaN):2 with points pointtype 6 pointsize 1.0 linewidth 2 linecolor rgb "black" title solids(75), \
     "" using ($3==70?$1:NaN):2 with points pointtype 4 pointsize 1.0 linewidth 2 linecolor rgb "black" title solids(70), \
     "" using ($3==60?$1:NaN):2 with points pointtype 8 pointsize 1.0 linewidth 2 linecolor rgb "black" title solids(60), \
     "" using ($3==40?$1:NaN):2 with points pointtype 2 pointsize 0.8 linewidth 2 linecolor rgb "black" title solids(40), \
     "" using ($3==20?$1:NaN):2 with points pointtype 7 pointsize 0.6 linecolor rgb "black" title solids(20)
unset logscale y
set title "Sucrose at 20 °C: to the glass\n "
set xlabel "solids, mass %"
set format y "10^{%.0f}"
set xrange [0:100]
set yrange [-4:14]
set ytics 2
set key top left Left reverse samplen 3 spacing 1.15 maxrows auto
set arrow 1 from 0,12 to 100,12 nohead linewidth 2 dashtype (3,4) linecolor rgb "black"
set label 1 "glass: 10^{12} Pa s" at 3,11.3
set arrow 2 from 75,-4 to 75,9 nohead linewidth 1.5 dashtype (8,5) linecolor rgb "black"
set label 2 "beyond 75 %:" at 73.5,5.2 right
set label 3 "no tables" at 73.5,4.2 right
set key at graph 0.02, graph 0.80
plot csv."/viscosity_solids.csv" using 1:3:4 with filledcurves linecolor rgb band title "interval of the library", \
     "" using 1:2 with lines linewidth 3 linecolor rgb "black" title "the library", \
     csv."/viscosity_handbook.csv" using 1:2 with points pointtype 6 pointsize 0.9 linewidth 2 linecolor rgb "black" \
        title "CRC Handbook"
unset multiplot
unset arrow
unset label

set terminal svg size 1000,940 font "DejaVu Sans,Arial,sans-serif,16" background "white"
set output out."/share.svg"
set title "Published points inside the interval"
set xlabel "share inside, %; at the right the number of points" offset 4
set ylabel ""
set format x "%.0f"
set format y "%.0f"
set xrange [*:*]
set yrange [*:*]
stats csv."/share.csv" using 1 nooutput
set xrange [0:136]
set yrange [STATS_max + 0.7 : -0.7]
set xtics 0,10,100
set ytics scale 0
set grid xtics noytics
set border 0
set lmargin 44
set rmargin 2
set key outside bottom left horizontal samplen 2.5
set arrow 1 from 90, graph 0 to 90, graph 1 nohead linewidth 2.5 dashtype (8,5) linecolor rgb "black" front
note(n) = n < 8 ? sprintf("%d, too few to tell", n) : sprintf("%d", n)
bar = 0.36
plot csv."/share.csv" using ($3==0?$4/2:NaN):1:($4/2):(bar):ytic(2) with boxxyerror fillstyle solid 1.0 border -1 \
        linecolor rgb "white" title "under 60 % solids", \
     "" using ($3==1?$4/2:NaN):1:($4/2):(bar) with boxxyerror fillstyle solid 1.0 border -1 linecolor rgb "#b0b0b0" \
        title "60 to 85 %", \
     "" using ($3==2?$4/2:NaN):1:($4/2):(bar) with boxxyerror fillstyle solid 1.0 border -1 linecolor rgb "black" \
        title "over 85 %", \
     "" using ($4==0?1.5:NaN):1:("0 %") with labels left font ",14" notitle, \
     "" using (101.5):1:(note($5)) with labels left font ",14" notitle
