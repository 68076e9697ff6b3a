//! Things as the search wants them: sides, forms and weight, said of the batch or typical of its kind.

use crate::fit::cuboid::{LONGEST, Size};
use crate::fit::{Room, Shape, Thing};
use crate::model::category::Category;
use crate::model::id::{LotId, PlacementId};
use crate::model::kind::{Kind, Lies, Press, Typical};
use crate::model::lot::{LotFacts, Source};
use crate::model::measure::Dims;
use crate::model::rows::PlacementRow;
use crate::model::text::one_of;

/// Where the size of a thing is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::season) enum Origin {
    /// It was said of the batch, or measured of the kind.
    Said,
    /// It is typical of the kind, at least in part.
    Typical,
    /// Nobody knows it.
    Unknown,
}

/// A thing with its measures.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::season) struct Measured {
    /// For the search, with what is wished of it: flat things lie flat, the wow item is on top.
    pub thing: Thing,
    /// Where its size is from.
    pub origin: Origin,
    /// Whether its weight is known.
    pub weighed: bool,
    /// Which units in or for the box it is; none: it is on hand.
    pub placement: Option<PlacementId>,
    /// Its batch.
    pub lot: Option<LotId>,
    /// Units that are only set aside.
    pub aside: u32,
    /// What it counts for in this box.
    pub category: Option<Category>,
    /// What its batch is called.
    pub called: String,
    /// All its sides were said of its batch.
    pub by_batch: bool,
    /// Its usual form, whichever way it lies.
    pub loose: Option<Shape>,
}

impl Measured {
    /// So many units of a batch; `kind_size` is what somebody measured of the kind.
    pub fn of(facts: &LotFacts, kind: Option<&Kind>, kind_size: Option<&Dims>, count: u16) -> Measured {
        let typical = kind.and_then(|kind| kind.typical.as_ref());
        let bundle = kind.map_or(1, |kind| bundle(facts, kind));
        let (size, origin) = match sides(facts.dims.as_ref(), kind_size, typical, bundle) {
            Some((size, origin)) => (Some(size), origin),
            None => (None, Origin::Unknown),
        };
        let lies = typical.map(|typical| typical.lies).unwrap_or_default();
        let typical_weight = typical.map(|typical| typical.weight.0.saturating_mul(bundle.unsigned_abs()));
        let weight = facts.weight.map(|weight| weight.0).or(typical_weight);
        let thing = Thing {
            name: one_of(&facts.title()),
            shapes: size.map(|size| shapes(size, lies)).unwrap_or_default(),
            count,
            weight: weight.unwrap_or(0),
            press: typical.map_or(0, |typical| u8::try_from(typical.press.share()).unwrap_or(0)),
            room: size.zip(typical).and_then(|(size, typical)| room(facts, size, typical)),
            ..Thing::default()
        };
        Measured {
            thing,
            origin,
            weighed: weight.is_some(),
            placement: None,
            lot: None,
            aside: 0,
            category: facts.category.clone(),
            called: facts.name.clone(),
            by_batch: facts.dims.as_ref().is_some_and(|dims| dims.0.len() >= 3),
            loose: size.map(Shape::any_way),
        }
    }

    /// These units of it are in or for the box.
    pub fn placed(&mut self, row: &PlacementRow, facts: &LotFacts) {
        (self.placement, self.lot, self.aside) = (Some(row.placement), Some(row.lot), row.aside.count());
        self.category = if row.wow { Some(Category::Wow) } else { facts.category.clone() };
    }

    /// Cubic millimetres that one takes when it is pressed as far as it can be; none where nobody knows its size.
    pub fn pressed_volume(&self) -> Option<u64> {
        let usual = self.thing.shapes.first()?;
        let volume: u64 = usual.size.iter().map(|side| u64::from(side.unsigned_abs())).product();
        Some(volume * u64::from(100 - self.thing.press.min(100)) / 100)
    }

    /// The thing without the wishes: it may lie any way, and under others.
    pub fn unwished(&self) -> Thing {
        let mut thing = Thing { on_top: false, ..self.thing.clone() };
        if let (Some(usual), Some(loose)) = (thing.shapes.first_mut(), &self.loose) {
            *usual = loose.clone();
        }
        thing
    }

    /// Gives it room for what somebody said is in it: it swells by that, if no better is known.
    pub fn holds(&mut self) {
        let size = self.thing.shapes.first().map(|shape| shape.size);
        self.thing.room = self.thing.room.take().or(size.map(|size| Room { size, swells: true }));
    }
}

