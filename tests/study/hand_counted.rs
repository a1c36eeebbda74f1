//! Whole jobs whose fittings and cut lists are worked by hand from the drawing.
//!
//! Lengths of fittings: ASME B16.3, class 150, from memory, as the assets have them: NPS 1/2 elbow 1.12 in, street elbow 1.63
//! in to its male end, coupling 1.34 in long, union 1.91 in long (makers'). Make-up of NPS 1/2: ASME B1.20.1, L1 + L3 =
//! 0.320 + 0.2143 = 0.5343 in. So an elbow takes out 1.12 − 0.5343 = 0.5857 in, a coupling 0.67 − 0.5343 = 0.1357 in, a
//! union 0.955 − 0.5343 = 0.4207 in. Close nipple of NPS 3/8, ASTM A733 from memory: 1 in.

use stubout::codebook::Codebook;
use stubout::file;
use stubout::fittings::{FittingKind, PortKind};
use stubout::job::{Job, JointId, State, Turn};
use stubout::rules::Checked;
use stubout::study::Study;
use stubout::units::{Length, UnitSystem};
use stubout::work::{CutList, Making};

const EVERYDAY: &str = include_str!("../jobs/everyday-tubing-tee.ron");
const BRANCH: &str = include_str!("../jobs/tubing-branch.ron");
const WALL: &str = include_str!("../jobs/street-elbow-through-wall.ron");
const COUPLING: &str = include_str!("../jobs/street-elbow-with-coupling.ron");
const FIXED: &str = include_str!("../jobs/rigid-between-fixed-ends.ron");
const RIM: &str = include_str!("../jobs/rim-joist-outlet.ron");

fn read(text: &str) -> Job {
    file::read(text).unwrap()
}

/// What is made, or taken out, of fittings: joint, name, sizes.
fn fittings(job: &Job, state: State) -> Vec<(u32, String, String)> {
    let study = Study::of(job, Codebook::published());
    let all = study.fittings.iter().filter(|fitting| fitting.state == state);
    let mut all: Vec<_> = all
        .map(|it| {
            (
                job.joints.at(it.joint).id.0,
                it.kind.name(),
                it.sizes_named(study.names),
            )
        })
        .collect();
    all.sort();
    all
}

#[track_caller]
fn check_fittings(job: &Job, state: State, expected: &[(u32, &str, &str)]) {
    let expected = expected
        .iter()
        .map(|(at, what, size)| (*at, (*what).to_owned(), (*size).to_owned()));
    assert_eq!(fittings(job, state), expected.collect::<Vec<_>>());
}

/// A piece by hand: its ends, its cut length in inches, whether it is sure, how it is made.
struct ByHand(&'static str, &'static str, f64, bool, Making);

fn nipple(inches: f64) -> Making {
    Making::Nipple(Length::from_inches(inches))
}

#[track_caller]
fn check_cuts(job: &Job, expected: &[ByHand]) {
    let book = Codebook::published();
    let list = CutList::of(job, &Study::of(job, book), book);
    assert_eq!(list.pieces.len(), expected.len());
    for (piece, ByHand(from, to, cut, sure, making)) in list.pieces.iter().zip(expected) {
        let ends = [piece.ends[0].what.as_str(), piece.ends[1].what.as_str()];
        assert_eq!(
            (ends, piece.making, piece.is_known()),
            ([*from, *to], *making, *sure),
            "{}",
            piece.mark
        );
        // The assets' figures have four places.
        assert!(
            (piece.cut().inches() - cut).abs() < 5e-4,
            "{}: {} in, not {cut}",
            piece.mark,
            piece.cut().inches()
        );
    }
    // The quick-disconnect coupling has ends of 3/8, and so has the nipple before it.
    let nipples: Vec<_> = list
        .nipples
        .iter()
        .map(|it| (it.made(UnitSystem::Us), it.between.join(", ")))
        .collect();
    let between = "quick-disconnect coupling, reducing coupling".to_owned();
    assert_eq!(nipples, [("close nipple 1 in".to_owned(), between)]);
}

fn joints_made(job: &Job, kind: PortKind) -> usize {
    let study = Study::of(job, Codebook::published());
    study
        .joints_to_make(job)
        .iter()
        .filter(|(_, made)| made.kind == kind)
        .count()
}

/// The outer end of all of them: 1/2 pipe to a coupling of 3/8.
const END: [(u32, &str, &str); 2] = [(15, "nipple", "3/8\""), (15, "reducing coupling", "1/2\" × 3/8\"")];

