//! The commands as a user calls them: exit codes, files written, words printed, faults named.

#[path = "commands/answers.rs"]
mod answers;
#[path = "support/golden.rs"]
mod golden;
#[path = "commands/no_display.rs"]
mod no_display;
#[path = "commands/outputs.rs"]
mod outputs;
#[path = "dxf/reader.rs"]
#[allow(dead_code)]
mod reader;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

struct Desk {
    folder: tempfile::TempDir,
}

impl Desk {
    fn new() -> Desk {
        Desk {
            folder: tempfile::tempdir().unwrap(),
        }
    }

    fn put(&self, name: &str, text: &str) -> PathBuf {
        let path = self.folder.path().join(name);
        fs::write(&path, text).unwrap();
        path
    }

    fn example(&self, name: &str) -> PathBuf {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name);
        self.put(name, &fs::read_to_string(path).unwrap())
    }

    fn call(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_stubout"))
            .args(arguments)
            .current_dir(self.folder.path())
            .env_remove("DISPLAY")
            .env_remove("WAYLAND_DISPLAY")
            .output()
            .unwrap()
    }

    fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<_> = entries
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn complained(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

const OPEN_END: &str = r#"(
    version: 1,
    joints: [(id: 1, at: (0, 0, 0), device: supply(pressure: "7 in wc")), (id: 2, at: (4, 0, 0))],
    runs: [(id: 1, from: 1, to: 2)],
)"#;

#[test]
fn draw_writes_the_sheet_beside_the_job_and_sums_up() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let output = desk.call(&["draw", "patio-kitchen.ron"]);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    assert!(
        desk.names().contains(&"patio-kitchen.pdf".to_owned()),
        "{:?}",
        desk.names()
    );
    assert!(
        desk.names().iter().any(|name| name.ends_with(".svg")),
        "{:?}",
        desk.names()
    );
    assert!(said(&output).contains("280,000 Btu/h"), "{}", said(&output));
    assert!(said(&output).contains("wrote"), "{}", said(&output));
}

#[test]
fn draw_takes_many_jobs_formats_and_a_folder() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    desk.example("classroom.ron");
    let output = desk.call(&[
        "draw",
        "patio-kitchen.ron",
        "classroom.ron",
        "--into",
        "out",
        "--as",
        "png",
        "--as",
        "dxf",
        "--dpi",
        "50",
        "--paper",
        "a3",
    ]);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    let out = fs::read_dir(desk.folder.path().join("out")).unwrap();
    let names: Vec<_> = out
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    for job in ["patio-kitchen", "classroom"] {
        assert!(
            names.iter().any(|name| name.starts_with(job) && name.ends_with(".png")),
            "{names:?}"
        );
        assert!(names.contains(&format!("{job}.dxf")), "one sheet holds it: {names:?}");
    }
}

/// Whoever reads what a command prints, reads the caution: under each answer, in each JSON value, in each help.
#[test]
fn every_command_prints_the_caution() {
    const CAUTION: &str = "Gas work is for licensed people.";
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    desk.put("grill.ron", NEW_GRILL);
    desk.put("answers.csv", "student,1\nA. Student,3/4\n");
    desk.put("prices.csv", "cap 3/4\" steel;1.25\n");
    let help = desk.call(&["--help"]);
    let listed = said(&help);
    let commands = listed
        .split("Commands:")
        .nth(1)
        .and_then(|rest| rest.split("\n\n").next());
    let names: Vec<&str> = commands
        .unwrap()
        .lines()
        .filter_map(|line| line.strip_prefix("  ").filter(|line| !line.starts_with(' ')))
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help")
        .collect();
    assert!(names.len() >= 12 && names.contains(&"draw"), "{names:?}");
    for name in names {
        for asked in ["-h", "--help"] {
            assert!(said(&desk.call(&[name, asked])).contains(CAUTION), "{name} {asked}");
        }
        let mut call = vec![name, "patio-kitchen.ron"];
        match name {
            "draw" => call.extend(["--as", "svg"]),
            "tie-in" => call = vec![name, "grill.ron", "--head", "J3"],
            "worksheet" => call.extend(["--as", "svg"]),
            "mark" => call.push("answers.csv"),
            "exercise" => call = vec![name, "made.ron", "--force"],
            "changes" => call.push("patio-kitchen.ron"),
            "quote" => call.extend(["--prices", "prices.csv"]),
            "rules" | "schema" | "licenses" => call = vec![name],
            _ => {}
        }
        let answer = desk.call(&call);
        assert!(said(&answer).contains(CAUTION), "{name}: {}", complained(&answer));
        if matches!(name, "schema" | "licenses") {
            continue;
        }
        call.push("--json");
        let answer: serde_json::Value = serde_json::from_str(&said(&desk.call(&call))).unwrap();
        assert!(answer["caution"].as_str().unwrap().contains(CAUTION), "{name}");
    }
    assert!(said(&desk.call(&["-h"])).contains(CAUTION));
}

