//! How tight, in a sentence: one phrase where it is simple, a numbered list where it goes in passes.
use super::sentence::{Line, Sentence};
use super::tongue::Tongue;
use super::work::meanwhile;
use super::{Cx, free_text, written};
use crate::model::action::{TorqueException, Work};
use crate::model::declarations::Name;
use crate::model::quantity::{Exact, Number, Quantity};
use crate::model::tightening;
use crate::model::torque::{Align, AlignWay, Pass, PassTarget, Pattern, Torque, percent_of};
use crate::source::Text;

/// Whether there is anything to say about tightness in the sentence.
pub(super) fn says_something(work: &Work) -> bool {
    work.torque.as_ref().is_some_and(|torque| {
        let variants = torque.new.is_some() || torque.reused.is_some();
        let value = variants || value(torque).is_some();
        let aside = torque.pattern.is_some() || torque.condition.is_some() || torque.plus_drag.is_some();
        value || aside || !torque.passes.is_empty()
    })
}

/// Whether it only tries how tight fasteners are, and tightens none.
pub(super) fn only_checks(work: &Work) -> bool {
    work.torque.as_ref().is_some_and(|torque| {
        let values = [&torque.value, &torque.new, &torque.reused];
        torque.check.is_some() && torque.passes.is_empty() && values.iter().all(|value| value.is_none())
    })
}

/// More than a value with an angle after it.
fn is_staged(torque: &Torque) -> bool {
    use PassTarget::{Angle, Feel, Percent, Torque as Value};
    let targets: Vec<&PassTarget> = torque.passes.iter().map(|pass| &pass.target).collect();
    let plain = torque.passes.iter().all(|pass| pass.during.is_none() && pass.pattern.is_none());
    match targets.as_slice() {
        [] => false,
        [Value(_) | Feel(_)] => false,
        [Percent(percent)] => percent.value() != Exact::from_integer(100),
        [Value(_), Angle(_)] => !plain,
        _ => true,
    }
}

fn value(torque: &Torque) -> Option<&Quantity> {
    let of_pass = torque.passes.iter().find_map(|pass| match &pass.target {
        PassTarget::Torque(value) => Some(value),
        _ => None,
    });
    torque.value.as_ref().or(of_pass)
}

/// "to 8–10 N·m (71–88 lbf·in), crosswise" or "in 2 stages, crosswise" with the list; where the parts of the line have
/// torques of their own, a list of them.
pub(super) fn to_torque(line: &mut Line, work: &Work, cx: &Cx<'_>) {
    let Some(torque) = &work.torque else { return };
    if work.other_torques.is_empty() {
        return in_force(line, torque, work, cx);
    }
    line.text(line.tongue.tightening.each_to_its_own);
    let others = |at: usize| work.other_torques.iter().find(|(place, _)| *place == at).map(|(_, own)| own);
    let items = work.objects.iter().enumerate().map(|(at, object)| {
        let mut line = Line::new(cx);
        super::objects::objects(&mut line, std::slice::from_ref(object), cx);
        line.text(" ");
        in_force(&mut line, others(at).unwrap_or(torque), work, cx);
        line.finish()
    });
    line.list(items.collect());
}

fn in_force(line: &mut Line, torque: &Torque, work: &Work, cx: &Cx<'_>) {
    if is_staged(torque) {
        let stages = torque.passes.len() + usize::from(torque.align.is_some());
        let [before, after] = line.tongue.tightening.in_stages;
        line.text(&format!("{before}{stages}{after}"));
    } else {
        simple(line, torque, cx);
    }
    if torque.plus_drag.is_some() {
        line.text(line.tongue.tightening.plus_drag);
    }
    if let Some(condition) = &torque.condition {
        aside(line, line.tongue.threads(condition.value));
    }
    if let Some(pattern) = &torque.pattern {
        aside(line, &pattern_words(&pattern.value, line.tongue));
    }
    if is_staged(torque) {
        line.list(stages(torque, work, cx));
    }
}

fn aside(line: &mut Line, words: &str) {
    if !line.tongue.sets_off_tightening {
        line.text(" ");
        return line.text(words);
    }
    line.set_off();
    line.text(words);
    line.end_set_off();
}

fn simple(line: &mut Line, torque: &Torque, cx: &Cx<'_>) {
    match (&torque.new, &torque.reused) {
        (None, None) => simple_value(line, torque, cx),
        (new, reused) => {
            line.text(line.tongue.to);
            variants(line, new.as_ref().or(value(torque)), reused.as_ref().or(value(torque)), cx)
        }
    }
    if let Some(first) = torque.passes.first()
        && let Some(during) = &first.during
    {
        line.text(line.tongue.during);
        meanwhile(line, during.as_str(), cx);
    }
}

fn simple_value(line: &mut Line, torque: &Torque, cx: &Cx<'_>) {
    if let Some(value) = value(torque) {
        line.text(line.tongue.to);
        line.torque(&cx.quantity(value));
    }
    for pass in &torque.passes {
        match &pass.target {
            PassTarget::Angle(angle) => {
                let [before, after] = line.tongue.tightening.then_turn;
                line.text(before);
                line.torque(&cx.quantity(angle));
                line.text(after);
            }
            PassTarget::Feel(feel) => line.text(line.tongue.feel(*feel)),
            _ => {}
        }
    }
}

