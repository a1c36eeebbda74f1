//! What a person says of a device: a row for each of its fields.

use super::form::Form;
use super::names::{SEASONS, STATES, VALVES, VENTS};
use super::put;
use super::quantity::Quantity;
use super::shared::Shared;
use super::typing::Done;
use crate::desk::Desk;
use crate::job::{Detail, Device, JointId, Placed, Rating, Slot};
use crate::units::Show;

/// Takes a kind of value out of the places of a device; `None` where another is kept there.
type Of<T> = for<'a> fn(Slot<'a>) -> Option<&'a mut T>;

/// The fields of what stands on a joint, its state among them. What a tick opens comes below all that can be ticked, so that
/// nothing moves from under the hand.
pub fn show(form: &mut Form<'_>, id: JointId, placed: &Placed) {
    let mut read = placed.device.clone();
    let is_supplied = |slot: &Slot<'_>| matches!(slot, Slot::Supplied(_));
    let (start_up, usual): (Vec<_>, Vec<_>) =
        (read.slots().into_iter()).partition(|(field, _)| START_UP.contains(field));
    let (supplied, own): (Vec<_>, Vec<_>) = usual.into_iter().partition(|(_, slot)| is_supplied(slot));
    for (field, slot) in own {
        row(form, id, field, slot, &placed.device);
    }
    form.choice(Detail::State, &Shared::Same(placed.state), STATES, |desk, state| {
        put::placed(desk, id, |placed| placed.state = state)
    });
    let mut rated = Vec::new();
    for (field, slot) in supplied {
        if let Slot::Supplied(Some(rating)) = &slot {
            rated.push((field, rating.clone()));
        }
        row(form, id, field, slot, &placed.device);
    }
    for (field, rating) in rated {
        self::rated(form, id, field, rating);
    }
    if !start_up.is_empty() {
        form.rare("Readings at start-up", &START_UP, |form| {
            for (field, slot) in start_up {
                row(form, id, field, slot, &placed.device);
            }
        });
    }
}

/// What is measured when an appliance is first lit.
const START_UP: [Detail; 4] = [
    Detail::StaticPressure,
    Detail::WorkingPressure,
    Detail::LockUpPressure,
    Detail::ClockedInput,
];

fn row(form: &mut Form<'_>, id: JointId, field: Detail, slot: Slot<'_>, device: &Device) {
    match slot {
        Slot::Flow(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Flow(it) => Some(it),
            _ => None,
        }),
        Slot::Drop(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Drop(it) => Some(it),
            _ => None,
        }),
        Slot::Pressure(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Pressure(it) => Some(it),
            _ => None,
        }),
        Slot::Heat(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Heat(it) => Some(it),
            _ => None,
        }),
        Slot::Length(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Length(it) => Some(it),
            _ => None,
        }),
        Slot::Clocked(it) => quantity(form, id, field, *it, device, |slot| match slot {
            Slot::Clocked(it) => Some(it),
            _ => None,
        }),
        Slot::Words(it) => form.words(field, it, "name it", move |desk, words| {
            set(desk, id, field, words, |slot| match slot {
                Slot::Words(it) => Some(it),
                _ => None,
            })
        }),
        Slot::Class(it) => class(form, id, field, it.as_deref()),
        Slot::Valve(it) => form.choice(field, &Shared::Same(*it), VALVES, |desk, kind| {
            set(desk, id, field, kind, |slot| match slot {
                Slot::Valve(it) => Some(it),
                _ => None,
            })
        }),
        Slot::Vent(it) => form.choice(field, &Shared::Same(*it), VENTS, |desk, vent| {
            set(desk, id, field, vent, |slot| match slot {
                Slot::Vent(it) => Some(it),
                _ => None,
            })
        }),
        Slot::Season(it) => form.choice(field, &Shared::Same(*it), SEASONS, |desk, season| {
            set(desk, id, field, season, |slot| match slot {
                Slot::Season(it) => Some(it),
                _ => None,
            })
        }),
        Slot::Supplied(it) => supplied(form, id, field, it.as_ref()),
    }
}

/// Sets a field of a device.
fn set<T>(desk: &mut Desk, id: JointId, field: Detail, value: T, of: Of<T>) -> Done {
    change(desk, id, field, of, |it| *it = value)
}

