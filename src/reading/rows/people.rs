//! Rules 8 and 9: who it is for, ages and sizes.

use super::check;

const AGES: &str = "
comb girl 1.00 => comb | 1 | 1.00 | for girl
girls comb 1.00 => comb | 1 | 1.00 | for girl
comb for a boy 1.00 => comb | 1 | 1.00 | for boy
3 combs for boys 1.00 => combs | 3 | 1.00 | for boy
comb girl or boy 1.00 => comb | 1 | 1.00
comb girls and boys 1.00 => comb | 1 | 1.00
comb unisex 1.00 => comb | 1 | 1.00
ball ages 6-8 1.00 => ball | 1 | 1.00 | ages 6-8
ball age 7 to 9 1.00 => ball | 1 | 1.00 | ages 7-9
ball age 7 1.00 => ball | 1 | 1.00 | ages 7-7
ball girl 6-8 1.00 => ball | 1 | 1.00 | ages 6-8 | for girl
3-5 boy ball 1.00 => ball | 1 | 1.00 | ages 3-5 | for boy
ball 9-12 yr 1.00 => ball | 1 | 1.00 | ages 9-12
ball 4+ 1.00 => ball | 1 | 1.00 | ages 4+
ball 6 and up 1.00 => ball | 1 | 1.00 | ages 6+
ball not under 3 1.00 => ball | 1 | 1.00 | ages 3+
ball up to 5 1.00 => ball | 1 | 1.00 | ages 0-5
ball under 6 1.00 => ball | 1 | 1.00 | ages 0-5
ball 6-8 1.00 => ball | 1 | 1.00 | ages 6-8
6-8 ball 1.00 => ball | 1 | 1.00 | ages 6-8
ball 3–5 1.00 => ball | 1 | 1.00 | ages 3-5
ball 7-8 1.00 => ball | 1 | 1.00 | ask ages
ball boy 7-10 1.00 => ball | 1 | 1.00 | ages 7-10 | for boy
6 balls ages 6-8 1.00 => balls | 6 | 1.00 | ages 6-8
6 balls 6-8 1.00 each => balls | 6 | 6.00 | ages 6-8
ages 5 12-packs pens 1.00 => pens | 12 | 1.00 | ages 5-5
socks 6-8 1.00 => socks | 1 | 1.00 | ask size
socks girl 6-8 1.00 => socks | 1 | 1.00 | for girl | ask size
socks ages 6-8 1.00 => socks | 1 | 1.00 | ages 6-8
socks size 6-8 1.00 => socks | 1 | 1.00 | size 6-8
";

const SIZES: &str = "
tee size 10-12 1.00 => tee | 1 | 1.00 | size 10-12
tee size 10/12 1.00 => tee | 1 | 1.00 | size 10-12
tee sz M 1.00 => tee | 1 | 1.00 | size M
tee size medium 1.00 => tee | 1 | 1.00 | size M
girls medium tee 1.00 => tee | 1 | 1.00 | size M | for girl
tee boys x-large 1.00 => tee | 1 | 1.00 | size XL | for boy
leggings 2T 1.00 => leggings | 1 | 1.00 | size 2T
3t tee 1.00 => tee | 1 | 1.00 | size 3T
tee size 6X 1.00 => tee | 1 | 1.00 | size 6X
2 tees size 6x 1.00 each => tees | 2 | 2.00 | size 6X
sandals shoe size 1 2.00 => sandals | 1 | 2.00 | size 1
size 4 underwear pack of 5 3.00 => underwear | 5 | 3.00 | size 4
tee size 6-8 ages 6-8 1.00 => tee | 1 | 1.00 | size 6-8 | ages 6-8
3 tees size 10 .99 each => tees | 3 | 2.97 | size 10
2 packs of 5 vests boys large 3.50 a pack => vests | 10 | 7.00 | size L | for boy
large ball 1.00 => large ball | 1 | 1.00
cardigan $3 girls size 10-12 forest green tote 7 => cardigan | 1 | 3.00 | for girl | size 10-12 | col forest green | place tote 7
shoes 2 pairs 3.00 a pair sizes small => shoes sizes small | 2 | 6.00
";

#[test]
fn ages() {
    check(AGES, 30);
}

#[test]
fn sizes() {
    check(SIZES, 18);
}
