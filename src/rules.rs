//! What the rules find: one rule a file, each with its clause or a plain word that it has none.
//!
//! A rule reports one cause once, names the place, says what was held against what, and what to do. It never says that
//! a job is in order. Rules read shared facts from [`Look`] and [`Walk`], which are gathered once, so that all rules
//! together stay linear in the size of the job.

mod added_load;
mod allowed_drop_raised;
mod allowed_drop_unusable;
mod altitude;
mod appliance_class_unknown;
mod appliance_mid_line;
mod appliance_unnamed;
mod as_built_not_measured;
mod burial_cover_missing;
mod burial_shallow;
mod burial_single_line;
mod buried_steel_bare;
mod buried_under_building;
mod checked;
mod connector_count;
mod connector_long;
mod connector_unlike;
mod connector_wall;
mod coupling_shutoff;
mod cover_not_judged;
mod cover_unlike;
mod csst_buried;
mod csst_by_ehd;
mod csst_unbonded;
mod delivery_pressure;
mod device_at_branch;
mod device_capacity;
mod equation_sized;
mod excess_flow;
mod existing_size_unknown;
mod exterior_steel_bare;
mod exterior_wall_open;
mod finding;
mod flare_concealed;
mod foundation_open;
mod future_load;
mod gas_unlikely;
mod grade_unlike;
mod gravity_heavy;
mod indoor_pressure;
mod inlet_below_least;
mod inlet_low;
mod inlet_over_rating;
mod inlet_rating_unknown;
mod input_missing;
mod input_unlikely;
mod joint_on_run;
mod joints_overlap;
mod length_not_positive;
mod length_unlikely;
mod letters_missing;
mod lines;
mod load_left_out;
mod look;
mod loop_closed;
mod many_ways;
mod material_not_listed;
mod meter_capacity;
mod no_load;
mod no_published_figure;
mod no_size_carries;
mod no_such_tee;
mod no_supply;
mod no_union_between_fixed_ends;
mod not_joined;
mod odd_angle;
mod offset_unlike;
mod open_end;
mod outdoor_shutoff;
mod outdoors_not_marked;
mod overpressure;
mod own_table_changed;
mod own_table_missing;
mod passage_not_drawn;
mod past_table;
mod pe_above_ground;
mod pe_tracer;
mod penetration_off_run;
mod pipe;
mod profile_rule_unknown;
mod profile_unknown;
mod rating_unknown;
mod reading_outside_plate;
mod reading_unexplained;
mod regulator_capacity;
mod regulator_concealed;
mod regulator_drop;
mod regulator_setting;
mod regulator_shutoff;
mod regulator_starved;
mod regulator_union;
mod regulator_vent;
mod rule;
mod runs_overlap;
mod second_supply;
mod shield_plates;
mod shutoff_missing;
mod size_below_least;
mod size_not_made;
mod slab_open;
mod street_elbow_barred;
mod street_elbow_piped;
mod stub_short;
mod supply_marked_new;
mod supply_unrated;
mod table_remark;
mod test_gauge_left;
mod title_incomplete;
mod trap_before_valve;
mod trap_missing;
mod trap_nipple;
mod trap_sideways;
mod trap_straight;
mod trap_unclear;
mod turn_not_exact;
mod undersized_existing;
mod undersized_fixed;
mod union_concealed;
mod union_missing;
mod units_unlike;
mod unlike_metals_buried;
mod valve_concealed;
mod velocity;
mod walk;

#[cfg(test)]
mod sample;

pub use checked::Checked;
pub use finding::{Finding, Severity};
pub use look::Look;
pub use pipe::Pipe;
pub use rule::{BY_CODE, BY_PROFILE, Found, Rule};
pub use walk::Walk;

use crate::codebook::{Codebook, Profile};
use crate::job::Job;
use crate::study::Study;
use std::ops::Deref;

