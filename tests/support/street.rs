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
