//! Twenty planning problems with answers that another program proved.
//!
//! The problems are made up. The answers are optima of mixed-integer programs solved by `HiGHS` 1.16.0 (Q. Huangfu,
//! J. A. J. Hall, Parallelizing the dual revised simplex method, Math. Prog. Comp. 10 (2018)) with a gap of 0; where a file
//! says "two formulations", a second model without any putting together gave the same. Things that are alike stand in one
//! line here. The first five can be checked by hand: see the notes at their tops.

use std::collections::BTreeMap;

use brimful::model::stop::Stop;
use brimful::plan::{Answers, Instance, answer, assign, read_instance};
use serde_json::{Value, json};

use crate::plan_file::{files, written};

/// Never.
struct Patience;

impl Stop for Patience {
    fn stopped(&self) -> bool {
        false
    }
}

/// A problem, read by the program's own reader, and its answers.
fn problem(text: &str) -> (Instance, Value) {
    let (written, answers) = written(text);
    (read_instance(&written.to_string()).unwrap(), answers)
}

/// What was found, written as the files tell it; a bound that was not reached shows as a row that differs.
fn told(answers: &Answers) -> Value {
    let mut told = serde_json::to_value(answers).unwrap();
    for of in ["min_cost_for", "max_with_budget"] {
        for row in told[of].as_array_mut().unwrap() {
            assert_eq!(row[1], row[2], "{of}: what was found is the best there is");
            row.as_array_mut().unwrap().pop();
        }
    }
    for of in ["upper", "proven", "plan"] {
        told.as_object_mut().unwrap().remove(of);
    }
    told
}

#[test]
fn all_twenty_are_answered_exactly_and_to_the_end() {
    let mut seen = 0;
    for file in files() {
        let (instance, expected) = problem(&std::fs::read_to_string(&file).unwrap());
        let found = answer(&instance, || Box::new(Patience));
        assert!(found.proven && found.upper == found.max_complete, "{}", file.display());
        assert_eq!(told(&found), expected, "{}", file.display());
        seen += 1;
    }
    assert_eq!(seen, 20);
}

/// Every plan is carried out thing by thing, and looked over without the engine.
#[test]
fn every_plan_can_be_dealt_to_its_boxes() {
    for file in files() {
        let (instance, expected) = problem(&std::fs::read_to_string(&file).unwrap());
        let problem = &instance.problem;
        let plan = brimful::plan::most(problem, &Patience).plan;
        assert_eq!(json!(plan.iter().sum::<u32>()), expected["max_complete"]);
        let dealt = assign(problem, &plan).unwrap();
        let mut left: Vec<u32> = problem.stock.things.iter().map(|thing| thing.units).collect();
        let mut got: BTreeMap<(usize, u32, &str, Option<&str>), u32> = BTreeMap::new();
        for given in &dealt.given {
            let (thing, line) = (&problem.stock.things[given.thing], &dealt.lines[given.line]);
            left[given.thing] = left[given.thing].checked_sub(given.units).expect("no thing is given twice");
            assert!(thing.ware.fits(problem.age_rule, given.group, &problem.demand.groups[given.group]));
            assert_eq!(thing.ware.serves, [line.category.as_str()]);
            assert!(line.kind.as_ref().is_none_or(|kind| *kind == thing.ware.kind));
            let key = (given.group, given.giftbox, line.category.as_str(), line.kind.as_deref());
            *got.entry(key).or_default() += given.units;
        }
        for (index, (group, boxes)) in problem.demand.groups.iter().zip(&plan).enumerate() {
            for (giftbox, need) in (0..*boxes).flat_map(|giftbox| group.needs.iter().map(move |need| (giftbox, need))) {
                let given = |kind| got.get(&(index, giftbox, need.category.as_str(), kind)).copied().unwrap_or(0);
                assert!(need.must.iter().all(|(kind, count)| given(Some(kind)) == *count));
                assert_eq!(given(None), need.of_any_kind());
            }
        }
    }
}

/// By hand: toothbrush 5 and soap 4 are 9 of 10 hygiene; puzzles 2 and cars 2 are 4 of 5 toys, the figures fit nobody.
#[test]
fn the_first_one_in_words() {
    let text = std::fs::read_to_string(&files()[0]).unwrap();
    let problem = problem(&text).0.problem;
    let most = brimful::plan::most(&problem, &Patience);
    assert_eq!(
        brimful::plan::headline(&problem, &most),
        "You can finish 4 of 5 boxes; that is the most you can finish."
    );
    assert_eq!(
        brimful::plan::reasons(&problem, &most.explanation),
        [
            "Hygiene for all groups holds you back: 9 on hand, 10 needed.",
            "Toy for g1 holds you back: 2 on hand, 3 needed.",
            "Left over: 1 hygiene and 4 toys; 4 of them fit no box that is still open.",
        ]
    );
    let steps = brimful::plan::next(&problem, &most, &Patience);
    let said: Vec<String> =
        steps.iter().map(|step| brimful::plan::step_in_words(step, &|minor| format!("{minor} cents"))).collect();
    // A soap at 60 and a puzzle at 200.
    assert_eq!(said, ["1 more soap and 1 more puzzle finish 1 more box, about 260 cents."]);
}
