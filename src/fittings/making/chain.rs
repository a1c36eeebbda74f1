//! What leads from a port to a run: nothing, where pipe goes straight in, else nipples, reducers, adapters and the end
//! fittings of tubing.

use super::draft::{At, Draft};
use super::place::Place;
use crate::fittings::{FittingKind, Owner, Port, PortKind};
use crate::job::{Joining, Material};
use crate::units::NominalSize;

impl Place<'_> {
    /// Joins a run to a port, with what stands between them.
    pub(super) fn connect(&self, draft: &mut Draft, at: At, run: usize) {
        let port = *draft.port(at);
        match (port.kind, self.kind(run)) {
            (PortKind::Socket, Joining::Brazed)
            | (PortKind::FlareEnd, Joining::Flared)
            | (PortKind::Fusion, Joining::Fused) => {
                let size = self.size(run);
                if port.size.is_none() || size.is_none() || port.size == size {
                    return draft.take(at, run);
                }
                // A reducer goes into the port like tube and takes the tube.
                let ports = vec![Port::open(port.kind.mate(), port.size), Port::open(port.kind, size)];
                let sizes = [size, port.size];
                let reducer = self.add(
                    draft,
                    FittingKind::ReducingCoupling,
                    sizes,
                    self.material(run),
                    ports,
                    run,
                );
                draft.join(at, (reducer, 0));
                draft.take((reducer, 1), run);
            }
            (PortKind::Socket | PortKind::FlareEnd, _) => {
                let thread = self.thread(run).or(self.pipe_thread(port.size));
                let ports = vec![
                    Port::open(port.kind.mate(), port.size),
                    Port::open(PortKind::FemaleThread, thread),
                ];
                let adapter = self.adapter(draft, port.size, thread, ports, run);
                draft.join(at, (adapter, 0));
                self.connect(draft, (adapter, 1), run);
            }
            (PortKind::Fusion, _) => {
                let outer = self.plastic(draft, at, port.size, run);
                let coupling = self.threaded(draft, FittingKind::Coupling, [port.size; 2], run);
                draft.join(outer, (coupling, 0));
                self.connect(draft, (coupling, 1), run);
            }
            (PortKind::FemaleThread, Joining::Nut) => {
                let size = self.size(run);
                let ports = vec![
                    Port::open(PortKind::MaleThread, port.size),
                    Port::open(PortKind::TubingNut, size),
                ];
                let fitting = self.tubing_fitting(draft, size, port.size, ports, run);
                draft.join(at, (fitting, 0));
                draft.take((fitting, 1), run);
            }
            (PortKind::FemaleThread, kind @ (Joining::Brazed | Joining::Flared)) => {
                // Adapters are made with another thread than that of the tube's size.
                let thread = port.size.or(self.thread(run));
                draft.port(at).size = thread;
                let size = self.size(run);
                let ports = vec![
                    Port::open(PortKind::MaleThread, thread),
                    Port::open(PortKind::of_pipe(kind).mate(), size),
                ];
                let adapter = self.adapter(draft, size, thread, ports, run);
                draft.join(at, (adapter, 0));
                draft.take((adapter, 1), run);
            }
            (PortKind::FemaleThread, Joining::Fused) => {
                let at = self.reduced(draft, at, run);
                let size = self.size(run);
                let kind = match self.is_above_grade(run) {
                    true => FittingKind::Riser,
                    false => FittingKind::Transition,
                };
                let ports = vec![
                    Port::open(PortKind::MaleThread, draft.port(at).size),
                    Port::open(PortKind::Fusion, size),
                ];
                let fitting = self.add(draft, kind, [size; 2], Joining::Fused.material(), ports, run);
                draft.join(at, (fitting, 0));
                draft.take((fitting, 1), run);
            }
            (PortKind::FemaleThread, Joining::Threaded) => {
                let at = self.reduced(draft, at, run);
                draft.take(at, run);
            }
            (
                PortKind::MaleThread
                | PortKind::TubingNut
                | PortKind::Tubing
                | PortKind::Tube
                | PortKind::FlareNut
                | PortKind::Plastic
                | PortKind::Connector,
                _,
            ) => draft.take(at, run),
        }
    }

    /// A transition fitting fused to a port; gives its thread.
    fn plastic(&self, draft: &mut Draft, at: At, size: Option<NominalSize>, run: usize) -> At {
        let ports = vec![
            Port::open(PortKind::Plastic, size),
            Port::open(PortKind::MaleThread, self.pipe_thread(size)),
        ];
        let fitting = self.transition(draft, size, ports, run);
        draft.join(at, (fitting, 0));
        (fitting, 1)
    }

    /// The female thread of the run's size that a female thread is led to.
    fn reduced(&self, draft: &mut Draft, at: At, run: usize) -> At {
        self.reduced_to(draft, at, self.thread(run), run)
    }

    /// The female thread of a size that a female thread is led to: itself, or by a nipple and a reducing coupling.
    pub(super) fn reduced_to(&self, draft: &mut Draft, at: At, wanted: Option<NominalSize>, run: usize) -> At {
        let port = draft.port(at);
        let (Some(own), Some(size)) = (port.size, wanted) else {
            port.size = port.size.or(wanted);
            return at;
        };
        if own == size {
            return at;
        }
        let upstream = self.survey.network.ends[run].is_none_or(|(_, to)| to == self.index);
        let sizes = if upstream { [size, own] } else { [own, size] };
        let ports = vec![
            Port::open(PortKind::FemaleThread, Some(own)),
            Port::open(PortKind::FemaleThread, Some(size)),
        ];
        let kind = FittingKind::ReducingCoupling;
        let reducer = self.add(draft, kind, sizes.map(Some), Joining::Threaded.material(), ports, run);
        self.nipple(draft, at, (reducer, 0), vec![run]);
        (reducer, 1)
    }

    /// Joins two female threads of one size by a nipple.
    pub(super) fn nipple(&self, draft: &mut Draft, one: At, other: At, leads: Vec<usize>) {
        let size = draft.port(one).size.or(draft.port(other).size);
        let ports = vec![Port::open(PortKind::MaleThread, size); 2];
        let first = leads.first().copied().unwrap_or_default();
        let fitting = self.fitting(FittingKind::Nipple, [size], Joining::Threaded.material(), ports, first);
        let nipple = draft.add(fitting, leads);
        draft.join(one, (nipple, 0));
        draft.join((nipple, 1), other);
    }

    /// A copper adapter of a tube and a thread.
    pub(super) fn adapter(
        &self,
        draft: &mut Draft,
        size: Option<NominalSize>,
        thread: Option<NominalSize>,
        ports: Vec<Port>,
        run: usize,
    ) -> Owner {
        let sizes = [Some(size), thread.map(Some)].into_iter().flatten();
        self.add(draft, FittingKind::Adapter, sizes, self.copper_here(), ports, run)
    }

    /// The end fitting of corrugated tubing: nut and thread.
    pub(super) fn tubing_fitting(
        &self,
        draft: &mut Draft,
        size: Option<NominalSize>,
        thread: Option<NominalSize>,
        ports: Vec<Port>,
        run: usize,
    ) -> Owner {
        let sizes = [Some(size), thread.map(Some)].into_iter().flatten();
        let kind = FittingKind::TubingFitting;
        self.add(draft, kind, sizes, Joining::Nut.material(), ports, run)
    }

    /// A transition fitting of plastic pipe and a thread of its size.
    pub(super) fn transition(
        &self,
        draft: &mut Draft,
        size: Option<NominalSize>,
        ports: Vec<Port>,
        run: usize,
    ) -> Owner {
        let kind = FittingKind::Transition;
        self.add(draft, kind, [size; 2], Joining::Fused.material(), ports, run)
    }

    /// A threaded fitting of two female ends of one size each.
    pub(super) fn threaded(
        &self,
        draft: &mut Draft,
        kind: FittingKind,
        sizes: [Option<NominalSize>; 2],
        run: usize,
    ) -> Owner {
        let ports = sizes
            .map(|size| Port::open(PortKind::FemaleThread, self.pipe_thread(size)))
            .to_vec();
        self.add(draft, kind, sizes, Joining::Threaded.material(), ports, run)
    }

    /// Puts down a fitting that leads to one run.
    pub(super) fn add(
        &self,
        draft: &mut Draft,
        kind: FittingKind,
        sizes: impl IntoIterator<Item = Option<NominalSize>>,
        material: Material,
        ports: Vec<Port>,
        run: usize,
    ) -> Owner {
        draft.add(self.fitting(kind, sizes, material, ports, run), vec![run])
    }

    /// The copper of a joint at which copper is.
    pub(super) fn copper_here(&self) -> Material {
        let mut materials = self.survey.network.legs(self.index).map(|run| self.material(run));
        let copper = materials.find(|material| material.is_copper());
        copper.unwrap_or(Joining::Brazed.material())
    }
}
