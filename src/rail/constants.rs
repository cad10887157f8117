//! Every number the rail's solution rests on that no design file sets; the page at the head of `rail` lists them with their reasons.

/// Rounds of taking the strips' directions from their paths, at most.
///
/// A round reduces the movement about tenfold. Six were enough until boards on which a course comes and goes at its run-out, which
/// take some rounds to come to rest; sixteen let those settle.
pub(super) const ROUNDS: usize = 16;
/// A strip that moves less than this in a round, mm, has settled: the next round would move it a tenth of that.
pub(super) const SETTLED: f64 = 1e-3;
/// Rounds at each depth of the search stage: each depth starts from the directions of the one before.
pub(super) const SEARCH_ROUNDS: usize = 2;

/// Depths tried in the search stage, at most.
pub(super) const SEARCH_STEPS: usize = 4;
/// Imbalance of cover and proud, mm, at which the search stage ends: what the strips' directions still change by then.
pub(super) const SEARCH_BALANCED: f64 = 0.1;
/// Rails built in the build stage, at most.
pub(super) const BUILD_STEPS: usize = 6;
/// Imbalance, mm, at which cover and proud count as equal: a fifth of what callipers show on wood.
pub(super) const BUILD_BALANCED: f64 = 0.02;
/// A step of depth below this, mm, ends a stage: the depth is at an end of its range, or the bracket has closed on a jump.
pub(super) const LEAST_STEP: f64 = 1e-3;
/// By how much the imbalance falls from one mm of depth to the next, mm: moving the guide inward by a mm takes about one from proud and
/// gives it to cover.
pub(super) const SLOPE: f64 = 2.0;
/// Least slope that is believed, mm per mm: a flatter one would throw the next depth far off.
pub(super) const SLOPE_LEAST: f64 = 1.0;
/// Greatest slope that is believed, mm per mm: a steeper fall is a jump of the margins.
pub(super) const SLOPE_MOST: f64 = 4.0;
/// Share of the bracket, at either end, that the next depth keeps out of, where false position would stall.
pub(super) const BRACKET_EDGE: f64 = 0.1;

/// Gaps between the search stage's planes, at least.
pub(super) const SEARCH_GAPS: usize = 24;
/// Greatest gap between them, mm: leans are smoothed over several times as much.
pub(super) const SEARCH_GAP: f64 = 40.0;
/// Multiple of [`SEARCH_GAPS`], at most, that there are: longer rails have wider gaps.
pub(super) const SEARCH_STRIDE: f64 = 8.0;
/// How closely lines are followed in the search stage, mm: far within [`SEARCH_BALANCED`], and twice as fast as the build stage's accuracy.
pub(super) const SEARCH_ACCURACY: f64 = 2e-4;

/// Stiffness of leans and stand, mm: waves shorter than some six times this are smoothed away.
///
/// Strips of 6 mm then twist within what common woods take on ordinary boards, and roll less on each other, while cover hardly suffers.
pub(super) const LEAN_STIFFNESS: f64 = 160.0;
/// The same for the starters' edge, mm: a square batten takes no sharper waves.
pub(super) const EDGE_STIFFNESS: f64 = 30.0;
/// Rounds in which that edge is pushed out to where the finished surface requires it.
pub(super) const EDGE_ROUNDS: usize = 8;
/// Planes, at least, in which a course must stand for its lean to be smoothed.
pub(super) const FEWEST_PLANES: usize = 3;

/// Greatest distance, mm, between the two planes next to a run-out.
pub(super) const RUN_OUT_GAP: f64 = 0.05;

