//! Rules 10 to 13: colours, themes, places, shops, dates, measures, flags and categories.

use super::check;

const COLOURS: &str = "
comb pink 1.00 => comb | 1 | 1.00 | col pink
pink comb 1.00 => comb | 1 | 1.00 | col pink
comb forest green 1.00 => comb | 1 | 1.00 | col forest green
comb forestgreen 1.00 => comb | 1 | 1.00 | col forest green
comb dark teal 1.00 => comb | 1 | 1.00 | col dark teal
comb red and blue 1.00 => comb | 1 | 1.00 | col red,blue
comb red/blue 1.00 => comb | 1 | 1.00 | col red,blue
comb red, blue & cream 1.00 => comb | 1 | 1.00 | col red,blue,cream
6 combs 3 red 3 blue 1.00 => combs | - | 1.00 | col red,blue | ask units
comb multi 1.00 => comb | 1 | 1.00 | col multicolour
comb rainbow 1.00 => comb | 1 | 1.00 | col multicolour
chocolate comb 1.00 => chocolate comb | 1 | 1.00
comb, chocolate, 1.00 => comb | 1 | 1.00 | col chocolate
comb colour peach 1.00 => comb | 1 | 1.00 | col peach
5 yards of cord 35 cents navy => cord | 5 | 0.35 | col navy
";

const PLACES: &str = "
comb tote 7 1.00 => comb | 1 | 1.00 | place tote 7
comb 1.00 in tote 7 => comb | 1 | 1.00 | place tote 7
6 combs tote 7 1.00 => combs | 6 | 1.00 | place tote 7
tote 7, 6 combs 1.00 => combs | 6 | 1.00 | place tote 7
comb bin B7 1.00 => comb | 1 | 1.00 | place bin b7
comb shelf c 1.00 => comb | 1 | 1.00 | place shelf c
comb in crate blue 1.00 => comb | 1 | 1.00 | place crate blue
tote bag 1.00 => tote bag | 1 | 1.00
2 baskets 1.00 => baskets | 2 | 1.00
tote 4 combs 1.00 => combs | - | 1.00 | ask units
tote 7 12 pack pens 1.00 => pens | - | 1.00 | ask units
tote 7 12 pack 1.00 => - | - | 1.00 | ask name,units
pens 12 pack tote 7 1.00 => pens | 12 | 1.00 | place tote 7
pens 12 pack 1.00 each tote 7 => pens | 12 | - | place tote 7 | ask paid
comb 1.00 tote 12 => comb | 1 | 1.00 | place tote 12
comb 1.00 at harbour thrift => comb | 1 | 1.00 | shop harbour thrift
comb at harbour thrift, 1.00 => comb | 1 | 1.00 | shop harbour thrift
6 combs from neighbour free => combs | 6 | 0.00 | shop neighbour
comb 1.00 at Green Gate Store => comb | 1 | 1.00 | shop Green Gate Store
comb 1.00 at harbour thrift tote 7 => comb | 1 | 1.00 | shop harbour thrift | place tote 7
comb theme ocean 1.00 => comb | 1 | 1.00 | theme ocean
comb for the ocean box 1.00 => comb | 1 | 1.00 | theme ocean
2 ocean theme cups 50c each => cups | 2 | 1.00 | theme ocean
comb as toy 1.00 => comb | 1 | 1.00 | cat toy
comb wow 1.00 => comb | 1 | 1.00 | cat wow
comb a dollar fifty tote 4 => comb | 1 | 1.50 | place tote 4
6. => - | 6 | - | ask name,paid
6. combs 1.00 => combs | - | 1.00 | ask units
";

const DATES: &str = "
comb 1.00 2026-11-20 => comb | 1 | 1.00 | date 2026-11-20
2026-11-20 6 combs 1.00 => combs | 6 | 1.00 | date 2026-11-20
6 combs 2026-11-20 .10 each => combs | 6 | 0.60 | date 2026-11-20
comb 1.00 today => comb | 1 | 1.00 | date 2026-11-25
comb 1.00 yesterday => comb | 1 | 1.00 | date 2026-11-24
comb feb 15 1.00 => comb | 1 | 1.00 | date 2026-02-15
comb 15 feb 2026 1.00 => comb | 1 | 1.00 | date 2026-02-15
comb dec 3 1.00 => comb | 1 | 1.00 | date 2025-12-03
feb 15 6 combs 1.00 => combs | 6 | 1.00 | date 2026-02-15
hand wipes 10 ct 79c exp 2027-03 sealed => hand wipes | 10 | 0.79 | exp 2027-03 | flags sealed
lotion 1.00 exp 03/2027 => lotion | 1 | 1.00 | exp 2027-03
lotion 1.00 expires mar 2027 => lotion | 1 | 1.00 | exp 2027-03
lotion use by 2027-03-15 1.00 => lotion | 1 | 1.00 | exp 2027-03-15
";

const MEASURES: &str = "
tin 5x3x2 in .50 => tin | 1 | 0.50 | dims 127,76,51
tin 12 x 8 cm .50 => tin | 1 | 0.50 | dims 120,80
2 tins 5x3x2 in .50 each => tins | 2 | 1.00 | dims 127,76,51
ruler 20 cm .50 => ruler | 1 | 0.50 | dims 200
ruler 7 in long .50 => ruler | 1 | 0.50 | dims 178
soap 3 oz .50 => soap | 1 | 0.50 | g 85.0
soap 85 g .50 => soap | 1 | 0.50 | g 85.0
2 soaps 0.2 kg .50 each => soaps | 2 | 1.00 | g 200.0
lotion 3 oz 2 for $1 => lotion | 2 | 1.00 | g 85.0
6 combs in tote 4 1.00 => combs | 6 | 1.00 | place tote 4
comb used 1.00 => comb | 1 | 1.00 | flags used
lamp with battery 1.00 => lamp | 1 | 1.00 | flags battery
toy, small parts, magnet 1.00 => toy | 1 | 1.00 | flags magnet,small-parts
2 balloons 10c each => balloons | 2 | 0.20
3 rulers 12 in 20c each => rulers | 3 | 0.60 | dims 305
ruler 12 in $1 => ruler | 1 | 1.00 | dims 305
12 #2 pencils 1.00 => #2 pencils | 12 | 1.00
#2 pencils 12 ct 1.00 => #2 pencils | 12 | 1.00
#2 pencils 1.00 => # pencils | - | 1.00 | ask units
";

#[test]
fn colours() {
    check(COLOURS, 15);
}

#[test]
fn places_shops_and_themes() {
    check(PLACES, 28);
}

#[test]
fn dates() {
    check(DATES, 13);
}

#[test]
fn measures_and_flags() {
    check(MEASURES, 19);
}
