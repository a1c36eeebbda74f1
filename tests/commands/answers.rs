//! What every command answers, held against files that were read: `tests/commands/golden/<command>.txt` and `.json`.
//!
//! `BLESS=1 cargo test --test commands answers` takes the answers of today as right: read the difference. Of what `draw`
//! writes, files are held by what they are and, of some calls, by every word on them; their looks have tests of their own.

use super::golden::Golden;
use super::{Desk, complained, reader, said};
use rayon::prelude::*;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::Path;
use stubout::job::{Device, JointId, RunId};
use stubout::units::{Length, NominalSize};

/// A command as it is called, and whether its sheets are held word by word.
struct Call {
    name: &'static str,
    line: &'static str,
    sheets: Sheets,
}

/// What is held of the sheets that a call writes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sheets {
    /// What they are.
    Listed,
    /// Every word on them too.
    Read,
}

impl Call {
    fn command(&self) -> &'static str {
        self.line.split(' ').next().unwrap()
    }

    /// Of `draw` not every way to write its files says something else.
    fn has_json(&self) -> bool {
        let is_other =
            self.line.contains("--csv") || self.line.contains("--sheet") || matches!(self.line, "schema" | "licenses");
        !is_other && (self.command() != "draw" || self.sheets == Sheets::Read)
    }
}

const fn call(name: &'static str, line: &'static str) -> Call {
    let sheets = Sheets::Listed;
    Call { name, line, sheets }
}

const fn read(name: &'static str, line: &'static str) -> Call {
    let sheets = Sheets::Read;
    Call { name, line, sheets }
}

