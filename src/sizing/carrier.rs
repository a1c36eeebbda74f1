//! What tells how much each size carries: a row of a published table, an equation, or nothing.

use super::Basis;
use crate::codebook::{CapacityTable, Cell, Equation, Equations, GravityFactor, Law, Mark, PipeKind, Row, TableChoice};
use crate::gas::{
    CodeFactors, FlowingGas, LaminarBranch, Pipe, Roughness, Temperature, Viscosity, air_pressure, capacity,
    high_pressure, low_pressure,
};
use crate::job::Material;
use crate::network::Survey;
use crate::pressure::roughness;
use crate::units::{AbsolutePressure, Flow, GaugePressure, InsideDiameter, Length, NominalSize, PressureDrop};
use std::sync::Arc;

/// What must be said of every figure that the code's table by EHD gives for corrugated tubing.
pub(crate) const MAKER_GOVERNS: &str =
    "sized by the code's EHD table: the tubing manufacturer's own table governs and may allow less";

/// The sizes of one material in one zone, and where their capacities stand.
pub(crate) enum Carriers<'a> {
    /// In a published table.
    Table {
        choice: TableChoice<'a>,
        factor: GravityFactor,
        /// What goes on past the last row, where profile and table let an equation do so.
        beyond: Option<ByEquation>,
    },
    /// In an equation.
    Equation(ByEquation),
    /// Nowhere.
    Nothing(String),
}

/// An equation with everything but the length.
pub(crate) struct ByEquation {
    law: By,
    sizes: Vec<(NominalSize, InsideDiameter, Mark)>,
}

enum By {
    LowPressure {
        drop: PressureDrop,
        gas: CodeFactors,
    },
    HighPressure {
        inlet: GaugePressure,
        drop: PressureDrop,
        gas: CodeFactors,
    },
    Darcy {
        inlet: GaugePressure,
        drop: PressureDrop,
        gas: FlowingGas,
        air: AbsolutePressure,
        roughness: Roughness,
    },
}

