//! Rows of a long section schedule that differ in nothing but what they carry, as one row: the legs of a header.
//!
//! Nothing is lost by it: size, length, table row and capacity are the same, the largest load is the one that must be within
//! capacity, and what each leg carries is the sum of the inputs behind it.

use super::table::{Row, Weight};
use crate::units::{Flow, ranges};

/// A schedule of at most so many rows has one for each section.
const SHORT: usize = 20;
/// Fewer rows stay apart.
const FEW: usize = 3;
/// Numbers that need more letters stay apart too: nobody would find one among them.
const MOST_LETTERS: usize = 14;

/// A section with its row.
pub struct Line {
    /// The number in its hexagon.
    pub number: usize,
    /// What it carries.
    pub load: Flow,
    /// Its row.
    pub row: Row,
}

/// The rows, those alike together where there are many; `differ` are the columns of numbers, outlets served and loads.
pub fn together(lines: Vec<Line>, differ: [usize; 3]) -> Vec<Row> {
    if lines.len() <= SHORT {
        return lines.into_iter().map(|line| line.row).collect();
    }
    let mut groups: Vec<Vec<Line>> = Vec::new();
    for line in lines {
        let known = groups
            .iter_mut()
            .find(|group| are_alike(&group[0].row, &line.row, differ));
        match known {
            Some(group) => group.push(line),
            None => groups.push(vec![line]),
        }
    }
    let mut rows: Vec<(usize, Row)> = Vec::new();
    for group in groups {
        let numbers = said(&group.iter().map(|line| line.number).collect::<Vec<_>>());
        match group.len() >= FEW && numbers.chars().count() <= MOST_LETTERS {
            true => rows.extend(as_one(&group, numbers, differ)),
            false => rows.extend(group.into_iter().map(|line| (line.number, line.row))),
        }
    }
    rows.sort_by_key(|(number, _)| *number);
    rows.into_iter().map(|(_, row)| row).collect()
}

fn are_alike(one: &Row, other: &Row, differ: [usize; 3]) -> bool {
    let cells = one.cells.iter().zip(&other.cells).enumerate();
    let mut same = cells.filter(|(at, _)| !differ.contains(at));
    one.weight == Weight::Plain && other.weight == Weight::Plain && same.all(|(_, (one, other))| one == other)
}

/// One row for all of a group, with its first number.
fn as_one(group: &[Line], numbers: String, [number, serves, load]: [usize; 3]) -> Option<(usize, Row)> {
    let first = group.first()?;
    let by_load = |one: &&Line, other: &&Line| one.load.cfh().total_cmp(&other.load.cfh());
    let (least, most) = (group.iter().min_by(by_load)?, group.iter().max_by(by_load)?);
    let span = |column: usize, dash: &str| match (most.row.cell(column), least.row.cell(column)) {
        (most, least) if most == least => most.to_owned(),
        (most, least) => format!("{most}{dash}{least}"),
    };
    let mut row = first.row.clone();
    row.cells[number] = numbers;
    row.cells[serves] = span(serves, " … ");
    row.cells[load] = span(load, "–");
    Some((first.number, row))
}

/// Numbers as short as can be: `4, 6 … 24` where all are equally far apart.
fn said(numbers: &[usize]) -> String {
    let step = |pair: &[usize]| pair[1] - pair[0];
    let steps: Vec<usize> = numbers.windows(2).map(step).collect();
    match (numbers, steps.as_slice()) {
        ([first, second, _, .., last], [step, rest @ ..]) if *step > 1 && rest.iter().all(|other| other == step) => {
            format!("{first}, {second} … {last}")
        }
        _ => ranges(numbers.iter().copied()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(number: usize, serves: &str, load: f64, size: &str) -> Line {
        let cells = [&number.to_string(), serves, size, &load.to_string()].map(str::to_owned);
        Line {
            number,
            load: Flow::from_cfh(load),
            row: Row::new(cells.to_vec()),
        }
    }

    fn header(legs: usize) -> Vec<Line> {
        let leg = |at: usize| {
            let load = (1 + legs - at) as f64 * 100.0;
            let drop = ["1/2\"", "3/4\"", "1\""][at % 3];
            [
                line(2 * at, &format!("{at}-Z"), load, "2\""),
                line(2 * at + 1, "X", load, drop),
            ]
        };
        (1..=legs).flat_map(leg).collect()
    }

    #[test]
    fn the_legs_of_a_header_are_one_row_where_the_schedule_is_long() {
        let rows = together(header(12), [0, 1, 3]);
        assert_eq!(rows[0].cells, ["2, 4 … 24", "1-Z … 12-Z", "2\"", "1200–100"]);
        let numbers: Vec<&str> = rows.iter().map(|row| row.cell(0)).collect();
        assert_eq!(numbers, ["2, 4 … 24", "3, 9 … 21", "5, 11 … 23", "7, 13 … 25"]);
        assert_eq!(together(header(10), [0, 1, 3]).len(), 20);
    }

    #[test]
    fn what_fails_stands_alone() {
        let mut lines = header(12);
        lines[0].row.weight = Weight::Strong;
        let rows = together(lines, [0, 1, 3]);
        assert_eq!([rows[0].cell(0), rows[2].cell(0)], ["2", "4, 6 … 24"]);
    }

    #[test]
    fn numbers_are_as_short_as_can_be() {
        assert_eq!(said(&[4, 6, 8, 10]), "4, 6 … 10");
        assert_eq!(said(&[4, 5, 6]), "4–6");
        assert_eq!(said(&[3, 4, 9]), "3, 4, 9");
    }
}
