//! How long the study, the drawing and the exports of a job take, by size, compared within one run: `cargo bench`.

#[path = "../support/street.rs"]
mod street;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use stubout::codebook::Codebook;
use stubout::drawing::sheet::{Orientation, Paper, compose};
use stubout::drawing::{Options, isometric};
use stubout::export::svg::{TextStyle, write};
use stubout::scene::{Point, Rect, Scene};
use stubout::study::Study;

const SIZES: [usize; 4] = [10, 100, 1_000, 10_000];

fn study(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("study");
    for size in SIZES {
        let job = street::street(size);
        group.bench_with_input(BenchmarkId::from_parameter(size), &job, |b, job| {
            b.iter(|| Study::of(black_box(job), book));
        });
    }
    group.finish();
}

fn area(size: usize) -> Rect {
    let side = 200.0 * (size as f64 / 40.0).sqrt().max(1.0);
    Rect::sized(Point::default(), side, side)
}

fn scene(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("scene");
    group.sample_size(10);
    for size in SIZES {
        let job = street::street(size);
        let study = Study::of(&job, book);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| isometric(black_box(&job), &study, area(size), Options::default()));
        });
    }
    group.finish();
}

fn svg(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("svg");
    group.sample_size(10);
    for size in SIZES {
        let job = street::street(size);
        let study = Study::of(&job, book);
        let drawn = isometric(&job, &study, area(size), Options::default());
        let mut scene = Scene::new(area(size).width(), area(size).height(), "street");
        scene.push(drawn.group);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| write(black_box(&scene), TextStyle::Outlines));
        });
    }
    group.finish();
}

fn whole(c: &mut Criterion) {
    let text = include_str!("../../examples/patio-kitchen.ron");
    c.bench_function("patio sheet from file text to SVG", |b| {
        b.iter(|| {
            let job = stubout::file::read(black_box(text)).expect("the example reads");
            let book = Codebook::published();
            let study = Study::of(&job, book);
            let packet = compose(&job, &study, book, Paper::AnsiB, Orientation::Landscape);
            packet
                .sheets
                .iter()
                .map(|sheet| write(sheet, TextStyle::Outlines).len())
                .sum::<usize>()
        });
    });
}

criterion_group!(speed, study, scene, svg, whole);
criterion_main!(speed);
