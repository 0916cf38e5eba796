//! The stylesheet an exported drawing carries.

use crate::theme::Theme;

/// Rules for every class that drawings use, in the colours of a theme.
///
/// The page has the same classes in its own stylesheet: `outline`, `thin`, `water`, `surface`, `lifted`, `plate`,
/// `tube`, `dimension`, `label`, `quiet`, `act`, `hatch`, `leader`, `dot`, `absent`, `button`, `holds`, `near` and `over`.
#[must_use]
pub fn stylesheet(theme: &Theme) -> String {
    let (ink, quiet, paper, water) = (theme.ink.css(), theme.quiet_ink.css(), theme.paper.css(), theme.water.css());
    let (rule, buoy) = (theme.rule.css(), theme.buoy.css());
    let width = |px: f64| super::shape::short(px * theme.line_width_factor);
    // Dimensions and leaders are read along, not looked at: they grow less, or they would drown what they measure.
    let fine = |px: f64| super::shape::short(px * theme.line_width_factor.sqrt());
    // The bars' shades; where there are none, their words and hatches tell them apart.
    let tint = |colour: crate::theme::Rgb| {
        if theme.has_tints() { colour.mixed(theme.paper, 0.75).css() } else { paper.clone() }
    };
    format!(
        "svg{{background:{paper};font-family:system-ui,sans-serif;font-size:12px;font-variant-numeric:tabular-nums}}\
         path,line,rect,circle{{fill:none;stroke:none;stroke-linejoin:round;stroke-linecap:round}}\
         .outline{{stroke:{ink};stroke-width:{}}}\
         .thin{{stroke:{ink};stroke-width:{}}}\
         .water,.lifted{{fill:{water}}}\
         .surface{{stroke:{ink};stroke-width:{}}}\
         .plate{{fill:{ink};stroke:{paper};stroke-width:2;paint-order:stroke}}\
         .tube{{fill:{paper};stroke:{ink};stroke-width:{}}}\
         .dimension,.leader{{stroke:{quiet};stroke-width:{}}}\
         .hatch{{stroke:{quiet};stroke-width:{}}}\
         .absent{{stroke:{quiet};stroke-width:{};stroke-dasharray:3 3}}\
         .dot{{fill:{ink};stroke:{paper};stroke-width:1}}\
         .button{{stroke:{rule};stroke-width:1}}\
         .holds{{fill:{}}}.near{{fill:{}}}.over{{fill:{}}}\
         .label{{fill:{ink}}}.quiet{{fill:{quiet}}}.act{{fill:{buoy};font-weight:600}}.part{{font-size:14px}}",
        width(1.5),
        width(0.8),
        width(1.0),
        width(1.0),
        fine(0.8),
        fine(0.7),
        width(0.9),
        tint(theme.kelp),
        tint(theme.quiet_ink),
        tint(theme.buoy),
    )
}
