//! What a person says of a device: every field of every kind.

use super::form::Form;
use super::names::{SEASONS, VALVES, VENTS};
use super::put;
use super::shared::Shared;
use crate::job::{Appliance, Cap, Connector, Device, JointId, Placed, Rating, Regulator, SedimentTrap, Supply, Valve};
use crate::units::Show;

/// Where a rating is kept in a device.
type Slot = fn(&mut Device) -> Option<&mut Rating>;

/// The fields of what stands on a joint.
pub fn show(form: &mut Form<'_>, id: JointId, placed: &Placed) {
    match &placed.device {
        Device::Supply(it) => supply(form, id, it),
        Device::Meter(it) => rating(form, id, "", &it.rating, |device| match device {
            Device::Meter(it) => Some(&mut it.rating),
            _ => None,
        }),
        Device::Regulator(it) => regulator(form, id, it),
        Device::Valve(it) => valve(form, id, it),
        Device::SedimentTrap(it) => trap(form, id, it),
        Device::Connector(it) => connector(form, id, it),
        Device::QuickCoupling(it) => rating(form, id, "", &it.rating, |device| match device {
            Device::QuickCoupling(it) => Some(&mut it.rating),
            _ => None,
        }),
        Device::Appliance(it) => appliance(form, id, it),
        Device::Cap(it) => cap(form, id, it),
        Device::Union | Device::TestGauge => {}
    }
}

/// Rated flow and the drop at it; `of` names the device where one joint holds several ratings.
fn rating(form: &mut Form<'_>, id: JointId, of: &str, rating: &Rating, slot: Slot) {
    let name = |words: &str| match of {
        "" => words.to_owned(),
        of => format!("{of}: {}", words.to_lowercase()),
    };
    let set = move |desk: &mut _, change: &dyn Fn(&mut Rating)| {
        put::device(desk, id, |device| {
            if let Some(rating) = slot(device) {
                change(rating);
            }
        })
    };
    let capacity = Shared::Same(rating.capacity);
    form.quantity(&name("Rated flow"), capacity, "not known", move |desk, flow| {
        set(desk, &|rating| rating.capacity = flow)
    });
    let drop = Shared::Same(rating.drop);
    form.quantity(&name("Drop at rated flow"), drop, "not known", move |desk, drop| {
        set(desk, &|rating| rating.drop = drop)
    });
}

fn supply(form: &mut Form<'_>, id: JointId, it: &Supply) {
    form.quantity(
        "Delivery pressure",
        Shared::Same(it.pressure),
        "ask the supplier",
        move |desk, pressure| {
            put::device(desk, id, |device| {
                if let Device::Supply(it) = device {
                    it.pressure = pressure;
                }
            })
        },
    );
    form.check("Supplier's meter", Shared::Same(it.meter.is_some()), |desk, there| {
        put::device(desk, id, |device| {
            if let Device::Supply(it) = device {
                it.meter = there.then(Rating::default);
            }
        })
    });
    if let Some(meter) = &it.meter {
        rating(form, id, "Meter", meter, |device| match device {
            Device::Supply(it) => it.meter.as_mut(),
            _ => None,
        });
    }
    form.check(
        "Service regulator",
        Shared::Same(it.regulator.is_some()),
        |desk, there| {
            put::device(desk, id, |device| {
                if let Device::Supply(it) = device {
                    it.regulator = there.then(Rating::default);
                }
            })
        },
    );
    if let Some(regulator) = &it.regulator {
        rating(form, id, "Regulator", regulator, |device| match device {
            Device::Supply(it) => it.regulator.as_mut(),
            _ => None,
        });
    }
}

fn regulator(form: &mut Form<'_>, id: JointId, it: &Regulator) {
    form.quantity(
        "Outlet pressure",
        Shared::Same(it.outlet),
        "not known",
        move |desk, outlet| {
            put::device(desk, id, |device| {
                if let Device::Regulator(it) = device {
                    it.outlet = outlet;
                }
            })
        },
    );
    let drop = Shared::Same(it.allowed_drop);
    form.quantity("Allowed drop behind it", drop, "as the profile", move |desk, drop| {
        put::device(desk, id, |device| {
            if let Device::Regulator(it) = device {
                it.allowed_drop = drop;
            }
        })
    });
    rating(form, id, "", &it.rating, |device| match device {
        Device::Regulator(it) => Some(&mut it.rating),
        _ => None,
    });
    form.choice("Vent", &Shared::Same(it.vent), VENTS, |desk, vent| {
        put::device(desk, id, |device| {
            if let Device::Regulator(it) = device {
                it.vent = vent;
            }
        })
    });
}

