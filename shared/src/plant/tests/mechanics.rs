//! Hammers strike in sequence, segments add up, wires are coated, puffs show, hoppers fill and ash finds its buyer.

use super::{HOUR_S, plain, plant, rates};
use crate::{
    conditions::{AshStandard, Conditions, demonstration},
    physics::{rapping, stack},
    plant::{shaft::acceleration_m_s2, silo::Silo, *},
};

fn read(plant: &mut Plant) -> PlantReading {
    plant.reading().expect("possible")
}

fn run(plant: &mut Plant, time_s: f64) {
    plant.run(time_s).expect("possible");
}

#[test]
fn the_groups_of_a_field_are_struck_one_after_the_other() {
    let mut conditions = plain();
    conditions.hoppers.evacuation_interval_s = vec![700.0 * HOUR_S; 4];
    let mut plant = plant(&conditions);
    // The first field's turn begins at 4 h; 33 passages make 32 groups, 240/32 = 7.5 s apart.
    run(&mut plant, 4.0 * HOUR_S - 1.0);
    let before_kg = plant.layers[0].total_kg();
    let places_m = read(&mut plant).fields[0].layer_map_m.concat();
    let fallen_kg = |plant: &Plant| plant.rows[0].total_kg();
    let mut struck = Vec::new();
    for _ in 0..32 {
        let hopper_kg = fallen_kg(&plant);
        run(&mut plant, 2.0);
        struck.push(fallen_kg(&plant) - hopper_kg);
        let still_kg = fallen_kg(&plant);
        run(&mut plant, 5.5);
        assert!(
            (fallen_kg(&plant) - still_kg).abs() < 1e-9,
            "nothing falls between two blows"
        );
    }
    // Every group loses the same but for what settles meanwhile, minutes of 4 h.
    for one in &struck {
        assert!((one / struck[0] - 1.0).abs() < 0.03, "{struck:?}");
    }
    // Of every place comes off what the formula says of its thickness.
    let (mut off, mut lay) = (0.0, 0.0);
    for thickness_m in places_m {
        off += thickness_m * rapping::removed_share(1500.0, thickness_m, 600.0).expect("a share");
        lay += thickness_m;
    }
    let dislodged = struck.iter().sum::<f64>() / (1.0 - 0.124) / before_kg;
    assert!(
        (dislodged / (off / lay) - 1.0).abs() < 0.02,
        "{dislodged} and {}",
        off / lay
    );
    let next_s = plant.shafts[0].next_strike_s();
    assert!((next_s - 8.0 * HOUR_S).abs() < 1e-6, "{next_s}");
}

#[test]
fn a_shaft_that_is_slower_than_its_interval_does_not_stop() {
    let mut conditions = plain();
    conditions.rapping.interval_s = vec![60.0; 4];
    conditions.rapping.shaft_speed_per_s = 0.5 / 60.0;
    let mut plant = plant(&conditions);
    run(&mut plant, 60.0 + 120.0 - 1e-3);
    assert!((plant.shafts[2].next_strike_s() - 180.0).abs() < 1e-9);
    // It goes on as fast as it can when it is told to turn faster in the middle of a turn.
    let mut faster = conditions.clone();
    faster.rapping.shaft_speed_per_s = 8.0 / 60.0;
    run(&mut plant, 20.0);
    plant
        .change(&faster, plant.rates.clone())
        .expect("the same");
    run(&mut plant, 3600.0);
    assert!(plant.ledger().imbalance() < 1e-12);
    assert!(plant.shafts[2].next_strike_s() > plant.time_s() - 1e-9);
}

