//! Draws a [`Figure`] with the plot library, in the colours of the theme.

use egui::{Align2, Color32, Pos2, Response, RichText, Sense, Stroke, Ui, Vec2b, WidgetText};
use egui_plot::{
    AxisHints, FilledArea, GridMark, HLine, HoverPosition, Line, LineStyle, MarkerShape, Plot, PlotPoint, PlotPoints,
    PlotTransform, PlotUi, Points, Text, VLine,
};

use super::theme::{self, Palette, space};
use super::widgets::{explain::arrive, focus_ring};
use crate::number::{DecimalSign, fixed};
use crate::report::figure::{AxisRange, Figure, LabelPlace, Mark, Region, Role};

/// Distance of a label from its mark, as a share of the axis.
const LABEL_GAP: f64 = 0.02;

/// What of a plot is pointed at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlotPart {
    /// The mark of now, or its label.
    Mark,
    /// The limit, or its label.
    Limit,
}

/// A plot that was drawn.
#[derive(Debug)]
pub struct Plotted {
    /// The plot as a whole.
    pub response: Response,
    /// What is pointed at.
    pub pointed: Option<PlotPart>,
}

/// Draws a figure in the width that there is.
pub fn figure_ui(ui: &mut Ui, id: &str, figure: &Figure, height: f32, sign: DecimalSign) -> Plotted {
    let palette = Palette::of(ui);
    let (x, y) = (&figure.x, &figure.y);
    let plotted = Plot::new(id)
        .height(height)
        .default_x_bounds(x.from, x.to)
        .default_y_bounds(y.from, y.to)
        .auto_bounds(Vec2b::FALSE)
        // A right click offers to save it, as the command does.
        .sense(Sense::click())
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_axis_zoom_drag(false)
        .allow_double_click_reset(false)
        .show_background(false)
        .show_crosshair(false)
        .set_margin_fraction(egui::Vec2::ZERO)
        .grid_color(palette.rule)
        .grid_fade(0.0)
        .x_grid_spacer(move |_| marks(x))
        .y_grid_spacer(move |_| marks(y))
        // In the corner the figures of both axes would touch: there the upright axis has its own.
        .custom_x_axes(vec![axis(AxisHints::new_x(), ui, x, x.from, sign).min_thickness(thickness(ui, x, false, sign))])
        .custom_y_axes(vec![
            axis(AxisHints::new_y(), ui, y, f64::NEG_INFINITY, sign).min_thickness(thickness(ui, y, true, sign)),
        ])
        .label_formatter(move |position| {
            let (HoverPosition::NearDataPoint { position: point, .. } | HoverPosition::Elsewhere { position: point }) =
                position;
            Some(at_pointer(figure, *point, sign))
        })
        .show(ui, |plot| {
            // The bounds follow the figure: another recipe may need other axes.
            plot.set_plot_bounds_x(x.from..=x.to);
            plot.set_plot_bounds_y(y.from..=y.to);
            for region in &figure.regions {
                // Filled, a region of the pinned state would look like one of now.
                if region.role != Role::Pinned {
                    plot.add(
                        FilledArea::new(&region.label, &region.xs, &region.lower, &region.upper)
                            .fill_color(fill(palette, figure, region.role))
                            .allow_hover(false),
                    );
                }
                match region.role {
                    Role::Pinned => outline(plot, region, Stroke::new(1.0, palette.quiet), LineStyle::dashed_loose()),
                    Role::Usual => outline(plot, region, Stroke::new(1.5, palette.mark), LineStyle::dashed_dense()),
                    Role::SecondWindow => outline(plot, region, Stroke::new(1.0, palette.window), LineStyle::Solid),
                    Role::Window | Role::Now | Role::Reference | Role::Limit | Role::Uncertainty => {}
                }
            }
            for curve in &figure.curves {
                let (stroke, style) = stroke(palette, figure, curve.role);
                plot.line(
                    Line::new(&curve.label, PlotPoints::from(curve.points.clone()))
                        .stroke(stroke)
                        .style(style)
                        .allow_hover(false),
                );
            }
            for level in &figure.levels {
                let stroke = Stroke::new(1.0, palette.caution);
                plot.hline(
                    HLine::new(&level.label, level.at)
                        .stroke(stroke)
                        .style(LineStyle::dashed_dense())
                        .allow_hover(false),
                );
            }
            for rule in &figure.rules {
                let (stroke, style) = match rule.role {
                    Role::Pinned => (Stroke::new(1.0, palette.quiet), LineStyle::dashed_loose()),
                    _ => (Stroke::new(1.5, palette.text), LineStyle::dotted_dense()),
                };
                plot.vline(VLine::new(&rule.label, rule.at).stroke(stroke).style(style).allow_hover(false));
                let on_the_left = is_label_left(rule.at, x);
                let gap = LABEL_GAP * (x.to - x.from);
                let (at, anchor) =
                    if on_the_left { (rule.at - gap, Align2::RIGHT_TOP) } else { (rule.at + gap, Align2::LEFT_TOP) };
                let top = y.to - LABEL_GAP * (y.to - y.from);
                plot.text(label(&rule.label, [at, top], anchor, palette));
            }
            for level in &figure.levels {
                let gap = LABEL_GAP * (x.to - x.from);
                let at = if level.is_label_left { x.from + gap } else { x.to - gap };
                let anchor = match (level.is_label_left, level.is_label_below) {
                    (true, false) => Align2::LEFT_BOTTOM,
                    (true, true) => Align2::LEFT_TOP,
                    (false, false) => Align2::RIGHT_BOTTOM,
                    (false, true) => Align2::RIGHT_TOP,
                };
                plot.text(label(&level.label, [at, level.at], anchor, palette));
            }
            for mark in &figure.marks {
                let (colour, filled, radius) = match mark.role {
                    Role::Now => (palette.text, true, 5.0),
                    Role::Reference => (palette.quiet, true, 3.0),
                    _ => (palette.quiet, false, 5.0),
                };
                plot.points(
                    Points::new(&mark.label, vec![mark.at])
                        .shape(MarkerShape::Circle)
                        .radius(radius)
                        .filled(filled)
                        .color(colour)
                        .allow_hover(false),
                );
                let (at, anchor) = beside(mark, x, y);
                let mut text = on_ground(&mark.label, colour, palette).font(theme::small_bold());
                if mark.role != Role::Now {
                    text = text.font(theme::small());
                }
                plot.text(Text::new(&mark.label, PlotPoint::new(at[0], at[1]), text).anchor(anchor).color(colour));
            }
        });
    let (response, transform) = (plotted.response, plotted.transform);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, &figure.in_words));
    arrive(&response);
    // Inside: around it stand the figures of the axes.
    focus_ring(ui, &response, response.rect.shrink(2.0), space::MARK_RADIUS);
    let pointed = response.hover_pos().and_then(|pointer| part_at(figure, &transform, pointer));
    Plotted { response, pointed }
}