/// "60 N·m if new, 55 N·m if reused".
fn variants(line: &mut Line, new: Option<&Quantity>, reused: Option<&Quantity>, cx: &Cx<'_>) {
    if let Some(new) = new {
        line.torque(&cx.quantity(new));
        line.text(line.tongue.tightening.if_new);
    }
    if let Some(reused) = reused {
        line.text(if new.is_some() { ", " } else { "" });
        line.torque(&cx.quantity(reused));
        line.text(line.tongue.tightening.if_reused);
    }
}

fn pattern_words(pattern: &Pattern, tongue: &Tongue) -> String {
    let words = &tongue.tightening;
    match pattern {
        Pattern::Crosswise => words.crosswise.to_owned(),
        Pattern::Clockwise => words.clockwise.to_owned(),
        Pattern::FromCentre => words.from_centre.to_owned(),
        Pattern::FromEnds => words.from_ends.to_owned(),
        Pattern::Order(order) => {
            let order: Vec<String> = order.iter().map(u32::to_string).collect();
            format!("{}{}", words.in_order, order.join("\u{2013}"))
        }
    }
}

fn stages(torque: &Torque, work: &Work, cx: &Cx<'_>) -> Vec<Sentence> {
    let passes = (1..).zip(&torque.passes).map(|(number, pass)| {
        let mut line = Line::new(cx);
        target(&mut line, torque, pass, cx);
        if let Some(during) = &pass.during {
            line.text(line.tongue.during);
            meanwhile(&mut line, during.as_str(), cx);
        }
        if let Some(pattern) = &pass.pattern {
            aside(&mut line, &pattern_words(&pattern.value, cx.tongue));
        }
        let exceptions = work.exceptions.iter().filter(|it| it.stage.value == number);
        exceptions.for_each(|it| exception(&mut line, it, cx));
        if let Some(set) = of_pass(torque, pass).and_then(|value| set_to(work, &value, cx)) {
            line.text(line.tongue.tightening.wrench_at);
            line.torque(&cx.quantity(&set));
        }
        line.finish()
    });
    let align = torque.align.as_ref().map(|align| {
        let mut line = Line::new(cx);
        alignment(&mut line, align, cx);
        line.finish()
    });
    passes.chain(align).collect()
}

/// The torque that the wrench shows in the pass; none where it differs between new and reused ones.
fn of_pass(torque: &Torque, pass: &Pass) -> Option<Quantity> {
    match &pass.target {
        PassTarget::Torque(value) | PassTarget::LoosenTo(value) => Some(value.clone()),
        PassTarget::Percent(percent) => torque.value.as_ref().and_then(|whole| percent_of(whole, percent)),
        _ => None,
    }
}

/// What the wrench is set to where an adapter changes it.
fn set_to(work: &Work, value: &Quantity, cx: &Cx<'_>) -> Option<Quantity> {
    tightening::adapters(work, cx.declarations).next()?;
    let setting = tightening::setting(work, value, cx.declarations)?;
    (setting.share != Exact::from_integer(1)).then_some(setting.value)
}

/// "Hold the crow-foot adapter at 90° to the torque wrench. Set the wrench to 31–35 N·m."
fn adapted(line: &mut Line, torque: &Torque, work: &Work, cx: &Cx<'_>) {
    let Some((id, _)) = tightening::adapters(work, cx.declarations).next() else { return };
    let Some((wrench, _)) = tightening::wrenches(work, cx.declarations).next() else { return };
    let object = |id: u32| work.tools.iter().find(move |tool| tool.name == Some(Name::Tool(id)));
    let (Some(adapter), Some(wrench)) = (object(id), object(wrench)) else { return };
    line.next_sentence();
    line.text(line.tongue.tightening.hold);
    super::objects::objects(line, std::slice::from_ref(adapter), cx);
    let degrees = work.adapter_angle.as_ref().and_then(Quantity::upper).unwrap_or(Exact::from_integer(0));
    match (degrees == Exact::from_integer(0), degrees == Exact::from_integer(180), &work.adapter_angle) {
        (false, false, Some(angle)) => {
            let [before, after] = line.tongue.tightening.at_an_angle;
            line.text(before);
            line.value(&cx.quantity(angle));
            line.text(after);
        }
        (_, true, _) => line.text(line.tongue.tightening.turned_back),
        _ => line.text(line.tongue.tightening.straight_on),
    }
    super::objects::objects(line, std::slice::from_ref(wrench), cx);
    let of = |value: &Option<Quantity>| value.as_ref().and_then(|value| set_to(work, value, cx));
    let staged = is_staged(torque);
    let (all, new, reused) = (of(&torque.value).filter(|_| !staged), of(&torque.new), of(&torque.reused));
    let check = of(&torque.check);
    if all.is_none() && new.is_none() && reused.is_none() && check.is_none() {
        return;
    }
    line.next_sentence();
    line.text(line.tongue.tightening.set_wrench);
    if new.is_some() || reused.is_some() {
        variants(line, new.as_ref().or(all.as_ref()), reused.as_ref().or(all.as_ref()), cx);
    } else if let Some(set) = all.or(check) {
        line.torque(&cx.quantity(&set));
    }
}

