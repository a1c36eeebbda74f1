//! The permit sheet around the isometric: frame, title block, schedules, legend, notes and cautions.
//!
//! [`compose`] is the one door. What stands where is the plan's matter, what it says that of one file per schedule; a
//! small layout engine (lettering, strips, tables, blocks, pouring) lays it out. Nothing here computes gas or pipe.
//! Lettering never touches lettering, never leaves the frame, is black and never below 2.5 mm (long values of the title
//! block 2). Cautions and title block stand on the first sheet, a strip with both in short along the foot of all others.
//! Permit sheets and sheets to work from are two sets with numbers of their own.

mod about;
mod alike;
mod appliances;
mod bars;
mod block;
mod built;
mod cautions;
mod changes;
mod exercise;
mod existing;
mod field;
pub mod figures;
mod fill;
mod findings;
mod footnotes;
pub mod guide;
mod hand_over;
mod legend;
mod lettering;
mod matter;
mod notes;
mod packet;
mod paper;
mod permit;
mod pieces;
mod plan;
mod points;
mod pour;
mod purpose;
mod revisions;
mod sections;
mod strip;
mod supply;
mod table;
pub mod tags;
mod text;
mod title_block;
mod title_strip;
mod white;
mod work;

pub use about::{About, Arrange};
pub use appliances::name as appliance_name;
pub use cautions::CAUTIONS;
pub use field::{Field, delivery};
pub use matter::Matter;
pub use packet::{Packet, compose, compose_about, compose_plan, sizing_steps};
pub use paper::{Orientation, Paper, Turn};
pub use pieces::piece_words;
pub use purpose::Purpose;
pub use sections::{size as section_size, verdict as section_verdict};
pub use title_block::cut_values;
pub use work::Work;
