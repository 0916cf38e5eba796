//! A chart as plain marks, which are painted on any plotters backend or written as SVG.
//!
//! What a chart shows is decided once, without a backend: charts would otherwise be compiled anew for each.

use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontDesc, FontFamily, FontStyle, RGBColor, ShapeStyle, TextStyle};

use super::line::{Point, dashed};
use super::pen::Hang;
use super::{ChartError, ChartLook};
use crate::drawing::{escaped, short};
use crate::theme::Rgb;

/// One mark, CSS px.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// Lines drawn alike.
    Lines { runs: Vec<Vec<Point>>, width: f64, colour: Rgb, dash: &'static [f64] },
    /// A filled polygon.
    Area { corners: Vec<Point>, paint: Rgb },
    /// A text whose vertical middle lies on its point.
    Text { text: String, at: Point, hang: Hang, size: f64, paint: Rgb },
}

/// Marks from back to front.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The marks.
    pub inks: Vec<Ink>,
}

impl Sheet {
    /// Paper and nothing on it.
    pub fn blank(look: &ChartLook) -> Self {
        let (right, foot) = (look.width_px, look.height_px);
        let corners = vec![(0.0, 0.0), (right, 0.0), (right, foot), (0.0, foot)];
        Self { inks: vec![Ink::Area { corners, paint: look.theme.paper }] }
    }

    /// Not through a drawing area: that moves everything onto the backend, and a canvas with a scaled context is smaller
    /// than what is drawn on it.
    fn paint<DB: DrawingBackend>(&self, mut backend: DB, look: &ChartLook) -> Result<(), ChartError> {
        backend.ensure_prepared().map_err(refused)?;
        let steps = |points: &[Point]| points.iter().map(|point| look.steps(*point)).collect::<Vec<_>>();
        for ink in &self.inks {
            match ink {
                Ink::Lines { runs, width, colour, dash } => {
                    let width = (width * look.ratio()).round().max(1.0) as u32;
                    let style = ShapeStyle { color: paint_of(*colour).to_rgba(), filled: false, stroke_width: width };
                    for piece in runs.iter().flat_map(|run| dashed(run, dash)) {
                        backend.draw_path(steps(&piece), &style).map_err(refused)?;
                    }
                }
                Ink::Area { corners, paint } => {
                    backend.fill_polygon(steps(corners), &paint_of(*paint)).map_err(refused)?;
                }
                Ink::Text { text, at, hang, size, paint } => {
                    let hpos = match hang {
                        Hang::Start => HPos::Left,
                        Hang::Middle => HPos::Center,
                        Hang::End => HPos::Right,
                    };
                    let family = FontFamily::Name(&look.font_family);
                    let style = TextStyle {
                        font: FontDesc::new(family, size * look.ratio(), FontStyle::Normal),
                        color: paint_of(*paint).to_backend_color(),
                        pos: Pos::new(hpos, VPos::Center),
                    };
                    backend.draw_text(text, &style, look.steps(*at)).map_err(refused)?;
                }
            }
        }
        backend.present().map_err(refused)
    }

    /// The marks as an SVG file that carries its colours in attributes; the title says what it shows.
    pub fn svg(&self, look: &ChartLook, title: &str) -> String {
        let (width, height) = (short(look.width_px), short(look.height_px));
        let mut out = Text(String::new());
        out.add("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" fill=\"none\" stroke-linejoin=\"round\"");
        out.attribute("width", &width).attribute("height", &height);
        out.attribute("viewBox", &["0 0 ", &width, " ", &height].concat());
        out.attribute("font-family", &look.font_family.replace('"', "'"));
        out.add(">\n<title>").add(&escaped(title)).add("</title>\n");
        for ink in &self.inks {
            match ink {
                Ink::Lines { runs, width, colour, dash } => {
                    out.add("<path").attribute("stroke", &colour.css()).attribute("stroke-width", &short(*width));
                    if !dash.is_empty() {
                        let lengths: Vec<String> = dash.iter().map(|length| short(*length)).collect();
                        out.attribute("stroke-dasharray", &lengths.join(" "));
                    }
                    out.add(" d=\"");
                    runs.iter().for_each(|run| out.through(run));
                    out.add("\"/>\n");
                }
                Ink::Area { corners, paint } => {
                    out.add("<path").attribute("fill", &paint.css()).add(" d=\"").through(corners);
                    out.add("Z\"/>\n");
                }
                Ink::Text { text, at, hang, size, paint } => {
                    let anchor = match hang {
                        Hang::Start => "start",
                        Hang::Middle => "middle",
                        Hang::End => "end",
                    };
                    // Not every reader of SVG knows a middle line: a third of the size below it the letters stand.
                    let (x, y) = (short(at.0), short(at.1 + 0.35 * size));
                    out.add("<text").attribute("x", &x).attribute("y", &y).attribute("text-anchor", anchor);
                    out.attribute("font-size", &short(*size)).attribute("fill", &paint.css());
                    out.add(">").add(&escaped(text)).add("</text>\n");
                }
            }
        }
        out.add("</svg>\n");
        out.0
    }
}

/// SVG in the making.
struct Text(String);

impl Text {
    fn add(&mut self, text: &str) -> &mut Self {
        self.0.push_str(text);
        self
    }

    fn attribute(&mut self, name: &str, value: &str) -> &mut Self {
        self.add(" ").add(name).add("=\"").add(value).add("\"")
    }

    fn through(&mut self, points: &[Point]) {
        for (index, point) in points.iter().enumerate() {
            self.add(if index == 0 { "M" } else { "L" }).add(&short(point.0)).add(" ").add(&short(point.1));
        }
    }
}

/// Paints a chart on a backend; one that could not be made is blank paper.
pub fn painted<DB: DrawingBackend, F>(
    backend: DB,
    look: &ChartLook,
    made: Result<(Sheet, F), ChartError>,
) -> Result<F, ChartError> {
    let (sheet, found) = match made {
        Ok((sheet, frame)) => (sheet, Ok(frame)),
        Err(error) => (Sheet::blank(look), Err(error)),
    };
    sheet.paint(backend, look)?;
    found
}

fn paint_of(rgb: Rgb) -> RGBColor {
    RGBColor(rgb.0, rgb.1, rgb.2)
}

fn refused(error: impl core::fmt::Display) -> ChartError {
    ChartError::Backend(error.to_string())
}
