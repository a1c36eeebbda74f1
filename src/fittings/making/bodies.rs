//! What meets where the runs of a joint meet: the fitting that the geometry implies, or the device that takes its place.

use super::draft::{At, Draft};
use super::place::{Family, Place};
use crate::fittings::{FittingKind, Owner, Port, PortKind};
use crate::job::{Device, EndsWay, Joining};
use crate::network::{Meeting, Way};
use crate::units::NominalSize;

impl Place<'_> {
    /// Puts together what stands there.
    ///
    /// Devices in a line (valve, union, meter, regulator, connector, coupling) take the place of a fitting unless the pipe
    /// turns at them: no device turns, so an elbow stands behind it. Their ends, and those of appliances, are taken as
    /// female threads.
    pub(super) fn built(&self, meeting: &Meeting) -> Draft {
        let mut draft = Draft::default();
        if self.legs().any(|run| self.is_connector(run)) {
            self.connector(&mut draft);
            return draft;
        }
        match meeting {
            Meeting::End => self.end(&mut draft),
            Meeting::Line(runs) => self.line(&mut draft, runs.map(|run| run as usize)),
            Meeting::Turn(runs, degrees) => self.turn(&mut draft, runs.map(|run| run as usize), *degrees),
            Meeting::Tee(ways) => self.ways(&mut draft, FittingKind::Tee, ways),
            Meeting::Corner(ways) => self.ways(&mut draft, FittingKind::SideOutletElbow, ways),
            Meeting::Cross(ways) => self.ways(&mut draft, FittingKind::Cross, ways),
            Meeting::SideTee(ways) => self.ways(&mut draft, FittingKind::SideOutletTee, ways),
            Meeting::Many(ways) => self.ways(&mut draft, FittingKind::ManyWays(ways.len() as u16), ways),
        }
        draft
    }

    /// The connector is one piece from its first end to the appliance: only pipe has fittings there.
    fn connector(&self, draft: &mut Draft) {
        let legs: Vec<usize> = self.legs().collect();
        if self.device.is_none() {
            draft.through = true;
            return;
        }
        draft.centre = Some(Owner::Device);
        for run in legs {
            let kind = match self.is_connector(run) {
                true => PortKind::Connector,
                false => PortKind::FemaleThread,
            };
            let size = if self.is_connector(run) {
                None
            } else {
                self.device_size()
            };
            let at = self.device_port(draft, kind, size);
            self.connect(draft, at, run);
        }
    }

    /// A port that takes pipe of a family and size.
    fn female(&self, family: Family, size: Option<NominalSize>) -> Port {
        let size = match family {
            Family::Threaded => self.pipe_thread(size),
            Family::Brazed | Family::Flared | Family::Fused => size,
        };
        Port::open(family.female(), size)
    }

    fn device_port(&self, draft: &mut Draft, kind: PortKind, size: Option<NominalSize>) -> At {
        draft.device.push(Port::open(kind, size));
        (Owner::Device, draft.device.len() - 1)
    }

    fn end(&self, draft: &mut Draft) {
        let Some(device) = self.device else { return };
        let Some(run) = self.legs().next() else {
            // Nothing leads to it.
            if !matches!(device, Device::Cap(_) | Device::SedimentTrap(_)) {
                self.device_port(draft, PortKind::FemaleThread, self.device_size());
            }
            return;
        };
        if let Device::Cap(_) = device {
            let family = self.family(&[run]);
            let size = self.own.or(self.size(run));
            let ports = vec![self.female(family, size)];
            let cap = self.add(
                draft,
                FittingKind::Cap,
                [size],
                self.material_of(family, &[run]),
                ports,
                run,
            );
            draft.centre = Some(cap);
            self.connect(draft, (cap, 0), run);
            return;
        }
        draft.centre = Some(Owner::Device);
        let at = self.device_port(draft, PortKind::FemaleThread, self.device_size());
        if device.stands_in_line() {
            self.device_port(draft, PortKind::FemaleThread, self.device_size());
        }
        self.connect(draft, at, run);
    }

    fn line(&self, draft: &mut Draft, runs: [usize; 2]) {
        if self.device.is_some_and(Device::stands_in_line) {
            draft.centre = Some(Owner::Device);
            let ports = runs.map(|_| self.device_port(draft, PortKind::FemaleThread, self.device_size()));
            for (at, run) in ports.into_iter().zip(runs) {
                self.connect(draft, at, run);
            }
        } else {
            self.bare_line(draft, runs);
        }
    }

    /// Two runs in line and nothing between them, or both ends of what bends.
    fn bare_line(&self, draft: &mut Draft, [a, b]: [usize; 2]) {
        let sizes = [self.size(a), self.size(b)];
        let kinds = [self.kind(a), self.kind(b)];
        let differ = matches!(sizes, [Some(from), Some(to)] if from != to);
        let state = |run: usize| self.survey.states[run];
        let from_coil = matches!(kinds[0], Joining::Nut | Joining::Fused);
        match kinds {
            [one, other] if one == other => {
                // Tubing and plastic pipe go through, unless new is joined to old.
                if from_coil && !differ && state(a) == state(b) && self.material(a) == self.material(b) {
                    draft.through = true;
                    return;
                }
                let kind = match differ {
                    true => FittingKind::ReducingCoupling,
                    false => FittingKind::Coupling,
                };
                let port = |size| match one {
                    Joining::Nut => Port::open(PortKind::TubingNut, size),
                    Joining::Threaded | Joining::Brazed | Joining::Flared | Joining::Fused => {
                        self.female(self.family(&[a, b]), size)
                    }
                };
                let ports = sizes.map(port).to_vec();
                let fitting = self.fitting(kind, sizes, self.material(a), ports, a);
                let fitting = draft.add(fitting, vec![a, b]);
                draft.centre = Some(fitting);
                draft.take((fitting, 0), a);
                draft.take((fitting, 1), b);
            }
            // The end fitting of the one has a thread that takes the other.
            [Joining::Nut, other] if other != Joining::Fused => self.by_a_female_thread(draft, a, b),
            [other, Joining::Nut] if other != Joining::Fused => self.by_a_female_thread(draft, b, a),
            [Joining::Brazed | Joining::Flared, Joining::Threaded] => self.by_a_female_thread(draft, a, b),
            [Joining::Threaded, Joining::Brazed | Joining::Flared] => self.by_a_female_thread(draft, b, a),
            _ => {
                let threads = [self.thread(a).or(self.thread(b)), self.thread(b).or(self.thread(a))];
                let kind = match threads[0] == threads[1] {
                    true => FittingKind::Coupling,
                    false => FittingKind::ReducingCoupling,
                };
                let ports = threads.map(|size| Port::open(PortKind::FemaleThread, size)).to_vec();
                let fitting = self.fitting(kind, threads, Joining::Threaded.material(), ports, a);
                let fitting = draft.add(fitting, vec![a, b]);
                draft.centre = Some(fitting);
                self.connect(draft, (fitting, 0), a);
                self.connect(draft, (fitting, 1), b);
            }
        }
    }

    /// An end fitting on the first run, tubing or copper, with a female thread for the second.
    fn by_a_female_thread(&self, draft: &mut Draft, own: usize, other: usize) {
        let (size, thread) = (self.size(own), self.thread(other));
        let kind = self.kind(own);
        let ports = vec![
            Port::open(PortKind::FemaleThread, thread),
            Port::open(PortKind::of_pipe(kind).mate(), size),
        ];
        let fitting = match kind {
            Joining::Nut => self.tubing_fitting(draft, size, thread, ports, own),
            Joining::Threaded | Joining::Brazed | Joining::Flared | Joining::Fused => {
                self.adapter(draft, size, thread, ports, own)
            }
        };
        draft.centre = Some(fitting);
        draft.take((fitting, 1), own);
        self.connect(draft, (fitting, 0), other);
    }

    fn turn(&self, draft: &mut Draft, [a, b]: [usize; 2], degrees: f64) {
        let bends = [a, b].into_iter().find(|&run| self.material(run).bends());
        if let Some(bent) = bends.or(self.bend_of_riser([a, b], degrees)) {
            let size = self.size(bent);
            let bend = self.fitting(FittingKind::Bend, [size], self.material(bent), Vec::new(), bent);
            draft.add(bend, vec![a, b]);
            self.line(draft, [a, b]);
            return;
        }
        let kind = FittingKind::of_turn(degrees, self.joint.turn);
        let device = self.device.filter(|device| device.stands_in_line());
        let family = match device {
            Some(_) => Family::Threaded,
            None => self.family(&[a, b]),
        };
        let sizes = match (device, self.own) {
            // Behind a device with ends of its own size, what reduces is screwed to the device.
            (Some(_), Some(_)) => [self.size(b), self.size(b)],
            _ => [
                self.body_size(family, a, self.thread(b)),
                self.body_size(family, b, self.thread(a)),
            ],
        };
        let mut ports = sizes.map(|size| self.female(family, size)).to_vec();
        // A street elbow goes straight into the device.
        let straight = device.is_some() && kind == FittingKind::StreetElbow90;
        if straight {
            ports[0].kind = ports[0].kind.mate();
        }
        let elbow = self.fitting(kind, sizes, self.material_of(family, &[a, b]), ports, a);
        let elbow = draft.add(elbow, vec![a, b]);
        draft.centre = Some(elbow);
        self.connect(draft, (elbow, 1), b);
        if device.is_none() {
            self.connect(draft, (elbow, 0), a);
            return;
        }
        let inlet = self.device_port(draft, PortKind::FemaleThread, self.device_size());
        let outlet = self.device_port(draft, PortKind::FemaleThread, self.device_size());
        self.connect(draft, inlet, a);
        let outlet = self.reduced_to(draft, outlet, self.pipe_thread(sizes[0]), b);
        match straight {
            true => {
                let size = draft.port(outlet).size;
                draft.port((elbow, 0)).size = size;
                draft.join(outlet, (elbow, 0));
            }
            false => self.nipple(draft, outlet, (elbow, 0), vec![b]),
        }
    }

    /// The end of a fitting toward a run: threads are not made in the sizes in which only tube is, as 5/8 of copper, so that
    /// the adapter of such tube goes into a thread as large as the others.
    fn body_size(&self, family: Family, run: usize, others: Option<NominalSize>) -> Option<NominalSize> {
        let size = self.size(run);
        match (family, self.kind(run)) {
            (Family::Threaded, Joining::Brazed | Joining::Flared) => self.pipe_thread(size).or(others).or(size),
            _ => size,
        }
    }

    /// A fitting of three ways or more, with what stands on the joint.
    fn ways(&self, draft: &mut Draft, kind: FittingKind, ways: &[Way]) {
        let runs: Vec<usize> = ways.iter().filter_map(|way| way.to_run()).collect();
        let Some(&first) = runs
            .iter()
            .find(|&&run| Some(run) == self.survey.network.feed[self.index])
            .or(runs.first())
        else {
            return;
        };
        // The device's own way is as large as the device, or else as the pipe that comes to it.
        let family = self.family(&runs);
        // An end that takes the fitting of tubing is as large as that one's thread, where it is known.
        let sized = |size| match family {
            Family::Threaded => self.own_thread(size).or(size),
            Family::Brazed | Family::Flared | Family::Fused => size,
        };
        let largest = runs.iter().filter_map(|&run| self.thread(run)).max();
        let at_run = |run: usize| sized(self.body_size(family, run, largest));
        let beside = self.own.or(at_run(first));
        let size = |way: &Way| way.to_run().map_or(beside, at_run);
        let port = |way: &Way| self.female(family, size(way));
        let mut sizes: Vec<_> = ways.iter().map(size).collect();
        let (run, outlets) = sizes.split_at_mut(2.min(ways.len()));
        run.sort_by(|a, b| b.cmp(a));
        outlets.sort_by(|a, b| b.cmp(a));
        let ports = ways.iter().map(port).collect();
        let body = self.fitting(kind, sizes, self.material_of(family, &runs), ports, first);
        let body = draft.add(body, runs.clone());
        draft.centre = Some(body);
        let mut stood = false;
        for (at, way) in ways.iter().enumerate() {
            match way.to_run() {
                Some(run) if self.has(run) => self.connect(draft, (body, at), run),
                // The branch that led there is taken out.
                Some(run) => self.plug(draft, (body, at), family, size(way), run),
                None if !std::mem::replace(&mut stood, true) => self.stand(draft, (body, at), family, beside, first),
                None => {}
            }
        }
    }

    /// Puts the device of a joint on the way that a branching has for it.
    fn stand(&self, draft: &mut Draft, at: At, family: Family, size: Option<NominalSize>, run: usize) {
        let Some(device) = self.device else { return };
        match device.nature().ends_way {
            EndsWay::CappedNipple => {
                // Whatever the pipe is, the cap is screwed on, so that it comes off to empty the trap.
                let at = self.as_thread(draft, at, family, run, PortKind::FemaleThread);
                let thread = draft.port(at).size;
                let ports = vec![Port::open(PortKind::MaleThread, thread)];
                let material = Joining::Threaded.material();
                let nipple = self.add(draft, FittingKind::TrapNipple, [thread], material, ports, run);
                draft.join(at, (nipple, 0));
            }
            EndsWay::Plug => self.plug(draft, at, family, size, run),
            // A gauge comes with the bushings that it needs.
            EndsWay::MaleThread => {
                let own = self.device_port(draft, PortKind::MaleThread, self.pipe_thread(size));
                let at = self.as_thread(draft, at, family, run, PortKind::FemaleThread);
                draft.join(at, own);
            }
            EndsWay::FemaleThread => {
                let own = self.device_port(draft, PortKind::FemaleThread, self.pipe_thread(size));
                match family {
                    Family::Threaded => self.nipple(draft, at, own, vec![run]),
                    Family::Brazed | Family::Flared | Family::Fused => {
                        let at = self.as_thread(draft, at, family, run, PortKind::MaleThread);
                        draft.join(at, own);
                    }
                }
            }
        }
    }

    /// The thread of this kind that a port of a branching is led to.
    fn as_thread(&self, draft: &mut Draft, at: At, family: Family, run: usize, kind: PortKind) -> At {
        let size = draft.port(at).size;
        let thread = self.pipe_thread(size);
        let ports = vec![Port::open(family.male(), size), Port::open(kind, thread)];
        let fitting = match family {
            Family::Threaded => return at,
            Family::Brazed | Family::Flared => self.adapter(draft, size, thread, ports, run),
            Family::Fused => self.transition(draft, size, ports, run),
        };
        draft.join(at, (fitting, 0));
        (fitting, 1)
    }

    fn plug(&self, draft: &mut Draft, at: At, family: Family, size: Option<NominalSize>, run: usize) {
        let ports = vec![Port::open(family.male(), draft.port(at).size)];
        let material = self.material_of(family, &[run]);
        let plug = self.add(draft, FittingKind::Plug, [size], material, ports, run);
        draft.join(at, (plug, 0));
    }
}
