//! Jobs drawn by hand.
use crate::draft::Draft;
use stubout::job::*;
use stubout::units::*;

const IN: fn(u16) -> Option<NominalSize> = |sixteenths| Some(NominalSize::Inch(sixteenths));

/// A patio kitchen on an existing house line.
pub fn patio() -> Job {
    let mut d = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let supply = d.at(0, 0, 0);
    if let Some(Placed {
        device: Device::Supply(s),
        ..
    }) = &mut d.joint_mut(supply).placed
    {
        s.meter = Some(Rating {
            capacity: Some(Flow::from_cfh(250.0)),
            drop: None,
        });
        s.regulator = Some(Rating::default());
    }
    let up = d.at(0, 0, 4);
    let tie = d.at(0, 6, 4);
    let t1 = d.at(0, 12, 4);
    let end = d.at(0, 19, 4);
    let r1 = d.existing(supply, up, 4.0, NominalSize::Inch(20));
    let r2 = d.existing(up, tie, 6.0, NominalSize::Inch(20));
    let r3 = d.existing(tie, t1, 8.0, NominalSize::Inch(16));
    let r4 = d.existing(t1, end, 7.0, NominalSize::Inch(12));
    let _ = (r1, r3, r4);
    d.run_mut(r2).penetrations.push(Penetration {
        barrier: Barrier::ExteriorWall,
        construction: Some("brick veneer".into()),
        sleeved: true,
        seal: Seal::Outside,
        ..Penetration::default()
    });
    d.run_mut(r1).surroundings = Surroundings::Outdoors;
    // drops to existing appliances
    for (top, e, n, name, btuh, size) in [
        (t1, 0, 12, "Furnace", 80_000.0, 8),
        (end, 0, 19, "Water heater", 40_000.0, 8),
    ] {
        let valve = d.at(e, n, 2);
        let below = d.at(e, n, 0);
        d.existing(top, valve, 2.0, NominalSize::Inch(size));
        d.existing(valve, below, 2.0, NominalSize::Inch(size));
        let placed = d.put(
            valve,
            Device::Valve(Valve {
                kind: ValveKind::Plug,
                ..Valve::default()
            }),
        );
        placed.state = State::Existing;
        d.burner(below, name, btuh);
        d.joint_mut(below).placed.as_mut().unwrap().state = State::Existing;
    }
    // new branch
    let valve = d.at(2, 6, 4);
    let union = d.at(4, 6, 4);
    let corner = d.at(13, 6, 4);
    let low = d.at(13, 6, 1);
    d.run(tie, valve, 2.0);
    d.run(valve, union, 1.5);
    let wall = d.run(union, corner, 9.0);
    d.put(valve, Device::Valve(Valve::default()));
    d.put(union, Device::Union);
    d.run_mut(wall).penetrations.push(Penetration {
        barrier: Barrier::ExteriorWall,
        at: Some(Length::from_feet(5.0)),
        construction: Some("2x6 frame".into()),
        thickness: Some(Length::from_inches(6.5)),
        sleeved: true,
        seal: Seal::BothFaces,
        words_at: None,
    });
    let fall = d.run(corner, low, 3.0);
    d.run_mut(fall).surroundings = Surroundings::Outdoors;
    let c = d.at(21, 6, 1);
    let dd = d.at(29, 6, 1);
    let e = d.at(29, 14, 1);
    for (a, b, feet) in [(low, c, 18.0), (c, dd, 6.0), (dd, e, 8.0)] {
        let run = d.run(a, b, feet);
        d.run_mut(run).surroundings = Surroundings::Outdoors;
    }
    for (base, east, north, name, btuh) in [
        (c, 21, 6, "Built-in grill", 75_000.0),
        (dd, 29, 6, "Side burner", 20_000.0),
        (e, 29, 14, "Fire table", 65_000.0),
    ] {
        let v = d.at(east, north, 3);
        let top = d.at(east, north, 5);
        for (a, b) in [(base, v), (v, top)] {
            let run = d.run(a, b, 1.0);
            d.run_mut(run).surroundings = Surroundings::Outdoors;
        }
        d.put(v, Device::Valve(Valve::default()));
        d.burner(top, name, btuh);
    }
    let note = d.at(13, 6, 4);
    d.job.notes.push(Note {
        at: note,
        text: "paint outdoors beyond this point, rust-resisting".into(),
        words_at: None,
    });
    d.job.title.job = "Patio kitchen (demonstration)".into();
    let _ = IN;
    d.job
}

