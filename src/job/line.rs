//! The straight line between two places of the lattice.

use super::LatticePoint;

/// Whether `place` lies on the straight line between `a` and `b`, the ends apart.
pub fn passes(a: LatticePoint, b: LatticePoint, place: LatticePoint) -> bool {
    let between = |a: i32, b: i32, x: i32| a.min(b) <= x && x <= a.max(b);
    if !(between(a.east, b.east, place.east) && between(a.north, b.north, place.north) && between(a.up, b.up, place.up))
    {
        return false;
    }
    if place == a || place == b {
        return false;
    }
    let [along, part] = [difference(a, b), difference(a, place)];
    let cross =
        |i: usize, j: usize| i128::from(along[i]) * i128::from(part[j]) == i128::from(along[j]) * i128::from(part[i]);
    cross(0, 1) && cross(1, 2) && cross(2, 0)
}

/// Into how many equal pieces the places of the lattice on the line part it; 0 for no line at all.
pub fn pieces(a: LatticePoint, b: LatticePoint) -> u64 {
    difference(a, b)
        .iter()
        .fold(0, |all, part| common(all, part.unsigned_abs()))
}

/// The place after so many of the line's [`pieces`].
pub fn place(a: LatticePoint, b: LatticePoint, piece: u64) -> LatticePoint {
    let all = pieces(a, b).max(1);
    let piece = piece.min(all) as i64;
    let part = |a: i32, way: i64| (i64::from(a) + way / all as i64 * piece) as i32;
    let [east, north, up] = difference(a, b);
    LatticePoint::new(part(a.east, east), part(a.north, north), part(a.up, up))
}

fn difference(a: LatticePoint, b: LatticePoint) -> [i64; 3] {
    let part = |a: i32, b: i32| i64::from(b) - i64::from(a);
    [part(a.east, b.east), part(a.north, b.north), part(a.up, b.up)]
}

fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FAR: LatticePoint = LatticePoint::new(i32::MAX, i32::MAX, i32::MAX);
    const NEAR: LatticePoint = LatticePoint::new(i32::MIN, i32::MIN, i32::MIN);

    #[test]
    fn a_line_passes_its_own_places_and_no_others() {
        let (a, b) = (LatticePoint::new(1, 2, 3), LatticePoint::new(7, 2, 0));
        assert_eq!(pieces(a, b), 3);
        for piece in 1..3 {
            assert!(passes(a, b, place(a, b, piece)));
        }
        assert_eq!(place(a, b, 2), LatticePoint::new(5, 2, 1));
        assert_eq!((place(a, b, 0), place(a, b, 3)), (a, b));
        for other in [
            a,
            b,
            LatticePoint::new(2, 2, 2),
            LatticePoint::new(9, 2, -1),
            LatticePoint::new(4, 2, 1),
        ] {
            assert!(!passes(a, b, other), "{other:?}");
        }
    }

    #[test]
    fn the_farthest_places_do_no_harm() {
        assert!(passes(NEAR, FAR, LatticePoint::default()));
        assert_eq!(pieces(NEAR, FAR), u64::from(u32::MAX));
        assert_eq!(place(NEAR, FAR, u64::MAX), FAR);
        assert_eq!(pieces(FAR, FAR), 0);
        assert_eq!(place(FAR, FAR, 3), FAR);
    }
}