/// Gives holders room for what somebody said is in them.
pub(super) fn give_room(things: &mut [Measured]) {
    let holders: Vec<usize> = things.iter().flat_map(|measured| measured.thing.belongs.clone()).collect();
    for holder in holders {
        if let Some(measured) = things.get_mut(holder) {
            measured.holds();
        }
    }
}

/// How many of a kind one unit is: a bundle of 6 pencils is 6, a set of crayons one.
fn bundle(facts: &LotFacts, kind: &Kind) -> i32 {
    let whole = kind.set || kind.typical.as_ref().is_none_or(|it| it.several || it.press == Press::Loose);
    if whole { 1 } else { facts.pieces.and_then(|pieces| i32::try_from(pieces).ok()).unwrap_or(1).clamp(1, 1000) }
}

/// The three sides, the largest first; what isn't said is as measured of the kind, or typical of it.
fn sides(
    dims: Option<&Dims>,
    of_kind: Option<&Dims>,
    typical: Option<&Typical>,
    pieces: i32,
) -> Option<(Size, Origin)> {
    let said = millimetres(dims);
    let usual: Option<Size> = millimetres(of_kind.or(typical.map(|typical| &typical.size))).try_into().ok();
    let origin = if of_kind.is_some() { Origin::Said } else { Origin::Typical };
    let (mut size, origin) = match (said.as_slice(), usual) {
        ([a, b, c], _) => ([*a, *b, *c], Origin::Said),
        ([], Some(usual)) => (bundled(usual, pieces), origin),
        (said, Some(usual)) => (completed(said, usual), origin),
        (_, None) => return None,
    };
    size.sort_unstable_by(|one, other| other.cmp(one));
    Some((size, origin))
}

fn millimetres(dims: Option<&Dims>) -> Vec<i32> {
    let sides = dims.into_iter().flat_map(|dims| &dims.0);
    let mut sides: Vec<i32> =
        sides.map(|side| i32::try_from(side.0).unwrap_or(LONGEST).clamp(1, LONGEST)).take(3).collect();
    sides.sort_unstable_by(|one, other| other.cmp(one));
    sides
}

/// The largest sides as said, the others as usual; what is usually as wide as long stays so.
fn completed(said: &[i32], usual: Size) -> Size {
    let mut size = usual;
    let Some((last, at)) = said.last().copied().zip(said.len().checked_sub(1)) else { return usual };
    for axis in 0..size.len() {
        size[axis] = match said.get(axis) {
            Some(said) => *said,
            None if usual[axis] == usual[at] => last,
            None => usual[axis].min(last),
        };
    }
    size
}

/// So many side by side and on each other, in as square a bundle as they make.
fn bundled([long, wide, thick]: Size, pieces: i32) -> Size {
    let stacked = |row: i32| [long, wide.saturating_mul(row), thick.saturating_mul((pieces + row - 1) / row)];
    let square = (1..=pieces).map(stacked).min_by_key(|[_, wide, thick]| *wide.max(thick));
    square.unwrap_or([long, wide, thick]).map(|side| side.min(LONGEST))
}

/// The forms of a thing of these sides, the largest first: as it is, folded in two, rolled up.
fn shapes(size: Size, lies: Lies) -> Vec<Shape> {
    let [long, wide, thin] = size;
    let usual = match lies {
        Lies { upright: true, .. } => Shape { size, up: [true, false, false] },
        Lies { flat: true, .. } => Shape::lying(size),
        _ => Shape::any_way(size),
    };
    let mut shapes = vec![usual];
    if lies.fold {
        shapes.push(Shape::any_way([(long + 1) / 2, wide, (thin * 2).min(LONGEST)]));
    }
    if lies.roll {
        // As much as before in a cylinder: its cross-section, π/4 of the square round it, is long × thin.
        let square = i64::from(long) * i64::from(thin) * 14 / 11;
        let across = i32::try_from(square.isqrt() + 1).unwrap_or(LONGEST);
        shapes.push(Shape::any_way([wide, across, across]));
    }
    shapes
}

