//! The friction factor of Darcy–Weisbach.

use libm::log;

/// Twice the decimal logarithm by the natural one, which is found faster.
const TWICE_LOG10: f64 = 2.0 * std::f64::consts::LOG10_E;

/// Whether slow flow is reckoned as laminar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LaminarBranch {
    /// Below Reynolds number 2040 the friction is that of laminar flow.
    WithLaminar,
    /// Colebrook at every Reynolds number, as some network libraries do; for comparison with them. Below 2040 it gives
    /// more friction than laminar flow has.
    ColebrookOnly,
    /// Laminar flow, and over the last hundredth before 2040 a steep straight way of `f Re²`, by which the loss goes, up to
    /// Colebrook: the loss rises with the flow everywhere and never jumps, so that a network with rings has one answer.
    /// Never less friction than with the jump.
    Bridged,
}

/// Below this Reynolds number turbulence dies out in a pipe: 2040 ± 10 (Avila, Moxey, de Lozar, Avila, Barkley and Hof,
/// *The Onset of Turbulence in Pipe Flow*, Science 333, 2011).
const ONSET_OF_TURBULENCE: f64 = 2040.0;

/// From here the bridge leads up to the onset of turbulence.
const FOOT_OF_BRIDGE: f64 = 0.99 * ONSET_OF_TURBULENCE;

/// Relative accuracy to which Colebrook's equation is solved.
const ACCURACY: f64 = 1e-12;

/// The Darcy friction factor.
///
/// Laminar, Re < 2040: `f = 64 / Re` (Hagen–Poiseuille, exact).
///
/// Turbulent: `1/√f = −2 log10(k / (3.7 D) + 2.51 / (Re √f))` (Colebrook, *Turbulent Flow in Pipes, with particular
/// reference to the transition region*, J. Inst. Civ. Eng. 11, 1939), k roughness and D diameter in one unit, solved to
/// 1e-12. The equation itself is held to be within some 5 to 10 % of measured pipe.
///
/// From 2040 to about 4000, the critical zone, flow is turbulent in bursts and the true friction wanders between the two
/// laws. Colebrook is taken, the greater of them, so that the factor jumps up at 2040 and pressure is not overstated.
///
/// `reynolds` greater than zero, `relative_roughness` k/D from 0 to 1; without flow (Re zero or less) the factor is 0.
pub fn friction_factor(reynolds: f64, relative_roughness: f64, laminar: LaminarBranch) -> f64 {
    if reynolds.is_nan() || reynolds <= 0.0 {
        return 0.0;
    }
    match laminar {
        LaminarBranch::WithLaminar if reynolds < ONSET_OF_TURBULENCE => 64.0 / reynolds,
        LaminarBranch::Bridged if reynolds <= FOOT_OF_BRIDGE => 64.0 / reynolds,
        LaminarBranch::Bridged if reynolds < ONSET_OF_TURBULENCE => {
            let (foot, head) = bridge(relative_roughness);
            let along = (reynolds - FOOT_OF_BRIDGE) / (ONSET_OF_TURBULENCE - FOOT_OF_BRIDGE);
            (foot + (head - foot) * along) / (reynolds * reynolds)
        }
        LaminarBranch::WithLaminar | LaminarBranch::ColebrookOnly | LaminarBranch::Bridged => {
            colebrook(reynolds, relative_roughness)
        }
    }
}

/// `f Re²` where the bridge begins and where it ends.
fn bridge(relative_roughness: f64) -> (f64, f64) {
    let head = colebrook(ONSET_OF_TURBULENCE, relative_roughness) * ONSET_OF_TURBULENCE * ONSET_OF_TURBULENCE;
    (64.0 * FOOT_OF_BRIDGE, head)
}

