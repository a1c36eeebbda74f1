//! The study of whole jobs.

#[path = "support/dice.rs"]
mod dice;
#[path = "support/draft.rs"]
mod draft;
#[path = "support/old_house.rs"]
mod old_house;
#[path = "support/paper.rs"]
mod paper;
#[path = "support/random_job.rs"]
mod random_job;

#[path = "support/small_tree.rs"]
mod small_tree;
#[path = "support/street.rs"]
mod street;
#[path = "support/wild_job.rs"]
mod wild_job;

mod study {
    mod arranged;
    mod assembly;
    mod audit;
    mod changes;
    mod counter_list;
    mod cut;
    mod enlargement;
    mod fittings;
    mod hand_counted;
    mod headroom;
    mod least_cost;
    mod loops;
    mod no_way_on;
    mod order_of_work;
    mod own_lengths;
    mod permit_list;
    mod pressures;
    mod properties;
    mod sizes;
    mod stock;
    mod take_off;
    mod test_sheet;
    mod tie_in;
    mod whole_tie_in;
    mod work_steps;
}

use random_job::random_job;

#[test]
fn the_same_seed_gives_the_same_job() {
    for runs in [3, 40, 300] {
        let job = random_job(7, runs);
        assert_eq!(job, random_job(7, runs));
        assert_eq!(job.runs.len(), runs);
        assert_ne!(job, random_job(8, runs));
    }
}
