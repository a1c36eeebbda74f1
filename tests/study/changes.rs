//! What changed between two jobs, by chance.

use crate::dice::Dice;
use crate::random_job::random_job;
use std::collections::HashMap;
use stubout::changes::{ChangedPart, Changes, Turn};
use stubout::codebook::Codebook;
use stubout::job::*;
use stubout::units::*;

/// An edit by chance that is one thing to a person, with the turn that is to be told.
type Edit = fn(&mut Job, &mut Dice) -> Option<(Turn, ChangedPart)>;

fn any_run(job: &Job, dice: &mut Dice) -> RunId {
    job.runs.at(dice.below(job.runs.len())).id
}

fn any_joint(job: &Job, dice: &mut Dice) -> JointId {
    job.joints.at(dice.below(job.joints.len())).id
}

/// A place of the lattice where nothing stands.
fn free(job: &Job, near: LatticePoint) -> LatticePoint {
    let taken = |at: LatticePoint| job.joints.iter().any(|joint| joint.at == at);
    (1..1000)
        .map(|up| near + Direction::new(0, 0, 100 + up))
        .find(|at| !taken(*at))
        .expect("there is room above")
}

const EDITS: &[Edit] = &[
    |job, dice| {
        let id = any_run(job, dice);
        let length = Length::from_feet(123.0 + dice.fraction());
        job.runs.get_mut(id)?.length = Some(length);
        Some((Turn::Changed, ChangedPart::Run(id)))
    },
    |job, dice| {
        let id = any_run(job, dice);
        let run = job.runs.get_mut(id)?;
        run.size = match run.size {
            Some(NominalSize::Inch(24)) => None,
            _ => Some(NominalSize::Inch(24)),
        };
        Some((Turn::Changed, ChangedPart::Run(id)))
    },
    |job, dice| {
        let id = any_run(job, dice);
        let run = job.runs.get_mut(id)?;
        run.state = if run.state == State::Removed {
            State::New
        } else {
            State::Removed
        };
        run.coated = !run.coated;
        run.tracer = !run.tracer;
        Some((Turn::Changed, ChangedPart::Run(id)))
    },
    |job, dice| {
        // A stretch of pipe of its own, with its two joints.
        let near = job.joints.get(any_joint(job, dice))?.at;
        let from = job.joints.free_id();
        let at = free(job, near);
        job.joints.insert(Joint {
            id: from,
            at,
            ..Joint::default()
        });
        let to = job.joints.free_id();
        job.joints.insert(Joint {
            id: to,
            at: at + Direction::new(1, 0, 0),
            ..Joint::default()
        });
        let id = job.runs.free_id();
        job.runs.insert(Run {
            id,
            from,
            to,
            ..Run::default()
        });
        Some((Turn::Added, ChangedPart::Run(id)))
    },
    |job, dice| {
        let id = any_run(job, dice);
        job.runs.remove(id);
        Some((Turn::TakenAway, ChangedPart::Run(id)))
    },
    |job, dice| {
        let id = any_joint(job, dice);
        job.joints.get_mut(id)?.label = Some("a name by nobody".to_owned());
        Some((Turn::Changed, ChangedPart::Joint(id)))
    },
    |job, dice| {
        let id = any_joint(job, dice);
        let joint = job.joints.get_mut(id)?;
        let turn = if joint.placed.is_some() {
            Turn::Changed
        } else {
            Turn::Added
        };
        joint.placed = match &joint.placed {
            Some(placed) if placed.device == Device::TestGauge => Some(Placed::new(Device::Union)),
            _ => Some(Placed::new(Device::TestGauge)),
        };
        Some((turn, ChangedPart::Device(id)))
    },
    |job, _| {
        let id = job.joints.iter().find(|joint| joint.placed.is_some())?.id;
        job.joints.get_mut(id)?.placed = None;
        Some((Turn::TakenAway, ChangedPart::Device(id)))
    },
    |job, dice| {
        let at = any_joint(job, dice);
        job.notes.push(Note {
            at,
            text: "a note by chance".to_owned(),
            ..Note::default()
        });
        Some((Turn::Added, ChangedPart::Note(job.notes.len() - 1)))
    },
    |job, dice| {
        let id = any_run(job, dice);
        let run = job.runs.get_mut(id)?;
        run.penetrations.push(Penetration {
            barrier: Barrier::Roof,
            thickness: Some(Length::from_inches(7.0)),
            ..Penetration::default()
        });
        Some((Turn::Added, ChangedPart::Passage(id, run.penetrations.len() - 1)))
    },
    |job, _| {
        job.title.site.push_str(" and farther on");
        Some((Turn::Changed, ChangedPart::Title))
    },
    |job, _| {
        job.settings.step = job.settings.step.times(1.5);
        Some((Turn::Changed, ChangedPart::Settings))
    },
    |job, _| {
        job.gas.specific_gravity = Some(0.777);
        Some((Turn::Changed, ChangedPart::Settings))
    },
    |job, dice| {
        let way = Direction::new(dice.between(1, 5), dice.between(-5, 5), 0);
        let ids: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
        for id in ids {
            let joint = job.joints.get_mut(id)?;
            joint.at = joint.at + way;
        }
        Some((Turn::Changed, ChangedPart::Settings))
    },
];

