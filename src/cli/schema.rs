//! `stubout schema`: the JSON that every command prints with `--json`, and what about it is promised.

use super::{machine, table};
use std::fmt::Write;

/// The keys of a job in the answer of each command. A test holds every key that is printed against it.
const KEYS: [(&str, &str); 20] = [
    (
        "draw",
        "`written` (paths), `others` (sheets of other sets that are there under the same name), `sheets`, `remarks`, `changes` (how \
         many since the issue, with --since), `must_fix` (how many findings)",
    ),
    (
        "size",
        "`profile`, `total_btuh`, `total_cfh`, `sections` (`number`, `from_joint`, `to_joint`, `runs`, `material`, `state`, \
         `serves`, `load_btuh`, `load_cfh`, `measured_ft`, `sizing_length_ft`, `size`, `origin`: existing, set_by_hand, sized, \
         existing_not_entered or connector, `min_size`, `result`: within_capacity, over_capacity or not_judged, `basis`: \
         table, equation or none, `basis_name`, `basis_length_ft`, `capacities` (`size`, `cfh`, `mark`), `remarks`, `reason`), \
         `outlets` (`tag`, `joint`, `kind`: appliance or future, `name`, `input_btuh`, `flow_cfh`, `distance_ft` (of pipe), \
         `hose_ft`, `inlet_inwc`, `min_inwc`, `margin_inwc`)",
    ),
    (
        "check",
        "`findings` (`rule`, `severity`: must_fix, check or note, `place` (`kind`: job, joint, run or section, `number`, \
         `name`), `what`, `remedy`, `basis`)",
    ),
    (
        "carry",
        "`existing` (`part`: `kind` section with `runs`, `section`, `size` and `replaced_by`, or device, inlet or setting with \
         its `joint` and `device` (meter, service_regulator, line_regulator, shutoff_valve, excess_flow_valve, connector or \
         quick_disconnect_coupling) or `appliance`; `before` and `after`: `demand_cfh`, `capacity_cfh`, or `inlet_inwc`, \
         `min_inwc`, and `standing`: within_limit, over_limit or not_judged; `result`: within_limit, over_limit_after, \
         over_limit_before_and_after, corrected, not_judged or disconnected), `spare_capacity` (`joint`, `spare_btuh`, \
         `first_over_limit`, `not_judged`, `over_limit_already`), `loop_run`, `first_choice` (a sentence), `fixes`, least first \
         (`name`, `rank`, `for_permit`, `whole`, `within_limits`, `does`, `remaining` (`rule`, `place`, `what`, `its_own`), \
         `outcome`, or `name` and `not_offered`), `by_your_prices` (the same with `cost`); of `as_drawn` and each `outcome` \
         `delivery_inwc`, `new_pipe` (`material`, `size`, `length_ft`), `new_pipe_lb`, `existing_pipe_removed_ft`, \
         `new_fittings`, `new_devices`, `sections_over_capacity`, `sections_not_judged`, `other_parts_over_limit`, \
         `closest_to_min_inlet` (`outlet`, `inlet_inwc`, `margin_inwc`), `must_fix_findings`",
    ),
    (
        "tie-in",
        "`profile`, `method`: longest_length or branch_length, `head`, `places`, `spacing_ft`, `left_out` (`run`, `why`), \
         `tie_ins`, best first (`joint` or `run` with `along_ft`, `at`, `standing`: within_limits, over_limit_before, \
         not_judged or over_limit, `words`, `line` (`to`, `length_ft`), `line_ft`, `turns`, `blocked`, `pipe` (`material`, \
         `size`, `length_ft`), `weight_lb`, `fittings`, `over_limit` (parts that the branch puts over), \
         `over_limit_and_worse` (over before, and loaded more), `over_limit_before` and the first of them as \
         `over_limit_before_words`, `not_judged`, `lowest` (`joint`, `name`, `inlet_inwc`, `margin_inwc`), \
         `min_inlet_unknown`, `inlets` of the best ten (with `min_inwc`), `reasons`)",
    ),
    (
        "changes",
        "`issued`, `revision`, `changes` (`turn`: added, removed, changed or follows; `part`: title, settings, or the number of \
         a `run`, a `joint`, a device's joint as `device_at`, a note, or penetration_of a run and its number; `name`, \
         `words`)",
    ),
    (
        "variants",
        "`variants`, in the order of the job (`name`, `shown`, `outcome` as that of carry (`delivery_inwc`, `sections_over_capacity`, `sections_not_judged`, \
         `other_parts_over_limit`, `must_fix_findings`, `closest_to_min_inlet` (`outlet`, `inlet_inwc`, `margin_inwc`), `new_pipe` (`size`, \
         `length_ft`), `new_pipe_lb`, `existing_pipe_removed_ft`, `new_fittings`, `new_devices`), `new_pipe_ft`, `penetrations`, `price` and \
         `hours` by lists of your own, with `lines_without_price` and `lines_without_hours`), `take_off_differences` (`label`, `action` as \
         that of take-off, `quantities` in the order of the variants)",
    ),
    (
        "steps",
        "`isolation` (`what`: existing_valve, supplier_valve, supplier_valve_at_every_source, nothing_carries_gas or \
         not_known, `joint`), `goes_out` (`joint`, `name`, `then`: relight, removed or no_gas_after), `steps` (`id`, `heading`, \
         `words`, `places`, `basis`, `edited`, `after`), `left_out` (`id`, `after`), `no_longer`",
    ),
    (
        "permit-checklist",
        "`source`, `sources` (`number`, `name`, `scope`), `items` (`id`, `item`, `asked`, `read`, `asked_by`, `mark`, `tick`: \
         shown, missing, not_applicable or by_hand, `words`, `places`, `field`)",
    ),
    (
        "start-up",
        "`appliances` (`tag`, `name`, `drawn_static_inwc` and `static_inwc` as read, `drawn_working_inwc` and `working_inwc`, `lock_up_inwc`, \
         `min_inlet_inwc`, `max_inlet_inwc`, `input_btuh`, `clocked_ft3`, `clocked_s`, `clocked_btuh`, `result`: not_measured, explained, \
         not_explained or outside_rating_plate, `found` (`off`: rating_plate or drawing, `what`, `remedy`)), `meter_volume_to_be_corrected`",
    ),
    (
        "test",
        "`scope`, `medium`, `profile`, `pipe` (`material`, `size`, `length_ft`, `ft3_per_ft`, `runs`), `volume_ft3`, \
         `volume_mark`, `volume_unknown_runs`, `working_psi`, `air_psi`, `required` (`pressure_psi`, `gauge_top_psi`, \
         `minutes`, with `pressure_mark`, `gauge_top_mark`, `minutes_mark`, `why`), `readings` (`temperature_f`, \
         `reading_psi`), `closures` (`joint`, `what`), `purge` (`outdoors`, `long` (`size`, `length_ft`, over_ft), \
         `working_over_2_psi`, `source`), `to_be_signed`, `units`: us or metric",
    ),
    (
        "count",
        "`fittings` (`fitting`: elbow_90, street_elbow_90, elbow_45, turn_without_stock_fitting, bend, tee, side_outlet_elbow, cross, \
         side_outlet_tee, openings_without_stock_fitting, coupling, reducing_coupling, tubing_fitting, copper_adapter, \
         transition_fitting, anodeless_riser, nipple, drip_leg, cap or plug, `name`, `sizes`, `material`, `state`, `count`, `joints`, `female_thread` of end fittings)",
    ),
    (
        "take-off",
        "`lines` (`label`, `what`, `size`, `made_of`, `state`, `action`: buy, confirm_first, make_on_site, salvage, remove or \
         remains, `shelf`: pipe_and_nipples, fittings, valves_and_gas_controls, tubing_parts, hangers_sleeves_and_protection \
         or sealants_and_test, `amount` and `unit` (of pipe all that is bought), `price`, `mark`, `places`, `remark`), `total`, \
         `unused_price_lines`",
    ),
    (
        "quote",
        "`lines` (`label`, `shelf` in words, `amount`, `unit`, `price`), `material`, `hours`, `labor`, `total`, `lines_without_price`",
    ),
    (
        "cut",
        "`pieces` (`mark`, `runs`, `material`, `size`, `center_to_center_in`, `ends` (`joint`, `what`, `take_out_in`), `cut_in` \
         (`null` between two ends that are not measured), `known`, `making`: cut, nipple, coil, no_pipe, too_short, too_long or \
         no_size, `making_in`, `parts` (`mark`, `length_in`), `couplings`, `offset` (degrees, travel_in, set_in, \
         along_in, rise_in, roll_in, found_by: drawing or measure, found_degrees, found_travel_in), `remarks`), \
         `nipples` within joints (`mark`, `joint`, `size`, `length_in`, `close`, `between`), `stock` (`material`, `size`, \
         `form`: length or coil, `stock_length_in`, `mark`, `kerf_in`, `kerf_mark`, `lengths` (`parts`, `drop_in`), `bound`, \
         `proved`)",
    ),
    (
        "worksheet",
        "`written` (paths of worksheets and keys), `worksheets` (how many), `steps` (of a sizing step by step), `blank` (what is asked), `remarks`",
    ),
    (
        "exercise",
        "`traps` (each with its sections, in words); the job itself is in the file",
    ),
    (
        "mark",
        "`papers` (`student`, `worksheet` of a set, `right`, `asked`, `answers`: `section`, `answer`, `right`, `verdict`: right, \
         missing, no_size, too_small or larger_than_needed, `words`, `slips`, `slip_kinds`: next_smaller_capacity, \
         row_of_a_shorter_length, own_length_of_the_section, length_to_its_own_farthest_outlet, longest_length, load_left_out \
         or wrong_table), `unasked`",
    ),
    (
        "rules",
        "no jobs, but `rules` (`rule`, `severity`, which is off where the profile switches it off, `title`, `basis` where no \
         code asks it, else `clauses` by family: `ifgc`, `upc`, `b149`)",
    ),
    ("schema", "this text; it takes no --json"),
];

