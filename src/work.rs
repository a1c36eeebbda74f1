//! What is made: pieces and sticks, the take-off and its price, the order of work, the pressure test.
//!
//! It reads the study and decides nothing of sizes; what is wrong with a job is said by the rules.

mod cut;
mod cut_in;
mod leak_log;
mod nipple;
mod order_of_work;
mod price;
mod put_in;
mod quote;
pub mod spreadsheet;
mod start_up;
mod stock;
pub(crate) mod take_off;
mod test_sheet;
mod tools;

pub use cut::{CutList, Making, Part, Piece, rounded};
pub use cut_in::{CutIn, all as cut_ins};
pub use leak_log::{LEAK_CHECK, LeakLog, LeakRow};
pub use nipple::JointNipple;
pub use order_of_work::{
    EDITED, Fate, GoesOut, Isolation, OrderLine, OrderOfWork, PRACTICE, Step, how_copper_is_joined,
};
pub use price::{Cost, Price, PriceLine};
pub use quote::{QUOTE, Quote, QuoteLine};
pub(crate) use spreadsheet::{money, places, verdict};
pub use start_up::{HOW, NEARNESS, Off, StartUpRecord, StartUpRow, Surprise};
pub use stock::{Packing, Stick, StockGroup, StockPlan, pack};
pub use take_off::{Group, Line, PriceList, Priced, Quantity, Shelf, TakeOff};
pub use test_sheet::{
    BLANKS, Closure, Demand, Filling, MEDIUM, NO_NEW_PIPE, PURGE_WAYS, Purge, Reading, SCOPE, TestSheet, TestedPipe,
    Volume, sinks, volume_said,
};
pub use tools::{Hole, TOOLS, Tools};
