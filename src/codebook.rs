//! What is published, each figure with its source and mark.
//!
//! Fuels, pipe and tube, capacity tables, equivalent lengths, supports, appliance classes, purging, what permit
//! offices ask for and the profiles of local practice, read from `assets/`. No figure leaves here without its [`Mark`]; a figure that nobody published is
//! `None`, never a guess. Knows nothing of studies and drawings; equations of flow live in the gas room.
//!
//! ```
//! use stubout::codebook::{Codebook, PipeKind};
//! use stubout::job::{Fuel, Settings};
//! use stubout::units::{GaugePressure, HeatRate, HeatingValue, Length, NominalSize};
//!
//! let book = Codebook::published();
//! let inlet = GaugePressure::from_inches_wc(7.0);
//! let profile = book.default_profile();
//! let allowed = profile.allowed_drop(Fuel::Natural, inlet).expect("set");
//! let tables = book.tables_for(profile, &Settings::default());
//! let table = tables.table_for(Fuel::Natural, PipeKind::Steel, inlet, allowed.value).expect("402.4(2)").table;
//! let row = table.row_for(Length::from_feet(57.0)).expect("60 ft");
//! let load = table.demand(HeatRate::from_mbh(110.0), HeatingValue::from_btu_per_ft3(1000.0));
//! let mut sizes = table.along(row).filter_map(|(size, cell)| Some((size, cell?)));
//! let (size, cell) = sizes.find(|(_, cell)| cell.capacity >= load).expect("3/4");
//! assert_eq!((size, cell.capacity.amount()), (NominalSize::Inch(12), 137.0));
//! ```

mod appliance;
mod asset;
mod assets;
mod capacity;
mod choice;
mod choose;
mod clause;
mod csst;
mod error;
mod fitting;
mod fuel;
mod gravity;
mod own_lengths;
mod permit;
mod pipe;
mod profile;
mod purge;
mod sheet;
mod size_names;
mod source;
mod stock;
mod support;
mod table;
mod terms;
mod threaded;

pub use appliance::{ApplianceClass, Trap, UsualPlace};
pub use capacity::{Capacity, CapacityUnit};
pub use choice::{NoTable, TableChoice, Tables};
pub use clause::{Clause, CodeFamily};
pub use csst::{DropEstimate, EXTRA_PER_TURN, TURNS_INCLUDED};
pub use error::CodebookError;
pub use fitting::Fitting;
pub use fuel::FuelFacts;
pub use gravity::GravityFactor;
pub use own_lengths::{OwnLengths, list_fault, note_fault};
pub use permit::{PermitAsk, PermitItem, PermitSource};
pub use pipe::PipeSize;
pub use profile::{
    Allowance, AllowedDrop, AltitudeRule, Burial, Equation, Equations, FittingSwitch, Profile, ProfileTables,
    RuleSetting, TestAbove, TestRule, TestTime, ThreadMakeUp,
};
pub use size_names::SizeNames;
pub use source::{Mark, Marked, Source};
pub use stock::StockForm;
pub use support::{Spacing, Way};
pub use table::{CapacityTable, Cell, Column, Inlet, Law, PipeKind, Row};
pub use threaded::{Nipples, Threaded};

use crate::job::OwnTable;
use std::sync::LazyLock;

/// Everything published that this program knows of.
#[derive(Clone, Debug, Default)]
pub struct Codebook {
    tables: Vec<CapacityTable>,
    pipe: pipe::PipeSizes,
    fuels: Vec<FuelFacts>,
    gravity: gravity::GravityTable,
    fittings: fitting::FittingTable,
    supports: support::SupportTable,
    appliances: Vec<ApplianceClass>,
    purge: purge::PurgeTable,
    permit: permit::PermitItems,
    threaded: threaded::ThreadedTables,
    clauses: Vec<Clause>,
    stock: stock::StockTable,
    own_lengths: OwnLengths,
    profiles: Vec<Profile>,
    empty_profile: Profile,
    faults: Vec<CodebookError>,
}

