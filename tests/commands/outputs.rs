//! What commands write: whole or not at all, in the folder that is named, never over what is not theirs; and standard output.

use super::{Desk, OPEN_END, complained, said};
use std::fs;
use std::process::{Command, Stdio};

impl Desk {
    /// A call by the shell, where `"$0"` is the program.
    fn shell(&self, words: &str) -> std::process::Output {
        Command::new("bash")
            .args(["-c", words, env!("CARGO_BIN_EXE_stubout")])
            .current_dir(self.folder.path())
            .output()
            .unwrap()
    }

    fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.folder.path().join(name)).unwrap()
    }

    fn within(&self, folder: &str) -> Vec<String> {
        let entries = fs::read_dir(self.folder.path().join(folder)).unwrap();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_sheet_for_which_there_is_no_room_leaves_the_old_one_whole() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    desk.put("before.ron", OPEN_END);
    assert_eq!(
        desk.call(&["draw", "patio-kitchen.ron", "--as", "pdf"]).status.code(),
        Some(0)
    );
    let old = desk.bytes("patio-kitchen.pdf");
    let names = desk.names();
    // Files end at 8 kB here, as on a disk that is full.
    for call in [
        "draw patio-kitchen.ron --as pdf --work",
        "draw patio-kitchen.ron --as svg",
        "carry patio-kitchen.ron --sheet patio-kitchen.pdf",
    ] {
        let output = desk.shell(&format!("trap '' XFSZ; ulimit -f 8; \"$0\" {call}"));
        assert_eq!(output.status.code(), Some(2), "{call}: {}", said(&output));
        assert!(
            complained(&output).contains("can't be written"),
            "{}",
            complained(&output)
        );
        assert_eq!(desk.bytes("patio-kitchen.pdf"), old, "{call}");
        assert_eq!(desk.names(), names, "{call}");
    }
}

#[test]
fn whatever_a_job_is_called_its_sheets_stay_in_the_folder_that_is_named() {
    let desk = Desk::new();
    for name in ["..ron", "...ron", ".ron", "-.ron", "a b.c.ron"] {
        desk.put(name, OPEN_END);
    }
    let before = desk.names();
    for name in ["./..ron", "./...ron", "./.ron", "./-.ron", "./a b.c.ron"] {
        let output = desk.call(&["draw", name, "--as", "svg", "--as", "pdf", "--into", "out/in"]);
        assert_eq!(output.status.code(), Some(0), "{name}: {}", complained(&output));
    }
    assert_eq!(desk.within("out"), ["in"]);
    assert_eq!(desk.within("out/in").len(), 10, "{:?}", desk.within("out/in"));
    let mut after = desk.names();
    after.retain(|name| name != "out");
    assert_eq!(after, before);
}

#[test]
fn two_jobs_never_write_one_file_though_only_their_numbered_sheets_meet() {
    let desk = Desk::new();
    fs::rename(desk.example("patio-kitchen.ron"), desk.folder.path().join("a.ron")).unwrap();
    for name in ["a-1.ron", "a-90.ron"] {
        desk.put(name, OPEN_END);
    }
    // Several sheets on small paper; the other job has one on any.
    let draw = |other: &str| {
        desk.call(&[
            "draw", "a.ron", other, "--as", "svg", "--paper", "ansi-a", "--into", "out",
        ])
    };
    desk.call(&["draw", "a-1.ron", "--as", "svg", "--paper", "ansi-a", "--into", "alone"]);
    assert_eq!(desk.within("alone"), ["a-1.svg"]);
    let output = draw("a-1.ron");
    assert_eq!(output.status.code(), Some(2));
    for words in ["a-1.svg", "a.ron", "a-1.ron", "would both write"] {
        assert!(complained(&output).contains(words), "{}", complained(&output));
    }
    assert_eq!(desk.within("out").len(), 0, "nothing is written");
    // The sheets of one meet no name of the other.
    let output = draw("a-90.ron");
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    let written = desk.within("out");
    for name in ["a-1.svg", "a-2.svg", "a-90.svg"] {
        assert!(written.contains(&name.to_owned()), "{written:?}");
    }
}

