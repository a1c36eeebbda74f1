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

#[test]
fn notes_are_told_from_what_the_program_writes_and_from_words_with_slashes() {
    let mut job = Job::default();
    job.title.site = "14 Example Court // rear /* gate */".to_owned();
    let written = write(&job);
    assert!(!stubout::file::has_notes(&written), "{written}");
    for noted in [
        written.replacen("(\n", "( // mine\n", 1),
        format!("// mine\n{written}"),
        format!("{written}// mine"),
        "(version: 1, /* mine */)".to_owned(),
    ] {
        assert!(stubout::file::has_notes(&noted), "{noted}");
    }
    for broken in ["", "\"", "((((", "/"] {
        assert!(!stubout::file::has_notes(broken), "{broken}");
    }
}
