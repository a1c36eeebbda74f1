//! Keys that came after version 1 was first written: `later.ron` has each, and opens for ever as the same job.

use std::sync::Arc;
use stubout::file::{read, write};
use stubout::job::{
    Appliance, Device, Drawing, Extra, Job, Joint, JointId, LatticePoint, Note, OwnStep, Placed, Run, RunId, StartUp,
    Variant, Variants,
};
use stubout::units::{Clocked, GaugePressure, Length};

/// The file.
pub const TEXT: &str = include_str!("later.ron");

fn joint(id: u32, east: i32, north: i32, up: i32) -> Joint {
    Joint {
        id: JointId(id),
        at: LatticePoint::new(east, north, up),
        ..Joint::default()
    }
}

fn run(id: u32, from: u32, to: u32) -> Run {
    Run {
        id: RunId(id),
        from: JointId(from),
        to: JointId(to),
        ..Run::default()
    }
}

/// The drawing that is shown.
fn shown() -> Drawing {
    let mut drawing = Drawing {
        joints: [joint(1, 0, 0, 0), joint(2, 4, 0, 0), joint(3, 4, 0, 2)]
            .into_iter()
            .collect(),
        runs: [run(1, 1, 2), run(2, 2, 3)].into_iter().collect(),
        ..Drawing::default()
    };
    drawing.runs.get_mut(RunId(1)).unwrap().length = Some(Length::from_feet(9.0));
    let inches = |inches| Some(GaugePressure::from_inches_wc(inches));
    let grill = Appliance {
        name: "Grill".into(),
        start_up: StartUp {
            static_pressure: inches(7.1),
            working: inches(6.3),
            lock_up: inches(7.4),
            clocked: Some(Clocked::from_ft3_and_seconds(2.0, 96.0)),
        },
        ..Appliance::default()
    };
    drawing.joints.get_mut(JointId(2)).unwrap().placed = Some(Placed::new(Device::Appliance(grill)));
    drawing.by_hand.extra.push(tags(2.0));
    drawing
}

fn tags(quantity: f64) -> Extra {
    Extra {
        what: "Tags".into(),
        quantity,
        ..Extra::default()
    }
}

fn expected() -> Job {
    let mut fence = shown();
    fence.joints.extend([joint(3, 4, 5, 0), joint(7, 9, 5, 0)]);
    fence.runs.insert(run(4, 3, 7));
    let mut underground = shown();
    underground.joints.remove(JointId(3));
    underground.runs.remove(RunId(2));
    underground.notes.push(Note {
        at: JointId(1),
        text: "Trench".into(),
        ..Note::default()
    });
    underground.by_hand.extra = vec![tags(4.0)];
    underground.by_hand.order.push(OwnStep {
        step: "shut".into(),
        left_out: true,
        ..OwnStep::default()
    });
    let variant = |name: &str, drawing: Drawing| Variant {
        name: name.into(),
        drawing: Arc::new(drawing),
    };
    let variants = Variants {
        name: "Through the wall".into(),
        before: vec![variant("Along the fence", fence)],
        after: vec![variant("Underground", underground)],
    };
    Job {
        variants,
        ..Job::default().with_drawing(shown())
    }
}

#[test]
fn the_file_opens_as_the_job_that_it_always_was() {
    let job = read(TEXT).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job, expected());
    assert_eq!(read(&write(&job)), Ok(job));
}

/// Of each variant only what it has otherwise is written, whichever is shown.
#[test]
fn what_variants_share_is_written_once() {
    let job = expected();
    for at in 0..3 {
        let other = job.showing(at).unwrap();
        let text = write(&other);
        assert_eq!(
            text.matches("id: 1,").count(),
            2,
            "joint 1 and run 1, once each: {text}"
        );
        assert_eq!(read(&text).unwrap().showing(1), Some(job.clone()));
    }
}
