//! Threaded steel: how long fittings are, how far pipe enters them, and nipples.
//!
//! All lengths of fittings here are from memory of ASME B16.3 and say so by their mark; makers differ by 1/16 in. A size
//! or fitting that is not listed has no figure, never a guess.

use super::asset::Asset;
use super::sheet::Sheet;
use super::{Codebook, CodebookError, FittingSwitch, Mark, Marked, Profile, ThreadMakeUp};
use crate::units::{Length, NominalSize};

/// A threaded fitting or union, as far as its length along a pipe goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Threaded {
    /// Elbow of 90°, tee or cross: centre to an end; `other` is the size of the end that it turns to.
    Square,
    /// Elbow of 45°: centre to an end.
    Elbow45,
    /// Street elbow of 90°: centre to the male end.
    StreetMale,
    /// Coupling: half its length.
    Coupling,
    /// Reducing coupling, named by its larger end: half its length.
    ReducingCoupling,
    /// Union: half its assembled length.
    Union,
}

/// Nipples of one size.
#[derive(Clone, Debug, PartialEq)]
pub struct Nipples {
    /// The close nipple, threaded from end to end.
    pub close: Marked<Length>,
    /// The longer standard lengths, short to long.
    pub longer: Vec<Length>,
}

/// Everything about threaded steel.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct ThreadedTables {
    fittings: Vec<FittingRow>,
    reducing: Vec<ReducingRow>,
    make_up: Vec<MakeUpRow>,
    nipples: Vec<(NominalSize, Nipples)>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct FittingRow {
    size: NominalSize,
    elbow90: Option<Marked<Length>>,
    elbow45: Option<Marked<Length>>,
    street_male: Option<Marked<Length>>,
    coupling: Option<Marked<Length>>,
    reducing_coupling: Option<Marked<Length>>,
    union: Option<Marked<Length>>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct ReducingRow {
    large: NominalSize,
    small: NominalSize,
    to_large: Marked<Length>,
    to_small: Marked<Length>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct MakeUpRow {
    size: NominalSize,
    standard: Option<Marked<Length>>,
    handbook: Option<Marked<Length>>,
}

/// The fact files of threaded steel.
pub(super) struct ThreadedAssets {
    pub(super) fittings: Asset,
    pub(super) reducing: Asset,
    pub(super) make_up: Asset,
    pub(super) nipples: Asset,
}

impl ThreadedTables {
    pub(super) fn read(assets: ThreadedAssets) -> Result<ThreadedTables, CodebookError> {
        let fittings = Sheet::of_figures(assets.fittings)?;
        let reducing = Sheet::read(assets.reducing)?;
        let make_up = Sheet::of_figures(assets.make_up)?;
        let nipples = Sheet::read(assets.nipples)?;
        let inches = |figure: Marked<f64>| figure.map(Length::from_inches);
        let fitting_rows = fittings.records().map(|record| {
            let figure = |column| Ok::<_, CodebookError>(record.figure(column)?.map(inches));
            Ok(FittingRow {
                size: record.typed("size")?,
                elbow90: figure("elbow90")?,
                elbow45: figure("elbow45")?,
                street_male: figure("street90_male")?,
                coupling: figure("coupling")?,
                reducing_coupling: figure("reducing_coupling")?,
                union: figure("union")?,
            })
        });
        let reducing_rows = reducing.records().map(|record| {
            Ok(ReducingRow {
                large: record.typed("large")?,
                small: record.typed("small")?,
                to_large: record.known("to_large_end").map(inches)?,
                to_small: record.known("to_small_end").map(inches)?,
            })
        });
        let make_up_rows = make_up.records().map(|record| {
            Ok(MakeUpRow {
                size: record.typed("size")?,
                standard: record.figure("standard")?.map(inches),
                handbook: record.figure("handbook")?.map(inches),
            })
        });
        let nipple_rows = nipples.records().map(|record| {
            let close = record.known("close").map(inches)?;
            let next = record.number("next")?;
            Ok((record.typed("size")?, Nipples::after(close, next)))
        });
        Ok(ThreadedTables {
            fittings: fitting_rows.collect::<Result<_, CodebookError>>()?,
            reducing: reducing_rows.collect::<Result<_, CodebookError>>()?,
            make_up: make_up_rows.collect::<Result<_, CodebookError>>()?,
            nipples: nipple_rows.collect::<Result<_, CodebookError>>()?,
        })
    }
}

impl Nipples {
    /// Half inches from `next` to 6 in, whole inches to 12 in.
    fn after(close: Marked<Length>, next: f64) -> Nipples {
        let halves = (0..=12).map(|half| f64::from(half) / 2.0);
        let wholes = (7..=12).map(f64::from);
        let longer = halves.chain(wholes).filter(|inches| *inches >= next);
        Nipples {
            close,
            longer: longer.map(Length::from_inches).collect(),
        }
    }
}

impl Codebook {
    /// From the centre of a threaded fitting to the face of an end of size `own`.
    ///
    /// `other` is the size that the fitting turns to: of an elbow its other end, of a tee or cross for an end of the run
    /// the larger outlet, for an outlet the larger end of the run. A straight fitting has both alike. That an end of a
    /// tee goes by this pair alone is our reading of the tables of reducing tees.
    pub fn centre_to_end(&self, fitting: Threaded, own: NominalSize, other: NominalSize) -> Option<Marked<Length>> {
        let row = |size| self.threaded.fittings.iter().find(|row| row.size == size);
        let half = |whole: Marked<Length>| whole.map(|length| length.times(0.5));
        match fitting {
            Threaded::Square if own == other => row(own)?.elbow90,
            Threaded::Square => {
                let pair = (own.max(other), own.min(other));
                let mut rows = self.threaded.reducing.iter();
                let found = rows.find(|row| (row.large, row.small) == pair)?;
                Some(if own > other { found.to_large } else { found.to_small })
            }
            Threaded::Elbow45 => row(own).filter(|_| own == other)?.elbow45,
            Threaded::StreetMale => row(own).filter(|_| own == other)?.street_male,
            Threaded::Coupling => row(own).filter(|_| own == other)?.coupling.map(half),
            Threaded::ReducingCoupling => row(own.max(other))?.reducing_coupling.map(half),
            Threaded::Union => row(own).filter(|_| own == other)?.union.map(half),
        }
    }

    /// How far pipe of this size enters a threaded fitting. Where the standard's figure is not at hand, the handbook's.
    pub fn make_up(&self, by: &ThreadMakeUp, size: NominalSize) -> Option<Marked<Length>> {
        let row = || self.threaded.make_up.iter().find(|row| row.size == size);
        match by {
            ThreadMakeUp::Standard => row().and_then(|row| row.standard.or(row.handbook)),
            ThreadMakeUp::Handbook => row().and_then(|row| row.handbook),
            ThreadMakeUp::Own(pairs) => {
                let own = pairs.iter().find(|pair| pair.0 == size)?;
                Some(Marked::new(own.1, Mark::Local))
            }
        }
    }

    /// The nipples of a size of threaded pipe.
    pub fn nipples(&self, size: NominalSize) -> Option<&Nipples> {
        let mut rows = self.threaded.nipples.iter();
        rows.find(|row| row.0 == size).map(|row| &row.1)
    }

    /// The shortest nipple of a size that a profile allows: the close one, or the next where close nipples are barred.
    pub fn shortest_nipple(&self, profile: &Profile, size: NominalSize) -> Option<Marked<Length>> {
        let nipples = self.nipples(size)?;
        match profile.close_nipples {
            FittingSwitch::Allowed => Some(nipples.close),
            FittingSwitch::Barred => Some(Marked::new(*nipples.longer.first()?, nipples.close.mark)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Parse;

    fn inch(text: &str) -> NominalSize {
        NominalSize::parse(text).unwrap()
    }

    #[test]
    fn make_up_is_that_of_asme_b1_20_1_and_the_handbook_differs_by_less_than_a_sixteenth() {
        let book = Codebook::published();
        // ASME B1.20.1, L1 + L3, as permit.md rounds them: 0.534, 0.553, 0.661, 0.681, 0.681, 0.697 in.
        let printed = [
            ("1/2", 0.534),
            ("3/4", 0.553),
            ("1", 0.661),
            ("1-1/4", 0.681),
            ("1-1/2", 0.681),
            ("2", 0.697),
        ];
        for (size, inches) in printed {
            let standard = book.make_up(&ThreadMakeUp::Standard, inch(size)).unwrap();
            assert!((standard.value.inches() - inches).abs() < 6e-4, "{size}: {standard:?}");
            assert_eq!(standard.mark, Mark::Found);
            let handbook = book.make_up(&ThreadMakeUp::Handbook, inch(size)).unwrap();
            assert!(
                (handbook.value.inches() - inches).abs() < 0.0535,
                "{size}: {handbook:?}"
            );
        }
        assert_eq!(book.make_up(&ThreadMakeUp::Standard, inch("6")), None);
        let own = ThreadMakeUp::Own(vec![(inch("1"), Length::from_inches(0.6))]);
        assert_eq!(book.make_up(&own, inch("1")).unwrap().mark, Mark::Local);
        assert_eq!(book.make_up(&own, inch("3/4")), None);
    }

    #[test]
    fn ends_of_a_reducing_fitting_go_by_both_sizes() {
        let book = Codebook::published();
        let square = |own, other| {
            let found = book.centre_to_end(Threaded::Square, inch(own), inch(other));
            found.map(|length| length.value.inches())
        };
        // ASME B16.3 from memory: a tee 1 × 1 × 3/4 is 1.37 along the run and 1.45 at the outlet.
        assert_eq!(square("1", "3/4"), Some(1.37));
        assert_eq!(square("3/4", "1"), Some(1.45));
        assert_eq!(square("1", "1"), Some(1.5));
        assert_eq!(square("1", "EHD 18"), None);
        let half = book.centre_to_end(Threaded::ReducingCoupling, inch("1/2"), inch("3/4"));
        assert!((half.unwrap().value.inches() - 0.72).abs() < 1e-5);
        assert_eq!(book.centre_to_end(Threaded::Elbow45, inch("1"), inch("3/4")), None);
    }

    #[test]
    fn nipples_go_by_halves_to_six_inches_and_by_whole_ones_to_twelve() {
        let nipples = Codebook::published().nipples(inch("1")).unwrap();
        assert_eq!(nipples.close.value, Length::from_inches(1.5));
        assert_eq!(nipples.longer.len(), 15);
        assert_eq!(nipples.longer[0], Length::from_inches(2.0));
        assert_eq!(nipples.longer[9], Length::from_inches(7.0));
    }
}