/// Each command once as it is, the first of its name, then with what changes its answer, and with `--json` too,
/// where they take it.
const CALLS: [Call; 61] = [
    read("draw", "draw patio-kitchen.ron --as svg"),
    read("draw-work", "draw patio-kitchen.ron --as svg --work --permit-checklist"),
    call("draw-work-alone", "draw patio-kitchen.ron --as svg --work"),
    read("draw-since", "draw now.ron --as svg --since patio-kitchen.ron"),
    read("draw-plan", "draw patio-kitchen.ron --as svg --plan"),
    call("draw-not-ready", "draw over.ron --as svg"),
    call("draw-ansi-a", "draw patio-kitchen.ron --as svg --paper ansi-a"),
    call(
        "draw-a4-portrait",
        "draw patio-kitchen.ron --as svg --paper a4 --portrait",
    ),
    call("draw-a3", "draw patio-kitchen.ron --as svg --paper a3"),
    call("draw-portrait", "draw patio-kitchen.ron --as svg --portrait"),
    call("draw-live-text", "draw patio-kitchen.ron --as svg --text live"),
    call("draw-bare", "draw patio-kitchen.ron --as svg --bare"),
    call("draw-pdf", "draw patio-kitchen.ron --as pdf --work"),
    call("draw-png", "draw patio-kitchen.ron --as png --dpi 40"),
    call("draw-dxf", "draw patio-kitchen.ron --as dxf"),
    call(
        "draw-own-lengths",
        "draw patio-kitchen.ron --as svg --work --lengths lengths.csv",
    ),
    call("size", "size patio-kitchen.ron"),
    call("size-csv", "size patio-kitchen.ron --csv"),
    call("size-own-profile", "size patio-kitchen.ron --profile own.ron"),
    call("size-own-table", "size tubing.ron --table invented-csst.tsv"),
    call("check", "check patio-kitchen.ron"),
    call("check-over-capacity", "check over.ron"),
    call("carry", "carry patio-kitchen.ron"),
    call("carry-over-capacity", "carry over.ron"),
    call("carry-prices", "carry over.ron --prices prices.csv"),
    read("carry-sheet", "carry over.ron --sheet SHEETS/carry.svg"),
    call("tie-in", "tie-in open.ron --head J14"),
    call("tie-in-all", "tie-in open.ron --head J14 --all"),
    call("tie-in-through", "tie-in open.ron --head J14 --through 2,4,4"),
    call("tie-in-new-pipe", "tie-in half.ron --head J23 --new-pipe"),
    read("tie-in-sheet", "tie-in open.ron --head J14 --sheet SHEETS/survey.svg"),
    call("changes", "changes patio-kitchen.ron now.ron"),
    call("variants", "variants routes.ron"),
    call(
        "variants-prices",
        "variants routes.ron --prices prices.csv --hours hours.csv",
    ),
    read("variants-sheet", "variants routes.ron --sheet SHEETS/variants.svg"),
    call(
        "changes-variants",
        "changes routes.ron routes.ron --variant around_the_north_side",
    ),
    call("steps", "steps patio-kitchen.ron"),
    call("permit-checklist", "permit-checklist patio-kitchen.ron"),
    call("start-up", "start-up lit.ron"),
    call("start-up-csv", "start-up patio-kitchen.ron --csv"),
    call("test", "test patio-kitchen.ron"),
    call("test-filled", "test patio-kitchen.ron --filled-to 20psi --at 70F"),
    call("count", "count patio-kitchen.ron"),
    call("take-off", "take-off patio-kitchen.ron"),
    call("take-off-csv", "take-off patio-kitchen.ron --csv"),
    call("take-off-prices", "take-off patio-kitchen.ron --prices prices.csv"),
    call(
        "quote",
        "quote patio-kitchen.ron --prices prices.csv --hours hours.csv --rate 85",
    ),
    read(
        "quote-sheet",
        "quote patio-kitchen.ron --prices prices.csv --sheet SHEETS/quote.svg",
    ),
    call("cut", "cut patio-kitchen.ron"),
    call("cut-csv", "cut patio-kitchen.ron --csv"),
    call("cut-own-lengths", "cut patio-kitchen.ron --lengths lengths.csv"),
    read("worksheet", "worksheet patio-kitchen.ron --as svg --into SHEETS"),
    read(
        "worksheet-steps",
        "worksheet patio-kitchen.ron --step-by-step --as pdf --into SHEETS",
    ),
    call(
        "worksheet-all",
        "worksheet patio-kitchen.ron --as pdf --into SHEETS --blank sizes,loads,sizing-lengths,pressures",
    ),
    call(
        "exercise",
        "exercise made.ron --outlets 9 --difficulty hard --seed 3 --force",
    ),
    call("mark", "mark patio-kitchen.ron answers.csv"),
    call("mark-csv", "mark patio-kitchen.ron answers.csv --csv"),
    call("rules", "rules"),
    call("rules-own-profile", "rules --profile own.ron"),
    call("schema", "schema"),
    call("licenses", "licenses"),
];

/// A foot of pipe of each size that is laid, a valve, and what nobody buys here.
const PRICES: &str = "what;price
pipe 1/2\" black steel, Schedule 40;2.10
pipe 3/4\" black steel, Schedule 40;2.60
pipe 1\" black steel, Schedule 40;3.90
pipe 1-1/4\" black steel, Schedule 40;5.20
ball valve 1/2\";14.50
hat;9
";

/// Hours for a foot of pipe and a piece.
const HOURS: &str = "what;hours
pipe 1\" steel;0.09
90° elbow 1\" steel;0.35
";

/// One who slips, one who leaves out, one who writes no size.
const ANSWERS: &str = "student,1,2,3,4,5
A. Student,1,3/4\",1/2,3/4,1/2
\"Other, B.\",1-1/4,,2,?,1
";

