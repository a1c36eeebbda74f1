//! The printed tables, read straight from their text and by nothing of the product; and what a section carries, and how far
//! its gas has come, walked through the job by hand.

use std::collections::BTreeMap;
use std::path::Path;
use stubout::job::{Device, Job, JointId, State};

/// A table: its rows by length in feet, small to large, each with its cells by size.
pub struct Printed {
    pub id: String,
    pub pipe: String,
    /// Capacities are in thousands of Btu per hour, not in cubic feet.
    pub is_heat: bool,
    pub sizes: Vec<String>,
    pub rows: Vec<(f64, Vec<Option<f64>>)>,
}

/// Every table of the fuel gas code.
pub fn tables() -> Vec<Printed> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/tables/ifgc-402.4");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    paths.sort();
    paths
        .iter()
        .map(|path| read(&std::fs::read_to_string(path).unwrap()))
        .collect()
}

fn read(text: &str) -> Printed {
    let (head, body) = text.split_once("\n\n").unwrap();
    let head: BTreeMap<&str, &str> = head.lines().filter_map(|line| line.split_once('\t')).collect();
    let mut lines = body.lines().filter(|line| !line.trim().is_empty());
    let columns: Vec<&str> = lines.next().unwrap().split('\t').collect();
    assert_eq!(columns[0], "length_ft", "{}", head["id"]);
    let last = columns
        .iter()
        .position(|column| *column == "mark")
        .unwrap_or(columns.len());
    let cell = |text: &&str| text.trim_end_matches(char::is_alphabetic).replace(',', "").parse().ok();
    let row = |line: &str| {
        let cells: Vec<&str> = line.split('\t').collect();
        (cells[0].parse().unwrap(), cells[1..last].iter().map(cell).collect())
    };
    Printed {
        id: head["id"].to_owned(),
        pipe: head["pipe"].to_owned(),
        is_heat: head["unit"].eq_ignore_ascii_case("mbh"),
        sizes: columns[1..last].iter().map(|size| (*size).to_owned()).collect(),
        rows: lines.map(row).collect(),
    }
}

impl Printed {
    /// The row of a length: the first that is not shorter.
    pub fn row(&self, feet: f64) -> Option<usize> {
        self.rows.iter().position(|row| row.0 >= feet - 1e-9)
    }

    /// The first column of a row that carries so much heat, MBH, of a gas of so many Btu per cubic foot.
    pub fn size(&self, row: usize, mbh: f64, value: f64) -> Option<&str> {
        let load = if self.is_heat { mbh } else { mbh * 1000.0 / value };
        let carries = |cell: &Option<f64>| cell.is_some_and(|cell| cell >= load * (1.0 - 1e-9));
        let at = self.rows.get(row)?.1.iter().position(carries)?;
        Some(&self.sizes[at])
    }

    /// The column before a size that the row has.
    pub fn smaller(&self, row: usize, size: &str) -> Option<&str> {
        let at = self.sizes.iter().position(|other| other == size)?;
        let before = (0..at).rev().find(|at| self.rows[row].1[*at].is_some())?;
        Some(&self.sizes[before])
    }
}

/// A job walked from its point of delivery.
pub struct Walked {
    /// For each run, by its position: the joint downstream.
    pub downstream: Vec<Option<JointId>>,
    /// The way in feet to each joint.
    pub way: BTreeMap<JointId, f64>,
    /// For each joint the outlets behind it, itself among them, each with its input in MBH.
    pub outlets: BTreeMap<JointId, Vec<(JointId, f64)>>,
}

impl Walked {
    pub fn of(job: &Job) -> Walked {
        let start = job
            .joints
            .iter()
            .find(|joint| matches!(joint.device(), Some(Device::Supply(_))))
            .unwrap()
            .id;
        let mut walked = Walked {
            downstream: vec![None; job.runs.len()],
            way: BTreeMap::from([(start, 0.0)]),
            outlets: BTreeMap::new(),
        };
        walked.go(job, start, None);
        walked
    }

    fn go(&mut self, job: &Job, from: JointId, by: Option<usize>) -> Vec<(JointId, f64)> {
        let joint = job.joints.get(from).unwrap();
        let input = match joint.device() {
            Some(Device::Appliance(appliance)) => appliance.input,
            Some(Device::Cap(cap)) => cap.future_input,
            _ => None,
        };
        let mut found: Vec<(JointId, f64)> = input.iter().map(|input| (from, input.btuh() / 1000.0)).collect();
        for (at, run) in job
            .runs
            .iter()
            .enumerate()
            .filter(|(at, run)| by != Some(*at) && run.state != State::Removed)
        {
            let to = match (run.from == from, run.to == from) {
                (true, _) => run.to,
                (_, true) => run.from,
                _ => continue,
            };
            self.downstream[at] = Some(to);
            let way = self.way[&from] + job.true_length(run).feet();
            self.way.insert(to, way);
            found.extend(self.go(job, to, Some(at)));
        }
        self.outlets.insert(from, found.clone());
        found
    }

    /// What a run carries, MBH.
    pub fn load(&self, run: usize) -> f64 {
        let to = self.downstream[run].unwrap();
        self.outlets[&to].iter().map(|outlet| outlet.1).sum()
    }

    /// The way to the farthest outlet behind a run, feet.
    pub fn farthest(&self, run: usize) -> f64 {
        let to = self.downstream[run].unwrap();
        self.outlets[&to]
            .iter()
            .map(|outlet| self.way[&outlet.0])
            .fold(0.0, f64::max)
    }

    /// The way to the farthest of all.
    pub fn longest(&self) -> f64 {
        let all = self.outlets.values().flatten();
        all.map(|outlet| self.way[&outlet.0]).fold(0.0, f64::max)
    }
}
