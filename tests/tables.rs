//! Capacity tables of a person's own: read, refused with line and remedy, used before the published ones, and named where
//! they are not at hand. Every figure in the table files here is invented.

#[path = "tables/broken.rs"]
mod broken;
#[path = "tables/commands.rs"]
mod commands;
#[path = "tables/sizing.rs"]
mod sizing;

/// The example that explains how a table file is written.
const INVENTED: &str = include_str!("tables/invented-csst.tsv");
/// One in meters, cubic meters and millimeters.
const METRIC: &str = include_str!("tables/invented-metric.tsv");
