//! Position and derivatives at one place of a surface, and what follows from them.

use crate::geometry::curve::Vector;

/// A surface point with its first and second derivatives by the parameters.
///
/// The side on which `dv × du` points is the outside; the loft's parameters are laid so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Jet {
    /// The point, mm.
    pub point: Vector<3>,
    /// ∂S/∂u.
    pub du: Vector<3>,
    /// ∂S/∂v.
    pub dv: Vector<3>,
    /// ∂²S/∂u².
    pub duu: Vector<3>,
    /// ∂²S/∂u∂v.
    pub duv: Vector<3>,
    /// ∂²S/∂v².
    pub dvv: Vector<3>,
}

/// Principal curvatures, 1/mm; positive where the surface bulges outward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curvatures {
    /// The greater.
    pub greater: f64,
    /// The lesser.
    pub lesser: f64,
}

/// A place counts as a pole where |du| or |dv| is below this share of the derivatives together, as rounding leaves it
/// where they should vanish, or |du × dv| below this share of |du||dv|.
const POLE: f64 = 1e-9;

impl Jet {
    /// `dv × du`, outward, with the area element as its length.
    pub fn area_vector(&self) -> Vector<3> {
        self.dv.cross(&self.du)
    }

    /// The outward unit normal, or `None` where the derivatives do not span a plane (a pole).
    pub fn normal(&self) -> Option<Vector<3>> {
        let cross = self.area_vector();
        let (length, du, dv) = (cross.norm(), self.du.norm(), self.dv.norm());
        let least = POLE * (du + dv + self.duu.norm());
        let regular = du > least && dv > least && length > POLE * du * dv;
        regular.then(|| cross / length)
    }

    /// Derivatives of the unit normal by u and v (Weingarten), given the normal.
    pub fn normal_derivatives(&self, normal: &Vector<3>) -> (Vector<3>, Vector<3>) {
        let length = self.area_vector().norm();
        let project = |w: Vector<3>| (w - normal * normal.dot(&w)) / length;
        (
            project(self.duv.cross(&self.du) + self.dv.cross(&self.duu)),
            project(self.dvv.cross(&self.du) + self.dv.cross(&self.duv)),
        )
    }

    /// The point moved inward by `depth` along the normal, with first derivatives; `None` at a pole.
    pub fn inward(&self, depth: f64) -> Option<(Vector<3>, Vector<3>, Vector<3>)> {
        let normal = self.normal()?;
        let (nu, nv) = self.normal_derivatives(&normal);
        Some((
            self.point - normal * depth,
            self.du - nu * depth,
            self.dv - nv * depth,
        ))
    }

    /// Normal curvature in the tangent direction `along` (any length), 1/mm, positive where the surface
    /// bulges outward; `None` at a pole.
    pub fn normal_curvature(&self, along: &Vector<3>) -> Option<f64> {
        let normal = self.normal()?;
        // Solve along = a du + b dv in the tangent plane by the first fundamental form.
        let (e, f, g) = (
            self.du.norm_squared(),
            self.du.dot(&self.dv),
            self.dv.norm_squared(),
        );
        let (p, q) = (self.du.dot(along), self.dv.dot(along));
        let det = e * g - f * f;
        let (a, b) = ((g * p - f * q) / det, (e * q - f * p) / det);
        let first = e * a * a + 2.0 * f * a * b + g * b * b;
        let second = normal.dot(&self.duu) * a * a
            + 2.0 * normal.dot(&self.duv) * a * b
            + normal.dot(&self.dvv) * b * b;
        Some(-second / first)
    }

    /// Principal curvatures (do Carmo, section 3-3); `None` at a pole.
    pub fn curvatures(&self) -> Option<Curvatures> {
        let normal = self.normal()?;
        let (e, f, g) = (
            self.du.norm_squared(),
            self.du.dot(&self.dv),
            self.dv.norm_squared(),
        );
        let (l, m, n) = (
            -normal.dot(&self.duu),
            -normal.dot(&self.duv),
            -normal.dot(&self.dvv),
        );
        let det = e * g - f * f;
        let mean = (l * g - 2.0 * m * f + n * e) / (2.0 * det);
        let gauss = (l * n - m * m) / det;
        let spread = (mean * mean - gauss).max(0.0).sqrt();
        Some(Curvatures {
            greater: mean + spread,
            lesser: mean - spread,
        })
    }
}