/// Capacities at one length.
pub(crate) enum Carrier<'c, 'a> {
    Row {
        table: &'a CapacityTable,
        row: Row,
        factor: f64,
        mark: Mark,
        remark: Option<&'c str>,
        survey: &'c Survey<'a>,
    },
    Equation {
        equation: &'c ByEquation,
        length: Length,
    },
    /// Past the last row of a table, which nothing goes on.
    Past {
        table: &'a CapacityTable,
        length: Length,
        survey: &'c Survey<'a>,
    },
    Nothing(&'c str),
}

/// A capacity, and how sure it is.
pub(crate) struct Carried {
    pub(crate) flow: Flow,
    pub(crate) mark: Mark,
}

const PAST_ROWS: &str =
    "The length is past the last row of the code's tables in this program: it has no figure for it.";

/// Above this an equation of the codes takes its high-pressure form, psig.
const HIGH_PRESSURE_FROM: f64 = 1.5;

impl<'a> Carriers<'a> {
    /// What tells the capacities of a material in a zone.
    pub(crate) fn of(survey: &Survey<'a>, zone: usize, material: Material) -> Carriers<'a> {
        let (zone, kind) = (&survey.zones[zone], PipeKind::of(material));
        let (Some(inlet), Some(allowed)) = (zone.inlet, zone.allowed_drop) else {
            return Carriers::Nothing(format!("No allowable pressure drop: {}.", zone.drop_from.words()));
        };
        let computed = |law| ByEquation::new(survey, material, law);
        let always = survey.profile.equations == Equations::Always && !material.is_corrugated();
        let own = || survey.tables.own_for(survey.gas.fuel, kind, inlet, allowed);
        if always && own().is_none() {
            return Carriers::Equation(computed(By::profile(survey, material, inlet, allowed)));
        }
        let may = survey.profile.equations != Equations::Never && !material.is_corrugated();
        let gravity = survey.gas.specific_gravity;
        match survey.tables.table_for(survey.gas.fuel, kind, inlet, allowed) {
            Ok(choice) => match survey.book.gravity_factor(survey.gas.fuel, gravity) {
                Some(factor) => {
                    let gas = factors(survey);
                    let beyond = match choice.table.law {
                        _ if !may => None,
                        Law::LowPressure => Some(By::LowPressure {
                            drop: choice.table.drop,
                            gas,
                        }),
                        Law::HighPressure(inlet) => Some(By::HighPressure {
                            inlet,
                            drop: choice.table.drop,
                            gas,
                        }),
                        Law::NoEquation => None,
                    };
                    Carriers::Table {
                        beyond: beyond.map(computed),
                        choice,
                        factor,
                    }
                }
                None if may => Carriers::Equation(computed(By::profile(survey, material, inlet, allowed))),
                None => Carriers::Nothing(format!(
                    "Specific gravity {gravity} is beyond the published multipliers: table {} does not apply.",
                    choice.table.id
                )),
            },
            Err(_) if may => Carriers::Equation(computed(By::profile(survey, material, inlet, allowed))),
            Err(reason) => Carriers::Nothing(sentence(&reason.0)),
        }
    }

    /// What tells them at a length.
    pub(crate) fn at<'c>(&'c self, survey: &'c Survey<'a>, length: Length) -> Carrier<'c, 'a> {
        match self {
            Carriers::Table { choice, factor, beyond } => match (choice.table.row_for(length), beyond) {
                (Some(row), _) => Carrier::Row {
                    table: choice.table,
                    row,
                    factor: factor.factor.value,
                    mark: factor.factor.mark,
                    remark: choice.remark.as_deref(),
                    survey,
                },
                (None, Some(equation)) => Carrier::Equation { equation, length },
                (None, None) => Carrier::Past {
                    table: choice.table,
                    length,
                    survey,
                },
            },
            Carriers::Equation(_) if survey.profile.is_past_rows(length) => Carrier::Nothing(PAST_ROWS),
            Carriers::Equation(equation) => Carrier::Equation { equation, length },
            Carriers::Nothing(reason) => Carrier::Nothing(reason),
        }
    }
}

fn past_the_table(survey: &Survey, table: &CapacityTable, length: Length) -> String {
    let units = survey.job.settings.units;
    let why = match table.law {
        Law::NoEquation => "no equation extends it",
        Law::LowPressure | Law::HighPressure(_) => "the profile lets no equation extend it",
    };
    format!(
        "The sizing length {} is past the last row that this program has of table {} ({}), and {why}.",
        length.show_sizing(units),
        table.id,
        table.last_length().show_sizing(units)
    )
}

/// A reason as a sentence.
pub(crate) fn sentence(reason: &str) -> String {
    let mut letters = reason.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    let stop = if reason.ends_with('.') { "" } else { "." };
    format!("{first}{}{stop}", letters.as_str())
}

/// The job's gas in the code equations: as published, or by its own specific gravity where the person gave one.
fn factors(survey: &Survey) -> CodeFactors {
    let usual = match survey.gas.fuel {
        crate::job::Fuel::Natural => CodeFactors::NATURAL_GAS,
        crate::job::Fuel::Propane => CodeFactors::PROPANE,
    };
    match (survey.gas.gravity_mark, survey.book.fuel(survey.gas.fuel)) {
        (None, Some(facts)) => {
            let viscosity = Viscosity::from_centipoise(facts.viscosity_cp.value);
            usual.with_gas(survey.gas.specific_gravity, viscosity, Temperature::from_rankine(520.0))
        }
        (_, Some(facts)) => CodeFactors {
            cr: facts.cr.value,
            y: facts.y.value,
        },
        (_, None) => usual,
    }
}

impl By {
    /// The equation that the profile names.
    fn profile(survey: &Survey, material: Material, inlet: GaugePressure, drop: PressureDrop) -> By {
        match survey.profile.equation {
            Equation::FuelGasCode if inlet.psi() < HIGH_PRESSURE_FROM => By::LowPressure {
                drop,
                gas: factors(survey),
            },
            Equation::FuelGasCode => By::HighPressure {
                inlet,
                drop,
                gas: factors(survey),
            },
            Equation::DarcyColebrook => By::Darcy {
                inlet,
                drop,
                gas: survey.gas.flowing(),
                air: air_pressure(survey.job.settings.altitude.unwrap_or_default()),
                roughness: roughness(material).unwrap_or(Roughness::STEEL),
            },
        }
    }

    const fn name(&self) -> &'static str {
        match self {
            By::LowPressure { .. } => "low-pressure equation of the fuel gas codes (IFGC A.4)",
            By::HighPressure { .. } => "high-pressure equation of the fuel gas codes (IFGC A.4)",
            By::Darcy { .. } => "Darcy–Weisbach equation with Colebrook friction",
        }
    }
}

impl ByEquation {
    fn new(survey: &Survey, material: Material, law: By) -> ByEquation {
        let metric = survey.job.settings.units.is_metric();
        let tube = match law {
            // The code's equation stands for its tables, and so for their bore.
            By::LowPressure { .. } | By::HighPressure { .. } => material.as_tabled(),
            By::Darcy { .. } => material,
        };
        let sizes = survey.book.sizes(tube).iter().filter_map(|pipe| {
            let bore = pipe.inside?;
            if material.goes_by_outside() && !survey.profile.lists_copper(pipe.outside?.value) {
                return None;
            }
            // A drawing in metric units names sizes by DN.
            (!metric || pipe.size.dn().is_some()).then_some((pipe.size, bore.value, bore.mark.max(Mark::Computed)))
        });
        ByEquation {
            law,
            sizes: sizes.collect(),
        }
    }

    fn flow(&self, bore: InsideDiameter, length: Length) -> Flow {
        // Under a foot an equation has no meaning, and none must be divided by nothing.
        let length = length.max(Length::from_feet(1.0));
        match &self.law {
            By::LowPressure { drop, gas } => low_pressure::flow(bore, *drop, length, *gas),
            By::HighPressure { inlet, drop, gas } => high_pressure::flow(bore, *inlet, *drop, length, *gas),
            By::Darcy {
                inlet,
                drop,
                gas,
                air,
                roughness,
            } => {
                let pipe = Pipe {
                    bore,
                    roughness: *roughness,
                    length,
                };
                capacity(pipe, gas, *inlet, *drop, *air, LaminarBranch::WithLaminar)
            }
        }
    }
}

