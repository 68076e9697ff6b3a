//! Rules 1 and 2: amounts, and what they cover.

use super::check;

const AMOUNTS: &str = "
comb $3-ish => comb | 1 | - | ask paid
comb 3.00 or so => comb | 1 | - | ask paid
comb 50c, give or take => comb | 1 | - | ask paid
comb 1.25 => comb | 1 | 1.25
comb .29 => comb | 1 | 0.29
comb $3 => comb | 1 | 3.00
$3 comb => comb | 1 | 3.00
comb $.50 => comb | 1 | 0.50
comb 3$ => comb | 1 | 3.00
comb 50c => comb | 1 | 0.50
comb 50 c => comb | 1 | 0.50
comb 50¢ => comb | 1 | 0.50
comb 50 cents => comb | 1 | 0.50
comb 1 cent => comb | 1 | 0.01
comb fifty cents => comb | 1 | 0.50
comb $1,000.00 => comb | 1 | 1000.00
comb 1,000.00 => comb | 1 | 1000.00
comb 3 USD => comb | 1 | 3.00
comb 2 bucks => comb | 1 | 2.00
comb two dollars => comb | 1 | 2.00
comb a dollar => comb | 1 | 1.00
comb a buck => comb | 1 | 1.00
comb a dollar fifty => comb | 1 | 1.50
comb a dollar twenty-five => comb | 1 | 1.25
comb five dollars fifty => comb | 1 | 5.50
comb three dollars and 40 cents => comb | 1 | 3.40
comb 3 dollars and 5 cents => comb | 1 | 3.05
comb a penny => comb | 1 | 0.01
comb a nickel => comb | 1 | 0.05
comb for a dime => comb | 1 | 0.10
comb a quarter => comb | 1 | 0.25
comb three quarters => comb | 1 | 0.75
2 rings a dime each => rings | 2 | 0.20
a quarter, comb => comb | 1 | 0.25
penny whistle .75 => penny whistle | 1 | 0.75
a penny whistle .75 => penny whistle | 1 | 0.75
2 penny whistles .75 each => penny whistles | 2 | 1.50
penny whistle => penny whistle | 1 | - | ask paid
a gift bag 50c => gift bag | 1 | 0.50
gift bag a quarter => gift bag | 1 | 0.25
€2 comb => comb | 1 | - | ask paid
comb £3 => comb | 1 | - | ask paid
comb 3 euros => comb | 1 | - | ask paid
comb 50p => comb | 1 | - | ask paid
comb C$3 => comb | 1 | - | ask paid
comb .5 => comb | 1 | - | ask paid
comb 1.5 => comb | 1 | - | ask paid
comb 1.255 => comb | 1 | - | ask paid
comb $1.255 => comb | 1 | - | ask paid
comb $1,25 => comb | 1 | - | ask paid
comb 0.50c => comb | 1 | - | ask paid
comb -1.25 => comb | 1 | - | ask paid
comb -$3 => comb | 1 | - | ask paid
comb -50c => comb | 1 | - | ask paid
comb 1.00 2.00 => comb | 1 | - | ask paid
comb $1 and $2 => comb | 1 | - | ask paid
comb a dime 1.00 => comb | 1 | - | ask paid
comb 5 => comb | - | - | ask paid,units
comb => comb | 1 | - | ask paid
$3 => - | 1 | 3.00 | ask name
50c => - | 1 | 0.50 | ask name
comb 50-60c => comb | - | - | ask paid,units
comb $2-3 => comb | 1 | - | ask paid
comb $2-$3 => comb | 1 | - | ask paid
comb $1 50 => comb | - | - | ask paid,units
comb 1 dollar 50 => comb | - | - | ask paid,units
comb $1..50 => comb | - | - | ask paid,units
";

