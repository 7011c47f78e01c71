//! The numbered steps of the bench page, each with its safety messages before it.
use crate::ledger::hazards::Demand;
use crate::model::hazard::Hazard;
use crate::model::in_force::InForce;
use crate::model::step::Question;
use crate::model::{Action, Message, Step};
use crate::sheets::{
    Edition, Sheet, clock, figures, html, panel, prose, sentences, signs, since, tags, title,
};

/// One section's entry in the table of contents.
struct Part<'a> {
    anchor: String,
    title: &'a str,
    /// The language of the title, where it is the author's and not that of the page.
    own: Option<&'static str>,
    /// "Steps 1 to 14"; empty where the section has none.
    range: String,
}

/// The items of the table of contents, and the markup of all steps.
pub fn render(sheet: &Sheet<'_>, demands: &[Demand<'_>]) -> (String, String) {
    let mut demands = demands;
    let mut contents = String::with_capacity(1_024);
    let mut out = String::with_capacity(32_768);
    let mut in_force = InForce::new(sheet.procedure);
    let mut reminder = panel::Reminder::new(true);
    if let Some(messages) = sheet.opening().0 {
        html::open(&mut out, "div", "opening");
        panel::before_none(&mut out, sheet, messages, 0);
        out.push_str("</div>\n");
    }
    let clock = if sheet.edition == Edition::Instructor { clock::of(sheet) } else { Vec::new() };
    for (number, section) in sheet.headed_sections() {
        let (first, last) = match (section.steps.first(), section.steps.last()) {
            (Some(first), Some(last)) => (first.number, last.number),
            _ => (0, 0),
        };
        let part = Part {
            anchor: format!("section-{number}"),
            title: section.title.as_ref().map_or_else(|| sheet.label("steps"), |t| t.as_str()),
            own: section.title.as_ref().and(sheet.context.own()),
            range: range(sheet, first, last),
        };
        entry(&mut contents, &part);
        heading(&mut out, &part);
        if let Some(part) = clock.iter().find(|part| part.number == number) {
            clock::line(&mut out, sheet, part);
        }
        if let Some(text) = &section.prose {
            let from = out.len();
            prose::block(&mut out, text, sheet);
            sheet.numbers.blank_from(&mut out, sheet, from);
        }
        panel::before_none(&mut out, sheet, &section.stranded, number);
        if first > 0 {
            out.push_str("<ol start=\"");
            html::number(&mut out, first);
            out.push_str("\">\n");
            for step in &section.steps {
                let here = demands.partition_point(|demand| demand.step.number <= step.number);
                let (own, later) = demands.split_at(here);
                demands = later;
                out.push_str(opening(sheet, step));
                html::number(&mut out, step.number);
                out.push_str("\">");
                reminder.write(&mut out, sheet, in_force.enter(step));
                item(&mut out, sheet, step, &shown(own));
                in_force.leave(step, last);
            }
            out.push_str("</ol>");
        }
        out.push_str("</section>\n");
    }
    (contents, out)
}

fn entry(out: &mut String, part: &Part<'_>) {
    out.push_str("<li><a href=\"#");
    out.push_str(&part.anchor);
    out.push_str("\">");
    title_and_range(out, part);
    out.push_str("</a></li>\n");
}

fn title_and_range(out: &mut String, part: &Part<'_>) {
    html::author(out, part.own, part.title);
    out.push(' ');
    html::element(out, "span", "range", &part.range);
}

/// Opens the section and heads it.
fn heading(out: &mut String, part: &Part<'_>) {
    out.push_str("<section class=\"steps\" aria-labelledby=\"");
    out.push_str(&part.anchor);
    out.push_str("\"><h2 id=\"");
    out.push_str(&part.anchor);
    out.push_str("\">");
    title_and_range(out, part);
    out.push_str("</h2>\n");
}

fn range(sheet: &Sheet<'_>, first: u32, last: u32) -> String {
    match (first, last) {
        (0, _) => String::new(),
        (first, last) if first == last => sheet.say("step-number", &[("number", first.into())]),
        (first, last) => sheet.say("step-range", &[("first", first.into()), ("last", last.into())]),
    }
}

