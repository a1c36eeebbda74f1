//! What is written is read back.

use crate::any_job::any_job;
use proptest::prelude::*;
use stubout::file::{read, write};
use stubout::job::Job;

#[test]
fn an_empty_job_is_read_back() {
    let job = Job::default();
    assert_eq!(read(&write(&job)), Ok(job));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_job_is_read_back(seed: u64, size in 0usize..40) {
        let job = any_job(seed, size);
        let text = write(&job);
        prop_assert_eq!(read(&text), Ok(job));
    }
}