/// The patio kitchen and what was made of it.
fn desk() -> Desk {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let patio = include_str!("../../examples/patio-kitchen.ron");
    let job = |change: &dyn Fn(&mut stubout::job::Job)| {
        let mut job = stubout::file::read(patio).unwrap();
        change(&mut job);
        stubout::file::write(&job)
    };
    let over = job(&|job| {
        for run in [1, 2] {
            job.runs.get_mut(RunId(run)).unwrap().size = Some(NominalSize::Inch(16));
        }
    });
    let now = job(&|job| {
        job.title.site = "16 Example Court, Sampleton".to_owned();
        job.runs.get_mut(RunId(17)).unwrap().length = Some(Length::from_feet(30.0));
        let tee = job.joints.get_mut(JointId(18)).unwrap();
        tee.label = Some("tee by the grill".to_owned());
        if let Some(Device::Appliance(grill)) = device(job, 21) {
            grill.input = Some(stubout::units::HeatRate::from_btuh(85_000.0));
        }
    });
    let open = job(&|job| {
        job.runs.remove(RunId(14));
        // Drawn one step below its valve.
        job.joints.get_mut(JointId(6)).unwrap().at.up = 1;
    });
    let half = job(&|job| {
        job.runs.remove(RunId(23));
    });
    let lit = job(&|job| {
        let inches = |inches| Some(stubout::units::GaugePressure::from_inches_wc(inches));
        if let Some(Device::Appliance(grill)) = device(job, 21) {
            let read = &mut grill.start_up;
            (read.static_pressure, read.working, read.lock_up) = (inches(7.1), inches(4.8), inches(8.6));
            read.clocked = Some(stubout::units::Clocked::from_ft3_and_seconds(2.0, 96.0));
        }
        if let Some(Device::Appliance(furnace)) = device(job, 8) {
            (furnace.start_up.static_pressure, furnace.start_up.working) = (inches(7.1), inches(6.2));
        }
    });
    let lines = |name: &str| std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap();
    let own = lines("assets/profiles/us-ifgc.ron").replace("name: \"us-ifgc\"", "name: \"our-town\"");
    for (name, text) in [
        ("over.ron", over.as_str()),
        ("now.ron", &now),
        ("open.ron", &open),
        ("half.ron", &half),
        ("lit.ron", &lit),
        ("own.ron", &own),
        ("tubing.ron", &lines("tests/jobs/tubing-branch.ron")),
        ("invented-csst.tsv", &lines("tests/tables/invented-csst.tsv")),
        (
            "routes.ron",
            &lines("tests/jobs/patio-two-routes.ron").replace("Around the north side", "around_the_north_side"),
        ),
        ("hours.csv", HOURS),
        ("prices.csv", PRICES),
        ("answers.csv", ANSWERS),
        (
            "lengths.csv",
            "what; size; length\nball valve; 1/2; 2-1/8 in\nunion; 3/4; 2 in\n",
        ),
    ] {
        desk.put(name, text);
    }
    desk
}

fn device(job: &mut stubout::job::Job, joint: u32) -> Option<&mut Device> {
    let joint = job.joints.get_mut(JointId(joint))?;
    joint.placed.as_mut().map(|placed| &mut placed.device)
}

/// What is printed, then what was written.
fn answer(desk: &Desk, call: &Call, extra: &[&str]) -> String {
    let folder = desk.folder.path().join("out");
    std::fs::create_dir_all(&folder).unwrap();
    let line = call.line.replace("SHEETS", "out");
    let mut arguments: Vec<&str> = line.split(' ').collect();
    if arguments[0] == "draw" {
        arguments.extend(["--into", "out"]);
    }
    arguments.extend(extra);
    let output = desk.call(&arguments);
    let mut answer = said(&output);
    if call.line == "licenses" {
        // The rest is held by `tests/licenses.rs`.
        let head: Vec<&str> = answer.lines().take(3).chain(answer.lines().last()).collect();
        answer = head.join("\n") + "\n";
    }
    if extra.is_empty() {
        let code = output.status.code().unwrap();
        answer = format!("$ stubout {}\n{answer}exit code {code}\n", arguments.join(" "));
        if !output.stderr.is_empty() {
            write!(answer, "\n{}", complained(&output)).unwrap();
        }
        let mut files: Vec<_> = std::fs::read_dir(&folder)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .collect();
        files.sort();
        for path in files {
            answer += "\n";
            answer += &described(&path, call.sheets);
        }
    } else {
        assert!(output.stderr.is_empty(), "{}: {}", call.name, complained(&output));
    }
    std::fs::remove_dir_all(folder).unwrap();
    answer
}

