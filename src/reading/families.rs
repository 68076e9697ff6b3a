//! The rules in the order in which they look at a line.
//!
//! What one family takes, a later one no longer sees; that is the whole of precedence. So each
//! entry stands where it does because of the words it shares with its neighbours.

use super::line::Line;
use super::{
    age, back, bundle, category, colour, count, cover, date, deal, discount, flag, for_box, free, hedge, measure,
    money, name, outright, pack, place, shop, size, source, theme, whom,
};

/// A family of rules: takes what it understands out of the line and notes it in the draft.
pub(super) type Family = fn(&mut Line<'_>);

/// Every family, first to last.
pub(super) const FAMILIES: [Family; 33] = [
    // `name: half price 12 pack` before any rule looks at it.
    outright::fields,
    // `returned` leads the line.
    back::backs,
    // A capitalised shop may hold any word of the rules.
    shop::capitals,
    // `size 10-12` before ages and counts want the numbers.
    size::labelled,
    // `feb 15` and `2027-03` before counts and ranges want the numbers.
    date::dates,
    // `1.25 in` and `2.50 oz` before they look like money.
    measure::measures,
    // Amounts before every rule that counts.
    money::amounts,
    // `about ten cents`: the hedge belongs to the amount.
    hedge::prices,
    // `2 for` belongs to the price behind it.
    deal::deals,
    // `was` belongs to the price behind it; `50% off` to none.
    discount::discounts,
    // `each` and `a pack` belong to the price before them; else `a pack` is a pack.
    cover::covers,
    // `10 cents a pack, I think`: once prices know their words.
    hedge::asides,
    // `ages 5` before `5 12-packs`.
    age::labelled,
    // `in bundles of 8` before packs and places.
    bundle::bundles,
    // `2 12-packs` before counts.
    pack::packs,
    // `for box 12` before counts, places and themes.
    for_box::boxes,
    // `girl` before the sizes and ranges beside it.
    whom::whom,
    // `girls medium`.
    size::after_whom,
    // `girl 6-8`, once labelled ages and sizes are gone.
    age::ranges,
    // `given by X` before *given*, and before shops.
    source::sources,
    // `free` ends the name of a shop.
    free::free,
    // `wow` ends the name of a shop.
    category::categories,
    // `, used` ends the name of a shop.
    flag::flags,
    // `now` ends the name of a shop.
    free::filler,
    // `theme ocean` before places and colours.
    theme::themes,
    // `tote 7` ends the name of a shop.
    place::places,
    // A shop takes all words that nobody knows.
    shop::shops,
    // Colours, but not in a theme, a place or a shop.
    colour::colours,
    // `about 12 combs`: the number stays for the counts.
    hedge::counts,
    // Counts lead: nothing but a name may be left before them.
    count::counts,
    // The rest is the name.
    name::name,
    // `tote 4 combs`: only now it is known that a name follows.
    place::doubtful_labels,
    // `50c a bag`: only now it is known that there is no other name.
    name::priced_noun,
];
