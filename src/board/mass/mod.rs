//! Mass: what every part weighs and where its centre of gravity lies.
//!
//! Volumes are those of the finished board: skins and rail as left inside the finished surface, found from sections in planes of
//! constant x ([`shares`]); ribs and spine by their outlines and thickness; blocks as all that lies between the skins from a block's
//! face to the board's end; less the cut-outs for fittings. Masses follow by the densities of `timber`, glue by the area glued, finish by the surface.

mod cut_outs;
mod glue;
mod part;
mod parts;
mod region;
mod sections;
mod weigh;

pub use part::{Material, Part};
pub use parts::BoardParts;
pub use region::Region;
pub use sections::{Share, Shares, shares};
pub use weigh::Mass;