/// Everything that has a symbol, and every kind of line.
pub fn zoo() -> Job {
    let mut d = Draft::fed_at(GaugePressure::from_psi(2.0));
    let mut here = d.at(0, 0, 0);
    let mut east = 0;
    let mut go = |d: &mut Draft, steps: i32, device: Option<Device>| {
        east += steps;
        let next = d.at(east, 0, 0);
        let run = d.run(here, next, f64::from(steps));
        if let Some(device) = device {
            d.put(next, device);
        }
        here = next;
        (run, next)
    };
    let rating = || Rating {
        capacity: Some(Flow::from_cfh(400.0)),
        drop: None,
    };
    go(
        &mut d,
        3,
        Some(Device::Valve(Valve {
            kind: ValveKind::Ball,
            ..Valve::default()
        })),
    );
    go(&mut d, 2, Some(Device::Union));
    go(&mut d, 3, Some(Device::Meter(Meter { rating: rating() })));
    go(
        &mut d,
        3,
        Some(Device::Regulator(Regulator {
            outlet: Some(GaugePressure::from_inches_wc(7.0)),
            allowed_drop: None,
            rating: rating(),
            vent: Vent::Outdoors,
        })),
    );
    go(
        &mut d,
        3,
        Some(Device::Valve(Valve {
            kind: ValveKind::Gate,
            ..Valve::default()
        })),
    );
    go(&mut d, 3, Some(Device::TestGauge));
    let (_, corner) = go(&mut d, 4, None);
    // north leg: concealed, copper
    let n1 = d.at(21, 6, 0);
    let n2 = d.at(21, 14, 0);
    let r = d.run(corner, n1, 6.0);
    d.run_mut(r).surroundings = Surroundings::Concealed;
    d.run_mut(r).material = Some(Material::CopperL);
    let r = d.run(n1, n2, 20.0);
    d.run_mut(r).material = Some(Material::CopperL);
    let drop = d.at(21, 14, -3);
    let floor = d.run(n2, drop, 3.0);
    d.run_mut(floor).penetrations.push(Penetration {
        barrier: Barrier::Floor,
        sleeved: true,
        ..Penetration::default()
    });
    d.put(drop, Device::SedimentTrap(SedimentTrap { depth: None }));
    let conn = d.at(24, 14, -3);
    d.run(drop, conn, 1.0);
    d.put(
        conn,
        Device::Connector(Connector {
            length: Some(Length::from_feet(3.0)),
            rating: rating(),
        }),
    );
    let app = d.at(27, 14, -3);
    d.run(conn, app, 1.0);
    d.burner(app, "Range", 65_000.0);
    // CSST branch from n1
    let s1 = d.at(29, 6, 0);
    let s2 = d.at(29, 6, 4);
    for (a, b) in [(n1, s1), (s1, s2)] {
        let r = d.run(a, b, 8.0);
        d.run_mut(r).material = Some(Material::Csst);
        d.run_mut(r).size = Some(NominalSize::Ehd(18));
    }
    let q = d.at(29, 9, 4);
    let r = d.run(s2, q, 3.0);
    d.run_mut(r).surroundings = Surroundings::Outdoors;
    d.put(q, Device::QuickCoupling(QuickCoupling { rating: rating() }));
    let q2 = d.at(29, 12, 4);
    d.run(q, q2, 3.0);
    d.burner(q2, "Patio heater", 40_000.0);
    // underground PE from corner going down
    let g = d.at(21, 0, -4);
    let r = d.run(corner, g, 4.0);
    d.run_mut(r).penetrations.push(Penetration {
        barrier: Barrier::Ground,
        ..Penetration::default()
    });
    let g2 = d.at(34, 0, -4);
    let r = d.run(g, g2, 60.0);
    d.run_mut(r).surroundings = Surroundings::Underground;
    d.run_mut(r).material = Some(Material::Pe);
    d.run_mut(r).cover = Some(Length::from_inches(18.0));
    let g3 = d.at(34, 0, 0);
    d.run(g2, g3, 4.0);
    d.cap(g3, Some(60_000.0));
    // skew
    let k1 = d.at(38, 4, -4);
    let r = d.run(g2, k1, 6.0);
    d.run_mut(r).surroundings = Surroundings::Underground;
    let k2 = d.at(38, 8, -1);
    d.run(k1, k2, 5.0);
    let k3 = d.at(42, 12, 2);
    d.run(k2, k3, 7.0);
    d.cap(k3, None);
    // existing and removed, crossing under
    let e0 = d.at(9, -6, 0);
    let e1 = d.at(9, 8, -2);
    let _ = e1;
    let e2 = d.at(9, 8, 0);
    let up = d.at(9, -6, 3);
    let far = d.at(9, 8, 3);
    d.existing(up, far, 14.0, NominalSize::Inch(12));
    d.existing(e0, up, 3.0, NominalSize::Inch(12));
    let r = d.existing(far, e2, 3.0, NominalSize::Inch(8));
    d.run_mut(r).state = State::Removed;
    let x = d.at(15, 8, 3);
    let r = d.existing(far, x, 6.0, NominalSize::Inch(8));
    d.run_mut(r).state = State::Removed;
    d.burner(x, "Old heater", 30_000.0);
    d.joint_mut(x).placed.as_mut().unwrap().state = State::Removed;
    d.job.settings.north = NorthAxis::East;
    d.job
}