/// The classes of the messages that guard against those hazards, each once, in the order they are read.
pub fn shown(demands: &[Demand<'_>]) -> Vec<&'static Hazard> {
    let mut guarding: Vec<&Message> = demands.iter().filter_map(|demand| demand.guarded_by).collect();
    guarding.sort_by_key(|message| message.span.start);
    let mut shown: Vec<&'static Hazard> = Vec::new();
    for message in guarding {
        if let Some(hazard) = message.hazard.as_ref().map(|it| it.value).filter(|it| !shown.contains(it)) {
            shown.push(hazard);
        }
    }
    shown
}

/// The tag of a step's item, up to its number.
fn opening(sheet: &Sheet<'_>, step: &Step) -> &'static str {
    let is_hold = step.actions.iter().any(|action| matches!(action, Action::Hold(_)));
    match (is_hold, since::is_marked(sheet, step.number)) {
        (true, true) => "<li class=\"hold changed\" id=\"step-",
        (true, false) => "<li class=\"hold\" id=\"step-",
        (false, true) => "<li class=\"changed\" id=\"step-",
        (false, false) => "<li id=\"step-",
    }
}

/// What stands in the item, and its end.
fn item(out: &mut String, sheet: &Sheet<'_>, step: &Step, hazards: &[&Hazard]) {
    panel::before_step(out, sheet, step);
    out.push_str("<div class=\"step\"><div class=\"margin\"><p class=\"no\" aria-hidden=\"true\">");
    html::number(out, step.number);
    out.push_str("</p>");
    signs::hazards(out, sheet.context.words, hazards);
    out.push_str("</div><div class=\"body\">");
    since::at_step(out, sheet, step.number);
    let from = out.len();
    tags::tags(out, sheet, step);
    sentences::actions(out, sheet, step);
    sentences::again(out, sheet, step);
    if let Some(text) = &step.prose {
        out.push_str("<div class=\"prose\">");
        prose::block(out, text, sheet);
        out.push_str("</div>");
    }
    figures::at_step(out, sheet, step);
    sentences::branches(out, sheet, step, "");
    around(out, sheet, step);
    if sheet.edition == Edition::Instructor {
        for teach in &step.teach {
            out.push_str("<div class=\"teach\"><p>");
            html::element(out, "b", "", sheet.label("teach"));
            out.push(' ');
            prose::inline(out, teach, sheet);
            out.push_str("</p></div>");
        }
    }
    for question in &step.questions {
        ask(out, sheet, question);
    }
    sheet.numbers.blank_from(out, sheet, from);
    out.push_str("</div></div></li>\n");
}

/// Figure, record, reason, source.
fn around(out: &mut String, sheet: &Sheet<'_>, step: &Step) {
    let mut line = |class: &str, label: &'static str, body: &str| {
        html::open(out, "p", class);
        html::element(out, "b", "", sheet.label(label));
        out.push(' ');
        out.push_str(body);
        html::close(out, "p");
    };
    for action in &step.actions {
        if let Action::Follow(follow) = action
            && let Some(link) = title::link(sheet, &follow.call)
        {
            line("follow", "open", &link);
        }
    }
    for figure in &step.figures {
        if let Some(link) = figures::link(sheet, figure.value, step) {
            line("see", "see", &link);
        } else if let (false, Some(thing)) =
            (figures::stands_at(sheet, figure.value, step), sheet.declarations.thing(figure.value))
        {
            let name = thing.name.value.replace('-', " ");
            line("see", "see", &sheet.own(&format!("{name}, {}", thing.text.value)));
        }
    }
    if let Some(record) = &step.record {
        line("record", "write-down", &sheet.own(&record.value));
    }
    for due in &step.dues {
        let when = sheet.own(&html::sentence_case(&due.when.value));
        line("due", "later", &format!("{when}: {}", sentences::phrase(sheet, &due.what.value)));
    }
    if let Some(because) = &step.because {
        let mut body = String::new();
        prose::inline(&mut body, because, sheet);
        line("because", "why", &body);
    }
    if let Some(from) = &step.from {
        line("from", "source", &sheet.own(&from.value));
    }
}

fn ask(out: &mut String, sheet: &Sheet<'_>, question: &Question) {
    out.push_str("<div class=\"question\"><p>");
    html::element(out, "b", "", sheet.label("question"));
    out.push(' ');
    prose::inline(out, &question.ask, sheet);
    out.push_str("</p>");
    if let Some(answer) = question.answer.as_ref().filter(|_| sheet.edition == Edition::Instructor) {
        out.push_str("<p class=\"answer\">");
        html::element(out, "b", "", sheet.label("answer"));
        out.push(' ');
        prose::inline(out, answer, sheet);
        out.push_str("</p>");
    } else if let Some(answer) = &question.answer {
        out.push_str("<details>");
        html::element(out, "summary", "", sheet.label("show-the-answer"));
        prose::block(out, answer, sheet);
        out.push_str("</details>");
    }
    out.push_str("</div>");
}