#[test]
fn two_jobs_of_one_name_are_refused_before_anything_is_written() {
    let desk = Desk::new();
    fs::create_dir(desk.folder.path().join("a")).unwrap();
    desk.put("job.ron", OPEN_END);
    desk.put("a/job.ron", OPEN_END);
    let output = desk.call(&["draw", "job.ron", "a/job.ron", "--into", "out"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        complained(&output).contains("would both write this sheet"),
        "{}",
        complained(&output)
    );
    assert_eq!(
        fs::read_dir(desk.folder.path().join("out")).map_or(0, Iterator::count),
        0
    );
}

#[test]
fn every_command_takes_the_svg_of_a_sheet_for_its_job() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    for (folder, bare) in [("out", None), ("bare", Some("--bare"))] {
        // Small paper: the job takes more than one sheet of it.
        let mut arguments = vec!["draw", "patio-kitchen.ron", "--as", "svg", "--into", folder];
        arguments.extend(["--paper", "ansi-a"]);
        arguments.extend(bare);
        assert_eq!(desk.call(&arguments).status.code(), Some(0));
    }
    let drawn = "out/patio-kitchen-1.svg";
    for command in [
        "size",
        "check",
        "carry",
        "steps",
        "test",
        "permit-checklist",
        "count",
        "take-off",
        "cut",
        "start-up",
        "variants",
    ] {
        let of = |job: &str| desk.call(&[command, job]);
        let (plain, carried) = (of("patio-kitchen.ron"), of(drawn));
        assert_eq!(carried.status, plain.status, "{command}: {}", complained(&carried));
        assert_eq!(said(&carried), said(&plain), "{command}");
    }
    assert_eq!(
        desk.call(&["draw", drawn, "--into", "again", "--as", "svg", "--paper", "ansi-a"])
            .status
            .code(),
        Some(0)
    );
    let read = |path: &str| fs::read_to_string(desk.folder.path().join(path)).unwrap();
    assert_eq!(read("again/patio-kitchen-1-1.svg"), read(drawn));
    for without in ["bare/patio-kitchen-1.svg", "out/patio-kitchen-2.svg"] {
        let output = desk.call(&["size", without]);
        assert_eq!(output.status.code(), Some(2));
        let expected = format!("{without}: this SVG has no job inside\n");
        assert!(complained(&output).starts_with(&expected), "{}", complained(&output));
    }
}

#[test]
fn a_job_is_never_written_over() {
    let desk = Desk::new();
    let path = desk.put("job.svg", OPEN_END);
    // However its path is written.
    let here: &[&[&str]] = &[&[], &["--into", "."], &["--into", "none/.."], &["--bare"]];
    for into in here {
        let output = desk.call(&[&["draw", "job.svg", "--as", "svg"], *into].concat());
        assert_eq!(output.status.code(), Some(2), "{into:?}");
        assert!(complained(&output).contains("--into"), "{}", complained(&output));
        assert_eq!(fs::read_to_string(&path).unwrap(), OPEN_END);
    }
}

