//! Every rule by which jobs are checked, with its severity and its basis.

use super::{TROUBLE, input, machine, table};
use crate::codebook::{CodeFamily, Codebook, Profile};
use crate::rules::{RULES, Rule};
use crate::units::UnitSystem;
use clap::Args;
use serde_json::{Map, Value, json};
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Under which profile rules are told.
#[derive(Args)]
pub struct RulesArguments {
    /// Give the severities and clauses under a profile: its name, or the file of one of your own
    #[arg(long, value_name = "NAME OR FILE")]
    profile: Option<PathBuf>,
    /// Print for machines: one JSON value
    #[arg(long)]
    json: bool,
}

/// Prints every rule.
pub fn run(arguments: &RulesArguments) -> u8 {
    let mut own = Codebook::published().clone();
    let profile = match &arguments.profile {
        None => None,
        Some(named) => match known(&mut own, named) {
            Ok(name) => own.profile(&name),
            Err(fault) => {
                input::report(&fault);
                return TROUBLE;
            }
        },
    };
    match arguments.json {
        true => machine::print_whole(
            "rules",
            json!({ "rules": RULES.iter().map(|rule| told(rule, profile, &own)).collect::<Vec<Value>>() }),
        ),
        false => table::out(&said(profile, &own)),
    }
}

/// The name of a profile that is known, or is read from a file.
fn known(book: &mut Codebook, named: &Path) -> Result<String, String> {
    let name = named.display().to_string();
    match book.profile(&name) {
        Some(_) => Ok(name),
        None => input::add_profile(book, named),
    }
}

fn severity(rule: &Rule, profile: Option<&Profile>, book: &Codebook) -> &'static str {
    match profile {
        None => rule.severity.name(),
        Some(profile) => rule
            .severity_under(book, profile)
            .map_or("off", |severity| severity.name()),
    }
}

fn severity_key(rule: &Rule, profile: Option<&Profile>, book: &Codebook) -> &'static str {
    match profile {
        None => rule.severity.key(),
        Some(profile) => rule
            .severity_under(book, profile)
            .map_or("off", |severity| severity.key()),
    }
}

/// The clauses by which a code asks a rule, of the profile's family or of all.
fn clauses<'a>(rule: &'a Rule, profile: Option<&'a Profile>, book: &'a Codebook) -> Vec<(CodeFamily, String)> {
    let families = CodeFamily::ALL.into_iter();
    let families = families.filter(|family| profile.is_none_or(|profile| profile.family == Some(*family)));
    families
        .filter_map(|family| Some((family, book.clause(rule.id, family)?.clause.to_owned())))
        .collect()
}

fn said(profile: Option<&Profile>, book: &Codebook) -> String {
    let mut text = String::new();
    if let Some(profile) = profile {
        let _ = writeln!(text, "Rules under profile {}.", profile.name);
    }
    let rows: Vec<Vec<String>> = RULES
        .iter()
        .map(|rule| {
            let basis = match (rule.is_by_code(), profile) {
                (true, None) => clauses(rule, None, book)
                    .into_iter()
                    .map(|(_, clause)| clause)
                    .collect::<Vec<_>>()
                    .join("; "),
                (_, profile) => rule.basis_under(book, profile.and_then(|profile| profile.family)),
            };
            vec![
                rule.id.to_owned(),
                severity(rule, profile, book).to_owned(),
                rule.titled(UnitSystem::Us),
                basis,
            ]
        })
        .collect();
    text += &table::columns(&["rule", "severity", "what it checks", "basis"], &rows);
    let _ = writeln!(text, "{}", table::CAUTION);
    text
}

fn told(rule: &Rule, profile: Option<&Profile>, book: &Codebook) -> Value {
    let clauses: Map<String, Value> = clauses(rule, profile, book)
        .into_iter()
        .map(|(family, clause)| (family.key().to_owned(), Value::from(clause)))
        .collect();
    json!({
        "rule": rule.id,
        "severity": severity_key(rule, profile, book),
        "title": rule.titled(UnitSystem::Us),
        "basis": (!rule.is_by_code()).then_some(rule.basis),
        "clauses": clauses,
    })
}
