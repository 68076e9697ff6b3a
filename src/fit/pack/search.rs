//! The any-time search: a quick load first, then beams of ever greater width in one style after the other.

use super::beam::{Beam, Step};
use super::block::Blocks;
use super::load::{Load, Table};
use super::style::{Style, worths};
use super::{Cargo, Piece};
use crate::model::stop::Stop;

/// A search for the fullest load, which may be continued as often as one likes.
#[derive(Debug)]
pub struct Packer {
    cargo: Cargo,
    style: Style,
    table: Table,
    beam: Beam,
    width: f64,
    best: Best,
    pub rollouts: u64,
}

/// The fullest load so far.
#[derive(Debug, Clone, Default)]
pub struct Best {
    /// Its boxes.
    pub pieces: Vec<Piece>,
    /// What they fill, in cubic millimetres.
    pub volume: i64,
    /// Whether everything is in.
    pub whole: bool,
}

pub static mut OPT: [f64; 8] = [0.0; 8];
fn opt(i: usize) -> f64 {
    std::env::var(format!("O{i}")).map(|s| s.parse().unwrap()).unwrap_or([1.0, 0.0, 4.0, 2000.0, 1.41][i])
}

impl Packer {
    pub fn new(cargo: Cargo) -> Packer {
        let style = Style { fill: opt(0), awkward: opt(1), touch: opt(2) as i32, blocks: opt(3) as usize };
        let table = Table::new(cargo.clone(), Blocks::singles(&cargo), worths(&cargo, &style), style);
        let beam = Beam::new(&table, 1);
        Packer { cargo, style, table, beam, width: 0.0, best: Best::default(), rollouts: 0 }
    }

    pub fn run(&mut self, stop: &dyn Stop) {
        while !stop.stopped() && !self.best.whole {
            match self.beam.step(&self.table, |load: &Load| load.volume as f64, stop) {
                Step::Filled(load) => {
                    self.rollouts += 1;
                    if load.volume > self.best.volume {
                        self.best = Best {
                            pieces: self.table.pieces(load),
                            volume: load.volume,
                            whole: load.is_whole(),
                        };
                    }
                    if self.width == 0.0 {
                        self.next_beam();
                    }
                }
                Step::Over => self.next_beam(),
            }
        }
    }

    fn next_beam(&mut self) {
        if self.width == 0.0 {
            let blocks = Blocks::joined(&self.cargo, self.style.fill, self.style.blocks);
            if std::env::var("V").is_ok() { eprintln!("{} blocks", blocks.list().len()); }
            self.table = Table::new(self.cargo.clone(), blocks, worths(&self.cargo, &self.style), self.style);
            self.width = 1.0;
        } else {
            self.width = (self.width * opt(4)).max(self.width.floor() + 1.0);
        }
        self.beam = Beam::new(&self.table, self.width as usize);
    }

    pub fn best(&self) -> &Best {
        &self.best
    }
}