#[test]
fn check_tells_by_its_exit_code() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    desk.put("open.ron", OPEN_END);
    assert_eq!(desk.call(&["check", "patio-kitchen.ron"]).status.code(), Some(0));
    let output = desk.call(&["check", "open.ron"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    assert!(said(&output).contains("must fix"), "{}", said(&output));
    assert_eq!(desk.call(&["check", "nowhere.ron"]).status.code(), Some(2));
}

#[test]
fn a_broken_job_is_named_with_its_place_and_spoils_no_other() {
    let desk = Desk::new();
    desk.put("broken.ron", "(\n    version: 1,\n    jonts: [],\n)");
    desk.put("open.ron", OPEN_END);
    let output = desk.call(&["count", "broken.ron", "open.ron"]);
    assert_eq!(output.status.code(), Some(2));
    let fault = complained(&output);
    assert!(
        fault.contains("broken.ron") && fault.contains("jonts") && fault.contains("joints"),
        "{fault}"
    );
    assert!(said(&output).contains("open.ron"), "{}", said(&output));
}

#[test]
fn machines_get_one_value_with_every_job_in_it() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    desk.put("open.ron", OPEN_END);
    for command in ["size", "check", "count", "cut", "take-off", "draw"] {
        let output = desk.call(&[command, "patio-kitchen.ron", "open.ron", "nowhere.ron", "--json"]);
        let value: serde_json::Value = serde_json::from_str(&said(&output)).unwrap();
        assert_eq!(value["stubout"], 2);
        assert_eq!(value["command"], command);
        let jobs = value["jobs"].as_array().unwrap();
        assert_eq!(jobs.len(), 3);
        assert_eq!(jobs[0]["file"], "patio-kitchen.ron");
        assert!(jobs[0]["error"].is_null(), "{}", jobs[0]);
        assert!(
            jobs[2]["error"].as_str().unwrap().contains("no such file"),
            "{}",
            jobs[2]
        );
    }
}

#[test]
fn size_gives_the_reason_and_the_pressure() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let text = said(&desk.call(&["size", "patio-kitchen.ron"]));
    for words in [
        "402.4(2)",
        "Built-in grill",
        "Outlets at full load",
        "in w.c.",
        "licensed",
    ] {
        assert!(text.contains(words), "{words} is missing:\n{text}");
    }
}

#[test]
fn a_profile_of_ones_own_is_used_and_a_broken_one_named() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let own = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/profiles/us-ifgc.ron")).unwrap();
    desk.put("own.ron", &own.replace("name: \"us-ifgc\"", "name: \"our-town\""));
    let output = desk.call(&["size", "patio-kitchen.ron", "--profile", "own.ron", "--json"]);
    let value: serde_json::Value = serde_json::from_str(&said(&output)).unwrap();
    assert_eq!(value["jobs"][0]["profile"], "our-town");
    desk.put("bad.ron", "(name: 3)");
    let output = desk.call(&["size", "patio-kitchen.ron", "--profile", "bad.ron"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(complained(&output).contains("bad.ron"), "{}", complained(&output));
}

const NEW_GRILL: &str = r#"(
    version: 1,
    joints: [
        (id: 1, at: (0, 0, 0), state: existing, device: supply(pressure: "7 in wc")),
        (id: 2, at: (20, 0, 0), state: existing, device: appliance(name: "Furnace", input: "80 MBH", least_inlet: "5 in wc")),
        (id: 3, at: (8, 6, 0), device: appliance(name: "Grill", input: "60 MBH")),
    ],
    runs: [(id: 1, from: 1, to: 2, state: existing, size: "1")],
)"#;

