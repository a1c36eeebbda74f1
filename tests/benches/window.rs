//! What the window does between a hand and the screen, compared within one run: `cargo bench --bench window`.
//!
//! Painting by OpenGL is not in these figures; `tests/real_window.rs` measures whole frames of a real window.
//!
//! Measured 2026-11-25, two shared cores. Edit to new sizes, findings and picture: 100 runs 3.0 ms, 2,000 67 ms, 10,000
//! 388 ms (on another thread). Frame at rest 0.63 and 0.76 ms, while the pointer moves 0.70 and 1.2 ms.

#[path = "../support/street.rs"]
mod street;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use egui_kittest::Harness;
use std::hint::black_box;
use stubout::app::App;
use stubout::codebook::Codebook;
use stubout::desk::settings::Settings;
use stubout::desk::{Desk, Shown};
use stubout::editor::edit::{RunField, set_runs};
use stubout::job::{Job, RunId};
use stubout::units::Length;

const SIZES: [usize; 3] = [100, 2_000, 10_000];

/// An edit, and what follows from it: sizes, findings and picture.
fn edit(c: &mut Criterion) {
    let mut group = c.benchmark_group("edit to picture");
    group.sample_size(10);
    for size in SIZES {
        let mut desk = Desk::new(street::street(size), || ());
        let runs = [RunId(size as u32 / 2)];
        let mut feet = 3.0;
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| {
                feet = if feet > 40.0 { 3.0 } else { feet + 0.5 };
                let field = RunField::Length(Some(Length::from_feet(feet)));
                desk.editor_mut()
                    .edit(|job| set_runs(job, &runs, &field))
                    .expect("a length is no harm");
                let job = std::sync::Arc::new(desk.job().clone());
                black_box(Shown::of(job, Codebook::published(), desk.editor().revision(), None))
            });
        });
    }
    group.finish();
}

fn window(job: Job) -> Harness<'static, App> {
    Harness::builder().with_size([1360.0, 860.0]).build_eframe(|cc| {
        let mut app = App::with(cc, Settings::default());
        app.open(job);
        app
    })
}

/// A frame with everything in view: nothing has changed, and while the paper is moved.
fn frame(c: &mut Criterion) {
    let mut group = c.benchmark_group("frame");
    group.sample_size(20);
    for size in [100, 2_000] {
        let mut harness = window(street::street(size));
        harness.run_steps(3);
        group.bench_function(BenchmarkId::new("at rest", size), |b| b.iter(|| harness.step()));
        let mut to = 0.0;
        group.bench_function(BenchmarkId::new("pointer moves", size), |b| {
            b.iter(|| {
                to = (to + 7.0) % 300.0;
                harness.hover_at(egui::pos2(400.0 + to, 300.0));
                harness.step();
            });
        });
        let ctx = harness.ctx.clone();
        group.bench_function(BenchmarkId::new("triangles for the painter", size), |b| {
            b.iter(|| {
                harness.step();
                let shapes = harness.output().shapes.clone();
                black_box(ctx.tessellate(shapes, 1.0)).len()
            });
        });
    }
    group.finish();
}

/// From nothing to the first frame that can be worked in.
fn start(c: &mut Criterion) {
    let mut group = c.benchmark_group("start");
    group.sample_size(10);
    let text = include_str!("../../examples/patio-kitchen.ron");
    group.bench_function("patio kitchen from file text to the first frame", |b| {
        b.iter(|| {
            let mut harness = window(stubout::file::read(text).expect("the example reads"));
            harness.step();
        });
    });
    group.finish();
}

criterion_group!(benches, edit, frame, start);
criterion_main!(benches);
