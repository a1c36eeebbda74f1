//! DXF read back: pairs of group codes, sections, tables, entities. Knows nothing of how the product writes them.

use std::collections::{BTreeMap, BTreeSet};

/// A group code and its value.
pub type Pair = (u16, String);

/// Something that begins with the group code 0.
#[derive(Clone, Debug)]
pub struct Thing {
    pub kind: String,
    pub pairs: Vec<Pair>,
}

impl Thing {
    pub fn all(&self, code: u16) -> impl Iterator<Item = &str> {
        self.pairs
            .iter()
            .filter(move |pair| pair.0 == code)
            .map(|pair| pair.1.as_str())
    }

    pub fn text(&self, code: u16) -> Option<&str> {
        self.all(code).next()
    }

    pub fn number(&self, code: u16) -> Option<f64> {
        self.text(code).map(|value| value.parse().unwrap())
    }

    /// The points whose x has this code.
    pub fn points(&self, code: u16) -> Vec<(f64, f64)> {
        let numbers = |code| self.all(code).map(|value| value.parse().unwrap());
        let points: Vec<(f64, f64)> = numbers(code).zip(numbers(code + 10)).collect();
        assert_eq!(points.len(), self.all(code).count(), "{self:?}");
        points
    }

    pub fn layer(&self) -> &str {
        self.text(8).unwrap()
    }
}

/// A file by its parts.
#[derive(Debug, Default)]
pub struct File {
    pub sections: Vec<String>,
    pub header: BTreeMap<String, Vec<Pair>>,
    /// Table by table what it declares.
    pub tables: BTreeMap<String, Vec<Thing>>,
    pub entities: Vec<Thing>,
    /// Everything that has a handle, entities too.
    pub things: Vec<Thing>,
}

impl File {
    /// Reads a file and holds that it is whole.
    pub fn read(bytes: &[u8]) -> File {
        let text: String = bytes.iter().map(|byte| char::from(*byte)).collect();
        assert!(text.ends_with('\n'));
        let lines: Vec<&str> = text.split('\n').collect();
        let (last, lines) = lines.split_last().unwrap();
        assert_eq!((*last, lines.len() % 2), ("", 0), "pairs of lines");
        let pairs = lines.chunks(2).map(|pair| {
            assert!(pair[1].len() < 2050 && !pair[1].contains('\r'), "{pair:?}");
            (pair[0].trim().parse().unwrap(), pair[1].to_owned())
        });
        let mut things: Vec<Thing> = Vec::new();
        for (code, value) in pairs {
            // A comment (DXF Reference, "Group Codes in Numerical Order").
            if code == 999 {
                continue;
            }
            if code == 0 {
                things.push(Thing {
                    kind: value,
                    pairs: Vec::new(),
                });
            } else {
                things.last_mut().unwrap().pairs.push((code, value));
            }
        }
        let mut file = File::default();
        let (mut section, mut table) = (None, None);
        let mut ended = false;
        for thing in things {
            assert!(!ended, "nothing after the end");
            match (thing.kind.as_str(), section.as_deref()) {
                ("SECTION", None) => {
                    let name = thing.text(2).unwrap().to_owned();
                    if name == "HEADER" {
                        file.header = variables(&thing.pairs[1..]);
                    }
                    file.sections.push(name.clone());
                    section = Some(name);
                }
                ("ENDSEC", Some(_)) => {
                    assert_eq!(table, None, "a table is open");
                    section = None;
                }
                ("EOF", None) => ended = true,
                ("TABLE", Some("TABLES")) => {
                    let name = thing.text(2).unwrap().to_owned();
                    assert_eq!(table, None);
                    file.tables.insert(name.clone(), Vec::new());
                    table = Some((name, thing.text(70).unwrap().parse().unwrap()));
                    file.things.push(thing);
                }
                ("ENDTAB", Some("TABLES")) => {
                    let (name, count): (String, usize) = table.take().unwrap();
                    assert_eq!(file.tables[&name].len(), count, "{name}");
                }
                (kind, Some("TABLES")) => {
                    let (name, _) = table.as_ref().unwrap();
                    assert_eq!(kind, name);
                    file.tables.get_mut(name).unwrap().push(thing.clone());
                    file.things.push(thing);
                }
                (_, Some("ENTITIES")) => {
                    file.entities.push(thing.clone());
                    file.things.push(thing);
                }
                (_, Some("BLOCKS" | "OBJECTS")) => file.things.push(thing),
                ("CLASS", Some("CLASSES")) => {}
                (kind, section) => panic!("{kind} in {section:?}"),
            }
        }
        assert!(ended, "an end");
        file
    }

    /// The names that a table declares.
    pub fn declared(&self, table: &str) -> BTreeSet<&str> {
        self.tables[table].iter().map(|thing| thing.text(2).unwrap()).collect()
    }

    /// Holds that handles are given once and lead somewhere, and that all that is used is declared.
    pub fn check(&self) {
        let sections = ["HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"];
        assert_eq!(self.sections, sections);
        let mut handles = BTreeSet::new();
        for thing in &self.things {
            let code = if thing.kind == "DIMSTYLE" { 105 } else { 5 };
            let handle = u32::from_str_radix(thing.text(code).unwrap(), 16).unwrap();
            assert!(handle > 0 && handles.insert(handle), "{thing:?}");
        }
        let seed = u32::from_str_radix(&self.header["$HANDSEED"][0].1, 16).unwrap();
        assert!(handles.iter().all(|handle| *handle < seed));
        for thing in &self.things {
            for code in [330, 340, 350, 360, 390] {
                for value in thing.all(code) {
                    let handle = u32::from_str_radix(value, 16).unwrap();
                    assert!(handle == 0 || handles.contains(&handle), "{code} of {thing:?}");
                }
            }
        }
        let (layers, dashes, styles) = (self.declared("LAYER"), self.declared("LTYPE"), self.declared("STYLE"));
        for thing in &self.entities {
            assert!(layers.contains(thing.layer()), "{thing:?}");
            assert!(thing.text(6).is_none_or(|name| dashes.contains(name)), "{thing:?}");
            assert_eq!(thing.text(7).is_some(), thing.kind == "TEXT", "{thing:?}");
            assert!(thing.text(7).is_none_or(|name| styles.contains(name)), "{thing:?}");
            let weight = thing.number(370);
            assert!(weight.is_none_or(|weight| [25.0, 35.0, 50.0, 70.0].contains(&weight)));
            if thing.kind == "LWPOLYLINE" {
                assert_eq!(thing.number(90).unwrap() as usize, thing.points(10).len());
            }
        }
        for layer in &self.tables["LAYER"] {
            assert!(dashes.contains(layer.text(6).unwrap()));
        }
    }

    pub fn count(&self, kind: &str) -> usize {
        self.entities.iter().filter(|thing| thing.kind == kind).count()
    }
}

fn variables(pairs: &[Pair]) -> BTreeMap<String, Vec<Pair>> {
    let mut all: BTreeMap<String, Vec<Pair>> = BTreeMap::new();
    let mut name = String::new();
    for (code, value) in pairs {
        if *code == 9 {
            name = value.clone();
            assert!(all.insert(name.clone(), Vec::new()).is_none(), "{name} twice");
        } else {
            all.get_mut(&name).unwrap().push((*code, value.clone()));
        }
    }
    all
}
