//! What a person can do by a key, one by one.

/// One thing that a person can do. The table in [`super::table`] gives each its keys and words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Action {
    /// To another row.
    MoveRow,
    /// To another column.
    MoveCol,
    /// To the first or last row.
    MoveEnds,
    /// A page on or back.
    MovePage,
    /// To another part of the screen.
    NextPart,
    /// To the next that waits or was found.
    NextWaiting,
    /// Open what is selected, or do the one next thing.
    Open,
    /// One step back.
    Back,
    /// The numbered one.
    Choose,
    /// All of them; don't know.
    ChooseAll,
    /// Write what was bought.
    Bought,
    /// Find anything.
    Find,
    /// All actions by name.
    Actions,
    /// The keys of this screen.
    Help,
    /// Take the last act back.
    Undo,
    /// Bring it again.
    Redo,
    /// The pull list.
    Pull,
    /// What can be finished, and what to buy.
    Plan,
    /// What was done.
    History,
    /// All hauls.
    Hauls,
    /// What explains that a receipt differs.
    Settle,
    /// Whether all of a box goes in, and how.
    Fit,
    /// Boxes by what they lack.
    Review,
    /// The last night's list.
    DropOff,
    /// The drive's rules.
    Drive,
    /// Leave, from home.
    Leave,
    /// Leave, from anywhere.
    LeaveNow,
    /// Put the program aside.
    Suspend,
    /// Draw the screen afresh.
    Redraw,
    /// Plan boxes in words.
    PlanBox,
    /// Change the words of something.
    Mend,
    /// Take something away.
    Away,
    /// Put one in.
    PutOne,
    /// Set aside all that can be.
    PlanAll,
    /// What is on screen as a page.
    Paper,
    /// Hold it for the box.
    SetAside,
    /// Move it to another box.
    MoveBox,
    /// Tick a row.
    Tick,
    /// Tick all rows.
    TickAll,
    /// Take one back out.
    TakeOne,
    /// Say how many there really are.
    Count,
    /// Say in which tote it lies.
    MoveTote,
    /// Put things inside a holder.
    Inside,
    /// Make it the wow item of its box.
    Wow,
    /// Close or open a box.
    CloseBox,
    /// Only some boxes.
    Whom,
    /// The reasons in full.
    Why,
    /// What to be careful of.
    Careful,
    /// Overrule a caution, with a reason.
    Allow,
    /// Do what the line says.
    LineDo,
    /// Take the offered words into the line.
    LineTake,
    /// Move the caret.
    LineCaret,
    /// Rub out.
    LineErase,
    /// Another box like this one.
    BoxSame,
    /// A box came back.
    BoxBack,
    /// A box was handed in.
    BoxHandIn,
    /// Take all out of a box.
    BoxUnpack,
    /// Put several things together as one.
    Kit,
    /// Break a pack up into bundles.
    Split,
    /// Take a part out of sets.
    PartOut,
    /// Take kits apart again.
    Apart,
    /// Make the batches of a thing one.
    Combine,
    /// Say how much there is of what nobody counts.
    Level,
    /// An opening count.
    Opening,
    /// Write the words in an editor.
    Editor,
    /// Where the file is.
    Where,
    /// Look around in the sample.
    Sample,
}

impl Action {
    /// Its name in the settings file: `put-one`.
    pub fn name(self) -> String {
        let mut name = String::new();
        for c in format!("{self:?}").chars() {
            if c.is_ascii_uppercase() && !name.is_empty() {
                name.push('-');
            }
            name.push(c.to_ascii_lowercase());
        }
        name
    }
}

#[cfg(test)]
mod tests {
    use crate::tui::app::table::TABLE;

    /// People have these in their settings: a name that is there stays.
    const NAMES: &str = "\
        open back bought find actions review pull drop-off history drive help leave leave-now suspend redraw \
        move-row move-col move-ends move-page next-part next-waiting choose choose-all undo redo plan-box mend \
        put-one take-one set-aside move-box inside wow tick tick-all close-box count move-tote away whom why \
        line-do line-take line-caret line-erase box-same box-hand-in box-back box-unpack opening editor where sample fit paper";

    #[test]
    fn names_in_the_settings_stay() {
        let names: Vec<String> = TABLE.iter().map(|row| row.action.name()).collect();
        for name in NAMES.split_whitespace() {
            assert!(names.iter().any(|known| known == name), "{name} is gone");
        }
    }
}
