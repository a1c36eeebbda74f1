//! Whatever is given to a reader, a study, a drawing or an editor, it answers soon and within bounds, or refuses plainly.
//!
//! Inputs are made from good ones by chance from a seed: bytes cut, put in and turned over, whole parts of the text taken
//! twice, swapped or left out, figures made absurd. All that ever failed lies in `tests/corpus` and goes through
//! everything at each call. `cargo test` takes a few hundred; for more:
//!
//! ```text
//! STUBOUT_ROUNDS=2000000 cargo test --release --test any_input -- --ignored --nocapture reading
//! STUBOUT_ROUNDS=100000 cargo test --release --test any_input -- --ignored --nocapture everything
//! STUBOUT_SEED=7 …          another run of the dice
//! STUBOUT_SEED=0x700000003 … the one input of that seed
//! STUBOUT_LONGEST=1000 …    names what takes longer than so many ms, whatever the build
//! ```
//!
//! An input that panics, takes too long or too much memory is written to the folder for temporary files, and named.

#[path = "any_input/bounds.rs"]
mod bounds;
#[path = "support/dice.rs"]
mod dice;
#[path = "any_input/mutate.rs"]
mod mutate;
#[path = "any_input/rounds.rs"]
mod rounds;
#[path = "any_input/through.rs"]
mod through;

use dice::Dice;
use mutate::mutated;
use rounds::{Rounds, files};
use through::Given;

/// What inputs are made from: what is read by each reader, the corpus among it.
fn bases() -> Vec<Given> {
    let read = |folder: &str| files(folder).into_iter().map(|(_, bytes)| bytes);
    let mut all: Vec<Given> = Vec::new();
    for folder in ["examples", "tests/jobs", "tests/jobs/since", "tests/corpus/jobs"] {
        all.extend(read(folder).map(Given::Job));
    }
    all.push(Given::Job(std::fs::read("tests/file/v1.ron").unwrap()));
    let kitchen = std::fs::read("examples/patio-kitchen.ron").unwrap();
    all.push(Given::Job(through::svg_with(&kitchen)));
    all.extend(read("assets/profiles").map(Given::Profile));
    all.extend(read("tests/corpus/profiles").map(Given::Profile));
    for table in ["tests/tables/invented-metric.tsv", "tests/tables/invented-csst.tsv"] {
        all.push(Given::Table(std::fs::read(table).unwrap()));
    }
    all.extend(read("tests/corpus/tables").map(Given::Table));
    all.push(Given::Prices(
        b"what;price\npipe 3/4\" steel;1.85\ncap 3/4\" steel; 1.25\ntee 1\" steel\t2\n".to_vec(),
    ));
    all.extend(read("tests/corpus/prices").map(Given::Prices));
    all.push(Given::Lengths(
        b"ball valve; 1/2; 2-1/8 in\ntee; 1 x 3/4; 1-3/8 in\ntubing fitting; EHD 23 x 1/2; 41 mm\n".to_vec(),
    ));
    all.extend(read("tests/corpus/lengths").map(Given::Lengths));
    all
}

/// Sends so many mutated inputs through `what`, and says how it went.
fn send(what: &str, usual: u64, through: impl Fn(&Given, &mut Dice)) {
    let bases = bases();
    let mut rounds = Rounds::new(what, usual);
    for seed in rounds.seeds() {
        let mut dice = Dice::new(seed);
        let base = dice.below(bases.len());
        let given = bases[base].with(|bytes| {
            let other = bases[dice.below(bases.len())].bytes().to_vec();
            mutated(bytes, &other, &mut dice)
        });
        rounds.run(&given, seed, || through(&given, &mut dice));
    }
    rounds.finish();
}

#[test]
fn what_once_failed_goes_through_everything() {
    let mut rounds = Rounds::new("corpus", 1);
    for given in bases() {
        rounds.run(&given, 0, || through::everything(&given, &mut Dice::new(1)));
    }
    rounds.finish();
}

#[test]
fn a_few_mutated_inputs_are_read_and_studied() {
    send("read and studied", 400, |given, _| through::reading(given));
}

#[test]
fn a_few_mutated_inputs_go_through_everything() {
    send("everything", 25, through::everything);
}

#[test]
#[ignore = "as many as STUBOUT_ROUNDS says"]
fn reading() {
    send("read and studied", 4_000, |given, _| through::reading(given));
}

#[test]
#[ignore = "as many as STUBOUT_ROUNDS says"]
fn everything() {
    send("everything", 150, through::everything);
}