/// The part of a figure at the pointer; a label is as long as its words are at most.
fn part_at(figure: &Figure, transform: &PlotTransform, pointer: Pos2) -> Option<PlotPart> {
    const REACH: f32 = 8.0;
    const LABEL: egui::Vec2 = egui::vec2(130.0, 24.0);
    let place = |x: f64, y: f64| transform.position_from_point(&PlotPoint::new(x, y));
    let is_at_label = |at: Pos2, is_left: bool, is_above: bool| {
        let (dx, dy) = (pointer.x - at.x, pointer.y - at.y);
        let (dx, dy) = (if is_left { -dx } else { dx }, if is_above { -dy } else { dy });
        (0.0..=LABEL.x).contains(&dx) && (0.0..=LABEL.y).contains(&dy)
    };
    let is_mark = figure.marks.iter().filter(|mark| mark.role == Role::Now).any(|mark| {
        let at = place(mark.at[0], mark.at[1]);
        let label = mark.label_place(&figure.x, &figure.y);
        at.distance(pointer) <= REACH || is_at_label(at, label.is_left, label.is_above)
    });
    if is_mark {
        return Some(PlotPart::Mark);
    }
    let is_limit = figure.rules.iter().filter(|rule| rule.role == Role::Limit).any(|rule| {
        let at = place(rule.at, figure.y.to);
        (at.x - pointer.x).abs() <= REACH / 2.0 || is_at_label(at, is_label_left(rule.at, &figure.x), false)
    });
    is_limit.then_some(PlotPart::Limit)
}