/// A course reaches the deck when its top lies at most this far, mm, below the deck's inner face: within the 0.3 mm that a bearing may
/// gape, since a further course would be planed away.
pub(super) const DECK_GAP: f64 = 0.25;
/// Share of half its thickness, inboard of its middle, over which a moulded strip must carry the deck.
pub(super) const DECK_LAND: f64 = 0.9;
/// Courses in a stack, at most: the thickest board in the thinnest strips has fewer.
pub(super) const MOST_COURSES: usize = 60;
/// Steepest bevel of a flat base, tan 60°: the planed base is then twice as wide as the strip is thick, and no plane held on it finds the
/// strip's side (common practice, no published source).
pub(super) const STEEPEST_BEVEL: f64 = 1.732_050_807_568_877_2;
/// Share of its longer side that a bevel may take from the shorter one, so that a strip keeps both: past 45° a square starter would be a
/// wedge.
pub(super) const BEVEL_SHARE: f64 = 0.95;
/// Share of its height that a course with a flat base gains at least, however it is bevelled.
pub(super) const LEAST_RISE: f64 = 0.25;
/// Least part of a strip's direction that points along the board: cos 75°. What runs more squarely across is no strip of the rail.
pub(super) const LEAST_FORE: f64 = 0.258_819_045_102_520_76;

#[cfg(test)]
mod tests {
    use super::*;

    /// The page's table has every constant of this file, with its value to the digits printed there.
    #[test]
    fn the_page_lists_the_constants_as_they_are() {
        let values = [
            ("ROUNDS", ROUNDS as f64),
            ("SETTLED", SETTLED),
            ("SEARCH_ROUNDS", SEARCH_ROUNDS as f64),
            ("SEARCH_STEPS", SEARCH_STEPS as f64),
            ("SEARCH_BALANCED", SEARCH_BALANCED),
            ("BUILD_STEPS", BUILD_STEPS as f64),
            ("BUILD_BALANCED", BUILD_BALANCED),
            ("LEAST_STEP", LEAST_STEP),
            ("SLOPE", SLOPE),
            ("SLOPE_LEAST", SLOPE_LEAST),
            ("SLOPE_MOST", SLOPE_MOST),
            ("BRACKET_EDGE", BRACKET_EDGE),
            ("SEARCH_GAPS", SEARCH_GAPS as f64),
            ("SEARCH_GAP", SEARCH_GAP),
            ("SEARCH_STRIDE", SEARCH_STRIDE),
            ("SEARCH_ACCURACY", SEARCH_ACCURACY),
            ("LEAN_STIFFNESS", LEAN_STIFFNESS),
            ("EDGE_STIFFNESS", EDGE_STIFFNESS),
            ("EDGE_ROUNDS", EDGE_ROUNDS as f64),
            ("FEWEST_PLANES", FEWEST_PLANES as f64),
            ("RUN_OUT_GAP", RUN_OUT_GAP),
            ("DECK_GAP", DECK_GAP),
            ("DECK_LAND", DECK_LAND),
            ("MOST_COURSES", MOST_COURSES as f64),
            ("STEEPEST_BEVEL", STEEPEST_BEVEL),
            ("BEVEL_SHARE", BEVEL_SHARE),
            ("LEAST_RISE", LEAST_RISE),
            ("LEAST_FORE", LEAST_FORE),
        ];
        let rows = include_str!("mod.rs").lines().filter_map(|line| {
            let mut cells = line.strip_prefix("//! | `")?.split(" | ");
            let name = cells.next()?.strip_suffix('`')?;
            Some((name, cells.next()?.parse::<f64>().ok()?))
        });
        let rows: Vec<_> = rows.collect();
        let names = |of: &[(&'static str, f64)]| of.iter().map(|r| r.0).collect::<Vec<_>>();
        assert_eq!(names(&rows), names(&values));
        for ((name, printed), (_, value)) in rows.iter().zip(&values) {
            assert!(
                (printed / value - 1.0).abs() < 1e-3,
                "{name}: {printed} {value}"
            );
        }
        let code = include_str!("constants.rs");
        let declared = code.matches("\npub(super) const ").count();
        assert_eq!(declared, values.len());
    }
}