#[test]
fn a_job_is_not_different_from_itself() {
    let book = Codebook::published();
    for seed in 0..60 {
        let job = random_job(seed, 3 + seed as usize % 60);
        assert_eq!(Changes::between(&job, &job).list, [], "seed {seed}");
        let study = stubout::study::Study::of(&job, book);
        assert_eq!(Changes::since(&job, &job, &study, book).list, [], "seed {seed}");
    }
}

#[test]
fn each_kind_of_edit_is_told_once_and_taken_back_it_is_told_the_other_way_round() {
    for seed in 0..40 {
        for (number, edit) in EDITS.iter().enumerate() {
            let mut dice = Dice::new(seed * 100 + number as u64);
            let issued = random_job(seed, 8 + seed as usize);
            let mut job = issued.clone();
            let Some(expected) = edit(&mut job, &mut dice) else {
                continue;
            };
            let found = Changes::between(&issued, &job).list;
            let parts: Vec<_> = found.iter().map(|change| (change.turn, change.part)).collect();
            assert_eq!(parts, [expected], "seed {seed}, edit {number}: {found:#?}");
            assert!(found[0].words.iter().all(|words| !words.is_empty()));
            let back = Changes::between(&job, &issued).list;
            let turned: Vec<Turn> = back.iter().map(|change| change.turn).collect();
            assert_eq!(turned, [swapped(expected.0)], "seed {seed}, edit {number}: {back:#?}");
        }
    }
}

fn swapped(turn: Turn) -> Turn {
    match turn {
        Turn::Added => Turn::TakenAway,
        Turn::TakenAway => Turn::Added,
        Turn::Changed => Turn::Changed,
        Turn::Follows => Turn::Follows,
    }
}

#[test]
fn many_edits_swapped_swap_what_is_added_and_taken_away() {
    for seed in 0..60 {
        let mut dice = Dice::new(seed);
        let issued = random_job(seed, 20 + seed as usize);
        let mut job = issued.clone();
        for _ in 0..6 {
            let edit = dice.pick(EDITS);
            edit(&mut job, &mut dice);
        }
        let count = |was: &Job, now: &Job| {
            let list = Changes::between(was, now).list;
            let mut count: HashMap<Turn, usize> = HashMap::new();
            for change in &list {
                *count.entry(change.turn).or_default() += 1;
            }
            count
        };
        let there = count(&issued, &job);
        let back = count(&job, &issued);
        assert!(!there.is_empty());
        for (turn, many) in there {
            assert_eq!(back.get(&swapped(turn)), Some(&many), "seed {seed}, {turn:?}");
        }
    }
}

/// The same job under other ids, its runs and joints numbered by chance.
fn typed_again(job: &Job, dice: &mut Dice) -> Job {
    let mut numbers: Vec<u32> = (1..=job.joints.len() as u32).collect();
    for at in (1..numbers.len()).rev() {
        numbers.swap(at, dice.below(at + 1));
    }
    let other: HashMap<JointId, JointId> = (job.joints.iter().zip(&numbers))
        .map(|(joint, number)| (joint.id, JointId(*number)))
        .collect();
    let mut again = job.clone();
    again.joints = (job.joints.iter())
        .map(|joint| Joint {
            id: other[&joint.id],
            ..joint.clone()
        })
        .collect();
    let count = job.runs.len() as u32;
    again.runs = (job.runs.iter().enumerate())
        .map(|(at, run)| Run {
            id: RunId(count - at as u32),
            from: other[&run.from],
            to: other[&run.to],
            ..run.clone()
        })
        .collect();
    for note in &mut again.notes {
        note.at = other[&note.at];
    }
    again
}

