//! Rule 7: how many.

use super::check;

const COUNTS: &str = "
6 combs 1.00 => combs | 6 | 1.00
six combs 1.00 => combs | 6 | 1.00
1.00 6 combs => combs | 6 | 1.00
combs 1.00 x6 => combs | 6 | 1.00
combs x6 1.00 => combs | 6 | 1.00
combs x 6 1.00 => combs | 6 | 1.00
x6 combs 1.00 => combs | 6 | 1.00
6x combs 1.00 => combs | 6 | 1.00
6 x combs 1.00 => combs | 6 | 1.00
combs qty 6 1.00 => combs | 6 | 1.00
qty 6 combs 1.00 => combs | 6 | 1.00
qty: 6, combs, 1.00 => combs | 6 | 1.00
a comb 1.00 => comb | 1 | 1.00
an eraser 1.00 => eraser | 1 | 1.00
the comb 1.00 => comb | 1 | 1.00
one comb .25 => comb | 1 | 0.25
1 comb .25 => comb | 1 | 0.25
twelve combs 1.00 => combs | 12 | 1.00
nineteen combs 1.00 => combs | 19 | 1.00
forty combs 1.00 => combs | 40 | 1.00
twenty one combs 1.00 => combs | 21 | 1.00
twenty-one combs 1.00 => combs | 21 | 1.00
ninety-nine combs 9.90 => combs | 99 | 9.90
a hundred beads 1.00 => beads | 100 | 1.00
100 beads 1.00 => beads | 100 | 1.00
1,000 beads 2.00 => beads | 1000 | 2.00
a couple of combs 1.00 => combs | 2 | 1.00
a couple combs 1.00 => combs | 2 | 1.00
couple of combs 1.00 => combs | 2 | 1.00
a dozen combs 1.20 => combs | 12 | 1.20
dozen combs 1.20 => combs | 12 | 1.20
two dozen combs 2.40 => combs | 24 | 2.40
half a dozen combs .60 => combs | 6 | 0.60
a dozen combs 10c each => combs | 12 | 1.20
3 pairs socks 1.00 => socks | 3 | 1.00
3 pairs of socks 1.00 => socks | 3 | 1.00
socks 3 pairs 1.00 => socks | 3 | 1.00
socks three pairs 1.00 => socks | 3 | 1.00
pair of scissors 50c => scissors | 1 | 0.50
2 pairs of scissors 50c each => scissors | 2 | 1.00
3 bars of soap 1.00 => soap | 3 | 1.00
bar of soap .25 => soap | 1 | 0.25
soap 3 bars 25c a bar => soap | 3 | 0.75
2 sheets of stickers 50c => stickers | 2 | 0.50
3 rolls tape 1.00 => tape | 3 | 1.00
roll of tape 1.00 => tape | 1 | 1.00
toothpaste 2 tubes 1.00 => toothpaste | 2 | 1.00
bottle of shampoo 1.00 => shampoo | 1 | 1.00
3 bottles of shampoo 1.00 a bottle => shampoo | 3 | 3.00
spool of thread 25c => thread | 1 | 0.25
ribbon 5 yards .50 => ribbon | 5 | 0.50
a yard of ribbon 10c => ribbon | 1 | 0.10
5 yards of cord 35c a yard => cord | 5 | 1.75
2 water bottles 3.00 => water bottles | 2 | 3.00
3 ring binder 1.00 => 3 ring binder | 1 | 1.00
2 3-ring binders 1.00 => 3-ring binders | 2 | 1.00
4-colour pen 1.00 => 4-colour pen | 1 | 1.00
a few combs 1.00 => combs | - | 1.00 | ask units
some combs 1.00 => combs | - | 1.00 | ask units
several combs 1.00 => combs | - | 1.00 | ask units
a handful of beads 1.00 => beads | - | 1.00 | ask units
a bunch of combs 1.00 => combs | - | 1.00 | ask units
a few combs 10c each => combs | - | - | ask units
wallet 5 => wallet | - | - | ask paid,units
wallet 5 1.00 => wallet | - | 1.00 | ask units
wallet five 1.00 => wallet | - | 1.00 | ask units
combs, 6, 1.00 => combs | - | 1.00 | ask units
notebooks 4 15c each => notebooks | - | - | ask units
notebooks 4 15c => notebooks | - | 0.15 | ask units
12combs 1.00 => combs | - | 1.00 | ask units
6 combs 4 1.00 => combs | - | 1.00 | ask units
12 or 13 combs 1.00 => combs | - | 1.00 | ask units
2 combs x3 1.00 => combs | - | 1.00 | ask units
0 combs 1.00 => combs | - | 1.00 | ask units
x4 => - | 4 | - | ask name,paid
qty 4 => - | 4 | - | ask name,paid
2.5 combs 1.00 => combs | - | 1.00 | ask units
6 combs => combs | 6 | - | ask paid
one and a half yards of ribbon 1.00 => ribbon | - | 1.00 | ask units
half a yard of ribbon 1.00 => ribbon | - | 1.00 | ask units
half a bar of soap 10c => soap | - | 0.10 | ask units
half dozen combs 1.00 => combs | 6 | 1.00
";

#[test]
fn counts() {
    check(COUNTS, 81);
}
