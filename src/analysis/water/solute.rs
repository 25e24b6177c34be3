//! What dissolves in the water of a mass, each with its molar mass and its constant of the Norrish equation.

use crate::ingredient::PolyolKind;
use crate::units::{Grams, GramsPerMole, Moles};

/// Molar mass of water.
pub const WATER_MOLAR_MASS: GramsPerMole = GramsPerMole(18.015);

/// How many a solute takes for each gram of it: molar mass and Norrish constant, or a rule for both.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Figures {
    /// One substance: molar mass and K.
    Substance(GramsPerMole, f64),
    /// A mixture of chains, whose mean molar mass differs: K is so much for each g/mol of it.
    Chains(f64),
}

macro_rules! solutes {
    ($($(#[$documentation:meta])* $variant:ident = $words:literal, $figures:expr, $grover:expr;)+) => {
        /// Something that dissolves in the water of a mass.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Solute {
            $($(#[$documentation])* $variant),+
        }

        impl Solute {
            /// All solutes.
            pub const ALL: [Self; [$(Self::$variant),+].len()] = [$(Self::$variant),+];

            /// Its name for people.
            #[must_use]
            pub fn words(self) -> &'static str {
                match self {
                    $(Self::$variant => $words),+
                }
            }

            const fn figures(self) -> Figures {
                match self {
                    $(Self::$variant => $figures),+
                }
            }

            /// Its factor of Grover's equation; `None` where none was published.
            ///
            /// Source: `grover-1947` (from memory).
            #[must_use]
            pub const fn grover_factor(self) -> Option<f64> {
                match self {
                    $(Self::$variant => $grover),+
                }
            }
        }
    };
}

const fn substance(molar_mass: f64, norrish: f64) -> Figures {
    Figures::Substance(GramsPerMole(molar_mass), norrish)
}

solutes! {
    /// Sucrose: K reproduces Robinson and Stokes within 0.0008 (`chirife-1982`, from memory).
    Sucrose = "sucrose", substance(342.30, 6.47), Some(1.0);
    /// Glucose, anhydrous (`chirife-1982`, from memory; confirmed on freezing points of the CRC Handbook).
    Glucose = "glucose", substance(180.16, 2.25), Some(1.3);
    /// Fructose (`chirife-1982`, from memory; freezing points give 1.5 to 2.3).
    Fructose = "fructose", substance(180.16, 2.25), Some(1.3);
    /// Maltose (`chirife-1982`, from memory; freezing points suggest 5 to 7).
    Maltose = "maltose", substance(342.30, 4.54), Some(1.0);
    /// Trehalose and isomaltulose: taken as sucrose (assumed, ±2).
    Trehalose = "trehalose and isomaltulose", substance(342.30, 6.5), None;
    /// Lactose (`miracco-1981`, from memory: dilute data only).
    Lactose = "lactose", substance(342.30, 10.2), Some(1.0);
    /// Saccharides of three units and more of a starch syrup: K = 0.0125·M (derived).
    HigherSaccharides = "higher saccharides", Figures::Chains(0.0125), Some(0.8);
    /// All solids of a glucose syrup together, by its dextrose equivalent: M = 18016/DE, K = 225/DE (derived).
    GlucoseSyrup = "glucose syrup solids", Figures::Chains(225.0 / 18_016.0), Some(0.8);
    /// Fibre that dissolves, as polydextrose: K as for higher saccharides (assumed).
    SolubleFibre = "soluble fibre", Figures::Chains(0.0125), Some(0.8);
    /// Sorbitol (Chirife et al., in `makinen-2010`).
    Sorbitol = "sorbitol", substance(182.17, 1.65), Some(2.0);
    /// Glycerol (Chirife et al., in `makinen-2010`).
    Glycerol = "glycerol", substance(92.09, 1.16), Some(4.0);
    /// Maltitol: taken as maltose (assumed, ±2).
    Maltitol = "maltitol", substance(344.3, 4.5), None;
    /// Isomalt: taken as maltose (assumed, ±2).
    Isomalt = "isomalt", substance(344.3, 4.5), None;
    /// Lactitol: taken as maltose (assumed, ±2).
    Lactitol = "lactitol", substance(344.3, 4.5), None;
    /// Xylitol (Chirife et al., in `makinen-2010`).
    Xylitol = "xylitol", substance(152.15, 1.66), None;
    /// Erythritol (Chirife et al., in `makinen-2010`).
    Erythritol = "erythritol", substance(122.12, 1.34), None;
    /// Mannitol (Chirife et al., in `makinen-2010`).
    Mannitol = "mannitol", substance(182.17, 0.91), None;
    /// Organic acids, all counted as citric acid (`chirife-1980`, from memory).
    OrganicAcids = "organic acids", substance(192.12, 6.17), Some(2.5);
    /// Ethanol: K fitted to a group-contribution model up to a mole fraction of 0.2 (±1).
    Ethanol = "ethanol", substance(46.07, -2.0), None;
    /// Minerals of milk, g per mole of dissolved particles; ideal (derived from the freezing point of milk).
    MilkMinerals = "milk minerals", substance(68.0, 0.0), Some(9.0);
    /// Sodium chloride, g per mole of ions; ideal (error below 0.002 up to 1 mol per kg of water).
    Salt = "salt", substance(29.22, 0.0), Some(9.0);
}

impl Solute {
    /// How many solutes there are.
    pub const COUNT: usize = Self::ALL.len();

    /// The solute that a polyol is.
    #[must_use]
    pub const fn of_polyol(kind: PolyolKind) -> Self {
        match kind {
            PolyolKind::Sorbitol => Self::Sorbitol,
            PolyolKind::Maltitol => Self::Maltitol,
            PolyolKind::Isomalt => Self::Isomalt,
            PolyolKind::Glycerol => Self::Glycerol,
            PolyolKind::Lactitol => Self::Lactitol,
            PolyolKind::Xylitol => Self::Xylitol,
            PolyolKind::Erythritol => Self::Erythritol,
            PolyolKind::Mannitol => Self::Mannitol,
        }
    }

    /// Its molar mass; `None` for chains, whose mean molar mass differs from syrup to syrup.
    #[must_use]
    pub const fn molar_mass(self) -> Option<GramsPerMole> {
        match self.figures() {
            Figures::Substance(molar_mass, _) => Some(molar_mass),
            Figures::Chains(_) => None,
        }
    }

    /// Moles times Norrish constant of so much of it, mol.
    ///
    /// For chains the molar mass cancels: (m/M)·(c·M) = c·m.
    #[must_use]
    pub fn norrish_moles(self, grams: Grams) -> f64 {
        match self.figures() {
            Figures::Substance(molar_mass, norrish) => (grams / molar_mass).0 * norrish,
            Figures::Chains(per_gram) => per_gram * grams.0,
        }
    }

    /// Whether its constant grows in very strong syrups as that of sucrose does, for boiling.
    ///
    /// Disaccharides and the saccharides of glucose syrup; monosaccharides and polyols stay as they are (assumed).
    #[must_use]
    pub const fn follows_sucrose(self) -> bool {
        matches!(
            self,
            Self::Sucrose
                | Self::Lactose
                | Self::Maltose
                | Self::Trehalose
                | Self::HigherSaccharides
                | Self::GlucoseSyrup
        )
    }

    /// Whether it is a sugar, a syrup solid, a polyol or a soluble fibre: what takes room from sucrose, or is it.
    #[must_use]
    pub const fn is_sweet(self) -> bool {
        !matches!(self, Self::OrganicAcids | Self::Ethanol | Self::MilkMinerals | Self::Salt)
    }
}

/// Moles of the solids of a glucose syrup of a dextrose equivalent.
///
/// n = m·DE/18016, from the definition of the dextrose equivalent (reducing ends counted as glucose).
#[must_use]
pub fn glucose_syrup_moles(solids: Grams, dextrose_equivalent: f64) -> Moles {
    Moles(solids.0 * dextrose_equivalent / 18_016.0)
}

/// Dissolved matter without its water: grams, moles and moles times Norrish constant of every solute.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    grams: [f64; Solute::COUNT],
    moles: [f64; Solute::COUNT],
}

impl Default for Solution {
    fn default() -> Self {
        Self { grams: [0.0; Solute::COUNT], moles: [0.0; Solute::COUNT] }
    }
}

/// What an equation for water activity needs of a solution: sums over its solutes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sums {
    /// All solutes, mol.
    pub moles: f64,
    /// Σ n·K, mol.
    pub norrish: f64,
}

