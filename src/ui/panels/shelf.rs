//! The shelf at the left: recipes of a folder, ingredients, one search for both.
//!
//! In the search, the arrow keys choose an ingredient and Enter adds it; so a recipe can be built without the mouse.

use std::borrow::Borrow;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};

use egui::{
    Button, Frame, Key, Label, Margin, Modifiers, Panel, RichText, ScrollArea, Sense, TextEdit, TextWrapMode, Ui,
};

use crate::document::{Memo, Revision};
use crate::ingredient::search::{fold, rank};
use crate::ingredient::{Ingredient, Library};
use crate::number::{DecimalSign, fixed};
use crate::recipe::Recipe;
use crate::store::{self, RecipeEntry};
use crate::ui::text;
use crate::ui::theme::{self, Palette, space};
use crate::ui::view::{Action, Dragged, Focus, View};
use crate::ui::widgets::number_cell;

/// Width of the shelf.
pub const WIDTH: f32 = 224.0;

/// Height of an entry.
const ENTRY: f32 = 27.0;

/// At most this share of the height is for recipes; the rest is for ingredients.
const RECIPES_SHARE: f32 = 0.45;

/// The recipes of a folder, listed in the background.
pub struct Shelf {
    folder: Option<PathBuf>,
    recipes: Vec<RecipeEntry>,
    problem: Option<String>,
    listing: Option<Receiver<Result<Vec<RecipeEntry>, String>>>,
    found: FoundMemo,
}

/// What was found last, for a search in a state of the document.
type FoundMemo = Memo<(String, (u64, Revision)), Rc<Found>>;

impl Shelf {
    /// A shelf that looks into a folder.
    #[must_use]
    pub fn new(folder: Option<PathBuf>) -> Self {
        let mut shelf = Self { folder, recipes: Vec::new(), problem: None, listing: None, found: Memo::default() };
        shelf.refresh();
        shelf
    }

