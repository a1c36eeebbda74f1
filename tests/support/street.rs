//! A job of any size and of one plain shape, for benches: a main with a riser and an appliance at every third step.
#![allow(dead_code)]

use stubout::job::{Appliance, Device, Job, Joint, JointId, LatticePoint, Placed, Run, RunId, Supply, Valve};
use stubout::units::{GaugePressure, HeatRate};

/// A job of about so many runs: each branch has three (riser, valve piece, appliance piece) and one piece of main.
pub fn street(runs: usize) -> Job {
    let mut job = Job::default();
    let mut next = 1;
    let mut joint = |job: &mut Job, at: LatticePoint, device: Option<Device>| {
        let id = JointId(next);
        next += 1;
        job.joints.insert(Joint {
            id,
            at,
            placed: device.map(Placed::new),
            ..Joint::default()
        });
        id
    };
    let supply = Supply {
        pressure: Some(GaugePressure::from_inches_wc(7.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    };
    let mut main = joint(&mut job, LatticePoint::default(), Some(Device::Supply(supply)));
    let mut run = 1;
    let mut lay = |job: &mut Job, from: JointId, to: JointId| {
        job.runs.insert(Run {
            id: RunId(run),
            from,
            to,
            ..Run::default()
        });
        run += 1;
    };
    // Rows of 50 branches, joined by a main along their heads, so that the drawing stays near a square.
    let mut head = main;
    for branch in 0..runs.div_ceil(4) {
        let (row, along) = ((branch / 50) as i32, (branch % 50) as i32);
        if along == 0 {
            let place = joint(&mut job, LatticePoint::new(row * 12 + 1, 0, 0), None);
            lay(&mut job, head, place);
            (head, main) = (place, place);
        }
        let [tee, valve, appliance] = [0, 4, 7].map(|up| LatticePoint::new(row * 12 + 1, along * 3 + 3, up));
        let tee = joint(&mut job, tee, None);
        let valve = joint(&mut job, valve, Some(Device::Valve(Valve::default())));
        let burner = Appliance {
            name: format!("Burner {branch}"),
            input: Some(HeatRate::from_btuh(20_000.0)),
            ..Appliance::default()
        };
        let burner = joint(&mut job, appliance, Some(Device::Appliance(burner)));
        lay(&mut job, main, tee);
        lay(&mut job, tee, valve);
        lay(&mut job, valve, burner);
        main = tee;
    }
    job
}

/// So many runs from one joint to an appliance each, every way around it: more than a reader lets in.
pub fn star(arms: usize) -> Job {
    let mut job = Job::default();
    let supply = Supply {
        pressure: Some(GaugePressure::from_inches_wc(7.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    };
    let mut joint = |id: usize, at: LatticePoint, device: Device| {
        job.joints.insert(Joint {
            id: JointId(id as u32),
            at,
            placed: Some(Placed::new(device)),
            ..Joint::default()
        });
    };
    joint(1, LatticePoint::default(), Device::Supply(supply));
    for arm in 2..arms + 2 {
        let burner = Appliance {
            name: format!("Burner {arm}"),
            input: Some(HeatRate::from_btuh(20_000.0)),
            ..Appliance::default()
        };
        let (east, north) = ((arm * 37 % 121) as i32 - 60, (arm * 53 % 119) as i32 - 60);
        joint(
            arm,
            LatticePoint::new(east, north, (arm % 5) as i32),
            Device::Appliance(burner),
        );
    }
    for arm in 2..arms + 2 {
        job.runs.insert(Run {
            id: RunId(arm as u32),
            from: JointId(1),
            to: JointId(arm as u32),
            ..Run::default()
        });
    }
    job
}