const HEAD: &str = "\
Every command takes --json and prints one value: {\"stubout\": 2, \"command\", \"caution\", \"marks\", \"jobs\": [...]}.
Each job has its `file`, and either an `error` or the answer:
";

const RULES: &str = "
Each of `places` is a `joint`, a `run` or a `section`, and a `mark` is beside its figure. Units are in the names of the
keys, and each unit has its decimals. A figure that is not known is null. `material` is steel, copper_k, copper_l, csst or pe;
`state` is new, existing or removed. Words of a choice are fixed, in snake_case; texts for people (`what`, `words`, `remarks`,
`reasons`, names) may change.
Exit codes: 0 done and nothing must be fixed, 1 (check and carry) something must be fixed, 2 a file or an argument was at fault.

The shape is stable from 2 on: keys may be added within it; none goes or changes its meaning.
Shape 2 after shape 1: keys and words of choices follow the vocabulary of the program (severity for weight, min_inwc for
least_inwc, center_to_center_in, drop_in, spare_capacity for headroom, fixes for remedies, and the like); what was in words
for people (states, materials, verdicts, groups) is in snake_case; the commands order and permit-list are steps and
permit-checklist; `distance_ft` of an outlet is of pipe alone, and the hose or connector behind it is in `hose_ft`.
";

/// Prints the shape.
pub fn run() -> u8 {
    let mut text = format!("JSON shape {}\n\n{HEAD}", machine::SHAPE);
    for (command, keys) in KEYS {
        let _ = write!(text, "\n{command}\n    {keys}\n");
    }
    table::out(&format!("{text}{RULES}\n{}\n", table::CAUTION))
}