/// The profile for a job that names none.
pub const DEFAULT_PROFILE: &str = "us-ifgc";

static PUBLISHED: LazyLock<Codebook> = LazyLock::new(Codebook::load);

impl Codebook {
    /// Everything published, read once from the files built into the program.
    pub fn published() -> &'static Codebook {
        &PUBLISHED
    }

    /// A copy with one more profile, or with another in place of one of the same name; one that names no table files.
    ///
    /// `file` is the name by which errors call the text.
    ///
    /// # Errors
    /// When the text is no profile: with line, column, what is wrong and what to do.
    pub fn with_profile(&self, file: &str, text: &str) -> Result<Codebook, CodebookError> {
        let mut book = self.clone();
        book.add_profile(file, text, |_| Err("its folder is not known".to_owned()))?;
        Ok(book)
    }

    /// Takes in a profile, in place of one of the same name, with the tables of its own. Gives its name.
    ///
    /// `file` is the name by which errors call the text. `beside` is asked for the files that the profile names, by their
    /// paths as they stand there: it gives the name by which errors call a file, and its text, or why there is none.
    ///
    /// # Errors
    /// When the text is no profile, or one of its files is not there or no table: with file, line, column, what is wrong
    /// and what to do. Nothing has been taken in then.
    pub fn add_profile(
        &mut self,
        file: &str,
        text: &str,
        mut beside: impl FnMut(&str) -> Result<(String, String), String>,
    ) -> Result<String, CodebookError> {
        let mut profile = Profile::read(file, text)?;
        let fault = |named: &str, what: String, remedy: &str| {
            let (line, column) = profile::place_of(text, named);
            CodebookError {
                file: file.to_owned(),
                line,
                column,
                what,
                remedy: remedy.to_owned(),
            }
        };
        for family in &profile.tables.families {
            if !self.tables.iter().any(|table| table.family() == Some(family)) {
                let what = format!("`{family}` is not a family of tables of this program");
                return Err(fault(
                    family,
                    what,
                    "write \"402.4\" (International Fuel Gas Code), or leave the list empty",
                ));
            }
        }
        let mut book = self.clone();
        for path in &profile.tables.files {
            let (name, text) = beside(path).map_err(|why| {
                let what = format!("the table file `{path}` cannot be read: {why}");
                fault(
                    path,
                    what,
                    "write its path beside this profile, or remove it from the list",
                )
            })?;
            profile.tables.own.push(book.add_table(&name, &text)?.id);
        }
        let name = profile.name.clone();
        book.profiles.retain(|old| old.name != name);
        book.profiles.push(profile);
        *self = book;
        Ok(name)
    }

    /// Takes in a table of a person's own; it sizes jobs and profiles that name it. Gives what a job keeps of it.
    ///
    /// # Errors
    /// When the text is no table, or its name is taken by another: with line, cell, what is wrong and what to do.
    pub fn add_table(&mut self, file: &str, text: &str) -> Result<OwnTable, CodebookError> {
        let table = CapacityTable::read_own(file, text)?;
        let own = table.as_own();
        match self.table(&table.id) {
            Some(known) if known.is_own && known.as_own() == own => return Ok(own),
            Some(known) => {
                let whose = match known.is_own {
                    true => "another table of your own, with other figures",
                    false => "a table of this program",
                };
                let (line, _) = profile::place_of(text, &table.id);
                return Err(CodebookError {
                    file: file.to_owned(),
                    line,
                    column: 2,
                    what: format!("`{}` is already the name of {whose}", table.id),
                    remedy: "give this one another name after `id`".to_owned(),
                });
            }
            None => self.tables.push(table),
        }
        Ok(own)
    }

    /// All capacity tables: those of the program in the order of their numbers, then a person's own.
    pub fn tables(&self) -> &[CapacityTable] {
        &self.tables
    }

    /// A capacity table by its number, `402.4(2)`, or by the name that a person gave it.
    pub fn table(&self, id: &str) -> Option<&CapacityTable> {
        self.tables.iter().find(|table| &*table.id == id)
    }

    /// The usual figures of a fuel.
    pub fn fuel(&self, fuel: crate::job::Fuel) -> Option<&FuelFacts> {
        self.fuels.iter().find(|facts| facts.fuel == fuel)
    }

    /// All profiles.
    pub fn profiles(&self) -> &[Profile] {
        &self.profiles
    }

    /// A profile by its name.
    pub fn profile(&self, name: &str) -> Option<&Profile> {
        self.profiles.iter().find(|profile| profile.name == name)
    }

    /// The profile for a job that names none, or one that is not known.
    ///
    /// Without any profile (which a test rules out) it is an empty one, which allows nothing.
    pub fn default_profile(&self) -> &Profile {
        self.profile(DEFAULT_PROFILE)
            .or(self.profiles.first())
            .unwrap_or(&self.empty_profile)
    }

    /// The text of a profile that comes with the program, to copy and amend.
    pub fn profile_text(name: &str) -> Option<&'static str> {
        let mut files = assets::PROFILES.iter();
        let file = files.find(|asset| asset.file == format!("assets/profiles/{name}.ron"))?;
        Some(file.text)
    }

    /// Faults in the files built into the program: none, as a test holds. What is faulty is left out.
    pub fn faults(&self) -> &[CodebookError] {
        &self.faults
    }

    fn load() -> Codebook {
        let faults = &mut Vec::new();
        let tables = assets::TABLES.map(|asset| kept(faults, CapacityTable::read(asset).map(Some)));
        let profiles = assets::PROFILES.map(|asset| kept(faults, Profile::read(asset.file, asset.text).map(Some)));
        let mut book = Codebook {
            tables: tables.into_iter().flatten().collect(),
            pipe: pipe::PipeSizes {
                steel40: kept(faults, pipe::PipeSize::read_all(assets::STEEL40)),
                copper_k: kept(faults, pipe::PipeSize::read_all(assets::COPPER_K)),
                copper_l: kept(faults, pipe::PipeSize::read_all(assets::COPPER_L)),
                csst: kept(faults, pipe::PipeSize::read_all(assets::CSST)),
                pe: kept(faults, pipe::PipeSize::read_all(assets::PE)),
            },
            fuels: kept(faults, FuelFacts::read(assets::FUELS)),
            gravity: kept(faults, gravity::GravityTable::read(assets::SG_MULTIPLIERS)),
            fittings: kept(faults, fitting::FittingTable::read(assets::FITTINGS)),
            supports: kept(faults, support::SupportTable::read(assets::SUPPORTS)),
            appliances: kept(faults, ApplianceClass::read_all(assets::APPLIANCES)),
            purge: kept(faults, purge::PurgeTable::read(assets::PURGE)),
            permit: kept(
                faults,
                permit::PermitItems::read(assets::PERMIT_ITEMS, assets::PERMIT_SOURCES),
            ),
            threaded: kept(faults, threaded::ThreadedTables::read(assets::THREADED)),
            clauses: kept(faults, Clause::read_all(assets::CLAUSES)),
            stock: kept(faults, stock::StockTable::read(assets::STOCK)),
            own_lengths: OwnLengths::default(),
            profiles: profiles.into_iter().flatten().collect(),
            empty_profile: Profile::default(),
            faults: Vec::new(),
        };
        book.faults.append(faults);
        book
    }
}

