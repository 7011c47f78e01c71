//! The groups of the checklist: a step with its messages (and its section's heading), never parted in print.
use super::rounds;
use crate::model::Step;
use crate::model::document::Section;
use crate::model::in_force::InForce;
use crate::sheets::blanks::{self, Blank, Kind};
use crate::sheets::{Sheet, figures, html, panel, prose, sentences, since, tags, withhold};

/// What is gone since, what stands above the first section, then every section with its groups.
pub fn render(sheet: &Sheet<'_>) -> String {
    let mut out = String::with_capacity(32_768);
    out.push_str(&since::gone(sheet));
    let mut in_force = InForce::new(sheet.procedure);
    let mut reminder = panel::Reminder::new(false);
    let (opening, sections) = sheet.opening();
    if let Some(messages) = opening {
        out.push_str("<div class=\"group opening\">\n");
        panel::before_none(&mut out, sheet, messages, 0);
        out.push_str("</div>\n");
    }
    let says = |section: &&Section| !section.steps.is_empty() || !section.stranded.is_empty();
    for (index, section) in sections.iter().filter(says).enumerate() {
        let last = section.steps.last().map_or(0, |step| step.number);
        let head = Head { section, number: index + 1 };
        out.push_str("<section>\n");
        if section.steps.is_empty() {
            html::open(&mut out, "div", "group");
            head.render(&mut out, sheet);
            out.push_str("</div>\n");
        }
        for (index, step) in section.steps.iter().enumerate() {
            let head = Some(&head).filter(|_| index == 0);
            group(&mut out, sheet, step, head, |out| reminder.write(out, sheet, in_force.enter(step)));
            in_force.leave(step, last);
        }
        out.push_str("</section>\n");
    }
    out
}

/// What stands over a section's first step, in its group, so that they are not parted.
struct Head<'a> {
    section: &'a Section,
    number: usize,
}

impl Head<'_> {
    fn render(&self, out: &mut String, sheet: &Sheet<'_>) {
        html::open(out, "h2", "");
        match &self.section.title {
            Some(title) => html::author(out, sheet.context.own(), title.as_str()),
            None => html::escape(out, sheet.label("steps")),
        }
        html::close(out, "h2");
        if let Some(text) = &self.section.prose {
            let from = out.len();
            prose::block(out, text, sheet);
            sheet.numbers.blank_from(out, sheet, from);
        }
        panel::before_none(out, sheet, &self.section.stranded, self.number);
    }
}

fn group(
    out: &mut String,
    sheet: &Sheet<'_>,
    step: &Step,
    head: Option<&Head<'_>>,
    remind: impl FnOnce(&mut String),
) {
    let marked = since::is_marked(sheet, step.number);
    out.push_str(if marked {
        "<div class=\"group changed\" id=\"step-"
    } else {
        "<div class=\"group\" id=\"step-"
    });
    html::number(out, step.number);
    out.push_str("\">\n");
    if let Some(head) = head {
        head.render(out, sheet);
    }
    panel::before_step(out, sheet, step);
    out.push_str("<div class=\"step\"><p class=\"tick\"><span class=\"box\"></span><span class=\"no\">");
    html::number(out, step.number);
    out.push_str("</span></p><div class=\"body\">");
    remind(out);
    since::at_step(out, sheet, step.number);
    let from = out.len();
    text(out, sheet, step);
    sheet.numbers.blank_from(out, sheet, from);
    out.push_str("</div>");
    let blanks = blanks::of(sheet, step);
    if !blanks.is_empty() {
        html::open(out, "div", "blanks");
        for blank in &blanks {
            write_on(out, sheet, blank, None);
        }
        html::close(out, "div");
    }
    out.push_str("</div>");
    rounds::render(out, sheet, step);
    out.push_str("</div>\n");
}

fn text(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    tags::tags(out, sheet, step);
    sentences::actions(out, sheet, step);
    sentences::again(out, sheet, step);
    if let Some(text) = &step.prose {
        out.push_str("<div class=\"prose\">");
        prose::block(out, text, sheet);
        out.push_str("</div>");
    }
    figures::see(out, sheet, step);
    sentences::branches(out, sheet, step, "<span class=\"box small\"></span>");
}

/// One blank; `step` says of which step, where that is not plain from its place.
pub fn write_on(out: &mut String, sheet: &Sheet<'_>, blank: &Blank, step: Option<u32>) {
    html::open(out, "div", if blank.kind == Kind::Initials { "blank initials" } else { "blank" });
    match step {
        Some(number) => {
            let arguments = [("step", number.into()), ("label", blank.label.as_str().into())];
            html::element(out, "p", "label", &sheet.say("of-step", &arguments));
        }
        None => html::element(out, "p", "label", &blank.label),
    }
    for line in 1..=blank.lines {
        html::open(out, "p", "write");
        if blank.lines > 1 {
            html::number(out, line);
        }
        out.push_str("<span class=\"rule\"></span>");
        html::escape(out, blank.unit);
        html::close(out, "p");
    }
    if sheet.withhold.hides_blank(blank.kind) && !blank.limits.is_empty() {
        html::open(out, "p", "limits");
        html::escape(out, sheet.label("looked-up"));
        out.push(' ');
        withhold::blank(out, sheet);
        html::close(out, "p");
        return html::close(out, "div");
    }
    for limit in &blank.limits {
        html::element(out, "p", "limits", limit);
    }
    html::close(out, "div");
}
