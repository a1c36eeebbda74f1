//! `stubout exercise`: a job file with piping to be sized by a class, and the traps in it.

use super::input::report;
use super::{machine, table};
use crate::codebook::Codebook;
use crate::disk::{self, Trouble};
use crate::file;
use crate::job::{Fuel, Material, Method};
use crate::lesson::{Difficulty, Exercise, Wanted, exercise};
use clap::{Args, ValueEnum};
use serde_json::json;
use std::path::PathBuf;

/// What is wanted.
#[derive(Args)]
pub struct ExerciseArguments {
    /// Job file to write
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// How many outlets: 5 to 25
    #[arg(long, default_value_t = 8, value_name = "N")]
    outlets: usize,
    /// What pipe is made of
    #[arg(long, value_enum, default_value_t = Pipe::Steel)]
    material: Pipe,
    /// The gas
    #[arg(long, value_enum, default_value_t = Gas::Natural)]
    gas: Gas,
    /// By which method it is sized
    #[arg(long, value_enum, default_value_t = By::LongestLength)]
    method: By,
    /// Easy: loads between columns and lengths between rows; medium: also a branch that the other method sizes differently;
    /// hard: also existing pipe over capacity
    #[arg(long, value_enum, default_value_t = Level::Medium)]
    difficulty: Level,
    /// Which exercise: the same number gives the same
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    seed: u64,
    /// Write over a file that is there
    #[arg(long)]
    force: bool,
    /// Print for machines: one JSON value, described by `stubout schema`
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Pipe {
    Steel,
    CopperK,
    CopperL,
    Csst,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Gas {
    Natural,
    Propane,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    LongestLength,
    BranchLength,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Level {
    Easy,
    Medium,
    Hard,
}

impl ExerciseArguments {
    const fn wanted(&self) -> Wanted {
        Wanted {
            outlets: self.outlets,
            material: match self.material {
                Pipe::Steel => Material::Steel40,
                Pipe::CopperK => Material::CopperK,
                Pipe::CopperL => Material::CopperL,
                Pipe::Csst => Material::Csst,
            },
            fuel: match self.gas {
                Gas::Natural => Fuel::Natural,
                Gas::Propane => Fuel::Propane,
            },
            method: match self.method {
                By::LongestLength => Method::LongestLength,
                By::BranchLength => Method::BranchLength,
            },
            difficulty: match self.difficulty {
                Level::Easy => Difficulty::Easy,
                Level::Medium => Difficulty::Medium,
                Level::Hard => Difficulty::Hard,
            },
            seed: self.seed,
        }
    }
}

/// Makes an exercise and writes its job file.
pub fn run(arguments: &ExerciseArguments) -> u8 {
    let made = match make(arguments) {
        Ok(made) => made,
        Err(fault) => return report(&fault),
    };
    if arguments.json {
        let result = (arguments.job.clone(), Ok(made));
        return machine::print("exercise", &[result], |made| json!({ "traps": made.traps }));
    }
    let mut text = format!("{}\n", made.job.title.job);
    for trap in &made.traps {
        text += &format!("  {trap}\n");
    }
    text += &format!("  wrote {}\n{}\n", arguments.job.display(), table::CAUTION);
    table::out(&text)
}

fn make(arguments: &ExerciseArguments) -> Result<Exercise, String> {
    let path = &arguments.job;
    if !arguments.force && path.exists() {
        return Err(format!(
            "{}: a file is there; choose another name, or write over it with --force",
            path.display()
        ));
    }
    let made = exercise(arguments.wanted(), Codebook::published())?;
    disk::write(path, file::write(&made.job).as_bytes()).map_err(|error| {
        let trouble = Trouble::of("Write the job", path, &error);
        format!(
            "{}: can't be written: {}; {}",
            path.display(),
            trouble.what,
            trouble.remedy
        )
    })?;
    Ok(made)
}