/// Whether the label of an upright line stands at its left.
fn is_label_left(at: f64, x: &AxisRange) -> bool {
    x.share(at) > 0.6
}

/// The edges of a region.
fn outline(plot: &mut PlotUi<'_>, region: &Region, stroke: Stroke, style: LineStyle) {
    let edge = |values: &[f64]| region.xs.iter().zip(values).map(|(x, y)| [*x, *y]).collect::<Vec<_>>();
    let mut points = edge(&region.lower);
    points.extend(edge(&region.upper).into_iter().rev());
    points.extend(points.first().copied());
    plot.line(Line::new(&region.label, PlotPoints::from(points)).stroke(stroke).style(style).allow_hover(false));
}

/// What the curves are at the pointer; where there are none of a mass, where the pointer is.
fn at_pointer(figure: &Figure, point: PlotPoint, sign: DecimalSign) -> String {
    let (x, y) = (&figure.x, &figure.y);
    let mut lines = vec![reading(x, point.x, sign)];
    let unit = y.label.split_once(", ").map_or("", |(_, unit)| unit);
    let of_masses = figure.curves.iter().any(|curve| curve.role == Role::Now);
    if of_masses {
        let curves =
            figure.curves.iter().filter(|curve| matches!(curve.role, Role::Now | Role::Pinned | Role::Reference));
        lines.extend(curves.filter_map(|curve| {
            let value = curve.at(point.x)?;
            Some(format!("{}: {} {unit}", curve.label, fixed(value, at_pointer_decimals(y), sign)))
        }));
    } else {
        lines.push(format!("{} (place of the pointer)", reading(y, point.y, sign)));
    }
    lines.join("\n")
}

/// A place on an axis in words: "temperature 25.5 °C".
fn reading(axis: &AxisRange, value: f64, sign: DecimalSign) -> String {
    let (name, unit) = axis.label.split_once(", ").unwrap_or((axis.label, ""));
    format!("{name} {} {unit}", fixed(value, at_pointer_decimals(axis), sign)).trim_end().to_owned()
}

/// One digit more than the ticks, at least one.
fn at_pointer_decimals(axis: &AxisRange) -> u32 {
    axis.decimals() + 1
}

/// Beside a mark.
fn beside(mark: &Mark, x: &AxisRange, y: &AxisRange) -> ([f64; 2], Align2) {
    let gap = [LABEL_GAP * (x.to - x.from), 0.03 * (y.to - y.from)];
    let LabelPlace { is_left, is_above } = mark.label_place(x, y);
    let dx = if is_left { -gap[0] } else { gap[0] };
    let dy = if is_above { gap[1] } else { -gap[1] };
    let anchor = match (is_left, is_above) {
        (true, true) => Align2::RIGHT_BOTTOM,
        (true, false) => Align2::RIGHT_TOP,
        (false, true) => Align2::LEFT_BOTTOM,
        (false, false) => Align2::LEFT_TOP,
    };
    ([mark.at[0] + dx, mark.at[1] + dy], anchor)
}

/// Words with a ground of their own, so that no line of the figure goes through them.
fn on_ground(words: &str, colour: Color32, palette: &Palette) -> RichText {
    /// So much of it covers what is behind that a line fades and a shade still shows.
    const COVERS: f32 = 0.8;
    RichText::new(words).color(colour).background_color(palette.card.gamma_multiply(COVERS))
}

fn label(text: &str, at: [f64; 2], anchor: Align2, palette: &Palette) -> Text {
    let colour = palette.text;
    let words = on_ground(text, colour, palette).font(theme::small());
    Text::new(text, PlotPoint::new(at[0], at[1]), words).anchor(anchor).color(colour)
}

