//! The rail: courses of strips bent round the rib ends, from the bottom skin up to where the deck must sit.
//!
//! In: the shell, the construction, planes of constant x. Out: in each plane the [`Stack`] of courses with its [`Margins`], and from these the
//! [`Strip`]s along the board, what bends them ([`demand`]), and [`rail_findings`] where a course cannot hold.
//!
//! [`solve`] does all in one call. Where several rails are solved on one shell, make a [`RailContext`] once and a [`RailProblem`] for each. Start
//! reading with `solve.rs`, which is the iteration, and `stack/mod.rs`, which builds one plane.
//!
//! # The problem
//!
//! **Inputs** ([`RailProblem`]). In every plane the skins' inner faces and the finished section ([`RailContext`]: they depend on neither the
//! strips nor the unknowns, so they are made once and serve every solution); sizes of strips and starters; the *cover* (wood behind the
//! finished rail) and the *proud* (stock outside of it, to be planed away) that are required at least.
//!
//! **Unknowns** (`unknowns.rs`).
//!
//! | unknown | what it is |
//! |---|---|
//! | depth *d* | of the guide, the surface that courses follow, under the finished surface, mm; one number, 0 to half the strips' thickness |
//! | leans *θₖ(x)* | of every course *k*, the angle by which it stands off the upright in the plane at *x* |
//! | edge *e(x)* | where the outer face of starters side by side leaves the bottom skin, mm |
//! | stand *s(x)* | where on those starters the first moulded strip stands, mm |
//! | directions *tₖ(x)* | of every course, along the strip |
//!
//! Given these, the stack of a plane follows from the bottom up without further choice (`stack/`): each strip is true to size in the plane
//! square to it, which is reached by projection along the strip (see [`SquareFrame`]).
//!
//! **Equations.**
//!
//! 1. *Lines.* Each of *θₖ*, *s* and *e* is the smoothest line near what the guide has plane by plane, every course standing on the smoothed
//!    ones below; *e* is moved outboard until it is proud of the finished surface in every plane (`smoothing.rs`, `unknowns.rs`).
//! 2. *Directions.* A strip's direction in a plane is the slope of its own path, read off its middles in the neighbouring planes
//!    (`directions.rs`). Starters side by side lie flat together: the inner ones take the outermost's.
//! 3. *Balance.* Over all planes the least excess of cover over what is required equals that of proud, over moulded strips.
//!
//! **Residuals** (`residuals.rs`). Of 2 the *movement*: how far a strip's head moves, mm, when directions are taken once more and the stacks
//! built anew; a course that comes or goes in a plane has none, and is counted. Of 3 the *imbalance*, mm: excess of proud less excess of
//! cover. 1 is solved exactly at each depth on a grid of its own.
//!
//! # The iteration
//!
//! One outer iteration on *d* (`solve.rs`), in two stages. At each depth:
//!
//! 1. the guide at *d*, then the lines of equation 1, on the *search grid*: planes evenly spaced, so that lines do not depend on how
//!    densely the rail is built;
//! 2. stacks and directions in turns (*rounds*) until the movement is small: on the search grid in the *search stage*; in the *build stage*
//!    on the planes of the context, with the planes next to run-outs added afterwards (`run_outs.rs`);
//! 3. the imbalance, and from it the next depth by false position on a bracket (`depth_search.rs`): *d* inward by one mm takes about one mm
//!    from proud and gives it to cover.
//!
//! The search stage hands its last depth and slope to the build stage. Of the rails built the best balanced is kept, with its
//! [`Convergence`]. There need be no balance: where a course comes or goes the margins jump, and the depth may come to an end of its range;
//! [`Balance`] says which. Nothing proves that the rounds converge. On the three examples two to four rounds settle the strips, and three or
//! four depths balance them; thick starters bent flat round a broad nose need not settle. A rail that still moves after the last round is a
//! finding of [`rail_findings`].
//!
//! Cost: a round builds every stack once, and a depth of the build stage follows the guide in every plane once. Both run on all processors;
//! results do not depend on their number.
//!
//! # Constants
//!
//! All are in `constants.rs`. *Estimate* means that no series of trials is on record.
//!
//! | constant | value | unit | reason, and what it was tuned on |
//! |---|---|---|---|
//! | `ROUNDS` | 16 | | raised from 6 for boards on which a course comes and goes at its run-out |
//! | `SETTLED` | 0.001 | mm | the next round would move a tenth of that; estimate |
//! | `SEARCH_ROUNDS` | 2 | | each depth starts from the last one's directions; estimate |
//! | `SEARCH_STEPS` | 4 | | estimate |
//! | `SEARCH_BALANCED` | 0.1 | mm | estimate |
//! | `BUILD_STEPS` | 6 | | estimate |
//! | `BUILD_BALANCED` | 0.02 | mm | a fifth of what callipers show on wood; estimate |
//! | `LEAST_STEP` | 0.001 | mm | far below what the balance is held to; estimate |
//! | `SLOPE` | 2 | mm per mm | geometry: one from proud, one to cover |
//! | `SLOPE_LEAST` | 1 | mm per mm | half of that; estimate |
//! | `SLOPE_MOST` | 4 | mm per mm | twice that; estimate |
//! | `BRACKET_EDGE` | 0.1 | | false position would stall at the ends; estimate |
//! | `SEARCH_GAPS` | 24 | | estimate |
//! | `SEARCH_GAP` | 40 | mm | a quarter of the stiffness below; estimate |
//! | `SEARCH_STRIDE` | 8 | | 7.7 m of rail; no board is as long |
//! | `SEARCH_ACCURACY` | 0.0002 | mm | far within the balance of the search; chosen for speed, estimate |
//! | `LEAN_STIFFNESS` | 160 | mm | raised from 70 so that strips of 6 mm twist within what common woods take on ordinary boards; estimate |
//! | `EDGE_STIFFNESS` | 30 | mm | a square batten takes no sharper waves; estimate |
//! | `EDGE_ROUNDS` | 8 | | little is missing then; what is, the shift of the edge adds; estimate |
//! | `FEWEST_PLANES` | 3 | | fewer places give no line |
//! | `RUN_OUT_GAP` | 0.05 | mm | estimate |
//! | `DECK_GAP` | 0.25 | mm | within the 0.3 mm that the dry fit lets a bearing gape |
//! | `DECK_LAND` | 0.9 | | set with the first dry fits of whole boards; estimate |
//! | `MOST_COURSES` | 60 | | more than any board has |
//! | `STEEPEST_BEVEL` | 1.732 | tangent | common practice, no published source |
//! | `BEVEL_SHARE` | 0.95 | | past it a square starter is a wedge; set when random designs came apart there |
//! | `LEAST_RISE` | 0.25 | | keeps a course from vanishing while its bevel is sought; estimate |
//! | `LEAST_FORE` | 0.2588 | cosine | no strip of a rail runs more squarely across; set with `BEVEL_SHARE` |

mod bending;
mod boundary;
mod constants;
mod convergence;
mod course;
mod darboux;
mod depth_search;
mod directions;
mod findings;
mod frame;
mod inner_joints;
mod joint;
mod margins;
mod plane_context;
mod problem;
mod profile;
mod residuals;
mod run_outs;
mod section_distance;
mod slices;
mod smoothing;
mod solve;
mod stack;
mod strips;
mod unknowns;

pub use bending::{Bar, Demand, StrainKind, StripDemand, demand};
pub use convergence::{Balance, Convergence};
pub use course::{Course, CourseBody, CourseKind};
pub use darboux::{Darboux, darboux};
pub use findings::{RailLimits, rail_findings};
pub use frame::SquareFrame;
pub use joint::{StripJoint, joint, visible_gap_at};
pub use margins::Margins;
pub use problem::{RailContext, RailProblem, SolveLimits};
pub use profile::{Profile, ProfileEdge};
pub use residuals::Movement;
pub use section_distance::Margin;
pub use slices::{CourseSlice, slice, slices};
pub use solve::{Rail, solve};
pub use stack::Stack;
pub use strips::{Landing, Strip, StripPlace, strips};
