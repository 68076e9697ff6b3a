//! Lines in which many rules meet, as a packer would say them.

use super::check;

const MEETINGS: &str = "
10 pack of pencils for 45 cents at harbour thrift feb 15 => pencils | 10 | 0.45 | shop harbour thrift | date 2026-02-15
2 packs of 5 vests, boys large, 3.50 a pack, tote 4 => vests | 10 | 7.00 | for boy | size L | place tote 4
tote 3: 6 toothbrushes 2 for $1 => toothbrushes | 6 | 3.00 | place tote 3
plush otter free from neighbour wow 4+ => plush otter | 1 | 0.00 | ages 4+ | shop neighbour | cat wow
3 tees .99 each half off boys ages 9-12 => tees | 3 | 1.50 | was 2.97 | for boy | ages 9-12
a pair of sandals shoe size 1 at harbour thrift, 75 percent off 8.00 => sandals | 1 | 2.00 | was 8.00 | size 1 | shop harbour thrift
6 pairs of socks, girls, size 6-8, 50c a pair, pink and white => socks | 6 | 3.00 | for girl | size 6-8 | col pink,white
box of 24 crayons 50c, ages 3-5, bin 2 => crayons | 1 | 0.50 | pieces 24 | ages 3-5 | place bin 2
got 4 notebooks on sale, 15c each, red, tote 2 => notebooks | 4 | 0.60 | col red | place tote 2
yesterday 3 balls 1.00 each from Green Gate Store girl or boy 6-8 => balls | 3 | 3.00 | ages 6-8 | shop Green Gate Store | date 2026-11-24
12 toothbrushes, 4 for $1, 50% off, sealed => toothbrushes | 12 | 1.50 | was 3.00 | flags sealed
2 x 12 pack pencils $1 a pack in bundles of 8 tote 5 => pencils | 3 | 2.00 | pieces 8 | place tote 5
2 12-packs pens $1 each, blue and black, theme space => pens | 24 | 2.00 | col blue,black | theme space
two tubes of toothpaste 3 oz 75c each exp 2027-06 => toothpaste | 2 | 1.50 | exp 2027-06 | g 85.0
girls size 10 jeans $2.50 was $5.00 navy blue bin B7 => jeans | 1 | 2.50 | was 5.00 | for girl | size 10 | col navy blue | place bin b7
x3 wallets, $1.50 ea, boys 9-12, tote 6 => wallets | 3 | 4.50 | for boy | ages 9-12 | place tote 6
jump rope 7 ft 1.00 ages 6-8 => jump rope | 1 | 1.00 | ages 6-8 | dims 2134
half a dozen rulers 30 cm, 12c each => rulers | 6 | 0.72 | dims 300
a couple of balls, girls and boys, 3-5, a dollar each => balls | 2 | 2.00 | ages 3-5
mirror 2.00 half off, breakable, in drawer 3 => mirror | 1 | 1.00 | was 2.00 | flags breakable | place drawer 3
pack of 3 balls 2.00 marked down from 4.00 tote 9 => balls | 3 | 2.00 | was 4.00 | place tote 9
2 packs of 3 balls 2.00 a pack reg 4.00 => balls | 6 | 4.00 | was 8.00
4 boxes of 8 crayons 4 for $1 tote 2 => crayons | 4 | 1.00 | pieces 8 | place tote 2
8 boxes of 8 crayons 4 for $1 half off => crayons | 8 | 1.00 | was 2.00 | pieces 8
100 pc jigsaw ages 6-8 $1 at harbour thrift 50% off => jigsaw | 1 | 0.50 | was 1.00 | pieces 100 | ages 6-8 | shop harbour thrift
2 100 pc jigsaws 75c each 6+ => jigsaws | 2 | 1.50 | pieces 100 | ages 6+
size 4 shoes 2 pairs 3.00 a pair => shoes | 2 | 6.00 | size 4
10 combs free from neighbour tote 4 => combs | 10 | 0.00 | shop neighbour | place tote 4
5 yards of ribbon, 25c a yard, half off, red => ribbon | 5 | 0.65 | was 1.25 | col red
bag of 20 beads 50c each tote 1 => beads | 20 | - | place tote 1 | ask paid
gift bags 6 pack 1.00 => gift bags | 6 | 1.00
6 gift bags 2 for 25c => gift bags | 6 | 0.75
t-shirt boys large $2 tote 4 => t-shirt | 1 | 2.00 | for boy | size L | place tote 4
3 t-shirts 2T, 3T $1 each => t-shirts | 3 | 3.00 | ask size
";

#[test]
fn rules_meet() {
    check(MEETINGS, 34);
}
