//! Marking names the slip: wrong answers are made by reading the printed tables wrongly, by nothing of the product.

use crate::job;
use crate::printed::{Printed, Walked, tables};
use std::collections::BTreeMap;
use stubout::codebook::Codebook;
use stubout::job::{Job, Method};
use stubout::lesson::{Judgment, Marker, Paper, Slip, class_set};
use stubout::sizing::{Basis, Section};
use stubout::study::Study;

const NATURAL: f64 = 1000.0;
/// So many wrong answers of each kind.
const WANTED: usize = 200;
const KINDS: [&str; 6] = [
    "next smaller capacity",
    "row of a shorter length",
    "own length of the section",
    "length to its own farthest outlet",
    "load left out",
    "wrong table",
];

/// The profile as published, but that fittings add nothing: a student adds up what is written along pipe.
fn book() -> Codebook {
    let mut book = Codebook::published().clone();
    let text = include_str!("../../assets/profiles/us-ifgc.ron");
    let text = text
        .replace("name: \"us-ifgc\"", "name: \"measured\"")
        .replace("fittings: SectionHas(4)", "fittings: Factor(1.0)");
    book.add_profile("measured.ron", &text, |_| unreachable!("it names no table"))
        .unwrap();
    book
}

/// Every wrong answer of a section, with the kind of its slip.
fn wrong(job: &Job, section: &Section, walked: &Walked, tables: &[Printed]) -> Vec<(&'static str, String)> {
    let Basis::Table { table, .. } = &section.sizing.basis else {
        return Vec::new();
    };
    let table = tables.iter().find(|printed| printed.id == **table).unwrap();
    let run = *section.runs.last().unwrap();
    let (length, load) = (walked.longest(), walked.load(run));
    let row = table.row(length).unwrap();
    let read = |length: f64| table.row(length).and_then(|row| table.size(row, load, NATURAL));
    let right = read(length).unwrap();
    let own: f64 = section
        .runs
        .iter()
        .map(|run| job.true_length(job.runs.at(*run)).feet())
        .sum();
    let mut found = vec![
        (KINDS[0], table.smaller(row, right)),
        (
            KINDS[1],
            row.checked_sub(1).and_then(|row| table.size(row, load, NATURAL)),
        ),
        (KINDS[2], read(own)),
        (KINDS[3], read(walked.farthest(run))),
    ];
    let outlets = &walked.outlets[&walked.downstream[run].unwrap()];
    for outlet in outlets.iter().filter(|_| outlets.len() > 1) {
        found.push((KINDS[4], table.size(row, load - outlet.1, NATURAL)));
    }
    for other in tables
        .iter()
        .filter(|other| other.pipe == table.pipe && other.id != table.id)
    {
        let size = other.row(length).and_then(|row| other.size(row, load, NATURAL));
        found.push((KINDS[5], size));
    }
    let found = found
        .into_iter()
        .filter_map(|(kind, size)| Some((kind, size?.to_owned())));
    found.filter(|(_, size)| size != right).collect()
}

#[test]
fn the_slip_behind_two_hundred_wrong_answers_of_each_kind_is_named() {
    let (book, tables) = (book(), tables());
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    'all: for seed in 1.. {
        for name in ["examples/classroom.ron", "tests/jobs/townhouse-three-storeys.ron"] {
            let mut usual = job(name);
            usual.settings.profile = "measured".to_owned();
            usual.settings.method = Some(Method::LongestLength);
            for one in class_set(&usual, &book, 10, seed).unwrap() {
                let study = Study::of(&one, &book);
                let marker = Marker::of(&one, &book, &study);
                let walked = Walked::of(&one);
                for section in study.sections.iter().filter(|section| section.is_pipe()) {
                    for (kind, answer) in wrong(&one, section, &walked, &tables) {
                        named(&marker, section.number, kind, &answer);
                        *counts.entry(kind).or_default() += 1;
                    }
                }
            }
        }
        if KINDS
            .iter()
            .all(|kind| counts.get(kind).is_some_and(|count| *count >= WANTED))
        {
            break 'all;
        }
        assert!(seed < 40, "too few wrong answers: {counts:?}");
    }
}

fn named(marker: &Marker<'_>, section: usize, kind: &str, answer: &str) {
    let paper = Paper {
        answers: BTreeMap::from([(section, answer.to_owned())]),
        ..Paper::default()
    };
    let marked = marker.mark(&paper);
    let judged = marked.judged.iter().find(|judged| judged.section == section).unwrap();
    let Judgment::Wrong { slips, .. } = &judged.verdict else {
        panic!("section {section}, {answer} for {}: {:?}", judged.right, judged.verdict);
    };
    let keys: Vec<&str> = slips.iter().map(Slip::key).collect();
    assert!(
        keys.contains(&kind),
        "section {section}, {answer} for {}: {kind} is not among {keys:?}",
        judged.right
    );
}

/// Where two slips give one size both are named.
#[test]
fn slips_that_give_one_size_are_all_named() {
    let (usual, book) = (job("examples/classroom.ron"), Codebook::published());
    let study = Study::of(&usual, book);
    let marker = Marker::of(&usual, book, &study);
    // Section 2 carries 185 of 237 cfh by 1 in. 3/4 in carries 126: the next smaller, and enough without the boiler's 120.
    let paper = Paper {
        student: "A".to_owned(),
        answers: BTreeMap::from([
            (2, "3/4".to_owned()),
            (1, "1-1/4\"".to_owned()),
            (3, "DN20".to_owned()),
            (4, "7".to_owned()),
        ]),
        ..Paper::default()
    };
    let marked = marker.mark(&paper);
    let of = |number: usize| {
        &marked
            .judged
            .iter()
            .find(|judged| judged.section == number)
            .unwrap()
            .verdict
    };
    let Judgment::Wrong { carries, words, slips } = of(2) else {
        panic!("{:?}", of(2));
    };
    assert!(
        !carries && words.contains("126 cfh") && words.contains("185 cfh"),
        "{words}"
    );
    assert!(slips.contains(&Slip::NextSmaller), "{slips:?}");
    assert!(
        slips.contains(&Slip::LoadForgotten("Boiler (A)".to_owned())),
        "{slips:?}"
    );
    assert!(
        slips.contains(&Slip::LoadForgotten("Range (B)".to_owned())),
        "{slips:?}"
    );
    assert_eq!(
        (of(1), of(3), of(4), of(5)),
        (
            &Judgment::Right,
            &Judgment::Right,
            &Judgment::NoSize,
            &Judgment::Missing
        )
    );
    assert_eq!(marked.right(), 2);
}