/// What was read, or nothing and one fault more.
fn kept<T: Default>(faults: &mut Vec<CodebookError>, read: Result<T, CodebookError>) -> T {
    read.unwrap_or_else(|fault| {
        faults.push(fault);
        T::default()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_files_built_into_the_program_have_no_fault() {
        let book = Codebook::published();
        assert_eq!(book.faults(), []);
        assert_eq!((book.tables().len(), book.profiles().len()), (34, 5));
        assert_eq!(book.default_profile().name, DEFAULT_PROFILE);
    }

    #[test]
    fn a_profile_of_the_same_name_takes_the_place_of_the_old_one() {
        let text = include_str!("../assets/profiles/us-ifgc.ron").replace("SectionHas(4)", "Never");
        let book = Codebook::published().with_profile("mine.ron", &text).unwrap();
        assert_eq!(book.profiles().len(), 5);
        assert_eq!(book.default_profile().fittings, Allowance::Never);
        assert_ne!(Codebook::published().default_profile().fittings, Allowance::Never);
    }

    #[test]
    fn without_any_profile_nothing_is_allowed() {
        let book = Codebook::default();
        let inlet = crate::units::GaugePressure::from_inches_wc(7.0);
        assert_eq!(
            book.default_profile().allowed_drop(crate::job::Fuel::Natural, inlet),
            None
        );
        assert!(!book.default_profile().allows(crate::job::Material::Steel40));
    }

    const OWN: &str = "id\tTube A\ntitle\tinvented\nfuel\tnatural\npipe\tcsst\ninlet\tunder 2 psi\ndrop\t0.5 in w.c.\n\
                       unit\tcfh\ndocument\tinvented\n\nlength_ft\tEHD 18\n10\t40\n";

    #[test]
    fn a_profile_brings_its_tables_and_others_never_compete() {
        let mut book = Codebook::published().clone();
        let text = include_str!("../assets/profiles/us-ifgc.ron").replace(
            "tables: (families: [\"402.4\"])",
            "tables: (families: [], files: [\"a/tube.tsv\"])",
        );
        let text = text.replace("name: \"us-ifgc\"", "name: \"mine\"");
        let name = book.add_profile("mine.ron", &text, |path| Ok((path.to_owned(), OWN.to_owned())));
        assert_eq!(name.as_deref(), Ok("mine"));
        let settings = crate::job::Settings::default();
        let named = |profile: &str| {
            let tables = book.tables_for(book.profile(profile).unwrap(), &settings);
            tables.iter().map(|table| table.id.to_string()).collect::<Vec<_>>()
        };
        assert_eq!(named("mine"), ["Tube A"]);
        let usual = named("us-ifgc");
        assert!(usual.len() == 34 && !usual.contains(&"Tube A".to_owned()));
    }

    #[test]
    fn a_table_that_a_profile_names_and_nobody_has_is_told_at_its_place() {
        let mut book = Codebook::published().clone();
        let text = include_str!("../assets/profiles/us-ifgc.ron")
            .replace("tables: (families: [\"402.4\"])", "tables: (files: [\"gone.tsv\"])");
        let line = text.lines().position(|line| line.contains("gone.tsv")).unwrap() + 1;
        let fault = book.add_profile("mine.ron", &text, |_| Err("no such file".to_owned()));
        assert_eq!(
            fault.unwrap_err().to_string(),
            format!(
                "mine.ron, line {line}, column 23: the table file `gone.tsv` cannot be read: no such file; write its path beside this profile, or remove it from the list"
            )
        );
        assert_eq!(book.profiles(), Codebook::published().profiles());
        let text = text.replace("files: [\"gone.tsv\"]", "families: [\"402.5\"]");
        let fault = book.add_profile("mine.ron", &text, |_| Err(String::new())).unwrap_err();
        assert_eq!(
            (fault.line, fault.what.as_str()),
            (line, "`402.5` is not a family of tables of this program")
        );
    }

    #[test]
    fn a_name_is_that_of_one_table() {
        let mut book = Codebook::published().clone();
        let own = book.add_table("a.tsv", OWN).unwrap();
        assert_eq!(book.add_table("again.tsv", OWN), Ok(own.clone()));
        let other = book.add_table("b.tsv", &OWN.replace("\t40", "\t41")).unwrap_err();
        assert_eq!((other.line, other.column), (1, 2));
        assert!(other.what.contains("another table of your own"), "{other}");
        let theirs = book
            .add_table("c.tsv", &OWN.replace("Tube A", "402.4(15)"))
            .unwrap_err();
        assert!(theirs.what.contains("a table of this program"), "{theirs}");
        let renamed = book.add_table("d.tsv", &OWN.replace("Tube A", "Tube B")).unwrap();
        assert_eq!(renamed.figures, own.figures, "its name is no figure");
    }
}
