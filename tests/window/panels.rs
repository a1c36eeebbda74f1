//! Details and lists: what is typed is taken once, refused in words and never lost; rows lead to their places.

use crate::hand::{Hand, Widget, at};
use egui::{Key, Modifiers, Role, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::NodeT;
use stubout::desk::Desk;
use stubout::details::Details;
use stubout::editor::{CommandId, Part, Selection};
use stubout::job::{Job, Material, RunId, State};
use stubout::study::Place;
use stubout::units::Length;
use stubout::work::Quantity;

fn example(name: &str) -> Job {
    let path = format!("{}/examples/{name}.ron", env!("CARGO_MANIFEST_DIR"));
    stubout::file::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// A riser of 4 steps and 6 steps of pipe to the east, the second chosen.
fn two_runs() -> Hand {
    let mut hand = Hand::new();
    hand.shelf("Draw pipe");
    hand.click_at(at(0, 0, 0));
    hand.click_at(at(0, 0, 4));
    hand.click_at(at(6, 0, 4));
    hand.menu("Draw", "Select and move");
    hand.click_at(at(3, 0, 4));
    hand.rest();
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(2))));
    hand
}

/// Types into a field, in place of what it holds.
fn fill(hand: &mut Hand, field: &str, text: &str) {
    hand.push(field);
    hand.chord(Modifiers::COMMAND, Key::A);
    hand.type_text(text);
}

fn length(hand: &Hand, run: u32) -> Option<Length> {
    hand.job().runs.get(RunId(run)).unwrap().length
}

#[test]
fn a_length_is_typed_as_a_fitter_writes_it_and_is_one_step() {
    let mut hand = two_runs();
    let steps = hand.editor().undo_name().map(str::to_owned);
    fill(&mut hand, "True length", "12-6");
    assert_eq!(length(&hand, 2), None, "not before it is taken");
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(length(&hand, 2), Some(Length::from_feet(12.5)));
    assert_eq!(hand.widget("True length").value, "12'-6\"");
    hand.shortcut(CommandId::Undo);
    hand.rest();
    assert_eq!(length(&hand, 2), None);
    assert_eq!(hand.widget("True length").value, "", "the field follows");
    assert_eq!(hand.editor().undo_name().map(str::to_owned), steps);
}

#[test]
fn what_cannot_be_taken_stays_with_its_reason_until_it_is_right_or_given_up() {
    let mut hand = two_runs();
    fill(&mut hand, "True length", "12 furlongs");
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.reads("Not accepted: `12 furlongs` is not a length"));
    hand.look("panels_refused");
    // It waits while another part is looked at.
    hand.click_at(at(0, 0, 2));
    hand.rest();
    assert!(!hand.reads("furlongs"));
    hand.click_at(at(3, 0, 4));
    hand.rest();
    assert_eq!(hand.widget("True length").value, "12 furlongs");
    hand.push("True length");
    hand.key(Key::Escape);
    hand.rest();
    assert_eq!(hand.widget("True length").value, "");
    assert!(!hand.reads("Not accepted"));
    assert_eq!(
        hand.editor().selection().single(),
        Some(Part::Run(RunId(2))),
        "Esc was for the field"
    );
}

#[test]
fn choosing_something_else_loses_no_edit_and_puts_it_where_it_belongs() {
    let mut hand = two_runs();
    fill(&mut hand, "True length", "9'");
    hand.click_at(at(0, 0, 2));
    hand.rest();
    assert_eq!(hand.editor().selection().single(), Some(Part::Run(RunId(1))));
    assert_eq!(
        (length(&hand, 1), length(&hand, 2)),
        (None, Some(Length::from_feet(9.0)))
    );
}

#[test]
fn a_command_finds_the_job_as_typed() {
    let mut hand = two_runs();
    fill(&mut hand, "True length", "9'");
    hand.shortcut(CommandId::ZoomFit);
    hand.rest();
    assert_eq!(length(&hand, 2), Some(Length::from_feet(9.0)));
    fill(&mut hand, "True length", "8'");
    hand.shortcut(CommandId::ShowDetails);
    hand.rest();
    assert!(hand.widgets("True length").is_empty());
    assert_eq!(length(&hand, 2), Some(Length::from_feet(8.0)));
}

#[test]
fn after_enter_tab_goes_on_in_the_details_and_letters_go_to_the_drawing() {
    let mut hand = two_runs();
    fill(&mut hand, "Size", "3/4");
    hand.key(Key::Enter);
    hand.key(Key::Tab);
    hand.key(Key::Tab);
    hand.rest();
    // Past the list of sizes to the state, which opens with Enter.
    hand.key(Key::Enter);
    hand.rest();
    assert!(hand.widgets("to be removed").len() == 1, "{:?}", hand.all_words());
    hand.key(Key::Escape);
    hand.rest();
    assert!(hand.widgets("to be removed").is_empty());
    assert_eq!(
        hand.editor().selection().single(),
        Some(Part::Run(RunId(2))),
        "Esc was for the list"
    );
}

#[test]
fn a_field_of_many_runs_is_set_on_all_at_once() {
    let mut hand = two_runs();
    fill(&mut hand, "True length", "9'");
    hand.key(Key::Enter);
    hand.shortcut(CommandId::ChooseAll);
    hand.rest();
    assert!(hand.reads("2 runs, 3 joints"));
    hand.push("Material");
    hand.rest();
    hand.push("CSST");
    hand.rest();
    assert!(hand.job().runs.iter().all(|run| run.material == Some(Material::Csst)));
    hand.shortcut(CommandId::Undo);
    assert!(hand.job().runs.iter().all(|run| run.material.is_none()), "one step");
    fill(&mut hand, "True length", "3 m");
    hand.key(Key::Enter);
    hand.rest();
    assert!(
        hand.job()
            .runs
            .iter()
            .all(|run| run.length == Some(Length::from_metres(3.0)))
    );
}