/// The room in it, as far as it is that large; a kit is full already.
fn room(facts: &LotFacts, size: Size, typical: &Typical) -> Option<Room> {
    let room = typical.room.as_ref().filter(|_| facts.source != Source::Kit)?;
    let inner: Size = millimetres(Some(&room.size)).try_into().ok()?;
    let hollow = room.swells || inner.iter().zip(&size).all(|(inner, outer)| inner < outer);
    hollow.then_some(Room { size: inner, swells: room.swells })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::model::measure::{Decigrams, Millimetres};

    fn measured(facts: &LotFacts) -> Measured {
        let catalogue = Catalogue::built_in();
        Measured::of(facts, catalogue.kind_of(&facts.name), None, 1)
    }

    fn lot(name: &str, dims: &[u32]) -> LotFacts {
        let sides: Vec<Millimetres> = dims.iter().copied().map(Millimetres).collect();
        LotFacts { name: name.to_owned(), dims: Some(Dims(sides)), ..LotFacts::default() }
    }

    fn size(facts: &LotFacts) -> Option<Size> {
        measured(facts).thing.shapes.first().map(|shape| shape.size)
    }

    #[test]
    fn what_was_said_goes_before_what_is_typical() {
        // A sock is 180 × 90 × 20 in the catalogue.
        assert_eq!(size(&lot("socks", &[])), Some([180, 90, 20]));
        assert_eq!(size(&lot("socks", &[200])), Some([200, 90, 20]));
        assert_eq!(size(&lot("socks", &[60])), Some([60, 60, 20]));
        assert_eq!(size(&lot("socks", &[10, 160, 80])), Some([160, 80, 10]));
        let origins = [&[][..], &[200], &[10, 160, 80]].map(|dims| measured(&lot("socks", dims)).origin);
        assert_eq!(origins, [Origin::Typical, Origin::Typical, Origin::Said]);
        assert_eq!(measured(&lot("thingamajig", &[70])).origin, Origin::Unknown);
        assert_eq!(size(&lot("thingamajig", &[70, 60, 50])), Some([70, 60, 50]));
    }

    #[test]
    fn what_was_measured_of_a_kind_goes_before_what_is_typical() {
        let catalogue = Catalogue::built_in();
        let own = Dims([210, 100, 30].map(Millimetres).to_vec());
        let measured = |name: &str, dims: &[u32]| {
            let it = Measured::of(&lot(name, dims), catalogue.kind_of(name), Some(&own), 1);
            (it.thing.shapes[0].size, it.origin)
        };
        assert_eq!(measured("socks", &[]), ([210, 100, 30], Origin::Said));
        assert_eq!(measured("thingamajig", &[220]), ([220, 100, 30], Origin::Said));
        assert_eq!(measured("socks", &[160, 80, 10]), ([160, 80, 10], Origin::Said));
    }

    #[test]
    fn a_bundle_is_as_large_as_its_pieces() {
        assert_eq!(bundled([190, 8, 8], 6), [190, 16, 24]);
        assert_eq!(bundled([150, 100, 1], 10), [150, 100, 10]);
        let six = LotFacts { pieces: Some(6), ..lot("pencils", &[]) };
        let (one, bundle) = (measured(&lot("pencils", &[])), measured(&six));
        assert_eq!(bundle.thing.weight, 6 * one.thing.weight);
        assert!(bundle.thing.volume() >= 6 * one.thing.volume());
    }

    #[test]
    fn clothes_roll_up_and_fold() {
        let shapes = measured(&lot("socks", &[])).thing.shapes;
        // Folded: half as long, twice as thick. Rolled: 180 × 20 = 3600 = 67.7² × π/4.
        assert_eq!(
            shapes.iter().map(|shape| shape.size).collect::<Vec<_>>(),
            [[180, 90, 20], [90, 90, 40], [90, 68, 68]]
        );
        assert_eq!((shapes[0].up, shapes[2].up), ([false, false, true], [true; 3]));
        assert_eq!(measured(&lot("socks", &[])).unwished().shapes[0].up, [true; 3]);
    }

    #[test]
    fn a_holder_has_room_unless_it_is_a_kit() {
        let room = |facts: &LotFacts| measured(facts).thing.room.map(|room| room.size);
        assert_eq!(room(&lot("soap dish", &[])), Some([100, 65, 30]));
        assert_eq!(room(&lot("soap dish", &[90, 60, 30])), None);
        assert_eq!(room(&LotFacts { source: Source::Kit, ..lot("soap dish", &[]) }), None);
        let mut bag = measured(&lot("thingamajig", &[70, 60, 50]));
        bag.holds();
        assert_eq!(bag.thing.room, Some(Room { size: [70, 60, 50], swells: true }));
    }

    #[test]
    fn a_weight_that_was_said_counts() {
        let light = LotFacts { weight: Some(Decigrams(5)), ..lot("socks", &[]) };
        assert_eq!((measured(&light).thing.weight, measured(&light).weighed), (5, true));
        assert!(!measured(&lot("thingamajig", &[])).weighed);
    }
}
