//! Hoppers: how much ash each row gets, how much a hopper holds up to a level, and when that level is reached.
//!
//! `ṁ_i = ṁ·Π_{k<i} P_k·(1−P_i)`, `V(z) = ∫₀ᶻ a(z)·b(z) dz`, `t = V ρ_b/ṁ`

use super::PhysicsError;
use super::error::{not_negative, positive, require};

/// Steps of the search for a level: each at least halves it, so it ends at the last digits.
const SEARCH_STEPS: usize = 60;

/// A funnel with a rectangle at the top and a smaller one at the outlet (a frustum of a pyramid).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hopper {
    /// Sides of the top, m.
    top_m: (f64, f64),
    /// Sides of the outlet, m.
    outlet_m: (f64, f64),
    height_m: f64,
}

impl Hopper {
    /// A hopper of this shape.
    ///
    /// # Arguments
    /// * `top_m` – sides of the top along and across the gas, m, above 0.
    /// * `outlet_m` – sides of the outlet along and across the gas, m, 0 (a point) up to those of the top.
    /// * `height_m` – from the outlet to the top, m, above 0.
    ///
    /// # Source
    /// Geometry.
    ///
    /// # Validity
    /// Flat walls.
    ///
    /// # Errors
    /// A number outside its range.
    pub fn new(
        top_m: (f64, f64),
        outlet_m: (f64, f64),
        height_m: f64,
    ) -> Result<Self, PhysicsError> {
        for (top, outlet) in [(top_m.0, outlet_m.0), (top_m.1, outlet_m.1)] {
            positive("top_m", top)?;
            let allowed = (0.0..=top).contains(&outlet);
            require(allowed, "outlet_m", outlet, "0 up to the side of the top")?;
        }
        Ok(Self {
            top_m,
            outlet_m,
            height_m: positive("height_m", height_m)?,
        })
    }

    /// A hopper of this top and outlet that is as high as its volume asks for.
    ///
    /// `H = V/∫₀¹ a·b dζ` with ζ the level over the height
    ///
    /// # Arguments
    /// * `volume_m3` – V up to the top, m³, above 0.
    /// * `top_m`, `outlet_m` – as [`Self::new`].
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`]; walls of less than 60° hold ash back (common practice, no source), see
    /// [`Self::wall_angle_rad`].
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn of_volume(
        volume_m3: f64,
        top_m: (f64, f64),
        outlet_m: (f64, f64),
    ) -> Result<Self, PhysicsError> {
        positive("volume_m3", volume_m3)?;
        let of_one_metre = Self::new(top_m, outlet_m, 1.0)?;
        Self::new(top_m, outlet_m, volume_m3 / of_one_metre.volume_m3())
    }

    /// From the outlet to the top, m.
    #[must_use]
    pub fn height_m(&self) -> f64 {
        self.height_m
    }

    /// Volume up to the top, m³.
    #[must_use]
    pub fn volume_m3(&self) -> f64 {
        self.integral(1.0)
    }

    /// Angle of the flattest wall with the horizontal, rad.
    ///
    /// `tan β = 2H/(a_top − a_outlet)`, the less of the two pairs of walls
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`], an outlet below the middle; the valleys between two walls are flatter still.
    #[must_use]
    pub fn wall_angle_rad(&self) -> f64 {
        let slope = |top: f64, outlet: f64| (2.0 * self.height_m).atan2(top - outlet);
        slope(self.top_m.0, self.outlet_m.0).min(slope(self.top_m.1, self.outlet_m.1))
    }

    /// Volume of the ash up to a level, m³.
    ///
    /// `V(z) = H[a₀b₀ζ + (a₀Δb + b₀Δa)ζ²/2 + ΔaΔb ζ³/3]`, `ζ = z/H`, sides `a₀, b₀` at the outlet
    ///
    /// # Arguments
    /// * `level_m` – z above the outlet, m, 0 to the height.
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`]; level ash. A heap under the middle stands higher than its mean level.
    ///
    /// # Errors
    /// A level outside the hopper.
    ///
    /// ```
    /// use ashlane_shared::physics::hopper::Hopper;
    /// // A pyramid at 62 % of its height holds 0.62³ of its volume.
    /// let pyramid = Hopper::new((3.0, 3.0), (0.0, 0.0), 4.0)?;
    /// let share = pyramid.volume_below_m3(0.62 * 4.0)? / pyramid.volume_m3();
    /// assert!((share - 0.238_328).abs() < 1e-9);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn volume_below_m3(&self, level_m: f64) -> Result<f64, PhysicsError> {
        let inside = (0.0..=self.height_m).contains(&level_m);
        require(inside, "level_m", level_m, "0 to the height of the hopper")?;
        Ok(self.integral(level_m / self.height_m))
    }

    /// Level of the ash from its volume, m.
    ///
    /// `V(z) = V` solved for z by Newton's steps, halved where they would leave what is left of the search
    ///
    /// # Arguments
    /// * `volume_m3` – V of the ash, m³, 0 to the volume of the hopper.
    ///
    /// # Source
    /// As [`Self::volume_below_m3`].
    ///
    /// # Validity
    /// As [`Self::volume_below_m3`].
    ///
    /// # Errors
    /// More ash than the hopper holds, or a volume below 0.
    pub fn level_m(&self, volume_m3: f64) -> Result<f64, PhysicsError> {
        let inside = (0.0..=self.volume_m3()).contains(&volume_m3);
        require(
            inside,
            "volume_m3",
            volume_m3,
            "0 to the volume of the hopper",
        )?;
        let (mut low, mut high) = (0.0, 1.0);
        let mut level = 0.5;
        for _ in 0..SEARCH_STEPS {
            let excess = self.integral(level) - volume_m3;
            if excess > 0.0 {
                high = level;
            } else {
                low = level;
            }
            let newton = level - excess / (self.area_m2(level) * self.height_m);
            level = if newton > low && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
        }
        Ok(level * self.height_m)
    }

    /// Area at a level over the height, m².
    fn area_m2(&self, level: f64) -> f64 {
        let side = |top: f64, outlet: f64| outlet + (top - outlet) * level;
        side(self.top_m.0, self.outlet_m.0) * side(self.top_m.1, self.outlet_m.1)
    }

    /// Volume below a level over the height, m³.
    fn integral(&self, level: f64) -> f64 {
        let (along, across) = self.outlet_m;
        let (wider_along, wider_across) = (self.top_m.0 - along, self.top_m.1 - across);
        let linear = along * across;
        let square = 0.5 * (along * wider_across + across * wider_along);
        let cubic = wider_along * wider_across / 3.0;
        self.height_m * level * (linear + level * (square + level * cubic))
    }
}