/// Every rule of this tool, in the order in which findings of one severity are listed.
pub const RULES: &[&Rule] = &[
    &no_supply::RULE,
    &second_supply::RULE,
    &delivery_pressure::RULE,
    &allowed_drop_unusable::RULE,
    &loop_closed::RULE,
    &not_joined::RULE,
    &length_not_positive::RULE,
    &offset_unlike::RULE,
    &joints_overlap::RULE,
    &open_end::RULE,
    &device_at_branch::RULE,
    &appliance_mid_line::RULE,
    &profile_unknown::RULE,
    &own_table_missing::RULE,
    &input_missing::RULE,
    &existing_size_unknown::RULE,
    &undersized_existing::RULE,
    &undersized_fixed::RULE,
    &no_size_carries::RULE,
    &past_table::RULE,
    &no_published_figure::RULE,
    &size_not_made::RULE,
    &material_not_listed::RULE,
    &meter_capacity::RULE,
    &regulator_capacity::RULE,
    &device_capacity::RULE,
    &excess_flow::RULE,
    &regulator_setting::RULE,
    &regulator_starved::RULE,
    &inlet_over_rating::RULE,
    &inlet_rating_unknown::RULE,
    &inlet_below_least::RULE,
    &reading_outside_plate::RULE,
    &indoor_pressure::RULE,
    &shutoff_missing::RULE,
    &trap_missing::RULE,
    &union_concealed::RULE,
    &regulator_vent::RULE,
    &connector_wall::RULE,
    &street_elbow_barred::RULE,
    &buried_steel_bare::RULE,
    &burial_shallow::RULE,
    &pe_above_ground::RULE,
    &csst_unbonded::RULE,
    &runs_overlap::RULE,
    &joint_on_run::RULE,
    &length_unlikely::RULE,
    &penetration_off_run::RULE,
    &odd_angle::RULE,
    &turn_not_exact::RULE,
    &many_ways::RULE,
    &no_such_tee::RULE,
    &street_elbow_piped::RULE,
    &input_unlikely::RULE,
    &gas_unlikely::RULE,
    &appliance_class_unknown::RULE,
    &appliance_unnamed::RULE,
    &no_load::RULE,
    &size_below_least::RULE,
    &equation_sized::RULE,
    &csst_by_ehd::RULE,
    &own_table_changed::RULE,
    &allowed_drop_raised::RULE,
    &inlet_low::RULE,
    &reading_unexplained::RULE,
    &outdoor_shutoff::RULE,
    &outdoors_not_marked::RULE,
    &union_missing::RULE,
    &no_union_between_fixed_ends::RULE,
    &valve_concealed::RULE,
    &flare_concealed::RULE,
    &trap_unclear::RULE,
    &trap_before_valve::RULE,
    &trap_straight::RULE,
    &trap_sideways::RULE,
    &trap_nipple::RULE,
    &connector_count::RULE,
    &connector_long::RULE,
    &connector_unlike::RULE,
    &coupling_shutoff::RULE,
    &regulator_shutoff::RULE,
    &regulator_union::RULE,
    &overpressure::RULE,
    &regulator_concealed::RULE,
    &regulator_drop::RULE,
    &exterior_wall_open::RULE,
    &foundation_open::RULE,
    &slab_open::RULE,
    &exterior_steel_bare::RULE,
    &burial_cover_missing::RULE,
    &cover_not_judged::RULE,
    &cover_unlike::RULE,
    &buried_under_building::RULE,
    &csst_buried::RULE,
    &unlike_metals_buried::RULE,
    &pe_tracer::RULE,
    &stub_short::RULE,
    &test_gauge_left::RULE,
    &units_unlike::RULE,
    &title_incomplete::RULE,
    &letters_missing::RULE,
    &as_built_not_measured::RULE,
    &profile_rule_unknown::RULE,
    &table_remark::RULE,
    &added_load::RULE,
    &supply_marked_new::RULE,
    &future_load::RULE,
    &load_left_out::RULE,
    &gravity_heavy::RULE,
    &altitude::RULE,
    &velocity::RULE,
    &supply_unrated::RULE,
    &rating_unknown::RULE,
    &passage_not_drawn::RULE,
    &grade_unlike::RULE,
    &burial_single_line::RULE,
    &shield_plates::RULE,
];

/// The rule of an id.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|rule| rule.id == id)
}

/// What the rules find in a job, worst first, then in the order of [`RULES`], then in the order of the job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Findings(Vec<Finding>);

impl Deref for Findings {
    type Target = [Finding];

    fn deref(&self) -> &[Finding] {
        &self.0
    }
}

impl From<Vec<Finding>> for Findings {
    fn from(list: Vec<Finding>) -> Findings {
        Findings(list)
    }
}

impl Findings {
    /// Lets every rule look at a job and its study. The profile switches rules off or gives their findings another
    /// severity.
    pub fn of(job: &Job, book: &Codebook, study: &Study) -> Findings {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        Findings::under(job, book, profile, study)
    }

    /// The same under a profile that no book need know.
    pub fn under(job: &Job, book: &Codebook, profile: &Profile, study: &Study) -> Findings {
        let walk = Walk::of(job, study);
        let tables = book.tables_for(profile, &job.settings);
        let look = Look {
            job,
            book,
            profile,
            tables: &tables,
            study,
            walk: &walk,
        };
        let mut findings = Vec::new();
        for rule in RULES {
            if let Some(severity) = rule.severity_under(book, profile) {
                let basis = rule.basis_under(book, profile.family);
                (rule.check)(&look, &mut Found::by(rule, severity, basis, &mut findings));
            }
        }
        for finding in &mut findings {
            finding.remedy = profile.terms(&finding.remedy).into_owned();
        }
        findings.sort_by_key(|finding| finding.severity);
        Findings(findings)
    }

    /// The findings that must be mended before work starts.
    pub fn must_fix(&self) -> impl Iterator<Item = &Finding> {
        self.iter().filter(|finding| finding.severity == Severity::MustFix)
    }