#[test]
fn tie_ins_are_ranked_with_reasons_and_faults_named() {
    let desk = Desk::new();
    desk.put("grill.ron", NEW_GRILL);
    let output = desk.call(&["tie-in", "grill.ron", "--head", "J3"]);
    let text = said(&output);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    for words in [
        "20 places tried, each 1'-0\" and each joint, sized by branch length, profile us-ifgc",
        "1. R1, 8'-0\" from J1",
        "Nothing is over capacity with the branch here.",
        "Furnace",
        "licensed",
    ] {
        assert!(text.contains(words), "{words} is missing:\n{text}");
    }
    assert!(!text.to_lowercase().contains("complies"));
    let call = [
        "tie-in",
        "grill.ron",
        "--head",
        "3",
        "--through",
        "8,-6,0",
        "--all",
        "--json",
    ];
    let value: serde_json::Value = serde_json::from_str(&said(&desk.call(&call))).unwrap();
    let rows = value["jobs"][0]["tie_ins"].as_array().unwrap();
    assert_eq!((rows.len(), &value["jobs"][0]["spacing_ft"]), (20, &1.0.into()));
    assert!(rows[0]["line_ft"].as_f64() >= Some(12.0) && rows[0]["inlets"].as_array().unwrap().len() == 2);
    for (arguments, words) in [
        (
            ["--head", "J2"],
            "grill.ron: J2 is already connected to a point of delivery",
        ),
        (["--head", "furnace"], "write a joint as J12"),
        (["--head=J3", "--through=4,5"], "three whole numbers"),
    ] {
        let output = desk.call(&[&["tie-in", "grill.ron"][..], &arguments].concat());
        assert_eq!(output.status.code(), Some(2));
        assert!(complained(&output).contains(words), "{}", complained(&output));
    }
}

#[test]
fn no_word_of_the_commands_promises_that_a_job_is_right() {
    let desk = Desk::new();
    for name in [
        "patio-kitchen.ron",
        "two-pressure-house.ron",
        "propane-cabin.ron",
        "classroom.ron",
    ] {
        desk.example(name);
        for command in ["size", "check", "count", "cut", "take-off"] {
            let text = said(&desk.call(&[command, name])).to_lowercase();
            for word in ["complies", "compliant", "is safe", "approved"] {
                assert!(!text.contains(word), "{command} {name} says {word}");
            }
        }
    }
}

#[test]
fn sections_are_printed_for_a_spreadsheet() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let csv = said(&desk.call(&["size", "patio-kitchen.ron", "--csv"]));
    let json = said(&desk.call(&["size", "patio-kitchen.ron", "--json"]));
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let sections = json["jobs"][0]["sections"].as_array().unwrap();
    let rows: Vec<&str> = csv.lines().collect();
    assert_eq!(rows.len(), sections.len() + 1);
    for (row, section) in rows[1..].iter().zip(sections) {
        assert!(
            row.starts_with(&format!("patio-kitchen.ron,{},", section["number"])),
            "{row}"
        );
        let result = section["result"].as_str().unwrap().replace('_', " ");
        assert!(row.ends_with(&result), "{row}");
    }
}

#[test]
fn a_cut_list_is_printed_as_text_as_csv_and_for_machines() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let output = desk.call(&["cut", "patio-kitchen.ron"]);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    let text = said(&output);
    assert!(text.contains("measure your fittings"), "{text}");
    assert!(text.contains("P1 ") && text.contains("it is not an approval"), "{text}");
    let csv = said(&desk.call(&["cut", "patio-kitchen.ron", "--csv"]));
    assert!(
        csv.starts_with("job,piece,size,material,center to center,from,to,cut,runs\r\n"),
        "{csv}"
    );
    let json = said(&desk.call(&["cut", "patio-kitchen.ron", "--json"]));
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let job = &json["jobs"][0];
    let count = |parts: &serde_json::Value| parts.as_array().unwrap().len();
    let pieces = job["pieces"].as_array().unwrap();
    let cut = pieces.iter().filter(|piece| piece["making"] == "cut");
    let parts: usize = cut.map(|piece| count(&piece["parts"])).sum();
    let sticks = job["stock"].as_array().unwrap().iter();
    let planned = sticks.flat_map(|group| group["lengths"].as_array().unwrap());
    assert_eq!(planned.map(|stick| count(&stick["parts"])).sum::<usize>(), parts);
}