#[test]
fn a_job_typed_again_under_other_ids_is_the_same_job() {
    for seed in 0..60 {
        let mut dice = Dice::new(seed);
        let issued = random_job(seed, 5 + seed as usize);
        let mut job = typed_again(&issued, &mut dice);
        assert_eq!(Changes::between(&issued, &job).list, [], "seed {seed}");
        // One edit of it is still one change.
        let id = any_run(&job, &mut dice);
        job.runs.get_mut(id).expect("it is there").length = Some(Length::from_feet(321.5));
        let found = Changes::between(&issued, &job).list;
        assert_eq!(found.len(), 1, "seed {seed}: {found:#?}");
        assert_eq!(found[0].part, ChangedPart::Run(id));
    }
}

#[test]
fn what_is_turned_end_for_end_is_not_changed() {
    let issued = random_job(11, 30);
    let mut job = issued.clone();
    let ids: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for id in ids {
        let whole = job.true_length(job.runs.get(id).expect("it is there"));
        let run = job.runs.get_mut(id).expect("it is there");
        std::mem::swap(&mut run.from, &mut run.to);
        for passage in &mut run.penetrations {
            passage.at = passage.at.map(|at| whole - at);
        }
    }
    assert_eq!(Changes::between(&issued, &job).list, []);
}

#[test]
fn words_moved_on_paper_and_a_new_line_of_revisions_are_no_change() {
    let issued = random_job(5, 12);
    let mut job = issued.clone();
    let id = job.runs.at(0).id;
    job.runs.get_mut(id).expect("it is there").words_at = Some(WordsAt::from_mm(20.0, -8.0));
    job.title.revisions.push(Revision {
        mark: "B".to_owned(),
        ..Revision::default()
    });
    let changes = Changes::between(&issued, &job);
    assert_eq!((changes.list.len(), changes.mark.as_deref()), (0, Some("B")));
}

#[test]
fn the_words_are_plain() {
    let mut draft = crate::draft::Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (start, end, far) = (draft.at(0, 0, 0), draft.at(5, 0, 0), draft.at(5, 5, 0));
    let (first, second) = (draft.run(start, end, 10.0), draft.run(end, far, 8.0));
    draft.put(end, Device::Union);
    let issued = draft.job;
    let mut job = issued.clone();
    let run = job.runs.get_mut(first).expect("it is there");
    (run.length, run.size) = (Some(Length::from_feet(12.5)), Some(NominalSize::Inch(16)));
    job.runs.remove(second);
    job.joints.get_mut(end).expect("it is there").placed = Some(Placed::new(Device::Valve(Valve::default())));
    let said = |issued: &Job, job: &Job| {
        let list = Changes::between(issued, job).list;
        list.iter()
            .map(|change| format!("{}: {}", change.name, change.said()))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        said(&issued, &job),
        [
            "J1–J2: length 12'-6\", was 10'-0\"; size 1\", was to be sized",
            "J2–J3: removed: new pipe, steel, 8'-0\"",
            "shutoff valve J2: new shutoff valve, was new union",
        ]
    );
    assert_eq!(said(&job, &issued)[1], "J2–J3: added: new pipe, steel, 8'-0\"");
}

#[test]
fn what_follows_is_told_where_nothing_was_drawn() {
    let book = Codebook::published();
    let mut follows = 0;
    for seed in 0..40 {
        let issued = random_job(seed, 25);
        let mut job = issued.clone();
        let appliance = |joint: &&Joint| {
            let placed = joint.placed.as_ref();
            placed.is_some_and(|placed| matches!(placed.device, Device::Appliance(_)) && placed.state != State::Removed)
        };
        let Some(id) = job.joints.iter().find(appliance).map(|joint| joint.id) else {
            continue;
        };
        let Some(placed) = job.joints.get_mut(id).and_then(|joint| joint.placed.as_mut()) else {
            continue;
        };
        if let Device::Appliance(it) = &mut placed.device {
            it.input = Some(HeatRate::from_btuh(900_000.0));
        }
        let study = stubout::study::Study::of(&job, book);
        let found = Changes::since(&issued, &job, &study, book).list;
        let drawn = found.iter().filter(|change| change.turn != Turn::Follows).count();
        assert_eq!(drawn, 1, "seed {seed}: {found:#?}");
        follows += found.len() - drawn;
        let was = stubout::study::Study::of(&issued, book);
        for change in found.iter().filter(|change| change.turn == Turn::Follows) {
            let ChangedPart::Run(id) = change.part else {
                panic!("{change:?}")
            };
            let at = job.runs.position(id).expect("it is there");
            let sizing = |study: &stubout::study::Study| {
                let section = &study.sections[study.runs[at].section.expect("gas comes here")];
                (section.sizing.size, section.sizing.verdict)
            };
            assert_ne!(sizing(&study), sizing(&was), "{change:?}");
        }
    }
    assert!(follows > 10, "{follows}");
}