    /// How many are of a severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.iter().filter(|finding| finding.severity == severity).count()
    }
}

/// Positions of the line regulators on rigid pipe, old ones too, that have no union within 1 ft.
pub fn regulators_without_union(job: &Job, book: &Codebook, study: &Study) -> Vec<usize> {
    let walk = Walk::of(job, study);
    let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
    regulator_union::lacking(&Look {
        job,
        book,
        profile,
        tables: &book.tables_for(profile, &job.settings),
        study,
        walk: &walk,
    })
}

#[cfg(test)]
mod tests {
    use super::checked::Checked;
    use super::*;
    use crate::codebook::{CodeFamily, RuleSetting};
    use std::collections::BTreeSet;

    #[test]
    fn every_rule_has_a_name_of_its_own() {
        let ids: BTreeSet<&str> = RULES.iter().map(|rule| rule.id).collect();
        assert_eq!(ids.len(), RULES.len());
        for id in ids {
            let kebab = id
                .split('-')
                .all(|word| !word.is_empty() && word.bytes().all(|letter| letter.is_ascii_lowercase()));
            assert!(kebab, "{id}");
            assert_eq!(rule(id).map(|rule| rule.id), Some(id));
        }
        assert!(rule("no-such-rule").is_none());
    }

    #[test]
    fn every_rule_tells_what_it_stands_on() {
        for rule in RULES {
            assert!(!rule.title.is_empty() && !rule.title.ends_with('.'), "{}", rule.id);
            for family in CodeFamily::ALL.map(Some).into_iter().chain([None]) {
                let basis = rule.basis_under(Codebook::published(), family);
                assert!(
                    basis.len() > 10 && !basis.ends_with('.'),
                    "{} {family:?}: {basis}",
                    rule.id
                );
            }
        }
    }

    /// A rule answers each family with its clause, or says that none of it was read; and no clause stands anywhere but in
    /// the codebook's list.
    #[test]
    fn every_rule_has_an_answer_for_every_family_of_codes() {
        let book = Codebook::published();
        for rule in RULES {
            let known = book.clauses().iter().filter(|clause| clause.topic == rule.id).count();
            assert_eq!(rule.is_by_code(), known > 0, "{}", rule.id);
            if !rule.is_by_code() {
                for word in ["CPC", "IFGC", "IRC", "NFPA", "B149", "clause not read"] {
                    assert!(!rule.basis.contains(word), "{}: {}", rule.id, rule.basis);
                }
                continue;
            }
            for family in CodeFamily::ALL {
                let basis = rule.basis_under(book, Some(family));
                let own = book.clause(rule.id, family).map(|clause| clause.clause);
                let unread = format!("no clause of {} was read for this; asked by ", family.name());
                assert!(
                    basis.starts_with(own.unwrap_or(&unread)),
                    "{} {family:?}: {basis}",
                    rule.id
                );
            }
        }
    }

    #[test]
    fn profiles_name_rules_that_are_there() {
        for profile in Codebook::published().profiles() {
            for id in profile.rules.keys() {
                assert!(rule(id).is_some(), "{}: {id}", profile.name);
            }
        }
    }

    #[test]
    fn a_job_in_good_order_is_told_nothing_to_mend() {
        let told = Checked::of(&sample::good(), Codebook::published()).findings;
        let ids: Vec<&str> = told.iter().map(|finding| finding.rule).collect();
        assert_eq!(ids, ["added-load"]);
    }

    #[test]
    fn worst_comes_first_and_the_profile_has_the_last_word() {
        let mut job = sample::good();
        sample::clear(&mut job, sample::VALVE);
        sample::clear(&mut job, sample::TRAP);
        job.title.site.clear();
        let book = Codebook::published();
        let mut profile = book.default_profile().clone();
        let told = |profile: &Profile| {
            let study = Study::under(&job, book, profile);
            let told = Findings::under(&job, book, profile, &study);
            assert!(told.is_sorted_by_key(|finding| finding.severity));
            told.iter()
                .map(|finding| (finding.rule, finding.severity))
                .collect::<Vec<_>>()
        };
        let usual = told(&profile);
        assert_eq!(
            usual,
            [
                ("shutoff-missing", Severity::MustFix),
                ("trap-missing", Severity::MustFix),
                ("title-incomplete", Severity::Check),
                ("added-load", Severity::Note)
            ]
        );
        profile.rules.insert("trap-missing".to_owned(), RuleSetting::Note);
        profile.rules.insert("shutoff-missing".to_owned(), RuleSetting::Off);
        profile
            .rules
            .insert("title-incomplete".to_owned(), RuleSetting::MustFix);
        assert_eq!(
            told(&profile),
            [
                ("title-incomplete", Severity::MustFix),
                ("trap-missing", Severity::Note),
                ("added-load", Severity::Note)
            ]
        );
    }
}
