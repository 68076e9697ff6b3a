//! Looking a season over: are the events whole, and do the rows follow from them?

use std::collections::BTreeMap;

use super::{Memory, Store, StoreError};
use crate::model::commit::Holdings;
use crate::model::id::{DeviceId, LotId};

/// Something that is not as it should be, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trouble {
    /// What is wrong.
    pub what: String,
    /// What to do.
    pub remedy: &'static str,
}

/// Every trouble found. The rows are compared with rows made anew in memory from the stored bytes.
pub fn check(store: &impl Store) -> Result<Vec<Trouble>, StoreError> {
    let kept = store.kept()?;
    let damaged = kept.iter().filter_map(|kept| kept.event().err()).map(|error| error.to_string());
    let damage = store.unsound()?.into_iter().chain(damaged);
    let remedy = "bring back a backup or join another computer's file";
    let mut troubles: Vec<Trouble> = damage.map(|what| Trouble { what, remedy }).collect();
    if !troubles.is_empty() {
        return Ok(troubles);
    }
    troubles.extend(seats(kept.iter().map(|kept| (kept.device, kept.seq))));
    let mut anew = Memory::new(store.season());
    anew.join(&kept)?;
    troubles.extend(drift("boxes", &store.boxes()?, &anew.boxes()?));
    troubles.extend(drift("batches", &store.lots()?, &anew.lots()?));
    let shelved = (by_title(store)?, store.titles_on_hand(usize::MAX)?);
    troubles.extend(drift("the order of batches", &[shelved], &[(by_title(&anew)?, anew.titles_on_hand(usize::MAX)?)]));
    troubles.extend(drift("the sums", &[store.totals()?], &[anew.totals()?]));
    troubles.extend(drift("hauls", &store.hauls()?, &anew.hauls()?));
    troubles.extend(drift("things in boxes", &store.placements()?, &anew.placements()?));
    troubles.extend(drift("things that left", &store.outs()?, &anew.outs()?));
    troubles.extend(drift("acts", &store.acts(usize::MAX)?, &anew.acts(usize::MAX)?));
    troubles.extend(drift("the drive's rules", &[store.profile()?], &[anew.profile()?]));
    Ok(troubles)
}

/// The batches in the order in which a store shows them by title.
fn by_title(store: &impl Store) -> Result<Vec<LotId>, StoreError> {
    let mut lots = Vec::new();
    store.each_lot(&mut |row| lots.push(row.lot))?;
    Ok(lots)
}

/// Each device counts its events from 1; two at one count mean that a copied file was written to twice.
fn seats(taken: impl Iterator<Item = (DeviceId, u64)>) -> Vec<Trouble> {
    let mut counts: BTreeMap<(DeviceId, u64), u32> = BTreeMap::new();
    for seat in taken {
        *counts.entry(seat).or_default() += 1;
    }
    let twice = counts.iter().filter(|(_, count)| **count > 1).map(|((device, seq), _)| Trouble {
        what: format!(
            "computer {} wrote two events number {seq}: its file was copied and both copies went on",
            device.short()
        ),
        remedy: "nothing is lost; from now on join files instead of writing to copies of one",
    });
    let mut last: BTreeMap<DeviceId, u64> = BTreeMap::new();
    let mut gaps = Vec::new();
    for &(device, seq) in counts.keys() {
        let before = last.insert(device, seq).unwrap_or(0);
        if seq > before + 1 {
            gaps.push(Trouble {
                what: format!("events {} to {} of computer {} are not here", before + 1, seq - 1, device.short()),
                remedy: "join that computer's file, or a newer copy of this one",
            });
        }
    }
    twice.chain(gaps).collect()
}

fn drift<T: PartialEq>(what: &str, kept: &[T], anew: &[T]) -> Option<Trouble> {
    (kept != anew).then(|| Trouble {
        what: format!("what is shown of {what} doesn't follow from what was done"),
        remedy: "`brimful rebuild` makes it anew; nothing that was done is lost",
    })
}
