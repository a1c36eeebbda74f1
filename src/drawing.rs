//! Job and study to scene: how piping looks on paper.
//!
//! `sheet` is the permit sheet around the isometric. Nothing here computes gas or pipe.

pub mod sheet;
