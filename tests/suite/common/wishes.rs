//! Plausible designs at random.

use proptest::prelude::*;

#[derive(Debug, Clone)]
pub struct Wish {
    pub length: f64,
    pub width: f64,
    pub wide: f64,
    pub nose_share: f64,
    pub tail_share: f64,
    pub nose: &'static str,
    pub tail: &'static str,
    pub thickness: f64,
    pub thin: f64,
    pub rocker: [f64; 2],
    pub contours: [&'static str; 3],
    pub depth: f64,
    pub hard_tail: bool,
}

/// Designs of every kind.
pub fn wish() -> impl Strategy<Value = Wish> {
    let nose = prop::sample::select(vec!["round", "pointed"]);
    let tail = prop::sample::select(vec!["pin", "round", "square", "squash", "swallow"]);
    let contour = || prop::sample::select(vec!["flat", "roll", "concave", "double-concave", "vee"]);
    (
        (
            1650.0..3000.0_f64,
            470.0..620.0_f64,
            -0.05..0.05_f64,
            0.55..0.75_f64,
            0.66..0.8_f64,
        ),
        (nose, tail, 55.0..85.0_f64, 0.55..0.7_f64),
        (60.0..150.0_f64, 20.0..70.0_f64),
        (
            [contour(), contour(), contour()],
            1.0..5.0_f64,
            any::<bool>(),
        ),
    )
        .prop_map(|(plan, ends, rocker, section)| Wish {
            length: plan.0,
            width: plan.1,
            wide: plan.2,
            nose_share: plan.3,
            tail_share: plan.4,
            nose: ends.0,
            tail: ends.1,
            thickness: ends.2,
            thin: ends.3,
            rocker: [rocker.0, rocker.1],
            contours: section.0,
            depth: section.1,
            hard_tail: section.2,
        })
}

/// The design file that says so.
pub fn text(w: &Wish) -> String {
    let end = match w.tail {
        "square" => format!("tail_end_width = {:.1}\n", w.width * 0.35),
        "squash" => format!("tail_end_width = {:.1}\ntail_corner = 30\n", w.width * 0.33),
        "swallow" => format!("tail_end_width = {:.1}\ntail_cleft = 90\n", w.width * 0.45),
        _ => String::new(),
    };
    let mut text = format!(
        "name = \"at large\"\n[outline]\nlength = {:.1}\nwidth = {:.1}\nwide_point = {:.1}\nnose_width = {:.1}\n\
         tail_width = {:.1}\nnose = \"{}\"\ntail = \"{}\"\n{end}[rocker]\nnose = {:.1}\ntail = {:.1}\n\
         [foil]\ncentre = {:.1}\nnose = {:.1}\ntail = {:.1}\n",
        w.length,
        w.width,
        w.length * (0.5 + w.wide),
        w.width * w.nose_share,
        w.width * w.tail_share,
        w.nose,
        w.tail,
        w.rocker[0],
        w.rocker[1],
        w.thickness,
        w.thickness * w.thin,
        w.thickness * (w.thin + 0.05),
    );
    for (place, contour) in [0.1, 0.5, 0.85].iter().zip(w.contours) {
        text += &format!(
            "[[section]]\nat = {:.1}\ncontour = \"{contour}\"\n",
            w.length * place
        );
        if contour != "flat" {
            text += &format!("contour_depth = {:.1}\n", w.depth);
        }
        let hard = w.hard_tail && *place < 0.2;
        text += if hard {
            "edge = \"hard\"\n"
        } else {
            "edge = \"soft\"\n"
        };
    }
    let set = match w.tail {
        "pin" => "single",
        "round" => "three",
        "square" => "five",
        _ => "twin",
    };
    text += &format!("[fins]\nset = \"{set}\"\n");
    text
}
