//! The house as its sources tell it: which file uses which, tests left out.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;
use syn::visit::{self, Visit};
use syn::{Attribute, Item, UseTree};

/// A place of the house: `["network", "tree"]` is `src/network/tree.rs`.
pub type Place = Vec<String>;

/// One file that uses another, and where.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Import {
    /// The file that uses.
    pub by: Place,
    /// The file that is used.
    pub of: Place,
    /// What the source says: `super::Study`.
    pub path: String,
}

/// All files, what each declares, and every path that each names.
#[derive(Default)]
pub struct House {
    files: BTreeMap<Place, Names>,
}

/// What one file says.
#[derive(Default)]
struct Names {
    /// What it defines.
    defined: BTreeSet<String>,
    /// What it brings in, by the name that it goes by.
    brought: BTreeMap<String, Vec<String>>,
    /// Every path that it names, brought in with `pub` or not.
    named: Vec<(Vec<String>, bool)>,
}

impl House {
    /// Reads everything under `src`.
    pub fn of_this_crate() -> House {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let mut sources = Vec::new();
        let mut waiting = vec![root.clone()];
        while let Some(folder) = waiting.pop() {
            for entry in fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    waiting.push(path);
                } else if path.extension().is_some_and(|ending| ending == "rs") {
                    let below = path.strip_prefix(&root).unwrap().with_extension("");
                    let place = below.iter().map(|part| part.to_str().unwrap().to_owned()).collect();
                    sources.push((place, fs::read_to_string(&path).unwrap()));
                }
            }
        }
        House::of(sources)
    }

    /// A house of files and their texts.
    pub fn of(sources: impl IntoIterator<Item = (Place, String)>) -> House {
        let mut house = House::default();
        for (place, text) in sources {
            let file = syn::parse_file(&text).unwrap_or_else(|fault| panic!("{place:?}: {fault}"));
            let mut names = Names::default();
            names.visit_file(&file);
            // `lib` names every room and uses none.
            if place != ["lib"] {
                house.files.insert(place, names);
            }
        }
        house
    }

    /// Every file.
    pub fn places(&self) -> impl Iterator<Item = &Place> {
        self.files.keys()
    }

    /// Every path that a file names.
    pub fn named(&self, place: &Place) -> impl Iterator<Item = &[String]> {
        self.files[place].named.iter().map(|(path, _)| path.as_slice())
    }

    /// Every use of one file by another; what a file merely hands on with `pub use` is no use of its own.
    pub fn imports(&self) -> BTreeSet<Import> {
        let mut imports = BTreeSet::new();
        for (by, names) in &self.files {
            for (path, handed_on) in &names.named {
                let of = self.file_of(by, path, 0).filter(|of| of != by);
                let own_child = |of: &Place| of.len() > by.len() && of.starts_with(by);
                if let Some(of) = of.filter(|of| !(*handed_on && own_child(of))) {
                    imports.insert(Import {
                        by: by.clone(),
                        of,
                        path: path.join("::"),
                    });
                }
            }
        }
        imports
    }

    /// The file in which what a path names is defined, as seen from a file.
    fn file_of(&self, from: &Place, path: &[String], depth: usize) -> Option<Place> {
        if depth > 12 {
            return None;
        }
        let (mut at, mut rest) = match path.first()?.as_str() {
            "crate" | "stubout" => (Place::new(), &path[1..]),
            "self" => (from.clone(), &path[1..]),
            "super" => {
                let up = path.iter().take_while(|part| *part == "super").count();
                (from[..from.len().checked_sub(up)?].to_vec(), &path[up..])
            }
            first => {
                let names = self.files.get(from)?;
                let mut child = from.clone();
                child.push(first.to_owned());
                let known = names.defined.contains(first) || names.brought.contains_key(first);
                if !known && !self.files.contains_key(&child) {
                    return None;
                }
                (from.clone(), path)
            }
        };
        while let Some((first, further)) = rest.split_first() {
            let mut child = at.clone();
            child.push(first.clone());
            if self.files.contains_key(&child) {
                (at, rest) = (child, further);
                continue;
            }
            let names = self.files.get(&at)?;
            if !names.defined.contains(first)
                && let Some(path) = names.brought.get(first)
            {
                let mut whole = path.clone();
                whole.extend(further.iter().cloned());
                return self.file_of(&at, &whole, depth + 1);
            }
            break;
        }
        self.files.contains_key(&at).then_some(at)
    }

    /// Files that use each other in a circle, a file and its folder taken as one among its neighbors.
    pub fn circles(&self) -> Vec<Vec<Import>> {
        // Who uses whom, at the first place where their ways part.
        let mut uses: BTreeMap<Place, BTreeMap<Place, Import>> = BTreeMap::new();
        for import in self.imports() {
            let both = import.by.iter().zip(&import.of);
            let common = both.take_while(|(one, other)| one == other).count();
            if common < import.by.len() && common < import.of.len() {
                let (by, of) = (import.by[..=common].to_vec(), import.of[..=common].to_vec());
                uses.entry(by).or_default().insert(of, import);
            }
        }
        let mut circles: BTreeMap<BTreeSet<Place>, Vec<Import>> = BTreeMap::new();
        for circle in uses.keys().filter_map(|start| circle_from(&uses, start)) {
            let members = circle.iter().map(|import| import.by.clone()).collect();
            circles.entry(members).or_insert(circle);
        }
        circles.into_values().collect()
    }
}

