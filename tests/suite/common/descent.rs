//! Distances from the finished surface that do not ask the loft.

use boardwright::board::Board;

/// Distance of a point from the finished bottom or deck near it, by descent on the exact sections; the loft is not asked.
pub fn depth_under(board: &Board, p: [f64; 3], bottom: bool) -> f64 {
    let apex = board.shell.apex;
    let range = if bottom { [0.0, apex] } else { [apex, 1.0] };
    let at = |x: f64, v: f64| {
        let q = board.family.section_at(x).point(v);
        ((x - p[0]).powi(2) + (q.x - p[1]).powi(2) + (q.y - p[2]).powi(2)).sqrt()
    };
    let (mut x, mut v) = (p[0], (range[0] + range[1]) / 2.0);
    let (mut dx, mut dv) = (8.0, (range[1] - range[0]) / 2.0);
    let mut best = at(x, v);
    while dv > 1e-7 {
        let mut moved = false;
        for (a, b) in [
            (dx, 0.0),
            (-dx, 0.0),
            (0.0, dv),
            (0.0, -dv),
            (dx, dv),
            (dx, -dv),
            (-dx, dv),
            (-dx, -dv),
        ] {
            let (nx, nv) = (x + a, (v + b).clamp(range[0], range[1]));
            let d = at(nx, nv);
            if d < best {
                (best, x, v, moved) = (d, nx, nv, true);
            }
        }
        if !moved {
            dx /= 2.0;
            dv /= 2.0;
        }
    }
    best
}