fn change<T>(desk: &mut Desk, id: JointId, field: Detail, of: Of<T>, change: impl FnOnce(&mut T)) -> Done {
    put::device(desk, id, |device| {
        let slot = device.slots().into_iter().find(|(name, _)| *name == field);
        if let Some(it) = slot.and_then(|(_, slot)| of(slot)) {
            change(it);
        }
    })
}

fn quantity<T: Quantity + Copy>(
    form: &mut Form<'_>,
    id: JointId,
    field: Detail,
    value: Option<T>,
    device: &Device,
    of: Of<Option<T>>,
) {
    // Said whether or not an input is entered: what comes and goes would move the next field from under the hand.
    let usual = usual(form, field, device);
    form.quantity(field, Shared::Same(value), field.empty(), move |desk, value| {
        set(desk, id, field, value, of)
    });
    if let Some((usual, source)) = usual {
        form.whisper_of(usual, &source);
    }
}

/// What an appliance of this type usually burns, as a hint that is never taken as typed: how much, and by what source.
fn usual(form: &Form<'_>, field: Detail, device: &Device) -> Option<(String, String)> {
    let (Detail::Input, Device::Appliance(appliance)) = (field, device) else {
        return None;
    };
    let book = form.desk.book();
    let class = book.appliance_class(appliance.class.as_deref()?)?;
    let usual = format!("Usual: {} ({})", class.usual.show(form.units()), class.mark.letter());
    let source = format!("{}: {}. The rating plate governs.", class.mark.letter(), class.source);
    Some((usual, source))
}

/// Whether a part of the supplier's is there.
fn supplied(form: &mut Form<'_>, id: JointId, field: Detail, part: Option<&Rating>) {
    form.check(field, Shared::Same(part.is_some()), |desk, there| {
        set(desk, id, field, there.then(Rating::default), SUPPLIED)
    });
}

/// A part of the supplier's.
const SUPPLIED: Of<Option<Rating>> = |slot| match slot {
    Slot::Supplied(it) => Some(it),
    _ => None,
};

/// The rating of a part of the supplier's.
fn rated(form: &mut Form<'_>, id: JointId, field: Detail, part: Rating) {
    let of_it = match field {
        Detail::SupplyMeter => "Meter",
        Detail::MeterBefore => "Meter before",
        Detail::RegulatorBefore => "Regulator before",
        _ => "Regulator",
    };
    let named = |rated: Detail| format!("{of_it}: {}", rated.in_sentence());
    let (flow, drop) = (Detail::RatedFlow, Detail::RatedDrop);
    form.quantity(
        named(flow).as_str(),
        Shared::Same(part.capacity),
        flow.empty(),
        move |desk, value| {
            change(desk, id, field, SUPPLIED, |it| {
                if let Some(it) = it {
                    it.capacity = value;
                }
            })
        },
    );
    form.quantity(
        named(drop).as_str(),
        Shared::Same(part.drop),
        drop.empty(),
        move |desk, value| {
            change(desk, id, field, SUPPLIED, |it| {
                if let Some(it) = it {
                    it.drop = value;
                }
            })
        },
    );
}

/// The class of an appliance: one of the book, or what is written in the job.
fn class(form: &mut Form<'_>, id: JointId, field: Detail, class: Option<&str>) {
    let book = form.desk.book();
    let known = class.and_then(|class| book.appliance_class(class));
    let mut classes = vec![(None, field.empty())];
    let all = book.appliance_classes().iter();
    classes.extend(all.map(|class| (Some(class.name.to_owned()), class.name)));
    let own = class
        .filter(|_| known.is_none())
        .map(|class| format!("{class}, not in the list"));
    if let Some(own) = &own {
        classes.push((class.map(str::to_owned), own));
    }
    // A name of the list may be written in another way.
    let now = known.map(|class| class.name.to_owned()).or(class.map(str::to_owned));
    form.choice(field, &Shared::Same(now), &classes, |desk, class| {
        set(desk, id, field, class, |slot| match slot {
            Slot::Class(it) => Some(it),
            _ => None,
        })
    });
}