/// The Reynolds number of the flow for which `Re √f` has this value, which depends on the pressure gradient alone: the
/// other way round than [`friction_factor`], without a search.
///
/// Turbulent: Colebrook gives 1/√f from `Re √f` at once. Laminar: `Re = (Re √f)² / 64`. Where both laws would do, in
/// the gap of the jump at Re 2040, that number itself: the greatest laminar flow loses less than the gradient.
pub(super) fn reynolds_at(re_root_f: f64, relative_roughness: f64, laminar: LaminarBranch) -> f64 {
    if re_root_f.is_nan() || re_root_f <= 0.0 {
        return 0.0;
    }
    let a = relative_roughness.clamp(0.0, 1.0) / 3.7;
    let turbulent = (-TWICE_LOG10 * log(a + 2.51 / re_root_f)).max(0.0) * re_root_f;
    match laminar {
        LaminarBranch::WithLaminar if turbulent < ONSET_OF_TURBULENCE => {
            (re_root_f * re_root_f / 64.0).min(ONSET_OF_TURBULENCE)
        }
        LaminarBranch::Bridged if turbulent < ONSET_OF_TURBULENCE => {
            let (foot, head) = bridge(relative_roughness);
            let lost = re_root_f * re_root_f;
            if lost <= foot {
                lost / 64.0
            } else {
                let along = ((lost - foot) / (head - foot)).min(1.0);
                FOOT_OF_BRIDGE + along * (ONSET_OF_TURBULENCE - FOOT_OF_BRIDGE)
            }
        }
        LaminarBranch::WithLaminar | LaminarBranch::ColebrookOnly | LaminarBranch::Bridged => turbulent,
    }
}

/// Newton's method on x = 1/√f, for `F(x) = x + 2 log10(a + b x)` with a = k/(3.7 D), b = 2.51/Re.
///
/// F rises and is concave, so that from the second step on Newton comes up to the root from below and cannot miss it.
/// The first guess is what the equation gives for a middling x within its logarithm, within some percent: three or four steps do.
fn colebrook(reynolds: f64, relative_roughness: f64) -> f64 {
    let a = relative_roughness.clamp(0.0, 1.0) / 3.7;
    let b = 2.51 / reynolds;
    let mut x = (-TWICE_LOG10 * log(a + b * 7.0)).max(0.01);
    for _ in 0..60 {
        let inner = a + b * x;
        let slope = 1.0 + TWICE_LOG10 * b / inner;
        let step = (x + TWICE_LOG10 * log(inner)) / slope;
        // A step past zero can only happen at Reynolds numbers of a few units.
        x = if step < x { x - step } else { x / 10.0 };
        if step.abs() <= ACCURACY * x {
            break;
        }
    }
    1.0 / (x * x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_satisfies_colebrooks_equation() {
        for exponent in 4..=32 {
            let re = 10f64.powf(f64::from(exponent) / 4.0);
            for k in [0.0, 1e-6, 1e-4, 3e-3, 0.05] {
                let f = friction_factor(re, k, LaminarBranch::ColebrookOnly);
                let x = 1.0 / f.sqrt();
                let again = -2.0 * (k / 3.7 + 2.51 * x / re).log10();
                assert!((again / x - 1.0).abs() < 1e-10, "Re {re}, k/D {k}: {x} against {again}");
            }
        }
    }

    #[test]
    fn the_factor_jumps_up_where_turbulence_sets_in() {
        let [below, above] = [2039.0, 2041.0].map(|re| friction_factor(re, 0.003, LaminarBranch::WithLaminar));
        assert!((below - 64.0 / 2039.0).abs() < 1e-15);
        assert!(above > 1.5 * below);
    }

    #[test]
    fn the_bridge_has_no_jump_and_is_never_below_the_law_with_one() {
        for k in [0.0, 1e-4, 3e-3, 0.05] {
            let mut last = 0.0;
            for step in 0..=4000 {
                let re = 1900.0 + 0.05 * f64::from(step);
                let f = friction_factor(re, k, LaminarBranch::Bridged);
                let lost = f * re * re;
                assert!(lost > last && (last == 0.0 || lost < last * 1.02), "Re {re}, k/D {k}");
                last = lost;
                assert!(
                    f >= friction_factor(re, k, LaminarBranch::WithLaminar) * (1.0 - 1e-12),
                    "Re {re}"
                );
                let back = reynolds_at(lost.sqrt(), k, LaminarBranch::Bridged);
                assert!((back / re - 1.0).abs() < 1e-9, "Re {re}, k/D {k}: back {back}");
            }
        }
    }

    #[test]
    fn odd_numbers_give_numbers() {
        for re in [f64::NAN, -1.0, 0.0, 1e-300, 1e-3, 1e300, f64::INFINITY] {
            for k in [-1.0, 0.0, 0.5, 40.0] {
                for branch in [
                    LaminarBranch::WithLaminar,
                    LaminarBranch::ColebrookOnly,
                    LaminarBranch::Bridged,
                ] {
                    assert!(!friction_factor(re, k, branch).is_nan(), "Re {re}, k/D {k}");
                }
            }
        }
    }
}
