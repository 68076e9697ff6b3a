//! Rules 5 and 6: packs, sets and bundles.

use super::check;

const PACKS: &str = "
12 pack pencils 1.00 => pencils | 12 | 1.00
12-pack pencils 1.00 => pencils | 12 | 1.00
12pk pencils 1.00 => pencils | 12 | 1.00
12 pk pencils 1.00 => pencils | 12 | 1.00
12ct pencils 1.00 => pencils | 12 | 1.00
pencils 12 ct 1.00 => pencils | 12 | 1.00
pencils 12 count 1.00 => pencils | 12 | 1.00
pencils 12-count 1.00 => pencils | 12 | 1.00
pencils 1.00 12 pack => pencils | 12 | 1.00
six-pack combs 1.00 => combs | 6 | 1.00
six pack of combs 1.00 => combs | 6 | 1.00
pack of 12 pencils 1.00 => pencils | 12 | 1.00
a package of 12 pencils 1.00 => pencils | 12 | 1.00
box of 12 pencils 1.00 => pencils | 12 | 1.00
bag of 12 pencils 1.00 => pencils | 12 | 1.00
set of 12 pencils 1.00 => pencils | 12 | 1.00
card of 12 buttons 1.00 => buttons | 12 | 1.00
pencils, box of 12, 1.00 => pencils | 12 | 1.00
10 pack of pencils for 45 cents => pencils | 10 | 0.45
2 packs of 12 pencils 1.00 => pencils | 24 | 1.00
two packs of twelve pencils 1.00 => pencils | 24 | 1.00
2 12-packs pencils 1.00 => pencils | 24 | 1.00
2 12 packs pencils 1.00 => pencils | 24 | 1.00
2 12pks pencils 1.00 => pencils | 24 | 1.00
2 x 12 pack pencils 1.00 => pencils | 24 | 1.00
2x 12 pack pencils 1.00 => pencils | 24 | 1.00
pencils 12pk x 2 1.00 => pencils | 24 | 1.00
pencils 12pk x2 1.00 => pencils | 24 | 1.00
12pk x2 pencils 1.00 => pencils | 24 | 1.00
pencils 2 x 12pk 1.00 => pencils | 24 | 1.00
pencils 12 pack qty 2 1.00 => pencils | 24 | 1.00
pack of 12 pencils x2 1.00 => pencils | 24 | 1.00
3 boxes of 10 pencils 50c a box => pencils | 30 | 1.50
3 boxes of 10 pencils 50c each => pencils | 30 | 1.50
2 packs of 5 pens 10c/pack => pens | 10 | 0.20
2 packs of 5 pens $1 per pack => pens | 10 | 2.00
2 packs of 5 pens at $1 => pens | 10 | - | ask paid
2 packs of 5 pens 2 for $3 => pens | 10 | 3.00
4 packs of 5 vests 2 for $3 => vests | 20 | 6.00
3 packs of 5 vests 2 for $3 => vests | 15 | - | ask paid
pack of 6 combs 10c each => combs | 6 | - | ask paid
pack of 6 combs 10c a pack => combs | 6 | 0.10
12 pack combs 1.00 each => combs | 12 | - | ask paid
pack of pencils 1.00 => pencils | - | 1.00 | ask units
2 packs of pencils 1.00 => pencils | - | 1.00 | ask units
2 packs pencils 50c a pack => pencils | - | 1.00 | ask units
12 pencils 12 pack 1.00 => pencils | - | 1.00 | ask units
12 pencils 12 pack => pencils | - | - | ask paid,units
2 pencils pack of 12 1.00 => pencils | - | 1.00 | ask units
12 pencils in a pack 1.00 => pencils | - | 1.00 | ask units
pack of 6 pairs of socks 3.00 => socks | 6 | 3.00
6 pair pack of socks 3.00 => socks | 6 | 3.00
backpack 5.00 => backpack | 1 | 5.00
2 backpacks 5.00 each => backpacks | 2 | 10.00
3 packs of 6 combs, each pack 1.00 => combs | 18 | 3.00
3 packs of 6 combs 1.00 each pack => combs | 18 | 3.00
3 packs of 6 combs 5c each comb => combs | 18 | 0.90
3 packs of 6 combs 5c a comb => combs | 18 | 0.90
3 packs, 6 combs each, 1.00 => combs | - | - | ask units
3 toothbrush 2 packs 1.00 each => toothbrush | - | - | ask units
12 combs in packs of 6 50c a pack => combs | - | - | ask units
pencils 12s 1.00 => pencils s | - | 1.00 | ask units
notebook 70 ct 25c => notebook | - | 0.25 | ask units
notebooks 6 ct 1.00 => notebooks | 6 | 1.00
2 paint sets 1.00 each => paint sets | 2 | 2.00
";

