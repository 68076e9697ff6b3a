//! Inventory cost, first in first out, as textbooks reckon it: batches are taken oldest first.
//!
//! `openstax`: Franklin, Graybeal, Cooper, Principles of Accounting, Volume 1: Financial Accounting
//! (`OpenStax`, 2019), sections 10.2 and 10.3 (CC BY-NC-SA 4.0, numbers only): cost of sales 7,200, ending
//! inventory 8,955 (both from memory, reckoned again; the purchases and the 285 units left were read in an
//! exercise that uses them again). `qs6-1`: Wild et al. (book from memory), Quick Study 6-1: 120 and 390,
//! read in a public answer sheet. `fincal`: manual page of `cogs` in the R package `FinCal` 0.6.3: 23 and
//! 15, read there. The steps between were reckoned with exact fractions.

use rust_decimal::Decimal;

use crate::shop::Shop;

/// One step of an example, in cents.
struct Step {
    example: &'static str,
    sale: bool,
    units: u32,
    unit_cost: i64,
    cost_of_sales: i64,
    balance: i64,
    balance_units: u32,
}

fn steps() -> Vec<Step> {
    include_str!("fifo.csv").lines().skip(1).map(step).collect()
}

fn step(line: &'static str) -> Step {
    let cells: Vec<&str> = line.split(',').collect();
    let [example, _, event, units, unit_cost, cost_of_sales, balance, balance_units] = cells[..] else {
        panic!("{line}: not eight cells")
    };
    let sale = match event {
        "opening" | "purchase" => false,
        "sale" => true,
        other => panic!("{line}: what is {other}?"),
    };
    let unit_cost = if sale { 0 } else { cents(unit_cost) };
    let (units, balance_units) = (units.parse().unwrap(), balance_units.parse().unwrap());
    Step {
        example,
        sale,
        units,
        unit_cost,
        cost_of_sales: cents(cost_of_sales),
        balance: cents(balance),
        balance_units,
    }
}

fn cents(amount: &str) -> i64 {
    let cents = amount.parse::<Decimal>().unwrap() * Decimal::from(100);
    assert!(cents.is_integer(), "{amount}");
    i64::try_from(cents).unwrap()
}

#[test]
fn oldest_first_gives_the_published_costs() {
    let steps = steps();
    assert_eq!(steps.len(), 13);
    for example in ["openstax", "qs6-1", "fincal"] {
        let mut shop = Shop::new();
        let (mut bought, mut sold) = (0, 0);
        for step in steps.iter().filter(|step| step.example == example) {
            let cost = if step.sale {
                shop.gives_oldest(step.units)
            } else {
                shop.buys(step.units, step.unit_cost * i64::from(step.units));
                bought += step.unit_cost * i64::from(step.units);
                0
            };
            sold += cost;
            assert_eq!(cost, step.cost_of_sales, "{example}: cost of {} units", step.units);
            assert_eq!(shop.balance(), (step.balance_units, step.balance), "{example}: what is left");
            assert_eq!(sold + step.balance, bought, "{example}: sold and left are what was bought");
        }
        // As printed at the end of each example: cost of sales and ending inventory.
        let ends = match example {
            "openstax" => (720_000, 895_500),
            "qs6-1" => (12_000, 39_000),
            _ => (2_300, 1_500),
        };
        assert_eq!((sold, shop.balance().1), ends, "{example}");
    }
}
