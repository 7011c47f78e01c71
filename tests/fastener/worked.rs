//! Preload and torque against published worked examples.
use super::{LBF, LBF_FT, SQUARE_INCH, assert_near, fastener, size};
use cotter::model::fastener::friction::{FRICTIONS, Surface, friction};
use cotter::model::fastener::preload::{Fastener, force, share_of};

/// An engineering article on torque tables: 3/8-16 grade 5 at 75 % of proof has 4940 lbf; with K 0.20 that takes 30
/// lbf·ft, with K 0.15 it takes 23 (30.875 and 23.156 unrounded).
#[test]
fn three_eighths_at_three_quarters_of_proof() {
    let bolt = fastener("3/8-16 UNC", "grade 5", Surface::Dry);
    assert_near(0.75 * bolt.proof_load().unwrap() / LBF, 4940.0, 0.001, "preload");
    assert_near(bolt.customary().unwrap() / LBF_FT, 30.875, 0.001, "dry");
    let oiled = Fastener { surface: Some(Surface::Oiled), ..bolt };
    assert_near(oiled.customary().unwrap() / LBF_FT, 23.156, 0.001, "oiled");
}

/// A public note on ASME PCC-1, appendix K: studs to 50 000 psi on the root area π/4·(D − 1.3/n)²; lbf, and lbf·ft
/// with K 0.16 and 0.20.
#[test]
fn flange_studs_of_pcc_1() {
    for (written, inches, threads, load, [smooth, rough]) in
        [("3/4-10", 0.75, 10.0, 15_100.0, [151.0, 189.0]), ("1/2-13", 0.5, 13.0, 6285.0, [42.0, 52.0])]
    {
        let root = std::f64::consts::FRAC_PI_4 * (inches - 1.3_f64 / threads).powi(2);
        assert_near(50_000.0 * root, load, 0.001, written);
        let stud = Fastener { thread: size(written), strength: None, surface: None };
        for (k, torque) in [(0.16, smooth), (0.20, rough)] {
            assert_near(
                stud.preload_at(k, torque * LBF_FT) / LBF,
                load,
                0.01,
                &format!("{written} with K {k}"),
            );
        }
    }
}

/// FAA AC 43.13-1B (9/8/98) table 7-1: the torques recommended for tension nuts, oil-free cadmium-plated, are to
/// give about 40 000 psi. in·lb, both ends of the range.
#[test]
fn aircraft_bolts_come_to_about_forty_thousand_psi() {
    for (written, low, high) in [
        ("#8-36", 12.0, 15.0),
        ("#10-32", 20.0, 25.0),
        ("1/4-28", 50.0, 70.0),
        ("5/16-24", 100.0, 140.0),
        ("3/8-24", 160.0, 190.0),
        ("1/2-20", 480.0, 690.0),
        ("5/8-18", 1100.0, 1300.0),
        ("3/4-16", 2300.0, 2500.0),
        ("1-14", 3700.0, 5500.0),
    ] {
        let bolt = Fastener { thread: size(written), strength: None, surface: Some(Surface::Plated) };
        let load = 40_000.0 * LBF * bolt.thread.stress_area() / SQUARE_INCH;
        let preload = bolt.preload(low * LBF_FT / 12.0, high * LBF_FT / 12.0);
        let about = preload.least * 0.9..=preload.most * 1.1;
        assert!(about.contains(&load), "{written}: {load:.0} N is not in {preload:?}");
    }
}

/// The same torque with another lubricant: T₂ = T₁·K₂/K₁. A published sheet prints 53 for 130·0.09/0.17; it is 68.8.
#[test]
fn a_change_of_lubricant_scales_the_torque() {
    let bolt = Fastener { thread: size("1/2-13"), strength: None, surface: None };
    let preload = bolt.preload_at(0.17, 130.0);
    assert_near(preload * 0.09 * bolt.thread.diameter / 1000.0, 68.8, 0.001, "0.09 for 0.17");
}

#[test]
fn every_state_has_a_range_of_k_with_a_source() {
    for row in FRICTIONS {
        assert!(0.05 < row.low && row.low < row.usual && row.usual < row.high && row.high < 0.5, "{row:?}");
        assert!(!row.source.is_empty());
        let widest = friction(None);
        assert!(widest.low <= row.low && row.high <= widest.high, "{row:?}");
    }
    let all = Surface::ALL.iter().filter(|surface| friction(Some(**surface)).surface != Some(**surface));
    assert_eq!(all.count(), 0);
}

/// Hooke's law by hand: M8 x 65 of 36.6 mm², a quarter turn of 1.25 mm stretches three quarters of 0.3125 mm:
/// 0.2344/65·205 000·36.6 = 27.1 kN.
#[test]
fn a_turn_stretches_by_its_pitch() {
    let bolt = fastener("M8", "class 10.9", Surface::Oiled);
    assert_near(bolt.turned(0.0, 90.0, Some(65.0)), 27_060.0, 0.005, "M8 x 65");
    assert_near(bolt.turned(5000.0, 90.0, Some(130.0)), 18_530.0, 0.005, "twice as long");
}

#[test]
fn forces_and_shares_are_said_shortly() {
    let said: Vec<String> = [850.0, 1234.0, 12_940.0, 99_960.0, 146_300.0].map(force).to_vec();
    assert_eq!(said, ["850 N", "1.23 kN", "12.9 kN", "100 kN", "146 kN"]);
    let shares: Vec<String> = [0.074, 1.24, 2.0, 6.23, 12.4].map(|share| share_of(share, "it")).to_vec();
    assert_eq!(shares, ["7 % of it", "124 % of it", "2.0 times it", "6.2 times it", "12 times it"]);
}