impl Solution {
    /// Puts so much of a substance in; of chains nothing: they have [`Solution::with_moles`].
    #[must_use]
    pub fn with(mut self, solute: Solute, grams: Grams) -> Self {
        if let Some(molar_mass) = solute.molar_mass() {
            self.put(solute, grams, grams / molar_mass);
        }
        self
    }

    /// Puts so much of a solute in that is so many moles.
    #[must_use]
    pub fn with_moles(mut self, solute: Solute, grams: Grams, moles: Moles) -> Self {
        self.put(solute, grams, moles);
        self
    }

    fn put(&mut self, solute: Solute, grams: Grams, moles: Moles) {
        self.grams[solute as usize] += grams.0;
        self.moles[solute as usize] += moles.0;
    }

    /// How much of a solute is in it.
    #[must_use]
    pub fn grams(&self, solute: Solute) -> Grams {
        Grams(self.grams[solute as usize])
    }

    /// How many moles of a solute are in it.
    #[must_use]
    pub fn moles(&self, solute: Solute) -> Moles {
        Moles(self.moles[solute as usize])
    }

    /// All of it together.
    #[must_use]
    pub fn total(&self) -> Grams {
        Grams(self.grams.iter().sum())
    }

    /// The sums that the Norrish equation needs.
    #[must_use]
    pub fn sums(&self) -> Sums {
        let norrish = Solute::ALL.into_iter().map(|solute| solute.norrish_moles(self.grams(solute))).sum();
        Sums { moles: self.moles.iter().sum(), norrish }
    }
}