#[test]
fn a_cut_list_takes_lengths_of_ones_own_and_names_their_faulty_lines() {
    let desk = Desk::new();
    desk.put("tee.ron", include_str!("jobs/everyday-tubing-tee.ron"));
    let last = |output: &Output| {
        let value: serde_json::Value = serde_json::from_str(&said(output)).unwrap();
        value["jobs"][0]["pieces"].as_array().unwrap().last().unwrap().clone()
    };
    // Between valve and coupling, which nobody measured, no length is told.
    let piece = last(&desk.call(&["cut", "tee.ron", "--json"]));
    assert!(piece["cut_in"].is_null() && piece["making_in"].is_null(), "{piece}");
    assert!(said(&desk.call(&["cut", "tee.ron"])).contains("nipple, measure"));
    desk.put(
        "own.csv",
        "what; size; length\nball valve; 1/2; 2-1/8 in\nquick-disconnect coupling; 3/8; 2-3/4 in\n",
    );
    let output = desk.call(&["cut", "tee.ron", "--json", "--lengths", "own.csv"]);
    let piece = last(&output);
    assert!((piece["cut_in"].as_f64().unwrap() - 2.1945).abs() < 1e-3, "{piece}");
    let output = desk.call(&["take-off", "tee.ron", "--lengths", "own.csv"]);
    assert!(said(&output).contains("1/2\" × 2 in"), "{}", said(&output));
    desk.put("own.csv", "ball valve; 1/2; 2-1/8 in\nbal valve; 1/2; 2 in\n");
    let output = desk.call(&["cut", "tee.ron", "--lengths", "own.csv"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        complained(&output).contains("own.csv, line 2: `bal valve` is not a part of a line here"),
        "{}",
        complained(&output)
    );
}

#[test]
fn a_take_off_takes_prices_of_ones_own_and_names_their_faulty_lines() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let csv = said(&desk.call(&["take-off", "patio-kitchen.ron", "--csv"]));
    assert!(
        csv.starts_with("job,what,amount,unit,state,action,price,mark,at,remark\r\n"),
        "{csv}"
    );
    desk.put(
        "prices.csv",
        "what;price\nball valve 1/2\" ;0\nthreaded joint to be made up;0.10\n",
    );
    let output = desk.call(&["take-off", "patio-kitchen.ron", "--prices", "prices.csv"]);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    assert!(
        said(&output).contains("Total of the priced lines: "),
        "{}",
        said(&output)
    );
    desk.put("prices.csv", "tee;cheap\n");
    let output = desk.call(&["take-off", "patio-kitchen.ron", "--prices", "prices.csv"]);
    assert_eq!(output.status.code(), Some(0), "a first line without a figure is a head");
    desk.put("prices.csv", "what;price\ntee;cheap\n");
    let output = desk.call(&["take-off", "patio-kitchen.ron", "--prices", "prices.csv"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        complained(&output).contains("prices.csv, line 2: `cheap` is not a price"),
        "{}",
        complained(&output)
    );
}

#[test]
fn test_order_and_permit_list_print_for_people_and_machines() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    for (command, words) in [
        ("test", "if only the temperature changes"),
        ("steps", "Relight"),
        ("permit-checklist", "14 of 23"),
    ] {
        let output = desk.call(&[command, "patio-kitchen.ron"]);
        assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
        assert!(said(&output).contains(words) && said(&output).contains("Gas work is for licensed people"));
        let json = desk.call(&[command, "patio-kitchen.ron", "--json"]);
        assert!(
            said(&json).contains(&format!("\"command\": \"{command}\"")),
            "{}",
            said(&json)
        );
    }
    let example = desk.call(&["test", "patio-kitchen.ron", "--filled-to", "20 psi", "--at", "70F"]);
    assert!(said(&example).contains("40 °F  18.03 psig"), "{}", said(&example));
    let wrong = desk.call(&["test", "patio-kitchen.ron", "--at", "warm"]);
    assert!(complained(&wrong).contains("70F"), "{}", complained(&wrong));
}

