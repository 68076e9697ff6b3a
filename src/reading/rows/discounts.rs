//! Rule 3: marked down.

use super::check;

const MARKED_DOWN: &str = "
tiara 2.50 half off => tiara | 1 | 1.25 | was 2.50
tiara half off 2.50 => tiara | 1 | 1.25 | was 2.50
half off tiara 2.50 => tiara | 1 | 1.25 | was 2.50
tiara 2.50 half price => tiara | 1 | 1.25 | was 2.50
tiara 2.50 half-price => tiara | 1 | 1.25 | was 2.50
tiara 2.50 50% off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 50 % off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 50 percent off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 fifty percent off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 1/2 off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 ½ off => tiara | 1 | 1.25 | was 2.50
tiara 2.50 at 50% off => tiara | 1 | 1.25 | was 2.50
50% off 2.50 tiara => tiara | 1 | 1.25 | was 2.50
tiara 8.00 75 percent off => tiara | 1 | 2.00 | was 8.00
tiara was 6.99, 75% off => tiara | 1 | 1.75 | was 6.99
tiara was 6.99 now 3.00 => tiara | 1 | 3.00 | was 6.99
tiara was 6.99 3.00 => tiara | 1 | 3.00 | was 6.99
tiara 3.00 was 6.99 => tiara | 1 | 3.00 | was 6.99
tiara 3.00, was 6.99 => tiara | 1 | 3.00 | was 6.99
tiara reg 6.99 3.00 => tiara | 1 | 3.00 | was 6.99
tiara reg. 6.99 paid 3.00 => tiara | 1 | 3.00 | was 6.99
tiara regular 6.99, 3.00 => tiara | 1 | 3.00 | was 6.99
tiara regular price $7 $3 => tiara | 1 | 3.00 | was 7.00
tiara 3.00 originally 6.99 => tiara | 1 | 3.00 | was 6.99
originally 6.99, tiara, 3.00 => tiara | 1 | 3.00 | was 6.99
tiara 3.00 marked down from 6.99 => tiara | 1 | 3.00 | was 6.99
tiara marked down from 6.99 to 3.00 => tiara | 1 | 3.00 | was 6.99
tiara 3.00 (was 6.99) => tiara | 1 | 3.00
tiara was 8.00 half off 3.00 => tiara | 1 | - | ask paid
tiara was 8.00 half off 4.00 => tiara | 1 | 4.00 | was 8.00
tiara was 2.00 now 3.00 => tiara | 1 | - | ask paid
tiara was 6.99 => tiara | 1 | - | was 6.99 | ask paid
tiara half off => tiara | 1 | - | ask paid
tiara $1 off 3.00 => tiara | 1 | - | ask paid
tiara 3.00 a third off => tiara | 1 | - | ask paid
tiara 120% off 3.00 => tiara | 1 | - | ask paid
tiara 3.00 half off 20% off => tiara | 1 | - | ask paid
tiara 1.25 10% off => tiara | 1 | 1.13 | was 1.25
tiara .05 half off => tiara | 1 | 0.03 | was 0.05
tiara 100% off 3.00 => tiara | 1 | 0.00 | was 3.00
";

const MANY: &str = "
3 tees .99 each half off => tees | 3 | 1.50 | was 2.97
3 tees half off .99 each => tees | 3 | 1.50 | was 2.97
3 tees .99 half off => tees | 3 | 0.50 | was 0.99
3 tees .99 half off each => tees | 3 | 1.50 | was 2.97
3 tees was 2.00 each, .99 each => tees | 3 | 2.97 | was 6.00
3 tees .99 each was 2.00 => tees | 3 | 2.97 | was 6.00
3 tees .99 each was 2.00 each => tees | 3 | 2.97 | was 6.00
3 tees 2.97 was 6.00 => tees | 3 | 2.97 | was 6.00
3 tees was 2.00 each half off => tees | 3 | 3.00 | was 6.00
3 combs 1.00 each 33% off => combs | 3 | 2.01 | was 3.00
2 packs of 5 vests 3.33 a pack half off => vests | 10 | 3.34 | was 6.66
2 packs of 5 vests 3.33 each half off => vests | 10 | 3.34 | was 6.66
2 packs of 5 vests 3.33 half off => vests | 10 | 1.67 | was 3.33
2 packs of 5 vests 2.00 a pack was 3.00 => vests | 10 | 4.00 | was 6.00
combs 3 for 2.00 half off => combs | 3 | 1.00 | was 2.00
3 for 2.00 half off combs => combs | 3 | 1.00 | was 2.00
6 combs 3 for 2.00 half off => combs | 6 | 2.00 | was 4.00
6 soaps 2 for .99 half off => soaps | 6 | 1.50 | was 2.97
6 soaps 2 for $3 was 2 for $4 => soaps | 6 | 9.00 | was 12.00
6 soaps 2 for $3 originally $4 => soaps | 6 | 9.00 | was 12.00
5 soaps 2 for $3 half off => soaps | 5 | - | ask paid
pack of 6 combs 10c each half off => combs | 6 | - | ask paid
box of 24 crayons 1.00 each half off => crayons | 1 | 0.50 | was 1.00 | pieces 24
wallet 5 1.00 each half off => wallet | - | - | ask units
6 combs 1.00 at half price => combs | 6 | 0.50 | was 1.00
24 coloured pencils 10c each half off in bundles of 8 => coloured pencils | 3 | 1.20 | was 2.40 | pieces 8
";

#[test]
fn one_thing_marked_down() {
    check(MARKED_DOWN, 40);
}

#[test]
fn many_things_marked_down() {
    check(MANY, 26);
}