fn valve(form: &mut Form<'_>, id: JointId, it: &Valve) {
    form.choice("Kind", &Shared::Same(it.kind), VALVES, |desk, kind| {
        put::device(desk, id, |device| {
            if let Device::Valve(it) = device {
                it.kind = kind;
            }
        })
    });
    rating(form, id, "", &it.rating, |device| match device {
        Device::Valve(it) => Some(&mut it.rating),
        _ => None,
    });
}

fn trap(form: &mut Form<'_>, id: JointId, it: &SedimentTrap) {
    form.quantity(
        "Nipple below the tee",
        Shared::Same(it.depth),
        "not said",
        move |desk, depth| {
            put::device(desk, id, |device| {
                if let Device::SedimentTrap(it) = device {
                    it.depth = depth;
                }
            })
        },
    );
}

fn connector(form: &mut Form<'_>, id: JointId, it: &Connector) {
    form.quantity(
        "Its length",
        Shared::Same(it.length),
        "not said",
        move |desk, length| {
            put::device(desk, id, |device| {
                if let Device::Connector(it) = device {
                    it.length = length;
                }
            })
        },
    );
    rating(form, id, "", &it.rating, |device| match device {
        Device::Connector(it) => Some(&mut it.rating),
        _ => None,
    });
}

fn appliance(form: &mut Form<'_>, id: JointId, it: &Appliance) {
    let set = move |desk: &mut _, change: &dyn Fn(&mut Appliance)| {
        put::device(desk, id, |device| {
            if let Device::Appliance(it) = device {
                change(it);
            }
        })
    };
    form.words("What it is", &it.name, "name it", move |desk, name| {
        set(desk, &|it| it.name.clone_from(&name))
    });
    let (book, units) = (form.desk.book(), form.units());
    let mut classes = vec![(None, "not said")];
    classes.extend(
        book.appliance_classes()
            .iter()
            .map(|class| (Some(class.name.to_owned()), class.name)),
    );
    let own = it.class.as_deref().map(|class| format!("{class}, not in the list"));
    let listed = it
        .class
        .as_deref()
        .is_none_or(|class| book.appliance_class(class).is_some());
    if let Some(own) = own.as_deref().filter(|_| !listed) {
        classes.push((it.class.clone(), own));
    }
    // A name of the list may be written in another way.
    let class = match it.class.as_deref().and_then(|class| book.appliance_class(class)) {
        Some(class) => Some(class.name.to_owned()),
        None => it.class.clone(),
    };
    form.choice("Class", &Shared::Same(class), &classes, |desk, class| {
        set(desk, &|it| it.class.clone_from(&class))
    });
    let usual = it.class.as_deref().and_then(|class| book.appliance_class(class));
    let hint = match usual {
        Some(class) => format!("not known; usual {}", class.usual.show(units)),
        None => "not known".to_owned(),
    };
    form.quantity("Input", Shared::Same(it.input), &hint, move |desk, input| {
        set(desk, &|it| it.input = input)
    });
    let least = Shared::Same(it.least_inlet);
    form.quantity("Least inlet pressure", least, "not known", move |desk, least| {
        set(desk, &|it| it.least_inlet = least)
    });
    let greatest = Shared::Same(it.greatest_inlet);
    form.quantity(
        "Greatest inlet pressure",
        greatest,
        "not known",
        move |desk, greatest| set(desk, &|it| it.greatest_inlet = greatest),
    );
    form.choice("Burns", &Shared::Same(it.season), SEASONS, |desk, season| {
        set(desk, &|it| it.season = season)
    });
}

fn cap(form: &mut Form<'_>, id: JointId, it: &Cap) {
    let set = move |desk: &mut _, change: &dyn Fn(&mut Cap)| {
        put::device(desk, id, |device| {
            if let Device::Cap(it) = device {
                change(it);
            }
        })
    };
    let future = Shared::Same(it.future_input);
    form.quantity("Left for an input of", future, "nothing", move |desk, input| {
        set(desk, &|it| it.future_input = input)
    });
    form.quantity(
        "Stands clear by",
        Shared::Same(it.projection),
        "not said",
        move |desk, clear| set(desk, &|it| it.projection = clear),
    );
}