impl Carrier<'_, '_> {
    /// What the capacities are taken from.
    pub(crate) fn basis(&self) -> Basis {
        match self {
            Carrier::Row { table, row, .. } => Basis::Table {
                table: Arc::clone(&table.id),
                row: table.length(*row),
            },
            Carrier::Equation { equation, length } => Basis::Equation {
                name: equation.law.name(),
                length: *length,
            },
            Carrier::Past { table, length, survey } => Basis::Nothing(past_the_table(survey, table, *length)),
            Carrier::Nothing(reason) => Basis::Nothing((*reason).to_owned()),
        }
    }

    /// What must be said of every figure.
    pub(crate) fn remarks(&self) -> impl Iterator<Item = &str> {
        let (choice, maker) = match self {
            Carrier::Row { table, remark, .. } => (*remark, table.yields_to_maker().then_some(MAKER_GOVERNS)),
            Carrier::Equation { .. } | Carrier::Past { .. } | Carrier::Nothing(_) => (None, None),
        };
        maker.into_iter().chain(choice)
    }

    /// How many sizes there are.
    pub(crate) fn sizes(&self) -> usize {
        match self {
            Carrier::Row { table, .. } => table.sizes().len(),
            Carrier::Equation { equation, .. } => equation.sizes.len(),
            Carrier::Past { .. } | Carrier::Nothing(_) => 0,
        }
    }

    /// A size by its place from small to large.
    pub(crate) fn size(&self, place: usize) -> Option<NominalSize> {
        match self {
            Carrier::Row { table, .. } => table.sizes().get(place).copied(),
            Carrier::Equation { equation, .. } => equation.sizes.get(place).map(|size| size.0),
            Carrier::Past { .. } | Carrier::Nothing(_) => None,
        }
    }

    /// The place of a size, where it is among them.
    pub(crate) fn place(&self, size: NominalSize) -> Option<usize> {
        match self {
            Carrier::Row { table, .. } => table.sizes().binary_search(&size).ok(),
            Carrier::Equation { equation, .. } => equation.sizes.binary_search_by_key(&size, |size| size.0).ok(),
            Carrier::Past { .. } | Carrier::Nothing(_) => None,
        }
    }

    /// What must be said beside the figure of a size: a trap of the table.
    pub(crate) fn cell_remark(&self, size: NominalSize) -> Option<&'static str> {
        match self {
            Carrier::Row { table, row, .. } => table.cell(*row, table.column(size)?)?.remark,
            Carrier::Equation { .. } | Carrier::Past { .. } | Carrier::Nothing(_) => None,
        }
    }

    /// What a size carries; `None` where nothing is published.
    pub(crate) fn capacity(&self, size: NominalSize) -> Option<Carried> {
        match self {
            Carrier::Row { table, row, .. } => self.of_cell(table.cell(*row, table.column(size)?)?),
            Carrier::Equation { equation, length } => {
                let (_, bore, mark) = equation.sizes[self.place(size)?];
                Some(Carried {
                    flow: equation.flow(bore, *length),
                    mark,
                })
            }
            Carrier::Past { .. } | Carrier::Nothing(_) => None,
        }
    }

    fn of_cell(&self, cell: &Cell) -> Option<Carried> {
        let Carrier::Row {
            factor, mark, survey, ..
        } = self
        else {
            return None;
        };
        let flow = cell.capacity.times(*factor).flow(survey.gas.heating_value);
        let mark = if *factor == 1.0 {
            cell.mark
        } else {
            cell.mark.max(*mark)
        };
        Some(Carried { flow, mark })
    }

    /// The first size whose capacity is not less than the load.
    pub(crate) fn least(&self, load: Flow) -> Option<NominalSize> {
        match self {
            Carrier::Row { table, row, .. } => {
                let mut cells = table.along(*row);
                let carries = |cell: Option<&Cell>| {
                    cell.and_then(|cell| self.of_cell(cell))
                        .is_some_and(|found| carries(found.flow, load))
                };
                cells.find(|(_, cell)| carries(*cell)).map(|(size, _)| size)
            }
            // Larger bores carry more: no need to compute all.
            Carrier::Equation { equation, length } => {
                let at = equation
                    .sizes
                    .partition_point(|(_, bore, _)| !carries(equation.flow(*bore, *length), load));
                equation.sizes.get(at).map(|size| size.0)
            }
            Carrier::Past { .. } | Carrier::Nothing(_) => None,
        }
    }
}

/// Whether a capacity is not less than a load; sums of inputs may be off in the last figures of the computer.
pub(crate) fn carries(capacity: Flow, load: Flow) -> bool {
    capacity.cfh() * (1.0 + 1e-9) >= load.cfh()
}