const SETS: &str = "
box of 16 crayons 50c => crayons | 1 | 0.50 | pieces 16
5 boxes of 16 crayons 4.00 => crayons | 5 | 4.00 | pieces 16
5 boxes of 16 crayons 50c each => crayons | 5 | 2.50 | pieces 16
crayons 16 ct 50c => crayons | 1 | 0.50 | pieces 16
16 count crayons 50c each => crayons | 1 | 0.50 | pieces 16
crayons 24 pack x3 1.50 => crayons | 3 | 1.50 | pieces 24
crayons 16pk x2 25c each => crayons | 2 | 0.50 | pieces 16
box of crayons 50c => crayons | 1 | 0.50
2 boxes of crayons 50c each => crayons | 2 | 1.00
24 crayons 50c => crayons | - | 0.50 | ask units
crayons 50c => crayons | 1 | 0.50
set of 12 coloured pencils 1.00 => coloured pencils | 1 | 1.00 | pieces 12
10 colored pencils 1.00 => colored pencils | - | 1.00 | ask units
8 pack markers 1.25 => markers | 1 | 1.25 | pieces 8
8 pack dry-erase markers 1.25 => dry-erase markers | 8 | 1.25
100 piece jigsaw 1.00 => jigsaw | 1 | 1.00 | pieces 100
100 pc jigsaw 1.00 => jigsaw | 1 | 1.00 | pieces 100
100-piece jigsaw 1.00 => jigsaw | 1 | 1.00 | pieces 100
jigsaw 100 pieces 1.00 => jigsaw | 1 | 1.00 | pieces 100
2 100 piece jigsaws 1.00 each => jigsaws | 2 | 2.00 | pieces 100
deck of cards 50c => deck of cards | 1 | 0.50
playing cards 50c => playing cards | 1 | 0.50
paints set of 8 75c => paints | 1 | 0.75 | pieces 8
chalk 20 ct 1.00 => chalk | 1 | 1.00 | pieces 20
dominoes 28 pc 1.00 => dominoes | 1 | 1.00 | pieces 28
";

const BUNDLES: &str = "
24 coloured pencils in bundles of 8 1.00 => coloured pencils | 3 | 1.00 | pieces 8
coloured pencils 24 pack 60 cents in bundles of 8 => coloured pencils | 3 | 0.60 | pieces 8
24 pencils split into 8s 1.00 => pencils | 3 | 1.00 | pieces 8
24 pencils 1.00 makes 3 bundles of 8 => pencils | 3 | 1.00 | pieces 8
2 packs of 12 pencils in bundles of 8 1.00 a pack => pencils | 3 | 2.00 | pieces 8
2 12-packs pencils $1 each in bundles of 6 => pencils | 4 | 2.00 | pieces 6
24 pencils 5c each in bundles of 8 => pencils | 3 | 1.20 | pieces 8
24 pencils 6 for $1 in bundles of 8 => pencils | 3 | 4.00 | pieces 8
25 pencils in bundles of 8 1.00 => pencils | - | 1.00 | ask units
24 pencils makes 4 bundles of 8 1.00 => pencils | - | 1.00 | ask units
pencils in bundles of 8 1.00 => pencils | - | 1.00 | ask units
pack of pencils in bundles of 8 1.00 => pencils | - | 1.00 | ask units
24 crayons 50c in bundles of 8 tote 3 => crayons | 3 | 0.50 | pieces 8 | place tote 3
48 ct pencils 2.00 half off split into 12s => pencils | 4 | 1.00 | was 2.00 | pieces 12
";

#[test]
fn packs() {
    check(PACKS, 65);
}

#[test]
fn sets() {
    check(SETS, 25);
}

#[test]
fn bundles() {
    check(BUNDLES, 14);
}
