//! The job file: what is written is read back, what is broken gets one clear error, version 1 opens for ever.

#[path = "file/any_job.rs"]
mod any_job;
#[path = "file/broken.rs"]
mod broken;
#[path = "file/later.rs"]
mod later;
#[path = "file/mutated.rs"]
mod mutated;
#[path = "file/round_trip.rs"]
mod round_trip;
#[path = "file/version_1.rs"]
mod version_1;
