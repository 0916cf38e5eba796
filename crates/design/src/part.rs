//! What the inputs belong to: the parts of the stack drawing that open them when tapped, and what stands on the bench.

/// A part of the stack or of the bench. Every input belongs to exactly one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// The place, the weather, and how many stages fly.
    Site,
    /// Vessels of the booster.
    BoosterVessel,
    /// Nozzles of the booster.
    BoosterNozzle,
    /// Water and pressure of the booster.
    BoosterWater,
    /// Mass and drag of the booster, or of the whole stack while it flies.
    BoosterBody,
    /// Launch tube on the pad.
    PadTube,
    /// Vessel of the sustainer.
    SustainerVessel,
    /// Nozzle of the sustainer.
    SustainerNozzle,
    /// Water and pressure of the sustainer.
    SustainerWater,
    /// Mass and drag of the sustainer.
    SustainerBody,
    /// Launch tube between the stages.
    StagingTube,
    /// Staging delay.
    Timer,
    /// Restrictor in the sustainer.
    Restrictor,
    /// The small tube in which restrictors are tried; not part of the stack.
    SmallTube,
    /// The bottle turned over above a sink; not part of the stack.
    Bottle,
    /// Strength and age of all vessel parts together; the parts themselves have fields of their own.
    Vessels,
    /// What is asked where people stand.
    Field,
}

impl Part {
    /// Every part, in the order in which a form without a drawing lists them.
    pub const ALL: [Self; 17] = [
        Self::Site,
        Self::BoosterVessel,
        Self::BoosterNozzle,
        Self::BoosterWater,
        Self::BoosterBody,
        Self::PadTube,
        Self::SustainerVessel,
        Self::SustainerNozzle,
        Self::SustainerWater,
        Self::SustainerBody,
        Self::StagingTube,
        Self::Timer,
        Self::Restrictor,
        Self::SmallTube,
        Self::Bottle,
        Self::Vessels,
        Self::Field,
    ];

    const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Site => ("site", "Site and flight"),
            Self::BoosterVessel => ("vessel", "Booster vessel"),
            Self::BoosterNozzle => ("nozzle", "Booster nozzle"),
            Self::BoosterWater => ("water", "Booster water and pressure"),
            Self::BoosterBody => ("booster", "Stack mass and drag"),
            Self::PadTube => ("pad tube", "Launch tube on the pad"),
            Self::SustainerVessel => ("vessel", "Sustainer vessel"),
            Self::SustainerNozzle => ("nozzle", "Sustainer nozzle"),
            Self::SustainerWater => ("water", "Sustainer water and pressure"),
            Self::SustainerBody => ("sustainer", "Sustainer mass and drag"),
            Self::StagingTube => ("tube", "Launch tube between the stages"),
            Self::Timer => ("timer", "Staging delay"),
            Self::Restrictor => ("restrictor", "Restrictor"),
            Self::SmallTube => ("small tube", "Small-tube test"),
            Self::Bottle => ("bottle", "Bottle over a sink"),
            Self::Vessels => ("vessels", "Strength and age of the parts"),
            Self::Field => ("field", "At the field"),
        }
    }

    /// Whether it is part of the stack, and so opened from its drawing; the others have their fields in the question they belong to.
    #[must_use]
    pub const fn is_drawn(self) -> bool {
        !matches!(self, Self::SmallTube | Self::Bottle | Self::Vessels | Self::Field)
    }

    /// The word on the part's button in the drawing, where the place says which stage is meant.
    #[must_use]
    pub const fn word(self) -> &'static str {
        self.words().0
    }

    /// The heading over the part's inputs, which says which stage is meant.
    #[must_use]
    pub const fn title(self) -> &'static str {
        self.words().1
    }
}