#[test]
fn sheets_of_an_earlier_longer_set_are_told() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    let first = desk.call(&["draw", "patio-kitchen.ron", "--as", "svg", "--work"]);
    assert!(!said(&first).contains("is there too"), "{}", said(&first));
    let output = desk.call(&["draw", "patio-kitchen.ron", "--as", "svg"]);
    assert_eq!(output.status.code(), Some(0));
    let machine = said(&desk.call(&["draw", "patio-kitchen.ron", "--as", "svg", "--json"]));
    let value: serde_json::Value = serde_json::from_str(&machine).unwrap();
    let job = &value["jobs"][0];
    let paths = |key: &str| -> Vec<&str> {
        job[key]
            .as_array()
            .unwrap()
            .iter()
            .map(|path| path.as_str().unwrap())
            .collect()
    };
    let (written, others) = (paths("written"), paths("others"));
    let all = desk.names().iter().filter(|name| name.ends_with(".svg")).count();
    assert!(
        others.len() >= 3 && written.len() + others.len() == all,
        "{written:?} {others:?}"
    );
    for other in others {
        assert!(
            !written.contains(&other) && said(&output).contains(&format!("{other} is there too")),
            "{}",
            said(&output)
        );
    }
}

#[test]
fn what_this_program_did_not_write_is_written_over_only_when_somebody_says_so() {
    let desk = Desk::new();
    desk.put("job.ron", OPEN_END);
    for format in ["svg", "pdf", "png", "dxf"] {
        let name = format!("job.{format}");
        desk.put(&name, "somebody's own work");
        let call = ["draw", "job.ron", "--as", format, "--dpi", "20"];
        let output = desk.call(&call);
        assert_eq!(output.status.code(), Some(2), "{format}");
        assert!(complained(&output).contains("--force"), "{}", complained(&output));
        assert_eq!(desk.bytes(&name), b"somebody's own work");
        assert_eq!(desk.call(&[&call[..], &["--force"]].concat()).status.code(), Some(0));
        assert_ne!(desk.bytes(&name), b"somebody's own work");
        assert_eq!(desk.call(&call).status.code(), Some(0), "its own {format}");
    }
    desk.put("study.pdf", "somebody's own work");
    let call = ["carry", "job.ron", "--sheet", "study.pdf"];
    assert_eq!(desk.call(&call).status.code(), Some(2));
    assert_ne!(desk.call(&[&call[..], &["--force"]].concat()).status.code(), Some(2));
}

#[test]
fn a_profile_of_the_call_does_not_go_into_the_job_that_the_sheet_carries() {
    let desk = Desk::new();
    let job = desk.example("patio-kitchen.ron");
    let profile = fs::read_to_string("assets/profiles/us-ca.ron").unwrap();
    desk.put("own.ron", &profile.replacen("us-ca", "my-own", 1));
    let call = ["draw", "patio-kitchen.ron", "--profile", "own.ron", "--as", "svg"];
    let output = desk.call(&call);
    assert_eq!(output.status.code(), Some(0), "{}", complained(&output));
    let first = desk.names().into_iter().find(|name| name.ends_with(".svg")).unwrap();
    let carried = stubout::file::read_bytes(&desk.bytes(&first)).unwrap();
    assert_eq!(carried, stubout::file::read(&fs::read_to_string(job).unwrap()).unwrap());
}

#[cfg(unix)]
#[test]
fn a_pipe_or_a_device_is_no_place_for_a_sheet() {
    let desk = Desk::new();
    desk.put("job.ron", OPEN_END);
    assert!(desk.shell("mkfifo job.pdf").status.success());
    let output = desk.shell("timeout 60 \"$0\" draw job.ron --as pdf --force");
    assert_eq!(output.status.code(), Some(2), "{}", complained(&output));
    assert!(
        complained(&output).contains("not a plain file"),
        "{}",
        complained(&output)
    );
}

#[cfg(target_os = "linux")]
#[test]
fn standard_output_that_cannot_be_written_is_a_fault_and_a_closed_pipe_is_none() {
    let desk = Desk::new();
    desk.example("patio-kitchen.ron");
    for call in [
        "check --json patio-kitchen.ron",
        "check patio-kitchen.ron",
        "size --csv patio-kitchen.ron",
        "rules",
    ] {
        let output = desk.shell(&format!("\"$0\" {call} > /dev/full"));
        assert_eq!(output.status.code(), Some(2), "{call}");
        assert!(
            complained(&output).contains("standard output"),
            "{}",
            complained(&output)
        );
        let mut child = Command::new(env!("CARGO_BIN_EXE_stubout"))
            .args(call.split(' '))
            .current_dir(desk.folder.path())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        assert_eq!(child.wait().unwrap().code(), Some(0), "{call}");
    }
}
