//! The pictures of figures: shown at the first step that names them and led to from all others, and listed.
use super::{Sheet, html};
use crate::model::declarations::{Declarations, Figure, Name};
use crate::model::picture::{Kind, Picture};
use crate::model::{Procedure, Step};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;

/// Of each figure by its place in the table, the steps that name it, rising.
#[derive(Debug, Default)]
pub struct Places(Vec<Vec<u32>>);

impl Places {
    pub fn of(procedure: &Procedure, declarations: &Declarations) -> Places {
        let mut places = vec![Vec::new(); declarations.figures.len()];
        if !places.is_empty() {
            for step in procedure.steps() {
                for figure in &step.figures {
                    if let Name::Figure(id) = figure.value
                        && let Some(steps) = places.get_mut(id as usize)
                        && steps.last() != Some(&step.number)
                    {
                        steps.push(step.number);
                    }
                }
            }
        }
        Places(places)
    }

    fn steps(&self, id: u32) -> &[u32] {
        self.0.get(id as usize).map_or(&[], Vec::as_slice)
    }
}

/// The figures of a step that have a picture, each once.
fn named<'a>(sheet: &Sheet<'a>, step: &Step) -> Vec<(u32, &'a Figure, &'a Picture)> {
    let mut ids: Vec<u32> = Vec::new();
    for figure in &step.figures {
        if let Name::Figure(id) = figure.value
            && !ids.contains(&id)
        {
            ids.push(id);
        }
    }
    ids.into_iter().filter_map(|id| pictured(sheet, id)).collect()
}

fn pictured<'a>(sheet: &Sheet<'a>, id: u32) -> Option<(u32, &'a Figure, &'a Picture)> {
    let figure = sheet.declarations.figures.get(id as usize)?;
    Some((id, figure, figure.picture()?))
}

/// "fig 1, Drive end", as text.
pub fn title(figure: &Figure) -> String {
    format!("{}, {}", figure.thing.name.value.replace('-', " "), figure.thing.text.value)
}

/// The pictures that are first named here.
pub fn at_step(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    for (id, figure, picture) in named(sheet, step) {
        if sheet.figures.steps(id).first() == Some(&step.number) {
            show(out, sheet, figure, picture);
        }
    }
}

/// What leads from a step to a picture elsewhere on the page, as markup; `None` where it stands at the step, or there
/// is none.
pub fn link(sheet: &Sheet<'_>, name: Name, step: &Step) -> Option<String> {
    let Name::Figure(id) = name else { return None };
    let (_, figure, _) = pictured(sheet, id)?;
    (sheet.figures.steps(id).first() != Some(&step.number)).then(|| leading_to(sheet, figure))
}

/// Whether its picture stands at this step of the bench page.
pub fn stands_at(sheet: &Sheet<'_>, name: Name, step: &Step) -> bool {
    matches!(name, Name::Figure(id) if pictured(sheet, id).is_some()
        && sheet.figures.steps(id).first() == Some(&step.number))
}

fn leading_to(sheet: &Sheet<'_>, figure: &Figure) -> String {
    let (name, title) = (&figure.thing.name.value, sheet.own(&title(figure)));
    format!("<a href=\"#figure-{name}\">{title}</a>")
}

/// The list of pictures: each leads to its step; one that no step names stands here itself. Empty where there are none.
pub fn list(sheet: &Sheet<'_>) -> String {
    let mut items = String::new();
    let mut rest = String::new();
    for (id, figure, picture) in all(sheet) {
        let steps = sheet.figures.steps(id);
        items.push_str("<li>");
        items.push_str(&leading_to(sheet, figure));
        for &step in steps {
            items.push(' ');
            html::step_link(&mut items, step, &sheet.say("at-step", &[("step", step.into())]));
        }
        items.push_str("</li>\n");
        if steps.is_empty() {
            show(&mut rest, sheet, figure, picture);
        }
    }
    if items.is_empty() { items } else { format!("<ul>\n{items}</ul>\n{rest}") }
}

/// All pictures, for paper, where they stand together behind the steps. Empty where there are none.
pub fn together(sheet: &Sheet<'_>) -> String {
    let mut out = String::new();
    for (_, figure, picture) in all(sheet) {
        show(&mut out, sheet, figure, picture);
    }
    out
}

/// The line of a step on paper that says which pictures to look at.
pub fn see(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    let named = named(sheet, step);
    if named.is_empty() {
        return;
    }
    out.push_str("<p class=\"see\">");
    html::element(out, "b", "", sheet.label("see"));
    for (index, (_, figure, _)) in named.iter().enumerate() {
        out.push_str(if index > 0 { "; " } else { " " });
        out.push_str(&leading_to(sheet, figure));
    }
    out.push_str("</p>");
}

fn all<'a>(sheet: &Sheet<'a>) -> impl Iterator<Item = (u32, &'a Figure, &'a Picture)> {
    (0..).zip(&sheet.declarations.figures).filter_map(|(id, figure)| Some((id, figure, figure.picture()?)))
}

fn show(out: &mut String, sheet: &Sheet<'_>, figure: &Figure, picture: &Picture) {
    let title = title(figure);
    out.push_str("<figure class=\"picture\" id=\"figure-");
    out.push_str(&figure.thing.name.value);
    out.push_str("\"><img alt=\"");
    html::escape(out, &words(sheet, figure));
    if picture.kind != Kind::Svg {
        out.push_str("\" data-on-paper=\"");
        html::escape(out, sheet.label("picture-on-the-page"));
    }
    out.push_str("\" width=\"");
    html::number(out, picture.width);
    out.push_str("\" height=\"");
    html::number(out, picture.height);
    out.push_str("\" src=\"data:");
    out.push_str(picture.kind.media_type());
    out.push_str(";base64,");
    STANDARD.encode_string(&picture.bytes, out);
    out.push_str("\"><figcaption>");
    out.push_str(&sheet.numbers.blanked(sheet, sheet.own(&title)));
    let mut callouts = sheet.declarations.callouts(figure).peekable();
    if callouts.peek().is_some() {
        out.push_str("<ul class=\"callouts\">");
        for (callout, part) in callouts {
            out.push_str("<li>");
            html::element(out, "b", "", &callout.number.value.to_string());
            out.push(' ');
            out.push_str(&sheet.own(&part.thing.text.value));
            out.push_str("</li>");
        }
        out.push_str("</ul>");
    }
    out.push_str("</figcaption></figure>");
}

/// What it shows; only its title where the words would give away what learners look up.
fn words(sheet: &Sheet<'_>, figure: &Figure) -> String {
    let alt = figure.alt.as_ref().map_or("", |alt| alt.value.trim());
    let escaped = html::escaped(alt);
    let given_away = sheet.numbers.blanked(sheet, escaped.clone()) != escaped;
    if alt.is_empty() || given_away { figure.thing.name.value.replace('-', " ") } else { alt.to_owned() }
}