#[test]
fn what_changed_since_the_issue_is_told_for_people_and_machines() {
    let desk = Desk::new();
    let issued = desk.example("patio-kitchen.ron");
    let text = fs::read_to_string(&issued).unwrap();
    desk.put("now.ron", &text.replacen("14 Example Court", "16 Example Court", 1));
    let same = desk.call(&["changes", "patio-kitchen.ron", "patio-kitchen.ron"]);
    assert_eq!(same.status.code(), Some(0), "{}", complained(&same));
    assert!(
        said(&same).contains("Nothing drawn or entered has changed."),
        "{}",
        said(&same)
    );
    let other = desk.call(&["changes", "patio-kitchen.ron", "now.ron"]);
    assert!(
        said(&other).contains("job address 16 Example Court, Sampleton, was 14"),
        "{}",
        said(&other)
    );
    for output in [&same, &other] {
        assert!(said(output).contains("it is not an approval"), "{}", said(output));
    }
    let json = desk.call(&["changes", "patio-kitchen.ron", "now.ron", "--json"]);
    assert!(said(&json).contains("\"part\": \"title\""), "{}", said(&json));
    let missing = desk.call(&["changes", "not-there.ron", "now.ron"]);
    assert_eq!(missing.status.code(), Some(2));
    assert!(
        complained(&missing).starts_with("not-there.ron"),
        "{}",
        complained(&missing)
    );
    let drawn = desk.call(&[
        "draw",
        "now.ron",
        "--since",
        "patio-kitchen.ron",
        "--as",
        "svg",
        // What people call ANSI A.
        "--paper",
        "letter",
        "--json",
    ]);
    assert_eq!(drawn.status.code(), Some(0), "{}", complained(&drawn));
    assert!(said(&drawn).contains("\"changes\": 1") && said(&drawn).contains("no revision of its own"));
    let sheets = ["now-1.svg", "now-2.svg"].map(|name| fs::read_to_string(desk.folder.path().join(name)).unwrap());
    assert!(
        sheets.concat().contains("Changes since revision 0"),
        "the list stands on the sheets"
    );
    // The issue is never written over, nor is a sheet of it that carries its job.
    let again = [
        "draw",
        "now.ron",
        "--since",
        "now-1.svg",
        "--as",
        "svg",
        "--paper",
        "ansi-a",
    ];
    let over = desk.call(&again);
    assert_eq!(over.status.code(), Some(2), "{}", said(&over));
    assert!(
        complained(&over).contains("would be written over"),
        "{}",
        complained(&over)
    );
}

/// How many decimals a number may have, by the end of its key; any other has three at most.
const DIGITS: [(&str, usize); 15] = [
    ("ft3_per_ft", 5),
    ("_ft3", 5),
    ("_ft", 3),
    ("_inwc", 3),
    ("_in", 4),
    ("_psi", 3),
    ("_lb", 2),
    ("_f", 1),
    ("btuh", 0),
    ("cfh", 2),
    ("price", 2),
    ("total", 2),
    ("cost", 2),
    ("amount", 3),
    ("degrees", 2),
];

/// Numbers of a value, each with the key that it stands under.
fn numbers(key: &str, value: &serde_json::Value, into: &mut Vec<(String, String)>) {
    match value {
        serde_json::Value::Object(entries) => entries.iter().for_each(|(key, value)| numbers(key, value, into)),
        serde_json::Value::Array(values) => values.iter().for_each(|value| numbers(key, value, into)),
        serde_json::Value::Number(number) => into.push((key.to_owned(), number.to_string())),
        _ => {}
    }
}

