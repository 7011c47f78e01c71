//! Actions that steer: stop, wait, follow, repeat, calculate and their like.
use super::sentence::{Line, Sentence, capital};
use super::tongue::Around;
use super::{Cx, free_text, objects, written};
use crate::model::Action;
use crate::model::action::{Calculate, Expression, Jump, Repeat};
use crate::model::document::Call;
use crate::model::quantity::Quantity;
use crate::source::Text;

pub(super) fn control(action: &Action, cx: &Cx<'_>) -> Sentence {
    let mut line = Line::new(cx);
    let words = &line.tongue.control;
    match action {
        Action::Work(work) => return super::work::work(work, cx),
        Action::Hold(it) => {
            said(&mut line, words.hold, &it.role, it.statement.as_ref(), cx);
        }
        Action::Report(it) => {
            said(&mut line, words.report, &it.role, it.what.as_ref(), cx);
        }
        Action::Wait(it) => wait(&mut line, it.time.as_ref(), it.until.as_ref(), cx),
        Action::Follow(it) => follow(&mut line, &it.call),
        Action::Repeat(it) => repeat(&mut line, it, cx),
        Action::Choose(it) => {
            free_text::write(&mut line, &capital(it.question.as_str()), cx);
        }
        Action::Calculate(it) => calculate(&mut line, it, cx),
        Action::Stop(it) => {
            line.text(words.stop);
            if let Some(why) = &it.why {
                line.next_sentence();
                free_text::write(&mut line, why.as_str(), cx);
            }
        }
        Action::Skip(it) => {
            line.text(words.go_to);
            jump(&mut line, &it.to);
        }
    }
    line.finish()
}

/// "Tell the supervisor: The seal track is grooved."
fn said(line: &mut Line, [before, after]: Around, role: &Text, words: Option<&Text>, cx: &Cx<'_>) {
    line.text(before);
    line.own(role.as_str());
    line.text(after);
    if let Some(words) = words {
        line.text(line.tongue.colon);
        line.capitalise_next();
        free_text::write(line, words.as_str(), cx);
    }
}

fn wait(line: &mut Line, time: Option<&Quantity>, until: Option<&Text>, cx: &Cx<'_>) {
    line.text(line.tongue.control.wait);
    if let Some(time) = time {
        line.text(line.tongue.control.wait_for);
        line.value(&cx.quantity(time));
    }
    if let Some(until) = until {
        line.text(line.tongue.until);
        free_text::write(line, until.as_str(), cx);
    }
}

fn follow(line: &mut Line, call: &Call) {
    match (&call.number, &call.text) {
        (Some(number), _) => {
            line.text(line.tongue.control.do_it);
            line.text(number.as_str());
            if let Some(title) = &call.title {
                line.text(", ");
                line.own(title);
            }
        }
        (None, Some(title)) => {
            line.text(line.tongue.control.follow);
            line.own(&line.tongue.quoted(title.as_str()));
        }
        (None, None) => line.text(line.tongue.control.follow.trim_end()),
    }
}

fn repeat(line: &mut Line, repeat: &Repeat, cx: &Cx<'_>) {
    match (&repeat.to, repeat.from.step) {
        (Some(to), Some(from)) => {
            line.text(line.tongue.control.repeat);
            match to.step {
                Some(to) if to != from => line.text(&line.tongue.steps(from, to)),
                _ => line.step(from),
            }
        }
        _ => {
            line.text(line.tongue.control.repeat_from);
            jump(line, &repeat.from);
        }
    }
    if !repeat.for_each.is_empty() {
        line.text(line.tongue.for_each);
        for (index, it) in repeat.for_each.iter().enumerate() {
            objects::separate(line, index, repeat.for_each.len(), line.tongue.and);
            instance(line, it, cx);
        }
    }
    if let Some(until) = &repeat.until {
        line.text(line.tongue.until);
        free_text::write(line, until.as_str(), cx);
    }
    if let Some(times) = repeat.times {
        line.text(", ");
        line.text(&line.tongue.times(times.count, times.at_most));
    }
}

/// One round of a repeat: a declared thing or piece by its noun, else the author's words.
pub(super) fn instance(line: &mut Line, word: &Text, cx: &Cx<'_>) {
    match cx.declarations.find(word.as_str()).and_then(|name| Some((name, cx.declarations.thing(name)?))) {
        Some((name, thing)) => objects::mention(line, name, thing, word.as_str(), false, cx),
        None if line.tongue.articles => line.own(&written::instance(word.as_str())),
        None => line.own(&written::words_of(word.as_str())),
    }
}

fn jump(line: &mut Line, jump: &Jump) {
    match jump.step {
        Some(step) => line.step(step),
        None => line.text(line.tongue.control.earlier_step),
    }
}

/// "Work out the shim pack: spigot (step 4) − recess (step 5) + 0.08 mm. It must be 0.15–1.00 mm."
fn calculate(line: &mut Line, calculate: &Calculate, cx: &Cx<'_>) {
    match &calculate.text {
        Some(own) => free_text::write(line, own.as_str(), cx),
        None => {
            line.text(line.tongue.control.work_out);
            line.own(&written::words_of(calculate.name.as_str()));
        }
    }
    line.text(line.tongue.control.comes_to);
    expression(line, &calculate.expression, 0);
    if let Some(limits) = &calculate.limits {
        line.next_sentence();
        line.text(line.tongue.control.must_be);
        line.limit(&cx.quantity(limits));
    }
}

/// `outer` is how tightly the operator around it binds; a right-hand side that binds no tighter is bracketed.
fn expression(line: &mut Line, it: &Expression, outer: u8) {
    match it {
        Expression::Quantity(quantity) => line.value(&quantity.print_in(&line.tongue.figures)),
        Expression::Number(number) => line.text(&line.tongue.figures.number(*number)),
        Expression::Reading { label, step } => {
            line.own(&written::words_of(label.as_str()));
            if let Some(step) = step {
                line.text(" (");
                line.step(*step);
                line.text(")");
            }
        }
        Expression::Binary { operator, left, right } => {
            let (sign, binds) = match operator {
                '+' => (" + ", 1),
                '-' => (" \u{2212} ", 1),
                '*' => (" × ", 2),
                _ => (" ÷ ", 2),
            };
            let bracketed = binds < outer;
            line.text(if bracketed { "(" } else { "" });
            expression(line, left, binds);
            line.text(sign);
            expression(line, right, binds + 1);
            line.text(if bracketed { ")" } else { "" });
        }
    }
}