/// What a file is.
fn described(path: &Path, sheets: Sheets) -> String {
    let bytes = std::fs::read(path).unwrap();
    let name = path.file_name().unwrap().to_string_lossy();
    let what = match path.extension().unwrap().to_str().unwrap() {
        "svg" => svg(std::str::from_utf8(&bytes).unwrap(), sheets),
        "pdf" => pdf(&bytes),
        "png" => {
            let picture = resvg::tiny_skia::Pixmap::decode_png(&bytes).unwrap();
            format!("{} × {} pixels\n", picture.width(), picture.height())
        }
        "dxf" => dxf(&bytes),
        other => panic!("{other}"),
    };
    format!("{name}: {what}")
}

fn svg(text: &str, sheets: Sheets) -> String {
    let xml = roxmltree::Document::parse(text).unwrap();
    let root = xml.root_element();
    let of = |name: &str| root.attribute(name).unwrap();
    let title = root
        .children()
        .find(|child| child.has_tag_name("title"))
        .and_then(|title| title.text());
    let carries = root.descendants().any(|node| node.tag_name().name() == "stubout-job");
    let named = |node: roxmltree::Node<'_, '_>| match node.attribute("role") {
        Some("img") => node.attribute("aria-label").map(str::to_owned),
        _ => node
            .has_tag_name("text")
            .then(|| node.text().unwrap_or_default().to_owned()),
    };
    let words: Vec<String> = root.descendants().filter_map(named).collect();
    let mut found = format!(
        "{} × {}, {:?}, {} lines of words{}\n",
        of("width"),
        of("height"),
        title.unwrap_or_default(),
        words.len(),
        if carries { ", carries its job" } else { "" }
    );
    if sheets == Sheets::Read {
        for words in words {
            writeln!(found, "    {words}").unwrap();
        }
    }
    found
}

fn pdf(bytes: &[u8]) -> String {
    let file = lopdf::Document::load_mem(bytes).unwrap();
    let pages = file.get_pages();
    let mut found = format!("{} pages\n", pages.len());
    for (number, page) in pages {
        let sheet = file.get_dictionary(page).unwrap();
        let size = sheet.get(b"MediaBox").and_then(|size| size.as_array()).unwrap();
        let size: Vec<String> = size
            .iter()
            .map(|side| format!("{:.0}", side.as_float().unwrap()))
            .collect();
        writeln!(found, "    page {number}: {} pt", size.join(" ")).unwrap();
    }
    found
}

fn dxf(bytes: &[u8]) -> String {
    let mut layers: BTreeMap<String, BTreeMap<String, usize>> = BTreeMap::new();
    for entity in reader::File::read(bytes).entities {
        let layer = layers.entry(entity.layer().to_owned()).or_default();
        *layer.entry(entity.kind).or_default() += 1;
    }
    let mut found = format!("{} layers in use\n", layers.len());
    for (layer, kinds) in layers {
        let kinds: Vec<String> = kinds.iter().map(|(kind, count)| format!("{count} {kind}")).collect();
        writeln!(found, "    {layer}: {}", kinds.join(", ")).unwrap();
    }
    found
}

/// The commands that the help lists.
fn commands(desk: &Desk) -> BTreeSet<String> {
    let help = said(&desk.call(&["--help"]));
    let listed = help
        .split("Commands:")
        .nth(1)
        .and_then(|rest| rest.split("\n\n").next());
    let names = listed.unwrap().lines().filter_map(|line| line.strip_prefix("  "));
    let names = names
        .filter(|line| !line.starts_with(' '))
        .filter_map(|line| line.split_whitespace().next());
    names.filter(|name| *name != "help").map(str::to_owned).collect()
}