fn rows(hand: &Hand) -> Vec<Widget> {
    let words = hand.all_words();
    let rows = words.iter().flat_map(|words| hand.widgets(words));
    let mut rows: Vec<Widget> = rows.filter(|widget| widget.role == Role::ListItem).collect();
    rows.sort_by(|a, b| a.rect.min.y.total_cmp(&b.rect.min.y));
    rows.dedup_by(|a, b| a.rect == b.rect);
    rows
}

#[test]
fn a_row_leads_to_its_place_by_mouse_and_by_arrow_keys() {
    let mut hand = Hand::on(example("patio-kitchen"));
    hand.show_list("Sections 11");
    hand.rest();
    let row = rows(&hand).remove(0);
    assert!(row.words.contains("meter – tie-in"), "{}", row.words);
    assert!(!row.is_on);
    hand.click_screen(pos2(row.rect.min.x + 60.0, row.rect.center().y));
    hand.rest();
    let first: Vec<RunId> = hand.editor().selection().runs();
    assert!(!first.is_empty());
    assert!(rows(&hand)[0].is_on, "the row of what is chosen is marked");
    // More rows than are in view.
    for _ in 0..10 {
        hand.key(Key::ArrowDown);
    }
    assert_eq!(hand.editor().selection().runs(), first, "arrows only look");
    hand.key(Key::Enter);
    hand.rest();
    hand.look("panels_last_section");
    // Hoses and connectors are no rows.
    let sections = &hand.desk().shown().checked.study.sections;
    let pipe = sections.iter().rfind(|section| section.is_pipe());
    let last = pipe.unwrap().runs.clone();
    let expected: Vec<RunId> = last.iter().map(|run| hand.job().runs.at(*run).id).collect();
    assert_eq!(hand.editor().selection().runs(), expected);
}

#[test]
fn a_row_of_the_take_off_chooses_all_its_places() {
    let mut hand = Hand::on(example("patio-kitchen"));
    hand.show_list("Take-off");
    hand.rest();
    let takes = hand.app_mut().desk_mut().takes().unwrap();
    let lines = &takes.take_off.lines;
    let row = lines
        .iter()
        .position(|line| line.state == State::New && line.quantity == Quantity::Count(2))
        .unwrap();
    let part = |place: &Place| match place {
        Place::Joint(id) => Part::Joint(*id),
        Place::Run(id) => Part::Run(*id),
        other => panic!("{other:?}"),
    };
    let expected: Selection = lines[row].places.iter().map(part).collect();
    let list = rows(&hand);
    // It may lie below what is in view: the keys go there.
    hand.click_screen(pos2(list[0].rect.min.x + 60.0, list[0].rect.center().y));
    for _ in 0..row {
        hand.key(Key::ArrowDown);
    }
    hand.key(Key::Enter);
    hand.rest();
    assert_eq!(hand.editor().selection(), &expected);
}

/// Whether every word and field of the details lies inside their width, whatever is chosen.
#[test]
fn nothing_in_the_details_is_cut_off_whatever_is_chosen() {
    for (name, width) in [
        ("patio-kitchen", 240.0),
        ("two-pressure-house", 330.0),
        ("propane-cabin", 240.0),
    ] {
        let job = example(name);
        let joints = job.joints.iter().map(|joint| Part::Joint(joint.id));
        let runs = job.runs.iter().map(|run| Part::Run(run.id));
        let passages = job
            .runs
            .iter()
            .flat_map(|run| (0..run.penetrations.len()).map(|at| Part::Penetration(run.id, at)));
        let single = joints
            .chain(runs)
            .chain(passages)
            .chain((0..job.notes.len()).map(Part::Note))
            .map(|part| [part].into_iter().collect::<Selection>());
        let all: Vec<Selection> = single.chain([Selection::none(), Selection::all(&job)]).collect();
        let mut desk = Desk::new(job, || {});
        let (mut details, mut next, count) = (Details::default(), 0, all.len());
        let mut harness = Harness::builder()
            .with_size(egui::vec2(width, 3000.0))
            .build_ui(move |ui| {
                stubout::look::set(ui.ctx());
                if let Some(parts) = all.get(next / 2) {
                    desk.editor_mut().select(parts.clone());
                }
                next += 1;
                details.ui(ui, &mut desk);
            });
        for _ in 0..2 * count {
            harness.step();
            for node in harness.root().children_recursive() {
                // A field shows as much of a long text as it is wide, and scrolls.
                if node.accesskit_node().role() == Role::TextRun {
                    continue;
                }
                let words = node.accesskit_node().value().or(node.accesskit_node().label());
                let Some(words) = words.filter(|words| !words.is_empty()) else {
                    continue;
                };
                let rect = node.rect();
                assert!(
                    rect.min.x >= 0.0 && rect.max.x <= width + 0.5,
                    "{name}: {words:?} reaches from {} to {}",
                    rect.min.x,
                    rect.max.x
                );
            }
        }
    }
}

#[test]
fn a_field_whose_name_does_not_say_it_is_explained_when_it_is_pointed_at() {
    let mut hand = Hand::on(example("patio-kitchen"));
    hand.push("Units, elevations, north");
    hand.rest();
    assert!(!hand.reads("How high the grid's zero is"));
    let names = hand.all(Role::Label);
    let name = names
        .into_iter()
        .find(|label| label.words == "Elevation of grid zero")
        .unwrap();
    hand.move_to(name.rect.center());
    hand.wait(|hand| hand.reads("How high the grid's zero is"));
}