#[test]
fn a_tee_in_tubing_with_steel_through_a_wall() {
    let job = read(EVERYDAY);
    // At J8 the tubing of EHD 23 from the meter and that of EHD 18 to the dryer each get an end fitting into a threaded tee;
    // 1/2 pipe goes straight into the tee. Whatever joined the two sizes of tubing there goes.
    check_fittings(
        &job,
        State::New,
        &[
            (8, "tee", "to EHD 18 × 1/2\" × to EHD 23"),
            (8, "tubing fitting", "EHD 18"),
            (8, "tubing fitting", "EHD 23"),
            (12, "90° elbow", "1/2\""),
            (13, "90° street elbow", "1/2\""),
            END[0],
            END[1],
        ],
    );
    check_fittings(&job, State::Removed, &[(8, "reducing coupling", "EHD 23 × EHD 18")]);
    check_cuts(
        &job,
        &[
            // 36 − 0.5857; what the tee takes is not known, since the threads of its tubing ends are not.
            ByHand("tee", "90° elbow", 35.4143, false, Making::Cut),
            // 66 − 0.5857 − 0.5857 = 64.8286, 5'-4 13/16": into the female end of the street elbow.
            ByHand("90° elbow", "90° street elbow", 64.8286, true, Making::Cut),
            // The male end, 1.63 in from the centre, goes into the valve: no pipe.
            ByHand("90° street elbow", "shutoff valve", 4.0 - 1.63, true, Making::Direct),
            // Valve and coupling are their makers': 5 in, less what is measured.
            ByHand(
                "shutoff valve",
                "reducing coupling on quick-disconnect coupling",
                5.0,
                false,
                nipple(5.0),
            ),
        ],
    );
    // Threads: tee 3, elbow 2, street elbow 1, valve 2, reducing coupling 2, quick-disconnect coupling 1.
    assert_eq!(joints_made(&job, PortKind::FemaleThread), 11);
    assert_eq!(joints_made(&job, PortKind::TubingNut), 2);
}

#[test]
fn a_tee_in_tubing_with_a_branch_of_tubing() {
    let job = read(BRANCH);
    check_fittings(
        &job,
        State::New,
        &[
            (8, "tee", "to EHD 23 × to EHD 18 × to EHD 23"),
            (8, "tubing fitting", "EHD 18"),
            (8, "tubing fitting", "EHD 23"),
            (8, "tubing fitting", "EHD 23"),
            // The tubing bends into the line of the pipe, and its fitting takes the pipe's thread.
            (12, "bend", "EHD 23"),
            (12, "tubing fitting", "EHD 23 × 1/2\""),
            (13, "90° elbow", "1/2\""),
            END[0],
            END[1],
        ],
    );
    check_fittings(&job, State::Removed, &[(8, "reducing coupling", "EHD 23 × EHD 18")]);
    check_cuts(
        &job,
        &[
            ByHand("tubing fitting on tee", "tubing fitting", 36.0, false, Making::Coil),
            // 66 − 0.5857.
            ByHand("tubing fitting", "90° elbow", 65.4143, false, Making::Cut),
            // 4 − 0.5857 = 3.4143: a nipple of 3-1/2, the valve still to be measured.
            ByHand("90° elbow", "shutoff valve", 3.4143, false, nipple(3.5)),
            ByHand(
                "shutoff valve",
                "reducing coupling on quick-disconnect coupling",
                5.0,
                false,
                nipple(5.0),
            ),
        ],
    );
    // Threads: tee 3, tubing fitting at the pipe 1, elbow 2, valve 2, reducing coupling 2, quick-disconnect coupling 1.
    assert_eq!(joints_made(&job, PortKind::FemaleThread), 11);
    assert_eq!(joints_made(&job, PortKind::TubingNut), 4);
}