#[test]
fn segments_add_up_to_the_field_and_follow_the_dust() {
    let conditions = plain();
    let mut plant = plant(&conditions);
    run(&mut plant, 3.0 * HOUR_S);
    let field = read(&mut plant).fields[0].clone();
    let rows = &field.layer_map_m;
    assert_eq!((rows.len(), rows[0].len()), (SEGMENTS_HIGH, SEGMENTS_ALONG));
    let mean_m = rows.iter().flatten().sum::<f64>() / (SEGMENTS_HIGH * SEGMENTS_ALONG) as f64;
    assert!((mean_m / field.layer_m - 1.0).abs() < 1e-12);
    let thickest_m = rows.iter().flatten().copied().fold(0.0, f64::max);
    assert!((field.thickest_m / thickest_m - 1.0).abs() < 1e-12);
    // With full mixing and one drift the catch falls as e^(−De x) along a field (Deutsch 1922); De = 0.09·1980/118.8.
    let fall = |share: f64| (-1.5 * share).exp();
    for stretch in 0..SEGMENTS_ALONG {
        let (start, end) = (stretch as f64 / 4.0, (stretch + 1) as f64 / 4.0);
        let expected = (fall(start) - fall(end)) / (1.0 - fall(1.0));
        let found = rows.iter().map(|row| row[stretch]).sum::<f64>() / (12.0 * mean_m);
        // About 29 500 of the 40 000 parcels are caught here: a standard error of 0.003.
        assert!((found - expected).abs() < 0.012, "{found} and {expected}");
    }
    // Even gas: the rows get the same.
    assert!((rows[0][0] / rows[2][0] - 1.0).abs() < 1e-9, "{rows:?}");
    let uneven = height_shares(&demonstration()).expect("a face");
    assert!((uneven.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    assert!(uneven[0] != uneven[1], "{uneven:?}");
}

/// What the first blow on the last field, where all that comes back leaves, sends out over what it throws off; and the
/// thickness at every place before.
fn first_return(conditions: &Conditions) -> (f64, Vec<f64>) {
    let mut plant = plant(conditions);
    run(&mut plant, conditions.rapping.interval_s[3] - 1e-6);
    let places_m = read(&mut plant).fields[3].layer_map_m.concat();
    let layer_kg = plant.layers[3].total_kg();
    let out_kg = plant.ledger().kg(Account::Outlet);
    plant.rap(3).expect("possible");
    let off_kg = layer_kg - plant.layers[3].total_kg();
    (
        (plant.ledger().kg(Account::Outlet) - out_kg) / off_kg,
        places_m,
    )
}

#[test]
fn thin_layers_return_more() {
    let mut conditions = plain();
    conditions.rapping.wire_interval_s = vec![700.0 * HOUR_S; 4];
    conditions.rapping.interval_s[3] = 30.0 * HOUR_S;
    let (constant, _) = first_return(&conditions);
    // Behind the last field nothing catches it: the share is that of the sheet.
    assert!((constant - 0.124).abs() < 1e-9, "{constant}");
    conditions.teaching.thin_layer_m = Some(0.003);
    let (thin, places_m) = first_return(&conditions);
    assert!(thin > 2.0 * constant, "{thin}");
    // Every place by itself: what comes off it, and what of that returns.
    let (mut off, mut back) = (0.0, 0.0);
    for thickness_m in places_m {
        let removed = rapping::removed_share(1500.0, thickness_m, 600.0).expect("a share");
        off += removed * thickness_m;
        back += removed
            * thickness_m
            * rapping::returned_share(thickness_m, 0.124, 0.003).expect("a share");
    }
    assert!((thin / (back / off) - 1.0).abs() < 1e-6, "{thin}");
    // And in the long run the collector emits more.
    let emitted = |conditions: &Conditions| {
        let mut plant = plant(conditions);
        run(&mut plant, 200.0 * HOUR_S);
        plant.ledger().kg(Account::Outlet)
    };
    assert!(emitted(&conditions) > 1.1 * emitted(&plain()));
}

#[test]
fn energy_that_is_lost_and_hammers_that_are_known_decide_about_the_blow() {
    let mut conditions = plain();
    let blow = |conditions: &Conditions| acceleration_m_s2(conditions, 1).expect("a blow");
    assert!((blow(&conditions) - 1500.0).abs() < 1e-9);
    // By hand: a quarter of the energy is half of the acceleration.
    conditions.defects[1].lost_blow = 0.75;
    assert!((blow(&conditions) - 750.0).abs() < 1e-9);
    conditions.defects[1].lost_blow = 0.0;
    conditions.rapping.hammer_mass_kg = Some(8.0);
    conditions.rapping.hammer_drop_m = Some(0.6);
    // By hand: 8·9.80665·0.6 = 47.072 J; 1500·√(47.072/50) = 1455.4 m/s².
    assert!((blow(&conditions) - 1455.4).abs() < 0.1);
    conditions.defects[1].lost_blow = 1.0;
    let mut plant = plant(&conditions);
    run(&mut plant, 24.0 * HOUR_S);
    assert!(plant.rows[1].total_kg() < 1e-9 + plant.wires[1].share * plant.layers[1].total_kg());
}

#[test]
fn wires_are_coated_a_little_and_their_blows_clean_them() {
    let mut conditions = plain();
    conditions.rapping.wire_interval_s = vec![HOUR_S; 4];
    conditions.defects[1].uncleaned_wires = 1.0;
    let mut plant = plant(&conditions);
    run(&mut plant, 0.99 * HOUR_S);
    let fields = read(&mut plant).fields;
    for field in &fields {
        // A fiftieth of the growth of the plates; the tube around a thin wire is a little thinner than a flat coat.
        let ratio = field.wire_coating_m / field.layer_m;
        assert!(ratio > 0.019 && ratio <= 0.02, "{ratio}");
    }
    run(&mut plant, 0.02 * HOUR_S);
    let after = read(&mut plant).fields;
    assert!(after[0].wire_coating_m < 0.05 * fields[0].wire_coating_m);
    assert!(after[1].wire_coating_m > fields[1].wire_coating_m, "left");
}

#[test]
fn a_puff_darkens_the_stack_by_what_one_group_sends_out() {
    let mut conditions = plain();
    let never_s = 700.0 * HOUR_S;
    conditions.rapping.wire_interval_s = vec![never_s; 4];
    conditions.rapping.interval_s = vec![never_s, never_s, never_s, 20.0 * HOUR_S];
    let mut plant = plant(&conditions);
    run(&mut plant, 20.0 * HOUR_S - 1.0);
    read(&mut plant);
    let (out_kg, layer_kg) = (
        plant.ledger().kg(Account::Outlet),
        plant.layers[3].total_kg(),
    );
    plant.time_s = 20.0 * HOUR_S;
    plant.rap(3).expect("possible");
    let puff_kg = plant.ledger().kg(Account::Outlet) - out_kg;
    assert!(plant.layers[3].total_kg() > 0.95 * layer_kg, "one group");
    let reading = read(&mut plant);
    // By hand: fall √(20/9.80665) = 1.428 s and 3 m at 1.2 m/s; Bouguer over 5 m with the extinction of each class.
    let flow_m3_s = conditions.gas.flow_m3_s;
    let classes = plant.rates.diameters_m.iter().enumerate();
    let depth: f64 = classes
        .map(|(class, diameter_m)| {
            let of_puff = plant.worn.behind[3].left[class] * puff_kg / (flow_m3_s * 3.928);
            let steady = plant.worn.fresh.left[class] * 8e-3;
            let extinction = stack::grain_extinction(*diameter_m, 550e-9, 1.5).expect("light");
            1.5 * extinction / (2300.0 * diameter_m) * (of_puff + steady) * 5.0
        })
        .sum();
    assert!((0.3..10.0).contains(&depth), "{depth}");
    let found = -(1.0 - reading.peak_opacity).ln();
    // The time of a puff above has four digits.
    assert!((found / depth - 1.0).abs() < 1e-3, "{found} and {depth}");
    assert_eq!(reading.peak_at_s, Some(20.0 * HOUR_S));
    run(&mut plant, 1.0);
    assert_eq!(read(&mut plant).peak_at_s, None, "read once");
}

#[test]
fn groups_that_fall_together_make_a_darker_puff() {
    let peak = |speed_per_s: f64| {
        let mut conditions = plain();
        conditions.rapping.shaft_speed_per_s = speed_per_s;
        let mut plant = plant(&conditions);
        run(&mut plant, 4.1 * HOUR_S);
        let reading = read(&mut plant);
        assert!(reading.peak_opacity > reading.opacity);
        -(1.0 - reading.peak_opacity).ln()
    };
    // 7.5 s apart puffs of 3.9 s pass alone; 0.19 s apart up to 21 of the 32 pass at once.
    let (apart, together) = (peak(0.25 / 60.0), peak(10.0 / 60.0));
    assert!(together > 10.0 * apart, "{together} and {apart}");
}

#[test]
fn a_field_is_rapped_when_asked_and_counts_its_interval_from_then() {
    let mut plant = plant(&plain());
    run(&mut plant, HOUR_S);
    let before_kg = plant.layers[0].total_kg();
    plant.rap_now(0).expect("a field");
    run(&mut plant, 120.0);
    // In the middle of a turn nothing is begun again.
    plant.rap_now(0).expect("a field");
    run(&mut plant, 120.0);
    assert!(plant.layers[0].total_kg() < 0.8 * before_kg);
    let next_s = plant.shafts[0].next_strike_s();
    assert!((next_s - 5.0 * HOUR_S).abs() < 1e-6, "{next_s}");
    let refused = plant.rap_now(4).expect_err("four fields");
    assert!(refused.to_string().contains("field is 4"), "{refused}");
}

#[test]
fn hours_to_the_alarm_are_those_of_the_hand_calculation() {
    let mut plant = plant(&plain());
    // By hand: sides grow from 0.1 to 1, so up to 0.8 of the height lie (0.82³ − 0.1³)/(1 − 0.1³) = 0.550 919 of 30 m³,
    // 8594.3 kg at 520 kg/m³; the field catches 0.95·(1 − e^−1.5)·0.9504 = 0.70141 kg/s, of which its raps send 12.4 %
    // back into the gas: 13 987 s.
    let alarm_s = read(&mut plant).fields[0].hopper_alarm_s;
    let hoppers = plant.hoppers().expect("possible");
    assert_eq!(hoppers[0].until_alarm_s, Some(alarm_s));
    // 40 000 parcels: a standard error of 0.4 %.
    assert!((alarm_s / 13_987.0 - 1.0).abs() < 0.015, "{alarm_s} s");
}

#[test]
fn a_bridged_row_fills_sounds_its_alarm_and_reaches_the_frame() {
    let mut conditions = plain();
    conditions.defects[0].bridged = 1.0;
    let mut plant = plant(&conditions);
    let (mut alarmed, mut at_frame) = (false, false);
    for _ in 0..48 {
        run(&mut plant, 0.5 * HOUR_S);
        let fields = read(&mut plant).fields;
        // By hand: the alarm at 8594.3 kg (above); a heap 1 m high has a foot of 1/tan 40° = 1.1918 m and π/3·1.1918³·
        // 0.8391 = 1.4875 m³: with the 30 m³ below 16 373.5 kg.
        let kg = fields[0].hopper_kg;
        assert_eq!(fields[0].hopper_alarm, kg >= 8594.3, "{kg}");
        assert_eq!(fields[0].ash_at_frame, kg >= 16_373.5, "{kg}");
        alarmed |= fields[0].hopper_alarm && !fields[0].ash_at_frame;
        at_frame |= fields[0].ash_at_frame;
        // The dust of a lost field goes to the next hoppers.
        assert!(at_frame || !fields[1].hopper_alarm, "{kg}");
    }
    assert!(alarmed && at_frame && plant.ash_at_frame(0));
    // What bridges is not taken away; half of it is where half bridges.
    let mut half = conditions.clone();
    half.defects[0].bridged = 0.5;
    plant.change(&half, plant.rates.clone()).expect("the same");
    let (kg, taken_kg) = (
        plant.rows[0].total_kg(),
        plant.ledger().kg(Account::TakenAway),
    );
    plant.empty(0).expect("possible");
    assert!((plant.rows[0].total_kg() / kg - 0.5).abs() < 1e-12);
    let more_kg = plant.ledger().kg(Account::TakenAway) - taken_kg;
    assert!((more_kg / kg - 0.5).abs() < 1e-12);
}

#[test]
fn ash_reaches_the_frame_over_the_brim_and_a_heap() {
    let mut row = HopperRow::new(&plain(), 0, 1).expect("possible");
    // By hand as above; the brim itself, at 15 600 kg, is not yet the frame.
    row.add(&[16_373.0], 1.0);
    assert!(row.below_frame_m() > 0.0 && row.filled() > 1.04);
    row.add(&[1.0], 1.0);
    assert!(row.below_frame_m() <= 0.0);
    // Under plates of half a metre no such heap has room: r = 0.25 m, 0.2098 m high, on a bed of 0.7902 m.
    let mut short = plain();
    short.collector.field_length_m = 0.5;
    let mut row = HopperRow::new(&short, 0, 1).expect("possible");
    // 0.7902·0.5·9.9 + π/3·0.25³·0.8391 = 3.9254 m³ over 30 m³.
    row.add(&[33.92 * 520.0], 1.0);
    assert!(row.below_frame_m() > 0.0);
    row.add(&[0.01 * 520.0], 1.0);
    assert!(row.below_frame_m() <= 0.0);
}

/// The two classes meet at √(10·202.5) = 45 µm.
/// Where a load with this loss on ignition and this share above 45 µm goes, and what it brings.
fn sent(standard: AshStandard, loss_on_ignition: f64, coarse: f64) -> AshReading {
    let mut conditions = plain();
    conditions.ash.standard = standard;
    conditions.ash.loss_on_ignition = loss_on_ignition;
    let mut silo = Silo::new(2);
    let load_kg = [2000.0 * (1.0 - coarse), 2000.0 * coarse];
    silo.take(&load_kg, &conditions, &[10e-6, 202.5e-6])
        .and_then(|()| silo.reading(&conditions, &[10e-6, 202.5e-6]))
        .expect("possible")
}

#[test]
fn ash_is_sold_within_the_limits_and_costs_beyond_them() {
    use AshStandard::{AstmC618, En450};
    // From memory: EN 450-1 category A 5 %, category N 40 % on 45 µm; ASTM C618 6 % and 34 %.
    for (standard, loss, coarse, sold) in [
        (En450, 0.045, 0.37, true),
        (AstmC618, 0.045, 0.37, false),
        (En450, 0.055, 0.30, false),
        (AstmC618, 0.055, 0.30, true),
        (AstmC618, 0.065, 0.30, false),
        (En450, 0.045, 0.42, false),
    ] {
        let ash = sent(standard, loss, coarse);
        assert!((ash.retained_45_um - coarse).abs() < 1e-12, "{ash:?}");
        // 2 t at 15 or at 25 of the demonstration's invented money.
        let (route, money) = if sold {
            (AshRoute::Sale, 30.0)
        } else {
            (AshRoute::Disposal, -50.0)
        };
        assert_eq!(ash.route, Some(route), "{standard:?} {loss} {coarse}");
        assert!((ash.money - money).abs() < 1e-12, "{ash:?}");
        assert!((ash.sold_kg + ash.disposed_kg - 2000.0).abs() < 1e-9);
    }
}

#[test]
fn the_silo_mixes_by_mass() {
    let mut conditions = plain();
    let mut silo = Silo::new(1);
    for (loss, kg) in [(0.02, 3000.0), (0.10, 1000.0)] {
        conditions.ash.loss_on_ignition = loss;
        silo.take(&[kg], &conditions, &[10e-6]).expect("possible");
    }
    let ash = silo.reading(&conditions, &[10e-6]).expect("possible");
    // By hand: (3·2 + 10)/4 = 4 %: the second load alone could not be sold.
    assert!((ash.loss_on_ignition - 0.04).abs() < 1e-12, "{ash:?}");
    assert_eq!(ash.route, Some(AshRoute::Sale));
}

#[test]
fn the_silo_holds_what_was_taken_away_and_row_one_is_the_coarsest() {
    let conditions = demonstration();
    let mut plant = Plant::new(&conditions, rates(&conditions)).expect("possible");
    run(&mut plant, 48.0 * HOUR_S);
    let ash = read(&mut plant).ash;
    let taken_kg = plant.ledger().kg(Account::TakenAway);
    assert!((ash.silo_kg / taken_kg - 1.0).abs() < 1e-9, "{ash:?}");
    // By hand: ln(45/10)/ln 3 = 1.3691; 8.55 % of a log-normal dust of 10 µm and 3.0 are coarser than 45 µm, nearly all
    // of it is caught, and what waits on the plates of the last fields is fine.
    assert!(
        (0.080..0.105).contains(&ash.retained_45_um),
        "{}",
        ash.retained_45_um
    );
}
