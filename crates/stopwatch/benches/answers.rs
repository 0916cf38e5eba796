//! Native times of the work in `holdwater-stopwatch`. `cargo xtask bench` turns them into ratios.

use std::hint::black_box;
use std::time::Duration;

use criterion::{Criterion, criterion_group, criterion_main};
use holdwater_stopwatch::{
    move_delay, new_design, one_flight, question_two, sweep_of_200_delays, vessels_of_24_parts, weibull_of_1000_rows,
};

fn answers(criterion: &mut Criterion) {
    criterion.bench_function("one_flight", |bencher| bencher.iter(|| one_flight(black_box(1))));
    // The study that the delay moves in is made once per call; a hundred moves make it vanish.
    criterion.bench_function("move_delay_x100", |bencher| bencher.iter(|| move_delay(black_box(100))));
    criterion.bench_function("new_design", |bencher| bencher.iter(|| new_design(black_box(1))));
    criterion.bench_function("sweep_of_200_delays", |bencher| bencher.iter(|| sweep_of_200_delays(black_box(1))));
    criterion.bench_function("question_two", |bencher| bencher.iter(|| question_two(black_box(1))));
    criterion.bench_function("vessels_of_24_parts", |bencher| bencher.iter(|| vessels_of_24_parts(black_box(1))));
    criterion.bench_function("weibull_of_1000_rows", |bencher| bencher.iter(|| weibull_of_1000_rows(black_box(1))));
}

criterion_group! {
    name = benches;
    config = Criterion::default().warm_up_time(Duration::from_secs(1)).measurement_time(Duration::from_secs(4)).without_plots();
    targets = answers
}
criterion_main!(benches);
