//! Builds jobs in code, for tests. Used as a module: `#[path = "support/draft.rs"] mod draft;`.
#![allow(dead_code)]

use stubout::job::{
    Appliance, Cap, Device, Job, Joint, JointId, LatticePoint, Placed, Regulator, Run, RunId, State, Store, Supply,
    Vent,
};
use stubout::units::{GaugePressure, HeatRate, Length, NominalSize};

/// A job being drawn.
#[derive(Clone, Default)]
pub struct Draft {
    pub job: Job,
}

impl Draft {
    /// A job with its point of delivery at the lattice's zero, joint 1.
    pub fn fed_at(pressure: GaugePressure) -> Draft {
        let mut draft = Draft::default();
        let supply = draft.at(0, 0, 0);
        draft.put(
            supply,
            Device::Supply(Supply {
                pressure: Some(pressure),
                meter: None,
                regulator: None,
                ..Supply::default()
            }),
        );
        draft
    }

    /// The joint at a place, a new one where there is none.
    pub fn at(&mut self, east: i32, north: i32, up: i32) -> JointId {
        let at = LatticePoint::new(east, north, up);
        if let Some(joint) = self.job.joints.iter().find(|joint| joint.at == at) {
            return joint.id;
        }
        let id = self.job.joints.free_id();
        self.job.joints.insert(Joint {
            id,
            at,
            ..Joint::default()
        });
        id
    }

    /// New pipe of a typed length between two joints.
    pub fn run(&mut self, from: JointId, to: JointId, feet: f64) -> RunId {
        let id = self.job.runs.free_id();
        let length = Some(Length::from_feet(feet));
        self.job.runs.insert(Run {
            id,
            from,
            to,
            length,
            ..Run::default()
        });
        id
    }

    /// Existing pipe of a known size.
    pub fn existing(&mut self, from: JointId, to: JointId, feet: f64, size: NominalSize) -> RunId {
        let id = self.run(from, to, feet);
        let run = self.run_mut(id);
        (run.state, run.size) = (State::Existing, Some(size));
        id
    }

    pub fn run_mut(&mut self, id: RunId) -> &mut Run {
        self.job.runs.get_mut(id).expect("a run of this draft")
    }

    pub fn joint_mut(&mut self, id: JointId) -> &mut Joint {
        self.job.joints.get_mut(id).expect("a joint of this draft")
    }

    /// Puts a new device of the pipe's size on a joint.
    pub fn put(&mut self, joint: JointId, device: Device) -> &mut Placed {
        self.joint_mut(joint).placed.insert(Placed::new(device))
    }

    /// Puts an appliance on a joint.
    pub fn burner(&mut self, joint: JointId, name: &str, btuh: f64) -> &mut Appliance {
        let input = Some(HeatRate::from_btuh(btuh));
        let appliance = Appliance {
            name: name.to_owned(),
            input,
            ..Appliance::default()
        };
        match &mut self.put(joint, Device::Appliance(appliance)).device {
            Device::Appliance(appliance) => appliance,
            _ => unreachable!(),
        }
    }

    /// Caps a joint, for an appliance to come or for good.
    pub fn cap(&mut self, joint: JointId, future_btuh: Option<f64>) {
        let future_input = future_btuh.map(HeatRate::from_btuh);
        self.put(
            joint,
            Device::Cap(Cap {
                future_input,
                projection: None,
            }),
        );
    }

    /// Puts a line regulator on a joint.
    pub fn regulator(&mut self, joint: JointId, outlet: GaugePressure) -> &mut Regulator {
        let regulator = Regulator {
            outlet: Some(outlet),
            allowed_drop: None,
            rating: Default::default(),
            vent: Vent::Outdoors,
        };
        match &mut self.put(joint, Device::Regulator(regulator)).device {
            Device::Regulator(regulator) => regulator,
            _ => unreachable!(),
        }
    }

    /// The place of a joint in dense tables.
    pub fn joint_index(&self, id: JointId) -> usize {
        self.job.joints.position(id).expect("a joint of this draft")
    }

    /// The place of a run in dense tables.
    pub fn run_index(&self, id: RunId) -> usize {
        self.job.runs.position(id).expect("a run of this draft")
    }
}

/// A store of parts, for jobs written whole.
pub fn store<T: stubout::job::Named>(parts: Vec<T>) -> Store<T> {
    parts.into_iter().collect()
}