/// Time until a volume is filled with ash, s; endless without ash.
///
/// `t = V ρ_b/ṁ`
///
/// # Arguments
/// * `volume_m3` – V that is still free, m³, 0 or more, such as the difference of two [`Hopper::volume_below_m3`].
/// * `ash_density_kg_m3` – `ρ_b` of the loose ash, kg/m³, above 0 (fresh ash is aerated: 480–560).
/// * `rate_kg_s` – ṁ of the ash that falls in, kg/s, 0 or more.
///
/// # Source
/// Conservation of mass; the densities are common practice, no source.
///
/// # Validity
/// Nothing is taken away meanwhile; ash that settles or that comes in sheets shifts the moment.
///
/// # Errors
/// A number outside its range.
pub fn fill_time_s(
    volume_m3: f64,
    ash_density_kg_m3: f64,
    rate_kg_s: f64,
) -> Result<f64, PhysicsError> {
    let mass_kg =
        not_negative("volume_m3", volume_m3)? * positive("ash_density_kg_m3", ash_density_kg_m3)?;
    not_negative("rate_kg_s", rate_kg_s)?;
    // What is full already is full now, with or without ash.
    Ok(if mass_kg > 0.0 {
        mass_kg / rate_kg_s
    } else {
        0.0
    })
}

/// Volume of a heap of ash that fell in one place, m³.
///
/// `V = (π/3) r³ tan θ`
///
/// # Arguments
/// * `radius_m` – r of its foot, m, 0 or more.
/// * `repose_angle_rad` – θ of its slope, rad, 0 to below π/2 (fly ash 35–45°).
///
/// # Source
/// Geometry of a cone; the angles are common practice, no source.
///
/// # Validity
/// Ash at rest; aerated ash lies flat and flows like water.
///
/// # Errors
/// A number outside its range.
pub fn heap_volume_m3(radius_m: f64, repose_angle_rad: f64) -> Result<f64, PhysicsError> {
    use std::f64::consts::{FRAC_PI_2, FRAC_PI_3};
    not_negative("radius_m", radius_m)?;
    let allowed = (0.0..FRAC_PI_2).contains(&repose_angle_rad);
    require(
        allowed,
        "repose_angle_rad",
        repose_angle_rad,
        "0 to below π/2",
    )?;
    Ok(FRAC_PI_3 * radius_m.powi(3) * repose_angle_rad.tan())
}

/// What the rows of hoppers and the stack get.
#[derive(Clone, Debug, PartialEq)]
pub struct AshSplit {
    /// Ash that each row gets, kg/s, inlet first.
    pub rows_kg_s: Vec<f64>,
    /// Dust that leaves with the gas, kg/s.
    pub outlet_kg_s: f64,
}

