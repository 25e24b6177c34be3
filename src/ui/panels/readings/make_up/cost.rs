//! What the ingredients cost: the batch, a kilogram, a piece, and each line, of which the price can be given here.

use egui::{Align, Label, Layout, TextWrapMode, Ui, WidgetInfo, accesskit::Role};
use rust_decimal::Decimal;

use crate::number::DecimalSign;
use crate::production::cost::{Cost, LineCost, NoCost, Totals};
use crate::production::price::Currency;
use crate::report::words::cost::{COINS, PIECE, amount, lines};
use crate::ui::explanations::cost as explanations;
use crate::ui::theme::{self, Palette};
use crate::ui::view::{Action, Scene};
use crate::ui::widgets::{FigureRow, explain, figure_rows_ui, quiet_button};

/// The totals of the card.
#[derive(Clone, Copy, PartialEq)]
enum Row {
    Batch,
    Kilogram,
    Piece,
}

impl Row {
    const ALL: [Self; 3] = [Self::Batch, Self::Kilogram, Self::Piece];

    fn words(self) -> &'static str {
        match self {
            Self::Batch => "the batch",
            Self::Kilogram => "1 kg of the finished mass",
            Self::Piece => "a piece",
        }
    }

    fn decimals(self) -> u32 {
        if self == Self::Piece { PIECE } else { COINS }
    }

    fn of(self, totals: Totals) -> Option<Decimal> {
        match self {
            Self::Batch => Some(totals.batch),
            Self::Kilogram => totals.per_kilogram,
            Self::Piece => totals.per_piece,
        }
    }

    /// What is shown of a cost: "at least" with lines that have no price.
    fn figure(self, cost: &Cost, sign: DecimalSign) -> String {
        let is_complete = cost.totals().is_some();
        let words = |(currency, totals): (&Currency, Totals)| {
            Some(amount(self.of(totals)?, self.decimals(), currency, is_complete, sign))
        };
        cost.currency.as_ref().zip(cost.at_least()).and_then(words).unwrap_or_else(|| "not known".to_owned())
    }
}

pub(super) fn cost_ui(ui: &mut Ui, scene: &Scene<'_>, cost: &Cost, sign: DecimalSign, actions: &mut Vec<Action>) {
    if let Some(problem) = scene.costs.problem {
        ui.label(egui::RichText::new(problem).color(Palette::of(ui).problem));
        return;
    }
    let pinned = scene.costs.pinned;
    // Nobody asked for the cost of a piece where nobody said how many there are.
    let has_pieces = |cost: &Cost| cost.known.per_piece.is_some();
    let shown: Vec<Row> = Row::ALL
        .into_iter()
        .filter(|row| *row != Row::Piece || has_pieces(cost) || pinned.is_some_and(has_pieces))
        .collect();
    // A pinned figure stays where there is none now.
    if cost.currency.is_none() && pinned.is_none_or(|pinned| pinned.currency.is_none()) {
        ui.label(theme::quiet(ui, "Give the ingredients prices, and what the batch costs stands here"));
    } else {
        let rows: Vec<FigureRow> = shown
            .iter()
            .map(|row| {
                let figures = FigureRow::new(row.words(), [row.figure(cost, sign)]);
                match pinned {
                    Some(pinned) => figures.pinned([row.figure(pinned, sign)]),
                    None => figures,
                }
            })
            .collect();
        figure_rows_ui(ui, &rows, |place| match shown.get(place) {
            Some(Row::Kilogram) => explanations::kilogram(scene),
            Some(Row::Piece) => explanations::piece(scene),
            _ => explanations::batch(scene),
        });
    }
    ui.separator();
    for (line, figure) in cost.lines.iter().zip(lines(cost, sign)) {
        line_ui(ui, scene, line, &figure, actions);
    }
    if let Some(day) = cost.oldest {
        ui.label(theme::caption(ui, format!("the oldest of these prices is of {day}")));
    }
}

/// A line with what it costs; a click on that opens the form for its price.
fn line_ui(
    ui: &mut Ui,
    scene: &Scene<'_>,
    line: &LineCost,
    figure: &Result<String, String>,
    actions: &mut Vec<Action>,
) {
    /// How much room a figure has, or the reason why there is none.
    const FIGURE: f32 = 120.0;
    let Some(of) = scene.document.recipe.line(line.id) else { return };
    let (words, spoken) = match (figure, &line.cost) {
        (Ok(figure), _) => (figure.as_str(), figure.clone()),
        (Err(why), Err(NoCost::NoPrice)) => ("give a price", format!("{why}, give a price")),
        (Err(why), _) => (why.as_str(), why.clone()),
    };
    ui.horizontal(|ui| {
        let width = (ui.available_width() - FIGURE).max(60.0);
        ui.allocate_ui_with_layout(egui::vec2(width, 22.0), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(width);
            ui.add(Label::new(&of.ingredient.name).wrap_mode(TextWrapMode::Truncate));
        });
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let palette = Palette::of(ui);
            let colour = if line.cost.is_ok() { palette.text } else { palette.accent };
            let response = quiet_button(ui, egui::RichText::new(words).color(colour));
            let name = format!("price of {}: {spoken}", of.ingredient.name);
            response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
            explain(&response, || explanations::line(&of.ingredient.name));
            if response.clicked() {
                actions.push(Action::AskForPrice(line.id));
            }
        });
    });
}