    /// The folder it looks into.
    #[must_use]
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_deref()
    }

    /// Whether the folder is being read.
    #[must_use]
    pub fn is_listing(&self) -> bool {
        self.listing.is_some()
    }

    /// Looks into another folder.
    pub fn look_in(&mut self, folder: &Path) {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        if self.folder.as_deref() != Some(folder) {
            self.folder = Some(folder.to_owned());
            self.recipes.clear();
            self.refresh();
        }
    }

    /// The files of the recipes that it lists, in their order.
    #[must_use]
    pub fn files(&self) -> Vec<PathBuf> {
        self.recipes.iter().map(|recipe| recipe.path.clone()).collect()
    }

    /// The files of the recipes that it lists with what they are called, in their order; those of one name with their files.
    pub fn titles(&self) -> impl Iterator<Item = (&Path, String)> {
        (0..self.recipes.len())
            .filter_map(|place| Some((self.recipes.get(place)?.path.as_path(), told_apart(&self.recipes, place)?)))
    }

    /// How many recipes it lists.
    #[must_use]
    pub fn count(&self) -> usize {
        self.recipes.len()
    }

    /// Lists the folder again, in the background.
    pub fn refresh(&mut self) {
        let Some(folder) = self.folder.clone() else { return };
        let (sender, receiver) = channel();
        let spawned = std::thread::Builder::new().name("shelf".to_owned()).spawn(move || {
            // The window may be gone by now; then nobody needs the list.
            let _ = sender.send(store::list_recipes(&folder).map_err(|error| error.to_string()));
        });
        match spawned {
            Ok(_) => self.listing = Some(receiver),
            Err(error) => log::warn!("the shelf is not listed: {error}"),
        }
    }

    /// Takes the list when it is there.
    pub fn poll(&mut self, ctx: &egui::Context) {
        let Some(listing) = &self.listing else { return };
        match listing.try_recv() {
            Ok(Ok(recipes)) => {
                self.recipes = recipes;
                self.problem = None;
            }
            Ok(Err(problem)) => self.problem = Some(problem),
            Err(std::sync::mpsc::TryRecvError::Empty) => {
                // Listing a folder takes milliseconds: look again soon, and stop asking when it is there.
                ctx.request_repaint_after(std::time::Duration::from_millis(20));
                return;
            }
            Err(std::sync::mpsc::TryRecvError::Disconnected) => {}
        }
        self.listing = None;
        ctx.request_repaint();
    }

    /// Draws the shelf.
    pub fn ui(
        &mut self,
        ui: &mut Ui,
        view: &mut View,
        (recipe, state): (&Recipe, (u64, Revision)),
        open: Option<&Path>,
        actions: &mut Vec<Action>,
    ) {
        let palette = Palette::of(ui);
        Panel::left("shelf")
            .resizable(false)
            .exact_size(WIDTH)
            .frame(Frame::new().fill(palette.panel).inner_margin(Margin { left: 12, right: 6, top: 12, bottom: 0 }))
            .show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 0.0;
                let mut find = |text: &str| {
                    let key = (text.to_owned(), state);
                    Rc::clone(self.found.get(key, || Rc::new(Found::new(text, recipe))))
                };
                let found = search_ui(ui, view, &mut find, actions);
                ui.add_space(space::NEAR);
                self.recipes_ui(ui, view, open, actions);
                ingredients_ui(ui, view, &found, actions);
            });
    }

    fn recipes_ui(&self, ui: &mut Ui, view: &View, open: Option<&Path>, actions: &mut Vec<Action>) {
        let folder = self.folder.as_deref().and_then(Path::file_name).map(|name| name.to_string_lossy().into_owned());
        let title = folder.map_or_else(|| "Recipes".to_owned(), |folder| format!("Recipes · {folder}"));
        section_ui(ui, &title);
        let query = fold(&view.search);
        let shown: Vec<&RecipeEntry> =
            self.recipes.iter().filter(|recipe| rank(&query, &recipe.folded).is_some()).collect();
        if let Some(problem) = &self.problem {
            ui.label(theme::caption(ui, problem.as_str()));
        } else if shown.is_empty() {
            let words = if self.recipes.is_empty() {
                "No recipes here yet; Open… looks elsewhere"
            } else {
                "None has these words"
            };
            ui.add_space(space::TIGHT);
            ui.label(theme::caption(ui, words));
        }
        let most = ui.available_height() * RECIPES_SHARE;
        ScrollArea::vertical().id_salt("recipes").max_height(most).auto_shrink([false, true]).show_rows(
            ui,
            ENTRY,
            shown.len(),
            |ui, range| {
                for (place, recipe) in shown.iter().enumerate().skip(range.start).take(range.len()) {
                    let is_open = open.is_some_and(|open| open == recipe.path);
                    let title = told_apart(&shown, place).unwrap_or_default();
                    let response =
                        entry_ui(ui, &title, is_open, is_open).on_hover_text(recipe.path.display().to_string());
                    if response.clicked() && !is_open {
                        actions.push(Action::OpenRecipe(recipe.path.clone()));
                    }
                }
            },
        );
        ui.add_space(space::NEAR);
    }
}

/// The field of the search.
#[must_use]
pub fn search_id() -> egui::Id {
    egui::Id::unique("search")
}

/// What a search finds.
#[derive(Debug)]
struct Found {
    /// The ingredients that only the recipe has, then those of the library, each part best first.
    ingredients: Vec<Arc<Ingredient>>,
    /// How many of them only the recipe has.
    own: usize,
}

impl Found {
    fn new(query: &str, recipe: &Recipe) -> Self {
        let mut ingredients = own_ingredients(query, recipe);
        let own = ingredients.len();
        ingredients.extend(Library::built_in().search(query).into_iter().cloned());
        Self { ingredients, own }
    }
}

/// The ingredients that a search finds: those that only the recipe has, then those of the library, each part best first.
#[must_use]
pub fn found(query: &str, recipe: &Recipe) -> Vec<Arc<Ingredient>> {
    Found::new(query, recipe).ingredients
}

/// The ingredients that a recipe brings along and that are not in the library as they are here.
fn own_ingredients(query: &str, recipe: &Recipe) -> Vec<Arc<Ingredient>> {
    let library = Library::built_in();
    let lines = recipe.lines.iter().filter(|line| line.recipe_file.is_none()).map(|line| &line.ingredient);
    let mut own: Vec<(u32, &Arc<Ingredient>)> = Vec::new();
    for ingredient in lines.chain(&recipe.spare_ingredients) {
        let is_built_in = library.by_id(&ingredient.id).is_some_and(|built_in| built_in == ingredient);
        if !is_built_in && own.iter().all(|(_, other)| *other != ingredient) {
            let searched = fold(&format!("{} {} {}", ingredient.name, ingredient.id, ingredient.category));
            own.extend(rank(&fold(query), &searched).map(|rank| (rank, ingredient)));
        }
    }
    own.sort_by_key(|(rank, _)| *rank);
    own.into_iter().map(|(_, ingredient)| Arc::clone(ingredient)).collect()
}

