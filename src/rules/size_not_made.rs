//! Sizes in which a material is not made.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::codebook::PipeKind;
use crate::job::State;
use crate::study::words::capital;

/// A size must be one of its material.
pub const RULE: Rule = Rule {
    id: "size-not-made",
    title: "Pipe has a size that its material is not made in",
    severity: Severity::MustFix,
    basis: "pipe and tube sizes in this program (ASME B36.10M, ASTM B88, manufacturers of tubing)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, section) in look.study.sections.iter().enumerate() {
        let Some(size) = section.sizing.size else { continue };
        let sizes = look.book.sizes(section.material);
        let kind = PipeKind::of(section.material);
        if sizes.is_empty() || look.book.pipe(section.material, size).is_some() || look.tables.has_size(kind, size) {
            continue;
        }
        let made = sizes.iter().map(|pipe| pipe.size).chain(look.tables.own_sizes(kind));
        let made: Vec<String> = made.map(|size| look.show(size)).collect();
        let remedy = match section.state {
            State::Existing => "Measure the pipe again, or check its material.",
            State::New | State::Removed => "Use a size that is made, or leave it open to be sized.",
        };
        found.at_all(
            look.on_all(&section.runs),
            format!(
                "{} has a size that is not made in {}: {}. The known sizes are {}.",
                capital(&look.section_name(number)),
                section.material.name(),
                look.study.names.show(section.material, size),
                made.join(", ")
            ),
            remedy,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::Material;
    use crate::units::NominalSize;

    #[test]
    fn corrugated_tubing_has_no_inch_sizes() {
        check(&RULE, 1, |job| run(job, 1).material = Some(Material::Csst));
        check(&RULE, 1, |job| run(job, 1).size = Some(NominalSize::Inch(14)));
        check(&RULE, 0, |job| {
            (run(job, 1).material, run(job, 1).size) = (Some(Material::Csst), Some(NominalSize::Ehd(46)));
        });
    }
}