#[test]
fn no_number_for_machines_has_more_digits_than_its_kind() {
    let desk = Desk::new();
    let jobs = [
        "classroom.ron",
        "patio-kitchen.ron",
        "propane-cabin.ron",
        "two-pressure-house.ron",
    ];
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let there = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap());
    assert_eq!(
        there.filter(|name| name.ends_with(".ron")).count(),
        jobs.len(),
        "an example is not tried"
    );
    let mut calls: Vec<Vec<&str>> = Vec::new();
    for job in jobs {
        desk.example(job);
        for command in [
            "size",
            "check",
            "carry",
            "steps",
            "test",
            "permit-checklist",
            "count",
            "take-off",
            "cut",
            "draw",
        ] {
            calls.push(vec![command, job]);
        }
        calls.push(vec!["test", job, "--filled-to", "20.3 psi", "--at", "71.5F"]);
        calls.push(vec!["changes", "patio-kitchen.ron", job]);
    }
    desk.put("grill.ron", NEW_GRILL);
    let metric = NEW_GRILL.replacen("version: 1,", "version: 1, settings: (units: metric),", 1);
    desk.put("metric.ron", &metric);
    calls.push(vec!["tie-in", "grill.ron", "--head", "J3"]);
    calls.push(vec!["tie-in", "metric.ron", "--head", "J3"]);
    calls.push(vec!["size", "metric.ron"]);
    let mut seen = 0;
    for mut call in calls {
        call.push("--json");
        let output = desk.call(&call);
        let value =
            serde_json::from_str(&said(&output)).unwrap_or_else(|_| panic!("{call:?}: {}", complained(&output)));
        let mut found = Vec::new();
        numbers("", &value, &mut found);
        for (key, number) in found {
            let kind = DIGITS.iter().find(|(end, _)| key.ends_with(end));
            let most = kind.map_or(3, |(_, digits)| *digits);
            let decimals = number
                .split_once('.')
                .map_or(0, |(_, decimals)| decimals.trim_end_matches('0').len());
            assert!(decimals <= most && !number.contains('e'), "{call:?}: {key} {number}");
            seen += 1;
        }
    }
    assert!(seen > 1000, "{seen}");
    // No digit that means something is lost: 1/2 in pipe holds 0.00211 ft³ a foot.
    let value: serde_json::Value =
        serde_json::from_str(&said(&desk.call(&["test", "patio-kitchen.ron", "--json"]))).unwrap();
    let pipe = value["jobs"][0]["pipe"].as_array().unwrap();
    assert!(pipe.iter().any(|pipe| pipe["ft3_per_ft"] == 0.00211), "{pipe:?}");
}

/// The bore of 1/2 in steel pipe is 0.622 in (ASME B36.10M): 196 mm², 0.196 liters along a meter.
#[test]
fn a_metric_test_sheet_is_metric_throughout() {
    let desk = Desk::new();
    let job = r#"(
        version: 1,
        settings: (units: metric, step: "1 m", material: steel),
        joints: [
            (id: 1, at: (0, 0, 0), device: supply(pressure: "20 mbar")),
            (id: 2, at: (4, 0, 0), device: appliance(name: "Grill", input: "10 kW")),
        ],
        runs: [(id: 1, from: 1, to: 2, size: "DN15")],
    )"#;
    desk.put("metric.ron", job);
    let printed = said(&desk.call(&["test", "metric.ron"]));
    assert!(
        printed.contains("L/m") && printed.contains("0.196 ") && !printed.contains("ft³"),
        "{printed}"
    );
    let listed = said(&desk.call(&["take-off", "metric.ron"]));
    assert!(
        listed.contains("stubs under 300 mm") && !listed.contains(" ft"),
        "{listed}"
    );
}

#[test]
fn a_word_that_is_no_command_opens_no_window() {
    let desk = Desk::new();
    for (word, told) in [
        ("chek", "did you mean `check`?"),
        ("furnace", "`stubout help` lists the commands"),
    ] {
        let output = desk.call(&[word]);
        assert_eq!(output.status.code(), Some(2), "{word}");
        let said = complained(&output);
        assert!(said.contains(told) && said.starts_with(word), "{said}");
    }
}