/// How the dust is shared among the rows of hoppers and the stack.
///
/// `ṁ_i = ṁ·Π_{k<i} P_k·(1−P_i)`, the stack gets `ṁ·Π P_k`
///
/// # Arguments
/// * `inlet_kg_s` – ṁ of the dust entering, kg/s, 0 or more.
/// * `penetrations` – `P_k` of every field, inlet first, each 0 to 1; 1 is a field out of service.
///
/// # Source
/// Conservation of mass.
///
/// # Validity
/// Mean over many blows of the rappers; every row catches what its own field throws off.
///
/// # Errors
/// A number outside its range.
pub fn ash_split(inlet_kg_s: f64, penetrations: &[f64]) -> Result<AshSplit, PhysicsError> {
    let mut passing = not_negative("inlet_kg_s", inlet_kg_s)?;
    let mut rows_kg_s = Vec::with_capacity(penetrations.len());
    for &penetration in penetrations {
        let allowed = (0.0..=1.0).contains(&penetration);
        require(allowed, "penetrations", penetration, "0 to 1")?;
        rows_kg_s.push(passing * (1.0 - penetration));
        passing *= penetration;
    }
    Ok(AshSplit {
        rows_kg_s,
        outlet_kg_s: passing,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hopper() -> Hopper {
        Hopper::of_volume(10.0, (3.0, 3.3), (0.4, 0.3)).expect("a hopper")
    }

    #[test]
    fn slices_add_up_to_the_volume() {
        // Independent of the closed form: the sum of thin slices of the rectangle at mid-height.
        let hopper = hopper();
        let slices = 20_000;
        let level_m = 0.7 * hopper.height_m();
        let thickness_m = level_m / f64::from(slices);
        let side =
            |top: f64, outlet: f64, z_m: f64| outlet + (top - outlet) * z_m / hopper.height_m();
        let summed: f64 = (0..slices)
            .map(|slice| {
                let z_m = (f64::from(slice) + 0.5) * thickness_m;
                side(3.0, 0.4, z_m) * side(3.3, 0.3, z_m) * thickness_m
            })
            .sum();
        let closed = hopper.volume_below_m3(level_m).expect("inside");
        // Midpoint rule: error of 1/(24 n²) of the curvature, far below 1e-8.
        assert!((summed / closed - 1.0).abs() < 1e-8, "{summed} {closed} m³");
        assert!((hopper.volume_m3() - 10.0).abs() < 1e-12, "asked for 10 m³");
    }

    #[test]
    fn level_undoes_volume() {
        let point = Hopper::new((2.0, 3.0), (0.0, 0.0), 4.0).expect("a pyramid");
        let bin = Hopper::new((2.0, 3.0), (2.0, 3.0), 4.0).expect("a bin");
        for hopper in [hopper(), point, bin] {
            for share in [0.0, 1e-9, 0.01, 0.238, 0.5, 0.9, 1.0] {
                let volume_m3 = share * hopper.volume_m3();
                let level_m = hopper.level_m(volume_m3).expect("a level");
                let back_m3 = hopper.volume_below_m3(level_m).expect("inside");
                assert!(
                    (back_m3 - volume_m3).abs() < 1e-13 * hopper.volume_m3(),
                    "{share}: {back_m3} and {volume_m3} m³"
                );
            }
        }
        // A bin rises evenly.
        let half_m = bin.level_m(12.0).expect("a level");
        assert!((half_m - 2.0).abs() < 1e-12, "{half_m} m");
    }

    #[test]
    fn the_flattest_wall_counts() {
        // By hand: 2·2.6/(3−0.4) = 2 and 2·2.6/(3.3−0.3) = 1.7333, so 60.018°.
        let hopper = Hopper::new((3.0, 3.3), (0.4, 0.3), 2.6).expect("a hopper");
        let degrees = hopper.wall_angle_rad().to_degrees();
        assert!((degrees - 60.018).abs() < 1e-3, "{degrees}°");
    }

    #[test]
    fn nothing_is_lost_between_rows_and_stack() {
        let split = ash_split(0.95, &[0.3, 1.0, 0.2, 0.5]).expect("a split");
        let sum: f64 = split.rows_kg_s.iter().sum::<f64>() + split.outlet_kg_s;
        assert!((sum / 0.95 - 1.0).abs() < 1e-15, "{sum} kg/s");
        assert!(split.rows_kg_s[1].abs() < 1e-300, "field out of service");
    }

    #[test]
    fn a_row_without_ash_never_fills_and_a_full_one_is_full() {
        let endless = fill_time_s(30.0, 520.0, 0.0).expect("a time");
        assert!(endless.is_infinite() && endless > 0.0, "{endless} s");
        let full = fill_time_s(0.0, 520.0, 0.0).expect("a time");
        assert!(full.abs() < 1e-300, "{full} s");
    }

    #[test]
    fn impossible_hoppers_are_refused() {
        assert!(
            Hopper::new((3.0, 3.0), (3.1, 0.3), 3.0).is_err(),
            "wide outlet"
        );
        assert!(Hopper::new((0.0, 3.0), (0.0, 0.3), 3.0).is_err(), "no top");
        assert!(hopper().level_m(10.1).is_err(), "over the brim");
        assert!(hopper().volume_below_m3(-0.1).is_err(), "below the outlet");
        assert!(ash_split(1.0, &[1.1]).is_err(), "dust out of nothing");
        assert!(heap_volume_m3(1.0, 1.6).is_err(), "steeper than a wall");
        assert!(fill_time_s(1.0, 0.0, 1.0).is_err(), "no density");
    }
}