#[test]
fn pipe_through_a_wall_goes_into_the_female_end_whatever_elbow_stands_there() {
    // With an elbow of two female ends a nipple leads to the valve.
    let mut job = read(WALL);
    check_fittings(
        &job,
        State::New,
        &[
            (8, "tee", "to EHD 18 × 1/2\" × to EHD 23"),
            (8, "tubing fitting", "EHD 18"),
            (8, "tubing fitting", "EHD 23"),
            (12, "90° elbow", "1/2\""),
            (13, "90° elbow", "1/2\""),
            END[0],
            END[1],
        ],
    );
    let piece = |street: bool| {
        let (elbow, made, sure, cut) = match street {
            // 4 − 0.5857 = 3.4143.
            false => ("90° elbow", nipple(3.5), false, 3.4143),
            true => ("90° street elbow", Making::Direct, true, 4.0 - 1.63),
        };
        [
            ByHand("tee", "90° elbow", 35.4143, false, Making::Cut),
            // 66 − 2 × 0.5857: 5'-4 13/16" either way.
            ByHand("90° elbow", elbow, 64.8286, true, Making::Cut),
            ByHand(elbow, "shutoff valve", cut, sure, made),
            ByHand(
                "shutoff valve",
                "reducing coupling on quick-disconnect coupling",
                5.0,
                false,
                nipple(5.0),
            ),
        ]
    };
    check_cuts(&job, &piece(false));
    // With a street elbow its male end is the valve's.
    job.joints.get_mut(JointId(13)).unwrap().turn = Turn::StreetElbow;
    check_cuts(&job, &piece(true));
    // Said the other way round, pipe is drawn on the male end, and that is found.
    job.joints.get_mut(JointId(13)).unwrap().turn = Turn::StreetElbowUpstream;
    let told = |job: &Job| {
        Checked::of(job, Codebook::published())
            .findings
            .iter()
            .any(|finding| finding.rule == "street-elbow-piped")
    };
    assert!(told(&job));
    job.joints.get_mut(JointId(13)).unwrap().turn = Turn::StreetElbowDownstream;
    assert!(!told(&job));
}

#[test]
fn a_street_elbow_behind_a_coupling_is_screwed_into_it() {
    let job = read(COUPLING);
    let street = |job: &Job| {
        let book = Codebook::published();
        let list = CutList::of(job, &Study::of(job, book), book);
        let made = |run: u32| {
            let at = job.runs.position(stubout::job::RunId(run)).unwrap();
            list.pieces.iter().find(|piece| piece.runs == [at]).unwrap().clone()
        };
        [made(12), made(17), made(13)]
    };
    let [wall, straight, down] = street(&job);
    // Through the wall: 64 − 0.5857 − 0.1357 = 63.2786. The coupling's 0.1357 and the male end's 1.63 are 1.7657 in: 1-3/4.
    assert!((wall.cut().inches() - 63.2786).abs() < 5e-4);
    assert_eq!((straight.making, down.making), (Making::Direct, nipple(3.5)));
    assert_eq!(down.ends[0].what, "90° street elbow");
    let checked = Checked::of(&job, Codebook::published());
    assert!(
        checked
            .findings
            .iter()
            .all(|finding| finding.rule != "street-elbow-piped")
    );
}

#[test]
fn an_outlet_through_the_rim_joist() {
    let job = read(RIM);
    check_fittings(
        &job,
        State::New,
        &[
            (4, "tee", "to EHD 23 × to EHD 18 × 1/2\""),
            (4, "tubing fitting", "EHD 18"),
            (4, "tubing fitting", "EHD 23"),
            (10, "90° street elbow", "1/2\""),
            (12, "nipple", "3/8\""),
            (12, "reducing coupling", "1/2\" × 3/8\""),
        ],
    );
    check_fittings(&job, State::Removed, &[(4, "reducing coupling", "EHD 23 × EHD 18")]);
    check_cuts(
        &job,
        &[
            // 8 − 0.4207; the tee's threads toward the tubing are not known.
            ByHand("tee", "union", 7.5793, false, Making::Cut),
            // 74 − 0.4207, the valve to be measured.
            ByHand("union", "shutoff valve", 73.5793, false, Making::Cut),
            // 2-1/16 in from the valve: the male end goes into it.
            ByHand("shutoff valve", "90° street elbow", 2.0625 - 1.63, true, Making::Direct),
            // 3 − 0.5857 = 2.4143.
            ByHand(
                "90° street elbow",
                "reducing coupling on quick-disconnect coupling",
                2.4143,
                false,
                nipple(2.5),
            ),
        ],
    );
    // Threads: tee 3, union 2, valve 2, street elbow 1, reducing coupling 2, quick-disconnect coupling 1.
    assert_eq!(joints_made(&job, PortKind::FemaleThread), 11);
    assert_eq!(joints_made(&job, PortKind::TubingNut), 2);
}

#[test]
fn rigid_pipe_between_a_standing_tee_and_its_straps_wants_a_union() {
    let told = |text: &str| {
        let checked = Checked::of(&read(text), Codebook::published());
        let rule = "no-union-between-fixed-ends";
        checked.findings.iter().filter(|finding| finding.rule == rule).count()
    };
    assert_eq!([FIXED, EVERYDAY, BRANCH, RIM].map(told), [1, 0, 0, 0]);
    // The tee is steel in steel: nothing of tubing stands there.
    let new = fittings(&read(FIXED), State::New);
    assert!(
        new.iter()
            .all(|(_, what, _)| *what != FittingKind::TubingFitting.name()),
        "{new:?}"
    );
}