/// An axis with the figures of its ticks above `from`.
fn axis<'a>(hints: AxisHints<'a>, ui: &Ui, range: &AxisRange, from: f64, sign: DecimalSign) -> AxisHints<'a> {
    let palette = Palette::of(ui);
    let decimals = range.decimals();
    let name: WidgetText = RichText::new(range.label).font(theme::small()).color(palette.quiet).into();
    hints
        .label(name)
        .tick_label_color(palette.quiet)
        .tick_label_font(theme::small())
        // Ticks are few and chosen: every one of them has its figure.
        .label_spacing(egui::Rangef::new(8.0, 16.0))
        .formatter(
            move |mark: GridMark, _| if mark.value > from { fixed(mark.value, decimals, sign) } else { String::new() },
        )
}

/// What the figures and the name of an axis take across it.
///
/// The library finds that out while it draws and lays out by what it was in the frame before: a plot that comes into sight
/// would be drawn once with its words over each other.
fn thickness(ui: &Ui, axis: &AxisRange, is_upright: bool, sign: DecimalSign) -> f32 {
    /// What the library keeps between name and figures, of the height of the name, and beside figures.
    const NAME_GAP: f32 = 0.25;
    const SIDE: f32 = 4.0;
    let size = |words: String| ui.painter().layout_no_wrap(words, theme::small(), Color32::PLACEHOLDER).size();
    let name = size(axis.label.to_owned()).y * (1.0 + NAME_GAP);
    let figures = axis.ticks().into_iter().map(|tick| size(fixed(tick, axis.decimals(), sign)));
    let figures = figures.map(|figure| if is_upright { figure.x + 2.0 * SIDE } else { figure.y }).fold(0.0, f32::max);
    figures + name
}

/// The ticks of an axis.
fn marks(axis: &AxisRange) -> Vec<GridMark> {
    axis.ticks().into_iter().map(|value| GridMark { value, step_size: axis.step }).collect()
}

fn fill(palette: &Palette, figure: &Figure, role: Role) -> Color32 {
    match role {
        Role::SecondWindow => palette.second_window_ground,
        Role::Usual => palette.mark.gamma_multiply(0.18),
        Role::Uncertainty => palette.line(figure.hue).gamma_multiply(0.22),
        Role::Window | Role::Now | Role::Pinned | Role::Reference | Role::Limit => palette.window_ground,
    }
}

fn stroke(palette: &Palette, figure: &Figure, role: Role) -> (Stroke, LineStyle) {
    match role {
        Role::Now => (Stroke::new(2.5, palette.line(figure.hue)), LineStyle::Solid),
        Role::Pinned => (Stroke::new(1.5, palette.text), LineStyle::dashed_loose()),
        Role::Limit => (Stroke::new(2.0, palette.accent), LineStyle::Solid),
        Role::Reference | Role::Window | Role::SecondWindow | Role::Usual | Role::Uncertainty => {
            (Stroke::new(1.5, palette.mark), LineStyle::dashed_dense())
        }
    }
}

#[cfg(test)]
mod tests {
    use egui::{Context, RawInput};

    use super::*;

    #[test]
    fn a_plot_that_comes_into_sight_is_at_once_as_it_stays() {
        let x = AxisRange { label: "water activity", from: 0.5, to: 1.0, step: 0.1 };
        let y = AxisRange { label: "water, g per 100 g dry", from: 0.0, to: 200.0, step: 50.0 };
        let figure = Figure {
            hue: theme::Hue::Water,
            x,
            y,
            regions: Vec::new(),
            curves: Vec::new(),
            rules: Vec::new(),
            levels: Vec::new(),
            marks: Vec::new(),
            in_words: String::new(),
        };
        let ctx = Context::default();
        theme::install(&ctx);
        let frame = |above: f32| {
            let mut output = ctx.run_ui(RawInput::default(), |ui| {
                ui.add_space(above);
                figure_ui(ui, "plot", &figure, 100.0, DecimalSign::Point);
            });
            output.textures_delta.clear();
            output.shapes
        };
        let _ = frame(0.0);
        let _ = frame(1e5);
        let first = frame(0.0);
        assert!(first.len() > 10, "it is drawn");
        assert_eq!(first, frame(0.0));
    }
}