const SCOPES: &str = "
4 notebooks 0.60 => notebooks | 4 | 0.60
4 notebooks 15c each => notebooks | 4 | 0.60
4 notebooks 15c ea => notebooks | 4 | 0.60
4 notebooks 15c ea. => notebooks | 4 | 0.60
4 notebooks 15c apiece => notebooks | 4 | 0.60
4 notebooks 15c a piece => notebooks | 4 | 0.60
4 notebooks each 15c => notebooks | 4 | 0.60
4 notebooks .15 each => notebooks | 4 | 0.60
4 notebooks $1.50ea => notebooks | 4 | 6.00
notebook $1.50ea => notebook | 1 | 1.50
15c each, 4 notebooks => notebooks | 4 | 0.60
15c each 4 notebooks => notebooks | 4 | 0.60
notebooks 15c each x4 => notebooks | 4 | 0.60
4 notebooks at 15c each => notebooks | 4 | 0.60
4 notebooks @ 15c ea => notebooks | 4 | 0.60
6 pens at 10 cents => pens | 6 | - | ask paid
6 pens @ 10c => pens | 6 | - | ask paid
pen at 10 cents => pen | 1 | 0.10
2@.50 combs => combs | 2 | - | ask paid
3 @ 1.00 combs => combs | 3 | - | ask paid
combs 2@.50 => combs | - | - | ask paid,units
2 for $3 each => - | 2 | - | ask name,paid
soaps 2 for $3 each => soaps | 2 | - | ask paid
6 soaps 2 for $3 each => soaps | 6 | - | ask paid
soaps 2 for $3 => soaps | 2 | 3.00
2 for $3 soaps => soaps | 2 | 3.00
two for $3 soaps => soaps | 2 | 3.00
2/$3 soaps => soaps | 2 | 3.00
soaps 4/$1 => soaps | 4 | 1.00
soaps 3/1.00 => soaps | 3 | 1.00
soaps three for a dollar => soaps | 3 | 1.00
12 soaps 3 for a dollar => soaps | 12 | 4.00
6 soaps 2 for $3 => soaps | 6 | 9.00
5 soaps 2 for $3 => soaps | 5 | - | ask paid
1 soap 2 for $3 => soap | 1 | - | ask paid
soaps x6, 2 for $3 => soaps | 6 | 9.00
6 socks 1.00 a pair => socks | 6 | - | ask paid
6 pairs of socks 1.00 a pair => socks | 6 | 6.00
6 pairs of socks 1.00 per pair => socks | 6 | 6.00
6 pairs of socks $1/pair => socks | 6 | 6.00
3 gift bags 50c a bag => gift bags | 3 | 1.50
5 combs 3.00 for all => combs | 5 | 3.00
a few stickers 50c => stickers | - | 0.50 | ask units
6 pens 10c a pen => pens | 6 | 0.60
6 pens 10c each pen => pens | 6 | 0.60
6 pens each pen 10c => pens | 6 | 0.60
12 combs $2 for 3 => combs | 12 | - | ask paid
combs $2 for 3 => combs | - | - | ask paid,units
$2 for 3 combs => combs | 3 | 2.00
36 combs $1 a dozen => combs | 36 | - | ask paid
10 combs 5.00 a hundred => combs | 10 | - | ask paid
combs 1.00 a dozen => combs | 12 | 1.00
6 combs 1.00 plus tax => combs plus | 6 | - | ask paid
tax book 1.00 => tax book | 1 | 1.00
6 combs 2.00 the lot => combs | 6 | 2.00
comb 1.00 for 6 and up => comb | 1 | 1.00 | ages 6+
combs 6x1.00 => combs | - | - | ask paid,units
6x1.00 combs => combs | - | - | ask paid,units
6x10c combs => combs | - | - | ask paid,units
6x$1 combs => combs | - | - | ask paid,units
1.00x6 combs => combs | - | - | ask paid,units
4x 1.00 combs => combs | 4 | 1.00
combs 10c each x 6 => combs | 6 | 0.60
two dollar combs => combs | - | - | ask paid,units
a two dollar comb => comb | 1 | 2.00
comb two dollars => comb | 1 | 2.00
6 combs three dollar tote 4 => combs | 6 | 3.00 | place tote 4
3 dollar combs => combs | - | - | ask paid,units
comb three dollar ages 6-8 => comb | 1 | 3.00 | ages 6-8
";

const FREE: &str = "
comb free => comb | 1 | 0.00
free comb => comb | 1 | 0.00
3 free combs => combs | 3 | 0.00
3 combs free => combs | 3 | 0.00
combs x3 free => combs | 3 | 0.00
comb no charge => comb | 1 | 0.00
comb for nothing => comb | 1 | 0.00
comb gifted => comb | 1 | 0.00
comb donated => comb | 1 | 0.00
comb, given => comb | 1 | 0.00
comb freebie => comb | 1 | 0.00
comb a gift => comb | 1 | 0.00
comb, a gift from neighbour => comb | 1 | 0.00 | shop neighbour
comb given by neighbour => comb by neighbour | 1 | 0.00
gift bag free => gift bag | 1 | 0.00
comb free 1.00 => comb | 1 | - | ask paid
comb 1.00 a gift => comb | 1 | - | ask paid
comb free half off => comb | 1 | - | ask paid
sugar-free lip balm 1.00 => sugar-free lip balm | 1 | 1.00
pack of 6 combs free => combs | 6 | 0.00
box of 24 crayons free => crayons | 1 | 0.00 | pieces 24
";

#[test]
fn amounts() {
    check(AMOUNTS, 67);
}

#[test]
fn scopes() {
    check(SCOPES, 69);
}

#[test]
fn free() {
    check(FREE, 21);
}