/// The search field. Gives back the ingredients that it finds.
fn search_ui(
    ui: &mut Ui,
    view: &mut View,
    find: &mut dyn FnMut(&str) -> Rc<Found>,
    actions: &mut Vec<Action>,
) -> Rc<Found> {
    let id = search_id();
    let has_focus = ui.memory(|memory| memory.has_focus(id));
    let mut found = find(&view.search);
    if has_focus {
        search_arrows(ui, view, found.ingredients.len());
    }
    let palette = Palette::of(ui);
    let field = TextEdit::singleline(&mut view.search)
        .id(id)
        .hint_text(text::SEARCH_HINT)
        .background_color(palette.well)
        .margin(Margin::symmetric(8, 6))
        .desired_width(f32::INFINITY);
    let response = ui.add(field).accessible_name(text::SEARCH_HINT);
    if response.changed() {
        view.search_place = 0;
        found = find(&view.search);
    }
    // After the field: a frame may bring the last letters together with Enter.
    if response.lost_focus() {
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if pressed(Key::Escape) {
            view.forget_search();
            found = find("");
        } else if has_focus && pressed(Key::Enter) {
            match found.ingredients.get(view.search_place).filter(|_| !view.search.is_empty()) {
                Some(ingredient) => {
                    actions.push(Action::AddIngredient(Arc::clone(ingredient)));
                    view.forget_search();
                }
                // What was typed waits for a correction.
                None => response.request_focus(),
            }
        }
    }
    if view.focus == Some(Focus::Search) {
        view.focus = None;
        response.request_focus();
        number_cell::select_all(ui.ctx(), id, &view.search);
    }
    response.on_hover_text(
        "Any part of a name, accents and case ignored; ↓ ↑ choose, Enter adds to the recipe, or drag it there",
    );
    found
}

/// Arrow keys choose among the found; before the field, which would take them for itself.
fn search_arrows(ui: &Ui, view: &mut View, count: usize) {
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    if pressed(Key::ArrowDown) {
        view.search_place = (view.search_place + 1).min(count.saturating_sub(1));
    }
    if pressed(Key::ArrowUp) {
        view.search_place = view.search_place.saturating_sub(1);
    }
}

fn ingredients_ui(ui: &mut Ui, view: &View, found: &Found, actions: &mut Vec<Action>) {
    section_ui(ui, "Ingredients");
    if found.ingredients.is_empty() {
        ui.label(theme::caption(ui, "None has these words"));
    }
    let is_searching = !view.search.is_empty();
    let mut area = ScrollArea::vertical().id_salt("ingredients").auto_shrink([false, false]);
    let rows = shelf_rows(found, is_searching);
    if is_searching {
        let is_chosen = |row: &Row<'_>| matches!(row, Row::Ingredient { place, .. } if *place == view.search_place);
        let row = rows.iter().position(is_chosen).unwrap_or(0);
        #[expect(clippy::cast_precision_loss, reason = "places in a list of hundreds")]
        let chosen = row as f32 * ENTRY;
        let height = ui.available_height();
        // Keep the chosen one in sight while the arrow keys run through the list.
        area = area.vertical_scroll_offset((chosen - height + 2.0 * ENTRY).max(0.0));
    }
    area.show_rows(ui, ENTRY, rows.len(), |ui, range| {
        for row in rows.iter().skip(range.start).take(range.len()) {
            match row {
                Row::Head(words) => row_head_ui(ui, words),
                Row::Ingredient { place, ingredient } => {
                    let is_chosen = is_searching && *place == view.search_place;
                    let response = entry_ui(ui, &ingredient.name, is_chosen, false)
                        .on_hover_ui(|ui| drop(ui.label(summary(ingredient, view.sign))));
                    if response.clicked() {
                        actions.push(Action::AddIngredient(Arc::clone(ingredient)));
                    }
                    drag_ui(ui, &response, ingredient);
                }
            }
        }
    });
}