/// A way along the uses from a place back to it.
fn circle_from(uses: &BTreeMap<Place, BTreeMap<Place, Import>>, start: &Place) -> Option<Vec<Import>> {
    let mut came: BTreeMap<&Place, (&Place, &Import)> = BTreeMap::new();
    let mut waiting = vec![start];
    while let Some(at) = waiting.pop() {
        for (of, import) in uses.get(at).into_iter().flatten() {
            if of == start {
                let mut circle = vec![import.clone()];
                let mut back = at;
                while back != start {
                    let (before, import) = came[back];
                    circle.push(import.clone());
                    back = before;
                }
                circle.reverse();
                return Some(circle);
            }
            if !came.contains_key(of) {
                came.insert(of, (at, import));
                waiting.push(of);
            }
        }
    }
    None
}

/// Whether an item is there in tests only.
fn is_for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg")
            && attribute
                .parse_args::<syn::Path>()
                .is_ok_and(|path| path.is_ident("test"))
    })
}

fn attributes(item: &Item) -> &[Attribute] {
    match item {
        Item::Const(it) => &it.attrs,
        Item::Enum(it) => &it.attrs,
        Item::Fn(it) => &it.attrs,
        Item::Impl(it) => &it.attrs,
        Item::Macro(it) => &it.attrs,
        Item::Mod(it) => &it.attrs,
        Item::Static(it) => &it.attrs,
        Item::Struct(it) => &it.attrs,
        Item::Trait(it) => &it.attrs,
        Item::Type(it) => &it.attrs,
        Item::Use(it) => &it.attrs,
        _ => &[],
    }
}

/// The leaves of a `use`: each path with the name that it goes by.
fn leaves(tree: &UseTree, before: &[String], into: &mut Vec<(Vec<String>, String)>) {
    let with = |name: String| before.iter().cloned().chain([name]).collect::<Vec<_>>();
    match tree {
        UseTree::Path(path) => leaves(&path.tree, &with(path.ident.to_string()), into),
        UseTree::Group(group) => group.items.iter().for_each(|tree| leaves(tree, before, into)),
        UseTree::Name(name) if name.ident == "self" => {
            into.push((before.to_vec(), before.last().cloned().unwrap_or_default()));
        }
        UseTree::Name(name) => into.push((with(name.ident.to_string()), name.ident.to_string())),
        UseTree::Rename(name) => into.push((with(name.ident.to_string()), name.rename.to_string())),
        UseTree::Glob(_) => into.push((before.to_vec(), String::new())),
    }
}

impl Names {
    /// Paths in the words of a macro, which no parser of ours opens.
    fn in_tokens(&mut self, tokens: proc_macro2::TokenStream) {
        use proc_macro2::TokenTree;
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                TokenTree::Ident(ident) if colons == 2 => path.push(ident.to_string()),
                TokenTree::Ident(ident) => self
                    .named
                    .push((std::mem::replace(&mut path, vec![ident.to_string()]), false)),
                TokenTree::Punct(punct) if punct.as_char() == ':' => {
                    colons += 1;
                    continue;
                }
                TokenTree::Group(group) => self.in_tokens(group.stream()),
                TokenTree::Punct(_) | TokenTree::Literal(_) => self.named.push((std::mem::take(&mut path), false)),
            }
            colons = 0;
        }
        self.named.push((path, false));
    }
}

impl<'ast> Visit<'ast> for Names {
    fn visit_item(&mut self, item: &'ast Item) {
        if is_for_tests(attributes(item)) {
            return;
        }
        let name = match item {
            Item::Const(it) => Some(&it.ident),
            Item::Enum(it) => Some(&it.ident),
            Item::Fn(it) => Some(&it.sig.ident),
            Item::Macro(it) => it.ident.as_ref(),
            Item::Mod(it) => Some(&it.ident),
            Item::Static(it) => Some(&it.ident),
            Item::Struct(it) => Some(&it.ident),
            Item::Trait(it) => Some(&it.ident),
            Item::Type(it) => Some(&it.ident),
            _ => None,
        };
        self.defined.extend(name.map(ToString::to_string));
        visit::visit_item(self, item);
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        let mut all = Vec::new();
        leaves(&item.tree, &[], &mut all);
        let handed_on = !matches!(item.vis, syn::Visibility::Inherited);
        for (path, name) in all {
            self.named.push((path.clone(), handed_on));
            self.brought.insert(name, path);
        }
    }

    fn visit_impl_item(&mut self, item: &'ast syn::ImplItem) {
        let attributes: &[Attribute] = match item {
            syn::ImplItem::Const(it) => &it.attrs,
            syn::ImplItem::Fn(it) => &it.attrs,
            _ => &[],
        };
        if !is_for_tests(attributes) {
            visit::visit_impl_item(self, item);
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let path_of = path.segments.iter().map(|part| part.ident.to_string());
        self.named.push((path_of.collect(), false));
        visit::visit_path(self, path);
    }

    fn visit_meta_list(&mut self, list: &'ast syn::MetaList) {
        self.in_tokens(list.tokens.clone());
    }

    fn visit_macro(&mut self, mac: &'ast syn::Macro) {
        self.in_tokens(mac.tokens.clone());
    }
}