#[test]
fn every_command_answers_as_it_was_read() {
    let called: BTreeSet<&str> = CALLS.iter().map(Call::command).collect();
    let listed = commands(&desk());
    assert_eq!(
        listed.iter().map(String::as_str).collect::<BTreeSet<_>>(),
        called,
        "each command is called"
    );
    let answers: Vec<(String, String)> = CALLS
        .par_iter()
        .flat_map_iter(|call| {
            let desk = desk();
            let text = (format!("{}.txt", call.name), answer(&desk, call, &[]));
            let json = call
                .has_json()
                .then(|| (format!("{}.json", call.name), answer(&desk, call, &["--json"])));
            std::iter::once(text).chain(json)
        })
        .collect();
    let mut golden = Golden::of("tests/commands/golden");
    for (name, answer) in answers {
        golden.text(&name, &answer);
    }
    golden.done();
}

/// Of each command, whoever reads `stubout schema` finds the keys that it prints, and no other; as the golden files have them.
#[test]
fn the_schema_names_every_key_that_is_printed_and_no_other() {
    if std::env::var_os("BLESS").is_some() {
        return; // The files are being written.
    }
    let page = said(&Desk::new().call(&["schema"]));
    let is_key = |word: &&str| {
        *word != "null"
            && word
                .chars()
                .all(|letter| letter.is_ascii_lowercase() || "_0123456789".contains(letter))
    };
    let quoted = |text: &str| -> BTreeSet<String> {
        let words = text.split('`').skip(1).step_by(2).filter(is_key);
        words.map(str::to_owned).collect()
    };
    let sections: Vec<&str> = page.split("\n\n").collect();
    let told = sections
        .iter()
        .filter_map(|section| section.trim_start().split_once("\n    "));
    let told: Vec<(&str, BTreeSet<String>)> = told.map(|(command, keys)| (command, quoted(keys))).collect();
    let rules = sections.iter().filter(|section| section.contains("Each of `places`"));
    let anywhere: BTreeSet<String> = rules
        .flat_map(|rules| quoted(rules))
        .chain(["file".to_owned()])
        .collect();
    let mut printed: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for call in CALLS.iter().filter(|call| call.has_json()) {
        let path = format!(
            "{}/tests/commands/golden/{}.json",
            env!("CARGO_MANIFEST_DIR"),
            call.name
        );
        let value: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let of_call = printed.entry(call.command()).or_default();
        match value.get("rules") {
            // The one command that is asked without a job.
            Some(rules) => {
                of_call.insert("rules".to_owned());
                keys(rules, of_call);
            }
            None => keys(&value["jobs"], of_call),
        }
    }
    let mut faults = Vec::new();
    for (command, told) in told.into_iter().filter(|(command, _)| *command != "schema") {
        let printed = printed.remove(command).unwrap();
        for key in printed
            .iter()
            .filter(|key| !told.contains(*key) && !anywhere.contains(*key))
        {
            faults.push(format!("{command} prints `{key}`"));
        }
        for key in told.into_iter().filter(|key| !printed.contains(key)) {
            faults.push(format!("{command} does not print `{key}`"));
        }
    }
    assert!(faults.is_empty() && printed.is_empty(), "{faults:#?} {printed:?}");
}

fn keys(value: &Value, all: &mut BTreeSet<String>) {
    match value {
        Value::Object(entries) => {
            for (key, value) in entries {
                all.insert(key.clone());
                keys(value, all);
            }
        }
        Value::Array(values) => values.iter().for_each(|value| keys(value, all)),
        Value::Null | Value::Bool(_) | Value::Number(_) | Value::String(_) => {}
    }
}