/// An ingredient can be dragged into the sheet; on the way its name goes with the pointer.
fn drag_ui(ui: &Ui, response: &egui::Response, ingredient: &Arc<Ingredient>) {
    let response = ui.interact(response.rect, response.id.with("drag"), Sense::DRAG);
    response.dnd_set_drag_payload(Dragged(Arc::clone(ingredient)));
    if response.dragged()
        && let Some(pointer) = ui.ctx().pointer_interact_pos()
    {
        let palette = Palette::of(ui);
        let painter = ui.ctx().layer_painter(egui::LayerId::new(egui::Order::Tooltip, response.id));
        let galley = painter.layout_no_wrap(ingredient.name.clone(), theme::body_bold(), palette.text);
        let at = pointer + egui::vec2(14.0, 6.0);
        let ground = egui::Rect::from_min_size(at, galley.size()).expand2(egui::vec2(8.0, 4.0));
        painter.rect(ground, space::FIELD_RADIUS, palette.card, palette.rule_stroke(), egui::StrokeKind::Inside);
        painter.galley(at, galley, palette.text);
    }
}

/// A row of the list of ingredients.
enum Row<'a> {
    Head(String),
    Ingredient { place: usize, ingredient: &'a Arc<Ingredient> },
}

/// First what only the recipe has; then the found ones in their order, or the whole library under its groups.
fn shelf_rows(found: &Found, is_searching: bool) -> Vec<Row<'_>> {
    let mut rows = Vec::with_capacity(found.ingredients.len());
    let mut head = None;
    for (place, ingredient) in found.ingredients.iter().enumerate() {
        let next = if place < found.own {
            Some(text::IN_THIS_RECIPE.to_owned())
        } else if !is_searching {
            Some(ingredient.category.to_string())
        } else {
            (found.own > 0).then(|| text::BUILT_IN.to_owned())
        };
        if next != head {
            rows.extend(next.clone().map(Row::Head));
            head = next;
        }
        rows.push(Row::Ingredient { place, ingredient });
    }
    rows
}

fn row_head_ui(ui: &mut Ui, words: &str) {
    ui.allocate_ui_with_layout(
        egui::vec2(ui.available_width(), ENTRY),
        egui::Layout::left_to_right(egui::Align::Max),
        |ui| {
            ui.set_min_height(ENTRY);
            ui.label(theme::caption(ui, words));
        },
    );
}

/// What an ingredient is made of and where that comes from, for a hover text.
#[must_use]
pub fn summary(ingredient: &Ingredient, sign: DecimalSign) -> String {
    use crate::ingredient::Component;
    let parts: Vec<String> = Component::ALL
        .into_iter()
        .filter_map(|component| match ingredient.composition.share(component) {
            Some(share) if share.to_percent() >= 0.05 => {
                Some(format!("{} {}", component.words(), fixed(share.to_percent(), 1, sign)))
            }
            Some(_) => None,
            None => Some(format!("{} not known", component.words())),
        })
        .collect();
    let mut text = format!("{}\n\n{} g per 100 g\n", ingredient.name, parts.join(" · "));
    for words in [ingredient.source.as_str(), ingredient.evidence.words(), ingredient.note.as_str()] {
        if !words.is_empty() {
            text.push('\n');
            text.push_str(words);
        }
    }
    text
}

/// What a recipe of a sorted list is called: two of one name, which are neighbours, are told apart by their files.
fn told_apart<T: Borrow<RecipeEntry>>(list: &[T], place: usize) -> Option<String> {
    let recipe: &RecipeEntry = list.get(place)?.borrow();
    let has_name = |place: Option<usize>| {
        place.and_then(|place| list.get(place)).is_some_and(|other| other.borrow().folded == recipe.folded)
    };
    Some(if has_name(place.checked_sub(1)) || has_name(Some(place + 1)) {
        format!("{} · {}", recipe.title, recipe.path.file_name().unwrap_or_default().to_string_lossy())
    } else {
        recipe.title.clone()
    })
}

fn section_ui(ui: &mut Ui, title: &str) {
    let palette = Palette::of(ui);
    ui.add_space(space::TIGHT);
    let words = RichText::new(title).font(theme::small_bold()).color(palette.quiet);
    ui.add(Label::new(words).wrap_mode(TextWrapMode::Truncate));
    ui.add_space(space::TIGHT);
}

fn entry_ui(ui: &mut Ui, title: &str, is_chosen: bool, is_strong: bool) -> egui::Response {
    let palette = Palette::of(ui);
    let words = if is_strong { theme::strong(title).color(palette.accent) } else { RichText::new(title) };
    let button = Button::new(words)
        .selected(is_chosen)
        .frame_when_inactive(is_chosen)
        .wrap_mode(TextWrapMode::Truncate)
        .min_size(egui::vec2(ui.available_width() - 4.0, ENTRY))
        .sense(Sense::click());
    ui.add(button)
}