fn target(line: &mut Line, torque: &Torque, pass: &Pass, cx: &Cx<'_>) {
    let words = &line.tongue.tightening;
    let ([turn, further], tighten_to) = (words.turn, words.tighten_to);
    let (before, value, after) = match &pass.target {
        PassTarget::Percent(percent) => return percent_pass(line, torque, percent, cx),
        PassTarget::Torque(value) => (tighten_to, value, ""),
        PassTarget::Angle(angle) => (turn, angle, further),
        PassTarget::LoosenTo(value) => (words.loosen_to, value, ""),
        PassTarget::BackOff(angle) => (words.back_off, angle, ""),
        PassTarget::Length(length) => (words.stretch, length, ""),
        PassTarget::LoosenToFeel(feel) => {
            line.text(words.loosen_to);
            return line.text(line.tongue.loosened_feel(*feel));
        }
        PassTarget::Feel(feel) => {
            line.text(words.tighten);
            return line.text(line.tongue.feel(*feel));
        }
    };
    line.text(before);
    line.torque(&cx.quantity(value));
    line.text(after);
}

/// "Tighten to 4–5 N·m, 50 %": worked out, so that nobody does it at the bench.
fn percent_pass(line: &mut Line, torque: &Torque, percent: &Number, cx: &Cx<'_>) {
    let part = |whole: &Quantity| percent_of(whole, percent);
    let share = format!("{} %", line.tongue.figures.number(*percent));
    let [all, new, reused] =
        [&torque.value, &torque.new, &torque.reused].map(|value| value.as_ref().and_then(part));
    line.text(line.tongue.tightening.tighten_to);
    if new.is_some() || reused.is_some() {
        variants(line, new.as_ref().or(all.as_ref()), reused.as_ref().or(all.as_ref()), cx);
    } else if let Some(all) = all {
        line.torque(&cx.quantity(&all));
    } else {
        line.torque(&share);
        return line.text(line.tongue.tightening.of_the_torque);
    }
    if percent.value() != Exact::from_integer(100) {
        line.text(", ");
        line.torque(&share);
    }
}

/// ", the second bolt to 270 lbf·ft" inside the stage it changes.
fn exception(line: &mut Line, exception: &TorqueException, cx: &Cx<'_>) {
    line.text(line.tongue.tightening.except);
    if let Some(on) = &exception.on {
        piece(line, on, cx);
        line.text(line.tongue.to);
    }
    line.torque(&cx.quantity(&exception.value));
}

fn piece(line: &mut Line, word: &Text, cx: &Cx<'_>) {
    free_text::write(line, &format!("[{}]", word.as_str()), cx);
}

fn alignment(line: &mut Line, align: &Align, cx: &Cx<'_>) {
    if align.way == AlignWay::NeverMoved {
        return line.text(line.tongue.tightening.never_moved);
    }
    line.text(line.tongue.tightening.line_up);
    line.own(&written::words_of(align.feature.as_str()));
    line.text(line.tongue.align(align.way));
    if let Some(limit) = &align.not_above {
        line.text(line.tongue.tightening.not_above);
        line.torque(&cx.quantity(limit));
    }
}

/// Sentences after the one that tightens.
pub(super) fn afterwards(line: &mut Line, work: &Work, cx: &Cx<'_>) {
    let Some(torque) = &work.torque else { return };
    if work.verb.tightens() {
        adapted(line, torque, work, cx);
    }
    if let Some(align) = torque.align.as_ref().filter(|_| !is_staged(torque)) {
        line.next_sentence();
        alignment(line, align, cx);
    }
    if let Some(check) = &torque.check {
        line.next_sentence();
        let [one, many] = line.tongue.tightening.must_not_turn;
        line.text(if super::objects::are_many(&work.objects, cx) { many } else { one });
        line.torque(&cx.quantity(check));
    }
    if torque.not_specified.is_some() {
        line.next_sentence();
        line.text(line.tongue.tightening.not_specified);
    }
    for it in work.exceptions.iter().filter(|_| !is_staged(torque)) {
        line.next_sentence();
        exception_alone(line, it, cx);
    }
}

fn exception_alone(line: &mut Line, exception: &TorqueException, cx: &Cx<'_>) {
    line.text(line.tongue.tightening.tighten);
    if let Some(on) = &exception.on {
        piece(line, on, cx);
    }
    line.text(line.tongue.to);
    line.torque(&cx.quantity(&exception.value));
}

/// What an author's own sentence must not make the reader miss.
pub(super) fn after_own_words(line: &mut Line, work: &Work, cx: &Cx<'_>) {
    if work.verb.tightens() && says_something(work) && !only_checks(work) {
        line.next_sentence();
        line.text(line.tongue.tightening.tighten);
        to_torque(line, work, cx);
    }
    afterwards(line, work, cx);
}
