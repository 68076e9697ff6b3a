//! What giving a thing to a box costs the others.

use super::assign::Line;
use super::compile::Compiled;
use super::most::most_of;
use super::packer::Packer;
use super::problem::{Group, Need, Plan, Problem};
use crate::model::stop::Stop;

/// What giving one unit of a thing to a box is worth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Worth {
    /// The line of the box that it meets; none: the box doesn't need it.
    pub meets: Option<Line>,
    /// How many boxes fewer can be finished then, at least.
    pub lost: u32,
    /// And at most.
    pub lost_at_most: u32,
    /// The group of a box that can't do without it, if just one box is lost and it is known which could be.
    pub loser: Option<usize>,
}

/// Whether giving a thing to a box of a group costs a box elsewhere; none if it doesn't fit, or if there is no such
/// thing or box.
///
/// A thing that the box doesn't need can cost one too: it is gone.
pub fn value_of(problem: &Problem, thing: usize, group: usize, stop: &dyn Stop) -> Option<Worth> {
    let (of, to) = (problem.stock.things.get(thing)?, problem.demand.groups.get(group)?);
    if of.units == 0 || to.boxes == 0 || !of.ware.fits(problem.age_rule, group, to) {
        return None;
    }
    let mut after = problem.clone();
    after.shown = None;
    after.stock.things[thing].units -= 1;
    after.demand.groups[group].boxes -= 1;
    let mut given = Group { boxes: 1, ..to.clone() };
    let meets = meet(&mut given, &of.ware.kind, &of.ware.serves);
    let alone = after.demand.groups.len();
    after.demand.groups.push(given);
    let things = after.stock.things.iter_mut().map(|thing| &mut thing.ware);
    for ware in things.filter(|ware| ware.not_for.contains(&group)) {
        ware.not_for.insert(alone);
    }
    let (now, then) = (Compiled::new(problem), Compiled::new(&after));
    let ((best, now_at_most), (left, then_at_most)) = (most_of(&now, stop), most_of(&then, stop));
    let count = |counts: &[i64]| super::most::boxes(counts.iter().sum());
    let lost = count(&best).saturating_sub(then_at_most);
    let plan = now.by_group(problem, &best);
    let loser = (lost > 0).then(|| loser(&then, &plan, problem, (thing, group))).flatten();
    Some(Worth { meets, lost, lost_at_most: now_at_most.saturating_sub(count(&left)), loser })
}

/// A group of which one box less leaves a plan that can be carried out once the thing is given away.
fn loser(then: &Compiled, plan: &Plan, problem: &Problem, (thing, given): (usize, usize)) -> Option<usize> {
    let ware = &problem.stock.things[thing].ware;
    let mut plan = plan.clone();
    // The box that it is given to stands by itself now, and is finished if one of its group was.
    plan.push(u32::from(plan[given] > 0));
    plan[given] = plan[given].saturating_sub(1);
    let mut packer = Packer::new(then, false);
    let wants = |at: usize, group: &Group| {
        ware.fits(problem.age_rule, at, group) && group.needs.iter().any(|need| ware.serves.contains(&need.category))
    };
    let groups = problem.demand.groups.iter().enumerate();
    let mut losers = groups.filter(|(at, group)| wants(*at, group)).map(|(at, _)| at);
    losers.find(|at| {
        let fewer = plan[*at] > 0 && {
            plan[*at] -= 1;
            true
        };
        let can_be = fewer && packer.set(&then.by_bundle(&plan));
        plan[*at] += u32::from(fewer);
        can_be
    })
}

/// Takes one unit off what a box needs: off the line that names its kind, else off one of any kind.
fn meet(group: &mut Group, kind: &str, serves: &[String]) -> Option<Line> {
    let served = |need: &Need| serves.contains(&need.category);
    let named = group.needs.iter().position(|need| served(need) && need.must.get(kind) > Some(&0));
    let any = group.needs.iter().position(|need| served(need) && need.of_any_kind() > 0);
    let may = group.caps.get(kind).is_none_or(|most| *most > 0);
    let need = &mut group.needs[named.or(any.filter(|_| may))?];
    group.caps.entry(kind.to_owned()).and_modify(|most| *most = most.saturating_sub(1));
    need.count = need.of_any_kind() + need.must.values().sum::<u32>() - 1;
    if named.is_some() {
        need.must.entry(kind.to_owned()).and_modify(|count| *count -= 1);
    }
    Some(Line { category: need.category.clone(), kind: named.map(|_| kind.to_owned()) })
}
